//! What makes a hole hard: what a golfer would save on it without each thing that is in his way.

use serde::Serialize;

use crate::ball::turf::Firmness;
use crate::cost::ByRules;
use crate::course::line::{Line, Station};
use crate::course::{Course, Hole, Lie, LieGrid};
use crate::player::Golfer;
use crate::units::Speed;

use super::expected;

/// Less is not told, strokes.
const LEAST: f64 = 0.03;
/// The share of its length that a hole is made shorter by.
const SHORTER: f64 = 0.1;

/// Something in the way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum What {
    /// Water.
    Water,
    /// Out of bounds.
    #[serde(rename = "out of bounds")]
    OutOfBounds,
    /// Bunkers.
    Sand,
    /// Trees, scrub or heath.
    Trees,
    /// Rough: fairway in its place.
    Rough,
    /// A tenth of its length.
    Length,
    /// The wind.
    Wind,
    /// Turf firmer than medium.
    #[serde(rename = "firm turf")]
    Firm,
    /// The climb from the tee to the green.
    Climb,
}

impl What {
    /// All of them.
    const ALL: [Self; 9] = [
        Self::Water,
        Self::OutOfBounds,
        Self::Sand,
        Self::Trees,
        Self::Rough,
        Self::Length,
        Self::Wind,
        Self::Firm,
        Self::Climb,
    ];

    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Water => "water",
            Self::OutOfBounds => "out of bounds",
            Self::Sand => "sand",
            Self::Trees => "trees",
            Self::Rough => "rough",
            Self::Length => "length",
            Self::Wind => "wind",
            Self::Firm => "firm turf",
            Self::Climb => "climb",
        }
    }

    /// The hole without it; none where it has none of it.
    fn taken_off(self, hole: &Hole) -> Option<Hole> {
        match self {
            Self::Water => turned(hole, Lie::Water, Lie::Rough),
            Self::OutOfBounds => turned(hole, Lie::OutOfBounds, Lie::Rough),
            Self::Sand => turned(hole, Lie::Sand, Lie::Rough),
            Self::Trees => turned(hole, Lie::Trees, Lie::Rough),
            Self::Rough => turned(hole, Lie::Rough, Lie::Fairway),
            Self::Length => shorter(hole),
            Self::Wind => (hole.air.wind.mph() > 0.0).then(|| {
                let mut calm = hole.clone();
                calm.air.wind = Speed::from_mph(0.0);
                calm
            }),
            Self::Firm => {
                let medium = Firmness::MEDIUM;
                let is_firm = hole.firmness > medium || hole.green.firmness > medium;
                is_firm.then(|| {
                    let mut soft = hole.clone();
                    for firmness in [&mut soft.firmness, &mut soft.green.firmness] {
                        if *firmness > medium {
                            *firmness = medium;
                        }
                    }
                    soft
                })
            }
            Self::Climb => (hole.grade > 0.0).then(|| Hole {
                grade: 0.0,
                ..hole.clone()
            }),
        }
    }
}

/// Something that makes a hole hard.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Cause {
    /// What.
    pub what: What,
    /// Strokes the golfer would save without it.
    pub strokes: f64,
}

/// What makes each hole hard for a golfer who expects so many strokes on it: each thing by itself, the costliest first.
pub(super) fn causes(
    (course, rules): ByRules<'_>,
    golfer: &Golfer,
    now: &[f64],
) -> Vec<Vec<Cause>> {
    let holes = course.holes.iter().enumerate();
    let without = |(index, hole): (usize, &Hole)| -> Vec<(usize, What, Hole)> {
        let each = What::ALL.into_iter();
        each.filter_map(|what| Some((index, what, what.taken_off(hole)?)))
            .collect()
    };
    let easier: Vec<(usize, What, Hole)> = holes.flat_map(without).collect();
    let places: Vec<usize> = easier.iter().map(|(index, _, _)| *index).collect();
    let easy = Course {
        holes: easier.iter().map(|(_, _, hole)| hole.clone()).collect(),
        ..course.clone()
    };
    let then = expected(&easy, golfer, &rules.of_places(&places));
    let mut all = vec![Vec::new(); course.holes.len()];
    for ((index, what, _), then) in easier.into_iter().zip(then) {
        let strokes = now[index] - then;
        if strokes >= LEAST {
            all[index].push(Cause { what, strokes });
        }
    }
    for causes in &mut all {
        causes.sort_by(|a: &Cause, b: &Cause| b.strokes.total_cmp(&a.strokes));
    }
    all
}

/// The hole from a tee that stands farther up its line of play, the ground as it is; none where that would be in a
/// hazard.
fn shorter(hole: &Hole) -> Option<Hole> {
    let line = Line::through(&hole.line)?;
    let cut_yd = SHORTER * hole.length_yd;
    let tee = line.point(Station {
        along_yd: cut_yd,
        side_yd: 0.0,
    });
    let lie = hole.grid.lie(tee.x_yd, tee.y_yd);
    let is_free = !matches!(lie, Lie::Water | Lie::Sand | Lie::OutOfBounds | Lie::Green);
    is_free.then_some(())?;
    Some(Hole {
        length_yd: hole.length_yd - cut_yd,
        line: line.started_at(tee, 0.0)?.points(),
        tee,
        ..hole.clone()
    })
}

/// The hole with another lie in place of one; none where it has none of it.
fn turned(hole: &Hole, lie: Lie, into: Lie) -> Option<Hole> {
    let grid = &hole.grid;
    if !grid.lies.contains(&lie) {
        return None;
    }
    let turn = |known: &Lie| if *known == lie { into } else { *known };
    let lies = grid.lies.iter().map(turn).collect();
    Some(Hole {
        grid: LieGrid::new(grid.left_yd, grid.near_yd, grid.columns, lies),
        ..hole.clone()
    })
}
