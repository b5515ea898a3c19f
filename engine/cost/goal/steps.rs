//! The cheapest equal step: how far on the way to the goal's golfers, in which parts, would do.

use crate::cost::venue::Home;
use crate::round::part::Part;

use super::cast::{Cast, HALF_TO_TOUR, PLAYER, TOUR};
use super::table::Table;
use super::{NOTHING, PartGoal, Played, mean};

/// The standard slope rating. Source: Rules of Handicapping 5.1, R&A and USGA.
const STANDARD_SLOPE: f64 = 113.0;
/// Two golfers' expected scores tell what a stroke is worth in their index when they are this far apart; what luck is
/// left in an index by rounds is then a small share of it.
const APART: f64 = 2.0;

/// Parts that, moved the same share of the way each, reach the goal.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// The parts, the costliest first.
    pub parts: Vec<Part>,
    /// Whether the way is that to tour professionals: where the goal's golfers themselves are not good enough in what
    /// falls short to them, on these courses. Otherwise it is the way to the goal's golfers.
    pub to_tour: bool,
    /// The least share of the way that reaches the goal, 0 to 1.
    pub share: f64,
}

/// Reckons an index from expected scores: exact for the player, and straight from there to the goal's golfers.
pub struct Reckoner {
    index: f64,
    /// By course: the player's expected score, and what a stroke is worth in the index.
    courses: Vec<(f64, f64)>,
}

impl Reckoner {
    pub fn new(index: f64, own: &[f64], played: &[Played], homes: &[Home<'_>]) -> Self {
        let course = |((own, played), home): ((&f64, &Played), &Home)| {
            let apart = own - played.goal_figures.expected_strokes;
            let by_slope = STANDARD_SLOPE / f64::from(home.rating.slope_rating) * played.loops;
            let worth = if apart.abs() >= APART {
                (played.own_index - played.goal_index) / apart
            } else {
                by_slope
            };
            (*own, worth)
        };
        let courses = own.iter().zip(played).zip(homes).map(course).collect();
        Self { index, courses }
    }

    /// The index with these expected scores.
    fn index(&self, expected: &[f64]) -> f64 {
        let courses = self.courses.iter().zip(expected);
        self.index + mean(courses.map(|((own, worth), with)| worth * (with - own)))
    }

    /// What so many strokes saved on each course take off the index.
    fn taken_off(&self, saved: f64) -> f64 {
        mean(self.courses.iter().map(|(_, worth)| worth * saved))
    }
}

/// The search for the steps to one goal.
struct Search<'a> {
    table: &'a Table<'a>,
    reckoner: &'a Reckoner,
    number: usize,
    to: f64,
    /// Whether the way is that to tour professionals.
    to_tour: bool,
    /// The parts that may be moved, the costliest first, and what each takes off the index when it goes all of the way.
    order: Vec<(Part, f64)>,
}

/// The sets worth naming: the smallest that reaches the goal, the next larger one, and every part that falls short.
pub fn steps(
    table: &Table<'_>,
    reckoner: &Reckoner,
    number: usize,
    to: f64,
    parts: &[PartGoal],
) -> Vec<Step> {
    if reckoner.index <= to {
        return Vec::new();
    }
    let toward_goal = parts.iter().filter(|part| part.saved > NOTHING);
    let toward_goal = toward_goal.map(|part| (part.part, reckoner.taken_off(part.saved)));
    let toward_tour = parts
        .iter()
        .map(|part| (part.part, reckoner.index - part.index_if_perfect));
    let search = |to_tour: bool, mut order: Vec<(Part, f64)>| {
        order.sort_by(|a, b| b.1.total_cmp(&a.1));
        let search = Search {
            table,
            reckoner,
            number,
            to,
            to_tour,
            order,
        };
        search.sets()
    };
    let found = search(false, toward_goal.collect());
    if found.is_empty() {
        search(true, toward_tour.collect())
    } else {
        found
    }
}

