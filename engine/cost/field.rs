//! Many players on one course by one set of rules: what they share is worked out once.
//!
//! The goals' golfers are solved and played once for all players, and so is the rating; a player is solved once for all
//! goals. Every figure is the one that `play` and `rank` give: the same functions work on the same solutions.

use std::sync::OnceLock;

use rayon::prelude::*;

use crate::course::Course;
use crate::files::Faults;
use crate::player::levels::LevelError;
use crate::player::{Golfer, Sex};
use crate::round::side::Side;
use crate::round::solve::Solved;
use crate::round::stage::{HoleBanks, Stage};
use crate::round::tally::Tally;
use crate::rules::Rulebook;

use super::card::{Card, Target, against, compared, ordered};
use super::changes::{Ready, ready_rated};
use super::effort::Effort;
use super::infer::{Assume, Inferred};
use super::known::Known;
use super::rating::{self, CourseRating};
use super::venue::{GOAL, PLAYER, Venue};
use super::{ByRules, PlayError};

/// A course ready for players, with the golfers of their goals.
pub struct Field<'a> {
    course: &'a Course,
    rules: &'a Rulebook,
    effort: Effort,
    goals: &'a [&'a Golfer],
    rivals: Vec<Rival<'a>>,
    ratings: [OnceLock<Result<Option<CourseRating>, LevelError>>; 2],
}

/// A goal's golfer as he stands on the course.
struct Rival<'a> {
    stage: &'a Stage<'a>,
    banks: &'a [HoleBanks<'a>],
    solved: &'a [Solved<'a>],
    tally: Tally,
}

/// Against whom a player stands.
#[derive(Debug, Clone, Copy)]
pub enum Against<'a> {
    /// A goal's golfer of the field, by number.
    Goal(usize),
    /// Another golfer, solved for this player alone.
    Alone(&'a Golfer),
}

/// Sets a course up for players with these goals, and hands it over. Whoever shows a figure of it asks
/// [`Field::outcome`] after the figure was worked out.
pub fn field<R>(
    (course, rules): ByRules<'_>,
    goals: &[&Golfer],
    effort: Effort,
    done: &(dyn Fn(u64) + Sync),
    then: impl FnOnce(&Field<'_>) -> R,
) -> R {
    // In the place the goal's golfer has on a player's stage, so that his swings have the numbers they have there.
    let pairs: Vec<[&Golfer; 2]> = goals.iter().map(|goal| [*goal, *goal]).collect();
    let stages: Vec<Stage> = pairs
        .par_iter()
        .map(|pair| Stage::by_rules(course, pair, rules))
        .collect();
    let banks: Vec<_> = stages.iter().map(Stage::hole_banks).collect();
    let sides: Vec<Side> = stages.iter().map(|stage| stage.side(|_| GOAL)).collect();
    let solved: Vec<Vec<Solved>> = (0..stages.len())
        .into_par_iter()
        .map(|goal| stages[goal].solve(&banks[goal], &sides[goal], None))
        .collect();
    let rival = |goal: usize| {
        let venue = Venue {
            course,
            rules,
            stage: &stages[goal],
            banks: &banks[goal],
        };
        Rival {
            stage: &stages[goal],
            banks: &banks[goal],
            solved: &solved[goal],
            tally: venue.play(&solved[goal], None, effort, done),
        }
    };
    let rivals = (0..stages.len()).into_par_iter().map(rival).collect();
    then(&Field {
        course,
        rules,
        effort,
        goals,
        rivals,
        ratings: Default::default(),
    })
}

impl Field<'_> {
    /// Whether the rules have answered wherever the field itself asked them.
    ///
    /// # Errors
    /// The first fault of a rule.
    pub fn outcome(&self) -> Result<(), Faults> {
        self.rules.outcome()
    }

    /// Sets the course up for a player by rules, the field's own or those [`afresh`](Rulebook::afresh), and hands it
    /// over.
    ///
    /// # Errors
    /// When the level tables are at fault, or a rule fails.
    pub fn ready<R>(
        &self,
        player: &Golfer,
        rules: &Rulebook,
        assume: Assume,
        done: &(dyn Fn(u64) + Sync),
        then: impl FnOnce(&Ready<'_>) -> R,
    ) -> Result<R, PlayError> {
        let rated = || self.rating(player.sex, done);
        ready_rated(player, (self.course, rules), &rated, assume, done, then)
    }

    fn rating(
        &self,
        sex: Sex,
        done: &(dyn Fn(u64) + Sync),
    ) -> Result<Option<CourseRating>, LevelError> {
        let place = match sex {
            Sex::Men => 0,
            Sex::Women => 1,
        };
        let rate = || rating::of_by_rules(self.course, self.rules, sex, done);
        self.ratings[place].get_or_init(rate).clone()
    }

    /// The cost card of a player who stands ready, with detail where it is asked for.
    ///
    /// # Errors
    /// When the level tables are at fault, or a rule fails.
    pub fn card(
        &self,
        ready: &Ready<'_>,
        goal: Against<'_>,
        detailed: bool,
        done: &(dyn Fn(u64) + Sync),
    ) -> Result<Card, PlayError> {
        let (golfer, rival) = match goal {
            Against::Goal(number) => (self.goals[number], Some(&self.rivals[number])),
            Against::Alone(golfer) => (golfer, None),
        };
        let player = ready.golfer();
        let golfers = [player, golfer];
        let own_venue = ready.venue();
        let mut stages = vec![(own_venue.stage, PLAYER)];
        let mut holes = vec![(own_venue.banks, PLAYER)];
        if let Some(rival) = rival {
            stages.push((rival.stage, GOAL));
            holes.push((rival.banks, GOAL));
        }
        let stage = Stage::joined(&golfers, &stages);
        let banks = stage.joined_banks(&holes);
        let venue = Venue {
            stage: &stage,
            banks: &banks,
            ..own_venue
        };
        let side = stage.side_of(&golfers, |_| PLAYER);
        let own = venue.solve(&side, Some(ready.own()));
        let known = detailed.then(|| {
            Known::of(&Inferred {
                golfer: player.clone(),
                inference: ready.inference().cloned(),
            })
        });
        let known = known.transpose()?;
        let own = (&side, own.as_slice());
        let (effort, known) = (self.effort, known.as_ref());
        let mut card = match rival {
            None => compared(&golfers, venue, own, effort, known, done, |_, _| ()).0,
            Some(rival) => {
                let target = Target {
                    solved: rival.solved,
                    tally: &rival.tally,
                };
                against(&golfers, venue, own, target, effort, known, done)
            }
        };
        card.inference = ready.inference().cloned();
        Ok(ordered(card, venue.rules)?)
    }
}
