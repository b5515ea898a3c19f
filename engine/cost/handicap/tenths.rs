//! Strokes to one decimal, rounded as the rules of handicapping round: half a tenth goes upward.

use std::fmt;
use std::ops::{Add, AddAssign, Neg, Sub};

use serde::{Serialize, Serializer};

/// A number of strokes to one decimal: an index, a differential, a course rating. Plus handicaps are negative.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Tenths(i32);

impl Tenths {
    /// No strokes.
    pub const ZERO: Self = Self(0);

    /// So many tenths of a stroke.
    #[must_use]
    pub const fn new(tenths: i32) -> Self {
        Self(tenths)
    }

    /// Strokes to the nearest tenth; half a tenth goes upward, so that −1.55 becomes −1.5 (rule 5.1c).
    ///
    /// ```
    /// use costcard::cost::handicap::Tenths;
    /// assert_eq!(Tenths::rounded(12.25), Tenths::new(123));
    /// assert_eq!(Tenths::rounded(-1.55), Tenths::new(-15));
    /// ```
    #[must_use]
    pub fn rounded(strokes: f64) -> Self {
        Self((strokes * 10.0 + 0.5).floor() as i32)
    }

    /// Tenths of a stroke.
    #[must_use]
    pub const fn tenths(self) -> i32 {
        self.0
    }

    /// Strokes.
    #[must_use]
    pub fn strokes(self) -> f64 {
        f64::from(self.0) / 10.0
    }
}

impl fmt::Display for Tenths {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // Padding is that of the number as text.
        let minus = if self.0 < 0 { "-" } else { "" };
        f.pad(&format!(
            "{minus}{}.{}",
            self.0.abs() / 10,
            self.0.abs() % 10
        ))
    }
}

impl Add for Tenths {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl AddAssign for Tenths {
    fn add_assign(&mut self, other: Self) {
        self.0 += other.0;
    }
}

impl Sub for Tenths {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Neg for Tenths {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Serialize for Tenths {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_f64(self.strokes())
    }
}

/// An exact number of tenths of a stroke, before it is rounded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ratio {
    above: i64,
    /// Above zero.
    below: i64,
}

impl Ratio {
    /// `above / below` tenths of a stroke; `below` is above zero.
    pub(super) const fn new(above: i64, below: i64) -> Self {
        Self { above, below }
    }

    /// Rounded to a tenth, half a tenth upward.
    #[must_use]
    pub fn to_tenth(self) -> Tenths {
        Tenths(half_up(self.above, self.below) as i32)
    }

    /// Rounded to a whole stroke, half a stroke upward.
    #[must_use]
    pub fn to_whole(self) -> i32 {
        half_up(self.above, 10 * self.below) as i32
    }

    /// This many percent of it.
    #[must_use]
    pub(super) const fn percent(self, percent: u8) -> Self {
        Self::new(self.above * percent as i64, self.below * 100)
    }
}

impl Add for Ratio {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        let above = self.above * other.below + other.above * self.below;
        Self::new(above, self.below * other.below)
    }
}

/// A quotient rounded to the nearest whole number, halves upward, below zero too.
fn half_up(above: i64, below: i64) -> i64 {
    (2 * above + below).div_euclid(2 * below)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: rule 5.1c: −1.54 becomes −1.5, and −1.55 becomes −1.5.
    #[test]
    fn below_zero_halves_go_upward_too() {
        assert_eq!(Ratio::new(-154, 10).to_tenth(), Tenths(-15));
        assert_eq!(Ratio::new(-155, 10).to_tenth(), Tenths(-15));
        assert_eq!(Ratio::new(-156, 10).to_tenth(), Tenths(-16));
        assert_eq!(Tenths::rounded(-1.54), Tenths(-15));
        assert_eq!(Tenths::rounded(-1.55), Tenths(-15));
        assert_eq!(Tenths::rounded(-1.56), Tenths(-16));
        assert_eq!(Ratio::new(-15, 1).to_whole(), -1);
        assert_eq!(Ratio::new(15, 1).to_whole(), 2);
    }

    #[test]
    fn tenths_are_written_with_one_decimal() {
        let shown = |tenths| Tenths(tenths).to_string();
        assert_eq!(
            ["0.0", "12.3", "-0.4", "-1.5"],
            [0, 123, -4, -15].map(shown)[..]
        );
    }
}
