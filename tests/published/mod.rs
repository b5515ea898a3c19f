//! Checks against published figures: one file per subject, each figure with its source.

// A table that cannot be read should stop the test that reads it.
#![allow(clippy::unwrap_used)]

mod approaches;
pub mod checks;
mod delivery;
mod flight;
mod handicap;
mod impact;
mod levels;
mod putting;
mod ratings;
mod rounds;
mod strokes;
mod table;
mod turf;

/// Rows of a published table, without its comment lines and header.
fn table(text: &str) -> Vec<Vec<String>> {
    let rows = text
        .lines()
        .filter(|line| !line.starts_with('#') && !line.trim().is_empty())
        .skip(1);
    rows.map(|line| line.split(',').map(str::to_owned).collect())
        .collect()
}

/// A number of such a row.
fn number(row: &[String], column: usize) -> f64 {
    row[column].parse().unwrap()
}
