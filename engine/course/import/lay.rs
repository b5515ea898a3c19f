//! A hole as it stands in a course file: tee at the origin, line of play along +y, and the ground around it.

use std::cmp::Ordering;

use geo::{
    Area, BoundingRect, Contains, Coord, Distance, Euclidean, LineString, MapCoords, Polygon, Rect,
};

use super::find::FoundHole;
use super::free::{is_covered, keep_free, warn_of_waste};
use super::ground::Ground;
use super::pieces::{Piece, pieces};
use super::tidy;
use crate::course::line::Line;
use crate::course::plan::MOST_CELLS;
use crate::course::shape::Shape;
use crate::course::{Lie, Point};

/// Ground taken to the sides of the line of play, yards: the widest that keeps the hole's grid within bounds.
const SIDES_YD: [f64; 3] = [80.0, 55.0, 30.0];
/// Ground taken behind the tee and beyond the end of the line, yards.
const BEHIND_YD: f64 = 40.0;
const BEYOND_YD: f64 = 60.0;
/// What the grid adds around the farthest area: to both sides, and behind and beyond together, yards.
const GRID_SIDES_YD: f64 = 122.0;
const GRID_ENDS_YD: f64 = 82.0;
/// Half the width of a fairway that is made up, and the width of rough beside it, yards: no wider than this.
const CORRIDOR_YD: f64 = 20.0;
/// A hole is no shorter than this from any tee, yards.
const SHORTEST_YD: f64 = 45.0;
/// The most areas written for one hole; a course file may have 200.
const MOST_AREAS: usize = 190;
/// Points of a line nearer to each other than this are one, yards.
const LEAST_LEG_YD: f64 = 1.0;
/// Where a fairway is looked for along the line: from the tee, to the green, and every so many yards.
const FAIRWAY_FROM_YD: f64 = 100.0;
const FAIRWAY_TO_YD: f64 = 40.0;
const FAIRWAY_STEP_YD: f64 = 5.0;
/// A line that runs on fairway for less than this share has none on the map.
const LEAST_FAIRWAY: f64 = 0.05;

/// An area of a hole.
#[derive(Debug, Clone, PartialEq)]
pub struct LaidArea {
    /// Its lie.
    pub lie: Lie,
    /// What it is on the map, where its middle lies, and its name there.
    pub origin: String,
    /// Its outline, then its islands.
    pub rings: Vec<Vec<Point>>,
}

/// A tee of a hole.
#[derive(Debug, Clone, PartialEq)]
pub struct LaidTee {
    /// Its colours, lower case.
    pub colours: Vec<String>,
    /// Where it stands.
    pub point: Point,
}

/// A hole laid out, all in yards from the tee.
#[derive(Debug, Clone, PartialEq)]
pub struct LaidHole {
    /// Compass direction of the first leg, degrees.
    pub bearing_deg: f64,
    /// The line of play.
    pub line: Vec<Point>,
    /// Its tees with colours, the longest first; those that hazards cover are left out.
    pub tees: Vec<LaidTee>,
    /// The green's outline; none where it is made up.
    pub green: Option<Vec<Point>>,
    /// The ground around, what covers the rest first.
    pub areas: Vec<LaidArea>,
    /// Whether a fairway must be made up, since none is drawn.
    pub is_fairway_assumed: bool,
}

/// A tee in the frame of its hole, with its colours.
type FramedTee = (Vec<String>, Coord<f64>);

/// Lays a hole out; what is odd about the ground goes to its warnings.
pub(super) fn lay(hole: &mut FoundHole, ground: &Ground) -> Result<LaidHole, String> {
    hole.line = steady(&hole.line);
    let (frame, bearing_deg) = Frame::of(&hole.line);
    let line = frame.line(&hole.line);
    let green = hole.green.as_ref().map(|green| frame.polygon(green));
    let mut tees = frame.tees(hole);
    let own_window = window(&line, &tees, green.as_ref()).or_else(|| {
        // A tee far off must not cost the hole.
        tees.clear();
        window(&line, &tees, green.as_ref())
    });
    let window =
        own_window.ok_or_else(|| "its line takes more ground than a hole may".to_owned())?;
    let mut pieces = pieces(ground, &frame, &line, green.as_ref(), window);
    keep_free(&mut pieces, &line, green.as_ref(), hole);
    warn_of_waste(&pieces, hole);
    let tees = laid_tees(tees, &pieces, &line, green.as_ref());
    let is_fairway_assumed = hole.par > 3 && !has_fairway(&pieces, &line);
    if is_fairway_assumed {
        hole.warnings.push(format!(
            "no fairway is drawn along hole {}: one of ordinary width is made up",
            hole.number
        ));
    }
    let outline = green
        .as_ref()
        .map(|green| green_outline(green, &line))
        .transpose()?;
    Ok(LaidHole {
        bearing_deg,
        line: line
            .0
            .iter()
            .map(|point| tidy::rounded_point(*point))
            .collect(),
        tees,
        green: outline,
        areas: areas(pieces, &line, hole),
        is_fairway_assumed,
    })
}

