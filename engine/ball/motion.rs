//! The equations of motion of balls in the air, eight balls at a time.

use glam::DVec3;

use super::aero::{Coefficients, Flow, GRAVITY_MPS2, MASS_KG, RADIUS_M};
use super::air::Atmosphere;
use super::eight::{Eight, LANES, Vectors, Which, at_most, less};

/// Rate of spin decay: dω/dt = −2.0e-5·ωV/r. Source: Smits & Smith (1994), Science and Golf II.
const SPIN_DECAY: f64 = 2.0e-5;

/// Longest step of the integration, s: some 20 steps for a full shot. In still air drives are right to half a millimetre;
/// wedges to 8 mm, since their spin ratio passes the one from which on drag and lift stay as they are, and that bend of
/// the curves falls within a step (`benches/flights.py` measures it).
const STEP_S: f64 = 0.4;

/// First step, s; each next one is twice as long, up to the longest. Near the ground the wind changes so fast with
/// height that long steps from the tee would be decimetres off.
const FIRST_STEP_S: f64 = 0.0125;

/// Height from which on the last bit of the way to the ground is taken as straight, m: its bend is under 1e-10 m.
const STRAIGHT_M: f64 = 1e-5;

/// Steps after which a ball is taken as landed where it is: 100 s, longer than any shot flies.
const MOST_STEPS: usize = 250;

/// Places a path is told at, at most.
const MOST_PLACES: usize = 1000;

/// Rounds of Newton's rule that find the ground; two are usual.
const MOST_ROUNDS: usize = 8;

/// Eight balls in the air.
#[derive(Clone, Copy)]
pub(super) struct State {
    pub position: Vectors,
    pub velocity: Vectors,
    /// Share of the launch spin still there; the axis keeps its direction.
    pub spin_left: Eight,
}

impl State {
    /// Balls on the ground, just struck.
    pub fn struck(velocity: Vectors) -> Self {
        Self {
            position: Vectors::ZERO,
            velocity,
            spin_left: Eight::ONE,
        }
    }

    /// For each ball, the first where `which` holds, else the second.
    fn pick(which: Which, holds: &Self, holds_not: &Self) -> Self {
        Self {
            position: which.pick(holds.position, holds_not.position),
            velocity: which.pick(holds.velocity, holds_not.velocity),
            spin_left: which.pick(holds.spin_left, holds_not.spin_left),
        }
    }
}

/// Eight balls as they pitch.
pub(super) struct Pitched {
    /// Where and how.
    pub end: State,
    /// Greatest heights, m.
    pub apex_m: Eight,
    /// Times in the air, s.
    pub time_s: Eight,
}

/// How fast the balls' velocity and spin change.
#[derive(Clone, Copy)]
struct Rate {
    velocity: Vectors,
    spin_left: Eight,
}

/// The last step above the ground of balls that have come down: from where, to where below, how long, and when.
#[derive(Clone, Copy)]
struct LastStep {
    above: State,
    below: State,
    step_s: Eight,
    start_s: Eight,
}

/// The equations of motion of eight balls in one air.
pub(super) struct Motion<'a, C> {
    ball: &'a C,
    atmosphere: &'a Atmosphere,
    /// Spin at launch, rad/s, and its direction.
    spin_rad_s: Eight,
    axis: Vectors,
    /// ½ρA/m, 1/m.
    force: f64,
    /// Reynolds number per m/s.
    reynolds: f64,
}

impl<'a, C: Coefficients> Motion<'a, C> {
    pub fn new(ball: &'a C, atmosphere: &'a Atmosphere, spins_rad_s: [DVec3; LANES]) -> Self {
        let area_m2 = std::f64::consts::PI * RADIUS_M * RADIUS_M;
        Self {
            ball,
            atmosphere,
            spin_rad_s: Eight::new(spins_rad_s.map(DVec3::length)),
            axis: Vectors::of(spins_rad_s.map(DVec3::normalize_or_zero)),
            force: 0.5 * atmosphere.density_kg_m3() * area_m2 / MASS_KG,
            reynolds: 2.0 * RADIUS_M / atmosphere.kinematic_viscosity_m2_s(),
        }
    }

