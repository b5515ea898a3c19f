//! Turf: bounce and run from the pitch to rest.
//!
//! Each bounce follows A.R. Penner (2002), 'The run of a golf ball', Can. J. Phys. 80, 931–940: the struck turf
//! acts like a firm surface tilted toward the ball. The rule, made for a ball in one plane, is written here for
//! vectors, so that sidespin and side slopes count. Between bounces the ball flies without air; when it no
//! longer leaves the ground it rolls to rest.

use glam::DVec3;

use super::aero::{GRAVITY_MPS2, RADIUS_M};
use super::flight::Landing;
use super::series::sin_cos;
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

/// Sliding friction of turf. Source: Penner (2002), from memory.
const FRICTION: f64 = 0.40;

/// Speed off the ground below which a ball rolls, m/s: a hop of 5 mm.
const LEAST_HOP_MPS: f64 = 0.313;

/// Bounces after which a ball is taken to roll; a full shot needs about six.
const MOST_BOUNCES: usize = 20;

/// Longest roll, m. Only a slope too steep for a ball to rest on is longer, and no such bank goes on for ever.
const MOST_ROLL_M: f64 = 60.0;

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
    tilt_s_per_m: f64,
    bounce: f64,
    deceleration_mps2: f64,
    /// Upright of the ground; x right of the ball's travel, y along it, z up.
    normal: DVec3,
    /// Gravity along the ground, m/s².
    downhill_mps2: DVec3,
    /// Gravity into the ground, m/s².
    weight_mps2: f64,
    /// Time of a hop for each m/s off the ground, s²/m.
    hop_s2_per_m: f64,
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
            weight_mps2,
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
        let mut ball = Ball::facing_travel(landing);
        let mut position = DVec3::ZERO;
        for _ in 0..MOST_BOUNCES {
            self.strike_ground(&mut ball);
            let up = ball.velocity.dot(self.normal);
            if up < LEAST_HOP_MPS {
                break;
            }
            position += self.hop(&mut ball, up);
        }
        position += self.roll(self.rolling_velocity(&ball));
        Run {
            along: Length::from_m(position.y),
            across: Length::from_m(position.x),
        }
    }

    /// Where a ball that already rolls comes to rest: `speed_mps` along the travel axis turned right by `direction`.
    #[must_use]
    pub fn roll_out(&self, speed_mps: f64, direction: Angle) -> Run {
        let (right, along) = direction.rad().sin_cos();
        let level = DVec3::new(right, along, 0.0);
        let in_plane = (level - DVec3::Z * (level.dot(self.normal) / self.normal.z)).normalize();
        let rest = self.roll(in_plane * speed_mps);
        Run {
            along: Length::from_m(rest.y),
            across: Length::from_m(rest.x),
        }
    }

    /// One impact with the ground, by Penner's rule.
    fn strike_ground(&self, ball: &mut Ball) {
        let into = -ball.velocity.dot(self.normal);
        let glide = ball.velocity + self.normal * into;
        // The least value only keeps the division finite: a ball that drops upright tilts nothing.
        let glide_square = glide.length_squared().max(1e-30);
        // The two roots stand side by side, not one after the other: the second need not wait for the first.
        let (glide_mps, speed) = (glide_square.sqrt(), ball.velocity.length());
        let tilt = self.tilt_s_per_m * speed * steepness_rad(glide_mps, into, speed);
        let (sin, cos) = sin_cos(tilt);
        let upright = self.normal * cos - glide * (sin * (glide_mps / glide_square));
        let hit = -ball.velocity.dot(upright);
        if hit <= 0.0 {
            return;
        }
        let back = (1.0 + self.bounce * restitution(hit)) * hit;
        // Speed of the ball's lowest point over the turf, which friction works against.
        let slip = ball.velocity + upright * hit - ball.spin_rad_s.cross(upright) * RADIUS_M;
        let slip_square = slip.length_squared();
        let grip = if 4.0 * slip_square <= (7.0 * FRICTION * back).powi(2) {
            2.0 / 7.0
        } else {
            FRICTION * back / slip_square.sqrt()
        };
        let rub = slip * -grip;
        ball.velocity += upright * back + rub;
        ball.spin_rad_s -= upright.cross(rub) * (2.5 / RADIUS_M);
    }

    /// One hop through still air: the way over the ground, and the ball as it comes down again.
    fn hop(&self, ball: &mut Ball, up_mps: f64) -> DVec3 {
        let time_s = up_mps * self.hop_s2_per_m;
        let glide = ball.velocity - self.normal * up_mps;
        ball.velocity = glide + self.downhill_mps2 * time_s - self.normal * up_mps;
        (glide + self.downhill_mps2 * (0.5 * time_s)) * time_s
    }

    /// Velocity along the ground once the ball rolls, from what is left of its spin: momentum about the point of
    /// contact is kept.
    fn rolling_velocity(&self, ball: &Ball) -> DVec3 {
        let glide = ball.velocity - self.normal * ball.velocity.dot(self.normal);
        glide * (5.0 / 7.0) + ball.spin_rad_s.cross(self.normal) * (RADIUS_M * 2.0 / 7.0)
    }

    /// Way of a rolling ball to rest on a plane: steady resistance against the motion, five sevenths of gravity
    /// down the slope. Solved exactly by the angle ψ between motion and downhill, which only ever shrinks:
    /// with resistance f and pull G, the ball ends v²·[(1 + cos ψ)²/8(f − G) − (1 − cos ψ)²/8(f + G)] down the
    /// slope and v²·sin ψ/2·[(1 + cos ψ)/(2f − G) + (1 − cos ψ)/(2f + G)] across it. (Derived here; the ψ → 0 and
    /// G → 0 limits are v²/2(f − G) and v²/2f.)
    ///
    /// A ball on a slope it cannot rest on rolls [`MOST_ROLL_M`] straight down it; no roll is longer.
    fn roll(&self, velocity: DVec3) -> DVec3 {
        let resistance = self.deceleration_mps2;
        let pull_vector = self.downhill_mps2 * (5.0 / 7.0);
        let pull = pull_vector.length();
        let square = velocity.length_squared();
        if pull == 0.0 {
            return (velocity * (square.sqrt() / (2.0 * resistance))).clamp_length_max(MOST_ROLL_M);
        }
        let downhill = pull_vector / pull;
        if pull >= resistance {
            return downhill * MOST_ROLL_M;
        }
        if square == 0.0 {
            return DVec3::ZERO;
        }
        let heading = velocity / square.sqrt();
        let cos = heading.dot(downhill);
        let (with, against) = (1.0 + cos, 1.0 - cos);
        let down = with * with / (8.0 * (resistance - pull))
            - against * against / (8.0 * (resistance + pull));
        let across = 0.5 * (with / (2.0 * resistance - pull) + against / (2.0 * resistance + pull));
        // heading − downhill·cos has length sin ψ.
        ((downhill * down + (heading - downhill * cos) * across) * square)
            .clamp_length_max(MOST_ROLL_M)
    }
}

