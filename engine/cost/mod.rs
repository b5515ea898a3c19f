//! What each part of the game costs: strokes lost, strokes saved, the cost card, and what a
//! change is worth; and what scores make of a golfer: the handicap index, and the rating of a course.
//!
//! ```
//! use costcard::cost::handicap::{Tenths, index};
//!
//! // Differentials of 10, 11, 12 and so on: the index is the mean of the lowest eight of twenty.
//! let differentials: Vec<Tenths> = (0..20).map(|n| Tenths::new(100 + 10 * n)).collect();
//! let found = index::calculated(&differentials).map(|found| found.index);
//! assert_eq!(found, Some(Tenths::new(135)));
//! ```

pub mod before;
pub mod card;
pub mod changes;
pub mod clubs_played;
pub mod costly;
pub mod decisions;
pub mod design;
pub mod detail;
pub mod effort;
pub mod field;
pub mod figures;
pub mod goal;
pub mod handicap;
pub mod infer;
mod known;
pub mod on_hole;
mod pair;
pub mod rated;
pub mod rating;
pub mod shares;
pub mod start;
pub mod sure;
pub mod traits;
mod venue;
pub mod worth;

use crate::course::Course;
use crate::files::Faults;
use crate::player::levels::LevelError;
use crate::player::pattern::PatternFault;
use crate::rules::Rulebook;

/// A course, and the rules in force on it.
pub type ByRules<'a> = (&'a Course, &'a Rulebook);

/// Why a golfer's rounds could not be played.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PlayError {
    /// The level tables are at fault.
    #[error(transparent)]
    Level(#[from] LevelError),
    /// A club's pattern is none.
    #[error(transparent)]
    Pattern(#[from] PatternFault),
    /// A rule failed.
    #[error(transparent)]
    Rule(#[from] Faults),
}
