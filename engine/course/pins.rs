//! How a course is set up for play, beside what its file says: the tees played from, and the pins of the day.
//!
//! A pin sheet is a CSV file, one hole a line, in the trade's form: so many paces on from the front of the green, so
//! many from its left or right edge there. A pace is a yard (common practice, no published source).
//!
//! ```csv
//! hole,on_paces,left_paces,right_paces
//! 1,14,5,
//! 2,22,,7
//! 3,9,,
//! ```
//!
//! With neither side the pin stands in the middle of the width. `_yd` and `_m` in place of `_paces` count in yards and
//! metres. Holes that are left out keep the pin of the course file.

use std::ops::{Range, RangeInclusive};

use super::line::{Line, Station};
use super::shape::Shape;
use super::{Conditions, Point};
use crate::files::sheet::{self, Columns, Row};
use crate::files::{Fault, Faults, Source};

/// How a course is set up for play.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Setup {
    /// The name of the tees played from; none for the file's own choice.
    pub tees: Option<String>,
    /// Where the holes are cut.
    pub pins: Pins,
    /// Turf and weather of the day, in place of what the file says of the course, its holes and greens.
    pub day: Conditions,
}

/// Where the holes are cut.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum Pins {
    /// Where the course file says.
    #[default]
    File,
    /// Toward the front of every green.
    Front,
    /// In the middle of every green.
    Middle,
    /// Toward the back of every green.
    Back,
    /// By a sheet.
    Sheet(PinSheet),
}

impl Pins {
    /// The words for places on the greens.
    pub const WORDS: [&str; 3] = ["front", "middle", "back"];

    /// What a word says; none where it is none of [`WORDS`](Self::WORDS).
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        match word {
            "front" => Some(Self::Front),
            "middle" => Some(Self::Middle),
            "back" => Some(Self::Back),
            _ => None,
        }
    }
}

/// The pins of a day.
#[derive(Debug, Clone, PartialEq)]
pub struct PinSheet {
    rows: Vec<PinRow>,
}

/// One line of a sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct PinRow {
    /// Number of the hole.
    pub hole: u32,
    /// On from the front of the green along the last leg, yards.
    on_yd: f64,
    /// In from an edge; none for the middle of the width.
    side: Option<InFrom>,
    source: Source,
    span: Range<usize>,
}

/// So many yards in from an edge.
#[derive(Debug, Clone, Copy, PartialEq)]
enum InFrom {
    Left(f64),
    Right(f64),
}

/// A way to count on a green.
struct Unit {
    on: &'static str,
    left: &'static str,
    right: &'static str,
    yards: f64,
}

/// Paces, yards and metres.
const UNITS: [Unit; 3] = [
    Unit {
        on: "on_paces",
        left: "left_paces",
        right: "right_paces",
        yards: 1.0,
    },
    Unit {
        on: "on_yd",
        left: "left_yd",
        right: "right_yd",
        yards: 1.0,
    },
    Unit {
        on: "on_m",
        left: "left_m",
        right: "right_m",
        yards: 1.0 / 0.9144,
    },
];

const COLUMNS: Columns<'_> = Columns {
    needed: &["hole"],
    optional: &[
        "on_paces",
        "left_paces",
        "right_paces",
        "on_yd",
        "left_yd",
        "right_yd",
        "on_m",
        "left_m",
        "right_m",
    ],
    others: false,
};

/// Distances on a green, in whatever they are counted in.
const ON_GREEN: RangeInclusive<f64> = 0.0..=80.0;

impl PinSheet {
    /// How many holes it is about.
    #[must_use]
    pub fn count(&self) -> usize {
        self.rows.len()
    }

    /// Reads a sheet.
    ///
    /// # Errors
    /// Every fault of it.
    pub fn read(source: &Source) -> Result<Self, Faults> {
        let mut known = Vec::new();
        let rows = sheet::read(source, COLUMNS, |row| {
            let read = read_row(row, source)?;
            if known.contains(&read.hole) {
                let message = format!("hole {} stands twice", read.hole);
                row.fault("hole", message, "remove one of the two lines");
            }
            known.push(read.hole);
            Some(read)
        })?;
        Ok(Self { rows })
    }

    /// The line of a hole.
    pub(super) fn row(&self, hole: u32) -> Option<&PinRow> {
        self.rows.iter().find(|row| row.hole == hole)
    }

    /// The faults of lines whose hole is none of a course's.
    pub(super) fn strangers(&self, holes: &[u32]) -> Vec<Fault> {
        let strange = self.rows.iter().filter(|row| !holes.contains(&row.hole));
        let fault = |row: &PinRow| {
            let message = format!("the course has no hole {}", row.hole);
            row.fault(message, "remove the line, or correct its number")
        };
        strange.map(fault).collect()
    }
}

