//! A golfer's figures on a course: score, fairways, greens, holds, putts.

use serde::Serialize;

use crate::course::Course;
use crate::round::solve::Solved;
use crate::round::tally::Tally;
use crate::rules::count::Label;

/// What `play` reports.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Figures {
    /// Rounds played.
    pub rounds: u64,
    /// Seed of the rounds.
    pub seed: u64,
    /// Mean score of the rounds.
    pub score_mean: f64,
    /// Standard deviation of a round's score.
    pub score_sd: f64,
    /// How many of the rounds had each score, the lowest first.
    pub scores: Vec<ScoreShare>,
    /// Expected score from the solved holes, free of the rounds' noise.
    pub expected_strokes: f64,
    /// Fairways hit from the tees of par 4s and 5s, percent; none on a course of par 3s.
    pub fairways_hit_pct: Option<f64>,
    /// Greens reached in regulation, percent.
    pub greens_hit_pct: f64,
    /// Full shots that pitched on a green and stayed on it, percent; none where none pitched on one.
    pub greens_held_pct: Option<f64>,
    /// Putts a round.
    pub putts_mean: f64,
    /// Greens with three putts or more a round.
    pub three_putts_mean: f64,
    /// Penalty strokes a round.
    pub penalties_mean: f64,
    /// Hole by hole.
    pub holes: Vec<HoleFigures>,
}

/// How often a score was made.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ScoreShare {
    /// Strokes of a round.
    pub score: u64,
    /// Rounds of this score, percent.
    pub rounds_pct: f64,
}

/// One hole's figures.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HoleFigures {
    /// Number on the card.
    pub number: u32,
    /// Par.
    pub par: u8,
    /// Length, yards.
    pub length_yd: f64,
    /// Mean score.
    pub score_mean: f64,
    /// Expected strokes from the tee.
    pub expected_strokes: f64,
    /// Fairway hit, percent; none on a par 3.
    pub fairway_hit_pct: Option<f64>,
    /// Green hit in regulation, percent.
    pub green_hit_pct: f64,
    /// Rounds in which the hole was given up before the ball was in it, percent; none where there was no such round.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub given_up_pct: Option<f64>,
}

/// A hole that a golfer does not always finish: the scores of such rounds are no scores.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct GivenUp {
    /// Number of the hole on the card.
    pub hole: u32,
    /// Rounds in which it was given up before the ball was in it, percent.
    pub given_up_pct: f64,
}

/// How often a round has a shot that a rule counts.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LabelCount {
    /// The rule's label.
    pub label: String,
    /// Shots a round.
    pub per_round: f64,
}

/// The counts of a tally, by label in order of the alphabet.
#[must_use]
pub fn label_counts(tally: &Tally) -> Vec<LabelCount> {
    let count = |(label, count): (&Label, &u64)| LabelCount {
        label: label.to_string(),
        per_round: tally.per_round(*count),
    };
    tally.labels.iter().map(count).collect()
}

/// Expected score over solved holes.
#[must_use]
pub fn expected_score(solved: &[Solved<'_>]) -> f64 {
    solved.iter().map(|hole| f64::from(hole.values.tee)).sum()
}

impl Figures {
    /// From counted rounds and solved holes.
    #[must_use]
    pub fn new(course: &Course, solved: &[Solved<'_>], tally: &Tally, seed: u64) -> Self {
        let pct = |count: u64| 100.0 * tally.per_round(count);
        let holes: Vec<HoleFigures> = course
            .holes
            .iter()
            .zip(solved)
            .zip(&tally.holes)
            .map(|((hole, solved), counted)| HoleFigures {
                number: hole.number,
                par: hole.par,
                length_yd: hole.length_yd,
                score_mean: tally.per_round(counted.strokes),
                expected_strokes: f64::from(solved.values.tee),
                fairway_hit_pct: (hole.par >= 4).then(|| pct(counted.fairways)),
                green_hit_pct: pct(counted.greens),
                given_up_pct: (counted.given_up > 0).then(|| pct(counted.given_up)),
            })
            .collect();
        Self {
            rounds: tally.rounds,
            seed,
            score_mean: tally.score_mean(),
            score_sd: tally.score_sd(),
            scores: score_shares(tally),
            expected_strokes: expected_score(solved),
            fairways_hit_pct: mean(holes.iter().filter_map(|hole| hole.fairway_hit_pct)),
            greens_hit_pct: mean(holes.iter().map(|hole| hole.green_hit_pct)).unwrap_or(0.0),
            greens_held_pct: tally.all_holds().held_pct(),
            putts_mean: tally.per_round(tally.putts),
            three_putts_mean: tally.per_round(tally.three_putts),
            penalties_mean: tally.per_round(tally.penalties),
            holes,
        }
    }

    /// Rounds with fewer strokes than these, percent.
    #[must_use]
    pub fn under_pct(&self, score: u64) -> f64 {
        let under = self.scores.iter().filter(|share| share.score < score);
        under.map(|share| share.rounds_pct).sum()
    }

    /// The holes that were given up in some round.
    #[must_use]
    pub fn given_up(&self) -> Vec<GivenUp> {
        let given_up = |figures: &HoleFigures| {
            Some(GivenUp {
                hole: figures.number,
                given_up_pct: figures.given_up_pct?,
            })
        };
        self.holes.iter().filter_map(given_up).collect()
    }

    /// The holes on which the rounds come to something else than what is expected, by more than their luck.
    #[must_use]
    pub fn apart(&self) -> Vec<&HoleFigures> {
        let most = MOST_APART + LUCK_OF_A_HOLE / (self.rounds.max(1) as f64).sqrt();
        let is_apart = |hole: &&HoleFigures| (hole.score_mean - hole.expected_strokes).abs() > most;
        self.holes.iter().filter(is_apart).collect()
    }
}

/// Score and expected strokes of a hole may be so far apart without a word, strokes: what nodes and squares leave.
const MOST_APART: f64 = 0.2;
/// Three standard deviations of a score on a hole that is hard to finish (about five strokes).
const LUCK_OF_A_HOLE: f64 = 15.0;

fn score_shares(tally: &Tally) -> Vec<ScoreShare> {
    let share = |(score, rounds): (&u64, &u64)| ScoreShare {
        score: *score,
        rounds_pct: 100.0 * tally.per_round(*rounds),
    };
    tally.by_score.iter().map(share).collect()
}

fn mean(values: impl Iterator<Item = f64>) -> Option<f64> {
    let (sum, count) = values.fold((0.0, 0_u32), |(sum, count), value| (sum + value, count + 1));
    (count > 0).then(|| sum / f64::from(count))
}
