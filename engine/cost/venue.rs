//! A course with golfers' shots on it, and the handicap index that rounds on it make.

use crate::course::{Course, Rating};
use crate::player::Golfer;
use crate::round::play::Rounds;
use crate::round::side::Side;
use crate::round::solve::{Asked, Solved, Variant};
use crate::round::stage::{HoleBanks, Stage};
use crate::round::tally::Tally;
use crate::round::traffic::Traffic;
use crate::rules::Rulebook;

use super::effort::Effort;
use super::handicap::simulated;

/// The player's number among a stage's golfers, and the goal's golfer's.
pub(super) const PLAYER: usize = 0;
pub(super) const GOAL: usize = 1;

/// A course with golfers' shots on it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Venue<'a> {
    /// The course.
    pub course: &'a Course,
    /// The rules in force on it.
    pub rules: &'a Rulebook,
    /// The course set up for the golfers by them.
    pub stage: &'a Stage<'a>,
    /// Their banks on each hole.
    pub banks: &'a [HoleBanks<'a>],
}

/// A course, the rules in force on it, and its rating by them.
#[derive(Debug, Clone, Copy)]
pub(super) struct RatedCourse<'a> {
    /// The course.
    pub course: &'a Course,
    /// The rules.
    pub rules: &'a Rulebook,
    /// The rating.
    pub rating: Rating,
}

/// A venue with its rating, solved for the player as he is: where his index is asked for. The player is the first of
/// the stage's golfers.
#[derive(Debug, Clone, Copy)]
pub(super) struct Home<'a> {
    /// The venue.
    pub venue: Venue<'a>,
    /// Its rating.
    pub rating: Rating,
    /// Its holes, solved for the player.
    pub own: &'a [Solved<'a>],
}

impl<'a> Venue<'a> {
    /// Solves the holes for a side.
    pub fn solve(&self, side: &'a Side, start: Option<&'a [Solved<'a>]>) -> Vec<Solved<'a>> {
        self.stage.solve(self.banks, side, start)
    }

    /// What is to be expected of a side that plays much like one whose holes are solved: see [`Stage::variant`].
    pub fn variant(
        &self,
        side: &Side,
        start: &[Solved<'_>],
        worth: &[Traffic],
        asked: Asked<'_>,
    ) -> Vec<Variant> {
        self.stage.variant(self.banks, side, start, worth, asked)
    }

    /// Plays rounds of a solved side, measured against the goal's where there is one; nothing is counted under labels.
    pub fn play(
        &self,
        golfer: &[Solved<'_>],
        goal: Option<&[Solved<'_>]>,
        effort: Effort,
        done: &(dyn Fn(u64) + Sync),
    ) -> Tally {
        self.rounds(golfer, goal, effort, &self.rules.uncounted(), done)
    }

    /// The same, with shots counted under the labels of the rules: for the rounds of the player that are told.
    pub fn play_and_count(
        &self,
        golfer: &[Solved<'_>],
        goal: Option<&[Solved<'_>]>,
        effort: Effort,
        done: &(dyn Fn(u64) + Sync),
    ) -> Tally {
        self.rounds(golfer, goal, effort, self.rules, done)
    }

    fn rounds(
        &self,
        golfer: &[Solved<'_>],
        goal: Option<&[Solved<'_>]>,
        effort: Effort,
        rules: &Rulebook,
        done: &(dyn Fn(u64) + Sync),
    ) -> Tally {
        let rounds = Rounds {
            holes: &self.course.holes,
            golfer,
            goal,
            seed: effort.seed,
        };
        rounds.play_and_count(rules, effort.rounds, done)
    }
}

/// Sets rated courses up for golfers, solves them for the first of them, the player, and hands them over.
pub(super) fn with_homes<R>(
    golfers: &[&Golfer],
    courses: &[RatedCourse<'_>],
    then: impl FnOnce(&[Home<'_>]) -> R,
) -> R {
    let stages: Vec<Stage> = courses
        .iter()
        .map(|on| Stage::by_rules(on.course, golfers, on.rules))
        .collect();
    let banks: Vec<_> = stages.iter().map(Stage::hole_banks).collect();
    let sides: Vec<Side> = stages.iter().map(|stage| stage.side(|_| 0)).collect();
    let venues: Vec<Venue> = courses
        .iter()
        .zip(stages.iter().zip(&banks))
        .map(|(on, (stage, banks))| Venue {
            course: on.course,
            rules: on.rules,
            stage,
            banks,
        })
        .collect();
    let solved: Vec<_> = venues
        .iter()
        .zip(&sides)
        .map(|(venue, side)| venue.solve(side, None))
        .collect();
    let homes: Vec<Home> = venues
        .iter()
        .zip(&solved)
        .zip(courses)
        .map(|((venue, own), on)| Home {
            venue: *venue,
            rating: on.rating,
            own,
        })
        .collect();
    then(&homes)
}

impl Home<'_> {
    /// The holes solved for the player with another's short game, sand and putting: what `then` makes of them.
    pub fn with_skills_of<R>(&self, golfer: &Golfer, then: impl FnOnce(&[Solved<'_>]) -> R) -> R {
        let side = self.venue.stage.side_of(&[golfer], |_| 0);
        then(&self.venue.solve(&side, Some(self.own)))
    }

    /// The index that counted rounds make; `handicap` is where its search begins. None where they are fewer than 20.
    pub fn index(&self, tally: &Tally, handicap: f64) -> Option<f64> {
        simulated::index(&tally.scores, self.venue.course, self.rating, handicap)
    }
}
