//! Short game, sand and putting: a few figures each, and what a player would measure of them.

use super::bag::lerp;
use super::quantile;
use crate::ball::putt::{Putt, PuttStroke, USUAL_STIMP_FT};
use crate::units::Length;

/// How near the hole a golfer plays chips, pitches or bunker shots.
///
/// Errors are normal in each axis, measured from the hole, of standard deviation
/// `base_ft + pct/100 × distance`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Touch {
    /// Error along the line, percent of the distance.
    pub along_pct: f64,
    /// Error across the line, percent of the distance.
    pub across_pct: f64,
    /// Error at no distance, feet, in both axes.
    pub base_ft: f64,
    /// Share of duffed and thinned shots, percent.
    pub mishit_pct: f64,
}

/// The two errors of a putt, and where it is aimed to finish.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Putting {
    /// Standard deviation of the start direction on greens of [`USUAL_STIMP_FT`], degrees.
    pub direction_sd_deg: f64,
    /// Standard deviation of the length there, percent of the length meant.
    pub length_sd_pct: f64,
    /// How far past the hole a putt is meant to finish, feet.
    pub past_ft: f64,
}

/// Quantiles per axis over which a chance is averaged.
const STEPS: usize = 24;

impl Touch {
    /// Standard deviations along and across the line at a distance.
    #[must_use]
    pub fn errors_at(&self, distance: Length) -> (Length, Length) {
        let error = |pct: f64| Length::from_ft(self.base_ft + pct / 100.0 * distance.ft());
        (error(self.along_pct), error(self.across_pct))
    }

    /// Chance that a shot from `distance` is followed by one putt at most, 0 to 1, on level ground.
    /// A duffed or thinned shot is never saved.
    #[must_use]
    pub fn saved(&self, distance: Length, putting: &Putting) -> f64 {
        let (along, across) = self.errors_at(distance);
        let quantiles: Vec<f64> = (0..STEPS)
            .map(|i| quantile::normal((i as f64 + 0.5) / STEPS as f64))
            .collect();
        let mut chance = 0.0;
        // The four quarters are alike.
        for y in &quantiles[STEPS / 2..] {
            for x in &quantiles[STEPS / 2..] {
                let left = (along.m() * y).hypot(across.m() * x);
                chance += putting.holed(Length::from_m(left));
            }
        }
        (1.0 - self.mishit_pct / 100.0) * chance / (STEPS / 2).pow(2) as f64
    }

    /// Every figure of two interpolated; beyond either, never under zero.
    pub(super) fn blend(a: &Self, b: &Self, t: f64) -> Self {
        let mix = |read: fn(&Self) -> f64| lerp(read(a), read(b), t).max(0.0);
        Self {
            along_pct: mix(|touch| touch.along_pct),
            across_pct: mix(|touch| touch.across_pct),
            base_ft: mix(|touch| touch.base_ft),
            mishit_pct: mix(|touch| touch.mishit_pct).min(100.0),
        }
    }
}

impl Putting {
    /// The stroke for the ball.
    #[must_use]
    pub const fn stroke(&self) -> PuttStroke {
        PuttStroke {
            direction_sd_deg: self.direction_sd_deg,
            length_sd_pct: self.length_sd_pct,
            past_ft: self.past_ft,
        }
    }

    /// Chance to hole a putt on a level green of usual speed, 0 to 1.
    #[must_use]
    pub fn holed(&self, distance: Length) -> f64 {
        Putt::new(&self.stroke(), distance, USUAL_STIMP_FT).holed()
    }

    /// Every figure of two interpolated; beyond either, never under zero.
    pub(super) fn blend(a: &Self, b: &Self, t: f64) -> Self {
        let mix = |read: fn(&Self) -> f64| lerp(read(a), read(b), t).max(0.0);
        Self {
            direction_sd_deg: mix(|putting| putting.direction_sd_deg),
            length_sd_pct: mix(|putting| putting.length_sd_pct),
            past_ft: mix(|putting| putting.past_ft),
        }
    }
}
