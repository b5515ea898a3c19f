//! What a lie does to a full shot.
//!
//! No published measurement of the speed lost from rough, sand or trees was found, so these are stated
//! assumptions. One figure has a source: an 8 iron from light rough keeps about half its spin
//! (R&A/USGA groove study, 2006–2009). The rest was set so that the tour level reproduces what tour
//! professionals take from these lies (see tests/published).

use crate::course::Lie;
use crate::files::Faults;
use crate::player::club::{Class, Club};

use super::refused;

/// What changes when a shot is played from a lie, against the same shot from a clean one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LieEffect {
    /// Ball speed, as a factor.
    pub ball_speed: f64,
    /// Backspin and sidespin, as a factor.
    pub spin: f64,
    /// Launch, degrees added.
    pub launch_deg: f64,
    /// Every spread, as a factor.
    pub spread: f64,
    /// Share of mishits, as a factor.
    pub mishits: f64,
}

impl LieEffect {
    /// A clean lie changes nothing.
    pub const NONE: Self = Self {
        ball_speed: 1.0,
        spin: 1.0,
        launch_deg: 0.0,
        spread: 1.0,
        mishits: 1.0,
    };
}

/// What a rule may answer of a lie. Sand that doubles the speed is a slip of the rule, not a lie.
const FACTORS: std::ops::RangeInclusive<f64> = 0.05..=2.0;
/// Spread and mishits reach further: a plugged ball is a lottery.
const WIDE_FACTORS: std::ops::RangeInclusive<f64> = 0.05..=20.0;
/// Degrees of launch.
const LAUNCH_DEG: std::ops::RangeInclusive<f64> = -30.0..=30.0;

impl LieEffect {
    /// What is absurd about an effect, in words that follow "cannot be"; none for one that can be.
    #[must_use]
    pub(super) fn absurd(&self) -> Option<String> {
        let figures = [
            (self.ball_speed, FACTORS, "times the ball speed"),
            (self.spin, FACTORS, "times the spin"),
            (self.launch_deg, LAUNCH_DEG, "degrees of launch"),
            (self.spread, WIDE_FACTORS, "times the spread"),
            (self.mishits, WIDE_FACTORS, "times the mishits"),
        ];
        let odd = figures
            .into_iter()
            .find(|(figure, range, _)| !range.contains(figure));
        odd.map(|(figure, range, what)| {
            let (low, high) = (range.start(), range.end());
            format!("{figure} {what}: it lies from {low} to {high}")
        })
    }
}

/// What a lie does to a full shot, in place of the built-in table.
pub trait LieRule: Send + Sync {
    /// The effect of a lie on a club.
    ///
    /// # Errors
    /// When the rule has no answer.
    fn effect(&self, lie: Lie, club: Club) -> Result<LieEffect, Faults>;
}

impl<F> LieRule for F
where
    F: Fn(Lie, Club) -> Result<LieEffect, Faults> + Send + Sync,
{
    fn effect(&self, lie: Lie, club: Club) -> Result<LieEffect, Faults> {
        let effect = self(lie, club)?;
        match effect.absurd() {
            Some(absurd) => Err(refused("lie_effect", format!("a lie cannot be {absurd}"))),
            None => Ok(effect),
        }
    }
}

/// The built-in table.
#[must_use]
pub fn lie_effect(lie: Lie, club: Club) -> LieEffect {
    let wood = matches!(club.class(), Class::Wood);
    let wedge = matches!(club.class(), Class::Wedge);
    let long = club.is_long();
    match lie {
        // A wood off the ground is swept with less room for error than off a tee.
        Lie::Fairway if wood => LieEffect {
            ball_speed: 0.97,
            spread: 1.6,
            mishits: 1.5,
            ..LieEffect::NONE
        },
        Lie::Rough => LieEffect {
            ball_speed: if long { 0.91 } else { 0.95 },
            spin: if long { 0.75 } else { 0.6 },
            launch_deg: 0.5,
            spread: if long { 1.9 } else { 1.5 },
            mishits: 1.5,
        },
        Lie::Sand => LieEffect {
            ball_speed: if long { 0.86 } else { 0.93 },
            spin: 0.85,
            launch_deg: 0.0,
            spread: if wedge { 2.4 } else { 2.0 },
            mishits: 3.0,
        },
        Lie::Trees => LieEffect {
            ball_speed: 0.75,
            spin: 0.7,
            launch_deg: -4.0,
            spread: 1.6,
            mishits: 1.5,
        },
        _ => LieEffect::NONE,
    }
}

/// How much wider chips and pitches finish from a lie than from clean grass, as a factor.
///
/// Professionals of the 1960s left 7.8 % of the distance from good lies and 12.8 % from light rough:
/// a factor of 1.6 (A. Cochran & J. Stobbs 1968, Search for the Perfect Swing). Trees: an assumption.
#[must_use]
pub const fn touch_factor(lie: Lie) -> f64 {
    match lie {
        Lie::Rough => 1.4,
        Lie::Trees => 2.5,
        _ => 1.0,
    }
}
