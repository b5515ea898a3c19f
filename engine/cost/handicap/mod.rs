//! The World Handicap System: from scores to a handicap index.
//!
//! A [`sheet`] of scores becomes a [`record`](mod@record); the same rules turn simulated rounds into an index
//! ([`simulated`]). Everything is counted in whole tenths of a stroke, so that rounding is exact.
//!
//! Source of the rules, named by their numbers: Rules of Handicapping, R&A and USGA, 2020 to 2024.

pub mod allowance;
pub mod differential;
pub mod document;
pub mod embedded;
pub mod holes;
pub mod index;
mod lists;
pub mod record;
pub mod sheet;
pub mod simulated;
mod tenths;

pub use tenths::{Ratio, Tenths};

/// A course's ratings, as differentials and course handicaps need them; those of nine holes where nine are played.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rated {
    /// Course rating.
    pub course_rating: Tenths,
    /// Slope rating, 55 to 155; 113 is standard.
    pub slope_rating: u8,
}

/// The standard slope rating.
pub(super) const STANDARD_SLOPE: i64 = 113;
