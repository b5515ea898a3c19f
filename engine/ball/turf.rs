//! Turf: bounce and run from the pitch to rest.
//!
//! How the ball bounces and rolls on it stands in `bounce.rs`.

use glam::DVec3;

use super::aero::GRAVITY_MPS2;
use super::bounce::Balls;
use super::eight::{LANES, Vectors};
use super::flight::Landing;
use crate::units::{Angle, Length};

/// Firmness from 0 (soft) through 0.5 (medium) to 1 (firm).
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Firmness(f64);

impl Firmness {
    /// Turf that plugs a wedge.
    pub const SOFT: Self = Self(0.0);
    /// The turf of Penner's rule as published.
    pub const MEDIUM: Self = Self(0.5);
    /// Dry, hard turf.
    pub const FIRM: Self = Self(1.0);

    /// A firmness from 0 (soft) to 1 (firm); nothing outside that.
    #[must_use]
    pub fn new(value: f64) -> Option<Self> {
        (0.0..=1.0).contains(&value).then_some(Self(value))
    }

    /// The firmness of a word: `soft`, `medium` or `firm`.
    ///
    /// ```
    /// use costcard::ball::turf::Firmness;
    /// assert_eq!(Firmness::from_word("firm"), Some(Firmness::FIRM));
    /// assert_eq!(Firmness::from_word("wet"), None);
    /// ```
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        match word {
            "soft" => Some(Self::SOFT),
            "medium" => Some(Self::MEDIUM),
            "firm" => Some(Self::FIRM),
            _ => None,
        }
    }

    /// The number, 0 to 1.
    #[must_use]
    pub const fn value(self) -> f64 {
        self.0
    }

    /// Factor on the tilt of Penner's rule: 1.3 on soft turf, 1 on medium, 0.6 on firm, straight lines between.
    /// An assumption; what it gives is tabled in tests/published/turf.rs.
    fn tilt(self) -> f64 {
        if self.0 < 0.5 {
            1.3 - 0.6 * self.0
        } else {
            1.4 - 0.8 * self.0
        }
    }
}

/// What a ball lands on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Surface {
    /// Closely mown grass of a fairway.
    Fairway,
    /// Longer grass.
    Rough,
    /// A putting green.
    Green,
}

/// Where a ball comes to rest, measured from its pitch mark.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Run {
    /// Along the horizontal direction of travel at the pitch; negative when it spins back.
    pub along: Length,
    /// Across it, positive right.
    pub across: Length,
}

/// Slope of the ground as the ball meets it, percent; positive rises.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Slope {
    /// Rise along the ball's direction of travel.
    pub along_pct: f64,
    /// Rise to the right of it.
    pub across_pct: f64,
}

impl Slope {
    /// Level ground.
    pub const LEVEL: Self = Self {
        along_pct: 0.0,
        across_pct: 0.0,
    };
}

/// Rolling of a fairway as a Stimpmeter reading, ft. Between the slowest greens and grass that hides the ball;
/// an assumption: readings on fairways are seldom published.
const FAIRWAY_STIMP_FT: f64 = 5.0;

/// Rolling of rough in the same measure, ft: grass over half the ball. An assumption.
const ROUGH_STIMP_FT: f64 = 1.5;

/// Rough returns this share of the bounce of mown turf: long grass bends away under the ball. An assumption.
const ROUGH_BOUNCE: f64 = 0.5;

/// Rough tilts this much more than mown turf of the same firmness: the grass heaps up in front of the ball.
/// An assumption; together with the bounce it halves the run of a drive.
const ROUGH_TILT: f64 = 1.25;

/// Deceleration of a rolling ball for a Stimpmeter reading, m/s²: the ball leaves at 6 ft/s and rolls that far.
/// Source: USGA Stimpmeter.
#[must_use]
pub fn deceleration_mps2(stimp_ft: f64) -> f64 {
    let speed = 6.0 * 0.3048;
    speed * speed / (2.0 * 0.3048 * stimp_ft.max(0.1))
}

