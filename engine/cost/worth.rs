//! What a change of clubs is worth on a course.

use rayon::prelude::*;
use serde::Serialize;

use crate::course::Course;
use crate::player::compare::Bags;
use crate::player::{Golfer, club::Club};
use crate::round::stage::Stage;

use super::ByRules;
use super::figures::expected_score;
use crate::files::Faults;
use crate::rules::Rulebook;

/// What a change is worth in strokes a round. Expected scores are worked out from the holes backwards, without rounds,
/// and so without their luck; both bags are sampled with the same draws.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Worth {
    /// Fall of the expected score: before less after. Negative where the score rises.
    pub strokes: f64,
    /// Expected score with the compared clubs as before.
    pub before: f64,
    /// Expected score with the compared clubs as after.
    pub after: f64,
    /// What the clubs alone are worth of which some change is real; none where there is no such club.
    pub real: Option<RealWorth>,
}

/// What the clubs are worth of which some change is real.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RealWorth {
    /// The clubs.
    pub clubs: Vec<Club>,
    /// Fall of the expected score.
    pub strokes: f64,
    /// Expected score with these clubs as after, the others as before.
    pub after: f64,
}

/// What the change from one bag to the other is worth on a course, by the built-in rules.
#[must_use]
pub fn worth(bags: &Bags, course: &Course) -> Worth {
    unchecked(bags, (course, &Rulebook::default()))
}

/// The same by the rules of a rulebook.
///
/// # Errors
/// When a rule fails.
pub fn worth_by_rules(bags: &Bags, (course, rules): ByRules<'_>) -> Result<Worth, Faults> {
    let worth = unchecked(bags, (course, rules));
    rules.outcome()?;
    Ok(worth)
}

fn unchecked(bags: &Bags, on: ByRules<'_>) -> Worth {
    let golfers: Vec<&Golfer> = [&bags.before, &bags.after]
        .into_iter()
        .chain(&bags.real)
        .collect();
    let scores = scores(&golfers, on);
    let (before, after) = (scores[0], scores[1]);
    let real = (!bags.real_clubs.is_empty()).then(|| {
        // Where every club is among them, the bag is the one after.
        let after = scores.get(2).copied().unwrap_or(after);
        RealWorth {
            clubs: bags.real_clubs.clone(),
            strokes: before - after,
            after,
        }
    });
    Worth {
        strokes: before - after,
        before,
        after,
        real,
    }
}

/// Expected scores. Every golfer's holes are solved afresh: one solved from another's would lean towards it.
pub(super) fn scores(golfers: &[&Golfer], (course, rules): ByRules<'_>) -> Vec<f64> {
    let stage = Stage::by_rules(course, golfers, rules);
    let banks = stage.hole_banks();
    (0..golfers.len())
        .into_par_iter()
        .map(|golfer| {
            let side = stage.side(|_| golfer);
            expected_score(&stage.solve(&banks, &side, None))
        })
        .collect()
}
