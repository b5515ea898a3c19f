//! The air: density and viscosity from temperature, altitude and humidity, and the wind by height.

use glam::DVec3;

use super::eight::{Eight, Vectors};
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

impl Air {
    /// The still air of the golf ball tests: 75 °F, sea level, 50 % humidity.
    #[must_use]
    pub const fn standard() -> Self {
        Self {
            temperature: Temperature::from_f(75.0),
            altitude: Length::ZERO,
            humidity_pct: 50.0,
            wind: Speed::ZERO,
            wind_from: Angle::ZERO,
        }
    }
}

impl Default for Air {
    fn default() -> Self {
        Self::standard()
    }
}

/// Roughness length of open grass, m. Source: Davenport–Wieringa classification.
const ROUGHNESS_M: f64 = 0.03;

/// Height at which a weather report measures the wind, m.
const REPORT_HEIGHT_M: f64 = 10.0;

/// Air worked out once for many flights: what drag, lift and drift depend on.
///
/// ```
/// use costcard::ball::air::{Air, Atmosphere};
/// let atmosphere = Atmosphere::new(&Air::standard());
/// assert!((atmosphere.density_kg_m3() - 1.182).abs() < 0.001);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Atmosphere {
    density_kg_m3: f64,
    kinematic_viscosity_m2_s: f64,
    wind_speed_mps: f64,
    /// Wind velocity over ln(1 + 10 m/z₀), m/s, so that a height costs one logarithm.
    wind_scale_mps: DVec3,
}

impl Atmosphere {
    /// Works the air out. Humidity is held to 0–100 % and altitude to −1000–11 000 m, where the formulas end.
    #[must_use]
    pub fn new(air: &Air) -> Self {
        let density = density_kg_m3(air);
        let still = Self::still(density, viscosity_pa_s(air.temperature.k()) / density);
        let wind = Self {
            wind_speed_mps: air.wind.mps(),
            ..still
        };
        wind.turned(air.wind_from)
    }

    /// Still air of a known density (kg/m³) and kinematic viscosity (m²/s).
    #[must_use]
    pub const fn still(density_kg_m3: f64, kinematic_viscosity_m2_s: f64) -> Self {
        Self {
            density_kg_m3,
            kinematic_viscosity_m2_s,
            wind_speed_mps: 0.0,
            wind_scale_mps: DVec3::ZERO,
        }
    }

    /// The same air with the wind from elsewhere: for the many lines of play of one course.
    #[must_use]
    pub fn turned(&self, wind_from: Angle) -> Self {
        let (sin, cos) = wind_from.rad().sin_cos();
        let scale = self.wind_speed_mps / (REPORT_HEIGHT_M / ROUGHNESS_M).ln_1p();
        Self {
            wind_scale_mps: DVec3::new(-sin, -cos, 0.0) * scale,
            ..*self
        }
    }

    /// Density, kg/m³.
    #[must_use]
    pub const fn density_kg_m3(&self) -> f64 {
        self.density_kg_m3
    }

    /// Kinematic viscosity, m²/s.
    #[must_use]
    pub const fn kinematic_viscosity_m2_s(&self) -> f64 {
        self.kinematic_viscosity_m2_s
    }

    /// Velocities through the air of eight balls at these heights, m/s.
    #[inline]
    pub(super) fn through_air(&self, heights_m: Eight, velocities_mps: Vectors) -> Vectors {
        if self.wind_speed_mps == 0.0 {
            return velocities_mps;
        }
        let profile = profile(heights_m);
        Vectors {
            x: velocities_mps.x - profile * self.wind_scale_mps.x,
            y: velocities_mps.y - profile * self.wind_scale_mps.y,
            z: velocities_mps.z,
        }
    }
}

/// How the wind grows with height: ln(1 + z/z₀), so that it falls smoothly to nothing at the ground; at 2 m and above it
/// agrees with the logarithmic profile ln(z/z₀) within 0.5 %.
#[inline]
fn profile(heights_m: Eight) -> Eight {
    // Not `ln_1p`: the plain logarithm is faster, and as right here, where only heights of millimetres are near 1.
    (heights_m.fast_max(Eight::ZERO) * (1.0 / ROUGHNESS_M) + 1.0).ln()
}

/// Density of moist air at the standard pressure of its altitude.
/// Source: ICAO standard atmosphere; vapour pressure of Alduchov & Eskridge (1996).
fn density_kg_m3(air: &Air) -> f64 {
    let height_m = air.altitude.m().clamp(-1000.0, 11_000.0);
    let pressure_pa = 101_325.0 * (1.0 - 0.0065 * height_m / 288.15).powf(5.2559);
    let (t_k, t_c) = (air.temperature.k(), air.temperature.c());
    let saturated_pa = 610.94 * (17.625 * t_c / (t_c + 243.04)).exp();
    let vapour_pa = air.humidity_pct.clamp(0.0, 100.0) / 100.0 * saturated_pa;
    (pressure_pa - vapour_pa) / (287.05 * t_k) + vapour_pa / (461.5 * t_k)
}

/// Dynamic viscosity of air, Pa·s. Source: Sutherland's formula, constants of the ICAO standard atmosphere.
fn viscosity_pa_s(temperature_k: f64) -> f64 {
    1.458e-6 * temperature_k.powf(1.5) / (temperature_k + 110.4)
}
