//! Score differentials.

use super::{Rated, Ratio, STANDARD_SLOPE, Tenths};

/// The differential of an 18-hole score (rule 5.1a): 113 / slope × (adjusted gross − course rating − playing
/// conditions adjustment), to a tenth. `pcc` is the playing conditions adjustment, −1 to 3 strokes.
///
/// ```
/// use costcard::cost::handicap::{Rated, Tenths, differential::of_eighteen};
/// let rated = Rated { course_rating: Tenths::new(712), slope_rating: 128 };
/// // 113 / 128 × (85 − 71.2 − 1) = 11.3
/// assert_eq!(of_eighteen(85, rated, 1), Tenths::new(113));
/// ```
#[must_use]
pub fn of_eighteen(adjusted_gross: i32, rated: Rated, pcc: i32) -> Tenths {
    over(10 * (adjusted_gross - pcc), rated).to_tenth()
}

/// The differential of the nine holes played, before it is rounded; half of the playing conditions adjustment counts
/// (rule 5.1b).
#[must_use]
pub fn of_nine(adjusted_gross: i32, rated: Rated, pcc: i32) -> Ratio {
    over(10 * adjusted_gross - 5 * pcc, rated)
}

/// The differential of a nine-hole score by a golfer who has an index: that of the nine holes played, and the one
/// expected over the nine others, rounded once (rule 5.1b, since 2024).
#[must_use]
pub fn of_nine_and_expected(nine: Ratio, index: Tenths) -> Tenths {
    (nine + expected_over_nine(index)).to_tenth()
}

/// The differential expected over nine holes: half of 1.04 × index + 2.4 (from memory).
#[must_use]
pub fn expected_over_nine(index: Tenths) -> Ratio {
    Ratio::new(104 * i64::from(index.tenths()) + 2400, 200)
}

fn over(tenths: i32, rated: Rated) -> Ratio {
    let over = i64::from(tenths - rated.course_rating.tenths());
    Ratio::new(STANDARD_SLOPE * over, i64::from(rated.slope_rating))
}
