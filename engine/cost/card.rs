//! The cost card: a player beside the golfer of the goal, part by part.

use rayon::prelude::*;
use serde::Serialize;

use crate::course::Course;
use crate::player::levels::LevelError;
use crate::player::{Golfer, Origin};
use crate::round::part::Part;
use crate::round::solve::Solved;
use crate::round::stage::Stage;
use crate::round::tally::{Holds, Tally};

use super::figures::{Figures, expected_score};
use super::infer::{self, Assume, Inference, InferenceDocument};
use super::rating;
use super::venue::{Venue, with_homes};

/// The cost card.
#[derive(Debug, Clone, PartialEq)]
pub struct Card {
    /// The player's figures.
    pub player: Figures,
    /// The figures of the goal's golfer on the same course.
    pub goal: Figures,
    /// Every part.
    pub parts: Vec<PartCost>,
    /// The part to work on first: of those that were measured, the one that would save most strokes; one that is only
    /// assumed where none of those saves any. None where no part does.
    pub work_on: Option<Part>,
    /// What was inferred of the player's short game; none where nothing was.
    pub inference: Option<Inference>,
}

/// What one part costs.
#[derive(Debug, Clone, PartialEq)]
pub struct PartCost {
    /// The part.
    pub part: Part,
    /// Strokes lost a round to the goal's golfer; negative where the player is better.
    pub lost: f64,
    /// Fall of the expected score when the goal's golfer plays this part and the player the rest.
    pub saved: f64,
    /// Whether the player's own shots stand behind it; otherwise it is assumed from the handicap.
    pub measured: bool,
    /// Shots a round, the player's.
    pub shots: f64,
    /// The player's full shots of this part that pitched on greens.
    pub holds: Holds,
    /// The goal's golfer's.
    pub goal_holds: Holds,
}

/// How a card is worked out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Rounds played by each golfer.
    pub rounds: u64,
    /// Seed of the rounds.
    pub seed: u64,
}

/// Figures of one golfer on a course.
#[must_use]
pub fn play(
    golfer: &Golfer,
    course: &Course,
    effort: Effort,
    done: &(dyn Fn(u64) + Sync),
) -> Figures {
    let golfers = [golfer];
    let stage = Stage::new(course, &golfers);
    let banks = stage.hole_banks();
    let side = stage.side(|_| 0);
    let venue = Venue {
        course,
        stage: &stage,
        banks: &banks,
    };
    let solved = venue.solve(&side, None);
    let tally = venue.play(&solved, None, effort, done);
    Figures::new(course, &solved, &tally, effort.seed)
}

/// Below this many strokes a round a part saves nothing to speak of.
pub const NOTHING: f64 = 0.05;

const PLAYER: usize = 0;
const GOAL: usize = 1;

/// The cost card of `player` as he stands against `goal` on a course. `done` hears of rounds as they are finished.
#[must_use]
pub fn card(
    player: &Golfer,
    goal: &Golfer,
    course: &Course,
    effort: Effort,
    done: &(dyn Fn(u64) + Sync),
) -> Card {
    let golfers = [player, goal];
    let stage = Stage::new(course, &golfers);
    let banks = stage.hole_banks();
    let side = stage.side(|_| PLAYER);
    let venue = Venue {
        course,
        stage: &stage,
        banks: &banks,
    };
    let own = venue.solve(&side, None);
    compared(golfers, venue, &own, effort, done)
}

/// Rounds that [`card_assuming`] plays at most, those of a rating among them: what `done` hears of.
#[must_use]
pub fn rounds(player: &Golfer, course: &Course, effort: Effort, assume: Assume) -> u64 {
    let mut rounds = 2 * effort.rounds;
    if infer::is_wanted(player, &[course], assume) {
        rounds += infer::rounds(player, &[course], assume) + rating::rounds(course, player.sex);
    }
    rounds
}

/// The cost card of `player` against `goal` on a course, with what nobody measured of his short game inferred where
/// that is asked for and can be done.
///
/// # Errors
/// When the level tables are at fault.
pub fn card_assuming(
    player: &Golfer,
    goal: &Golfer,
    course: &Course,
    effort: Effort,
    assume: Assume,
    done: &(dyn Fn(u64) + Sync),
) -> Result<Card, LevelError> {
    let wanted = infer::is_wanted(player, &[course], assume);
    let found = if wanted {
        rating::of(course, player.sex, done)?
    } else {
        None
    };
    let Some(found) = found else {
        return Ok(card(player, goal, course, effort, done));
    };
    with_homes(&[player, goal], &[(course, found.rating)], |homes| {
        let inferred = infer::on(player, homes, done)?;
        let golfers = [&inferred.golfer, goal];
        let venue = homes[0].venue;
        let side = venue.stage.side_of(&golfers, |_| PLAYER);
        let own = venue.solve(&side, Some(homes[0].own));
        let mut card = compared(golfers, venue, &own, effort, done);
        card.inference = inferred.inference;
        Ok(card)
    })
}

