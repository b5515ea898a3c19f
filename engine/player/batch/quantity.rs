//! What can be measured of a shot, the names and units it is written in, and the values it can have.

use std::ops::RangeInclusive;

/// What kind of thing a quantity is, and so which units fit it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Miles an hour, and others.
    Speed,
    /// Yards, and others.
    Length,
    /// Degrees, and radians.
    Angle,
    /// Revolutions a minute, and others.
    Spin,
}

/// One measured quantity. Held in the trade's units: mph, yards, degrees, rpm.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Quantity {
    /// Ball speed, mph.
    BallSpeed,
    /// Launch above the horizontal, degrees.
    Launch,
    /// Start direction, degrees, right of the target positive.
    Direction,
    /// Backspin, rpm.
    Backspin,
    /// Sidespin, rpm, positive when it curves the ball to the right.
    Sidespin,
    /// Spin about the ball's own axis, rpm.
    Spin,
    /// Tilt of that axis, degrees, positive when the ball curves to the right.
    SpinAxis,
    /// Where the ball first pitches on level ground, yards.
    Carry,
    /// How far right of the target line it pitches, yards.
    Side,
    /// The highest point, yards.
    Apex,
    /// The angle at which it comes down, degrees, positive.
    Descent,
    /// Speed of the club's head, mph.
    ClubSpeed,
    /// Attack angle, degrees, positive upwards.
    Attack,
    /// Club path, degrees, right of the target positive.
    Path,
    /// Face angle, degrees, right of the target positive.
    Face,
    /// Loft as it is delivered, degrees.
    DynamicLoft,
    /// Tilt of the sole, degrees, positive clockwise as seen from behind the ball, which turns the face right: toe down
    /// for a right-hander, toe up for a left-hander.
    Lie,
}

/// How many quantities there are.
pub const COUNT: usize = 17;

/// What is fixed about a quantity.
#[derive(Debug)]
struct Facts {
    base: &'static str,
    words: &'static str,
    kind: Kind,
    /// Values that can be, in the trade's units.
    range: RangeInclusive<f64>,
    /// Whether left and right are told apart by its sign.
    lateral: bool,
}

impl Quantity {
    /// Every quantity, in order.
    pub const ALL: [Self; COUNT] = [
        Self::BallSpeed,
        Self::Launch,
        Self::Direction,
        Self::Backspin,
        Self::Sidespin,
        Self::Spin,
        Self::SpinAxis,
        Self::Carry,
        Self::Side,
        Self::Apex,
        Self::Descent,
        Self::ClubSpeed,
        Self::Attack,
        Self::Path,
        Self::Face,
        Self::DynamicLoft,
        Self::Lie,
    ];

    /// The five figures of a strike, in the order of [`crate::player::pattern::Five`].
    pub const STRIKE: [Self; 5] = [
        Self::BallSpeed,
        Self::Launch,
        Self::Direction,
        Self::Backspin,
        Self::Sidespin,
    ];

    /// What the flight shows.
    pub const FLIGHT: [Self; 4] = [Self::Carry, Self::Side, Self::Apex, Self::Descent];

    /// What the club does.
    pub const DELIVERY: [Self; 6] = [
        Self::ClubSpeed,
        Self::Attack,
        Self::Path,
        Self::Face,
        Self::DynamicLoft,
        Self::Lie,
    ];

