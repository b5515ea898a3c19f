//! Areas: ellipses, strips and outlines.

use super::LIES;
use crate::{
    course::{
        Point,
        line::{Line, Station},
        plan::{Area, Ground},
        shape::{Ellipse, Shape, island_faults, outline_faults},
    },
    files::{
        listed,
        toml::{Entry, Table},
    },
};

/// Keys of an area.
pub(super) const KEYS: [&str; 13] = [
    "lie",
    "at_yd",
    "at_green_yd",
    "side_yd",
    "length_yd",
    "width_yd",
    "turn_deg",
    "from_yd",
    "to_yd",
    "side_from_yd",
    "side_to_yd",
    "outline_yd",
    "islands_yd",
];

/// The keys of each of the three ways to say where an area lies.
const GROUNDS: [&[&str]; 3] = [
    &[
        "at_yd",
        "at_green_yd",
        "side_yd",
        "length_yd",
        "width_yd",
        "turn_deg",
    ],
    &["from_yd", "to_yd", "side_from_yd", "side_to_yd"],
    &["outline_yd", "islands_yd"],
];

/// Most corners of an outline.
pub(crate) const MOST_POINTS: usize = 500;
/// Most corners of all islands of an area together.
pub(crate) const MOST_ISLAND_POINTS: usize = 2000;
/// Farthest a corner may lie from the tee, across or along, yards.
pub(crate) const FARTHEST_YD: f64 = 1500.0;

/// Farthest past the end of the line an area may lie, yards.
const MOST_PAST_YD: f64 = 100.0;

/// Reads an area of a hole.
pub(super) fn read(table: &Table<'_>, line: Option<&Line>) -> Option<Area> {
    let lie = table.need("lie", "\"sand\"").word(&LIES);
    let said: Vec<usize> = (0..3)
        .filter(|way| GROUNDS[*way].iter().any(|key| table.has(key)))
        .collect();
    let ground = match said[..] {
        [0] => read_spot(table, line),
        [1] => read_strip(table, line),
        [2] => with_islands(table).map(Ground::Shape),
        [] => unplaced(table, "does not say where it lies"),
        _ => unplaced(table, "says in two ways where it lies"),
    };
    Some(Area {
        lie: lie?,
        ground: ground?,
    })
}

fn unplaced(table: &Table<'_>, what: &str) -> Option<Ground> {
    let hint = format!(
        "an ellipse has {}; a strip has {}; an outline has `outline_yd`",
        listed(GROUNDS[0], "and"),
        listed(GROUNDS[1], "or"),
    );
    table.fault(table.span(), format!("{} {what}", table.label()), &hint);
    None
}

fn read_spot(table: &Table<'_>, line: Option<&Line>) -> Option<Ground> {
    let from_tee = table.may("at_yd", "240").number(-100.0..=1000.0, "yards");
    let from_green = table
        .may("at_green_yd", "-6")
        .number(-1000.0..=MOST_PAST_YD, "yards");
    let side_yd = table.need("side_yd", "24").number(-400.0..=400.0, "yards");
    let length_yd = table.need("length_yd", "16").number(1.0..=400.0, "yards");
    let width_yd = table.need("width_yd", "9").number(1.0..=400.0, "yards");
    let turn_deg = if table.has("turn_deg") {
        table.may("turn_deg", "15").number(-90.0..=90.0, "degrees")
    } else {
        Some(0.0)
    };
    let along_yd = match (table.has("at_yd"), table.has("at_green_yd")) {
        (true, false) => from_tee,
        (false, true) => from_green.and_then(|past_yd| Some(line?.length_yd() + past_yd)),
        (false, false) => {
            let _ = table.need("at_yd", "240");
            None
        }
        (true, true) => {
            let message =
                "`at_yd` and `at_green_yd` both say where it lies along the line".to_owned();
            table.fault(table.place("at_green_yd"), message, "keep one of them");
            None
        }
    };
    let station = Station {
        along_yd: along_yd?,
        side_yd: side_yd?,
    };
    if table.has("at_yd") {
        note_past(table, "at_yd", station.along_yd, line)?;
    }
    Some(Ground::Shape(spot(
        line?,
        station,
        (length_yd?, width_yd?),
        turn_deg?,
    )))
}

/// An ellipse of a length and width at a station, turned clockwise from the line of play there.
pub(super) fn spot(
    line: &Line,
    station: Station,
    (length_yd, width_yd): (f64, f64),
    turn_deg: f64,
) -> Shape {
    Shape::Ellipse(Ellipse {
        centre: line.point(station),
        heading_rad: line.heading_rad(station.along_yd) + turn_deg.to_radians(),
        half_length_yd: length_yd / 2.0,
        half_width_yd: width_yd / 2.0,
    })
}

