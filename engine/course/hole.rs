//! A hole as the rounds play it.

use std::ops::Range;

use super::grid::LieGrid;
use super::rating::Ratings;
use crate::ball::{air::Air, turf::Firmness};
use crate::files::Source;

/// A point of a hole: x right of the line of play, y along it from the tee, in yards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Right of the line of play, yards.
    pub x_yd: f64,
    /// Along the line of play from the tee, yards.
    pub y_yd: f64,
}

impl Point {
    /// The point on the other side of the line x = 0.
    #[must_use]
    pub fn mirrored(self) -> Self {
        Self {
            x_yd: -self.x_yd,
            ..self
        }
    }
}

/// A green's surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Green {
    /// Firmness of the turf.
    pub firmness: Firmness,
    /// Stimpmeter reading, feet.
    pub stimp_ft: f64,
    /// Slope along the last leg of the line of play, percent; positive rises away from the player.
    pub slope_along_pct: f64,
    /// Slope across it, percent; positive rises to the right.
    pub slope_across_pct: f64,
}

/// A script that a course file names for its rules.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RuleFile {
    /// As it is written there: a path counted from the folder of the file, or `demo:NAME.rhai`.
    pub name: String,
    /// The course file.
    pub source: Source,
    /// Where it names the script.
    pub span: Range<usize>,
}

/// A set of tees: those of one name on every hole.
#[derive(Debug, Clone, PartialEq)]
pub struct TeeSet {
    /// Its name, as `white`.
    pub name: String,
    /// The ratings the file states from these tees.
    pub ratings: Ratings,
}

/// A hole from one set of tees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HoleTee {
    /// Length along the line of play from there, yards.
    pub length_yd: f64,
    /// Par from there.
    pub par: u8,
}

/// One hole.
#[derive(Debug, Clone, PartialEq)]
pub struct Hole {
    /// Number on the card.
    pub number: u32,
    /// Par from the tee played from.
    pub par: u8,
    /// Stroke index, when the file gives one.
    pub stroke_index: Option<u8>,
    /// Length along the line of play from the tee played from, yards.
    pub length_yd: f64,
    /// The hole from each set of tees, in the order of the course's; none where the course names no tees.
    pub tees: Vec<HoleTee>,
    /// Line of play from the tee to the middle of the green, with doglegs.
    pub line: Vec<Point>,
    /// The tee played from.
    pub tee: Point,
    /// The hole in the green.
    pub pin: Point,
    /// The lies.
    pub grid: LieGrid,
    /// The green's surface.
    pub green: Green,
    /// Firmness of fairway and rough.
    pub firmness: Firmness,
    /// Rise of the ground along the line of play, a share of the distance: the height of the green over the hole's own
    /// tee by the length from there. The ground is as steep from other tees.
    pub grade: f64,
    /// The air; its wind is turned so that 0 comes from +y.
    pub air: Air,
    /// Scripts of its own rules.
    pub rules: Vec<RuleFile>,
}

impl Hole {
    /// The hole with left and right exchanged, its slopes and wind too.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        Self {
            line: self.line.iter().map(|point| point.mirrored()).collect(),
            tee: self.tee.mirrored(),
            pin: self.pin.mirrored(),
            grid: self.grid.mirrored(),
            green: Green {
                slope_across_pct: -self.green.slope_across_pct,
                ..self.green
            },
            air: Air {
                wind_from: -self.air.wind_from,
                ..self.air
            },
            rules: self.rules.clone(),
            tees: self.tees.clone(),
            ..*self
        }
    }
}

/// A course.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    /// Name as it is shown.
    pub name: String,
    /// The course in words, when the file describes it.
    pub description: Option<String>,
    /// The sets of tees, in the order of the file; none where it names none.
    pub tees: Vec<TeeSet>,
    /// Which of them the holes are played from.
    pub played_from: Option<usize>,
    /// The ratings the file states from the tees played from.
    pub ratings: Ratings,
    /// Scripts of the rules of every hole that has none of its own.
    pub rules: Vec<RuleFile>,
    /// The holes in order of play.
    pub holes: Vec<Hole>,
}

impl Course {
    /// The course with left and right exchanged.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        Self {
            holes: self.holes.iter().map(Hole::mirrored).collect(),
            ..self.clone()
        }
    }

    /// The name of the tees the holes are played from; none where the course names no tees.
    #[must_use]
    pub fn tees_name(&self) -> Option<&str> {
        Some(self.tees.get(self.played_from?)?.name.as_str())
    }

    /// Par of all holes together.
    #[must_use]
    pub fn par(&self) -> u32 {
        self.holes.iter().map(|hole| u32::from(hole.par)).sum()
    }

    /// Length of all holes together, yards.
    #[must_use]
    pub fn length_yd(&self) -> f64 {
        self.holes.iter().map(|hole| hole.length_yd).sum()
    }
}
