//! Which of the directions of the wind a bank holds a shot is flown in.

use std::f32::consts::{FRAC_PI_2, PI};

use crate::round::place::Xy;
use crate::units::Angle;

/// Directions a windy bank may hold: one every 15°, so that a shot flies in a wind at most 7.5° off; twice as far in a
/// light wind, which half of them do for.
pub(super) const SECTORS: usize = 24;

/// A direction this near the middle between two of them, in their distance, is worked out exactly: twenty times what a
/// bearing can be off by.
const TOO_NEAR: f32 = 0.02;

/// The directions held: every so many, on a hole with the wind from somewhere.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sectors {
    /// None in still air.
    step: Option<usize>,
    wind_from: Angle,
}

impl Sectors {
    pub fn new(step: Option<usize>, wind_from: Angle) -> Self {
        Self { step, wind_from }
    }

    /// The one a shot along `ahead` is flown in.
    ///
    /// Every shot of every round asks; an arc tangent to the last bit would be a tenth of what a round takes.
    pub fn of(&self, ahead: Xy) -> usize {
        let Some(step) = self.step else {
            return 0;
        };
        let sectors = SECTORS / step;
        let turns = (self.wind_from.rad() as f32 - bearing(ahead)) / (2.0 * PI);
        let at = turns * sectors as f32;
        let whole = at.round();
        if (at - whole).abs() > 0.5 - TOO_NEAR || !at.is_finite() {
            return self.exactly(ahead, step);
        }
        (whole as i32).rem_euclid(sectors as i32) as usize * step
    }

    fn exactly(&self, ahead: Xy, step: usize) -> usize {
        let aim = Angle::from_rad(f64::from(ahead.x.atan2(ahead.y)));
        let degrees = 360.0 * step as f64 / SECTORS as f64;
        let sector = ((self.wind_from - aim).deg() / degrees)
            .round()
            .rem_euclid((SECTORS / step) as f64);
        sector as usize * step
    }
}

/// The bearing of a direction from straight ahead, to the right, radians, within 0.0002: the arc tangent by its first
/// terms where they go to nothing quickest.
fn bearing(Xy { x, y }: Xy) -> f32 {
    let (right, along) = (x.abs(), y.abs());
    let small = right.min(along) / right.max(along);
    let square = small * small;
    // Minimax over 0 to 1 (Abramowitz and Stegun 1964, 4.4.49).
    let terms = 0.999_866
        + square
            * (-0.330_299_5 + square * (0.180_141 + square * (-0.085_133 + square * 0.020_835_1)));
    let arc = small * terms;
    let arc = if right > along { FRAC_PI_2 - arc } else { arc };
    let arc = if y < 0.0 { PI - arc } else { arc };
    arc.copysign(x)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Round the clock in steps finer than the margin, and just beside every middle between two sectors.
    #[test]
    fn the_quick_way_finds_the_sector_that_the_exact_way_does() {
        for wind_from in [-30.0, 0.0, 7.5, 22.5, 100.0, 240.0, 359.9] {
            for step in [1, 2, 6] {
                let sectors = Sectors::new(Some(step), Angle::from_deg(wind_from));
                let evenly = (0..40_000).map(|turn| f64::from(turn) * 0.009);
                let middles = (0..48).flat_map(|half| {
                    [-1e-3, -1e-5, 0.0, 1e-5, 1e-3].map(|off| 7.5 * f64::from(half) + off)
                });
                for bearing_deg in evenly.chain(middles) {
                    let (x, y) = bearing_deg.to_radians().sin_cos();
                    let ahead = Xy::new(180.0 * x as f32, 180.0 * y as f32);
                    let exactly = sectors.exactly(ahead, step);
                    assert_eq!(
                        sectors.of(ahead),
                        exactly,
                        "{wind_from} {step} {bearing_deg}"
                    );
                }
            }
        }
        let still = Sectors::new(None, Angle::from_deg(240.0));
        assert_eq!(still.of(Xy::new(1.0, 0.0)), 0);
        let nowhere = Sectors::new(Some(1), Angle::from_deg(240.0));
        assert_eq!(nowhere.of(Xy::default()), nowhere.exactly(Xy::default(), 1));
    }

    #[test]
    fn a_bearing_is_off_by_less_than_it_may() {
        for turn in 0..100_000 {
            let angle = f64::from(turn) * 1e-4 - 5.0;
            let (x, y) = angle.sin_cos();
            let ahead = Xy::new(x as f32, y as f32);
            let off = bearing(ahead) - ahead.x.atan2(ahead.y);
            assert!(off.abs() < 2e-4, "{angle}: {off}");
        }
    }
}
