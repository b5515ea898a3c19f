//! What is counted while rounds are played.

use std::collections::BTreeMap;

use super::nearness::{BANDS_YD, Nearness};
use super::part::Part;
use super::visits::Visit;
use crate::rules::count::Label;

/// The scores of every hole are kept of this many rounds: 2000 records of 20.
pub const ROUNDS_KEPT: u64 = 40_000;

/// Counts of one hole over all rounds.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct HoleTally {
    /// Strokes.
    pub strokes: u64,
    /// Tee shots of par 4s and 5s that ended on fairway or green.
    pub fairways: u64,
    /// Greens reached in regulation.
    pub greens: u64,
    /// Times the hole was given up before the ball was in it.
    pub given_up: u64,
}

/// Full shots that pitched on a green, and those that stayed.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Holds {
    /// Pitched on the green.
    pub pitched: u64,
    /// Stayed on it.
    pub held: u64,
}

/// Holes on which the green was missed from near by, and those holed out in two strokes from there.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Saves {
    /// Holes with a chance.
    pub tried: u64,
    /// Two strokes or fewer.
    pub made: u64,
}

/// Counts over many rounds.
#[derive(Debug, Clone, PartialEq)]
pub struct Tally {
    /// Rounds.
    pub rounds: u64,
    /// Sum of scores.
    pub strokes: u64,
    /// Sum of squared scores.
    pub strokes_squared: u64,
    /// Rounds of each score.
    pub by_score: BTreeMap<u64, u64>,
    /// Putts.
    pub putts: u64,
    /// Greens that took three putts or more.
    pub three_putts: u64,
    /// Penalty strokes.
    pub penalties: u64,
    /// By part: full shots that pitched on a green.
    pub holds: [Holds; Part::ALL.len()],
    /// By part: strokes lost to the goal's golfer.
    pub lost: [f64; Part::ALL.len()],
    /// By part: shots.
    pub shots: [u64; Part::ALL.len()],
    /// By band of distance: how near the hole full shots meant for the green finished.
    pub near: [Nearness; BANDS_YD.len()],
    /// Holes on which the first shot from near the green was one of the short game.
    pub up_and_downs: Saves,
    /// Holes on which it was one from sand.
    pub sand_saves: Saves,
    /// By hole.
    pub holes: Vec<HoleTally>,
    /// The first rounds hole by hole, one round after the other, [`ROUNDS_KEPT`] at most.
    pub scores: Vec<u8>,
    /// The full shots of the first rounds, [`super::visits::ROUNDS_VISITED`] at most.
    pub visits: Vec<Visit>,
    /// Shots by the label a rule counts them under.
    pub labels: BTreeMap<Label, u64>,
}

impl Tally {
    /// Nothing played yet on a course of `holes` holes.
    #[must_use]
    pub fn new(holes: usize) -> Self {
        Self {
            rounds: 0,
            strokes: 0,
            strokes_squared: 0,
            by_score: BTreeMap::new(),
            putts: 0,
            three_putts: 0,
            penalties: 0,
            holds: Default::default(),
            lost: Default::default(),
            shots: Default::default(),
            near: Default::default(),
            up_and_downs: Saves::default(),
            sand_saves: Saves::default(),
            holes: vec![HoleTally::default(); holes],
            scores: Vec::new(),
            visits: Vec::new(),
            labels: BTreeMap::new(),
        }
    }

    /// Adds another tally of the same course. Done in a fixed order, so that sums of fractions are
    /// the same on any number of threads.
    pub fn add(&mut self, other: &Self) {
        self.rounds += other.rounds;
        self.strokes += other.strokes;
        self.strokes_squared += other.strokes_squared;
        for (score, rounds) in &other.by_score {
            *self.by_score.entry(*score).or_default() += rounds;
        }
        self.putts += other.putts;
        self.three_putts += other.three_putts;
        self.penalties += other.penalties;
        for part in 0..Part::ALL.len() {
            self.holds[part].pitched += other.holds[part].pitched;
            self.holds[part].held += other.holds[part].held;
            self.lost[part] += other.lost[part];
            self.shots[part] += other.shots[part];
        }
        for (near, more) in self.near.iter_mut().zip(&other.near) {
            near.add(more);
        }
        self.up_and_downs.add(other.up_and_downs);
        self.sand_saves.add(other.sand_saves);
        for (hole, more) in self.holes.iter_mut().zip(&other.holes) {
            hole.strokes += more.strokes;
            hole.fairways += more.fairways;
            hole.greens += more.greens;
            hole.given_up += more.given_up;
        }
        self.scores.extend_from_slice(&other.scores);
        self.visits.extend_from_slice(&other.visits);
        for (label, count) in &other.labels {
            *self.labels.entry(label.clone()).or_default() += count;
        }
    }

    /// Mean score.
    #[must_use]
    pub fn score_mean(&self) -> f64 {
        self.per_round(self.strokes)
    }

    /// Standard deviation of the score.
    #[must_use]
    pub fn score_sd(&self) -> f64 {
        let mean = self.score_mean();
        (self.per_round(self.strokes_squared) - mean * mean)
            .max(0.0)
            .sqrt()
    }

    /// A count per round.
    #[must_use]
    pub fn per_round(&self, count: u64) -> f64 {
        count as f64 / self.rounds.max(1) as f64
    }

    /// Holds over all parts.
    #[must_use]
    pub fn all_holds(&self) -> Holds {
        self.holds.iter().fold(Holds::default(), |sum, part| Holds {
            pitched: sum.pitched + part.pitched,
            held: sum.held + part.held,
        })
    }
}

impl Holds {
    /// Share held, percent; none where nothing pitched on a green.
    #[must_use]
    pub fn held_pct(self) -> Option<f64> {
        (self.pitched > 0).then(|| 100.0 * self.held as f64 / self.pitched as f64)
    }
}

impl Saves {
    /// Counts one chance.
    pub fn count(&mut self, made: bool) {
        self.tried += 1;
        self.made += u64::from(made);
    }

    fn add(&mut self, other: Self) {
        self.tried += other.tried;
        self.made += other.made;
    }

    /// Share made, percent; none where there was no chance.
    #[must_use]
    pub fn made_pct(self) -> Option<f64> {
        (self.tried > 0).then(|| 100.0 * self.made as f64 / self.tried as f64)
    }
}