/// Notes an area that begins so far past the hole that no ball comes there.
fn note_past(table: &Table<'_>, key: &str, along_yd: f64, line: Option<&Line>) -> Option<()> {
    let length_yd = line?.length_yd();
    if along_yd <= length_yd + MOST_PAST_YD {
        return Some(());
    }
    let message = format!(
        "{} lies {:.0} yards past the hole, which is {length_yd:.0} yards long",
        table.label(),
        along_yd - length_yd
    );
    let hint = format!(
        "count from the tee along the line of play; {MOST_PAST_YD} yards past the hole is the most"
    );
    table.fault(table.place(key), message, &hint);
    None
}

fn read_strip(table: &Table<'_>, line: Option<&Line>) -> Option<Ground> {
    let end = |key, example, open| {
        let range = if key == "from_yd" || key == "to_yd" {
            -100.0..=1000.0
        } else {
            -400.0..=400.0
        };
        if table.has(key) {
            table.may(key, example).number(range, "yards")
        } else {
            Some(open)
        }
    };
    let from = end("from_yd", "262", f64::NEG_INFINITY);
    let to = end("to_yd", "283", f64::INFINITY);
    let side_yd = match (table.has("side_from_yd"), table.has("side_to_yd")) {
        (false, false) => Some((f64::NEG_INFINITY, f64::INFINITY)),
        (false, true) => {
            let _ = table.need("side_from_yd", "30");
            None
        }
        (true, _) => {
            let near = end("side_from_yd", "30", 0.0);
            // Left out, the far side goes on outwards.
            let outwards = near.map_or(0.0, |near| f64::INFINITY.copysign(near));
            let far = end("side_to_yd", "50", outwards);
            near.zip(far)
                .map(|(near, far)| (near.min(far), near.max(far)))
        }
    };
    let (from, to, side_yd) = (from?, to?, side_yd?);
    if table.has("from_yd") {
        note_past(table, "from_yd", from, line)?;
    }
    for (low, high, key) in [(from, to, "to_yd"), (side_yd.0, side_yd.1, "side_to_yd")] {
        if low >= high {
            let message = format!(
                "{} has no width: it ends where it begins or before",
                table.label()
            );
            table.fault(
                table.place(key),
                message,
                "let it end farther than it begins",
            );
            return None;
        }
    }
    Some(Ground::Strip {
        along_yd: (from, to),
        side_yd,
    })
}

/// Reads a free outline.
pub(super) fn outline(table: &Table<'_>, key: &str) -> Option<Shape> {
    let points = ring(&table.need(key, "[[-60, 150], [-40, 155], [-45, 210]]"))?;
    let faults = size_fault(&points).map_or_else(|| outline_faults(&points), |fault| vec![fault]);
    note_faults(table, key, faults)?;
    Some(Shape::Outline(points))
}

/// Reads a free outline with the islands in it, if it has any.
fn with_islands(table: &Table<'_>) -> Option<Shape> {
    let shape = outline(table, "outline_yd");
    if !table.has("islands_yd") {
        return shape;
    }
    let entry = table.may("islands_yd", "[[[-52, 170], [-47, 172], [-50, 180]]]");
    let islands: Option<Vec<_>> = entry.list()?.iter().map(ring).collect();
    let (Shape::Outline(points), islands) = (shape?, islands?) else {
        return None;
    };
    let too_long = islands.iter().find_map(|island| size_fault(island));
    let too_long = too_long.or_else(|| islands_fault(&islands));
    let faults = too_long.map_or_else(|| island_faults(&points, &islands), |fault| vec![fault]);
    note_faults(table, "islands_yd", faults)?;
    let rings = [points].into_iter().chain(islands);
    Some(Shape::Islands(rings.collect()))
}

/// Reads a closed line of points.
fn ring(entry: &Entry<'_>) -> Option<Vec<Point>> {
    let points = entry.points(FARTHEST_YD)?.into_iter();
    Some(points.map(|[x_yd, y_yd]| Point { x_yd, y_yd }).collect())
}

fn size_fault(points: &[Point]) -> Option<String> {
    let count = points.len();
    (count > MOST_POINTS)
        .then(|| format!("an outline has at most {MOST_POINTS} points, not {count}"))
}

fn islands_fault(islands: &[Vec<Point>]) -> Option<String> {
    let count: usize = islands.iter().map(Vec::len).sum();
    (count > MOST_ISLAND_POINTS).then(|| {
        format!(
            "the islands of an area have at most {MOST_ISLAND_POINTS} points together, not {count}"
        )
    })
}

/// Notes the first few faults of an outline; none of it can be used then.
fn note_faults(table: &Table<'_>, key: &str, mut faults: Vec<String>) -> Option<()> {
    if faults.is_empty() {
        return Some(());
    }
    faults.truncate(5);
    for fault in faults {
        table.fault(
            table.place(key),
            fault,
            "list the corners in order round the area, each once",
        );
    }
    None
}
