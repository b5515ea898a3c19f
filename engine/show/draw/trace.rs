//! Outlines of areas on a grid of squares.

use contour::ContourBuilder;
use geo::{Coord, LineString, MultiPolygon, Polygon, Simplify};

/// Outlines are simplified by at most this, squares.
const TOLERANCE: f64 = 0.08;
/// How much of a square's share goes to each neighbour across and along before outlines are traced: it takes the steps
/// off slanting edges. Two areas that meet still have one and the same edge between them.
const SMOOTHED: f64 = 1.0 / 8.0;

/// The outlines of the squares that are set, in squares from the lower left corner of the grid; islands are holes in
/// them. Squares number row by row.
pub(super) fn outlines(set: &[bool], columns: usize) -> MultiPolygon<f64> {
    let rows = set.len() / columns.max(1);
    // A rim of squares like those at the edge, so that areas reach the edge itself.
    let at = |column: usize, row: usize| {
        let inside = |place: usize, count: usize| place.saturating_sub(RIM).min(count - 1);
        f64::from(u8::from(
            set[inside(row, rows) * columns + inside(column, columns)],
        ))
    };
    let (wide, high) = (columns + 2 * RIM, rows + 2 * RIM);
    let spread = |before: f64, here: f64, after: f64| {
        SMOOTHED * (before + after) + (1.0 - 2.0 * SMOOTHED) * here
    };
    let across: Vec<f64> = (0..wide * high)
        .map(|square| {
            let (column, row) = (square % wide, square / wide);
            let next = (column + 1).min(wide - 1);
            spread(
                at(column.saturating_sub(1), row),
                at(column, row),
                at(next, row),
            )
        })
        .collect();
    let smooth: Vec<f64> = (0..wide * high)
        .map(|square| {
            let row = square / wide;
            let below = if row > 0 { square - wide } else { square };
            let above = if row + 1 < high {
                square + wide
            } else {
                square
            };
            spread(across[below], across[square], across[above])
        })
        .collect();
    let rim = -(RIM as f64);
    let builder = ContourBuilder::new(wide, high, true)
        .x_origin(rim)
        .y_origin(rim);
    let traced = builder
        .contours(&smooth, &[0.5])
        .ok()
        .and_then(|mut all| all.pop());
    traced.map_or_else(
        || MultiPolygon::new(Vec::new()),
        |traced| {
            let smooth = traced
                .geometry()
                .iter()
                .map(smoothed)
                .collect::<MultiPolygon<f64>>();
            smooth.simplify(TOLERANCE)
        },
    )
}

/// An area with its edges smoothed.
fn smoothed(area: &Polygon<f64>) -> Polygon<f64> {
    let islands = area.interiors().iter().map(smooth_ring).collect();
    Polygon::new(smooth_ring(area.exterior()), islands)
}

/// Rounds of smoothing.
const ROUNDS: usize = 8;
/// How far each place goes towards the middle of its neighbours, and then away from it again: taken together they smooth
/// and do not shrink. Source: G. Taubin (1995), "Curve and surface smoothing without shrinkage", λ 0.5, μ −0.53.
const THERE_AND_BACK: [f64; 2] = [0.5, -0.53];

fn smooth_ring(ring: &LineString<f64>) -> LineString<f64> {
    // The last place of a ring is its first again.
    let mut places: Vec<Coord<f64>> = ring.0.iter().skip(1).copied().collect();
    let count = places.len();
    if count < 4 {
        return ring.clone();
    }
    for _ in 0..ROUNDS {
        for share in THERE_AND_BACK {
            let moved = |(index, place): (usize, &Coord<f64>)| {
                let middle =
                    (places[(index + count - 1) % count] + places[(index + 1) % count]) / 2.0;
                *place + (middle - *place) * share
            };
            places = places.iter().enumerate().map(moved).collect();
        }
    }
    places.extend(places.first().copied());
    LineString::new(places)
}

/// Squares added on every side.
const RIM: usize = 2;

/// The path of outlines, each place taken to pixels.
pub(super) fn path(
    outlines: &MultiPolygon<f64>,
    to_px: impl Fn(Coord<f64>) -> (f64, f64),
) -> String {
    let rings = outlines
        .iter()
        .flat_map(|area| std::iter::once(area.exterior()).chain(area.interiors()));
    rings
        .map(|ring| {
            // The last place of a ring is its first again.
            let places = ring.0.iter().take(ring.0.len().saturating_sub(1));
            let places: Vec<(f64, f64)> = places.map(|&place| to_px(place)).collect();
            super::svg::path_through(&places, true)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use geo::Area;

    use super::*;

    fn disc(size: usize, radius: f64, hole: f64) -> Vec<bool> {
        let middle = size as f64 / 2.0;
        let away = |square: usize| {
            let (x, y) = ((square % size) as f64 + 0.5, (square / size) as f64 + 0.5);
            (x - middle).hypot(y - middle)
        };
        (0..size * size)
            .map(|square| (hole..=radius).contains(&away(square)))
            .collect()
    }

    #[test]
    fn outlines_hold_as_much_ground_as_the_squares() {
        for (radius, hole) in [(5.0, 0.0), (12.0, 0.0), (18.0, 6.0)] {
            let set = disc(40, radius, hole);
            let squares = set.iter().filter(|set| **set).count() as f64;
            let area = outlines(&set, 40).unsigned_area();
            assert!((area / squares - 1.0).abs() < 0.02, "{area} for {squares}");
        }
    }

    #[test]
    fn areas_at_the_edge_reach_it() {
        let all = vec![true; 30 * 20];
        let area = outlines(&all, 30).unsigned_area();
        assert!(area >= 600.0, "{area}");
        let none = vec![false; 30 * 20];
        assert_eq!(outlines(&none, 30).unsigned_area(), 0.0);
    }
}
