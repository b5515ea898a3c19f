//! Chips, pitches and greenside bunker shots: how near the hole they finish.

use crate::course::Lie;
use crate::player::skill::Touch;
use crate::rules::lies::touch_factor;

use super::draws::unit_pairs;
use super::finish::{Finish, Spot, at_rest, drop_behind, stroke_and_distance};
use super::ground::Ground;
use super::place::{FEET, Xy};

/// Draws for one shot.
const DRAWS: usize = 64;
const MISHIT_DRAWS: usize = 32;

/// Ground around the hole in which a ball on its way to rest drops in, square yards: the hole's width
/// by the first four feet beyond it. (Capture falls with speed: B.W. Holmes 1991, Am. J. Phys. 59, 129;
/// the four feet are an assumption, set so that tour professionals' strokes from 10 to 30 yd come out.)
const CAPTURE_YD2: f32 = (4.25 / 36.0) * (4.0 / 3.0);

/// One golfer's touch from grass and from sand, ready to play.
#[derive(Debug, Clone, PartialEq)]
pub struct TouchShots {
    grass: Touch,
    sand: Touch,
    /// Standard normal errors (across, along).
    errors: Vec<Xy>,
    /// Mishits: how far they go, as a share of the distance, and their error across in standard errors.
    mishits: Vec<Xy>,
}

/// One shot's errors at a distance and lie.
#[derive(Debug, Clone, Copy)]
pub struct TouchShot<'a> {
    shots: &'a TouchShots,
    along_yd: f32,
    across_yd: f32,
    /// Share of mishits.
    pub mishit_share: f32,
    /// Chance to hole it.
    pub holed: f32,
    from: Spot,
    pin: Xy,
}

impl TouchShots {
    /// Whether shots from a lie are played as another golfer plays them.
    #[must_use]
    pub fn is_like(&self, other: &Self, lie: Lie) -> bool {
        match lie {
            Lie::Sand => self.sand == other.sand,
            _ => self.grass == other.grass,
        }
    }

    /// For a golfer's two touches.
    #[must_use]
    pub fn new(grass: Touch, sand: Touch) -> Self {
        let unit = unit_pairs(DRAWS);
        let errors = unit
            .iter()
            .map(|[along, across]| Xy::new(*across, *along))
            .collect();
        let mishits = unit_pairs(MISHIT_DRAWS)
            .iter()
            .enumerate()
            .map(|(index, [_, across])| Xy::new(2.0 * across, mishit_reach(index / 2)))
            .collect();
        Self {
            grass,
            sand,
            errors,
            mishits,
        }
    }

    /// A shot to the pin from `from`.
    #[must_use]
    pub fn shot(&self, from: Spot, pin: Xy) -> TouchShot<'_> {
        let touch = if from.lie == Lie::Sand {
            &self.sand
        } else {
            &self.grass
        };
        let factor = touch_factor(from.lie) as f32;
        let distance_yd = pin.seen_from(from.at).length();
        let spread =
            |pct: f64| factor * (touch.base_ft as f32 / FEET + pct as f32 / 100.0 * distance_yd);
        let (along_yd, across_yd) = (spread(touch.along_pct), spread(touch.across_pct));
        let density = 1.0 / (2.0 * std::f32::consts::PI * along_yd * across_yd).max(1e-6);
        TouchShot {
            shots: self,
            along_yd,
            across_yd,
            mishit_share: (touch.mishit_pct / 100.0 * f64::from(factor)).min(1.0) as f32,
            holed: (density * CAPTURE_YD2).min(0.6),
            from,
            pin,
        }
    }
}

/// Duffs stop short, thins run on: half each, evenly spread (from 15 to 65 %, and from 130 to 220 %
/// of the distance: assumptions).
fn mishit_reach(index: usize) -> f32 {
    let half = (MISHIT_DRAWS / 4) as f32;
    let step = ((index / 2) as f32 + 0.5) / half;
    if index.is_multiple_of(2) {
        0.15 + 0.5 * step
    } else {
        1.3 + 0.9 * step
    }
}

impl TouchShot<'_> {
    /// How many different shots there are in a share: normal ones, and mishits.
    #[must_use]
    pub fn counts(&self) -> (usize, usize) {
        (self.shots.errors.len(), self.shots.mishits.len())
    }

    /// Where normal shot `index` ends.
    #[must_use]
    pub fn normal(&self, ground: &Ground, index: usize) -> Finish {
        let error = self.shots.errors[index];
        let ahead = self.pin.seen_from(self.from.at).unit();
        let off = Xy::new(error.x * self.across_yd, error.y * self.along_yd).turned(ahead);
        self.end(ground, self.pin.moved(off, 1.0))
    }

    /// Where mishit `index` ends.
    #[must_use]
    pub fn mishit(&self, ground: &Ground, index: usize) -> Finish {
        let shot = self.shots.mishits[index];
        let way = self.pin.seen_from(self.from.at);
        let across = Xy::new(shot.x * self.across_yd, 0.0).turned(way.unit());
        self.end(ground, self.from.at.moved(way, shot.y).moved(across, 1.0))
    }

    fn end(&self, ground: &Ground, at: Xy) -> Finish {
        match ground.lie(at) {
            lie @ Lie::OutOfBounds => stroke_and_distance(self.from, lie),
            lie @ Lie::Water => drop_behind(ground, self.from, at, self.from.at, lie),
            lie => at_rest(at, lie, lie),
        }
    }
}