    const fn facts(self) -> Facts {
        let (base, words, kind, range, lateral) = match self {
            Self::BallSpeed => ("ball_speed", "ball speed", Kind::Speed, 20.0..=220.0, false),
            Self::Launch => ("launch", "launch", Kind::Angle, -20.0..=70.0, false),
            Self::Direction => ("direction", "direction", Kind::Angle, -45.0..=45.0, true),
            Self::Backspin => (
                "backspin",
                "backspin",
                Kind::Spin,
                -3000.0..=15_000.0,
                false,
            ),
            Self::Sidespin => ("sidespin", "sidespin", Kind::Spin, -8000.0..=8000.0, true),
            Self::Spin => ("spin", "spin", Kind::Spin, 0.0..=16_000.0, false),
            Self::SpinAxis => ("spin_axis", "spin axis", Kind::Angle, -85.0..=85.0, true),
            Self::Carry => ("carry", "carry", Kind::Length, 0.0..=420.0, false),
            Self::Side => ("side", "side", Kind::Length, -200.0..=200.0, true),
            Self::Apex => ("apex", "apex", Kind::Length, 0.0..=90.0, false),
            Self::Descent => ("descent", "descent", Kind::Angle, 0.0..=90.0, false),
            Self::ClubSpeed => ("club_speed", "club speed", Kind::Speed, 20.0..=160.0, false),
            Self::Attack => ("attack", "attack angle", Kind::Angle, -25.0..=20.0, false),
            Self::Path => ("path", "club path", Kind::Angle, -35.0..=35.0, true),
            Self::Face => ("face", "face angle", Kind::Angle, -40.0..=40.0, true),
            Self::DynamicLoft => (
                "dynamic_loft",
                "dynamic loft",
                Kind::Angle,
                -10.0..=80.0,
                false,
            ),
            Self::Lie => ("lie", "lie", Kind::Angle, -30.0..=30.0, true),
        };
        Facts {
            base,
            words,
            kind,
            range,
            lateral,
        }
    }

    /// What people call it.
    #[must_use]
    pub const fn words(self) -> &'static str {
        self.facts().words
    }

    /// Its kind.
    #[must_use]
    pub const fn kind(self) -> Kind {
        self.facts().kind
    }

    /// The values it can have.
    #[must_use]
    pub const fn range(self) -> RangeInclusive<f64> {
        self.facts().range
    }

    /// Whether its sign tells left from right.
    #[must_use]
    pub const fn is_lateral(self) -> bool {
        self.facts().lateral
    }

    /// Its name in files, with the unit it is held in: `ball_speed_mph`.
    #[must_use]
    pub fn name(self) -> String {
        format!("{}_{}", self.facts().base, self.kind().trade().suffix)
    }

    /// The quantity and unit of a column of costcard's own, as `carry_yd` or `carry_m`.
    #[must_use]
    pub fn named(column: &str) -> Option<(Self, Unit)> {
        Self::ALL.into_iter().find_map(|quantity| {
            let suffix = column
                .strip_prefix(quantity.facts().base)?
                .strip_prefix('_')?;
            let unit = UNITS
                .iter()
                .find(|unit| unit.kind == quantity.kind() && unit.suffix == suffix)?;
            Some((quantity, *unit))
        })
    }

    /// The value with its unit, as people read it.
    #[must_use]
    pub fn told(self, value: f64) -> String {
        let value = match self.kind() {
            Kind::Spin => format!("{value:.0}"),
            _ => format!("{value:.1}"),
        };
        let value = value.strip_suffix(".0").unwrap_or(&value);
        match self.kind() {
            Kind::Angle => format!("{value}°"),
            kind => format!("{value} {}", kind.trade().suffix),
        }
    }
}

/// A unit: what it is called, and how many of the trade's unit it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// Which quantities it fits.
    pub kind: Kind,
    /// What stands at the end of a column's name.
    pub suffix: &'static str,
    /// How it is written elsewhere, in small letters without blanks or brackets.
    spellings: &'static [&'static str],
    /// This one over the trade's unit: what a figure in it is multiplied by.
    pub factor: f64,
}

const METRE_YD: f64 = 1.0 / 0.9144;