/// The card of two golfers at a venue, solved for the first.
fn compared(
    golfers: [&Golfer; 2],
    venue: Venue<'_>,
    own: &[Solved<'_>],
    effort: Effort,
    done: &(dyn Fn(u64) + Sync),
) -> Card {
    let side = venue.stage.side_of(&golfers, |_| GOAL);
    let target = venue.solve(&side, None);
    let saved = saved_by_part(venue, &golfers, own);
    let tallies = [
        venue.play(own, Some(&target), effort, done),
        venue.play(&target, None, effort, done),
    ];
    let parts: Vec<PartCost> = Part::ALL
        .into_iter()
        .zip(saved)
        .map(|(part, saved)| part_cost(golfers[PLAYER], part, saved, &tallies))
        .collect();
    Card {
        player: Figures::new(venue.course, own, &tallies[PLAYER], effort.seed),
        goal: Figures::new(venue.course, &target, &tallies[GOAL], effort.seed),
        work_on: first(&parts),
        parts,
        inference: None,
    }
}

/// Strokes saved by each part: the fall of the expected score when the goal's golfer plays it.
fn saved_by_part(venue: Venue<'_>, golfers: &[&Golfer; 2], own: &[Solved<'_>]) -> Vec<f64> {
    let saving = |replaced: Part| {
        let plays = |part| if part == replaced { GOAL } else { PLAYER };
        let side = venue.stage.side_of(golfers, plays);
        expected_score(own) - expected_score(&venue.solve(&side, Some(own)))
    };
    Part::ALL.into_par_iter().map(saving).collect()
}

fn part_cost(player: &Golfer, part: Part, saved: f64, [own, goal]: &[Tally; 2]) -> PartCost {
    PartCost {
        part,
        lost: own.lost[part as usize] / own.rounds.max(1) as f64,
        saved,
        measured: measured(player, part),
        shots: own.per_round(own.shots[part as usize]),
        holds: own.holds[part as usize],
        goal_holds: goal.holds[part as usize],
    }
}

/// A part is measured when the file says how the player plays it: any of its clubs, or its figures.
pub(super) fn measured(player: &Golfer, part: Part) -> bool {
    let known = |origin: Origin| origin != Origin::Assumed;
    match part {
        Part::ShortGame => known(player.short_game.1),
        Part::Sand => known(player.sand.1),
        Part::Putting => known(player.putting.1),
        Part::TeeShots => player
            .clubs
            .first()
            .is_some_and(|longest| known(longest.origin)),
        _ => player
            .clubs
            .iter()
            .any(|c| Part::of_club(c.club) == part && known(c.origin)),
    }
}

/// The part to work on first: of those that were measured, the one that saves most. What nobody measured is assumed,
/// and no ground for a lesson; it comes first only where nothing that was measured saves anything to speak of.
fn first(parts: &[PartCost]) -> Option<Part> {
    let most = |least: f64, is_open: bool| {
        parts
            .iter()
            .filter(|cost| (cost.measured || is_open) && cost.saved > least)
            .max_by(|a, b| a.saved.total_cmp(&b.saved))
            .map(|most| most.part)
    };
    most(NOTHING, false).or_else(|| most(0.0, true))
}

/// The card as other programs read it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CardDocument {
    score_mean: f64,
    goal_score_mean: f64,
    gap: f64,
    fairways_hit_pct: Option<f64>,
    goal_fairways_hit_pct: Option<f64>,
    greens_hit_pct: f64,
    goal_greens_hit_pct: f64,
    greens_held_pct: Option<f64>,
    goal_greens_held_pct: Option<f64>,
    parts: Vec<PartDocument>,
    work_on: Option<&'static str>,
    #[serde(flatten)]
    inference: InferenceDocument,
}

#[derive(Debug, Clone, PartialEq, Serialize)]
struct PartDocument {
    part: &'static str,
    lost: f64,
    saved: f64,
    measured: bool,
}

impl From<&Card> for CardDocument {
    fn from(card: &Card) -> Self {
        let (player, goal) = (&card.player, &card.goal);
        Self {
            score_mean: player.score_mean,
            goal_score_mean: goal.score_mean,
            gap: player.score_mean - goal.score_mean,
            fairways_hit_pct: player.fairways_hit_pct,
            goal_fairways_hit_pct: goal.fairways_hit_pct,
            greens_hit_pct: player.greens_hit_pct,
            goal_greens_hit_pct: goal.greens_hit_pct,
            greens_held_pct: player.greens_held_pct,
            goal_greens_held_pct: goal.greens_held_pct,
            parts: card
                .parts
                .iter()
                .map(|cost| PartDocument {
                    part: cost.part.name(),
                    lost: cost.lost,
                    saved: cost.saved,
                    measured: cost.measured,
                })
                .collect(),
            work_on: card.work_on.map(Part::name),
            inference: card.inference.as_ref().into(),
        }
    }
}