    /// Flies the balls until each has pitched. What becomes of one never depends on those beside it.
    ///
    /// A ball struck level or into the ground pitches at once.
    pub fn fly(&self, struck: &State) -> Pitched {
        let mut flying = less(Eight::ZERO, struck.velocity.z);
        let mut state = *struck;
        let mut last = LastStep {
            above: state,
            below: state,
            step_s: Eight::ZERO,
            start_s: Eight::ZERO,
        };
        let (mut apex_m, mut time_s, mut h) = (Eight::ZERO, 0.0, FIRST_STEP_S);
        for _ in 0..MOST_STEPS {
            if !flying.any() {
                break;
            }
            let next = self.step(&state, h.into());
            let landing = flying.and(at_most(next.position.z, Eight::ZERO));
            if landing.any() {
                last.take(landing, &state, &next, h, time_s);
                flying = flying.and_not(landing);
            }
            let highest = apex_m.fast_max(highest_m(&state, &next, h.into()));
            apex_m = flying.pick(highest, apex_m);
            state = next;
            time_s += h;
            h = (2.0 * h).min(STEP_S);
        }
        if flying.any() {
            last.take(flying, &state, &state, 0.0, time_s);
        }
        self.pitched(&last, apex_m)
    }

    /// Places of the first ball on its way, one every `every_s` seconds, until it is on the ground; the last place is
    /// below it.
    pub fn path(&self, struck: &State, every_s: f64) -> Vec<DVec3> {
        let mut state = *struck;
        let mut path = vec![DVec3::ZERO];
        for _ in 0..MOST_PLACES {
            state = self.step(&state, every_s.into());
            let [place, ..] = state.position.each();
            path.push(place);
            if place.z <= 0.0 {
                break;
            }
        }
        path
    }

    fn pitched(&self, last: &LastStep, apex_m: Eight) -> Pitched {
        let (end, step_s) = self.land(last);
        Pitched {
            apex_m: apex_m.fast_max(highest_m(&last.above, &end, step_s)),
            time_s: last.start_s + step_s,
            end,
        }
    }

    // Always in place: a call would pass its numbers through memory and back.
    #[inline(always)]
    fn rate(&self, height_m: Eight, velocity: Vectors, spin_left: Eight) -> Rate {
        let through_air = self.atmosphere.through_air(height_m, velocity);
        let across = self.axis.cross(through_air);
        // Least values only keep the divisions finite: no force is left by then. Roots and quotients stand side by
        // side, not one after another, because waiting for them is most of the cost of a flight.
        let square = through_air.length_squared().fast_max(1e-18.into());
        let across_square = across.length_squared().fast_max(1e-30.into());
        let (speed, across_length) = (square.sqrt(), across_square.sqrt());
        let spin_rad_s = self.spin_rad_s * spin_left * across_length * (speed / square);
        let (drag, lift) = self.ball.drag_and_lift(&Flow {
            speed_mps: speed,
            spin_rad_s,
            spin_ratio: self.spin_rad_s * spin_left * RADIUS_M * (across_length / square),
            reynolds: speed * self.reynolds,
        });
        let mut acceleration = through_air * (speed * drag * -self.force)
            + across * (square * lift * self.force * (across_length / across_square));
        acceleration.z -= GRAVITY_MPS2;
        Rate {
            velocity: acceleration,
            spin_left: speed * spin_left * (-SPIN_DECAY / RADIUS_M),
        }
    }

    fn rate_at(&self, s: &State) -> Rate {
        self.rate(s.position.z, s.velocity, s.spin_left)
    }

    /// One Runge–Kutta step of `h` seconds.
    fn step(&self, s: &State, h: Eight) -> State {
        self.step_from(s, &self.rate_at(s), h)
    }

    /// One step when the rate at its start is known.
    #[inline]
    fn step_from(&self, s: &State, r1: &Rate, h: Eight) -> State {
        let half = h * 0.5;
        let v2 = s.velocity + r1.velocity * half;
        let r2 = self.rate(
            s.position.z + s.velocity.z * half,
            v2,
            s.spin_left + r1.spin_left * half,
        );
        let v3 = s.velocity + r2.velocity * half;
        let r3 = self.rate(
            s.position.z + v2.z * half,
            v3,
            s.spin_left + r2.spin_left * half,
        );
        let v4 = s.velocity + r3.velocity * h;
        let r4 = self.rate(s.position.z + v3.z * h, v4, s.spin_left + r3.spin_left * h);
        let (sixth, third) = (h * (1.0 / 6.0), h * (1.0 / 3.0));
        State {
            position: s.position + (s.velocity + v4) * sixth + (v2 + v3) * third,
            velocity: s.velocity
                + (r1.velocity + r4.velocity) * sixth
                + (r2.velocity + r3.velocity) * third,
            spin_left: s.spin_left
                + (r1.spin_left + r4.spin_left) * sixth
                + (r2.spin_left + r3.spin_left) * third,
        }
    }

