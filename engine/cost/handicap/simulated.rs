//! The index of a golfer whose rounds are simulated.
//!
//! The rounds are taken as records of 20, one after the other; each record gives an index by the same rules as a real
//! one, and the mean over the records is the golfer's. Holes count net double bogey at most, from the course handicap
//! of that very mean: it is worked out again until the course handicap stays. Caps and exceptional scores are left out,
//! since a simulated golfer neither improves nor declines.

use super::holes::{self, adjusted_gross, most_of_each};
use super::index::{HIGHEST, RECORD, calculated};
use super::{Rated, Tenths, allowance, differential};
use crate::cost::rating::loops;
use crate::course::{Course, Hole, Rating};

/// At most so many times is the index worked out: the course handicap settles after two or three.
const MOST_LOOKS: usize = 12;

/// The mean index of records of 20 rounds of eighteen holes. `scores` are those of every hole, round after round; on
/// nine holes two rounds make one. `index` is where the search begins. None where the rounds are too few, or the
/// course has neither 18 nor 9 holes.
#[must_use]
pub fn index(scores: &[u8], course: &Course, rating: Rating, index: f64) -> Option<f64> {
    let loops = loops(course)?;
    let played = played(&course.holes, loops);
    let rounds: Vec<&[u8]> = scores.chunks_exact(played.len()).collect();
    let rated = Rated {
        course_rating: Tenths::rounded(rating.course_rating * loops as f64),
        slope_rating: rating.slope_rating,
    };
    let par = played.iter().map(|hole| i32::from(hole.par)).sum();
    let handicap = |index| {
        let index = Tenths::rounded(index).min(HIGHEST);
        allowance::of_eighteen(index, rated, par).to_whole()
    };
    let mut course_handicap = handicap(index);
    let mut found = None;
    for _ in 0..MOST_LOOKS {
        let most = most_of_each(&played, Some(course_handicap));
        let mean = mean_index(&rounds, &most, rated)?;
        found = Some(mean);
        let next = handicap(mean);
        if next == course_handicap {
            break;
        }
        course_handicap = next;
    }
    found
}

fn mean_index(rounds: &[&[u8]], most: &[i32], rated: Rated) -> Option<f64> {
    let differential = |round: &&[u8]| {
        let gross = adjusted_gross(round.iter().map(|score| Some(*score)), most);
        differential::of_eighteen(gross, rated, 0)
    };
    let indexes: Vec<i64> = rounds
        .chunks_exact(RECORD)
        .filter_map(|record| {
            let differentials: Vec<Tenths> = record.iter().map(differential).collect();
            let index = calculated(&differentials)?.index.min(HIGHEST);
            Some(i64::from(index.tenths()))
        })
        .collect();
    let sum: i64 = indexes.iter().sum();
    (!indexes.is_empty()).then(|| sum as f64 / 10.0 / indexes.len() as f64)
}

/// The holes of a round, with their ranks by stroke index; on nine holes the second loop's come between the first's.
fn played(course: &[Hole], loops: usize) -> Vec<holes::Hole> {
    let ranks = ranks(course);
    let hole = |pass: usize| {
        let of = move |(hole, rank): (&Hole, &u8)| holes::Hole {
            par: hole.par,
            rank: (usize::from(*rank - 1) * loops + pass + 1) as u8,
        };
        course.iter().zip(&ranks).map(of).collect::<Vec<_>>()
    };
    (0..loops).flat_map(hole).collect()
}

/// The place of each hole by stroke index, from 1. Where not every hole has a stroke index, the holes longest for their
/// par come first: by what the bogey golfer's length rating gives them over par.
#[must_use]
pub fn ranks(course: &[Hole]) -> Vec<u8> {
    let stated: Option<Vec<u8>> = course.iter().map(|hole| hole.stroke_index).collect();
    match stated {
        Some(stated) => holes::ranks(&stated),
        None => {
            let over: Vec<f64> = course.iter().map(|hole| -length_over_par(hole)).collect();
            holes::ranks(&over)
        }
    }
}

/// What the length rating of the bogey golfer gives a hole over its par. Source: yd / 160 + 50.7 over eighteen holes,
/// Course Rating System Manual, USGA (from memory).
fn length_over_par(hole: &Hole) -> f64 {
    hole.length_yd / 160.0 + 50.7 / 18.0 - f64::from(hole.par)
}
