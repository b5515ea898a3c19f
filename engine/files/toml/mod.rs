//! TOML files, read value by value so that every fault of a file is found in one pass.

mod entry;
mod outline;
mod table;

use std::collections::HashSet;

use ::toml::Spanned;
use ::toml::de::{DeTable, Error};

pub use entry::{Entry, Kind};
pub use outline::Outline;
pub use table::Table;

pub(crate) use outline::{ANY, Form, PARTS, Place};

use super::{Collector, Faults, Source};

/// The longest file read, bytes. A course or a player takes kilobytes; tables take many times their text in memory.
const LONGEST_BYTES: usize = 8 * 1024 * 1024;
/// Of a longer file that is broken only the first fault is told: there may be one in every other byte.
const LONGEST_RECOVERED: usize = 1024 * 1024;

/// Reads a file whose outermost keys are `keys`: the closure takes what it needs from the table and returns the
/// value built, or `None` when something it needs was at fault (the fault itself is already noted).
///
/// # Errors
/// Every fault of the file: broken TOML alone, otherwise whatever the closure's reading found.
pub fn read<T>(
    source: &Source,
    keys: &[&'static str],
    build: impl FnOnce(&Table<'_>) -> Option<T>,
) -> Result<T, Faults> {
    with(Collector::new(source), keys, build).map(|(value, _)| value)
}

/// What a reader asks of a sound sample, in place of what it makes of it.
///
/// # Errors
/// As [`read`].
pub fn outline<T>(
    source: &Source,
    keys: &[&'static str],
    build: impl FnOnce(&Table<'_>) -> Option<T>,
) -> Result<Outline, Faults> {
    with(Collector::with_outline(source), keys, build).map(|(_, outline)| outline)
}

fn with<T>(
    collector: Collector,
    keys: &[&'static str],
    build: impl FnOnce(&Table<'_>) -> Option<T>,
) -> Result<(T, Outline), Faults> {
    let source = collector.source().clone();
    if source.text.len() > LONGEST_BYTES {
        let message = format!(
            "this file is larger than {} MB",
            LONGEST_BYTES / 1024 / 1024
        );
        let hint =
            "a file of tables takes kilobytes; what stands in this one may be something else";
        collector.add(0..0, message, Some(hint.to_owned()));
        return Err(collector.faults());
    }
    let (root, errors) = parsed(&source.text);
    if errors.is_empty() {
        let table = Table::open(
            &collector,
            root.get_ref(),
            0..0,
            "this file".to_owned(),
            Some(keys),
            collector.outline(|_| String::new()),
        );
        let value = build(&table);
        let outline = collector.take_outline();
        return Ok((collector.finish(value)?, outline));
    }
    note_syntax(&collector, &errors);
    Err(collector.faults())
}

/// The tables of a text and what is broken in it.
fn parsed(text: &str) -> (Spanned<DeTable<'_>>, Vec<Error>) {
    if text.len() <= LONGEST_RECOVERED {
        return DeTable::parse_recoverable(text);
    }
    match DeTable::parse(text) {
        Ok(root) => (root, Vec::new()),
        Err(error) => (Spanned::new(0..0, DeTable::new()), vec![error]),
    }
}

/// Notes broken TOML, one fault a line: what follows the first on a line is mostly its echo.
fn note_syntax(collector: &Collector, errors: &[Error]) {
    let text = &collector.source().text;
    let breaks: Vec<usize> = text.match_indices('\n').map(|(at, _)| at).collect();
    let mut lines = HashSet::new();
    for error in errors {
        let span = error.span().unwrap_or(text.len()..text.len());
        // The line, by the breaks before it.
        if !lines.insert(breaks.partition_point(|at| *at < span.start)) {
            continue;
        }
        let at_fault = text.get(span.clone()).unwrap_or_default().trim();
        // What the parser would have accepted next is its own affair; the advice says what to write.
        let (message, _) = error
            .message()
            .split_once(", expected")
            .unwrap_or((error.message(), ""));
        let message = if at_fault.is_empty() && message.contains("must be quoted") {
            "missing value"
        } else {
            message
        };
        let line = line_at(text, span.start);
        if let Some((message, hint)) = foreign(line) {
            collector.add(span, message.to_owned(), Some(hint));
            continue;
        }
        let quote = if at_fault.is_empty() || at_fault.contains('\n') {
            String::new()
        } else {
            format!(": {at_fault}")
        };
        collector.add(
            span,
            format!("broken TOML: {message}{quote}"),
            Some(advice(message)),
        );
    }
}

/// The line of a text that a place stands on.
fn line_at(text: &str, at: usize) -> &str {
    let before = text.get(..at).unwrap_or(text);
    let start = before.rfind('\n').map_or(0, |end| end + 1);
    text[start..].lines().next().unwrap_or_default()
}

/// What is wrong with a line that is written as elsewhere: a comma in a number, a semicolon at its end.
fn foreign(line: &str) -> Option<(&'static str, String)> {
    let code = line.split('#').next().unwrap_or_default().trim_end();
    if let Some(before) = code.strip_suffix(';') {
        let hint = format!("write it without: `{}`", before.trim());
        return Some(("a line ends without a semicolon", hint));
    }
    let of_number = |c: char| c.is_ascii_digit() || matches!(c, '-' | '+');
    code.match_indices(',').find_map(|(at, _)| {
        let whole_from = code[..at].trim_end_matches(of_number).len();
        let (whole, rest) = (&code[whole_from..at], &code[at + 1..]);
        let digits = rest.len() - rest.trim_start_matches(|c: char| c.is_ascii_digit()).len();
        let is_value = code[..whole_from].trim_end().ends_with('=');
        (is_value && !whole.is_empty() && digits > 0).then(|| {
            let hint = format!("write a point: `{whole}.{}`", &rest[..digits]);
            ("a number has no comma", hint)
        })
    })
}

/// What to write instead of broken TOML, by a part of the parser's message.
const ADVICE: &[(&str, &str)] = &[
    (
        "must be quoted",
        "put text in quotes: `name = \"Long Meadow\"`",
    ),
    (
        "duplicate key",
        "each key stands once in a table; remove one of the two",
    ),
    (
        "key with no value",
        "a line reads `key = value`, for instance `par = 4`",
    ),
    (
        "extra assignment",
        "a line holds one `key = value`; put the next on a line of its own",
    ),
    ("missing comma", "put a comma between the values"),
    ("missing value", "write a value after the `=`"),
    (
        "unclosed array table",
        "the title of a list entry ends with two brackets: `[[holes]]`",
    ),
    ("unclosed array", "close the list with `]`"),
    ("unclosed inline table", "close the braces with `}`"),
    (
        "unclosed table",
        "the title of a table ends with a bracket: `[conditions]`",
    ),
    (
        "recurs",
        "lists, tables and the parts of a key lie a few deep in each other at most",
    ),
    ("leading zero", "write the number without zeros before it"),
    (
        "unexpected key or value",
        "a line holds one `key = value`, and text stands in quotes",
    ),
    (
        "invalid literal string",
        "close the text with the quote it began with",
    ),
    (
        "invalid basic string",
        "close the text with the quote it began with",
    ),
];

/// What to write instead of broken TOML.
fn advice(message: &str) -> String {
    ADVICE
        .iter()
        .find(|(part, _)| message.contains(part))
        .map_or(
            "a line reads `key = value`; text stands in quotes, a list in brackets",
            |(_, say)| say,
        )
        .to_owned()
}
