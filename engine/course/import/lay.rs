//! A hole as it stands in a course file: tee at the origin, line of play along +y, and the ground around it.

use geo::{
    Area, BooleanOps, BoundingRect, Contains, Coord, Distance, Euclidean, Intersects, LineString,
    MapCoords, Point as GeoPoint, Polygon, Rect,
};

use super::find::{FoundHole, sq_m};
use super::ground::{Ground, merged, shared_sq_yd};
use super::kind::Kind;
use super::map::Id;
use super::tidy;
use crate::course::plan::MOST_CELLS;
use crate::course::{Lie, Point};

/// Ground taken to the sides of the line of play, yards: the widest that keeps the hole's grid within bounds.
const SIDES_YD: [f64; 3] = [80.0, 55.0, 30.0];
/// Ground taken behind the tee and beyond the end of the line, yards.
const BEHIND_YD: f64 = 40.0;
const BEYOND_YD: f64 = 60.0;
/// What the grid adds around the farthest area: to both sides, and behind and beyond together, yards.
const GRID_SIDES_YD: f64 = 122.0;
const GRID_ENDS_YD: f64 = 82.0;
/// The most areas written for one hole; a course file may have 200.
const MOST_AREAS: usize = 190;
/// Half the width and depth of the ground kept free at the tee, yards.
const HALF_TEE_YD: f64 = 5.0;
/// Hazards may cover this share of a green; more is cut out of them.
const COVERED_SHARE: f64 = 0.2;
/// Hazards are kept this far off the hole in the green, yards.
const OFF_PIN_YD: f64 = 1.5;
/// A bunker larger than this is a waste area, square metres. Measured medians are 31 to 140 m² (public extracts).
const WASTE_SQ_M: f64 = 5000.0;
/// A boundary shuts off this much ground, yards.
const BOUNDARY_DEPTH_YD: f64 = 300.0;
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
    /// What it is on the map, and its name there.
    pub origin: String,
    /// Its outline, then its islands.
    pub rings: Vec<Vec<Point>>,
}

/// A hole laid out, all in yards from the tee.
#[derive(Debug, Clone, PartialEq)]
pub struct LaidHole {
    /// Compass direction of the first leg, degrees.
    pub bearing_deg: f64,
    /// The line of play.
    pub line: Vec<Point>,
    /// The green's outline; none where it is made up.
    pub green: Option<Vec<Point>>,
    /// The ground around, what covers the rest first.
    pub areas: Vec<LaidArea>,
    /// Whether a fairway must be made up, since none is drawn.
    pub is_fairway_assumed: bool,
}

/// An area on its way into the file.
struct Piece {
    kind: Kind,
    lie: Lie,
    /// Order in the file: among areas of one layer the one listed first covers the others.
    rank: u8,
    origin: String,
    outline: Polygon<f64>,
}

/// The lie and rank of a kind; none for what is no area.
const fn lie_of(kind: Kind) -> Option<(Lie, u8)> {
    Some(match kind {
        Kind::OutOfBounds => (Lie::OutOfBounds, 0),
        Kind::Bunker | Kind::Sand => (Lie::Sand, 1),
        Kind::Water => (Lie::Water, 1),
        Kind::Tee => (Lie::Tee, 2),
        Kind::Fairway => (Lie::Fairway, 3),
        Kind::Tree => (Lie::Trees, 4),
        Kind::Rough => (Lie::Rough, 5),
        Kind::Wood => (Lie::Trees, 6),
        _ => return None,
    })
}

/// Lays a hole out; what is odd about the ground goes to its warnings.
pub(super) fn lay(hole: &mut FoundHole, ground: &Ground) -> Result<LaidHole, String> {
    let (frame, bearing_deg) = Frame::of(&hole.line);
    let line = frame.line(&hole.line);
    let green = hole.green.as_ref().map(|green| frame.polygon(green));
    let window =
        window(&line).ok_or_else(|| "its line takes more ground than a hole may".to_owned())?;
    let mut pieces = pieces(ground, &frame, &line, green.as_ref(), window);
    keep_free(&mut pieces, &line, green.as_ref(), hole);
    warn_of_waste(&pieces, hole);
    let is_fairway_assumed = hole.par > 3 && !has_fairway(&pieces, &line);
    if is_fairway_assumed {
        hole.warnings.push(format!(
            "no fairway is drawn along hole {}: one of ordinary width is made up",
            hole.number
        ));
    }
    let outline = match &green {
        None => None,
        Some(green) => Some(
            tidy::rings(green)
                .ok_or("the outline of its green is entangled")?
                .swap_remove(0),
        ),
    };
    Ok(LaidHole {
        bearing_deg,
        line: line
            .0
            .iter()
            .map(|point| tidy::rounded_point(*point))
            .collect(),
        green: outline,
        areas: areas(pieces, &line, hole),
        is_fairway_assumed,
    })
}

