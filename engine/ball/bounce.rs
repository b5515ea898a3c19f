//! Bounces and the roll, eight balls at a time.
//!
//! Each bounce follows A.R. Penner (2002), 'The run of a golf ball', Can. J. Phys. 80, 931–940: the struck turf
//! acts like a firm surface tilted toward the ball. The rule, made for a ball in one plane, is written here for
//! vectors, so that sidespin and side slopes count. Between bounces the ball flies without air; when it no
//! longer leaves the ground it rolls to rest.

use super::aero::RADIUS_M;
use super::eight::{Eight, LANES, Vectors, Which, at_most, less, sin_cos};
use super::flight::Landing;
use super::turf::Turf;

/// Sliding friction of turf. Source: Penner (2002), from memory.
const FRICTION: f64 = 0.40;

/// Speed off the ground below which a ball rolls, m/s: a hop of 5 mm.
const LEAST_HOP_MPS: f64 = 0.313;

/// Speed times steepness, m/s times radians, beyond which turf tilts no further: that of the drive of the distance
/// standard, 28.5 m/s at 53.7° from upright, the flattest and fastest that a published length tells of
/// (tests/published/flight.rs). The rule was measured at 18.6 m/s and 44.4° and grows without end; carried on to
/// flatter and faster balls it heaps up a wall before them, and drives that in play run on would stop dead or jump
/// back. Where it ends is an assumption. (S.W. Biber et al. (2023), Sports Engineering 26, second-hand, found one tilt
/// for over 1000 bounces.)
const MOST_TILTING_MPS: f64 = 28.5 * 53.7 * (std::f64::consts::PI / 180.0);

/// No ball runs on faster than one that pitches at this speed, m/s: that of the drive of the distance standard from 2028
/// (183 mph, 11°, 2220 rpm), the fastest a published length tells of. A thin one skims in at 35 or 50, where the rule was
/// never measured and where air and grass, which it leaves out between bounces, take most: run out by it, a drive topped
/// at half a degree would go as far as one that is struck. An assumption.
const FASTEST_PITCH_MPS: f64 = 29.8;

/// Bounces after which a ball is taken to roll; a full shot needs about six.
const MOST_BOUNCES: usize = 20;

/// Longest roll, m. Only a slope too steep for a ball to rest on is longer, and no such bank goes on for ever.
const MOST_ROLL_M: f64 = 60.0;

/// Eight balls on the ground, each in the frame of its travel: x right, y along, z up.
pub(super) struct Balls {
    velocity: Vectors,
    spin_rad_s: Vectors,
}

impl Balls {
    pub fn facing_travel(landings: [&Landing; LANES]) -> Self {
        let slowed = landings.map(|landing| {
            let share = FASTEST_PITCH_MPS / landing.velocity_mps.length().max(FASTEST_PITCH_MPS);
            [landing.velocity_mps, landing.spin_rad_s].map(|vector| vector * share)
        });
        let v = Vectors::of(slowed.map(|[velocity, _]| velocity));
        let level = (v.x * v.x + v.y * v.y).sqrt();
        let moves = less(Eight::ZERO, level);
        let right = moves.pick(v.x / level, Eight::ZERO);
        let forward = moves.pick(v.y / level, Eight::ONE);
        let turn = |a: Vectors| Vectors {
            x: a.x * forward - a.y * right,
            y: a.x * right + a.y * forward,
            z: a.z,
        };
        Self {
            velocity: turn(v),
            spin_rad_s: turn(Vectors::of(slowed.map(|[_, spin]| spin))),
        }
    }

    /// For each ball, the first where `which` holds, else the second.
    fn pick(which: Which, holds: &Self, holds_not: &Self) -> Self {
        Self {
            velocity: which.pick(holds.velocity, holds_not.velocity),
            spin_rad_s: which.pick(holds.spin_rad_s, holds_not.spin_rad_s),
        }
    }
}

impl Turf {
    /// Where the balls come to rest, from their pitch marks, m.
    ///
    /// What becomes of one never depends on those beside it: a ball that no longer bounces is left as it is.
    pub(super) fn rest_of(&self, mut balls: Balls) -> Vectors {
        let normal = Vectors::splat(self.normal);
        let mut position = Vectors::ZERO;
        let mut bouncing = Which::all();
        for _ in 0..MOST_BOUNCES {
            balls = Balls::pick(bouncing, &self.struck(&balls, normal), &balls);
            let up_mps = balls.velocity.dot(normal);
            bouncing = bouncing.and_not(less(up_mps, Eight::splat(LEAST_HOP_MPS)));
            if !bouncing.any() {
                break;
            }
            let (way, velocity) = self.hop(balls.velocity, up_mps, normal);
            position = bouncing.pick(position + way, position);
            balls.velocity = bouncing.pick(velocity, balls.velocity);
        }
        position + self.roll(rolling_velocity(&balls, normal))
    }

