//! The cost card: a player beside the golfer of the goal, part by part.

use rayon::prelude::*;
use serde::Serialize;

use crate::course::Course;
use crate::files::Faults;
use crate::player::{Golfer, Origin};
use crate::round::part::Part;
use crate::round::play::Rounds;
use crate::round::stage::Stage;
use crate::round::tally::{Holds, Tally};
use crate::rules::Rulebook;
use crate::rules::worth::PartFacts;

use super::figures::{Figures, LabelCount, expected_score, label_counts};

/// The cost card.
#[derive(Debug, Clone, PartialEq)]
pub struct Card {
    /// The player's figures.
    pub player: Figures,
    /// The figures of the goal's golfer on the same course.
    pub goal: Figures,
    /// Every part.
    pub parts: Vec<PartCost>,
    /// The part to work on first: of those that would save strokes, the one of the highest worth by the rule in force,
    /// or, without one, that would save most. None where none saves any.
    pub work_on: Option<Part>,
    /// The player's shots by the label a rule counts them under.
    pub counts: Option<Vec<LabelCount>>,
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
    /// Its worth by the rule that orders the parts; none without one.
    pub worth: Option<f64>,
}

impl PartCost {
    /// What the parts are ordered by: the rule's worth, or the strokes saved.
    #[must_use]
    pub fn order(&self) -> f64 {
        self.worth.unwrap_or(self.saved)
    }
}

/// How a card is worked out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Rounds played by each golfer.
    pub rounds: u64,
    /// Seed of the rounds.
    pub seed: u64,
}

/// Figures of one golfer on a course, by the built-in rules.
#[must_use]
pub fn play(
    golfer: &Golfer,
    course: &Course,
    effort: Effort,
    done: &(dyn Fn(u64) + Sync),
) -> Figures {
    play_and_count(golfer, course, &Rulebook::default(), effort, done).0
}

/// Figures of one golfer on a course by its rules, and the counted rounds behind them: nothing to be shown before
/// [`Rulebook::outcome`] is asked.
pub(super) fn play_and_count(
    golfer: &Golfer,
    course: &Course,
    rules: &Rulebook,
    effort: Effort,
    done: &(dyn Fn(u64) + Sync),
) -> (Figures, Tally) {
    let golfers = [golfer];
    let stage = Stage::by_rules(course, &golfers, rules);
    let banks = stage.hole_banks();
    let side = stage.side(|_| 0);
    let solved = stage.solve(&banks, &side, None);
    let rounds = Rounds {
        holes: &course.holes,
        golfer: &solved,
        goal: None,
        seed: effort.seed,
    };
    let tally = rounds.play_and_count(rules, effort.rounds, done);
    let figures = Figures::new(course, &solved, &tally, effort.seed);
    (figures, tally)
}

/// The cost card of `player` against `goal` on a course, by the built-in rules. `done` hears of rounds as they are
/// finished.
#[must_use]
pub fn card(
    player: &Golfer,
    goal: &Golfer,
    course: &Course,
    effort: Effort,
    done: &(dyn Fn(u64) + Sync),
) -> Card {
    worked_out(player, goal, (course, &Rulebook::default()), effort, done)
}

/// The cost card by the rules of a rulebook.
///
/// # Errors
/// The fault of a rule that failed.
pub fn card_by_rules(
    player: &Golfer,
    goal: &Golfer,
    (course, rules): (&Course, &Rulebook),
    effort: Effort,
    done: &(dyn Fn(u64) + Sync),
) -> Result<Card, Faults> {
    let mut card = worked_out(player, goal, (course, rules), effort, done);
    rules.outcome()?;
    if let Some(rule) = rules.worth() {
        for cost in &mut card.parts {
            let facts = PartFacts {
                part: cost.part.name(),
                saved: cost.saved,
                lost: cost.lost,
                shots: cost.shots,
                measured: cost.measured,
            };
            cost.worth = Some(rule.worth(&facts)?);
        }
        card.work_on = first(&card.parts);
    }
    Ok(card)
}

fn worked_out(
    player: &Golfer,
    goal: &Golfer,
    (course, rules): (&Course, &Rulebook),
    effort: Effort,
    done: &(dyn Fn(u64) + Sync),
) -> Card {
    const PLAYER: usize = 0;
    const GOAL: usize = 1;
    let golfers = [player, goal];
    let stage = Stage::by_rules(course, &golfers, rules);
    let banks = stage.hole_banks();
    let sides = [PLAYER, GOAL].map(|golfer| stage.side(|_| golfer));
    let own = stage.solve(&banks, &sides[PLAYER], None);
    let target = stage.solve(&banks, &sides[GOAL], None);
    let saved = saved_by_part(&stage, |part_side| {
        expected_score(&own) - expected_score(&stage.solve(&banks, part_side, Some(&own)))
    });
    let play = |golfer, goal, rules: &Rulebook| {
        let rounds = Rounds {
            holes: &course.holes,
            golfer,
            goal,
            seed: effort.seed,
        };
        rounds.play_and_count(rules, effort.rounds, done)
    };
    // Only the player's shots are counted under labels.
    let tallies = [
        play(&own, Some(&target), rules),
        play(&target, None, &Rulebook::default()),
    ];
    let parts: Vec<PartCost> = Part::ALL
        .into_iter()
        .zip(saved)
        .map(|(part, saved)| part_cost(player, part, saved, &tallies))
        .collect();
    Card {
        player: Figures::new(course, &own, &tallies[PLAYER], effort.seed),
        goal: Figures::new(course, &target, &tallies[GOAL], effort.seed),
        work_on: first(&parts),
        counts: rules.counts().then(|| label_counts(&tallies[PLAYER])),
        parts,
    }
}

/// Strokes saved by each part: `saving` is asked with a side that plays one part as the goal's golfer.
fn saved_by_part<'a>(
    stage: &Stage<'a>,
    saving: impl Fn(&crate::round::side::Side) -> f64 + Sync,
) -> Vec<f64> {
    Part::ALL
        .into_par_iter()
        .map(|replaced| saving(&stage.side(|part| usize::from(part == replaced))))
        .collect()
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
        worth: None,
    }
}

/// A part is measured when the file says how the player plays it: any of its clubs, or its figures.
fn measured(player: &Golfer, part: Part) -> bool {
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

fn first(parts: &[PartCost]) -> Option<Part> {
    parts
        .iter()
        .filter(|cost| cost.saved > 0.0)
        .max_by(|a, b| a.order().total_cmp(&b.order()))
        .map(|most| most.part)
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
    rules: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    counts: Option<Vec<LabelCount>>,
}

#[derive(Debug, Clone, PartialEq, Serialize)]
struct PartDocument {
    part: &'static str,
    lost: f64,
    saved: f64,
    measured: bool,
    /// By the rule that orders the parts, where there is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    worth: Option<f64>,
}

impl CardDocument {
    /// A card, and the scripts in force on it.
    #[must_use]
    pub fn new(card: &Card, rules: &Rulebook) -> Self {
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
                    worth: cost.worth,
                })
                .collect(),
            work_on: card.work_on.map(Part::name),
            rules: rules.files().to_vec(),
            counts: card.counts.clone(),
        }
    }
}
