//! Changes of a player: the language, what it does to a golfer, and what changes are worth.

mod apply;
mod decisions;
mod worth;

use costcard::course::Course;
use costcard::player::Golfer;
use costcard::player::change::Change;

/// A course of three holes, so that a test is quick.
pub fn three_holes() -> Course {
    crate::support::course(crate::program::SHORT)
}

/// A change.
pub fn change(text: &str) -> Change {
    text.parse()
        .unwrap_or_else(|fault| panic!("{text}: {fault}"))
}

/// A golfer with a change made.
pub fn changed(golfer: &Golfer, text: &str) -> Golfer {
    change(text)
        .apply(golfer)
        .unwrap_or_else(|fault| panic!("{text}: {fault}"))
}
