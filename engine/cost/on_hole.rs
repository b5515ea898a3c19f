//! Holes as a golfer plays them: the way from tee to green, what each of its shots costs, strokes lost by part of the
//! game, and expected strokes all over the ground.

use rayon::prelude::*;

use crate::course::{Hole, Lie};
use crate::files::Faults;
use crate::player::Golfer;
use crate::round::finish::Spot;
use crate::round::part::Part;
use crate::round::place::Xy;
use crate::round::play::Rounds;
use crate::round::side::Side;
use crate::round::solve::Solved;
use crate::round::stage::HoleBanks;
use crate::round::stage::Stage;
use crate::round::way::{Leg, way};

use super::ByRules;
use super::effort::Effort;

/// A hole as a golfer plays it.
#[derive(Debug, Clone, PartialEq)]
pub struct OnHole {
    /// The golfer's expected strokes from the tee.
    pub expected: f64,
    /// Those of the golfer beside him, where there is one.
    pub goal_expected: Option<f64>,
    /// The way, shot by shot.
    pub legs: Vec<CostedLeg>,
    /// Strokes lost to the golfer beside him by part, a round, for the parts that are played here; empty without one.
    pub lost: Vec<(Part, f64)>,
    /// Expected strokes over the ground.
    pub map: StrokesMap,
}

/// One shot of the way and what it costs.
#[derive(Debug, Clone, PartialEq)]
pub struct CostedLeg {
    /// The shot.
    pub leg: Leg,
    /// The golfer's expected strokes from where it is played.
    pub expected: f64,
    /// For each shot of the pattern, the strokes it loses to the golfer beside him, or, without one, to the golfer's own
    /// expected strokes.
    pub costs: Vec<f64>,
    /// Their mean.
    pub lost: f64,
}

/// Expected strokes over a hole, square by square.
#[derive(Debug, Clone, PartialEq)]
pub struct StrokesMap {
    /// x of the left edge of the leftmost squares, yards.
    pub left_yd: f64,
    /// y of the near edge of the nearest squares, yards.
    pub near_yd: f64,
    /// Size of a square, yards.
    pub step_yd: f64,
    /// Squares across.
    pub columns: usize,
    /// Expected strokes from the middle of each square on its lie, row by row from the nearest; none in water and out
    /// of bounds.
    pub strokes: Vec<Option<f64>>,
}

/// Size of the squares, yards.
const STEP_YD: f64 = 2.0;

const PLAYER: usize = 0;
const GOAL: usize = 1;

/// Some holes of a course, by their places on it, as `player` plays them; beside `goal` where there is one, whose
/// rounds are then played for the strokes lost by part.
///
/// # Errors
/// The fault of a rule that failed.
pub fn on_holes(
    player: &Golfer,
    goal: Option<&Golfer>,
    (course, rules): ByRules<'_>,
    places: &[usize],
    effort: Effort,
) -> Result<Vec<OnHole>, Faults> {
    let golfers: Vec<&Golfer> = std::iter::once(player).chain(goal).collect();
    let stage = Stage::by_rules(course, &golfers, rules);
    let banks = stage.hole_banks();
    let sides = [
        Some(stage.side(|_| PLAYER)),
        goal.map(|_| stage.side(|_| GOAL)),
    ];
    let seen = |&place: &usize| {
        let hole = &course.holes[place];
        let [own, goal] = sides
            .each_ref()
            .map(|side| solve(&stage, &banks, side, place));
        own.map(|own| on_hole(hole, &own, goal.as_ref(), effort))
    };
    let seen: Vec<Option<OnHole>> = places.par_iter().map(seen).collect();
    rules.outcome()?;
    Ok(seen.into_iter().flatten().collect())
}

fn solve<'a>(
    stage: &'a Stage<'a>,
    banks: &'a [HoleBanks<'a>],
    side: &'a Option<Side>,
    place: usize,
) -> Option<Solved<'a>> {
    let side = side.as_ref()?;
    Some(stage.solve_hole(place, banks, side))
}

/// A hole that stands solved for a golfer, and for the one beside him.
pub(super) fn on_hole(
    hole: &Hole,
    own: &Solved<'_>,
    goal: Option<&Solved<'_>>,
    effort: Effort,
) -> OnHole {
    let beside = goal.unwrap_or(own);
    let legs = way(own, hole.par);
    OnHole {
        expected: f64::from(own.values.tee),
        goal_expected: goal.map(|goal| f64::from(goal.values.tee)),
        legs: legs
            .into_iter()
            .map(|leg| costed(leg, own, beside))
            .collect(),
        lost: goal.map_or_else(Vec::new, |goal| lost(hole, own, goal, effort)),
        map: StrokesMap::of(hole, own),
    }
}

fn costed(leg: Leg, own: &Solved<'_>, beside: &Solved<'_>) -> CostedLeg {
    let before = f64::from(beside.expected(leg.from));
    let cost = |end: &crate::round::finish::Finish| {
        f64::from(beside.expected(end.spot)) + 1.0 + f64::from(end.penalty) - before
    };
    let costs: Vec<f64> = leg.shots.iter().map(|shot| cost(&shot.end)).collect();
    let missed: f64 = leg
        .shots
        .iter()
        .zip(&costs)
        .map(|(shot, cost)| shot.weight * cost)
        .sum();
    CostedLeg {
        expected: f64::from(own.expected(leg.from)),
        // A chip that is holed takes its one stroke.
        lost: (1.0 - leg.holed) * missed + leg.holed * (1.0 - before),
        costs,
        leg,
    }
}

/// Strokes lost by part on one hole, from rounds of it.
fn lost(hole: &Hole, own: &Solved<'_>, goal: &Solved<'_>, effort: Effort) -> Vec<(Part, f64)> {
    let rounds = Rounds {
        holes: std::slice::from_ref(hole),
        golfer: std::slice::from_ref(own),
        goal: Some(std::slice::from_ref(goal)),
        seed: effort.seed,
    };
    let tally = rounds.play(effort.rounds, &|_| {});
    let each = |part: Part| {
        let played = tally.shots[part as usize] > 0;
        played.then(|| (part, tally.lost[part as usize] / tally.rounds.max(1) as f64))
    };
    Part::ALL.into_iter().filter_map(each).collect()
}

impl StrokesMap {
    fn of(hole: &Hole, solved: &Solved<'_>) -> Self {
        let grid = &hole.grid;
        let squares = |cells: usize| (cells as f64 / STEP_YD).ceil() as usize;
        let (columns, rows) = (squares(grid.columns), squares(grid.rows));
        let strokes = |square: usize| {
            let x_yd = grid.left_yd + ((square % columns) as f64 + 0.5) * STEP_YD;
            let y_yd = grid.near_yd + ((square / columns) as f64 + 0.5) * STEP_YD;
            let lie = grid.lie(x_yd, y_yd);
            let at = Xy::new(x_yd as f32, y_yd as f32);
            let playable = !matches!(lie, Lie::Water | Lie::OutOfBounds);
            playable.then(|| f64::from(solved.expected(Spot { at, lie })))
        };
        Self {
            left_yd: grid.left_yd,
            near_yd: grid.near_yd,
            step_yd: STEP_YD,
            columns,
            strokes: (0..columns * rows).map(strokes).collect(),
        }
    }
}
