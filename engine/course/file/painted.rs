//! What only shows once a hole is painted: too much ground, and a tee or a green that is covered.

use std::ops::Range;

use super::{hole::Draft, tees::Spot};
use crate::course::{Lie, LieGrid, Point, pins::can_be_cut, plan::Plan};

/// The share of a green that other areas must leave open.
const LEAST_OPEN_GREEN: f64 = 0.75;

/// What is wrong with a painted hole: its place in the file, a message and a hint.
pub(super) type Wrong = (Range<usize>, String, &'static str);

impl Draft {
    /// What is wrong with the painted hole.
    pub(super) fn wrong(&self, grid: Option<&LieGrid>) -> Option<Wrong> {
        let Some(grid) = grid else {
            return Some(self.too_much_ground());
        };
        self.covered_tee(grid).or_else(|| self.covered_green(grid))
    }

    /// The grid is too large: for an area far away, if it is one.
    fn too_much_ground(&self) -> Wrong {
        let label = &self.card.label;
        let message = format!("{label} takes more ground than 1000 by 600 yards");
        match self.plan.widest_area().map(|area| &self.area_spans[area]) {
            Some(span) => {
                let message = format!("{message}, most of all for this area");
                (span.clone(), message, "bring it nearer to the line of play")
            }
            None => {
                let hint = "let its line be shorter, or turn it so that it runs along the grid";
                (self.span.clone(), message, hint)
            }
        }
    }

    /// The tee played from is not seen, or another is covered.
    fn covered_tee(&self, grid: &LieGrid) -> Option<Wrong> {
        let on = |spot: &Spot| grid.lie(spot.point.x_yd, spot.point.y_yd);
        let covers = [Lie::Water, Lie::Sand, Lie::OutOfBounds, Lie::Green];
        let is_covered = |spot: &&Spot| covers.contains(&on(spot));
        let spot = (on(&self.tee) != Lie::Tee).then_some(&self.tee);
        let spot = spot.or_else(|| self.tees.iter().find(is_covered))?;
        let (tee, place, hint) = match &spot.set {
            Some(set) => (
                format!("the {set} tee"),
                &self.tees_span,
                "keep water, sand, the green and out of bounds off it",
            ),
            None => (
                "the tee".to_owned(),
                &self.span,
                "the tee is at [0, 0]; keep water, sand and out of bounds off it",
            ),
        };
        // A cell takes the lie at its middle.
        let cell = grid.cell(spot.point.x_yd, spot.point.y_yd)?;
        let (x_yd, y_yd) = grid.centre_yd(cell);
        let (by, place) = match self.plan.covering(Point { x_yd, y_yd }) {
            Some(area) => (self.named(area), &self.area_spans[area]),
            None => ("the green".to_owned(), place),
        };
        let message = format!("{tee} of {} is covered by {by}", self.card.label);
        Some((place.clone(), message, hint))
    }

    /// Too little of the green is left, or none where the pin is.
    fn covered_green(&self, grid: &LieGrid) -> Option<Wrong> {
        let label = &self.card.label;
        let cells = grid.lies.iter().filter(|lie| **lie == Lie::Green).count() as f64;
        let Point { x_yd, y_yd } = self.pin;
        let open = grid.lie(x_yd, y_yd) == Lie::Green
            && cells >= LEAST_OPEN_GREEN * self.plan.green.area_sq_yd();
        if open {
            return None;
        }
        if !can_be_cut(&self.plan.green, self.pin) {
            let message = format!(
                "the pin of {label} is too near the edge of its green, or the green is too narrow there"
            );
            let hint =
                "keep the pin a yard or more from every edge; a green is two yards across at least";
            return Some((self.green_span.clone(), message, hint));
        }
        let hint = "keep water, sand and out of bounds off the green; water all round it has an outline with `islands_yd`";
        let (by, place) = match self.plan.covers_most_of_green() {
            Some(area) => (self.named(area), &self.area_spans[area]),
            None => ("another area".to_owned(), &self.green_span),
        };
        let message = format!("the green of {label} is covered by {by}");
        Some((place.clone(), message, hint))
    }

    /// An area as it is pointed at.
    fn named(&self, area: usize) -> String {
        let name = match self.plan.areas[area].lie {
            Lie::Sand => "sand",
            Lie::Water => "water",
            Lie::OutOfBounds => "ground out of bounds",
            _ => "area",
        };
        format!("this {name}")
    }
}

impl Plan {
    /// The area that covers most of the green, by its number; none where none covers any.
    fn covers_most_of_green(&self) -> Option<usize> {
        let (low, high) = self.green.bounds();
        let mut covered = vec![0_u32; self.areas.len()];
        let (rows, columns) = (high.y_yd - low.y_yd, high.x_yd - low.x_yd);
        for row in 0..=rows as usize {
            for column in 0..=columns as usize {
                let at = Point {
                    x_yd: low.x_yd + column as f64,
                    y_yd: low.y_yd + row as f64,
                };
                if let Some(area) = self.covering(at).filter(|_| self.green.contains(at)) {
                    covered[area] += 1;
                }
            }
        }
        let most = (0..covered.len()).max_by_key(|&area| covered[area])?;
        (covered[most] > 0).then_some(most)
    }
}