/// A line without the points that lie right beside the one before: they are no turns, and would decide its direction.
fn steady(line: &LineString<f64>) -> LineString<f64> {
    let Some((last, before)) = line.0.split_last() else {
        return line.clone();
    };
    let is_off =
        |from: &Coord<f64>, to: &Coord<f64>| (to.x - from.x).hypot(to.y - from.y) >= LEAST_LEG_YD;
    let mut kept: Vec<Coord<f64>> = Vec::new();
    for point in before {
        if kept.last().is_none_or(|known| is_off(known, point)) {
            kept.push(*point);
        }
    }
    // The first point is the tee, the last the hole: both stay.
    while kept.len() > 1 && kept.last().is_some_and(|known| !is_off(known, last)) {
        kept.pop();
    }
    kept.push(*last);
    LineString(kept)
}

/// The green as it is written; the line must still end on it.
fn green_outline(green: &Polygon<f64>, line: &LineString<f64>) -> Result<Vec<Point>, String> {
    let entangled = || "the outline of its green is entangled".to_owned();
    let outline = tidy::rings(green).ok_or_else(entangled)?.swap_remove(0);
    let end = tidy::rounded_point(line.0.last().copied().unwrap_or_default());
    let holds = Shape::Outline(outline.clone()).contains(end);
    if holds { Ok(outline) } else { Err(entangled()) }
}

/// From the plane of the course to that of a hole.
pub(super) struct Frame {
    tee: Coord<f64>,
    sin: f64,
    cos: f64,
}

impl Frame {
    /// The frame of a line, and the compass direction of its first leg.
    fn of(line: &LineString<f64>) -> (Self, f64) {
        let tee = line.0.first().copied().unwrap_or_default();
        let next = line.0.get(1).copied().unwrap_or_default();
        let bearing = (next.x - tee.x).atan2(next.y - tee.y);
        let (sin, cos) = bearing.sin_cos();
        let tenths = (bearing.to_degrees().rem_euclid(360.0) * 10.0).round() / 10.0;
        (Self { tee, sin, cos }, tenths.rem_euclid(360.0))
    }

    fn point(&self, point: Coord<f64>) -> Coord<f64> {
        let (dx, dy) = (point.x - self.tee.x, point.y - self.tee.y);
        Coord {
            x: dx * self.cos - dy * self.sin,
            y: dx * self.sin + dy * self.cos,
        }
    }

    /// The tees of a hole that have colours.
    fn tees(&self, hole: &FoundHole) -> Vec<FramedTee> {
        let tees = hole.tees.iter().filter(|tee| !tee.colours.is_empty());
        tees.map(|tee| (tee.colours.clone(), self.point(tee.middle)))
            .collect()
    }

    pub(super) fn line(&self, line: &LineString<f64>) -> LineString<f64> {
        line.map_coords(|point| self.point(point))
    }

    pub(super) fn polygon(&self, polygon: &Polygon<f64>) -> Polygon<f64> {
        polygon.map_coords(|point| self.point(point))
    }
}

/// The tees a hole may be played from: not covered by hazards or the green, and no nearer to it than a hole is long.
fn laid_tees(
    tees: Vec<FramedTee>,
    pieces: &[Piece],
    line: &LineString<f64>,
    green: Option<&Polygon<f64>>,
) -> Vec<LaidTee> {
    let end = line.0.last().copied().unwrap_or_default();
    let is_free = |(_, tee): &FramedTee| {
        let away = (tee.x - end.x).hypot(tee.y - end.y);
        let on_green = green.is_some_and(|green| green.contains(tee));
        !is_covered(pieces, Some(tee)) && !on_green && away >= SHORTEST_YD
    };
    let laid = |(colours, tee): FramedTee| LaidTee {
        colours,
        point: tidy::rounded_point(tee),
    };
    tees.into_iter().filter(is_free).map(laid).collect()
}

