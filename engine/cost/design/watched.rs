//! Rounds of a level, watched: which greens hold, and which bunkers are found.

use std::sync::atomic::{AtomicU64, Ordering};

use crate::cost::ByRules;
use crate::course::{Hole, Lie, LieGrid};
use crate::player::Golfer;
use crate::round::play::{Rounds, Watched as Shot};
use crate::round::stage::Stage;

use super::LEAST_PITCHED;

/// Rounds of each golfer. A bunker that one ball in a thousand rounds ends in is missed once in seven times.
pub(super) const ROUNDS: u64 = 2000;
/// What is said of a course does not change with the seed of a player's rounds.
const SEED: u64 = 1;

/// What was seen.
pub(super) struct Watched {
    /// By hole: expected strokes from the tee.
    pub expected: Vec<f64>,
    holes: Vec<Seen>,
}

/// What was seen of one hole. Counts are added from any thread: their sums do not hang on the order.
struct Seen {
    pitched: AtomicU64,
    held: AtomicU64,
    /// By cell of the grid: how many balls came to rest in sand there.
    in_sand: Vec<AtomicU64>,
}

impl Seen {
    fn of(hole: &Hole) -> Self {
        let cells = 0..hole.grid.lies.len();
        Self {
            pitched: AtomicU64::new(0),
            held: AtomicU64::new(0),
            in_sand: cells.map(|_| AtomicU64::new(0)).collect(),
        }
    }

    fn watch(&self, grid: &LieGrid, shot: Shot<'_>) {
        let count = |counter: &AtomicU64| counter.fetch_add(1, Ordering::Relaxed);
        let Shot { is_full, end, .. } = shot;
        let at = end.spot;
        if is_full && end.pitched == Lie::Green {
            count(&self.pitched);
            if at.lie == Lie::Green && !end.replay {
                count(&self.held);
            }
        }
        if at.lie == Lie::Sand {
            let column = f64::from(at.at.x) - grid.left_yd;
            let row = f64::from(at.at.y) - grid.near_yd;
            let cell = row as usize * grid.columns + column as usize;
            self.in_sand.get(cell).map(count);
        }
    }
}

impl Watched {
    /// Solves and plays a course as a golfer. Whoever shows a figure asks the rules for their outcome first.
    pub fn of(golfer: &Golfer, (course, rules): ByRules<'_>) -> Self {
        let golfers = [golfer];
        let stage = Stage::by_rules(course, &golfers, rules);
        let banks = stage.hole_banks();
        let side = stage.side(|_| 0);
        let solved = stage.solve(&banks, &side, None);
        let holes: Vec<Seen> = course.holes.iter().map(Seen::of).collect();
        let rounds = Rounds {
            holes: &course.holes,
            golfer: &solved,
            goal: None,
            seed: SEED,
        };
        let watch = |shot: Shot<'_>| holes[shot.hole].watch(&course.holes[shot.hole].grid, shot);
        let _ = rounds.play_and_watch(&rules.uncounted(), ROUNDS, &|_| {}, Some(&watch));
        Self {
            expected: solved
                .iter()
                .map(|hole| f64::from(hole.values.tee))
                .collect(),
            holes,
        }
    }

    /// Of the full shots that pitched on a green, those that stayed, percent; none where there were too few.
    pub fn held_pct(&self, index: usize) -> Option<f64> {
        let seen = &self.holes[index];
        let pitched = seen.pitched.load(Ordering::Relaxed);
        let held = seen.held.load(Ordering::Relaxed);
        (pitched >= LEAST_PITCHED).then(|| 100.0 * held as f64 / pitched as f64)
    }

    /// How many balls came to rest in sand on a cell of a hole's grid.
    pub fn in_sand(&self, index: usize, cell: usize) -> u64 {
        self.holes[index].in_sand[cell].load(Ordering::Relaxed)
    }
}
