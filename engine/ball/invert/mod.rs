//! The flight turned round: from where a ball went to how it was struck.
//!
//! The likeliest strike, given how closely the flight was read and how far strikes are from the usual one of the club:
//! damped least squares (K. Levenberg 1944, D.W. Marquardt 1963) over the flight of [`super::flight`]. What the flight
//! cannot tell stays near the usual strike, and the uncertainty says so. With short clubs that is the spin: lift and
//! drag level off towards a spin ratio of 0.4, and a pitching wedge at 7500 rpm flies within a yard of one at 11 000.
//! Launch is told well by the flight of every club.

mod search;

use super::Strike;
use super::air::Atmosphere;
use super::flight::Flight;
use crate::units::{Angle, Length, Speed, Spin};
use search::Problem;

/// What was seen of a flight over level ground.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Seen {
    /// Distance along the target line to the first pitch.
    pub carry: Option<Length>,
    /// Distance across it, positive right.
    pub side: Option<Length>,
    /// Greatest height.
    pub apex: Option<Length>,
    /// Angle of descent below the horizontal.
    pub descent: Option<Angle>,
}

/// What is known of the strike itself; what is not is to be found.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Known {
    /// Ball speed.
    pub ball_speed: Option<Speed>,
    /// Launch angle.
    pub launch: Option<Angle>,
    /// Start direction.
    pub direction: Option<Angle>,
    /// Backspin.
    pub backspin: Option<Spin>,
    /// Sidespin.
    pub sidespin: Option<Spin>,
}

impl Known {
    /// Which figures are to be found: ball speed, launch, direction, backspin, sidespin.
    #[must_use]
    pub const fn open(&self) -> [bool; 5] {
        [
            self.ball_speed.is_none(),
            self.launch.is_none(),
            self.direction.is_none(),
            self.backspin.is_none(),
            self.sidespin.is_none(),
        ]
    }
}

/// A strike that flies as seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Found {
    /// The strike; what was known stands in it unchanged.
    pub strike: Strike,
    /// Standard deviation of each figure of it, given how closely flights are read; 0 for what was known.
    pub sd: Strike,
    /// Its flight.
    pub flight: Flight,
}

/// Why there is no strike.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum NothingFlies {
    /// The best of all strikes is still off by more than the reading of a flight can be.
    #[error(
        "no strike flies so: the nearest carries {:.0} yd, {:.0} yd high, and comes down at {:.0}°",
        .0.carry.yd(), .0.apex.yd(), .0.descent.deg()
    )]
    Off(Box<Flight>),
    /// A carry that is none, or a figure that is no number.
    #[error("there is no flight in these figures")]
    NoFlight,
}

/// How closely the figures of a flight are read, and how well the model flies them: standard deviations.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Of carry, as a share of it.
    pub carry: f64,
    /// Of side, as a share of carry.
    pub side: f64,
    /// Of the apex, as a share of it.
    pub apex: f64,
    /// Of the angle of descent.
    pub descent: Angle,
    /// Of every length however short, on top of its share.
    pub finest: Length,
}

impl Reading {
    /// A measuring device, and a ball that is not quite the model's. Assumptions, of the size of what devices claim.
    pub const DEVICE: Self = Self {
        carry: 0.015,
        side: 0.01,
        apex: 0.04,
        descent: Angle::from_deg(1.0),
        finest: Length::from_yd(0.3),
    };

    /// Flights of the model itself, unrounded.
    pub const EXACT: Self = Self::DEVICE.times(1e-4);

    const fn times(self, factor: f64) -> Self {
        Self {
            carry: self.carry * factor,
            side: self.side * factor,
            apex: self.apex * factor,
            descent: Angle::from_rad(self.descent.rad() * factor),
            finest: Length::from_m(self.finest.m() * factor),
        }
    }
}

/// A flight is contradicted when one figure is off by more than this many standard deviations.
const CONTRADICTED: f64 = 4.0;

/// The strike that flies as seen, in the air given; `usual` is a usual strike of the club.
///
/// # Errors
/// When nothing flies so: figures that contradict each other.
///
/// ```
/// use costcard::ball::{Strike, air::{Air, Atmosphere}, flight::fly, invert::{Known, Reading, Seen, invert}};
/// use costcard::units::{Angle, Speed, Spin};
/// let usual = Strike {
///     ball_speed: Speed::from_mph(120.0), launch: Angle::from_deg(16.0), direction: Angle::ZERO,
///     backspin: Spin::from_rpm(6500.0), sidespin: Spin::ZERO,
/// };
/// let low = Strike { launch: Angle::from_deg(12.0), ..usual };
/// let air = Atmosphere::new(&Air::standard());
/// let flight = fly(&low, &air);
/// let seen = Seen {
///     carry: Some(flight.carry), side: Some(flight.side), apex: Some(flight.apex), descent: Some(flight.descent),
/// };
/// let found = invert(&seen, &Known::default(), &usual, &Reading::EXACT, &air).unwrap();
/// assert!((found.strike.launch.deg() - 12.0).abs() < 0.01);
/// ```
pub fn invert(
    seen: &Seen,
    known: &Known,
    usual: &Strike,
    reading: &Reading,
    atmosphere: &Atmosphere,
) -> Result<Found, NothingFlies> {
    let problem = Problem::new(seen, known, usual, atmosphere).ok_or(NothingFlies::NoFlight)?;
    let best = problem.best(reading);
    if best.worst() > CONTRADICTED {
        return Err(NothingFlies::Off(Box::new(best.flight)));
    }
    Ok(Found {
        strike: problem.strike(&best.at),
        sd: problem.sd(&best, reading),
        flight: best.flight,
    })
}