/// The ground taken around a line; none when even the narrowest is too much for a grid.
fn window(
    line: &LineString<f64>,
    tees: &[FramedTee],
    green: Option<&Polygon<f64>>,
) -> Option<(Rect<f64>, f64)> {
    let bounds = line.bounding_rect()?;
    let with_tees = tees
        .iter()
        .map(|(_, tee)| *tee)
        .chain(line.0.iter().copied());
    let whole = LineString::from_iter(with_tees).bounding_rect()?;
    let around = |side_yd: f64| {
        let low = (bounds.min().x - side_yd, bounds.min().y - BEHIND_YD);
        let high = (bounds.max().x + side_yd, bounds.max().y + BEYOND_YD);
        (Rect::new(low, high), side_yd)
    };
    // The grid also covers the corridor along every leg, and the green.
    let reach_yd = green_reach_yd(line, green);
    let corridor_yd = reach_yd.max(CORRIDOR_YD) + CORRIDOR_YD;
    let fits = |(_, side_yd): &(Rect<f64>, f64)| {
        let across = whole.width() + 2.0 * side_yd.max(corridor_yd) + GRID_SIDES_YD;
        let ends = BEHIND_YD.max(corridor_yd) + BEYOND_YD.max(corridor_yd);
        across * (whole.height() + ends + GRID_ENDS_YD) <= MOST_CELLS
    };
    SIDES_YD.into_iter().map(around).find(fits)
}

/// How far a green reaches from the end of a line, yards.
fn green_reach_yd(line: &LineString<f64>, green: Option<&Polygon<f64>>) -> f64 {
    let end = line.0.last().copied().unwrap_or_default();
    green
        .and_then(BoundingRect::bounding_rect)
        .map_or(0.0, |bounds| {
            let sides = [
                end.x - bounds.min().x,
                bounds.max().x - end.x,
                end.y - bounds.min().y,
                bounds.max().y - end.y,
            ];
            sides.into_iter().fold(0.0, f64::max)
        })
}

/// Whether the line of play runs over any fairway.
fn has_fairway(pieces: &[Piece], line: &LineString<f64>) -> bool {
    let fairways: Vec<&Polygon<f64>> = pieces
        .iter()
        .filter(|piece| piece.lie == Lie::Fairway)
        .map(|piece| &piece.outline)
        .collect();
    let (mut on, mut all, mut along_yd) = (0_u32, 0_u32, 0.0);
    let length_yd: f64 = geo::Length::length(&Euclidean, line);
    for pair in line.0.windows(2) {
        let (dx, dy) = (pair[1].x - pair[0].x, pair[1].y - pair[0].y);
        let leg_yd = dx.hypot(dy);
        let mut step_yd = 0.0;
        while step_yd < leg_yd {
            let here_yd = along_yd + step_yd;
            if (FAIRWAY_FROM_YD..=length_yd - FAIRWAY_TO_YD).contains(&here_yd) {
                let share = step_yd / leg_yd;
                let point = Coord {
                    x: pair[0].x + share * dx,
                    y: pair[0].y + share * dy,
                };
                all += 1;
                on += u32::from(fairways.iter().any(|fairway| fairway.contains(&point)));
            }
            step_yd += FAIRWAY_STEP_YD;
        }
        along_yd += leg_yd;
    }
    f64::from(on) > LEAST_FAIRWAY * f64::from(all)
}

/// The pieces as areas of the file: what lies over the others first, the smaller of one kind before the larger.
fn areas(mut pieces: Vec<Piece>, line: &LineString<f64>, hole: &mut FoundHole) -> Vec<LaidArea> {
    let away = |piece: &Piece| Euclidean.distance(&piece.outline, line);
    if pieces.len() > MOST_AREAS {
        pieces.sort_by(|a, b| away(a).total_cmp(&away(b)));
        let most = pieces.len() - MOST_AREAS;
        let number = hole.number;
        hole.warnings.push(format!(
            "the {most} areas farthest from hole {number} are left out"
        ));
        pieces.truncate(MOST_AREAS);
    }
    pieces.sort_by(|a, b| {
        a.rank.cmp(&b.rank).then_with(|| {
            a.size_and_place()
                .partial_cmp(&b.size_and_place())
                .unwrap_or(Ordering::Equal)
        })
    });
    let stations = Line::through(
        &line
            .0
            .iter()
            .map(|point| tidy::rounded_point(*point))
            .collect::<Vec<_>>(),
    );
    let mut entangled = 0;
    let mut laid = Vec::new();
    for piece in pieces {
        // An outline loses its islands where they cannot be written; the one that was cut out round a tee must stay.
        let covers = |rings: &Vec<Vec<Point>>| {
            let written = Shape::Islands(rings.clone());
            let mut ends = [line.0.first(), line.0.last()].into_iter().flatten();
            piece.is_hazard() && ends.any(|end| written.contains(tidy::rounded_point(*end)))
        };
        match tidy::rings(&piece.outline).filter(|rings| !covers(rings)) {
            Some(rings) => laid.push(LaidArea {
                lie: piece.lie,
                origin: piece.told(stations.as_ref()),
                rings,
            }),
            None => entangled += usize::from(piece.outline.unsigned_area() >= tidy::LEAST_SQ_YD),
        }
    }
    if entangled > 0 {
        let number = hole.number;
        hole.warnings.push(format!(
            "areas beside hole {number} left out, since their outlines are entangled: {entangled}"
        ));
    }
    laid
}