/// From the plane of the course to that of a hole.
struct Frame {
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

    fn line(&self, line: &LineString<f64>) -> LineString<f64> {
        line.map_coords(|point| self.point(point))
    }

    fn polygon(&self, polygon: &Polygon<f64>) -> Polygon<f64> {
        polygon.map_coords(|point| self.point(point))
    }
}

/// The ground taken around a line; none when even the narrowest is too much.
fn window(line: &LineString<f64>) -> Option<(Rect<f64>, f64)> {
    let bounds = line.bounding_rect()?;
    let around = |side_yd: f64| {
        let low = (bounds.min().x - side_yd, bounds.min().y - BEHIND_YD);
        let high = (bounds.max().x + side_yd, bounds.max().y + BEYOND_YD);
        (Rect::new(low, high), side_yd)
    };
    let fits = |(rect, _): &(Rect<f64>, f64)| {
        (rect.width() + GRID_SIDES_YD) * (rect.height() + GRID_ENDS_YD) <= MOST_CELLS
    };
    SIDES_YD.into_iter().map(around).find(fits)
}

/// Everything within reach of a line, cut to the window.
fn pieces(
    ground: &Ground,
    frame: &Frame,
    line: &LineString<f64>,
    green: Option<&Polygon<f64>>,
    window: (Rect<f64>, f64),
) -> Vec<Piece> {
    let mut pieces = Vec::new();
    let mut add = |kind: Kind, id: Option<Id>, what: &str, outline: &Polygon<f64>| {
        let Some((lie, rank)) = lie_of(kind) else {
            return;
        };
        for outline in reached(outline, line, window) {
            let origin = id.map_or_else(|| what.to_owned(), |id| format!("{what}, {id}"));
            pieces.push(Piece {
                kind,
                lie,
                rank,
                origin,
                outline,
            });
        }
    };
    let mut trees = Vec::new();
    for spread in &ground.spreads {
        let outline = frame.polygon(&spread.outline);
        match spread.kind {
            Kind::Tree => trees.extend(reached(&outline, line, window)),
            Kind::OutOfBounds => add(
                Kind::OutOfBounds,
                Some(spread.id),
                "out of bounds",
                &beyond(outline, line, window.0),
            ),
            kind => add(kind, Some(spread.id), &kind.to_string(), &outline),
        }
    }
    for crown in merged(&trees) {
        add(Kind::Tree, None, "trees", &crown);
    }
    for tee in ground.tees.iter().filter_map(|tee| tee.outline.as_ref()) {
        add(Kind::Tee, None, "tee", &frame.polygon(tee));
    }
    for other in &ground.greens {
        let outline = frame.polygon(&other.outline);
        let is_own = green.is_some_and(|green| shared_sq_yd(green, &outline) > 0.0);
        if !is_own {
            add(
                Kind::Fairway,
                Some(other.id),
                "green of another hole",
                &outline,
            );
        }
    }
    for boundary in &ground.boundaries {
        if let Some(shut) = shut_off(&frame.line(boundary), line) {
            add(Kind::OutOfBounds, None, "out of bounds", &shut);
        }
    }
    // Rough is what the ground is anyway, save in a wood.
    let woods: Vec<Polygon<f64>> = pieces
        .iter()
        .filter(|piece| piece.kind == Kind::Wood)
        .map(|wood| wood.outline.clone())
        .collect();
    pieces.retain(|piece| {
        piece.kind != Kind::Rough || woods.iter().any(|wood| wood.intersects(&piece.outline))
    });
    pieces
}

/// The parts of an area within reach of a line.
fn reached(
    outline: &Polygon<f64>,
    line: &LineString<f64>,
    (window, side_yd): (Rect<f64>, f64),
) -> Vec<Polygon<f64>> {
    if !outline
        .bounding_rect()
        .is_some_and(|bounds| bounds.intersects(&window))
    {
        return Vec::new();
    }
    let near = |part: &Polygon<f64>| Euclidean.distance(part, line) <= side_yd;
    tidy::clipped(outline, window)
        .into_iter()
        .filter(near)
        .collect()
}

/// Ground that is out of bounds: the area itself, or, where the hole lies in it, all around it.
fn beyond(outline: Polygon<f64>, line: &LineString<f64>, window: Rect<f64>) -> Polygon<f64> {
    let inside = line
        .0
        .iter()
        .filter(|point| outline.contains(*point))
        .count();
    if 2 * inside <= line.0.len() {
        return outline;
    }
    let around = window.to_polygon().difference(&outline);
    let empty = Polygon::new(LineString(Vec::new()), Vec::new());
    around
        .into_iter()
        .max_by(|a, b| a.unsigned_area().total_cmp(&b.unsigned_area()))
        .unwrap_or(empty)
}

