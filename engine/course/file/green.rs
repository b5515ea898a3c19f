//! The green: its shape, its surface and the hole in it.

use super::{
    area::{outline, spot},
    conditions::firmness,
};
use crate::{
    ball::turf::Firmness,
    course::{
        Green, Point,
        line::{Line, Station},
        pins::reach_yd,
        shape::Shape,
    },
    files::toml::{Entry, Kind, Table},
};

/// Keys of a green.
const KEYS: [&str; 8] = [
    "depth_yd",
    "width_yd",
    "turn_deg",
    "outline_yd",
    "firmness",
    "stimp_ft",
    "slope_along_pct",
    "slope_across_pct",
];

/// How far a pin stands from the middle of the green toward its front or back edge, as a share of the way.
const PIN_SHARE: f64 = 0.6;

/// What a file says about a green.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct GreenKeys {
    depth_yd: Option<f64>,
    width_yd: Option<f64>,
    turn_deg: Option<f64>,
    firmness: Option<Firmness>,
    stimp_ft: Option<f64>,
    slope_along_pct: Option<f64>,
    slope_across_pct: Option<f64>,
}

/// Keys of the greens of holes that do not say otherwise: an outline is that of one hole.
const DEFAULT_KEYS: [&str; 7] = [
    "depth_yd",
    "width_yd",
    "turn_deg",
    "firmness",
    "stimp_ft",
    "slope_along_pct",
    "slope_across_pct",
];

/// Opens the table of what greens are by default.
pub(super) fn open_defaults<'a>(entry: &Entry<'a>) -> Option<Table<'a>> {
    entry.table(&DEFAULT_KEYS)
}

/// Opens the table of a green.
pub(super) fn open<'a>(entry: &Entry<'a>) -> Option<Table<'a>> {
    entry.table(&KEYS)
}

impl GreenKeys {
    pub(super) fn read(table: &Table<'_>) -> Self {
        let slope = |key| table.may(key, "2").number(-10.0..=10.0, "percent");
        Self {
            depth_yd: table.may("depth_yd", "30").number(5.0..=80.0, "yards"),
            width_yd: table.may("width_yd", "24").number(5.0..=80.0, "yards"),
            turn_deg: table.may("turn_deg", "15").number(-90.0..=90.0, "degrees"),
            firmness: firmness(&table.may("firmness", "\"soft\"")),
            stimp_ft: table.may("stimp_ft", "10").number(5.0..=16.0, "feet"),
            slope_along_pct: slope("slope_along_pct"),
            slope_across_pct: slope("slope_across_pct"),
        }
    }

    /// These, and what they leave out from others.
    fn or(self, other: Self) -> Self {
        Self {
            depth_yd: self.depth_yd.or(other.depth_yd),
            width_yd: self.width_yd.or(other.width_yd),
            turn_deg: self.turn_deg.or(other.turn_deg),
            firmness: self.firmness.or(other.firmness),
            stimp_ft: self.stimp_ft.or(other.stimp_ft),
            slope_along_pct: self.slope_along_pct.or(other.slope_along_pct),
            slope_across_pct: self.slope_across_pct.or(other.slope_across_pct),
        }
    }
}

impl GreenKeys {
    fn ellipse(self, line: &Line) -> Option<Shape> {
        let end = Station {
            along_yd: line.length_yd(),
            side_yd: 0.0,
        };
        let size = (self.depth_yd?, self.width_yd?);
        Some(spot(line, end, size, self.turn_deg.unwrap_or(0.0)))
    }

    /// Whether it says how large a green is.
    pub(super) const fn has_size(&self) -> bool {
        self.depth_yd.is_some() && self.width_yd.is_some()
    }

    fn surface(self, turf: Firmness) -> Green {
        Green {
            firmness: self.firmness.unwrap_or(turf),
            stimp_ft: self.stimp_ft.unwrap_or(10.0),
            slope_along_pct: self.slope_along_pct.unwrap_or(0.0),
            slope_across_pct: self.slope_across_pct.unwrap_or(0.0),
        }
    }
}

