//! Numbers and vectors of eight balls at once. A single ball keeps a processor waiting for roots and quotients;
//! eight side by side take hardly longer than one.

use std::ops::{Add, Mul, Neg, Sub};

use glam::DVec3;
pub(super) use wide::f64x8 as Eight;
use wide::u64x8;

/// How many balls go side by side.
pub(super) const LANES: usize = 8;

/// For each of eight balls, whether something holds.
#[derive(Clone, Copy)]
pub(super) struct Which(Eight);

impl Which {
    pub const fn all() -> Self {
        Self(Eight::new([f64::from_bits(u64::MAX); LANES]))
    }

    #[inline]
    pub fn any(self) -> bool {
        self.0.any()
    }

    #[inline]
    pub fn and(self, other: Self) -> Self {
        Self(self.0 & other.0)
    }

    #[inline]
    pub fn and_not(self, other: Self) -> Self {
        Self(self.0 & !other.0)
    }

    /// For each ball, the first where this holds, else the second.
    #[inline]
    pub fn pick<T: Pick>(self, holds: T, holds_not: T) -> T {
        T::pick(self, holds, holds_not)
    }
}

/// What can be picked ball by ball.
pub(super) trait Pick {
    fn pick(which: Which, holds: Self, holds_not: Self) -> Self;
}

impl Pick for Eight {
    #[inline]
    fn pick(which: Which, holds: Self, holds_not: Self) -> Self {
        which.0.select(holds, holds_not)
    }
}

impl Pick for Vectors {
    #[inline]
    fn pick(which: Which, holds: Self, holds_not: Self) -> Self {
        Self {
            x: which.pick(holds.x, holds_not.x),
            y: which.pick(holds.y, holds_not.y),
            z: which.pick(holds.z, holds_not.z),
        }
    }
}

/// Where the first is at most the second.
#[inline]
pub(super) fn at_most(a: Eight, b: Eight) -> Which {
    Which(a.simd_le(b))
}

/// Where the first is less than the second.
#[inline]
pub(super) fn less(a: Eight, b: Eight) -> Which {
    Which(a.simd_lt(b))
}

/// Eight vectors; axes as everywhere: x right, y along, z up.
#[derive(Clone, Copy)]
pub(super) struct Vectors {
    pub x: Eight,
    pub y: Eight,
    pub z: Eight,
}

impl Vectors {
    pub const ZERO: Self = Self {
        x: Eight::ZERO,
        y: Eight::ZERO,
        z: Eight::ZERO,
    };

    pub fn of(each: [DVec3; LANES]) -> Self {
        Self {
            x: Eight::new(each.map(|v| v.x)),
            y: Eight::new(each.map(|v| v.y)),
            z: Eight::new(each.map(|v| v.z)),
        }
    }

    /// The same vector eight times.
    #[inline]
    pub fn splat(v: DVec3) -> Self {
        Self {
            x: Eight::splat(v.x),
            y: Eight::splat(v.y),
            z: Eight::splat(v.z),
        }
    }

    pub fn each(self) -> [DVec3; LANES] {
        let (x, y, z) = (self.x.to_array(), self.y.to_array(), self.z.to_array());
        std::array::from_fn(|i| DVec3::new(x[i], y[i], z[i]))
    }

    #[inline]
    pub fn dot(self, other: Self) -> Eight {
        self.x * other.x + self.y * other.y + self.z * other.z
    }

    #[inline]
    pub fn length_squared(self) -> Eight {
        self.dot(self)
    }

    #[inline]
    pub fn cross(self, other: Self) -> Self {
        Self {
            x: self.y * other.z - self.z * other.y,
            y: self.z * other.x - self.x * other.z,
            z: self.x * other.y - self.y * other.x,
        }
    }
}

impl Add for Vectors {
    type Output = Self;
    #[inline]
    fn add(self, other: Self) -> Self {
        Self {
            x: self.x + other.x,
            y: self.y + other.y,
            z: self.z + other.z,
        }
    }
}

impl Sub for Vectors {
    type Output = Self;
    #[inline]
    fn sub(self, other: Self) -> Self {
        Self {
            x: self.x - other.x,
            y: self.y - other.y,
            z: self.z - other.z,
        }
    }
}

