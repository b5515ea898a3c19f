//! Where output goes: data to stdout, notes and progress to stderr.

use std::io::{self, IsTerminal, Write};
use std::time::Duration;

use indicatif::{ProgressBar, ProgressStyle};
use serde::Serialize;

use costcard::files::Faults;

/// Writes a text to stdout.
pub fn print(text: &str) -> anyhow::Result<()> {
    let mut out = io::stdout().lock();
    out.write_all(text.as_bytes())?;
    Ok(out.flush()?)
}

/// Writes one JSON document to stdout.
pub fn print_json(document: &impl Serialize) -> anyhow::Result<()> {
    print(&(serde_json::to_string_pretty(document)? + "\n"))
}

/// A closed pipe (`| head`) is how a reader says that it has enough.
pub fn is_closed_pipe(error: &anyhow::Error) -> bool {
    error
        .chain()
        .filter_map(|cause| cause.downcast_ref::<io::Error>())
        .any(|cause| cause.kind() == io::ErrorKind::BrokenPipe)
}

/// A fault that is not in the user's input.
pub fn print_error(error: &anyhow::Error) {
    let _ = writeln!(io::stderr(), "error: {error:#}");
}

/// A bar on a terminal, nothing anywhere else.
pub fn progress(rounds: u64) -> ProgressBar {
    if !io::stderr().is_terminal() {
        return ProgressBar::hidden();
    }
    let bar = ProgressBar::new(rounds);
    if let Ok(style) = ProgressStyle::with_template("{msg} {wide_bar} {percent} %") {
        bar.set_style(style);
    }
    bar.set_message("playing");
    bar.enable_steady_tick(Duration::from_millis(200));
    bar
}
