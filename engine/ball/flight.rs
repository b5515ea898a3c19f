//! The flight: from the strike to the first pitch on level ground.

use glam::DVec3;

use super::Strike;
use super::aero::{BALL, Coefficients, Flow, GRAVITY_MPS2, MASS_KG, RADIUS_M};
use super::air::Atmosphere;
use crate::units::{Angle, Length};

/// A ball at the moment it pitches. Axes: x right of the target line, y along it, z up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Landing {
    /// Velocity, m/s.
    pub velocity_mps: DVec3,
    /// Spin vector, rad/s, by the right-hand rule: backspin of a ball flying along +y points along +x,
    /// sidespin that curves it to the right points along −z.
    pub spin_rad_s: DVec3,
}

/// What a flight comes to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flight {
    /// Distance along the target line to the first pitch.
    pub carry: Length,
    /// Distance across the target line at the first pitch, positive right.
    pub side: Length,
    /// Greatest height.
    pub apex: Length,
    /// Time in the air, s.
    pub time_s: f64,
    /// Angle of descent below the horizontal at the pitch.
    pub descent: Angle,
    /// The ball as it pitches.
    pub landing: Landing,
}

/// Rate of spin decay: dω/dt = −2.0e-5·ωV/r. Source: Smits & Smith (1994), Science and Golf II.
const SPIN_DECAY: f64 = 2.0e-5;

/// Longest step of the integration, s: some 20 steps for a full shot, right to a millimetre in still air.
const STEP_S: f64 = 0.4;

/// First step, s; each next one is twice as long, up to the longest. Near the ground the wind changes so fast with
/// height that long steps from the tee would be decimetres off.
const FIRST_STEP_S: f64 = 0.0125;

/// Height from which on the last bit of the way to the ground is taken as straight, m: its bend is under 1e-10 m.
const STRAIGHT_M: f64 = 1e-5;

/// Steps after which a ball is taken as landed where it is: 100 s, longer than any shot flies.
const MOST_STEPS: usize = 250;

/// Speed a strike is held to, m/s; faster than any ball is hit, slow enough for the integration.
const MOST_SPEED_MPS: f64 = 120.0;

/// Spin a strike is held to in each axis, rad/s (about 19 000 rpm).
const MOST_SPIN_RAD_S: f64 = 2000.0;

/// Flies a strike through the air to its first pitch on level ground.
///
/// Drag and lift along spin × velocity, spin decay, wind by height; classical Runge–Kutta of fourth order,
/// with the pitch solved for within the last step. The same strike gives the same flight, always.
/// A ball struck level or into the ground pitches at once, with carry 0. Ball speed is held to 0–120 m/s and
/// spin to 2000 rad/s; a value that is no number counts as 0.
///
/// ```
/// use costcard::ball::{Strike, air::{Air, Atmosphere}, flight::fly};
/// use costcard::units::{Angle, Speed, Spin};
/// let strike = Strike {
///     ball_speed: Speed::from_mph(120.0),
///     launch: Angle::from_deg(16.3),
///     direction: Angle::ZERO,
///     backspin: Spin::from_rpm(7097.0),
///     sidespin: Spin::ZERO,
/// };
/// let flight = fly(&strike, &Atmosphere::new(&Air::standard()));
/// assert!((flight.carry.yd() - 172.0).abs() < 7.0); // a tour 7 iron
/// ```
#[must_use]
pub fn fly(strike: &Strike, atmosphere: &Atmosphere) -> Flight {
    fly_with(&BALL, strike, atmosphere)
}

/// Flies a strike with the drag and lift of a given ball: see [`fly`].
#[must_use]
pub fn fly_with<C: Coefficients>(ball: &C, strike: &Strike, atmosphere: &Atmosphere) -> Flight {
    let (velocity, spin) = launch(strike);
    let motion = Motion::new(ball, atmosphere, spin);
    let start = State {
        position: DVec3::ZERO,
        velocity,
        spin_left: 1.0,
    };
    if velocity.z <= 0.0 {
        return motion.pitched(&start, 0.0, 0.0);
    }
    let mut state = start;
    let (mut apex_m, mut time_s, mut h) = (0.0_f64, 0.0, FIRST_STEP_S);
    for _ in 0..MOST_STEPS {
        let next = motion.step(&state, h);
        if next.position.z <= 0.0 {
            let (end, last_s) = motion.land(&state, &next, h);
            apex_m = apex_m.max(highest_m(&state, &end, last_s));
            return motion.pitched(&end, apex_m, time_s + last_s);
        }
        apex_m = apex_m.max(highest_m(&state, &next, h));
        state = next;
        time_s += h;
        h = (2.0 * h).min(STEP_S);
    }
    motion.pitched(&state, apex_m, time_s)
}