/// A patch of ground, worked out once for many balls.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Turf {
    /// Tilt, radians, for each m/s of speed and radian of steepness.
    pub(super) tilt_s_per_m: f64,
    pub(super) bounce: f64,
    pub(super) deceleration_mps2: f64,
    /// Upright of the ground; x right of the ball's travel, y along it, z up.
    pub(super) normal: DVec3,
    /// Gravity along the ground, m/s².
    pub(super) downhill_mps2: DVec3,
    /// Time of a hop for each m/s off the ground, s²/m.
    pub(super) hop_s2_per_m: f64,
}

impl Turf {
    /// Ground of a surface, firmness and slope. The Stimpmeter reading, feet, counts on greens only.
    #[must_use]
    pub fn new(surface: Surface, firmness: Firmness, stimp_ft: f64, slope: Slope) -> Self {
        let (bounce, tilt, roll_ft) = match surface {
            Surface::Green => (1.0, 1.0, stimp_ft),
            Surface::Fairway => (1.0, 1.0, FAIRWAY_STIMP_FT),
            Surface::Rough => (ROUGH_BOUNCE, ROUGH_TILT, ROUGH_STIMP_FT),
        };
        let normal =
            DVec3::new(-slope.across_pct / 100.0, -slope.along_pct / 100.0, 1.0).normalize();
        let weight_mps2 = GRAVITY_MPS2 * normal.z;
        Self {
            tilt_s_per_m: firmness.tilt() * tilt * (15.4 / 18.6 / 44.4),
            bounce,
            deceleration_mps2: deceleration_mps2(roll_ft),
            normal,
            downhill_mps2: normal * weight_mps2 - DVec3::Z * GRAVITY_MPS2,
            hop_s2_per_m: 2.0 / weight_mps2,
        }
    }

    /// Where a ball that pitches here comes to rest.
    ///
    /// ```
    /// use costcard::ball::{Strike, air::{Air, Atmosphere}, flight::fly};
    /// use costcard::ball::turf::{Firmness, Slope, Surface, Turf};
    /// use costcard::units::{Angle, Speed, Spin};
    /// let wedge = Strike {
    ///     ball_speed: Speed::from_mph(102.0),
    ///     launch: Angle::from_deg(24.2),
    ///     direction: Angle::ZERO,
    ///     backspin: Spin::from_rpm(9304.0),
    ///     sidespin: Spin::ZERO,
    /// };
    /// let pitch = fly(&wedge, &Atmosphere::new(&Air::standard())).landing;
    /// let green = Turf::new(Surface::Green, Firmness::MEDIUM, 10.0, Slope::LEVEL);
    /// assert!(green.run(&pitch).along.yd().abs() < 3.0); // it stops by its pitch mark
    /// ```
    #[must_use]
    pub fn run(&self, landing: &Landing) -> Run {
        let [run, ..] = self.run_eight([landing; LANES]);
        run
    }

    /// Where many balls that pitch here come to rest: each as [`Self::run`] would, to the last bit, eight at a time.
    #[must_use]
    pub fn run_all(&self, landings: &[Landing]) -> Vec<Run> {
        let mut runs = Vec::with_capacity(landings.len());
        for landings in landings.chunks(LANES) {
            // The last eight are filled up with their first.
            let eight = std::array::from_fn(|i| landings.get(i).unwrap_or(&landings[0]));
            runs.extend(self.run_eight(eight).into_iter().take(landings.len()));
        }
        runs
    }

    fn run_eight(&self, landings: [&Landing; LANES]) -> [Run; LANES] {
        self.rest_of(Balls::facing_travel(landings)).each().map(run)
    }

    /// Where a ball that already rolls comes to rest: `speed_mps` along the travel axis turned right by `direction`.
    #[must_use]
    pub fn roll_out(&self, speed_mps: f64, direction: Angle) -> Run {
        let (right, along) = direction.rad().sin_cos();
        let level = DVec3::new(right, along, 0.0);
        let in_plane = (level - DVec3::Z * (level.dot(self.normal) / self.normal.z)).normalize();
        let [rest, ..] = self.roll(Vectors::splat(in_plane * speed_mps)).each();
        run(rest)
    }
}

fn run(rest_m: DVec3) -> Run {
    Run {
        along: Length::from_m(rest_m.y),
        across: Length::from_m(rest_m.x),
    }
}
