//! Turf and weather, of the course or of one hole.

use super::super::Day;
use crate::{
    ball::{air::Air, turf::Firmness},
    files::toml::{Entry, Table},
    units::{Angle, Length, Speed, Temperature},
};

/// What a file says about turf and weather.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Conditions {
    firmness: Option<Firmness>,
    wind_mph: Option<f64>,
    wind_from_deg: Option<f64>,
    temperature_f: Option<f64>,
    altitude_ft: Option<f64>,
    humidity_pct: Option<f64>,
}

/// What is shown of conditions where a file has none to show.
pub(super) const EXAMPLE: &str = "{ wind_mph = 8, wind_from_deg = 225 }";

impl From<&Day> for Conditions {
    fn from(day: &Day) -> Self {
        Self {
            firmness: day.firmness,
            wind_mph: day.wind_mph,
            wind_from_deg: day.wind_from_deg,
            ..Self::default()
        }
    }
}

impl Conditions {
    /// The keys of a table of conditions.
    pub(crate) const KEYS: [&'static str; 6] = [
        "firmness",
        "wind_mph",
        "wind_from_deg",
        "temperature_f",
        "altitude_ft",
        "humidity_pct",
    ];

    /// Reads `conditions`; nothing when it is left out. Others stand behind them, which may say where the wind comes from.
    pub(super) fn read(entry: &Entry<'_>, behind: Self) -> Self {
        let Some(table) = entry.table(&Self::KEYS) else {
            return Self::default();
        };
        let own = Self::of(&table);
        let blows = own.wind_mph.is_some_and(|mph| mph > 0.0);
        let is_told = table.has("wind_from_deg") || behind.wind_from_deg.is_some();
        if blows && !is_told {
            table.fault(
                table.place("wind_mph"),
                "nothing says where the wind comes from".to_owned(),
                "add `wind_from_deg = 225`: a compass direction on holes with `bearing_deg`, on others 0 into the face, 90 from the right, 180 from behind",
            );
        }
        own
    }

    /// Those of a table.
    pub(crate) fn of(table: &Table<'_>) -> Self {
        Self {
            firmness: firmness(&table.may("firmness", "\"soft\"")),
            wind_mph: table.may("wind_mph", "8").number(0.0..=60.0, "mph"),
            wind_from_deg: table
                .may("wind_from_deg", "225")
                .number(0.0..=360.0, "degrees"),
            temperature_f: table.may("temperature_f", "66").number(10.0..=125.0, "°F"),
            altitude_ft: table
                .may("altitude_ft", "300")
                .number(-1500.0..=15_000.0, "feet"),
            humidity_pct: table
                .may("humidity_pct", "60")
                .number(0.0..=100.0, "percent"),
        }
    }

    /// These, and what they leave out from others.
    pub(super) fn or(self, other: Self) -> Self {
        Self {
            firmness: self.firmness.or(other.firmness),
            wind_mph: self.wind_mph.or(other.wind_mph),
            wind_from_deg: self.wind_from_deg.or(other.wind_from_deg),
            temperature_f: self.temperature_f.or(other.temperature_f),
            altitude_ft: self.altitude_ft.or(other.altitude_ft),
            humidity_pct: self.humidity_pct.or(other.humidity_pct),
        }
    }

    /// Firmness, where it is said.
    pub(super) const fn stated_firmness(&self) -> Option<Firmness> {
        self.firmness
    }

    /// Firmness of the turf.
    pub(super) fn firmness(&self) -> Firmness {
        self.firmness.unwrap_or(Firmness::MEDIUM)
    }

    /// The air of a hole played in a compass direction; without one the wind is told from the hole.
    pub(super) fn air(&self, bearing_deg: Option<f64>) -> Air {
        let usual = Air::standard();
        let from_deg = self.wind_from_deg.unwrap_or(0.0) - bearing_deg.unwrap_or(0.0);
        Air {
            temperature: self
                .temperature_f
                .map_or(usual.temperature, Temperature::from_f),
            altitude: self.altitude_ft.map_or(usual.altitude, Length::from_ft),
            humidity_pct: self.humidity_pct.unwrap_or(usual.humidity_pct),
            wind: Speed::from_mph(self.wind_mph.unwrap_or(0.0)),
            wind_from: Angle::from_deg((from_deg + 180.0).rem_euclid(360.0) - 180.0),
        }
    }
}

/// Firmness as a word or a number from 0 to 1.
pub(super) fn firmness(entry: &Entry<'_>) -> Option<Firmness> {
    let words = [("soft", 0.0), ("medium", 0.5), ("firm", 1.0)];
    Firmness::new(entry.number_or_word(0.0..=1.0, "", &words)?)
}
