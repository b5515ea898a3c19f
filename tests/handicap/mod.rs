//! The handicap index: records of scores, and what must hold of any of them.

#![allow(clippy::unwrap_used)] // a test may stop

mod properties;
mod record;
mod simulated;

use costcard::cost::handicap::record::{Record, Score, Strokes};
use costcard::cost::handicap::{Rated, Tenths};
use jiff::ToSpan;
use jiff::civil::{Date, date};

/// The first day of every record here.
const START: Date = date(2025, 1, 1);

const fn tenths(tenths: i32) -> Tenths {
    Tenths::new(tenths)
}

/// A score that makes this differential, so many days after the first: on a standard slope the differential is the
/// score less the course rating.
fn score(day: i32, differential: i32) -> Score {
    let gross = 72 + differential.div_euclid(10);
    Score {
        date: START.checked_add(day.days()).unwrap(),
        is_nine: false,
        strokes: Strokes::Adjusted(gross),
        rated: Rated {
            course_rating: tenths(10 * gross - differential),
            slope_rating: 113,
        },
        pcc: 0,
    }
}

/// A record of differentials, one every so many days.
fn record_every(days: i32, differentials: &[i32]) -> Record {
    let scores: Vec<Score> = (0..)
        .zip(differentials)
        .map(|(place, differential)| score(days * place, *differential))
        .collect();
    Record::of(&scores)
}
