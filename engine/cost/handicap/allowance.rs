//! Course and playing handicaps.

use super::{Rated, Ratio, STANDARD_SLOPE, Tenths};

/// The course handicap before it is rounded (rule 6.1): index × slope / 113 + (course rating − par).
///
/// ```
/// use costcard::cost::handicap::{Rated, Tenths, allowance::of_eighteen};
/// let rated = Rated { course_rating: Tenths::new(712), slope_rating: 128 };
/// // 12.4 × 128 / 113 + (71.2 − 72) = 13.2
/// assert_eq!(of_eighteen(Tenths::new(124), rated, 72).to_whole(), 13);
/// ```
#[must_use]
pub fn of_eighteen(index: Tenths, rated: Rated, par: i32) -> Ratio {
    let by_slope = i64::from(index.tenths()) * i64::from(rated.slope_rating);
    let over_par = i64::from(rated.course_rating.tenths() - 10 * par);
    Ratio::new(by_slope + STANDARD_SLOPE * over_par, STANDARD_SLOPE)
}

/// The course handicap over nine holes, before it is rounded: that of half the index, which is rounded to a tenth
/// first (rule 6.1b). Ratings and par are those of the nine.
#[must_use]
pub fn of_nine(index: Tenths, rated: Rated, par: i32) -> Ratio {
    let half = Ratio::new(i64::from(index.tenths()), 2).to_tenth();
    of_eighteen(half, rated, par)
}

/// The playing handicap (rule 6.2): so many percent of the course handicap, which is not rounded first.
#[must_use]
pub fn playing(course_handicap: Ratio, allowance_pct: u8) -> i32 {
    course_handicap.percent(allowance_pct).to_whole()
}

/// Strokes received on a hole: `rank` is its place by stroke index among `holes`, from 1. A plus handicap gives
/// strokes back, those of the highest stroke index first.
///
/// ```
/// use costcard::cost::handicap::allowance::strokes_received;
/// assert_eq!([1, 4, 5, 18].map(|rank| strokes_received(22, rank, 18)), [2, 2, 1, 1]);
/// assert_eq!([1, 16, 17, 18].map(|rank| strokes_received(-2, rank, 18)), [0, 0, -1, -1]);
/// ```
#[must_use]
pub fn strokes_received(course_handicap: i32, rank: u8, holes: u8) -> i32 {
    let holes = i32::from(holes.max(1));
    let more = i32::from(rank) <= course_handicap.rem_euclid(holes);
    course_handicap.div_euclid(holes) + i32::from(more)
}
