//! Tee and green kept free of hazards that are drawn over them, as where one outline goes round a whole island.

use geo::{
    Area, BooleanOps, Coord, Distance, Euclidean, Intersects, LineString, Point, Polygon, Rect,
};

use super::find::FoundHole;
use super::green::{MADE_GREEN_YD, sq_m};
use super::ground::shared_sq_yd;
use super::kind::Kind;
use super::pieces::Piece;

/// Half the width and depth of the ground kept free at the tee, yards.
const HALF_TEE_YD: f64 = 5.0;
/// Hazards may cover this share of a green; more is cut out of them.
const COVERED_SHARE: f64 = 0.2;
/// Hazards are kept this far off the middle of the tee and off the hole in the green, yards.
const OFF_YD: f64 = 1.5;
/// A bunker larger than this is a waste area, square metres. Measured medians are 31 to 140 m² (public extracts).
const WASTE_SQ_M: f64 = 5000.0;

/// Cuts tee, hole and most of the green out of hazards that cover them; what was cut is told.
pub(super) fn keep_free(
    pieces: &mut Vec<Piece>,
    line: &LineString<f64>,
    green: Option<&Polygon<f64>>,
    hole: &mut FoundHole,
) {
    let tee = square(Coord { x: 0.0, y: 0.0 }, HALF_TEE_YD);
    if is_covered(pieces, line.0.first()) {
        cut_out(pieces, &tee, "tee", hole);
    }
    let Some(green) = green else {
        free_made_green(pieces, line, hole);
        return;
    };
    let hazards = pieces.iter().filter(|piece| piece.is_hazard());
    let covered: f64 = hazards
        .map(|hazard| shared_sq_yd(&hazard.outline, green))
        .sum();
    if covered > COVERED_SHARE * green.unsigned_area() || is_covered(pieces, line.0.last()) {
        cut_out(pieces, green, "green", hole);
    }
}

/// A green that is made up lies where the map may have a hazard.
fn free_made_green(pieces: &mut Vec<Piece>, line: &LineString<f64>, hole: &mut FoundHole) {
    let Some(end) = line.0.last().copied() else {
        return;
    };
    let (depth_yd, width_yd) = MADE_GREEN_YD;
    let ground = square(end, depth_yd.max(width_yd) / 2.0);
    let mut hazards = pieces.iter().filter(|piece| piece.is_hazard());
    if hazards.any(|hazard| hazard.outline.intersects(&ground)) {
        cut_out(pieces, &ground, "green", hole);
    }
}

fn square(middle: Coord<f64>, half_yd: f64) -> Polygon<f64> {
    let half = Coord {
        x: half_yd,
        y: half_yd,
    };
    Rect::new(middle - half, middle + half).to_polygon()
}

/// Whether a hazard lies at a point or right beside it.
pub(super) fn is_covered(pieces: &[Piece], point: Option<&Coord<f64>>) -> bool {
    let point = Point(point.copied().unwrap_or_default());
    let mut hazards = pieces.iter().filter(|piece| piece.is_hazard());
    hazards.any(|hazard| Euclidean.distance(&point, &hazard.outline) < OFF_YD)
}

fn cut_out(pieces: &mut Vec<Piece>, ground: &Polygon<f64>, what: &str, hole: &mut FoundHole) {
    let number = hole.number;
    hole.warnings.push(format!("sand, water or out of bounds is drawn over the {what} of hole {number}; it is cut out there"));
    *pieces = std::mem::take(pieces)
        .into_iter()
        .flat_map(|piece| without(piece, ground))
        .collect();
}

/// A hazard without some ground; anything else as it is.
fn without(piece: Piece, ground: &Polygon<f64>) -> Vec<Piece> {
    if !piece.is_hazard() || !piece.outline.intersects(ground) {
        return vec![piece];
    }
    let parts = piece.outline.difference(ground);
    parts
        .into_iter()
        .map(|outline| Piece {
            outline,
            ..piece.clone()
        })
        .collect()
}

/// Tells of bunkers too large to be any.
pub(super) fn warn_of_waste(pieces: &[Piece], hole: &mut FoundHole) {
    let mut told = Vec::new();
    for piece in pieces.iter().filter(|piece| piece.kind == Kind::Bunker) {
        let size_sq_m = sq_m(piece.whole_sq_yd);
        let (Some(id), number) = (piece.id, hole.number) else {
            continue;
        };
        if size_sq_m > WASTE_SQ_M && !told.contains(&id) {
            told.push(id);
            hole.warnings.push(format!("the bunker beside hole {number} ({id}) covers {size_sq_m:.0} m²: a waste area, more likely; it is taken as sand"));
        }
    }
}
