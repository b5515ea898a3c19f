//! The flight: from the strike to the first pitch on level ground.

use glam::DVec3;

use super::Strike;
use super::aero::{BALL, Coefficients};
use super::air::Atmosphere;
use super::eight::{LANES, Vectors};
use super::motion::{Motion, Pitched, State};
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
    let [flight, ..] = fly_eight(ball, [strike; LANES], atmosphere);
    flight
}

/// Flies many strikes through the same air: each as [`fly`] would, to the last bit, eight at a time and so at a
/// small part of the cost.
#[must_use]
pub fn fly_all(strikes: &[Strike], atmosphere: &Atmosphere) -> Vec<Flight> {
    let mut flights = Vec::with_capacity(strikes.len());
    for strikes in strikes.chunks(LANES) {
        // The last eight are filled up with their first.
        let eight = std::array::from_fn(|i| strikes.get(i).unwrap_or(&strikes[0]));
        flights.extend(
            fly_eight(&BALL, eight, atmosphere)
                .into_iter()
                .take(strikes.len()),
        );
    }
    flights
}

/// Seconds between two places of a [`path`].
const PATH_STEP_S: f64 = 0.1;

/// The way of a strike through the air, from the ground to its first pitch on level ground: places a tenth of a second
/// apart, metres, x right of the target line, y along it, z up. The last is where [`fly`] has it pitch.
#[must_use]
pub fn path(strike: &Strike, atmosphere: &Atmosphere) -> Vec<DVec3> {
    let flight = fly(strike, atmosphere);
    let (velocity, spin) = launch(strike);
    let motion = Motion::new(&BALL, atmosphere, [spin; LANES]);
    let struck = State::struck(Vectors::of([velocity; LANES]));
    let mut path = motion.path(&struck, PATH_STEP_S);
    let pitch = DVec3::new(flight.side.m(), flight.carry.m(), 0.0);
    if path.len() > 1 {
        path.pop();
    }
    path.push(pitch);
    path
}

fn fly_eight<C: Coefficients>(
    ball: &C,
    strikes: [&Strike; LANES],
    atmosphere: &Atmosphere,
) -> [Flight; LANES] {
    let struck = strikes.map(launch);
    let spins = struck.map(|(_, spin)| spin);
    let motion = Motion::new(ball, atmosphere, spins);
    let pitched = motion.fly(&State::struck(Vectors::of(
        struck.map(|(velocity, _)| velocity),
    )));
    flights(&pitched, spins)
}

fn flights(pitched: &Pitched, spins_rad_s: [DVec3; LANES]) -> [Flight; LANES] {
    let (positions, velocities) = (pitched.end.position.each(), pitched.end.velocity.each());
    let spin_left = pitched.end.spin_left.to_array();
    let (apex_m, time_s) = (pitched.apex_m.to_array(), pitched.time_s.to_array());
    std::array::from_fn(|i| {
        let v = velocities[i];
        Flight {
            carry: Length::from_m(positions[i].y),
            side: Length::from_m(positions[i].x),
            apex: Length::from_m(apex_m[i]),
            time_s: time_s[i],
            descent: Angle::from_rad((-v.z).atan2(v.x.hypot(v.y))),
            landing: Landing {
                velocity_mps: v,
                spin_rad_s: spins_rad_s[i] * spin_left[i],
            },
        }
    })
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
