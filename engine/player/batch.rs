//! Measured strikes from a sheet.

use std::collections::BTreeMap;
use std::ops::RangeInclusive;

use super::club::Club;
use super::pattern::Five;
use crate::files::sheet::{self, Columns, Row};
use crate::files::{Faults, Source};

/// One of the five figures: its name in files, the values it can have, its unit.
pub(super) struct Figure {
    pub name: &'static str,
    pub range: RangeInclusive<f64>,
    pub widest_spread: f64,
    pub unit: &'static str,
    pub example: &'static str,
}

/// The five figures in the order of [`Five`].
pub(super) const FIGURES: [Figure; 5] = [
    Figure {
        name: "ball_speed_mph",
        range: 20.0..=220.0,
        widest_spread: 30.0,
        unit: "mph",
        example: "112.5",
    },
    Figure {
        name: "launch_deg",
        range: -20.0..=70.0,
        widest_spread: 15.0,
        unit: "degrees",
        example: "16.4",
    },
    Figure {
        name: "direction_deg",
        range: -45.0..=45.0,
        widest_spread: 20.0,
        unit: "degrees",
        example: "1.5",
    },
    Figure {
        name: "backspin_rpm",
        range: -3000.0..=15_000.0,
        widest_spread: 4000.0,
        unit: "rpm",
        example: "6200",
    },
    Figure {
        name: "sidespin_rpm",
        range: -8000.0..=8000.0,
        widest_spread: 4000.0,
        unit: "rpm",
        example: "-300",
    },
];

/// The columns of a sheet of strikes; others are passed over.
const COLUMNS: [&str; 6] = [
    "club",
    "ball_speed_mph",
    "launch_deg",
    "direction_deg",
    "backspin_rpm",
    "sidespin_rpm",
];

/// The strikes of each club, in the order of the sheet, the figures as they stand there.
///
/// # Errors
/// Every fault of the sheet.
pub(super) fn read(source: &Source) -> Result<BTreeMap<Club, Vec<Five>>, Faults> {
    let columns = Columns {
        needed: &COLUMNS,
        optional: &[],
        others: true,
    };
    let mut strikes: BTreeMap<Club, Vec<Five>> = BTreeMap::new();
    for (club, strike) in sheet::read(source, columns, strike)? {
        strikes.entry(club).or_default().push(strike);
    }
    Ok(strikes)
}

fn strike(row: &Row<'_>) -> Option<(Club, Five)> {
    let club = row.text("club").and_then(|text| {
        text.parse::<Club>()
            .map_err(|unknown| {
                row.fault(
                    "club",
                    format!("unknown club `{}`", unknown.given),
                    &unknown.hint(),
                );
            })
            .ok()
    });
    // All five are read before a fault ends the row, so that each is told.
    let figures = FIGURES
        .each_ref()
        .map(|figure| row.number(figure.name, figure.range.clone(), figure.unit));
    let [ball_speed, launch, direction, backspin, sidespin] = figures;
    Some((
        club?,
        [ball_speed?, launch?, direction?, backspin?, sidespin?],
    ))
}