/// The ground that a boundary shuts off, on the side where the line of play is not.
fn shut_off(boundary: &LineString<f64>, line: &LineString<f64>) -> Option<Polygon<f64>> {
    let (first, last) = (*boundary.0.first()?, *boundary.0.last()?);
    let (dx, dy) = (last.x - first.x, last.y - first.y);
    let length = dx.hypot(dy);
    if length <= 0.0 {
        return None;
    }
    let right = |point: &Coord<f64>| (point.x - first.x) * dy - (point.y - first.y) * dx;
    let play_is_right = line.0.iter().map(right).sum::<f64>() > 0.0;
    let away = if play_is_right {
        -BOUNDARY_DEPTH_YD
    } else {
        BOUNDARY_DEPTH_YD
    } / length;
    let off = |point: Coord<f64>| Coord {
        x: point.x + away * dy,
        y: point.y - away * dx,
    };
    let mut points = boundary.0.clone();
    points.extend([off(last), off(first)]);
    Some(Polygon::new(LineString(points), Vec::new()))
}

/// Cuts tee, hole and most of the green out of hazards that cover them.
fn keep_free(
    pieces: &mut Vec<Piece>,
    line: &LineString<f64>,
    green: Option<&Polygon<f64>>,
    hole: &mut FoundHole,
) {
    let half = HALF_TEE_YD;
    let tee = Rect::new((-half, -half), (half, half)).to_polygon();
    let pin = line.0.last().copied().unwrap_or_default();
    let is_hazard = |piece: &Piece| piece.rank <= 1;
    let at_tee = pieces
        .iter()
        .any(|piece| is_hazard(piece) && piece.outline.intersects(&tee));
    let mut free: Vec<Polygon<f64>> = Vec::new();
    if at_tee {
        hole.warnings.push(format!(
            "sand, water or out of bounds is drawn over the tee of hole {}; it is cut out there",
            hole.number
        ));
        free.push(tee);
    }
    if let Some(green) = green {
        let covered: f64 = pieces
            .iter()
            .filter(|piece| is_hazard(piece))
            .map(|piece| shared_sq_yd(&piece.outline, green))
            .sum();
        let on_pin = |piece: &Piece| {
            is_hazard(piece) && Euclidean.distance(&GeoPoint(pin), &piece.outline) < OFF_PIN_YD
        };
        if covered > COVERED_SHARE * green.unsigned_area() || pieces.iter().any(on_pin) {
            hole.warnings.push(format!("sand, water or out of bounds is drawn over the green of hole {}; it is cut out there", hole.number));
            free.push(green.clone());
        }
    }
    for ground in free {
        *pieces = std::mem::take(pieces)
            .into_iter()
            .flat_map(|piece| without(piece, &ground))
            .collect();
    }
}

/// A hazard without some ground; anything else as it is.
fn without(piece: Piece, ground: &Polygon<f64>) -> Vec<Piece> {
    if piece.rank > 1 || !piece.outline.intersects(ground) {
        return vec![piece];
    }
    let parts = piece.outline.difference(ground);
    let part = |outline| Piece {
        origin: piece.origin.clone(),
        outline,
        ..piece
    };
    parts.into_iter().map(part).collect()
}

fn warn_of_waste(pieces: &[Piece], hole: &mut FoundHole) {
    for piece in pieces.iter().filter(|piece| piece.kind == Kind::Bunker) {
        let size_sq_m = sq_m(piece.outline.unsigned_area());
        if size_sq_m > WASTE_SQ_M {
            hole.warnings.push(format!(
                "a {} beside hole {} covers {size_sq_m:.0} m² of the ground here: a waste area, more likely than a bunker; it is taken as sand",
                piece.origin, hole.number
            ));
        }
    }
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
        hole.warnings.push(format!(
            "the {} areas farthest from hole {} are left out",
            pieces.len() - MOST_AREAS,
            hole.number
        ));
        pieces.truncate(MOST_AREAS);
    }
    let place = |piece: &Piece| {
        piece
            .outline
            .bounding_rect()
            .map_or((0.0, 0.0), |bounds| bounds.min().x_y())
    };
    pieces.sort_by(|a, b| {
        let by_size = a
            .outline
            .unsigned_area()
            .total_cmp(&b.outline.unsigned_area());
        let (first, second) = (place(a), place(b));
        a.rank
            .cmp(&b.rank)
            .then(by_size)
            .then(first.0.total_cmp(&second.0))
            .then(first.1.total_cmp(&second.1))
    });
    let laid = pieces.into_iter().filter_map(|piece| {
        let rings = tidy::rings(&piece.outline)?;
        Some(LaidArea {
            lie: piece.lie,
            origin: piece.origin,
            rings,
        })
    });
    laid.collect()
}
