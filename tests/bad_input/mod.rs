//! Input at fault: one clear message each, the whole of it asserted.

#![allow(clippy::expect_used)] // a test may stop

mod changes;
mod course;
mod draw;
mod files;
mod player;
mod program;
mod scores;
mod tees;

use costcard::files::Faults;

/// What the user is told.
pub fn told<T>(result: Result<T, Faults>) -> String {
    match result {
        Ok(_) => "no fault".to_owned(),
        Err(faults) => faults.to_string(),
    }
}
