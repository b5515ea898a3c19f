//! Units people read. Files, flags and JSON keep the trade's units; only what is printed changes.

use crate::units::{Length, Speed};

/// Yards or metres.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Reading {
    /// Yards and miles an hour.
    #[default]
    Yards,
    /// Metres and metres a second.
    Metres,
}

impl Reading {
    /// A length as a number in these units.
    #[must_use]
    pub const fn length(self, length: Length) -> f64 {
        match self {
            Self::Yards => length.yd(),
            Self::Metres => length.m(),
        }
    }

    /// The short name of the length unit.
    #[must_use]
    pub const fn length_unit(self) -> &'static str {
        match self {
            Self::Yards => "yd",
            Self::Metres => "m",
        }
    }

    /// A speed as a number in these units.
    #[must_use]
    pub const fn speed(self, speed: Speed) -> f64 {
        match self {
            Self::Yards => speed.mph(),
            Self::Metres => speed.mps(),
        }
    }

    /// The short name of the speed unit.
    #[must_use]
    pub const fn speed_unit(self) -> &'static str {
        match self {
            Self::Yards => "mph",
            Self::Metres => "m/s",
        }
    }
}

/// So many holes, in words.
///
/// ```
/// # use costcard::show::reading::holes;
/// assert_eq!([holes(1), holes(18)], ["1 hole", "18 holes"]);
/// ```
#[must_use]
pub fn holes(count: usize) -> String {
    let noun = if count == 1 { "hole" } else { "holes" };
    format!("{count} {noun}")
}

/// A number with so many decimals, and no minus before a zero.
#[must_use]
pub fn number(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(zero) if zero.chars().all(|c| matches!(c, '0' | '.')) => zero.to_owned(),
        _ => text,
    }
}

/// Golfers of a handicap, as sentences name them: `golfers off 5`.
#[must_use]
pub fn golfers_off(handicap: f64) -> String {
    format!("golfers off {}", index(handicap))
}

/// The index that rounds make, to the tenth that every index is worked out to.
#[must_use]
pub fn made_index(index: f64) -> String {
    with_plus(number(index, 1))
}

/// A handicap index as golfers write it: plus handicaps with a plus sign.
#[must_use]
pub fn index(handicap: f64) -> String {
    let shown = (handicap * 10.0).round() / 10.0;
    match shown {
        0.0 => "scratch".into(),
        shown => with_plus(shown.to_string()),
    }
}

/// An index below zero is a plus handicap.
#[must_use]
pub fn with_plus(index: String) -> String {
    match index.strip_prefix('-') {
        Some(plus) => format!("+{plus}"),
        None => index,
    }
}
