//! A handicap index and the record behind it, for people.

use crate::cost::handicap::Tenths;
use crate::cost::handicap::document::OnCourse;
use crate::cost::handicap::record::{Adjustment, Entry, Played, Reason, Record};

use super::page::{Page, tied};
use super::table::{table, text};

/// The index, what moved it, and the latest differentials.
#[must_use]
pub fn handicap(record: &Record, on_course: Option<OnCourse>, page: Page) -> String {
    let mut out = page.paragraph(&headline(record));
    for adjustment in &record.adjustments {
        out += &page.paragraph(&moved(*adjustment));
    }
    if let Some(low) = record.low_index {
        let low = format!("Low index of the last 365 days: {}.", signed(low));
        out += &page.paragraph(&low);
    }
    if let Some(on) = on_course {
        out += &page.paragraph(&allowed(on));
    }
    out.push('\n');
    out += &differentials(record, page);
    out.push('\n');
    out += &page.item("* Used in the index.");
    out
}

fn headline(record: &Record) -> String {
    let Some(index) = record.index else {
        return "No handicap index yet: it needs three scores.".into();
    };
    let used = record.latest().iter().filter(|entry| entry.used).count();
    let of = match record.latest().len() {
        20 => "last 20 differentials".to_owned(),
        few => format!("{few} differentials"),
    };
    let mean = match used {
        1 => format!("the lowest of the {of}"),
        many => format!("the mean of the lowest {many} of the {of}"),
    };
    format!("Handicap index {}: {mean}.", tied(&signed(index)))
}

fn moved(adjustment: Adjustment) -> String {
    let by = Tenths::new(adjustment.strokes.tenths().abs());
    let day = adjustment.date.map(|date| format!(" of {date}"));
    let day = day.unwrap_or_default();
    match adjustment.reason {
        Reason::FewScores => format!("With so few scores {by} is taken off."),
        Reason::ExceptionalScore => {
            format!("The exceptional score{day} takes {by} off it and the differentials before it.")
        }
        Reason::SoftCap => format!(
            "The soft cap takes {by} off: over the low index, what exceeds 3.0 counts half."
        ),
        Reason::HardCap => {
            format!("The hard cap takes {by} off: no index rises more than 5.0 over the low index.")
        }
        Reason::HighestIndex => format!("The highest index is 54.0, {by} less."),
    }
}

fn allowed(on: OnCourse) -> String {
    let whole = |strokes: i32| match strokes {
        plus if plus < 0 => format!("+{}", -plus),
        shown => shown.to_string(),
    };
    let course = format!("Course handicap {}", whole(on.course_handicap));
    let playing = whole(on.playing_handicap);
    format!(
        "{course}; playing handicap {playing} at {} %.",
        on.allowance_pct
    )
}

/// An index as golfers write it: plus handicaps with a plus sign.
#[must_use]
pub fn signed(index: Tenths) -> String {
    match index {
        plus if plus < Tenths::ZERO => format!("+{}", -plus),
        shown => shown.to_string(),
    }
}

fn differentials(record: &Record, page: Page) -> String {
    let is_adjusted = |entry: &Entry| entry.adjusted != entry.differential;
    let any_adjusted = record.latest().iter().any(is_adjusted);
    let mut headings = vec!["date", "holes", "adjusted\ngross", "differential"];
    headings.extend(any_adjusted.then_some("after exceptional\nscores"));
    headings.push("");
    let mut rows = table(headings, 1);
    for entry in record.latest().iter().rev() {
        let mut cells = vec![
            entry.date.to_string(),
            holes(entry.played).to_owned(),
            entry.adjusted_gross.to_string(),
            entry.differential.to_string(),
        ];
        cells.extend(any_adjusted.then(|| entry.adjusted.to_string()));
        cells.push(if entry.used { "*" } else { "" }.to_owned());
        rows.add_row(cells);
    }
    text(&rows, page)
}

fn holes(played: Played) -> &'static str {
    match played {
        Played::Eighteen => "18",
        Played::Nine => "9",
        Played::TwoNines => "9 + 9",
    }
}
