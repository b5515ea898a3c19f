//! Where shots land, as ellipses that hold a share of them.

use crate::course::Point;
use crate::course::shape::Ellipse;

/// The shares of shots that ellipses are drawn for.
pub const SHARES: [f64; 2] = [0.5, 0.9];

/// An ellipse and the share of shots that land in it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Held {
    /// Share, 0 to 1.
    pub share: f64,
    /// The ellipse, yards.
    pub ellipse: Ellipse,
}

/// For each of [`SHARES`], the ellipse of the points' own mean and covariance that holds that share of them. None of
/// fewer than three points, or of points on one line.
///
/// The size is counted off, not taken from a normal distribution: shots have longer tails.
#[must_use]
pub fn ellipses(points: &[Point]) -> Vec<Held> {
    let count = points.len() as f64;
    if points.len() < 3 {
        return Vec::new();
    }
    let centre = Point {
        x_yd: points.iter().map(|point| point.x_yd).sum::<f64>() / count,
        y_yd: points.iter().map(|point| point.y_yd).sum::<f64>() / count,
    };
    let off = |point: &Point| (point.x_yd - centre.x_yd, point.y_yd - centre.y_yd);
    let mean = |of: fn((f64, f64)) -> f64| points.iter().map(|p| of(off(p))).sum::<f64>() / count;
    let (xx, yy, xy) = (
        mean(|o| o.0 * o.0),
        mean(|o| o.1 * o.1),
        mean(|o| o.0 * o.1),
    );
    let determinant = xx * yy - xy * xy;
    if determinant <= 1e-9 * (xx + yy).powi(2) {
        return Vec::new();
    }
    let distance = |point: &Point| {
        let (x, y) = off(point);
        (yy * x * x - 2.0 * xy * x * y + xx * y * y) / determinant
    };
    let mut squares: Vec<f64> = points.iter().map(distance).collect();
    squares.sort_unstable_by(f64::total_cmp);
    SHARES
        .map(|share| Held {
            share,
            ellipse: ellipse(centre, [xx, yy, xy], quantile(&squares, share).sqrt()),
        })
        .to_vec()
}

/// The ellipse of a covariance, so many standard deviations large.
fn ellipse(centre: Point, [xx, yy, xy]: [f64; 3], times: f64) -> Ellipse {
    let (middle, half) = ((xx + yy) / 2.0, ((yy - xx) / 2.0).hypot(xy));
    Ellipse {
        centre,
        // Of the longer axis, clockwise from +y.
        heading_rad: 0.5 * (2.0 * xy).atan2(yy - xx),
        half_length_yd: times * (middle + half).sqrt(),
        half_width_yd: times * (middle - half).max(0.0).sqrt(),
    }
}

/// The value below which a share of sorted values lies, halfway between the two around it.
fn quantile(sorted: &[f64], share: f64) -> f64 {
    let place = share * sorted.len() as f64;
    let above = (place.floor() as usize).min(sorted.len() - 1);
    let below = above.saturating_sub(1);
    f64::midpoint(sorted[below], sorted[above])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ellipses_hold_their_share_of_the_points_and_lie_as_they_do() {
        // A lattice stretched along a line 30° right of +y.
        let (sin, cos) = 30f64.to_radians().sin_cos();
        let steps = || (-20..=20).map(f64::from);
        let points: Vec<Point> = steps()
            .flat_map(|a| steps().map(move |b| (3.0 * a, b)))
            .map(|(along, across)| Point {
                x_yd: 7.0 + along * sin + across * cos,
                y_yd: 200.0 + along * cos - across * sin,
            })
            .collect();
        for held in ellipses(&points) {
            let shape = crate::course::shape::Shape::Ellipse(held.ellipse);
            let inside = points
                .iter()
                .filter(|point| shape.contains(**point))
                .count();
            let share = inside as f64 / points.len() as f64;
            assert!(
                (share - held.share).abs() < 0.01,
                "{share} for {}",
                held.share
            );
            assert!((held.ellipse.heading_rad.to_degrees() - 30.0).abs() < 1e-6);
            let ratio = held.ellipse.half_length_yd / held.ellipse.half_width_yd;
            assert!((ratio - 3.0).abs() < 1e-6, "{ratio}");
        }
    }

    #[test]
    fn points_on_a_line_have_no_ellipse() {
        let points = [1.0, 2.0, 3.0, 4.0].map(|y_yd| Point {
            x_yd: 2.0 * y_yd,
            y_yd,
        });
        assert_eq!(ellipses(&points), []);
    }
}
