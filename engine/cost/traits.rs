//! What about a part costs strokes: each trait alone at the goal's standard, the rest left as it is.
//!
//! Full shots are weighed where the player plays them in his rounds, by what they would cost with the other patterns;
//! chips, bunker shots and putts by solving the holes again, which for them is quick.

use rayon::prelude::*;

use crate::player::Golfer;
use crate::player::traits::Trait;
use crate::round::bank::HoleBank;
use crate::round::part::Part;
use crate::round::solve::Solved;
use crate::round::visits::{ROUNDS_VISITED, Visit, expected_with};

use super::figures::expected_score;
use super::venue::Venue;

/// What one trait of a part costs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TraitCost {
    /// The trait.
    pub which: Trait,
    /// Fall of the score when it alone is at the goal's standard, strokes a round.
    pub saved: f64,
}

/// A player's full shots, ready to be weighed with other patterns.
pub(super) struct Weighing<'a> {
    pub venue: Venue<'a>,
    /// The holes solved for him.
    pub own: &'a [Solved<'a>],
    pub visits: &'a [Visit],
    /// What each visit's shot and the rest of its hole cost as he is.
    pub now: &'a [f32],
    /// Rounds the visits come from.
    pub rounds: f64,
}

/// The bank of the stage's first golfer, the player, on each hole.
pub(super) fn own_banks<'a>(venue: &Venue<'a>) -> Vec<&'a HoleBank<'a>> {
    venue.banks.iter().map(|golfers| &golfers[0]).collect()
}

/// What each visit's shot and the rest of its hole cost as the player is.
pub(super) fn as_he_is(venue: &Venue<'_>, own: &[Solved<'_>], visits: &[Visit]) -> Vec<f32> {
    expected_with(visits, own, &own_banks(venue))
}

impl Weighing<'_> {
    /// Strokes more, by visit, with the patterns of a golfer who has the same clubs.
    pub fn more_with(&self, guest: &Golfer) -> Vec<f64> {
        let then = self
            .venue
            .stage
            .with_guest(guest, |banks| expected_with(self.visits, self.own, banks));
        let each = then.iter().zip(self.now);
        each.map(|(then, now)| f64::from(then - now) / self.rounds)
            .collect()
    }

    /// Strokes a round that the full shots of each part save with the patterns of a golfer who has the same clubs.
    fn saved_with(&self, guest: &Golfer) -> [f64; Part::ALL.len()] {
        let mut saved = [0.0; Part::ALL.len()];
        for (visit, more) in self.visits.iter().zip(self.more_with(guest)) {
            saved[visit.part as usize] -= more;
        }
        saved
    }
}

/// Rounds behind the visits of a tally of so many rounds.
pub(super) fn rounds_visited(rounds: u64) -> f64 {
    rounds.clamp(1, ROUNDS_VISITED) as f64
}

/// The traits of every part, the costliest first. `saved` is what each part saves as a whole.
pub(super) fn traits(
    weighing: &Weighing<'_>,
    golfers: &[&Golfer; 2],
) -> Vec<Vec<TraitCost>> {
    let [player, goal] = *golfers;
    let with: Vec<Golfer> = Trait::ALL
        .iter()
        .map(|which| player.with_trait_of(goal, *which))
        .collect();
    let full: Vec<[f64; Part::ALL.len()]> = with
        .par_iter()
        .map(|golfer| weighing.saved_with(golfer))
        .collect();
    let of_part = |part: Part| {
        let mut found: Vec<TraitCost> = match part {
            Part::ShortGame | Part::Sand => short(weighing, player, goal, part, &Trait::OF_TOUCH),
            Part::Putting => short(weighing, player, goal, part, &Trait::OF_PUTTS),
            _ => Trait::ALL
                .into_iter()
                .zip(&full)
                .map(|(which, saved)| TraitCost {
                    which,
                    saved: saved[part as usize],
                })
                .collect(),
        };
        found.sort_by(|a, b| b.saved.total_cmp(&a.saved));
        found
    };
    Part::ALL.into_par_iter().map(of_part).collect()
}

/// Traits of a part near the green, by solving.
fn short(
    weighing: &Weighing<'_>,
    player: &Golfer,
    goal: &Golfer,
    part: Part,
    which: &[Trait],
) -> Vec<TraitCost> {
    let now = expected_score(weighing.own);
    let saved = |&which: &Trait| {
        let other = player.with_trait_of(goal, which);
        TraitCost {
            which,
            saved: now - weighing.with_short_game_of(player, &other, part),
        }
    };
    which.iter().map(saved).collect()
}

impl Weighing<'_> {
    /// Expected score when one part near the green is played as another golfer plays it.
    pub fn with_short_game_of(&self, player: &Golfer, other: &Golfer, part: Part) -> f64 {
        let mut mixed = player.clone();
        match part {
            Part::ShortGame => mixed.short_game.0 = other.short_game.0,
            Part::Sand => mixed.sand.0 = other.sand.0,
            _ => mixed.putting.0 = other.putting.0,
        }
        let side = self.venue.stage.side_of(&[&mixed], |_| 0);
        expected_score(&self.venue.solve(&side, Some(self.own)))
    }
}
