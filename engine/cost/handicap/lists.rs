//! The three lists of a score told hole by hole.

use super::holes::{Hole, ranks};
use super::sheet::HOLES;
use crate::files::sheet::Row;

const PARS: &str = "hole_pars";
const INDEXES: &str = "stroke_indexes";
/// A hole picked up.
const PICKED_UP: &str = "x";
/// Most strokes of a hole.
const MOST: u8 = 40;
/// Highest stroke index.
const HIGHEST_INDEX: u8 = 36;

/// How many holes the list of scores has; none where there is no list.
pub(super) fn count(row: &Row<'_>) -> Option<usize> {
    row.has(HOLES)
        .then(|| row.text(HOLES).map_or(0, |text| words(text).count()))
}

/// The holes and what was scored on each, none where it was picked up. `par` is the course's, where it is told.
pub(super) fn read(row: &Row<'_>, holes: u8, par: Option<i32>) -> Option<Vec<(Hole, Option<u8>)>> {
    let scores = list(row, HOLES, holes, |word| match word {
        PICKED_UP => Some(None),
        word => within(word, 1, MOST).map(Some),
    });
    let pars = list(row, PARS, holes, |word| within(word, 3, 6));
    let indexes = list(row, INDEXES, holes, |word| within(word, 1, HIGHEST_INDEX));
    let pars = pars.and_then(|pars| agreeing_par(row, pars, par));
    let indexes = indexes.and_then(|indexes| distinct(row, indexes));
    let ranks = ranks(&indexes?);
    let holes = pars?.into_iter().zip(ranks);
    let holes = holes.map(|(par, rank)| Hole { par, rank });
    Some(holes.zip(scores?).collect())
}

/// The holes, when a gross score beside them is their sum.
pub(super) fn agreeing(
    row: &Row<'_>,
    holes: Vec<(Hole, Option<u8>)>,
    gross: Option<i32>,
) -> Option<Vec<(Hole, Option<u8>)>> {
    let sum: Option<i32> = holes.iter().map(|(_, score)| score.map(i32::from)).sum();
    match (gross, sum) {
        (Some(gross), Some(sum)) if gross != sum => {
            let message = format!("`gross` is {gross}, but the hole scores add up to {sum}");
            row.fault(
                "gross",
                message,
                "correct one of them, or leave `gross` empty",
            );
            None
        }
        (Some(_), None) => {
            let message = "a round with a hole picked up has no gross score".to_owned();
            row.fault("gross", message, "leave it empty");
            None
        }
        _ => Some(holes),
    }
}

fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split_whitespace()
}

fn within(word: &str, least: u8, most: u8) -> Option<u8> {
    word.parse().ok().filter(|n| (least..=most).contains(n))
}

/// A list in one cell, of one word for each hole.
fn list<T>(
    row: &Row<'_>,
    column: &'static str,
    holes: u8,
    read: impl Fn(&str) -> Option<T>,
) -> Option<Vec<T>> {
    if !row.knows(column) {
        let message = format!("hole scores need a column `{column}` beside them");
        row.fault(HOLES, message, hint(column));
        return None;
    }
    let text = row.text(column)?;
    let mut values = Vec::new();
    for word in words(text) {
        let Some(value) = read(word) else {
            let message = format!("`{word}` cannot stand in `{column}`");
            row.fault(column, message, hint(column));
            return None;
        };
        values.push(value);
    }
    if values.len() != usize::from(holes) {
        let message = format!(
            "`{column}` has {} holes, but the score is one of {holes}",
            values.len()
        );
        row.fault(column, message, missing(column));
        return None;
    }
    Some(values)
}

fn hint(column: &str) -> &'static str {
    match column {
        PARS => "write the par of each hole, with blanks between: 4 4 5 3 …",
        INDEXES => "write the stroke index of each hole, with blanks between: 7 11 3 17 …",
        _ => "write the score of each hole, with blanks between, `x` for one picked up: 5 4 x 3 …",
    }
}

fn missing(column: &str) -> &'static str {
    match column {
        HOLES => "write every hole, `x` for one picked up; 9 holes need `holes` to be 9",
        _ => "write one number for each hole",
    }
}

fn agreeing_par(row: &Row<'_>, pars: Vec<u8>, par: Option<i32>) -> Option<Vec<u8>> {
    let sum: i32 = pars.iter().map(|par| i32::from(*par)).sum();
    match par {
        Some(par) if par != sum => {
            let message = format!("`par` is {par}, but the pars of the holes add up to {sum}");
            row.fault("par", message, "correct one of them, or leave `par` empty");
            None
        }
        _ => Some(pars),
    }
}

fn distinct(row: &Row<'_>, indexes: Vec<u8>) -> Option<Vec<u8>> {
    let mut earlier = indexes.iter().enumerate();
    let twice = earlier.find(|(place, index)| indexes[..*place].contains(index));
    if let Some((_, index)) = twice {
        let message = format!("the stroke index {index} stands twice");
        row.fault(INDEXES, message, "each hole has its own");
        return None;
    }
    Some(indexes)
}