impl Neg for Vectors {
    type Output = Self;
    #[inline]
    fn neg(self) -> Self {
        Self {
            x: -self.x,
            y: -self.y,
            z: -self.z,
        }
    }
}

impl Mul<Eight> for Vectors {
    type Output = Self;
    #[inline]
    fn mul(self, factor: Eight) -> Self {
        Self {
            x: self.x * factor,
            y: self.y * factor,
            z: self.z * factor,
        }
    }
}

/// e to the power of numbers from −700 to 0, right to 2e-13: what a flight needs, at half the cost of the library's.
///
/// With the power as k·ln 2 + r, |r| ≤ ½ ln 2, the result is 2ᵏ times the series of eʳ.
#[inline]
pub(super) fn exp_of_negative(power: Eight) -> Eight {
    /// Adding it rounds a small number to a whole one, which then stands in the lowest bits.
    const ROUND: f64 = 6_755_399_441_055_744.0;
    let power = power.fast_max(Eight::splat(-700.0)).fast_min(Eight::ZERO);
    let shifted = power * std::f64::consts::LOG2_E + ROUND;
    let r = power - (shifted - ROUND) * std::f64::consts::LN_2;
    let k: u64x8 = bytemuck::must_cast(shifted);
    // By a number for each, not by one for all: that would pass through memory, and be waited for.
    let two_to_k: Eight = bytemuck::must_cast((k + u64x8::splat(1023)) << u64x8::splat(52));
    let r2 = r * r;
    let r4 = r2 * r2;
    let low = (r + 1.0) + r2 * (r * (1.0 / 6.0) + 0.5);
    let middle = (r * (1.0 / 120.0) + 1.0 / 24.0) + r2 * (r * (1.0 / 5040.0) + 1.0 / 720.0);
    let high = (r * (1.0 / 362_880.0) + 1.0 / 40_320.0)
        + r2 * (r * (1.0 / 39_916_800.0) + 1.0 / 3_628_800.0);
    two_to_k * (low + r4 * (middle + r4 * high))
}

/// Sines and cosines by their series where eleven powers are right to 1e-11, up to 0.8 rad: every tilt but that of
/// the fastest balls on soft turf. Beyond, the library's.
#[inline]
pub(super) fn sin_cos(angle_rad: Eight) -> (Eight, Eight) {
    let wide = less(Eight::splat(0.8), angle_rad.abs());
    let (sin, cos) = series(angle_rad);
    if !wide.any() {
        return (sin, cos);
    }
    let (sin_wide, cos_wide) = angle_rad.sin_cos();
    (wide.pick(sin_wide, sin), wide.pick(cos_wide, cos))
}

#[inline]
fn series(angle_rad: Eight) -> (Eight, Eight) {
    let x = angle_rad * angle_rad;
    let (x2, x4) = (x * x, (x * x) * (x * x));
    let sin = (x * (-1.0 / 6.0) + 1.0)
        + x2 * (x * (-1.0 / 5040.0) + 1.0 / 120.0)
        + x4 * (x * (-1.0 / 39_916_800.0) + 1.0 / 362_880.0);
    let cos = (x * -0.5 + 1.0)
        + x2 * (x * (-1.0 / 720.0) + 1.0 / 24.0)
        + x4 * ((x * (-1.0 / 3_628_800.0) + 1.0 / 40_320.0) + x2 * (1.0 / 479_001_600.0));
    (angle_rad * sin, cos)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_series_agree_with_the_library() {
        for i in 0..20_000 {
            let power = -f64::from(i) * 0.035;
            let (got, expected) = (exp_of_negative(Eight::splat(power)), power.exp());
            assert!(
                (got.to_array()[i as usize % LANES] / expected - 1.0).abs() < 2e-13,
                "e^{power}: {got} against {expected}"
            );
            let angle = f64::from(i - 10_000) * 2e-4;
            let (sin, cos) = sin_cos(Eight::splat(angle));
            let (a, b) = angle.sin_cos();
            assert!(
                (sin.to_array()[0] - a).abs() < 1e-11 && (cos.to_array()[3] - b).abs() < 1e-11,
                "{angle}: {sin}, {cos}"
            );
        }
        assert_eq!(exp_of_negative(Eight::ZERO).to_array(), [1.0; LANES]);
    }
}
