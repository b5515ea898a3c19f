//! The rating of a course that nobody has rated, by playing the definition.
//!
//! The golfers are those of the Course Rating System Manual, USGA: the scratch golfer has an index of 0, the bogey
//! golfer one of about 20 (17.5 to 22.4, men) or 24 (21.5 to 26.4, women); here the levels of 20 and, for women, 26: a
//! standard slope of 113 is 113 / 4.24 = 26.7 strokes from scratch to bogey, and only with a bogey golfer of 26 do women
//! have the index on a course rated by play that they have elsewhere. The ratings are the means of the
//! better half of each golfer's scores: the definition in force before 2020, and the one that the manual's lengths and
//! the handicap index rest on: an index is made of a golfer's better scores too, so that the scratch golfer's comes out
//! near 0. Since 2020 the manual speaks of the expected score; the mean of all scores would be 0.8 standard deviations
//! higher, 2 strokes for the scratch golfer.

use serde::Serialize;

use crate::course::{Course, Rating};
use crate::player::levels::{self, LevelError};
use crate::player::{Golfer, Sex};
use crate::round::play::Rounds;
use crate::round::stage::Stage;
use crate::round::tally::Tally;
use crate::rules::Rulebook;

/// Rounds played by each golfer. The mean of the better half of so many is good to 0.03 strokes.
pub const ROUNDS: u64 = 10_000;
/// A rating belongs to the course: it does not change with the seed of a player's rounds.
const SEED: u64 = 1;
/// The scratch golfer's index.
const SCRATCH: f64 = 0.0;

/// The bogey golfer's index. Source: Course Rating System Manual, USGA.
pub(super) const fn bogey(sex: Sex) -> f64 {
    match sex {
        Sex::Men => 20.0,
        Sex::Women => 26.0,
    }
}

/// How often a round of eighteen holes goes round the course: twice on nine holes. None where no rating is defined.
#[must_use]
pub const fn loops(course: &Course) -> Option<usize> {
    match course.holes.len() {
        18 => Some(1),
        9 => Some(2),
        _ => None,
    }
}

/// A rating, and where it comes from.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct CourseRating {
    /// The rating.
    #[serde(flatten)]
    pub rating: Rating,
    /// Whether the course file states it; otherwise it is by play.
    pub stated: bool,
}

/// The ratings of a course for men and women; none where nothing is stated and the course has neither 18 nor 9 holes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct CourseRatings {
    /// For men.
    pub men: Option<CourseRating>,
    /// For women.
    pub women: Option<CourseRating>,
}

/// Rounds that rating a course for `sex` plays: what `done` hears of. None where the rating is stated or undefined.
#[must_use]
pub fn rounds(course: &Course, sex: Sex) -> u64 {
    let by_play = course.ratings.of(sex).is_none() && loops(course).is_some();
    if by_play { 2 * ROUNDS } else { 0 }
}

/// The ratings a course states.
#[must_use]
pub fn stated(course: &Course) -> CourseRatings {
    let of = |sex| {
        let rating = course.ratings.of(sex)?;
        Some(CourseRating {
            rating,
            stated: true,
        })
    };
    CourseRatings {
        men: of(Sex::Men),
        women: of(Sex::Women),
    }
}

/// The ratings of a course for men and women.
///
/// # Errors
/// When the level tables are at fault.
pub fn of_both(course: &Course, done: &(dyn Fn(u64) + Sync)) -> Result<CourseRatings, LevelError> {
    of_both_by_rules(course, &Rulebook::default(), done)
}

/// The ratings of a course for men and women, by its rules: nothing to be shown before [`Rulebook::outcome`] is asked.
///
/// # Errors
/// When the level tables are at fault.
pub fn of_both_by_rules(
    course: &Course,
    rules: &Rulebook,
    done: &(dyn Fn(u64) + Sync),
) -> Result<CourseRatings, LevelError> {
    Ok(CourseRatings {
        men: of_by_rules(course, rules, Sex::Men, done)?,
        women: of_by_rules(course, rules, Sex::Women, done)?,
    })
}

/// The rating of a course for men or women, stated or by play; none where nothing is stated and the course has neither
/// 18 nor 9 holes. `done` hears of rounds as they are finished.
///
/// # Errors
/// When the level tables are at fault.
pub fn of(
    course: &Course,
    sex: Sex,
    done: &(dyn Fn(u64) + Sync),
) -> Result<Option<CourseRating>, LevelError> {
    of_by_rules(course, &Rulebook::default(), sex, done)
}

/// The same by the rules of a rulebook: nothing to be shown before [`Rulebook::outcome`] is asked.
///
/// # Errors
/// When the level tables are at fault.
pub fn of_by_rules(
    course: &Course,
    rules: &Rulebook,
    sex: Sex,
    done: &(dyn Fn(u64) + Sync),
) -> Result<Option<CourseRating>, LevelError> {
    if let Some(rating) = course.ratings.of(sex) {
        return Ok(Some(CourseRating {
            rating,
            stated: true,
        }));
    }
    let rating = by_play(course, rules, sex, done)?;
    Ok(rating.map(|rating| CourseRating {
        rating,
        stated: false,
    }))
}

/// A course rated by play, whatever its file states; none where it has neither 18 nor 9 holes. The ratings of nine
/// holes are half of those of two loops.
fn by_play(
    course: &Course,
    rules: &Rulebook,
    sex: Sex,
    done: &(dyn Fn(u64) + Sync),
) -> Result<Option<Rating>, LevelError> {
    let Some(loops) = loops(course) else {
        return Ok(None);
    };
    let takes = |handicap| -> Result<f64, LevelError> {
        let tally = played(&levels::level(handicap, sex)?, course, rules, done);
        Ok(better_half(&totals(&tally, loops)) / loops as f64)
    };
    let (scratch, bogey) = (takes(SCRATCH)?, takes(bogey(sex))?);
    Ok(Some(Rating::played(
        scratch,
        bogey,
        course.holes.len(),
        sex,
    )))
}

fn played(
    golfer: &Golfer,
    course: &Course,
    rules: &Rulebook,
    done: &(dyn Fn(u64) + Sync),
) -> Tally {
    let golfers = [golfer];
    let stage = Stage::by_rules(course, &golfers, rules);
    let banks = stage.hole_banks();
    let side = stage.side(|_| 0);
    let solved = stage.solve(&banks, &side, None);
    let rounds = Rounds {
        holes: &course.holes,
        golfer: &solved,
        goal: None,
        seed: SEED,
    };
    rounds.play_and_count(&rules.uncounted(), ROUNDS, done)
}

/// Scores over eighteen holes.
fn totals(tally: &Tally, loops: usize) -> Vec<u32> {
    let holes = loops * tally.holes.len();
    let total = |round: &[u8]| round.iter().map(|score| u32::from(*score)).sum();
    tally.scores.chunks_exact(holes).map(total).collect()
}

/// The mean of the better half of scores.
fn better_half(scores: &[u32]) -> f64 {
    let mut sorted = scores.to_vec();
    sorted.sort_unstable();
    sorted.truncate(scores.len().div_ceil(2));
    let sum: u32 = sorted.iter().sum();
    f64::from(sum) / sorted.len().max(1) as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_better_half_is_the_lower_one() {
        assert_eq!(better_half(&[90, 70, 80, 100]), 75.0);
        assert_eq!(better_half(&[72]), 72.0);
    }
}
