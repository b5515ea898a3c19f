//! Which end of a line is the tee.

use geo::{Coord, Distance, Euclidean, LineString, Point};
use serde::Serialize;

use super::ground::Ground;
use crate::units::Length;

/// An end this near a green or a pin is the end of the hole, metres.
const AT_GREEN_M: f64 = 15.0;
/// One end is nearer than the other when it is so by this, yards.
const NEARER_YD: f64 = 10.0;

/// What told which end of a line is the tee.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Rule {
    /// Only one end lies at a green.
    #[serde(rename = "green")]
    Green,
    /// Only one end lies at a pin.
    #[serde(rename = "pin")]
    Pin,
    /// One end lies nearer to a tee.
    #[serde(rename = "tee")]
    Tee,
    /// One end lies nearer to the next hole.
    #[serde(rename = "next hole")]
    NextHole,
    /// One end lies nearer to the hole before.
    #[serde(rename = "hole before")]
    HoleBefore,
    /// Nothing tells: it is taken as it is drawn, from tee to green.
    #[serde(rename = "as drawn")]
    AsDrawn,
    /// The line was made from tee to green.
    #[serde(rename = "made")]
    Made,
}

/// Which end of a line is the tee, and what told it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Direction {
    /// Whether the line is drawn from green to tee.
    pub is_reversed: bool,
    /// What told it.
    pub rule: Rule,
}

/// The ends of a numbered line.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ends {
    number: u32,
    ends: [Coord<f64>; 2],
}

impl Ends {
    pub(super) fn of(number: u32, line: &LineString<f64>) -> Self {
        let first = line.0.first().copied().unwrap_or_default();
        let last = line.0.last().copied().unwrap_or_default();
        Self {
            number,
            ends: [first, last],
        }
    }

    /// The distance from a point to the nearer end, yards.
    fn away_yd(&self, point: Coord<f64>) -> f64 {
        let [a, b] = self
            .ends
            .map(|end| (end.x - point.x).hypot(end.y - point.y));
        a.min(b)
    }
}

impl Direction {
    /// Of a line that was made from tee to green.
    pub(super) const fn made() -> Self {
        Self {
            is_reversed: false,
            rule: Rule::Made,
        }
    }

    /// Of a line on the map, among all holes of its course.
    pub(super) fn of(number: u32, line: &LineString<f64>, ground: &Ground, all: &[Ends]) -> Self {
        let ends = Ends::of(number, line).ends;
        let hole = |number: Option<u32>| all.iter().find(|hole| Some(hole.number) == number);
        let told = by_presence(ends.map(|end| is_at_green(end, ground)), Rule::Green)
            .or_else(|| by_presence(ends.map(|end| is_at_pin(end, ground)), Rule::Pin))
            .or_else(|| {
                // The tee is the start: the end nearer to a tee is the first one.
                let [first, last] = ends.map(|end| to_tee_yd(end, ground));
                by_nearness([last, first], Rule::Tee)
            })
            .or_else(|| {
                let next = hole(number.checked_add(1))?;
                by_nearness(ends.map(|end| next.away_yd(end)), Rule::NextHole)
            })
            .or_else(|| {
                let before = hole(number.checked_sub(1))?;
                let [first, last] = ends.map(|end| before.away_yd(end));
                by_nearness([last, first], Rule::HoleBefore)
            });
        told.unwrap_or(Self {
            is_reversed: false,
            rule: Rule::AsDrawn,
        })
    }

    /// What a reader should know.
    pub(super) fn warning(self, number: u32) -> Option<String> {
        let told = match self.rule {
            Rule::Green => "only its first point lies at a green",
            Rule::Pin => "only its first point lies at a pin",
            Rule::Tee => "its last point lies nearer to a tee",
            Rule::NextHole => "its first point lies nearer to the next hole",
            Rule::HoleBefore => "its last point lies nearer to the hole before",
            Rule::AsDrawn => {
                return Some(format!(
                    "nothing tells which end of hole {number} is the tee: it is taken as drawn"
                ));
            }
            Rule::Made => return None,
        };
        self.is_reversed.then(|| {
            format!("the line of hole {number} is drawn from green to tee and turned round: {told}")
        })
    }

    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self.rule {
            Rule::Green => "its end lies at a green",
            Rule::Pin => "its end lies at a pin",
            Rule::Tee => "its start lies nearer to a tee",
            Rule::NextHole => "its end lies nearer to the next hole",
            Rule::HoleBefore => "its start lies nearer to the hole before",
            Rule::AsDrawn => "as drawn, since nothing else tells",
            Rule::Made => "made from tee to green",
        }
    }
}

/// One end, and not the other, is the end of the hole.
fn by_presence([first, last]: [bool; 2], rule: Rule) -> Option<Direction> {
    (first != last).then_some(Direction {
        is_reversed: first,
        rule,
    })
}

/// The end of the hole is the one that lies nearer to something, first point or last.
fn by_nearness([first_yd, last_yd]: [f64; 2], rule: Rule) -> Option<Direction> {
    let apart = (first_yd - last_yd).abs() > NEARER_YD;
    apart.then_some(Direction {
        is_reversed: first_yd < last_yd,
        rule,
    })
}

fn is_at_green(point: Coord<f64>, ground: &Ground) -> bool {
    let near_yd = Length::from_m(AT_GREEN_M).yd();
    let mut greens = ground.greens.iter().filter(|green| !green.is_practice);
    greens.any(|green| Euclidean.distance(&Point(point), &green.outline) <= near_yd)
}

fn is_at_pin(point: Coord<f64>, ground: &Ground) -> bool {
    let near_yd = Length::from_m(AT_GREEN_M).yd();
    ground
        .pins
        .iter()
        .any(|pin| (pin.x - point.x).hypot(pin.y - point.y) <= near_yd)
}

/// The distance to the nearest tee, yards; infinite where there is none.
fn to_tee_yd(point: Coord<f64>, ground: &Ground) -> f64 {
    let away = ground.tees.iter().map(|tee| match &tee.outline {
        Some(outline) => Euclidean.distance(&Point(point), outline),
        None => (tee.middle.x - point.x).hypot(tee.middle.y - point.y),
    });
    away.fold(f64::INFINITY, f64::min)
}
