//! The player's goal: what nobody measured inferred from the handicap, and what a goal asks of each part.

#![allow(clippy::unwrap_used)] // a test may stop

mod goals;
mod infer;

use std::sync::{LazyLock, OnceLock};

use costcard::cost::ByRules;
use costcard::cost::card::Effort;
use costcard::cost::infer::Assume;
use costcard::cost::rated;
use costcard::course::{Course, Rating, Ratings};
use costcard::player::{Golfer, Origin, Sex, levels};
use costcard::rules::Rulebook;

use crate::support::neutral_course;

const QUIET: &(dyn Fn(u64) + Sync) = &|_| {};

const EFFORT: Effort = Effort {
    rounds: 4000,
    seed: 9,
};

/// The level whose golfers the rating of [`nine_holes`] is set by, and the index it is set to give them.
const SET_BY: f64 = 8.0;
const SET_TO: f64 = 7.7;

fn level(handicap: f64) -> Golfer {
    levels::level(handicap, Sex::Men).unwrap()
}

/// A player with the long game of a level, measured, and nothing else known.
fn with_long_game_of(handicap: f64) -> Golfer {
    let mut player = level(handicap);
    for club in &mut player.clubs {
        club.origin = Origin::Stated;
    }
    player
}

/// A course by the built-in rules.
fn usual(course: &Course) -> ByRules<'_> {
    static USUAL: LazyLock<Rulebook> = LazyLock::new(Rulebook::default);
    (course, &USUAL)
}

/// The index of a golfer, from so many rounds that their luck is below a tenth.
fn index_of(golfer: &Golfer, course: &Course, assume: Assume) -> f64 {
    let effort = Effort {
        rounds: 40_000,
        ..EFFORT
    };
    let played = rated::play(golfer, usual(course), effort, assume, QUIET);
    played.unwrap().index.unwrap()
}

/// Nine ordinary holes whose stated rating gives golfers off 8 an index of 7.7, whatever the level tables say, so that
/// what is tested does not hang on how well they are calibrated.
fn nine_holes() -> &'static Course {
    static COURSE: OnceLock<Course> = OnceLock::new();
    COURSE.get_or_init(|| {
        let mut course = neutral_course(9, 3275.0);
        let mut rating = Rating {
            course_rating: 35.4,
            bogey_rating: 45.9,
            slope_rating: 113,
        };
        let rate = |course: &mut Course, rating| {
            course.ratings = Ratings {
                men: Some(rating),
                women: None,
            };
        };
        rate(&mut course, rating);
        let off = index_of(&level(SET_BY), &course, Assume::Level) - SET_TO;
        // Two nines make a round: a stroke of the rating is two of the index.
        rating.course_rating = ((rating.course_rating + off / 2.0) * 10.0).round() / 10.0;
        rate(&mut course, rating);
        course
    })
}
