//! The ground around a hole in pieces of one lie each, cut to what a hole takes.

use geo::{
    Area, BooleanOps, BoundingRect, Centroid, Contains, Coord, Distance, Euclidean, Intersects,
    LineString, Polygon, Rect,
};

use super::ground::{Ground, merged, shared_sq_yd};
use super::kind::Kind;
use super::lay::Frame;
use super::map::Id;
use super::tidy;
use crate::course::Lie;
use crate::course::line::Line;

/// A boundary shuts off this much ground, yards.
const BOUNDARY_DEPTH_YD: f64 = 300.0;

/// An area on its way into the file.
#[derive(Debug, Clone)]
pub(super) struct Piece {
    pub(super) kind: Kind,
    pub(super) lie: Lie,
    /// Order in the file: among areas of one layer the one listed first covers the others.
    pub(super) rank: u8,
    /// What it is.
    pub(super) what: String,
    /// Its name on the map, where it is one feature.
    pub(super) id: Option<Id>,
    /// The size of the whole feature, of which this may be a part, square yards.
    pub(super) whole_sq_yd: f64,
    pub(super) outline: Polygon<f64>,
}

impl Piece {
    /// Whether it ends play or takes strokes: out of bounds, sand, water.
    pub(super) const fn is_hazard(&self) -> bool {
        self.rank <= 1
    }

    /// Its size, and its place to tell apart two of one size.
    pub(super) fn size_and_place(&self) -> (f64, f64, f64) {
        let (x, y) = self
            .outline
            .bounding_rect()
            .map_or((0.0, 0.0), |bounds| bounds.min().x_y());
        (self.outline.unsigned_area(), x, y)
    }

    /// What it is and where its middle lies along a line, in words.
    pub(super) fn told(&self, line: Option<&Line>) -> String {
        let middle = self.outline.centroid().map(|middle| middle.0);
        let station = line
            .zip(middle)
            .map(|(line, middle)| line.station(middle.x, middle.y));
        let place = station.map_or(String::new(), |station| {
            let side = if station.side_yd < 0.0 {
                "left"
            } else {
                "right"
            };
            let (along_yd, side_yd) = (station.along_yd, station.side_yd.abs());
            let where_along = if along_yd < 0.0 {
                format!("{:.0} yd behind the tee", -along_yd)
            } else {
                format!("{along_yd:.0} yd out")
            };
            format!(", {where_along}, {side_yd:.0} yd {side}")
        });
        let id = self.id.map_or(String::new(), |id| format!(" ({id})"));
        format!("{}{place}{id}", self.what)
    }
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

/// Everything within reach of a line, cut to the window.
pub(super) fn pieces(
    ground: &Ground,
    frame: &Frame,
    line: &LineString<f64>,
    green: Option<&Polygon<f64>>,
    window: (Rect<f64>, f64),
) -> Vec<Piece> {
    let mut cutter = Cutter {
        line,
        window,
        pieces: Vec::new(),
    };
    cutter.add_spreads(ground, frame);
    for tee in ground.tees.iter().filter_map(|tee| tee.outline.as_ref()) {
        cutter.add(Kind::Tee, None, "tee", &frame.polygon(tee));
    }
    for other in &ground.greens {
        let outline = frame.polygon(&other.outline);
        let is_own = green.is_some_and(|green| shared_sq_yd(green, &outline) > 0.0);
        if !is_own {
            cutter.add(
                Kind::Fairway,
                Some(other.id),
                "green of another hole",
                &outline,
            );
        }
    }
    for boundary in &ground.boundaries {
        if let Some(shut) = shut_off(&frame.line(boundary), line) {
            cutter.add(Kind::OutOfBounds, None, "out of bounds", &shut);
        }
    }
    cutter.drop_idle_rough();
    cutter.pieces
}

/// Cuts areas to what a hole takes.
struct Cutter<'a> {
    line: &'a LineString<f64>,
    window: (Rect<f64>, f64),
    pieces: Vec<Piece>,
}

impl Cutter<'_> {
    fn add(&mut self, kind: Kind, id: Option<Id>, what: &str, outline: &Polygon<f64>) {
        let Some((lie, rank)) = lie_of(kind) else {
            return;
        };
        let whole_sq_yd = outline.unsigned_area();
        let parts = reached(outline, self.line, self.window).into_iter();
        self.pieces.extend(parts.map(|outline| {
            let what = what.to_owned();
            Piece {
                kind,
                lie,
                rank,
                what,
                id,
                whole_sq_yd,
                outline,
            }
        }));
    }

    /// Adds areas of every lie; trees whose crowns touch become one.
    fn add_spreads(&mut self, ground: &Ground, frame: &Frame) {
        let mut trees = Vec::new();
        for spread in &ground.spreads {
            let outline = frame.polygon(&spread.outline);
            match spread.kind {
                Kind::Tree => trees.extend(reached(&outline, self.line, self.window)),
                Kind::OutOfBounds => {
                    for shut in beyond(outline, self.line, self.window.0) {
                        self.add(Kind::OutOfBounds, Some(spread.id), "out of bounds", &shut);
                    }
                }
                kind => self.add(kind, Some(spread.id), &kind.to_string(), &outline),
            }
        }
        for crown in merged(&trees) {
            self.add(Kind::Tree, None, "trees", &crown);
        }
    }

    /// Drops rough that is not in a wood: elsewhere rough is what the ground is anyway.
    fn drop_idle_rough(&mut self) {
        let woods = self.pieces.iter().filter(|piece| piece.kind == Kind::Wood);
        let woods: Vec<Polygon<f64>> = woods.map(|wood| wood.outline.clone()).collect();
        let in_wood = |piece: &Piece| woods.iter().any(|wood| wood.intersects(&piece.outline));
        self.pieces
            .retain(|piece| piece.kind != Kind::Rough || in_wood(piece));
    }
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

/// Ground that is out of bounds: the area itself, or, where the hole lies in it, all around it. An area that reaches out
/// of the window leaves a piece to either side of it.
fn beyond(outline: Polygon<f64>, line: &LineString<f64>, window: Rect<f64>) -> Vec<Polygon<f64>> {
    let inside = line
        .0
        .iter()
        .filter(|point| outline.contains(*point))
        .count();
    if 2 * inside <= line.0.len() {
        return vec![outline];
    }
    window.to_polygon().difference(&outline).0
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
