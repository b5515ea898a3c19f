//! What the detail of a card says: traits, shares of the gap, and how sure it all is.

#![allow(clippy::unwrap_used)] // a test may stop

mod shares;
mod start;
mod sure;
mod traits;

use costcard::cost::card::{Card, Effort, card_assuming};
use costcard::cost::detail::Detail;
use costcard::cost::infer::Assume;
use costcard::course::Course;
use costcard::player::Golfer;
use costcard::rules::Rulebook;

use crate::support::demo_course;

/// Rounds enough for the detail, which looks at the first few dozen.
const FEW: Effort = Effort {
    rounds: 64,
    seed: 3,
};

/// A par 4, a par 5 and a par 3: enough to tell, and a sixth of a round to solve.
fn three_holes() -> Course {
    let mut course = demo_course("parkland");
    course.holes.truncate(3);
    course
}

fn detailed(player: &Golfer, goal: &Golfer, course: &Course) -> Card {
    let on = (course, &Rulebook::default());
    card_assuming(player, goal, on, FEW, Assume::Level, &|_| {})
        .unwrap_or_else(|error| panic!("{error}"))
}

fn detail(card: &Card) -> &Detail {
    card.detail.as_ref().unwrap()
}