/// Reads a hole's green at the end of its line: its shape and its surface.
pub(super) fn read(
    table: &Table<'_>,
    defaults: GreenKeys,
    turf: Firmness,
    line: Option<&Line>,
) -> Option<(Shape, Green)> {
    let keys = GreenKeys::read(table).or(defaults);
    let shape = if table.has("outline_yd") {
        free_shape(table, line)
    } else {
        ellipse(table, keys, line)
    };
    Some((shape?, keys.surface(turf)))
}

/// The green of a hole that says nothing of it; none where the defaults give no size.
pub(super) fn by_default(
    keys: GreenKeys,
    turf: Firmness,
    line: Option<&Line>,
) -> Option<(Shape, Green)> {
    Some((keys.ellipse(line?)?, keys.surface(turf)))
}

fn ellipse(table: &Table<'_>, keys: GreenKeys, line: Option<&Line>) -> Option<Shape> {
    for (key, value, example) in [
        ("depth_yd", keys.depth_yd, "30"),
        ("width_yd", keys.width_yd, "24"),
    ] {
        if value.is_none() && !table.has(key) {
            let _ = table.need(key, example);
        }
    }
    keys.ellipse(line?)
}

fn free_shape(table: &Table<'_>, line: Option<&Line>) -> Option<Shape> {
    for key in ["depth_yd", "width_yd", "turn_deg"]
        .into_iter()
        .filter(|key| table.has(key))
    {
        let message = format!("a green with an outline has no `{key}`");
        table.fault(
            table.place(key),
            message,
            "keep the outline or the sizes, not both",
        );
    }
    let shape = outline(table, "outline_yd")?;
    let end = line?.end();
    if !shape.contains(end) {
        let message = format!(
            "{} lies outside its hole: the line of play ends at [{:.1}, {:.1}], not on it",
            table.label(),
            end.x_yd,
            end.y_yd
        );
        table.fault(
            table.place("outline_yd"),
            message,
            "end the line of play in the middle of the green",
        );
        return None;
    }
    Some(shape)
}

/// A pin toward the front (−1) or the back (1) of a green, or in its middle (0).
pub(super) fn pin_toward(direction: f64, shape: &Shape, line: &Line) -> Point {
    // In the middle there is no way to go, and none is looked for.
    let away_yd = if direction == 0.0 {
        0.0
    } else {
        direction * PIN_SHARE * reach_yd(shape, line, direction)
    };
    line.point(Station {
        along_yd: line.length_yd() + away_yd,
        side_yd: 0.0,
    })
}

/// Reads where the hole is cut; the middle of the green when that is left out.
pub(super) fn read_pin(entry: &Entry<'_>, shape: &Shape, line: &Line) -> Option<Point> {
    let (along_yd, side_yd) = match entry.kind() {
        None => return Some(pin_toward(0.0, shape, line)),
        Some(Kind::Table) => {
            let offset = entry.table(&["along_yd", "side_yd"])?;
            let along = offset.need("along_yd", "4").number(-40.0..=40.0, "yards");
            let side = offset.need("side_yd", "-5").number(-40.0..=40.0, "yards");
            (along?, side?)
        }
        Some(_) => {
            let direction = entry.word(&[("front", -1.0), ("middle", 0.0), ("back", 1.0)])?;
            return Some(pin_toward(direction, shape, line));
        }
    };
    // Beyond the end of the line its last leg goes on; short of it, a pin is still on that leg unless the leg is tiny.
    let pin = line.point(Station {
        along_yd: line.length_yd() + along_yd,
        side_yd,
    });
    if shape.contains(pin) {
        return Some(pin);
    }
    let message = "the pin is not on the green".to_owned();
    entry.note(
        message,
        "along_yd and side_yd are counted from the middle of the green".to_owned(),
    )
}
