//! Shapes that are painted on a grid: ellipses and outlines. Both are closed: a point on the edge belongs to the shape.

use super::Point;

/// A shape on the ground.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// An ellipse.
    Ellipse(Ellipse),
    /// A closed outline; its last point joins its first.
    Outline(Vec<Point>),
    /// Closed outlines of which the first holds the others: ground inside those is no part of the shape.
    Islands(Vec<Vec<Point>>),
}

/// An ellipse.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ellipse {
    /// Its middle.
    pub centre: Point,
    /// Direction of its length, radians clockwise from +y.
    pub heading_rad: f64,
    /// Half its length, yards.
    pub half_length_yd: f64,
    /// Half its width, yards.
    pub half_width_yd: f64,
}

impl Shape {
    /// The stretches of a row of constant y that lie in the shape, ends included; they may overlap.
    #[must_use]
    pub fn stretches(&self, y_yd: f64) -> Vec<(f64, f64)> {
        match self {
            Self::Ellipse(ellipse) => ellipse.stretch(y_yd).into_iter().collect(),
            Self::Outline(points) => outline_stretches(std::slice::from_ref(points), y_yd),
            Self::Islands(rings) => outline_stretches(rings, y_yd),
        }
    }

    /// Whether a point lies in the shape or on its edge.
    #[must_use]
    pub fn contains(&self, point: Point) -> bool {
        self.stretches(point.y_yd)
            .iter()
            .any(|(from, to)| (*from..=*to).contains(&point.x_yd))
    }

    /// Its lowest and highest corner: the least x and y, and the greatest.
    #[must_use]
    pub fn bounds(&self) -> (Point, Point) {
        match self {
            Self::Ellipse(ellipse) => ellipse.bounds(),
            Self::Outline(points) => bounds_of(points),
            Self::Islands(rings) => bounds_of(rings.first().map_or(&[], Vec::as_slice)),
        }
    }

    /// Its area, square yards.
    #[must_use]
    pub fn area_sq_yd(&self) -> f64 {
        match self {
            Self::Ellipse(ellipse) => {
                std::f64::consts::PI * ellipse.half_length_yd * ellipse.half_width_yd
            }
            Self::Outline(points) => ring_area_sq_yd(points),
            Self::Islands(rings) => {
                let mut areas = rings.iter().map(|ring| ring_area_sq_yd(ring));
                areas.next().unwrap_or(0.0) - areas.sum::<f64>()
            }
        }
    }
}

/// The area within one closed outline, square yards.
fn ring_area_sq_yd(points: &[Point]) -> f64 {
    let sides = points.iter().zip(points.iter().cycle().skip(1));
    let doubled: f64 = sides.map(|(a, b)| a.x_yd * b.y_yd - b.x_yd * a.y_yd).sum();
    doubled.abs() / 2.0
}

/// The least and greatest coordinates of points.
pub(super) fn bounds_of(points: &[Point]) -> (Point, Point) {
    let start = (f64::INFINITY, f64::NEG_INFINITY);
    let range = |values: &mut dyn Iterator<Item = f64>| {
        values.fold(start, |(low, high), value| {
            (low.min(value), high.max(value))
        })
    };
    let x = range(&mut points.iter().map(|point| point.x_yd));
    let y = range(&mut points.iter().map(|point| point.y_yd));
    (
        Point {
            x_yd: x.0,
            y_yd: y.0,
        },
        Point {
            x_yd: x.1,
            y_yd: y.1,
        },
    )
}

impl Ellipse {
    /// The stretch of a row in the ellipse: the roots of its equation in x.
    fn stretch(&self, y_yd: f64) -> Option<(f64, f64)> {
        let dy = y_yd - self.centre.y_yd;
        let (sin, cos) = self.heading_rad.sin_cos();
        let (along, across) = (self.half_length_yd.powi(-2), self.half_width_yd.powi(-2));
        let a = sin * sin * along + cos * cos * across;
        let half_b = dy * sin * cos * (along - across);
        let c = dy * dy * (cos * cos * along + sin * sin * across) - 1.0;
        let root = half_b * half_b - a * c;
        if root < 0.0 {
            return None;
        }
        let (middle, half) = (self.centre.x_yd - half_b / a, root.sqrt() / a);
        Some((middle - half, middle + half))
    }

    fn bounds(&self) -> (Point, Point) {
        let (sin, cos) = self.heading_rad.sin_cos();
        let half_x = (self.half_length_yd * sin).hypot(self.half_width_yd * cos);
        let half_y = (self.half_length_yd * cos).hypot(self.half_width_yd * sin);
        let Point { x_yd, y_yd } = self.centre;
        (
            Point {
                x_yd: x_yd - half_x,
                y_yd: y_yd - half_y,
            },
            Point {
                x_yd: x_yd + half_x,
                y_yd: y_yd + half_y,
            },
        )
    }
}

