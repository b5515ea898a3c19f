//! One ball: the air it flies through, its flight, its bounce and run on turf, and a putt.
//! This room knows no golfer and no course.
//!
//! ```
//! use costcard::ball::{Strike, air::{Air, Atmosphere}, flight::fly};
//! use costcard::units::{Angle, Speed, Spin};
//!
//! let six_iron = Strike {
//!     ball_speed: Speed::from_mph(127.0),
//!     launch: Angle::from_deg(14.1),
//!     direction: Angle::ZERO,
//!     backspin: Spin::from_rpm(6231.0),
//!     sidespin: Spin::ZERO,
//! };
//! let flight = fly(&six_iron, &Atmosphere::new(&Air::standard()));
//! assert!((175.0..190.0).contains(&flight.carry.yd()));
//! assert_eq!(flight.side.yd(), 0.0);
//! ```

pub mod aero;
pub mod air;
mod bounce;
mod eight;
pub mod flight;
pub mod impact;
pub mod invert;
mod motion;
pub mod putt;
pub mod putts;
pub mod turf;

use crate::units::{Angle, Speed, Spin};

/// One impact, as a measuring device reports it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strike {
    /// Speed of the ball off the face.
    pub ball_speed: Speed,
    /// Launch angle above the horizontal.
    pub launch: Angle,
    /// Start direction, positive right of the target.
    pub direction: Angle,
    /// Spin about the horizontal axis across the start direction; positive is backspin.
    pub backspin: Spin,
    /// Spin about the vertical axis; positive curves the ball to the right.
    pub sidespin: Spin,
}
