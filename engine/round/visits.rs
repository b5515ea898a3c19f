//! Where a golfer plays full shots from in his rounds, and what such a shot would be worth with other patterns.
//!
//! To the first order, a golfer's score changes with his patterns by what the shots he plays now would cost with the
//! other patterns, everything after them played as now. (The envelope theorem: what he would choose otherwise
//! changes the score to the second order only.) So hundreds of other patterns can be weighed without solving a hole.

use std::sync::Arc;

use rayon::prelude::*;

use super::bank::HoleBank;
use super::choose::{Care, Choice, Choosing, SwingId};
use super::finish::Spot;
use super::part::Part;
use super::place::Xy;
use super::solve::Solved;

/// Of so many rounds the full shots are kept.
pub const ROUNDS_VISITED: u64 = 32;

/// A full shot of a round: from where, and what was played.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Visit {
    /// The hole, by its place on the course.
    pub hole: usize,
    /// From where.
    pub spot: Spot,
    /// Swing and target.
    pub choice: Choice,
    /// The part it belongs to.
    pub part: Part,
}

/// Expected strokes of each visit's shot and what follows it, when the shot is played with the clubs of `banks` (by
/// hole: a golfer with the same clubs, one by one, but other patterns) and the rest as it is solved.
///
/// The golfer takes the same club to the same target, or for its whole distance, whichever is better with these
/// patterns.
#[must_use]
pub fn expected_with(
    visits: &[Visit],
    solved: &[Solved<'_>],
    banks: &[Arc<HoleBank<'_>>],
) -> Vec<f32> {
    let value = |visit: &Visit| {
        let own = &solved[visit.hole];
        let bank = &banks[visit.hole];
        let choosing = own.with_bank(visit.spot, bank);
        best(&choosing, own, visit)
    };
    visits.par_iter().map(value).collect()
}

fn best(choosing: &Choosing<'_>, own: &Solved<'_>, visit: &Visit) -> f32 {
    let candidates = candidates(choosing, visit);
    let best = choosing.best(&own.values, visit.spot, &candidates, Care::GUEST);
    best.map_or_else(|| own.expected(visit.spot), |(_, expected)| expected)
}

fn candidates(choosing: &Choosing<'_>, visit: &Visit) -> [Choice; 2] {
    let swing = SwingId {
        bank: 0,
        ..visit.choice.swing
    };
    let same = Choice {
        swing,
        ..visit.choice
    };
    [same, farther(same, visit.spot)].map(|choice| choosing.fitted(visit.spot, choice))
}

/// The choice aimed so far along the same line that the swing is made in full.
fn farther(choice: Choice, from: Spot) -> Choice {
    const FAR_YD: f32 = 1000.0;
    let way = choice.target.seen_from(from.at).unit();
    let target: Xy = from.at.moved(way, FAR_YD);
    Choice { target, ..choice }
}
