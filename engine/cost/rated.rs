//! A golfer's rounds on a rated course: the figures, and the handicap index they make.

use serde::Serialize;

use super::card::Effort;
use super::figures::Figures;
use super::infer::{self, Assume, Inference, InferenceDocument};
use super::rating::{self, CourseRating};
use super::venue::{Home, Venue};
use crate::course::Course;
use crate::player::Golfer;
use crate::player::levels::LevelError;
use crate::round::stage::Stage;

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
    let inference = infer::rounds(golfer, &[course], assume);
    effort.rounds + rating::rounds(course, golfer.sex) + inference
}

/// Figures of one golfer on a course, its rating, and the golfer's index; what nobody measured of the short game is
/// inferred where that is asked for and can be done. The seed changes neither the rating nor what is inferred.
///
/// # Errors
/// When the level tables are at fault.
pub fn play(
    golfer: &Golfer,
    course: &Course,
    effort: Effort,
    assume: Assume,
    done: &(dyn Fn(u64) + Sync),
) -> Result<RatedFigures, LevelError> {
    let golfers = [golfer];
    let stage = Stage::new(course, &golfers);
    let banks = stage.hole_banks();
    let side = stage.side(|_| 0);
    let venue = Venue {
        course,
        stage: &stage,
        banks: &banks,
    };
    let own = venue.solve(&side, None);
    let found = rating::of(course, golfer.sex, done)?;
    let home = found.map(|found| Home {
        venue,
        rating: found.rating,
        own: &own,
    });
    let inferred = match home {
        Some(home) if infer::is_wanted(golfer, &[course], assume) => {
            infer::on(golfer, &[home], done)?
        }
        _ => infer::untouched(golfer),
    };
    let side = stage.side_of(&[&inferred.golfer], |_| 0);
    let solved = venue.solve(&side, Some(&own));
    let tally = venue.play(&solved, None, effort, done);
    let index = home.and_then(|home| home.index(&tally, golfer.handicap));
    let figures = Figures::new(course, &solved, &tally, effort.seed);
    Ok(rated(figures, index, found, inferred.inference))
}

fn rated(
    figures: Figures,
    index: Option<f64>,
    found: Option<CourseRating>,
    inference: Option<Inference>,
) -> RatedFigures {
    let rating = found.map(|found| found.rating);
    RatedFigures {
        figures,
        index,
        course_rating: rating.map(|rating| rating.course_rating),
        bogey_rating: rating.map(|rating| rating.bogey_rating),
        slope_rating: rating.map(|rating| rating.slope_rating),
        is_stated: found.is_some_and(|found| found.stated),
        inference_document: inference.as_ref().into(),
        inference,
    }
}