/// Restitution of turf on its tilted upright, by the speed into it, m/s. Source: Penner (2002), from memory.
fn restitution(speed_mps: f64) -> f64 {
    if speed_mps > 20.0 {
        return 0.120;
    }
    0.510 + speed_mps * (-0.0375 + speed_mps * 0.000_903)
}

/// Angle between a ball's motion and the upright of the ground, radians: by its half, tan(θ/2) = glide/(speed + into),
/// and a published arctangent, which is cheaper than a library's.
/// Source: Abramowitz & Stegun (1964), 4.4.49, right to 2e-8.
#[inline]
fn steepness_rad(glide_mps: f64, into_mps: f64, speed_mps: f64) -> f64 {
    let half = glide_mps / (speed_mps + into_mps).max(1e-15);
    if half > 1.0 {
        // Only a ball that leaves the ground.
        return 2.0 * half.atan();
    }
    let x = half * half;
    let (x2, x4) = (x * x, (x * x) * (x * x));
    let low = (1.0 - 0.333_331_452_8 * x) + x2 * (0.199_935_508_5 - 0.142_088_994_4 * x);
    let high =
        (0.106_562_639_3 - 0.075_289_640_0 * x) + x2 * (0.042_909_613_8 - 0.016_165_736_7 * x);
    2.0 * half * (low + x4 * (high + x4 * 0.002_866_225_7))
}

/// A ball on the ground, in the frame of its travel: x right, y along, z up.
struct Ball {
    velocity: DVec3,
    spin_rad_s: DVec3,
}

impl Ball {
    fn facing_travel(landing: &Landing) -> Self {
        let v = landing.velocity_mps;
        let level = (v.x * v.x + v.y * v.y).sqrt();
        let (right, forward) = if level > 0.0 {
            (v.x / level, v.y / level)
        } else {
            (0.0, 1.0)
        };
        let turn = |a: DVec3| {
            DVec3::new(
                a.x * forward - a.y * right,
                a.x * right + a.y * forward,
                a.z,
            )
        };
        Self {
            velocity: turn(v),
            spin_rad_s: turn(landing.spin_rad_s),
        }
    }
}