/// The stretches of a row in an outline and outside its islands: a row enters and leaves at the sides of either. A corner
/// on the row is counted once with the sides below it and once with those above, and level sides are added, so that every
/// edge belongs to the shape.
fn outline_stretches(rings: &[Vec<Point>], y_yd: f64) -> Vec<(f64, f64)> {
    let sides = || {
        rings
            .iter()
            .flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)))
    };
    let crossings = |crosses: fn(f64, f64, f64) -> bool| {
        let mut xs: Vec<f64> = sides()
            .filter(|(a, b)| crosses(a.y_yd.min(b.y_yd), y_yd, a.y_yd.max(b.y_yd)))
            .map(|(a, b)| a.x_yd + (y_yd - a.y_yd) * (b.x_yd - a.x_yd) / (b.y_yd - a.y_yd))
            .collect();
        xs.sort_unstable_by(f64::total_cmp);
        xs
    };
    let below = crossings(|low, y, high| low < y && y <= high);
    let above = crossings(|low, y, high| low <= y && y < high);
    let level = sides()
        .filter(|(a, b)| a.y_yd == y_yd && b.y_yd == y_yd)
        .map(|(a, b)| (a.x_yd.min(b.x_yd), a.x_yd.max(b.x_yd)));
    let pairs = |xs: Vec<f64>| {
        xs.chunks_exact(2)
            .map(|pair| (pair[0], pair[1]))
            .collect::<Vec<_>>()
    };
    pairs(below)
        .into_iter()
        .chain(pairs(above))
        .chain(level)
        .collect()
}

/// What is wrong with an outline, each in words that number the points from 1 as the file lists them.
#[must_use]
pub fn outline_faults(points: &[Point]) -> Vec<String> {
    let count = points.len();
    if count < 3 {
        return vec![format!("an outline has at least 3 points, not {count}")];
    }
    let side = |index: usize| (points[index], points[(index + 1) % count]);
    let mut faults = Vec::new();
    for index in 0..count {
        let (a, b) = side(index);
        if a == b {
            faults.push(format!(
                "points {} and {} of the outline are the same",
                index + 1,
                (index + 1) % count + 1
            ));
        }
    }
    if !faults.is_empty() {
        return faults;
    }
    for first in 0..count {
        for second in first + 1..count {
            let neighbours = second == first + 1 || (first == 0 && second + 1 == count);
            if meet(side(first), side(second), neighbours) {
                let name = |index: usize| format!("{} to {}", index + 1, (index + 1) % count + 1);
                faults.push(format!(
                    "the outline crosses itself: the side from point {} meets the side from {}",
                    name(first),
                    name(second)
                ));
            }
        }
    }
    faults
}

/// What is wrong with the islands of a sound outline: each must be a sound outline itself and lie within the first,
/// none in another. Islands are numbered from 1 as the file lists them.
#[must_use]
pub fn island_faults(outline: &[Point], islands: &[Vec<Point>]) -> Vec<String> {
    let mut faults = Vec::new();
    for (index, island) in islands.iter().enumerate() {
        let name = index + 1;
        let own = outline_faults(island);
        faults.extend(
            own.into_iter()
                .map(|fault| format!("island {name}: {fault}")),
        );
        if !lies_in(island, outline) {
            faults.push(format!("island {name} does not lie within the outline"));
        }
        let before = islands[..index].iter().enumerate();
        for (other, _) in before.filter(|(_, other)| !lie_apart(other, island)) {
            faults.push(format!("islands {} and {name} meet", other + 1));
        }
    }
    faults
}

fn sides(ring: &[Point]) -> impl Iterator<Item = (Point, Point)> + Clone {
    ring.iter()
        .copied()
        .zip(ring.iter().copied().cycle().skip(1))
}

/// Whether no side of one outline meets a side of another.
fn sides_apart(a: &[Point], b: &[Point]) -> bool {
    sides(a).all(|first| sides(b).all(|second| !meet(first, second, false)))
}

/// Whether an outline lies within another without touching it.
fn lies_in(inner: &[Point], outer: &[Point]) -> bool {
    let outer_shape = Shape::Outline(outer.to_vec());
    sides_apart(inner, outer)
        && inner
            .first()
            .is_some_and(|point| outer_shape.contains(*point))
}

fn lie_apart(a: &[Point], b: &[Point]) -> bool {
    sides_apart(a, b) && !lies_in(a, b) && !lies_in(b, a)
}

/// Whether two sides have a point in common; of neighbours, one besides the corner they share.
fn meet(first: (Point, Point), second: (Point, Point), neighbours: bool) -> bool {
    let turn = |a: Point, b: Point, c: Point| {
        let cross = (b.x_yd - a.x_yd) * (c.y_yd - a.y_yd) - (b.y_yd - a.y_yd) * (c.x_yd - a.x_yd);
        if cross == 0.0 { 0.0 } else { cross.signum() }
    };
    let between = |a: Point, b: Point, c: Point| {
        let (low, high) = bounds_of(&[a, b]);
        (low.x_yd..=high.x_yd).contains(&c.x_yd) && (low.y_yd..=high.y_yd).contains(&c.y_yd)
    };
    let ends = [
        (first, second.0),
        (first, second.1),
        (second, first.0),
        (second, first.1),
    ];
    let on = ends
        .iter()
        .filter(|((a, b), c)| turn(*a, *b, *c) == 0.0 && between(*a, *b, *c))
        .count();
    if neighbours {
        // The shared corner is an end of both.
        return on > 2;
    }
    let parted =
        |(a, b): (Point, Point), (c, d): (Point, Point)| turn(a, b, c) * turn(a, b, d) < 0.0;
    on > 0 || (parted(first, second) && parted(second, first))
}
