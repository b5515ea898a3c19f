//! Where output goes: data to stdout, notes and progress to stderr.

use std::io::{self, IsTerminal, Write};
use std::time::Duration;

use indicatif::{ProgressBar, ProgressStyle};
use serde::Serialize;

use costcard::files::{Fault, Faults};
use costcard::show::page::{Page, WIDEST, wrapped};

use super::args::Common;
use super::faults;
use super::usage::Usage;

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

/// The page people read: its units and its width.
pub fn page(common: &Common) -> Page {
    let width = width(io::stdout().is_terminal());
    Page::new(common.units.into(), width)
}

/// Characters to a line: what the environment says in `COLUMNS`, else the terminal, else as wide as is good to read.
fn width(is_terminal: bool) -> usize {
    let said = std::env::var("COLUMNS").ok();
    let said = said.and_then(|columns| columns.parse().ok());
    let terminal = || {
        let width = comfy_table::Table::new().width();
        width.filter(|_| is_terminal).map(usize::from)
    };
    said.filter(|columns| *columns > 0)
        .or_else(terminal)
        .unwrap_or(WIDEST)
}

/// A closed pipe (`| head`) is how a reader says that it has enough.
pub fn is_closed_pipe(error: &anyhow::Error) -> bool {
    error.chain().any(|cause| {
        let kind = cause
            .downcast_ref::<io::Error>()
            .map(io::Error::kind)
            .or_else(|| {
                cause
                    .downcast_ref::<serde_json::Error>()
                    .and_then(serde_json::Error::io_error_kind)
            });
        kind == Some(io::ErrorKind::BrokenPipe)
    })
}

/// Writes to stderr; where nobody listens there is nobody to tell.
fn complain(text: &str) {
    let _ = anstream::stderr().write_all(text.as_bytes());
}

/// Tells what a reader should know beside the result.
pub fn note(text: &str) {
    complain(&wrapped(&format!("note: {text}"), stderr_width(), 6));
}

/// What a script prints, as it stands.
pub fn printed(text: &str) {
    complain(&format!("{text}\n"));
}

/// Tells faults in files.
pub fn print_faults(faults: &Faults) {
    let list: Vec<&Fault> = faults.list().iter().collect();
    print_fault_list(&list, faults.more());
}

/// Tells faults, and how many more there are.
pub fn print_fault_list(list: &[&Fault], more: usize) {
    complain(&faults::shown(list, more, stderr_width()));
}

/// Tells a fault on the command line.
pub fn print_usage(usage: &Usage) {
    let (message, hint) = (&usage.message, Some(&*usage.hint));
    complain(&faults::fitted_plain(message, hint, stderr_width()));
}

/// Tells what is wrong in the user's input beside what was done.
pub fn complaint(text: &str) {
    complain(&faults::plain(&wrapped(text, stderr_width(), 7), None));
}

/// Tells a fault that is not in the user's input.
pub fn print_error(error: &anyhow::Error) {
    let message = format!("{error:#}");
    complain(&faults::fitted_plain(&message, None, stderr_width()));
}

fn stderr_width() -> usize {
    width(io::stderr().is_terminal())
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
    bar.set_message("solving holes");
    bar.enable_steady_tick(Duration::from_millis(200));
    bar
}

/// Tells the bar of rounds that are finished.
pub fn advance(bar: &ProgressBar, rounds: u64) {
    if bar.position() == 0 {
        bar.set_message("playing rounds");
    }
    bar.inc(rounds);
}

/// A bar of cells with the time left on a terminal, nothing anywhere else.
pub fn cells() -> ProgressBar {
    if !io::stderr().is_terminal() {
        return ProgressBar::hidden();
    }
    let bar = ProgressBar::new(0);
    let template = "{wide_bar} {pos} of {len} cells, {eta} left";
    if let Ok(style) = ProgressStyle::with_template(template) {
        bar.set_style(style);
    }
    bar.enable_steady_tick(Duration::from_millis(500));
    bar
}
