//! The player and the goal's golfer on a course: what each part saves when one plays it in place of the other.

use rayon::prelude::*;

use crate::player::Golfer;
use crate::round::part::Part;
use crate::round::side::Side;
use crate::round::solve::{Solved, Variant};
use crate::round::traffic::Traffic;

use super::card::{GOAL, PLAYER};
use super::venue::Venue;

/// What a part saves, and how the player then plays.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Saving {
    /// Fall of the expected score.
    pub saved: f64,
    /// Full shots a round of each part then, tee shots of par 4s and 5s aside.
    pub shots: [f64; Part::ALL.len()],
}

/// Two golfers on a course, both solved: the player, number 0 of the stage's, and the goal's golfer, number 1.
pub(super) struct Pair<'a> {
    /// The stage's golfers.
    pub golfers: &'a [&'a Golfer],
    pub venue: Venue<'a>,
    /// The holes solved for the player.
    pub own: &'a [Solved<'a>],
    /// And for the goal's golfer.
    target: &'a [Solved<'a>],
    /// Where either of them comes by.
    traffic: Vec<Traffic>,
    /// The player as he is, measured like the variants of him.
    pub now: Saving,
    now_strokes: f64,
    target_strokes: f64,
}

impl<'a> Pair<'a> {
    pub fn new(
        golfers: &'a [&'a Golfer],
        venue: Venue<'a>,
        (side, own): (&Side, &'a [Solved<'a>]),
        (goal_side, target): (&Side, &'a [Solved<'a>]),
    ) -> Self {
        let traffic: Vec<Traffic> = own
            .par_iter()
            .zip(target)
            .map(|(own, target)| own.traffic().or(target.traffic()))
            .collect();
        let (now_strokes, shots) = summed(&venue.variant(side, own, &traffic, true));
        let (target_strokes, _) = summed(&venue.variant(goal_side, target, &traffic, false));
        Self {
            golfers,
            venue,
            own,
            target,
            traffic,
            now: Saving { saved: 0.0, shots },
            now_strokes,
            target_strokes,
        }
    }

    /// The player's expected score less that of the goal's golfer.
    pub const fn gap(&self) -> f64 {
        self.now_strokes - self.target_strokes
    }

    /// What each part saves when it alone is at the goal's standard.
    pub fn saved_first(&self) -> Vec<Saving> {
        let saving = |replaced: Part| self.saving(replaced, GOAL, true);
        Part::ALL.into_par_iter().map(saving).collect()
    }

    /// What each part saves when every other is at the goal's standard already.
    pub fn saved_last(&self) -> Vec<f64> {
        let saving = |kept: Part| {
            let plays = |part| if part == kept { PLAYER } else { GOAL };
            let side = self.venue.stage.side_of(self.golfers, plays);
            let found = self.venue.variant(&side, self.target, &self.traffic, false);
            let (strokes, _) = summed(&found);
            strokes - self.target_strokes
        };
        Part::ALL.into_par_iter().map(saving).collect()
    }

    /// Expected score when one part near the green is played as a golfer with the player's clubs plays it.
    pub fn with_skill(&self, part: Part, other: &Golfer) -> f64 {
        let mut mixed = self.golfers[PLAYER].clone();
        match part {
            Part::ShortGame => mixed.short_game.0 = other.short_game.0,
            Part::Sand => mixed.sand.0 = other.sand.0,
            _ => mixed.putting.0 = other.putting.0,
        }
        let side = self.venue.stage.side_of(&[&mixed], |_| PLAYER);
        summed(&self.venue.variant(&side, self.own, &self.traffic, false)).0
    }

    /// What each of some parts saves when it alone is played as a golfer much like the player plays it.
    pub fn saved_with(&self, golfer: &Golfer, parts: &[Part]) -> Vec<f64> {
        let stage = self.venue.stage;
        let guests = stage.guest_like_first(golfer);
        let banks = stage.with_guests(self.venue.banks, &guests);
        let golfers: Vec<&Golfer> = self.golfers.iter().copied().chain([golfer]).collect();
        let guest = self.golfers.len();
        let saved = |replaced: &Part| {
            let plays = |part| if part == *replaced { guest } else { PLAYER };
            let side = stage.side_with_guest(&guests, &golfers, plays);
            let found = stage.variant(&banks, &side, self.own, &self.traffic, false);
            self.now_strokes - summed(&found).0
        };
        parts.par_iter().map(saved).collect()
    }

    fn saving(&self, replaced: Part, golfer: usize, counted: bool) -> Saving {
        let plays = |part| if part == replaced { golfer } else { PLAYER };
        let side = self.venue.stage.side_of(self.golfers, plays);
        let variant = self.venue.variant(&side, self.own, &self.traffic, counted);
        let (strokes, shots) = summed(&variant);
        Saving {
            saved: self.now_strokes - strokes,
            shots,
        }
    }
}

fn summed(holes: &[Variant]) -> (f64, [f64; Part::ALL.len()]) {
    let mut shots = [0.0; Part::ALL.len()];
    for hole in holes {
        for (sum, more) in shots.iter_mut().zip(hole.shots) {
            *sum += f64::from(more);
        }
    }
    (
        holes.iter().map(|hole| f64::from(hole.strokes)).sum(),
        shots,
    )
}
