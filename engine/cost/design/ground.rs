//! What the ground itself tells: carries nobody of a level can make, and bunkers that are not in play.

use crate::course::carry::{self, labelled, middle};
use crate::course::line::Line;
use crate::course::{Hole, Lie, Point};

use super::watched::{ROUNDS, Watched};
use super::{Reach, Warning};

/// Bunkers farther from the line of play belong to other holes, yards.
const BESIDE_YD: f64 = 45.0;
/// Smaller pieces of sand are edges of bunkers cut off, square yards.
const LEAST_SQ_YD: usize = 12;

/// A carry longer than the bogey golfer's longest shot.
pub(super) fn carry_warning(hole: &Hole, reach: Reach) -> Option<Warning> {
    let carry = carry::forced(hole)?;
    let most_yd = if carry.is_from_tee {
        reach.tee_yd
    } else {
        reach.fairway_yd
    };
    (carry.length_yd > most_yd).then_some(Warning::Carry {
        carry_yd: carry.length_yd,
        most_yd,
        is_from_tee: carry.is_from_tee,
    })
}

/// Bunkers beside the line of play in which no ball ended.
pub(super) fn bunker_warnings(hole: &Hole, seen: [&Watched; 2], index: usize) -> Vec<Warning> {
    let grid = &hole.grid;
    let Some(line) = Line::through(&hole.line) else {
        return Vec::new();
    };
    let sand: Vec<bool> = grid.lies.iter().map(|lie| *lie == Lie::Sand).collect();
    let (of, sizes) = labelled(&sand, grid.columns);
    let mut bunkers = vec![(0.0, 0.0, 0_u64); sizes.len()];
    for (cell, bunker) in of.iter().enumerate() {
        let Some(bunker) = bunker else { continue };
        let Point { x_yd, y_yd } = middle(grid, cell);
        let balls: u64 = seen.iter().map(|seen| seen.in_sand(index, cell)).sum();
        let (x, y, count) = &mut bunkers[*bunker];
        (*x, *y, *count) = (*x + x_yd, *y + y_yd, *count + balls);
    }
    let quiet = |((x, y, balls), size): ((f64, f64, u64), usize)| {
        let cells = size as f64;
        let at = line.station(x / cells, y / cells);
        let is_told = balls == 0 && size >= LEAST_SQ_YD && at.side_yd.abs() <= BESIDE_YD;
        is_told.then_some(Warning::Bunker {
            along_yd: at.along_yd,
            side_yd: at.side_yd,
            rounds: 2 * ROUNDS,
        })
    };
    bunkers.into_iter().zip(sizes).filter_map(quiet).collect()
}
