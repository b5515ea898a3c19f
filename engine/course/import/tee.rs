//! Tees: which hole each belongs to, and the hole played from it.

use geo::{Coord, Euclidean, Length as _, LineString};
use serde::Serialize;

use super::ground::Tee;

/// A tee lies no farther from the start of its hole, yards; one that names its hole may lie farther.
const TEE_REACH_YD: f64 = 150.0;
const NAMED_TEE_REACH_YD: f64 = 250.0;
/// Points of the line no farther than this past a tee are left out when play starts there, yards.
const PAST_TEE_YD: f64 = 10.0;

/// A tee of a hole.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FoundTee {
    /// Its colours, lower case.
    pub colours: Vec<String>,
    /// Length of the hole from it, yards.
    pub length_yd: f64,
    /// Its middle on the plane of the course.
    #[serde(skip)]
    pub(super) middle: Coord<f64>,
}

/// The hole a tee belongs to: the one it names, when that starts near by, else the one that starts nearest.
pub(super) fn hole_of(tee: &Tee, starts: &[(u32, Coord<f64>)]) -> Option<u32> {
    let away = |start: Coord<f64>| (start.x - tee.middle.x).hypot(start.y - tee.middle.y);
    let named = starts.iter().find(|(number, start)| {
        tee.number == Some(i64::from(*number)) && away(*start) <= NAMED_TEE_REACH_YD
    });
    let nearest = || {
        starts
            .iter()
            .min_by(|a, b| away(a.1).total_cmp(&away(b.1)))
            .filter(|(_, start)| away(*start) <= TEE_REACH_YD)
    };
    named.or_else(nearest).map(|(number, _)| *number)
}

/// The tees of a hole whose line is known, the longest first.
pub(super) fn told(tees: &[&Tee], line: &LineString<f64>) -> Vec<FoundTee> {
    let tee = |tee: &&Tee| FoundTee {
        colours: tee.colours.clone(),
        length_yd: Euclidean.length(&from_tee(line, tee.middle)),
        middle: tee.middle,
    };
    let mut told: Vec<FoundTee> = tees.iter().map(tee).collect();
    told.sort_by(|a, b| {
        b.length_yd
            .total_cmp(&a.length_yd)
            .then(a.colours.cmp(&b.colours))
    });
    told
}

/// A line played from another tee: points behind the tee, or just past it, are left out.
pub(super) fn from_tee(line: &LineString<f64>, tee: Coord<f64>) -> LineString<f64> {
    let tee_along = along_yd(line, tee);
    let mut along = 0.0;
    let mut points = vec![tee];
    for (index, pair) in line.0.windows(2).enumerate() {
        along += (pair[1].x - pair[0].x).hypot(pair[1].y - pair[0].y);
        if along > tee_along + PAST_TEE_YD || index + 2 == line.0.len() {
            points.push(pair[1]);
        }
    }
    LineString(points)
}

/// How far along a line the place nearest to a point lies, yards.
fn along_yd(line: &LineString<f64>, point: Coord<f64>) -> f64 {
    let (mut start, mut best) = (0.0, (f64::INFINITY, 0.0));
    for pair in line.0.windows(2) {
        let (dx, dy) = (pair[1].x - pair[0].x, pair[1].y - pair[0].y);
        let length = dx.hypot(dy);
        let (px, py) = (point.x - pair[0].x, point.y - pair[0].y);
        let forward = ((px * dx + py * dy) / length.max(f64::MIN_POSITIVE)).clamp(0.0, length);
        let away = (px * px + py * py
            - 2.0 * forward * (px * dx + py * dy) / length.max(f64::MIN_POSITIVE))
            + forward * forward;
        if away < best.0 {
            best = (away, start + forward);
        }
        start += length;
    }
    best.1
}
