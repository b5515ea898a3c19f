//! How long holes of a par are.

use std::ops::RangeInclusive;

use crate::player::Sex;

/// Lengths of holes of a par, yards; none for a par of more than 5. Source: Rules of Handicapping, R&A and USGA,
/// appendix F (women's from memory).
#[must_use]
pub const fn lengths_yd(par: u8, sex: Sex) -> Option<RangeInclusive<f64>> {
    match (par, sex) {
        (3, Sex::Men) => Some(0.0..=260.0),
        (4, Sex::Men) => Some(240.0..=490.0),
        (5, Sex::Men) => Some(450.0..=710.0),
        (3, Sex::Women) => Some(0.0..=220.0),
        (4, Sex::Women) => Some(200.0..=420.0),
        (5, Sex::Women) => Some(370.0..=600.0),
        _ => None,
    }
}
