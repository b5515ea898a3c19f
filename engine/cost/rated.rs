//! A golfer's rounds on a rated course: the figures, and the handicap index they make.

use serde::Serialize;

use super::changes::ready;
use super::effort::Effort;
use super::figures::{Figures, LabelCount, label_counts};
use super::infer::{self, Assume, Inference, InferenceDocument};
use super::rating;
use super::venue::Home;
use super::{ByRules, PlayError};
use crate::course::Course;
use crate::player::Golfer;
use crate::round::tally::Tally;
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
    /// What was inferred of the player's short game; none where nothing was.
    #[serde(skip)]
    pub inference: Option<Inference>,
    /// The same for other programs.
    #[serde(flatten)]
    pub inference_document: InferenceDocument,
}

/// Rounds that [`play`] plays at most, those of a rating among them: what `done` hears of.
#[must_use]
pub fn rounds(golfer: &Golfer, course: &Course, effort: Effort, assume: Assume) -> u64 {
    let inference = infer::rounds_of_rated(golfer, &[course], assume);
    effort.rounds + rating::rounds(course, golfer.sex) + inference
}

/// Figures of one golfer on a course by its rules, its rating by the same rules, and the golfer's index; what nobody
/// measured of the short game is inferred where that is asked for and can be done. The seed changes neither the rating
/// nor what is inferred.
///
/// # Errors
/// When the level tables are at fault, or a rule fails.
pub fn play(
    golfer: &Golfer,
    (course, rules): ByRules<'_>,
    effort: Effort,
    assume: Assume,
    done: &(dyn Fn(u64) + Sync),
) -> Result<RatedFigures, PlayError> {
    ready(golfer, (course, rules), assume, done, |ready| {
        let tally = ready.rounds(effort, done);
        rules.outcome()?;
        Ok(ready.before(&tally, effort))
    })?
}

impl RatedFigures {
    /// The figures of rounds, and what a rated course makes of them: its `home`, and whether its file states the
    /// rating. `handicap` is where the search for the index begins.
    pub(super) fn new(
        figures: Figures,
        tally: &Tally,
        rules: &Rulebook,
        handicap: f64,
        (home, is_stated): (Option<Home<'_>>, bool),
        inference: Option<Inference>,
    ) -> Self {
        let rating = home.map(|home| home.rating);
        let index = home.and_then(|home| home.index(tally, handicap));
        let inference = inference.map(|found| found.beside(index));
        Self {
            figures,
            index,
            course_rating: rating.map(|rating| rating.course_rating),
            bogey_rating: rating.map(|rating| rating.bogey_rating),
            slope_rating: rating.map(|rating| rating.slope_rating),
            is_stated,
            rules: rules.files().to_vec(),
            counts: rules.counts().then(|| label_counts(tally)),
            inference_document: inference.as_ref().into(),
            inference,
        }
    }
}
