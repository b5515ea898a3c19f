//! The player and the goal's golfer on a course: what each part saves when one plays it in place of the other.

use rayon::prelude::*;

use crate::player::Golfer;
use crate::round::part::Part;
use crate::round::side::Side;
use crate::round::solve::{Asked, Solved, Variant};
use crate::round::traffic::Traffic;

use super::venue::{GOAL, PLAYER, Venue};

/// What a part saves, and how the player then plays.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Saving {
    /// Fall of the expected score.
    pub saved: f64,
    /// Full shots a round of each part now, tee shots of par 4s and 5s aside.
    pub now: Shots,
    /// And then.
    pub then: Shots,
}

/// Full shots of each part.
type Shots = [f64; Part::ALL.len()];

/// What is to be expected of a round.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Round {
    strokes: f64,
    shots: Shots,
}

/// A golfer as he is, by part: as a golfer is measured who has others' swings in place of his own of that part. Those are
/// thought about for him too, or the others' would look better only for that.
type ByPart = [Round; Part::ALL.len()];

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
    /// The player as he is.
    now: Round,
    now_by_part: ByPart,
}

/// What parts save as the last to reach the goal, and the whole gap to it.
pub(super) struct Last {
    /// By part: what it saves when every other is at the goal's standard already.
    pub saved: Vec<f64>,
    /// The player's expected score less that of the goal's golfer.
    pub gap: f64,
}

impl<'a> Pair<'a> {
    pub fn new(
        golfers: &'a [&'a Golfer],
        venue: Venue<'a>,
        (side, own): (&Side, &'a [Solved<'a>]),
        target: &'a [Solved<'a>],
    ) -> Self {
        let traffic: Vec<Traffic> = own
            .par_iter()
            .zip(target)
            .map(|(own, target)| own.traffic().or(target.traffic()))
            .collect();
        let (now, now_by_part) = as_he_is(venue, (PLAYER, side), own, &traffic, COUNTED);
        Self {
            golfers,
            venue,
            own,
            target,
            traffic,
            now,
            now_by_part,
        }
    }

    /// What each part saves when it alone is at the goal's standard.
    pub fn saved_first(&self) -> Vec<Saving> {
        let saving = |replaced: Part| {
            let plays = |part| if part == replaced { GOAL } else { PLAYER };
            let side = self.venue.stage.side_of(self.golfers, plays);
            let then = summed(&self.venue.variant(&side, self.own, &self.traffic, COUNTED));
            let now = &self.now_by_part[replaced as usize];
            Saving {
                saved: now.strokes - then.strokes,
                now: now.shots,
                then: then.shots,
            }
        };
        Part::ALL.into_par_iter().map(saving).collect()
    }

    /// What each part saves when every other is at the goal's standard already, and the gap.
    pub fn saved_last(&self) -> Last {
        let side = self.venue.stage.side_of(self.golfers, |_| GOAL);
        let asked = Asked::default();
        let (then, by_part) =
            as_he_is(self.venue, (GOAL, &side), self.target, &self.traffic, asked);
        let saving = |kept: Part| {
            let plays = |part| if part == kept { PLAYER } else { GOAL };
            let side = self.venue.stage.side_of(self.golfers, plays);
            let found = self.venue.variant(&side, self.target, &self.traffic, asked);
            summed(&found).strokes - by_part[kept as usize].strokes
        };
        Last {
            saved: Part::ALL.into_par_iter().map(saving).collect(),
            gap: self.now.strokes - then.strokes,
        }
    }

    /// The player's expected score.
    pub const fn score(&self) -> f64 {
        self.now.strokes
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
        let found = self
            .venue
            .variant(&side, self.own, &self.traffic, Asked::default());
        summed(&found).strokes
    }
}

/// Shots are counted.
const COUNTED: Asked<'_> = Asked {
    rethought: &[],
    counted: true,
};

/// A golfer of the stage's as he is, and by part.
fn as_he_is(
    venue: Venue<'_>,
    (golfer, side): (usize, &Side),
    solved: &[Solved<'_>],
    traffic: &[Traffic],
    asked: Asked<'_>,
) -> (Round, ByPart) {
    let measured = |asked: Asked<'_>| summed(&venue.variant(side, solved, traffic, asked));
    let plain = measured(asked);
    let by_part = Part::ALL.map(|part| {
        let rethought = venue.stage.swings_of(golfer, part);
        if rethought.is_empty() {
            return plain;
        }
        measured(Asked {
            rethought: &rethought,
            ..asked
        })
    });
    (plain, by_part)
}

fn summed(holes: &[Variant]) -> Round {
    let mut shots = [0.0; Part::ALL.len()];
    for hole in holes {
        for (sum, more) in shots.iter_mut().zip(hole.shots) {
            *sum += f64::from(more);
        }
    }
    Round {
        strokes: holes.iter().map(|hole| f64::from(hole.strokes)).sum(),
        shots,
    }
}