fn read_row(row: &Row<'_>, source: &Source) -> Option<PinRow> {
    let hole = row.number("hole", 1.0..=99.0, "")?;
    if hole.fract() != 0.0 {
        row.fault(
            "hole",
            format!("there is no hole {hole}"),
            "write a whole number",
        );
        return None;
    }
    let mut said = UNITS.iter().filter(|unit| row.has(unit.on));
    let (Some(unit), None) = (said.next(), said.next()) else {
        let message = "this line must say once how far on from the front the pin stands".to_owned();
        row.fault(
            "hole",
            message,
            "write one of `on_paces`, `on_yd` or `on_m`",
        );
        return None;
    };
    let on = row.number(unit.on, ON_GREEN, "")?;
    let left = row.may_number(unit.left, ON_GREEN, "")?;
    let right = row.may_number(unit.right, ON_GREEN, "")?;
    let side = match (left, right) {
        (Some(_), Some(_)) => {
            let message = "the pin is told from both edges of the green".to_owned();
            row.fault(unit.right, message, "keep the nearer edge");
            return None;
        }
        (Some(left), None) => Some(InFrom::Left(left * unit.yards)),
        (None, Some(right)) => Some(InFrom::Right(right * unit.yards)),
        (None, None) => None,
    };
    Some(PinRow {
        hole: hole as u32,
        on_yd: on * unit.yards,
        side,
        source: source.clone(),
        span: row.place("hole"),
    })
}

impl PinRow {
    fn fault(&self, message: String, hint: &str) -> Fault {
        Fault {
            source: self.source.clone(),
            span: Some(self.span.clone()),
            message,
            hint: Some(hint.to_owned()),
        }
    }

    /// Where the hole is cut in a green at the end of a line.
    pub(super) fn on(&self, green: &Shape, line: &Line) -> Result<Point, Fault> {
        let depth = Depth::of(green, line);
        let along_yd = depth.front_yd + self.on_yd;
        let at = |side_yd| line.point(Station { along_yd, side_yd });
        let widths = edges(green, &at);
        let found = widths.map(|(left, right)| match self.side {
            None => f64::midpoint(left, right),
            Some(InFrom::Left(yards)) => left + yards,
            Some(InFrom::Right(yards)) => right - yards,
        });
        let pin = found.map(at).filter(|pin| green.contains(*pin));
        if pin.is_some_and(|pin| !can_be_cut(green, pin)) {
            let message = format!(
                "the pin of hole {} stands on the edge of the green",
                self.hole
            );
            return Err(self.fault(message, "keep it a yard or more from every edge"));
        }
        pin.ok_or_else(|| {
            let wide = widths.map_or(String::new(), |(left, right)| {
                format!(" and {:.0} yd wide there", right - left)
            });
            let message = format!(
                "the pin of hole {} is not on the green, which is {:.0} yd deep{wide}",
                self.hole,
                depth.back_yd - depth.front_yd
            );
            self.fault(
                message,
                "count on from the front of the green, and in from its edge",
            )
        })
    }
}

/// Whether a hole can be cut there: the square yard of the pin is green if its middle is.
pub(super) fn can_be_cut(green: &Shape, pin: Point) -> bool {
    green.contains(Point {
        x_yd: pin.x_yd.floor() + 0.5,
        y_yd: pin.y_yd.floor() + 0.5,
    })
}

/// Step of the search for an edge, yards.
const STEP_YD: f64 = 0.25;
/// Steps that lead off every green.
const STEPS: u32 = 800;

/// From where to where a green reaches along the last leg of its line, through the end of the line.
struct Depth {
    front_yd: f64,
    back_yd: f64,
}

impl Depth {
    fn of(green: &Shape, line: &Line) -> Self {
        let end_yd = line.length_yd();
        Self {
            front_yd: end_yd - reach_yd(green, line, -1.0),
            back_yd: end_yd + reach_yd(green, line, 1.0),
        }
    }
}

/// How far a shape reaches from the end of a line, in its direction (1) or against it (−1), to a quarter of a yard.
pub(super) fn reach_yd(shape: &Shape, line: &Line, direction: f64) -> f64 {
    let at = |away_yd: f64| {
        let along_yd = line.length_yd() + direction * away_yd;
        line.point(Station {
            along_yd,
            side_yd: 0.0,
        })
    };
    steps(shape, &at)
}

/// How far one can go from a place before a shape ends, yards.
fn steps(shape: &Shape, at: &dyn Fn(f64) -> Point) -> f64 {
    let within = (1..STEPS).take_while(|step| shape.contains(at(STEP_YD * f64::from(*step))));
    STEP_YD * within.count() as f64
}

/// The left and right edge of a green across a place, yards from the line; none where the line is not on it there.
fn edges(green: &Shape, at: &dyn Fn(f64) -> Point) -> Option<(f64, f64)> {
    green.contains(at(0.0)).then(|| {
        let left = steps(green, &|yards| at(-yards));
        (-left, steps(green, &at))
    })
}
