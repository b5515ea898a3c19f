//! Drag and lift coefficients of a ball, and the constants of the ball this program flies.

use super::eight::{Eight, LANES, exp_of_negative};

/// Mass of a ball, kg. Source: the most the Equipment Rules allow, 45.93 g.
pub const MASS_KG: f64 = 0.045_93;

/// Radius of a ball, m. Source: half the least diameter the Equipment Rules allow, 42.67 mm.
pub const RADIUS_M: f64 = 0.021_335;

/// Gravity, m/s². Source: standard gravity to three figures, as the reference trajectories use it.
pub const GRAVITY_MPS2: f64 = 9.81;

/// The air streaming past eight balls.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flow<T = Eight> {
    /// Speed of the ball through the air, m/s.
    pub speed_mps: T,
    /// Part of the spin at right angles to that motion, rad/s.
    pub spin_rad_s: T,
    /// Spin ratio: speed of the spinning surface over speed through the air.
    pub spin_ratio: T,
    /// Reynolds number on the diameter.
    pub reynolds: T,
}

impl Flow {
    /// Drag and lift coefficients worked out ball by ball: for formulas of which speed is not asked.
    #[must_use]
    pub fn ball_by_ball(&self, drag_and_lift: impl Fn(&Flow<f64>) -> (f64, f64)) -> (Eight, Eight) {
        let (speed, spin) = (self.speed_mps.to_array(), self.spin_rad_s.to_array());
        let (ratio, reynolds) = (self.spin_ratio.to_array(), self.reynolds.to_array());
        let both: [_; LANES] = std::array::from_fn(|i| {
            drag_and_lift(&Flow {
                speed_mps: speed[i],
                spin_rad_s: spin[i],
                spin_ratio: ratio[i],
                reynolds: reynolds[i],
            })
        });
        (
            Eight::new(both.map(|(drag, _)| drag)),
            Eight::new(both.map(|(_, lift)| lift)),
        )
    }
}

/// How a ball answers the air. Eight balls are asked about at once: see [`Flow::ball_by_ball`].
pub trait Coefficients {
    /// Drag and lift coefficients, in that order, on the ball's cross-section.
    fn drag_and_lift(&self, flow: &Flow) -> (Eight, Eight);
}

/// Coefficients in the form that fits average tour flights: with S the spin ratio and Re in units of 100 000,
/// C_D = a + bS + cS² + d·exp(−(Re − 0.5)/e), C_L = fS/(g + S) + hS.
///
/// The last drag term is the rise at low speed that makes irons come down steeply.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FittedBall {
    /// a: drag of a fast ball without spin.
    pub drag: f64,
    /// b: drag by spin ratio.
    pub drag_by_spin: f64,
    /// c: drag by the square of the spin ratio.
    pub drag_by_spin_squared: f64,
    /// d: drag added at a Reynolds number of 50 000.
    pub slow_drag: f64,
    /// e: how fast that falls, in Reynolds numbers of 100 000.
    pub slow_drag_fall: f64,
    /// f: lift reached at much spin.
    pub lift: f64,
    /// g: spin ratio at which half of it is reached.
    pub lift_half_spin: f64,
    /// h: lift by spin ratio.
    pub lift_by_spin: f64,
}

/// The ball this program flies.
///
/// Constants from `cargo run --release --example calibrate flight`, which fits every other row of the
/// average tour flights; tests/published/flight.rs checks it on the rest.
pub const BALL: FittedBall = FittedBall {
    drag: 0.1469,
    drag_by_spin: 0.9998,
    drag_by_spin_squared: -1.3533,
    slow_drag: 0.3447,
    slow_drag_fall: 0.1,
    lift: 3.7411,
    lift_half_spin: 0.9286,
    lift_by_spin: -1.9849,
};

/// Spin ratio from which on both coefficients stay as they are. Free of it, the fitted curves top out near 0.4 and
/// then turn down, which no measurement shows: those of Bearman & Harvey (1976) level off.
const MOST_SPIN_RATIO: f64 = 0.4;

/// Reynolds number below which drag rises no more: tour shots hardly fly slower (18 m/s), and the drag there is
/// already that of a sphere without dimples, about 0.5.
const LEAST_REYNOLDS: f64 = 0.5e5;

impl Coefficients for FittedBall {
    #[inline]
    fn drag_and_lift(&self, flow: &Flow) -> (Eight, Eight) {
        let s = flow.spin_ratio.fast_min(MOST_SPIN_RATIO.into());
        let reynolds = flow.reynolds.fast_max(LEAST_REYNOLDS.into());
        let slow = exp_of_negative((reynolds * -1e-5 + 0.5) * (1.0 / self.slow_drag_fall));
        let drag = s * (s * self.drag_by_spin_squared + self.drag_by_spin)
            + self.drag
            + slow * self.slow_drag;
        let lift = s * self.lift / (s + self.lift_half_spin) + s * self.lift_by_spin;
        (drag, lift)
    }
}
