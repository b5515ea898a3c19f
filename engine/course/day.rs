//! Turf and wind on the day of play, where they are not what the course file says.

use crate::ball::turf::Firmness;

/// Turf and wind of a day; what is left out is as the course file says.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Day {
    /// Firmness of fairways, rough and greens alike.
    pub firmness: Option<Firmness>,
    /// Wind at 10 m, mph.
    pub wind_mph: Option<f64>,
    /// Where it comes from, degrees: a compass direction on holes that state their bearing, otherwise told from the hole.
    pub wind_from_deg: Option<f64>,
}

impl Day {
    /// Whether everything is as the course file says.
    #[must_use]
    pub fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}