/// Velocity and spin vectors of a strike.
fn launch(strike: &Strike) -> (DVec3, DVec3) {
    let speed = real(strike.ball_speed.mps()).clamp(0.0, MOST_SPEED_MPS);
    let (rise, level) = real(strike.launch.rad()).sin_cos();
    let (right, forward) = real(strike.direction.rad()).sin_cos();
    let backspin = real(strike.backspin.rad_s()).clamp(-MOST_SPIN_RAD_S, MOST_SPIN_RAD_S);
    let sidespin = real(strike.sidespin.rad_s()).clamp(-MOST_SPIN_RAD_S, MOST_SPIN_RAD_S);
    let velocity = DVec3::new(level * right, level * forward, rise) * speed;
    let spin = DVec3::new(backspin * forward, -backspin * right, -sidespin);
    (velocity, spin)
}

/// The value, or 0 for one that is no number or endless.
fn real(value: f64) -> f64 {
    if value.is_finite() { value } else { 0.0 }
}

/// A ball in the air.
#[derive(Debug, Clone, Copy)]
struct State {
    position: DVec3,
    velocity: DVec3,
    /// Share of the launch spin still there; the axis keeps its direction.
    spin_left: f64,
}

/// How fast a ball's velocity and spin change.
#[derive(Clone, Copy)]
struct Rate {
    velocity: DVec3,
    spin_left: f64,
}

/// The equations of motion of one ball in one air.
struct Motion<'a, C> {
    ball: &'a C,
    atmosphere: &'a Atmosphere,
    /// Spin at launch, rad/s, and its direction.
    spin: DVec3,
    spin_rad_s: f64,
    axis: DVec3,
    /// ½ρA/m, 1/m.
    force: f64,
    /// Reynolds number per m/s.
    reynolds: f64,
}

impl<'a, C: Coefficients> Motion<'a, C> {
    fn new(ball: &'a C, atmosphere: &'a Atmosphere, spin: DVec3) -> Self {
        let area_m2 = std::f64::consts::PI * RADIUS_M * RADIUS_M;
        Self {
            ball,
            atmosphere,
            spin,
            spin_rad_s: spin.length(),
            axis: spin.normalize_or_zero(),
            force: 0.5 * atmosphere.density_kg_m3() * area_m2 / MASS_KG,
            reynolds: 2.0 * RADIUS_M / atmosphere.kinematic_viscosity_m2_s(),
        }
    }

    // Always in place: a call would pass its numbers through memory and back.
    #[inline(always)]
    fn rate(&self, height_m: f64, velocity: DVec3, spin_left: f64) -> Rate {
        let through_air = velocity - self.atmosphere.wind_mps(height_m);
        let across = self.axis.cross(through_air);
        // Least values only keep the divisions finite: no force is left by then. Roots and quotients stand side by
        // side, not one after another, because waiting for them is most of the cost of a flight.
        let square = through_air.length_squared().max(1e-18);
        let across_square = across.length_squared().max(1e-30);
        let (speed, across_length) = (square.sqrt(), across_square.sqrt());
        let spin_rad_s = self.spin_rad_s * spin_left * across_length * (speed / square);
        let (drag, lift) = self.ball.drag_and_lift(&Flow {
            speed_mps: speed,
            spin_rad_s,
            spin_ratio: self.spin_rad_s * spin_left * RADIUS_M * (across_length / square),
            reynolds: self.reynolds * speed,
        });
        let mut acceleration = through_air * (-self.force * speed * drag)
            + across * (self.force * square * lift * (across_length / across_square));
        acceleration.z -= GRAVITY_MPS2;
        Rate {
            velocity: acceleration,
            spin_left: -SPIN_DECAY / RADIUS_M * speed * spin_left,
        }
    }

