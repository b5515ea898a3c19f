//! A golfer's rounds on a rated course: the figures, and the handicap index they make.

use serde::Serialize;

use super::card::{Effort, play_and_count};
use super::figures::{Figures, LabelCount, label_counts};
use super::handicap::simulated;
use super::rating;
use crate::course::Course;
use crate::files::Faults;
use crate::player::Golfer;
use crate::player::levels::LevelError;
use crate::rules::Rulebook;

/// What `play` reports.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RatedFigures {
    /// The figures of the rounds.
    #[serde(flatten)]
    pub figures: Figures,
    /// The handicap index of such rounds; none below 20 rounds, and on a course of neither 18 nor 9 holes.
    pub index: Option<f64>,
    /// Course rating, stated or by play; none on a course of neither 18 nor 9 holes.
    pub course_rating: Option<f64>,
    /// Bogey rating.
    pub bogey_rating: Option<f64>,
    /// Slope rating.
    pub slope_rating: Option<u8>,
    /// Whether the course file states the rating.
    #[serde(skip)]
    pub is_stated: bool,
    /// The scripts in force.
    pub rules: Vec<String>,
    /// Shots by the label a rule counts them under; none where no rule counts.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub counts: Option<Vec<LabelCount>>,
}

/// Why a golfer's rounds could not be played.
#[derive(Debug, thiserror::Error)]
pub enum PlayError {
    /// The level tables are at fault.
    #[error(transparent)]
    Level(#[from] LevelError),
    /// A rule failed.
    #[error(transparent)]
    Rule(#[from] Faults),
}

/// Rounds that [`play`] plays in all, those of a rating among them: what `done` hears of.
#[must_use]
pub fn rounds(golfer: &Golfer, course: &Course, effort: Effort) -> u64 {
    effort.rounds + rating::rounds(course, golfer.sex)
}

/// Figures of one golfer on a course by its rules, its rating by the same rules, and the golfer's index. The seed does
/// not change the rating.
///
/// # Errors
/// When the level tables are at fault, or a rule fails.
pub fn play(
    golfer: &Golfer,
    (course, rules): (&Course, &Rulebook),
    effort: Effort,
    done: &(dyn Fn(u64) + Sync),
) -> Result<RatedFigures, PlayError> {
    let (figures, tally) = play_and_count(golfer, course, rules, effort, done);
    rules.outcome()?;
    let found = rating::of_by_rules(course, rules, golfer.sex, done)?;
    rules.outcome()?;
    let rating = found.map(|found| found.rating);
    let index =
        rating.and_then(|rating| simulated::index(&tally.scores, course, rating, golfer.handicap));
    Ok(RatedFigures {
        figures,
        index,
        course_rating: rating.map(|rating| rating.course_rating),
        bogey_rating: rating.map(|rating| rating.bogey_rating),
        slope_rating: rating.map(|rating| rating.slope_rating),
        is_stated: found.is_some_and(|found| found.stated),
        rules: rules.files().to_vec(),
        counts: rules.counts().then(|| label_counts(&tally)),
    })
}