impl Search<'_> {
    /// The smallest set that could reach the goal if its parts took a little more off together than one by one.
    fn first_guess(&self) -> usize {
        let mut index = self.reckoner.index;
        let reaches = |(_, taken_off): &(Part, f64)| {
            index -= 1.1 * taken_off;
            index <= self.to
        };
        let place = self.order.iter().position(reaches);
        place.map_or(self.order.len(), |place| place + 1)
    }

    /// The steps of the sets worth naming.
    fn sets(&self) -> Vec<Step> {
        let all = self.order.len();
        let mut found = Vec::new();
        for size in self.first_guess().max(1)..=all {
            if found.len() < 2 || size == all {
                found.extend(self.step(size));
            }
        }
        found
    }

    /// The step of the first `size` parts; none where they do not reach the goal.
    fn step(&self, size: usize) -> Option<Step> {
        let none = self.reckoner.index;
        let reckoned = self.index(size, true);
        // Of a single part at tour standard the rounds tell the index, and no line need be drawn to it.
        let (whole, stretch) = match (self.to_tour, size) {
            (true, 1) => by_rounds(none, reckoned, none - self.order[0].1),
            _ => (reckoned, 1.0),
        };
        if whole > self.to {
            return None;
        }
        let half = none + stretch * (self.index(size, false) - none);
        Some(Step {
            parts: self.order[..size].iter().map(|(part, _)| *part).collect(),
            to_tour: self.to_tour,
            share: share(none, half, whole, self.to),
        })
    }

    /// The index with the first `size` parts gone all of the way, or half of it.
    fn index(&self, size: usize, whole: bool) -> f64 {
        let standard = match (self.to_tour, whole) {
            (true, true) => TOUR,
            (true, false) => HALF_TO_TOUR,
            (false, true) => Cast::goal(self.number),
            (false, false) => Cast::half_to_goal(self.number),
        };
        let moved = &self.order[..size];
        let plays = |part: Part| {
            if moved.iter().any(|(other, _)| *other == part) {
                standard
            } else {
                PLAYER
            }
        };
        self.reckoner.index(&self.table.expected(plays))
    }
}

/// An index that rounds tell in place of the one reckoned, and by how much that stretches the way to it from `none`.
fn by_rounds(none: f64, reckoned: f64, told: f64) -> (f64, f64) {
    let (reckoned, way) = (none - reckoned, none - told);
    let stretch = if reckoned > NOTHING {
        way / reckoned
    } else {
        1.0
    };
    (told, stretch)
}

/// Where the parabola through the index at no, half and all of the way meets the goal, which lies between the ends.
fn share(none: f64, half: f64, whole: f64, to: f64) -> f64 {
    let bend = 2.0 * (none + whole - 2.0 * half);
    let slope = whole - none - bend;
    let (mut low, mut high) = (0.0, 1.0);
    while high - low > 1e-6 {
        let middle = f64::midpoint(low, high);
        if none + middle * (slope + middle * bend) > to {
            low = middle;
        } else {
            high = middle;
        }
    }
    high
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_way_is_as_long_as_rounds_tell() {
        // Reckoned 12 to 8, by rounds 12 to 6: half of the way reckoned to 10 leads to 9.
        let (whole, stretch) = by_rounds(12.0, 8.0, 6.0);
        assert_eq!((whole, 12.0 + stretch * (10.0 - 12.0)), (6.0, 9.0));
        assert_eq!(by_rounds(12.0, 12.0, 11.9), (11.9, 1.0));
    }

    #[test]
    fn a_parabola_is_met_where_it_meets_the_goal() {
        // 12 − 4·share: straight.
        assert!((share(12.0, 10.0, 8.0, 9.0) - 0.75).abs() < 1e-5);
        // 12 − 6·share + 2·share²: 9 at (6 − √12)/4.
        let met = (6.0 - 12.0_f64.sqrt()) / 4.0;
        assert!((share(12.0, 9.5, 8.0, 9.0) - met).abs() < 1e-5);
        assert!((share(12.0, 10.0, 8.0, 8.0) - 1.0).abs() < 1e-5);
    }
}
