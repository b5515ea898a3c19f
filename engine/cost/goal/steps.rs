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
    /// The least share of the way to the goal's golfers (to the tour's in parts in which those are no better than the
    /// player) that reaches the goal, 0 to 1.
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

    /// The index when the expected score falls by so much on each course.
    fn index_with(&self, saved: f64) -> f64 {
        self.index - mean(self.courses.iter().map(|(_, worth)| worth * saved))
    }
}

/// The search for the steps to one goal.
struct Search<'a> {
    table: &'a Table<'a>,
    reckoner: &'a Reckoner,
    number: usize,
    to: f64,
    /// Parts in which the goal's golfers are better, the costliest first; then, if those are to be moved too, the
    /// others, toward the tour's.
    order: Vec<Part>,
    /// How many of them go toward the goal's golfers.
    toward_goal: usize,
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
    let mut short: Vec<&PartGoal> = parts.iter().filter(|part| part.saved > NOTHING).collect();
    short.sort_by(|a, b| b.saved.total_cmp(&a.saved));
    let mut others: Vec<&PartGoal> = parts.iter().filter(|part| part.saved <= NOTHING).collect();
    others.sort_by(|a, b| a.index_if_perfect.total_cmp(&b.index_if_perfect));
    let names = |parts: &[&PartGoal]| parts.iter().map(|part| part.part).collect::<Vec<_>>();
    let mut search = Search {
        table,
        reckoner,
        number,
        to,
        order: names(&short),
        toward_goal: short.len(),
    };
    let found = search.sets(search.first_guess(&short));
    if !found.is_empty() {
        return found;
    }
    // Everything that falls short is not enough: the rest would have to go beyond the goal's golfers.
    search.order.extend(names(&others));
    search.step(search.order.len()).into_iter().collect()
}

impl Search<'_> {
    /// The smallest set that could reach the goal if its parts saved a little more together than one by one.
    fn first_guess(&self, short: &[&PartGoal]) -> usize {
        let reaches = |size: &usize| {
            let saved: f64 = short[..*size].iter().map(|part| part.saved).sum();
            self.reckoner.index_with(1.1 * saved) <= self.to
        };
        (1..short.len()).find(reaches).unwrap_or(short.len())
    }

    /// The steps of the sets worth naming, from the first size on that reaches the goal.
    fn sets(&self, from: usize) -> Vec<Step> {
        let all = self.order.len();
        let mut found = Vec::new();
        for size in from.max(1)..=all {
            if found.len() < 2 || size == all {
                found.extend(self.step(size));
            }
        }
        found
    }

    /// The step of the first `size` parts; none where they do not reach the goal.
    fn step(&self, size: usize) -> Option<Step> {
        let whole = self.index(size, true);
        if whole > self.to {
            return None;
        }
        let half = self.index(size, false);
        Some(Step {
            parts: self.order[..size].to_vec(),
            share: share(self.reckoner.index, half, whole, self.to),
        })
    }

    /// The index with the first `size` parts gone all of the way, or half of it.
    fn index(&self, size: usize, whole: bool) -> f64 {
        let (goal, tour) = if whole {
            (Cast::goal(self.number), TOUR)
        } else {
            (Cast::half_to_goal(self.number), HALF_TO_TOUR)
        };
        let plays = |part: Part| match self.order[..size].iter().position(|moved| *moved == part) {
            Some(place) if place < self.toward_goal => goal,
            Some(_) => tour,
            None => PLAYER,
        };
        self.reckoner.index(&self.table.expected(plays))
    }
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
    fn a_parabola_is_met_where_it_meets_the_goal() {
        // 12 − 4·share: straight.
        assert!((share(12.0, 10.0, 8.0, 9.0) - 0.75).abs() < 1e-5);
        // 12 − 6·share + 2·share²: 9 at (6 − √12)/4.
        let met = (6.0 - 12.0_f64.sqrt()) / 4.0;
        assert!((share(12.0, 9.5, 8.0, 9.0) - met).abs() < 1e-5);
        assert!((share(12.0, 10.0, 8.0, 8.0) - 1.0).abs() < 1e-5);
    }
}