/// The units that are understood; the first of each kind is the trade's own.
pub const UNITS: [Unit; 12] = [
    unit(Kind::Speed, "mph", &["mph", "mi/h", "miles/h"], 1.0),
    unit(
        Kind::Speed,
        "kmh",
        &["kmh", "km/h", "kph", "km/t"],
        1.0 / 1.609_344,
    ),
    unit(
        Kind::Speed,
        "mps",
        &["mps", "m/s", "ms-1", "m/sec"],
        1.0 / 0.447_04,
    ),
    unit(
        Kind::Speed,
        "fps",
        &["fps", "ft/s", "ft/sec"],
        0.3048 / 0.447_04,
    ),
    unit(
        Kind::Length,
        "yd",
        &["yd", "yds", "yard", "yards", "y"],
        1.0,
    ),
    unit(
        Kind::Length,
        "m",
        &["m", "metre", "metres", "meter", "meters", "mtr"],
        METRE_YD,
    ),
    unit(
        Kind::Length,
        "ft",
        &["ft", "foot", "feet", "'"],
        0.3048 * METRE_YD,
    ),
    unit(
        Kind::Angle,
        "deg",
        &["deg", "°", "degs", "degree", "degrees", "grad"],
        1.0,
    ),
    unit(
        Kind::Angle,
        "rad",
        &["rad", "radians"],
        180.0 / std::f64::consts::PI,
    ),
    unit(
        Kind::Spin,
        "rpm",
        &["rpm", "u/min", "1/min", "tr/min", "r/min", "rev/min"],
        1.0,
    ),
    unit(
        Kind::Spin,
        "rps",
        &["rps", "rev/s", "r/s", "u/s", "hz"],
        60.0,
    ),
    unit(Kind::Spin, "rad_s", &["rad/s"], 30.0 / std::f64::consts::PI),
];

const fn unit(
    kind: Kind,
    suffix: &'static str,
    spellings: &'static [&'static str],
    factor: f64,
) -> Unit {
    Unit {
        kind,
        suffix,
        spellings,
        factor,
    }
}

impl Kind {
    /// The trade's unit for it.
    #[must_use]
    pub const fn trade(self) -> Unit {
        UNITS[match self {
            Self::Speed => 0,
            Self::Length => 4,
            Self::Angle => 7,
            Self::Spin => 9,
        }]
    }

    /// The names of the units that fit it, for messages.
    #[must_use]
    pub fn units(self) -> Vec<&'static str> {
        let fit = UNITS.iter().filter(|unit| unit.kind == self);
        fit.map(|unit| unit.spellings[0]).collect()
    }
}

impl Unit {
    /// The unit a text names, in any case, with or without brackets round it.
    #[must_use]
    pub fn named(text: &str) -> Option<Self> {
        let plain: String = text
            .chars()
            .filter(|c| !c.is_whitespace() && !matches!(c, '(' | ')' | '[' | ']' | '.'))
            .flat_map(char::to_lowercase)
            .collect();
        let known = |unit: &&Unit| unit.suffix == plain || unit.spellings.contains(&&*plain);
        UNITS.iter().find(known).copied()
    }

    /// How the unit is written in a map.
    #[must_use]
    pub fn word(self) -> &'static str {
        self.spellings[0]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_quantity_is_found_by_its_own_name_and_held_in_the_trades_unit() {
        for (index, quantity) in Quantity::ALL.into_iter().enumerate() {
            assert_eq!(quantity as usize, index);
            let (found, unit) = Quantity::named(&quantity.name()).unwrap_or_else(|| {
                panic!("{} is not found", quantity.name());
            });
            assert_eq!((found, unit.factor), (quantity, 1.0));
        }
        assert_eq!(Quantity::named("carry"), None);
        assert_eq!(Quantity::named("carry_mph"), None);
    }

    #[test]
    fn units_are_what_they_should_be() {
        let factor = |text| Unit::named(text).map(|unit| unit.factor);
        // Definitions: 1 yd = 0.9144 m, 1 mile = 1609.344 m.
        assert_eq!(factor("[m]"), Some(1.0 / 0.9144));
        assert!((factor("Feet").unwrap_or(0.0) * 3.0 - 1.0).abs() < 1e-12);
        assert!((factor("km/h").unwrap_or(0.0) * 1.609_344 - 1.0).abs() < 1e-12);
        assert!((factor("m/s").unwrap_or(0.0) - 2.236_936).abs() < 1e-6);
        assert_eq!(factor("furlongs"), None);
    }
}
