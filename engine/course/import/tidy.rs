//! Outlines as they stand in a course file: rounded to a tenth of a yard, with no more points than their shape needs,
//! and always in the same order, whichever way the map winds them.

use geo::{Area, BooleanOps, BoundingRect, Coord, LineString, Polygon, Rect, Simplify};

use crate::course::Point;
use crate::course::file::{MOST_ISLAND_POINTS, MOST_POINTS};
use crate::course::shape::{island_faults, outline_faults};

/// How far points may be moved off when an outline is simplified, yards: the first that keeps the area is taken.
const TOLERANCES_YD: [f64; 5] = [0.5, 0.3, 0.15, 0.07, 0.0];
/// How much simplifying may change an area, as a share.
const AREA_SHARE: f64 = 0.003;
/// Ground smaller than this is left out, square yards.
pub(super) const LEAST_SQ_YD: f64 = 3.0;

/// The part of an area that lies in a window.
pub(super) fn clipped(area: &Polygon<f64>, window: Rect<f64>) -> Vec<Polygon<f64>> {
    let Some(bounds) = area.bounding_rect() else {
        return Vec::new();
    };
    let inside = bounds.min().x >= window.min().x
        && bounds.min().y >= window.min().y
        && bounds.max().x <= window.max().x
        && bounds.max().y <= window.max().y;
    if inside {
        return vec![area.clone()];
    }
    area.intersection(&window.to_polygon())
        .into_iter()
        .collect()
}

/// The outline of an area and its islands, ready to be written: first the outline, then the islands. None when it is too
/// small, or too entangled to be written.
pub(super) fn rings(area: &Polygon<f64>) -> Option<Vec<Vec<Point>>> {
    if area.unsigned_area() < LEAST_SQ_YD {
        return None;
    }
    written(area).or_else(|| {
        let largest = largest_part(area)?;
        written(&largest).or_else(|| written(&Polygon::new(largest.exterior().clone(), Vec::new())))
    })
}

/// An area without its islands and without whatever its outline cuts off by crossing itself.
pub(super) fn solid(area: &Polygon<f64>) -> Polygon<f64> {
    let points: Vec<Point> = area
        .exterior()
        .0
        .iter()
        .skip(1)
        .map(|point| Point {
            x_yd: point.x,
            y_yd: point.y,
        })
        .collect();
    let whole = Polygon::new(area.exterior().clone(), Vec::new());
    if outline_faults(&points).is_empty() {
        return whole;
    }
    let largest = largest_part(&whole).unwrap_or(whole);
    Polygon::new(largest.exterior().clone(), Vec::new())
}

/// The largest part of an area whose outline crosses itself.
fn largest_part(area: &Polygon<f64>) -> Option<Polygon<f64>> {
    let parts = area.union(&Polygon::new(LineString(Vec::new()), Vec::new()));
    parts
        .into_iter()
        .max_by(|a, b| a.unsigned_area().total_cmp(&b.unsigned_area()))
}

/// The simplest sound form of an area that keeps its size.
fn written(area: &Polygon<f64>) -> Option<Vec<Vec<Point>>> {
    let islands = area
        .interiors()
        .iter()
        .filter(|ring| ring_sq_yd(ring) >= LEAST_SQ_YD);
    let rings: Vec<LineString<f64>> = std::iter::once(area.exterior())
        .chain(islands)
        .map(in_order)
        .collect();
    let true_sq_yd = ring_sq_yd(&rings[0]) - rings[1..].iter().map(ring_sq_yd).sum::<f64>();
    let mut sound = None;
    for tolerance in TOLERANCES_YD {
        let candidate: Vec<LineString<f64>> =
            rings.iter().map(|ring| ring.simplify(tolerance)).collect();
        let points: Vec<Vec<Point>> = candidate.iter().map(rounded).collect();
        if !is_sound(&points) {
            continue;
        }
        let sq_yd = ring_sq_yd(&candidate[0]) - candidate[1..].iter().map(ring_sq_yd).sum::<f64>();
        if (sq_yd - true_sq_yd).abs() <= AREA_SHARE * true_sq_yd {
            return Some(points);
        }
        sound = Some(points);
    }
    sound
}

/// A ring from its lowest point on, against the clock, so that the same ground is always written the same.
fn in_order(ring: &LineString<f64>) -> LineString<f64> {
    let mut points = ring.0.clone();
    points.dedup();
    if points.len() > 1 && points.first() == points.last() {
        points.pop();
    }
    if signed_sq_yd(&points) < 0.0 {
        points.reverse();
    }
    let lowest = (0..points.len()).min_by(|a, b| {
        let (a, b) = (points[*a], points[*b]);
        a.y.total_cmp(&b.y).then(a.x.total_cmp(&b.x))
    });
    points.rotate_left(lowest.unwrap_or(0));
    points.extend(points.first().copied());
    LineString(points)
}

fn signed_sq_yd(points: &[Coord<f64>]) -> f64 {
    let sides = points.iter().zip(points.iter().cycle().skip(1));
    sides.map(|(a, b)| a.x * b.y - b.x * a.y).sum::<f64>() / 2.0
}

fn ring_sq_yd(ring: &LineString<f64>) -> f64 {
    signed_sq_yd(&ring.0).abs()
}

/// A ring in tenths of a yard, without its first point again at the end.
fn rounded(ring: &LineString<f64>) -> Vec<Point> {
    let mut points: Vec<Point> = ring.0.iter().map(|point| rounded_point(*point)).collect();
    points.dedup();
    if points.len() > 1 && points.first() == points.last() {
        points.pop();
    }
    points
}

/// A point in tenths of a yard.
pub(super) fn rounded_point(point: Coord<f64>) -> Point {
    // Adding zero turns −0 into 0.
    let tenth = |value: f64| (value * 10.0).round() / 10.0 + 0.0;
    Point {
        x_yd: tenth(point.x),
        y_yd: tenth(point.y),
    }
}

/// Whether a course file may hold such rings.
fn is_sound(rings: &[Vec<Point>]) -> bool {
    rings.iter().all(|ring| ring.len() <= MOST_POINTS)
        && rings[1..].iter().map(Vec::len).sum::<usize>() <= MOST_ISLAND_POINTS
        && outline_faults(&rings[0]).is_empty()
        && island_faults(&rings[0], &rings[1..]).is_empty()
}
