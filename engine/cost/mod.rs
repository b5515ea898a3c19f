//! What each part of the game costs: strokes lost, strokes saved, the cost card, and what a
//! change is worth; and what scores make of a golfer: the handicap index, and the rating of a course.

pub mod card;
pub mod design;
pub mod figures;
pub mod goal;
pub mod handicap;
pub mod infer;
pub mod rated;
pub mod rating;
mod venue;
pub mod worth;

use crate::course::Course;
use crate::files::Faults;
use crate::player::levels::LevelError;
use crate::rules::Rulebook;

/// A course, and the rules in force on it.
pub type ByRules<'a> = (&'a Course, &'a Rulebook);

/// Why a golfer's rounds could not be played.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PlayError {
    /// The level tables are at fault.
    #[error(transparent)]
    Level(#[from] LevelError),
    /// A rule failed.
    #[error(transparent)]
    Rule(#[from] Faults),
}
