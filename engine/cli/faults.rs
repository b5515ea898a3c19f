//! Faults in users' files, shown with the line at fault.

use std::ops::Range;

use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};

use costcard::cost::PlayError;
use costcard::files::{Fault, line_start};
use costcard::round::clubs::ClubsError;
use costcard::show::page::{WIDEST, wrapped};

/// All faults as a text with colours, which `anstream` takes off where nobody sees them.
pub fn shown(faults: &[&Fault], more: usize, width: usize) -> String {
    let mut out: Vec<String> = faults.iter().map(|fault| one(fault, width)).collect();
    if more > 0 {
        out.push(format!("and {more} more\n"));
    }
    out.join("\n")
}

fn one(fault: &Fault, width: usize) -> String {
    let Some(span) = &fault.span else {
        let hint = fault.hint.as_deref();
        let message = format!("{}: {}", fault.source.name, fault.message);
        return fitted_plain(&message, hint, width);
    };
    let (text, line_start, span) = line_of(
        &fault.source.text,
        span,
        fault.source.position(span.start).line,
    );
    let snippet = Snippet::source(text)
        .line_start(line_start)
        .path(&*fault.source.name)
        .fold(false)
        .annotation(AnnotationKind::Primary.span(span));
    let message = fitted(&fault.message, width, "error: ");
    let mut group: Group<'_> = Level::ERROR.primary_title(&message).element(snippet);
    let hint = fault.hint.as_deref();
    let hint = hint.map(|hint| fitted(hint, width, "  = hint: "));
    if let Some(hint) = &hint {
        group = group.element(Level::HELP.with_name("hint").message(hint));
    }
    Renderer::styled().term_width(width).render(&[group]) + "\n"
}

/// A text in lines that have room behind `head` on a page that is narrower than usual; else the terminal breaks it.
fn fitted(text: &str, width: usize, head: &str) -> String {
    if width >= WIDEST {
        return text.to_owned();
    }
    let room = width.saturating_sub(head.len());
    wrapped(text, room, 0).trim_end().to_owned()
}

/// The same in lines of a narrow page.
pub fn fitted_plain(message: &str, hint: Option<&str>, width: usize) -> String {
    let message = fitted(message, width, "error: ");
    let hint = hint.map(|hint| fitted(hint, width, "hint: "));
    plain(&message, hint.as_deref())
}

/// A message without a place, and its hint.
pub fn plain(message: &str, hint: Option<&str>) -> String {
    let mut out = format!("{RED}error{RESET}{BOLD}: {message}{RESET}\n");
    if let Some(hint) = hint {
        out += &format!("\n{BOLD}hint{RESET}: {hint}\n");
    }
    out
}

const BOLD: &str = "\u{1b}[1m";
const RED: &str = "\u{1b}[1;91m";
const RESET: &str = "\u{1b}[0m";

/// The line a span begins on, its number, and the span within it: a fault that runs over many lines is pointed at where it begins.
fn line_of<'a>(text: &'a str, span: &Range<usize>, line: usize) -> (&'a str, usize, Range<usize>) {
    let [from, to] = [span.start, span.end].map(|at| text.floor_char_boundary(at));
    let start = line_start(text, from);
    let end = text[start..].find(['\n', '\r']);
    let end = end.map_or(text.len(), |at| start + at);
    let (from, to) = (from.min(end), to.min(end));
    (&text[start..end], line, from - start..to.max(from) - start)
}

/// A rule that failed is the user's to mend, and is told as such.
pub fn of_play(error: PlayError) -> anyhow::Error {
    match error {
        PlayError::Rule(faults) => faults.into(),
        PlayError::Level(error) => error.into(),
        PlayError::Pattern(fault) => fault.into(),
    }
}

/// The same of a rule that failed while clubs were looked at.
pub fn of_clubs(error: ClubsError) -> anyhow::Error {
    match error {
        ClubsError::Rule(faults) => faults.into(),
        ClubsError::Pattern(fault) => fault.into(),
    }
}
