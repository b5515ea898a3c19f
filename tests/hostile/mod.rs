//! What nobody means well: files nested without end, huge numbers, sheets of a million faults, holes nobody can play,
//! disks that are full, pipes that are closed. An answer or a clear message, in bounded time, and never half a file.

#![allow(clippy::expect_used)] // a test may stop

mod endless;
mod ground;
mod marks;
mod numbers;
mod output;

use std::time::{Duration, Instant};

use costcard::files::{Faults, Source};

/// How long a hostile file may take, on a machine that is busy with others: a hundredth of it when alone.
const PATIENCE: Duration = Duration::from_secs(20);

/// What is told of a text by a reader, which must not take long.
fn told<T>(name: &str, text: &str, read: impl Fn(&Source) -> Result<T, Faults>) -> String {
    let start = Instant::now();
    let told = crate::bad_input::told(read(&Source::new(name, text)));
    let took = start.elapsed();
    assert!(took < PATIENCE, "{took:?}: {}", short(&told));
    assert!(told.len() < 100_000, "{} bytes told", told.len());
    told
}

/// The beginning of a text.
fn short(text: &str) -> String {
    text.chars().take(300).collect()
}