    /// The balls after one impact with the ground, by Penner's rule.
    #[inline]
    fn struck(&self, balls: &Balls, normal: Vectors) -> Balls {
        let velocity = balls.velocity;
        let into = -velocity.dot(normal);
        let glide = velocity + normal * into;
        // The least value only keeps the division finite: a ball that drops upright tilts nothing.
        let glide_square = glide.length_squared().fast_max(1e-30.into());
        // The two roots stand side by side, not one after the other: the second need not wait for the first.
        let (glide_mps, speed) = (glide_square.sqrt(), velocity.length_squared().sqrt());
        let tilt = (speed * steepness_rad(glide_mps, into, speed))
            .fast_min(MOST_TILTING_MPS.into())
            * self.tilt_s_per_m;
        let (sin, cos) = sin_cos(tilt);
        let upright = normal * cos - glide * (sin * (glide_mps / glide_square));
        let hit = -velocity.dot(upright);
        let back = (restitution(hit) * self.bounce + 1.0) * hit;
        // Speed of the ball's lowest point over the turf, which friction works against.
        let slip = velocity + upright * hit - balls.spin_rad_s.cross(upright) * RADIUS_M.into();
        let slip_square = slip.length_squared().fast_max(1e-30.into());
        let most_grip = back * (7.0 * FRICTION);
        let grips = at_most(slip_square * 4.0, most_grip * most_grip);
        let grip = grips.pick(
            Eight::splat(2.0 / 7.0),
            back * (slip_square.sqrt() / slip_square) * FRICTION,
        );
        let rub = slip * -grip;
        let struck = Balls {
            velocity: velocity + upright * back + rub,
            spin_rad_s: balls.spin_rad_s - upright.cross(rub) * (2.5 / RADIUS_M).into(),
        };
        // A ball that already leaves the tilted turf is not struck.
        Balls::pick(less(Eight::ZERO, hit), &struck, balls)
    }

    /// One hop through still air: the way over the ground, and the velocity as the ball comes down again.
    #[inline]
    fn hop(&self, velocity: Vectors, up_mps: Eight, normal: Vectors) -> (Vectors, Vectors) {
        let downhill = Vectors::splat(self.downhill_mps2);
        let time_s = up_mps * self.hop_s2_per_m;
        let glide = velocity - normal * up_mps;
        let way = (glide + downhill * (time_s * 0.5)) * time_s;
        (way, glide + downhill * time_s - normal * up_mps)
    }

    /// Way of rolling balls to rest on a plane: steady resistance against the motion, five sevenths of gravity
    /// down the slope. Solved exactly by the angle ψ between motion and downhill, which only ever shrinks:
    /// with resistance f and pull G, the ball ends v²·[(1 + cos ψ)²/8(f − G) − (1 − cos ψ)²/8(f + G)] down the
    /// slope and v²·sin ψ/2·[(1 + cos ψ)/(2f − G) + (1 − cos ψ)/(2f + G)] across it. (Derived here; the ψ → 0 and
    /// G → 0 limits are v²/2(f − G) and v²/2f.)
    ///
    /// A ball on a slope it cannot rest on rolls [`MOST_ROLL_M`] straight down it; no roll is longer.
    pub(super) fn roll(&self, velocity: Vectors) -> Vectors {
        let resistance = self.deceleration_mps2;
        let pull_vector = self.downhill_mps2 * (5.0 / 7.0);
        let pull = pull_vector.length();
        let square = velocity.length_squared();
        if pull == 0.0 {
            return held(velocity * (square.sqrt() * (0.5 / resistance)));
        }
        let downhill = pull_vector / pull;
        if pull >= resistance {
            return Vectors::splat(downhill * MOST_ROLL_M);
        }
        let downhill = Vectors::splat(downhill);
        // The least value only keeps the division finite: a ball at rest has no heading, and rolls nowhere.
        let heading = velocity * (Eight::ONE / square.fast_max(1e-200.into()).sqrt());
        let cos = heading.dot(downhill);
        let (with, against) = (cos + 1.0, -cos + 1.0);
        let down = with * with * (0.125 / (resistance - pull))
            - against * against * (0.125 / (resistance + pull));
        let across =
            with * (0.5 / (2.0 * resistance - pull)) + against * (0.5 / (2.0 * resistance + pull));
        // heading − downhill·cos has length sin ψ.
        held((downhill * down + (heading - downhill * cos) * across) * square)
    }
}

/// Velocity along the ground once a ball rolls, from what is left of its spin: momentum about the point of contact
/// is kept.
fn rolling_velocity(balls: &Balls, normal: Vectors) -> Vectors {
    let glide = balls.velocity - normal * balls.velocity.dot(normal);
    glide * (5.0 / 7.0).into() + balls.spin_rad_s.cross(normal) * (RADIUS_M * 2.0 / 7.0).into()
}

/// The rolls, none of them longer than the longest.
fn held(roll_m: Vectors) -> Vectors {
    let share = Eight::splat(MOST_ROLL_M) / roll_m.length_squared().fast_max(1e-200.into()).sqrt();
    roll_m * share.fast_min(Eight::ONE)
}

/// Restitution of turf on its tilted upright, by the speed into it, m/s. Source: Penner (2002), from memory.
#[inline]
fn restitution(speed_mps: Eight) -> Eight {
    let slow = speed_mps * (speed_mps * 0.000_903 - 0.0375) + 0.510;
    less(Eight::splat(20.0), speed_mps).pick(Eight::splat(0.120), slow)
}

/// Angle between a ball's motion and the upright of the ground, radians: by its half, tan(θ/2) = glide/(speed + into),
/// and a published arctangent, which is cheaper than a library's.
/// Source: Abramowitz & Stegun (1964), 4.4.49, right to 2e-8.
#[inline]
fn steepness_rad(glide_mps: Eight, into_mps: Eight, speed_mps: Eight) -> Eight {
    let half = glide_mps / (speed_mps + into_mps).fast_max(1e-15.into());
    let x = half * half;
    let (x2, x4) = (x * x, (x * x) * (x * x));
    let low = (x * -0.333_331_452_8 + 1.0) + x2 * (x * -0.142_088_994_4 + 0.199_935_508_5);
    let high =
        (x * -0.075_289_640_0 + 0.106_562_639_3) + x2 * (x * -0.016_165_736_7 + 0.042_909_613_8);
    let angle = half * (low + x4 * (x4 * 0.002_866_225_7 + high)) * 2.0;
    let leaving = less(Eight::ONE, half);
    if !leaving.any() {
        return angle;
    }
    leaving.pick(half.atan() * 2.0, angle)
}
