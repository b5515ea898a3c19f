//! The air: density and viscosity from temperature, altitude and humidity, and the wind by height.

use crate::units::{Angle, Length, Speed, Temperature};

/// The air a ball flies through, as a weather report gives it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    /// Air temperature.
    pub temperature: Temperature,
    /// Height above the sea.
    pub altitude: Length,
    /// Relative humidity, 0 to 100.
    pub humidity_pct: f64,
    /// Wind speed at 10 m, the height of weather reports.
    pub wind: Speed,
    /// Where the wind comes from, clockwise from the line of the shot: 0 is into the face, 90 from the right.
    pub wind_from: Angle,
}
