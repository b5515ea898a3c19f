//! What lies between a player of an earlier file and the same player today.

use crate::files::Faults;
use crate::player::{BagClub, Golfer, Origin};

use super::ByRules;
use super::worth::{Worth, scores};

/// The player as he is in an earlier file, with whatever was not measured on both sides as it is today: what nobody
/// measured has not changed for all anyone knows.
#[must_use]
pub fn as_before(before: &Golfer, today: &Golfer) -> Golfer {
    let known = |origin: Origin| origin != Origin::Assumed;
    let club = |entry: &BagClub| {
        let earlier = before.clubs.iter().find(|other| other.club == entry.club);
        let both = earlier.filter(|other| known(other.origin) && known(entry.origin));
        both.unwrap_or(entry).clone()
    };
    let mut golfer = Golfer {
        clubs: today.clubs.iter().map(club).collect(),
        ..today.clone()
    };
    if known(before.short_game.1) && known(today.short_game.1) {
        golfer.short_game = before.short_game;
    }
    if known(before.sand.1) && known(today.sand.1) {
        golfer.sand = before.sand;
    }
    if known(before.putting.1) && known(today.putting.1) {
        golfer.putting = before.putting;
    }
    golfer
}

/// What the change from one golfer to the other is worth on a course by its rules. Both are solved afresh: one solved
/// from the other's solution would lean towards it.
///
/// # Errors
/// When a rule fails.
pub fn worth_between(
    before: &Golfer,
    today: &Golfer,
    (course, rules): ByRules<'_>,
) -> Result<Worth, Faults> {
    let scores = scores(&[before, today], (course, rules));
    rules.outcome()?;
    Ok(Worth {
        strokes: scores[0] - scores[1],
        low: None,
        high: None,
        before: scores[0],
        after: scores[1],
        real: None,
    })
}
