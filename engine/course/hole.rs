//! A hole as the rounds play it.

use super::grid::LieGrid;
use crate::ball::{air::Air, turf::Firmness};

/// A point of a hole: x right of the line of play, y along it from the tee, in yards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Right of the line of play, yards.
    pub x_yd: f64,
    /// Along the line of play from the tee, yards.
    pub y_yd: f64,
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

/// One hole.
#[derive(Debug, Clone, PartialEq)]
pub struct Hole {
    /// Number on the card.
    pub number: u32,
    /// Par.
    pub par: u8,
    /// Stroke index, when the file gives one.
    pub stroke_index: Option<u8>,
    /// Length along the line of play, yards.
    pub length_yd: f64,
    /// Line of play from the tee to the middle of the green, with doglegs.
    pub line: Vec<Point>,
    /// The tee.
    pub tee: Point,
    /// The hole in the green.
    pub pin: Point,
    /// The lies.
    pub grid: LieGrid,
    /// The green's surface.
    pub green: Green,
    /// Firmness of fairway and rough.
    pub firmness: Firmness,
    /// Height of the green over the tee, yards.
    pub rise_yd: f64,
    /// The air; its wind is turned so that 0 comes from +y.
    pub air: Air,
}

/// A course.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    /// Name as it is shown.
    pub name: String,
    /// The holes in order of play.
    pub holes: Vec<Hole>,
}
