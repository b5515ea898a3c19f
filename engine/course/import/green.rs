//! Which green a hole plays to.

use geo::{
    Area, Centroid, Contains, Coord, Distance, Euclidean, InteriorPoint, LineString, Point, Polygon,
};
use serde::Serialize;

use super::ground::Ground;
use super::tidy;
use crate::units::Length;

/// A line that ends no farther than this from a green plays to it, metres.
const GREEN_REACH_M: f64 = 40.0;
/// The hole in the green is cut no nearer its edge than this, yards: the edge of a grid cell must not take it off.
const LEAST_INSIDE_YD: f64 = 1.5;
/// Greens are from about 250 to 850 m² in size; outside these bounds something is odd. Source: measured medians of 263
/// to 610 m² in public extracts, 3500 to 9000 sq ft by superintendents (GCSAA).
const GREEN_SIZES_SQ_M: std::ops::RangeInclusive<f64> = 120.0..=1500.0;

/// Depth and width of a green that is made up, yards.
pub(super) const MADE_GREEN_YD: (f64, f64) = (30.0, 26.0);

/// Where a hole's green comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum GreenFrom {
    /// The outline that holds the end of the line.
    Outline,
    /// The nearest outline; the line is drawn on to its middle.
    Nearest,
    /// Made up, since none is drawn.
    Made,
}

impl GreenFrom {
    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Outline => "the outline in which the line ends",
            Self::Nearest => {
                "the outline nearest to the end of the line, which is drawn on to its middle"
            }
            Self::Made => "made up: none is on the map",
        }
    }
}

/// The green a line plays to; the line is drawn on or moved so that it ends well inside.
pub(super) fn green(
    number: u32,
    line: &mut LineString<f64>,
    ground: &Ground,
    make: bool,
    warnings: &mut Vec<String>,
) -> Result<(Option<Polygon<f64>>, GreenFrom), String> {
    let end = line.0.last().copied().unwrap_or_default();
    let Some((away_yd, outline)) = nearest(ground, end) else {
        if make {
            warnings.push(format!(
                "the green of hole {number} is made up: none is on the map"
            ));
            return Ok((None, GreenFrom::Made));
        }
        return Err(format!(
            "no green lies within {GREEN_REACH_M} m of the end of its line; `--make-greens` makes one of ordinary size"
        ));
    };
    let solid = tidy::solid(outline);
    let (from, inside) = if away_yd > 0.0 {
        warnings.push(format!(
            "the line of hole {number} ends {away_yd:.0} yd short of its green and is drawn on to the middle of it"
        ));
        (GreenFrom::Nearest, middle_of(&solid))
    } else {
        (GreenFrom::Outline, well_inside(&solid, end))
    };
    let inside = inside.ok_or_else(|| "its green is too narrow to hold a hole".to_owned())?;
    if let Some(last) = line.0.last_mut() {
        *last = inside;
    }
    warnings.extend(size_warning(number, &solid));
    Ok((Some(solid), from))
}

/// The nearest green to the end of a line that is not for practice, and how far off it is, if within reach.
fn nearest(ground: &Ground, end: Coord<f64>) -> Option<(f64, &Polygon<f64>)> {
    let reach_yd = Length::from_m(GREEN_REACH_M).yd();
    let greens = ground.greens.iter().filter(|green| !green.is_practice);
    let away = greens.map(|green| {
        (
            Euclidean.distance(&Point(end), &green.outline),
            &green.outline,
        )
    });
    let nearest = away.min_by(|a, b| a.0.total_cmp(&b.0));
    nearest.filter(|(away_yd, _)| *away_yd <= reach_yd)
}

/// What is odd about the size of a green.
fn size_warning(number: u32, green: &Polygon<f64>) -> Option<String> {
    let size_sq_m = sq_m(green.unsigned_area());
    if GREEN_SIZES_SQ_M.contains(&size_sq_m) {
        return None;
    }
    let how = if size_sq_m < *GREEN_SIZES_SQ_M.start() {
        "small"
    } else {
        "large"
    };
    Some(format!(
        "the green of hole {number} is very {how}: {size_sq_m:.0} m²"
    ))
}

/// Square yards in square metres.
pub(super) fn sq_m(sq_yd: f64) -> f64 {
    sq_yd * Length::from_yd(1.0).m().powi(2)
}

/// The point itself when it lies well inside an area, else the first one that does on the way to the middle.
fn well_inside(outline: &Polygon<f64>, point: Coord<f64>) -> Option<Coord<f64>> {
    let middle = middle_of(outline)?;
    let way_yd = (middle.x - point.x).hypot(middle.y - point.y);
    let steps = (way_yd / 0.25).ceil().max(1.0) as u32;
    let at = |step: u32| {
        let share = f64::from(step) / f64::from(steps);
        Coord {
            x: point.x + share * (middle.x - point.x),
            y: point.y + share * (middle.y - point.y),
        }
    };
    (0..=steps)
        .map(at)
        .find(|point| is_well_inside(outline, *point))
}

fn is_well_inside(outline: &Polygon<f64>, point: Coord<f64>) -> bool {
    outline.contains(&point)
        && Euclidean.distance(&Point(point), outline.exterior()) >= LEAST_INSIDE_YD
}

/// The middle of an area, or a point inside where the middle is not.
fn middle_of(outline: &Polygon<f64>) -> Option<Coord<f64>> {
    let points = [outline.centroid(), outline.interior_point()];
    points
        .into_iter()
        .flatten()
        .map(|point| point.0)
        .find(|point| is_well_inside(outline, *point))
}