    /// The pitches in the last steps, and the times to them, s.
    ///
    /// A step is shortened until it ends on the ground: first by the cubic through its ends, then by Newton's
    /// rule, which from below finds the later of two crossings. The last micrometres are straight.
    fn land(&self, last: &LastStep) -> (State, Eight) {
        let LastStep {
            above,
            below,
            step_s,
            ..
        } = last;
        let (mut end, mut h) = (*below, *step_s);
        let start = self.rate_at(above);
        let mut back = (Eight::ONE - crossing(above, below, h)) * h;
        let mut open = less(Eight::ZERO, h);
        for _ in 0..MOST_ROUNDS {
            if !open.any() {
                break;
            }
            let shorter = (h - back).fast_max(Eight::ZERO).fast_min(*step_s);
            h = open.pick(shorter, h);
            end = State::pick(open, &self.step_from(above, &start, h), &end);
            let falling = less(end.velocity.z, Eight::ZERO);
            back = falling.pick(end.position.z / end.velocity.z, Eight::ZERO);
            let far = less(Eight::splat(STRAIGHT_M), end.position.z.abs());
            open = open.and(falling).and(far);
        }
        // What is left, micrometres, is straight; a ball that pitched at once, or never, stays where it is.
        let near =
            at_most(end.position.z.abs(), Eight::splat(STRAIGHT_M)).and(less(Eight::ZERO, *step_s));
        let back = near.pick(back, Eight::ZERO);
        let rate = self.rate(Eight::ZERO, end.velocity, end.spin_left);
        end.position = end.position - end.velocity * back;
        end.velocity = end.velocity - rate.velocity * back;
        (end, h - back)
    }
}

impl LastStep {
    fn take(&mut self, which: Which, above: &State, below: &State, step_s: f64, start_s: f64) {
        self.above = State::pick(which, above, &self.above);
        self.below = State::pick(which, below, &self.below);
        self.step_s = which.pick(step_s.into(), self.step_s);
        self.start_s = which.pick(start_s.into(), self.start_s);
    }
}

/// The height over a step of `h` seconds as a cubic through its ends and their climbs: z₀ + t·(c + t·(b + t·a)) for
/// t from 0 to 1. In this order: z₀, c, b, a.
#[inline]
fn cubic(from: &State, to: &State, h: Eight) -> [Eight; 4] {
    let (z0, z1) = (from.position.z, to.position.z);
    let (climb0, climb1) = (from.velocity.z * h, to.velocity.z * h);
    let a = (z0 - z1) * 2.0 + climb0 + climb1;
    let b = (z1 - z0) * 3.0 - climb0 * 2.0 - climb1;
    [z0, climb0, b, a]
}

/// Share of a step of `h` seconds at which its cubic falls to the ground.
fn crossing(above: &State, below: &State, h: Eight) -> Eight {
    let [z0, climb0, b, a] = cubic(above, below, h);
    // Newton's rule from the far end, which is below the ground.
    let mut t = Eight::ONE;
    for _ in 0..4 {
        let height = z0 + t * (climb0 + t * (b + t * a));
        let climb = climb0 + t * (b * 2.0 + t * a * 3.0);
        t -= height / climb.fast_min((-1e-9).into());
    }
    t.fast_max(Eight::ZERO).fast_min(Eight::ONE)
}

/// Greatest heights over one step of `h` seconds.
#[inline]
fn highest_m(from: &State, to: &State, h: Eight) -> Eight {
    let ends = from.position.z.fast_max(to.position.z);
    let rising = less(Eight::ZERO, from.velocity.z);
    let over_the_top = rising.and(less(to.velocity.z, Eight::ZERO));
    if !over_the_top.any() {
        return ends;
    }
    let [z0, climb0, b, a] = cubic(from, to, h);
    // The climb falls through 0 once.
    let root = (b * b - a * climb0 * 3.0).fast_max(Eight::ZERO).sqrt();
    let t = climb0 / (root - b).fast_max(1e-12.into());
    let height = z0 + t * (climb0 + t * (b + t * a));
    over_the_top.pick(height.fast_max(ends), ends)
}