    /// One Runge–Kutta step of `h` seconds.
    fn step(&self, s: &State, h: f64) -> State {
        self.step_from(s, &self.rate(s.position.z, s.velocity, s.spin_left), h)
    }

    /// One step when the rate at its start is known.
    #[inline]
    fn step_from(&self, s: &State, r1: &Rate, h: f64) -> State {
        let half = 0.5 * h;
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
        let sixth = h / 6.0;
        State {
            position: s.position + (s.velocity + (v2 + v3) * 2.0 + v4) * sixth,
            velocity: s.velocity
                + (r1.velocity + (r2.velocity + r3.velocity) * 2.0 + r4.velocity) * sixth,
            spin_left: s.spin_left
                + (r1.spin_left + (r2.spin_left + r3.spin_left) * 2.0 + r4.spin_left) * sixth,
        }
    }

    /// The pitch between a state above the ground and the next one below it, and the time to it, s.
    ///
    /// The step is shortened until it ends on the ground: first by the cubic through its ends, then by Newton's
    /// rule, which from below finds the later of two crossings. The last micrometres are straight.
    fn land(&self, above: &State, below: &State, step_s: f64) -> (State, f64) {
        let mut end = *below;
        let mut h = step_s;
        let start = self.rate(above.position.z, above.velocity, above.spin_left);
        let mut back = (1.0 - crossing(above, below, step_s)) * step_s;
        for _ in 0..8 {
            h = (h - back).clamp(0.0, step_s);
            end = self.step_from(above, &start, h);
            if end.velocity.z >= 0.0 {
                break;
            }
            back = end.position.z / end.velocity.z;
            if end.position.z.abs() < STRAIGHT_M {
                end.position -= end.velocity * back;
                end.velocity -= self.rate(0.0, end.velocity, end.spin_left).velocity * back;
                h -= back;
                break;
            }
        }
        (end, h)
    }

    fn pitched(&self, end: &State, apex_m: f64, time_s: f64) -> Flight {
        let v = end.velocity;
        Flight {
            carry: Length::from_m(end.position.y),
            side: Length::from_m(end.position.x),
            apex: Length::from_m(apex_m),
            time_s,
            descent: Angle::from_rad((-v.z).atan2(v.x.hypot(v.y))),
            landing: Landing {
                velocity_mps: v,
                spin_rad_s: self.spin * end.spin_left,
            },
        }
    }
}

/// Share of a step of `h` seconds at which the cubic through its ends and their climbs falls to the ground.
fn crossing(above: &State, below: &State, h: f64) -> f64 {
    let (z0, z1) = (above.position.z, below.position.z);
    let (climb0, climb1) = (above.velocity.z * h, below.velocity.z * h);
    let a = 2.0 * (z0 - z1) + climb0 + climb1;
    let b = 3.0 * (z1 - z0) - 2.0 * climb0 - climb1;
    // Newton's rule from the far end, which is below the ground.
    let mut t = 1.0;
    for _ in 0..4 {
        let height = z0 + t * (climb0 + t * (b + t * a));
        let climb = climb0 + t * (2.0 * b + t * 3.0 * a);
        t -= height / climb.min(-1e-9);
    }
    t.clamp(0.0, 1.0)
}

/// Greatest height over one step of `h` seconds, from the cubic through its ends and their climbs.
fn highest_m(from: &State, to: &State, h: f64) -> f64 {
    let (z0, z1) = (from.position.z, to.position.z);
    let (climb0, climb1) = (from.velocity.z * h, to.velocity.z * h);
    let ends = z0.max(z1);
    if climb0 <= 0.0 || climb1 >= 0.0 {
        return ends;
    }
    // z(t) = z0 + climb0·t + b·t² + a·t³ for t in 0..1; the climb falls through 0 once.
    let a = 2.0 * (z0 - z1) + climb0 + climb1;
    let b = 3.0 * (z1 - z0) - 2.0 * climb0 - climb1;
    let root = (b * b - 3.0 * a * climb0).max(0.0).sqrt();
    let t = climb0 / (root - b).max(1e-12);
    let height = z0 + t * (climb0 + t * (b + t * a));
    height.max(ends)
}
