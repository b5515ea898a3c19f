//! Rounds played shot by shot from the bank.

use std::ops::Range;

use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;
use rayon::prelude::*;

use crate::course::Hole;
use crate::rules::Rulebook;

use super::balls::OnHole;
use super::counting::Counter;
use super::finish::Finish;
use super::solve::Solved;
use super::tally::{ROUNDS_KEPT, Tally};
use super::visits::{ROUNDS_VISITED, Visit};

/// Rounds counted into one partial tally.
const CHUNK: u64 = 512;
/// Chunks that are played before their tallies are added up: those of all rounds, side by side until the last is played,
/// would take memory as rounds grow.
const CHUNKS_AT_ONCE: usize = 512;

/// A shot that somebody watches.
#[derive(Debug, Clone, Copy)]
pub struct Watched<'a> {
    /// The place of its hole on the course.
    pub hole: usize,
    /// Whether it was a full shot: chips, pitches and greenside bunker shots are none.
    pub is_full: bool,
    /// Its end.
    pub end: &'a Finish,
}

/// Hears of every shot that comes to rest, the putts aside.
pub type Watch<'a> = &'a (dyn Fn(Watched<'_>) + Sync);

/// One golfer's course, solved hole by hole, and perhaps another golfer to measure strokes lost against.
#[derive(Debug, Clone, Copy)]
pub struct Rounds<'a> {
    /// The holes.
    pub holes: &'a [Hole],
    /// The golfer on each hole.
    pub golfer: &'a [Solved<'a>],
    /// The goal's golfer on each hole.
    pub goal: Option<&'a [Solved<'a>]>,
    /// The seed: every round draws from a stream of its own, so the result does not depend on threads.
    pub seed: u64,
}

impl Rounds<'_> {
    /// Plays `rounds` rounds. `done` hears how many more are finished, from any thread.
    #[must_use]
    pub fn play(&self, rounds: u64, done: &(dyn Fn(u64) + Sync)) -> Tally {
        self.play_and_count(&Rulebook::default(), rounds, done)
    }

    /// Plays `rounds` rounds and counts shots under the labels of `rules`. Once a rule has failed no more is played:
    /// whoever shows a figure asks [`Rulebook::outcome`] first.
    #[must_use]
    pub fn play_and_count(
        &self,
        rules: &Rulebook,
        rounds: u64,
        done: &(dyn Fn(u64) + Sync),
    ) -> Tally {
        self.play_and_watch(rules, rounds, done, None)
    }

    /// The same, with somebody watching; shots are told from any thread, in any order.
    #[must_use]
    pub fn play_and_watch(
        &self,
        rules: &Rulebook,
        rounds: u64,
        done: &(dyn Fn(u64) + Sync),
        watch: Option<Watch<'_>>,
    ) -> Tally {
        let holes = 0..self.holes.len();
        let counters: Vec<Option<Counter>> = holes
            .map(|index| Counter::of(rules.hole(index), rules.stop()))
            .collect();
        let play = |chunk: &u64| {
            let chunk = chunk * CHUNK..((chunk + 1) * CHUNK).min(rounds);
            let length = chunk.end - chunk.start;
            let tally = self.play_chunk(chunk, rules, &counters, watch);
            done(length);
            tally
        };
        let chunks: Vec<u64> = (0..rounds.div_ceil(CHUNK)).collect();
        let mut total = Tally::new(self.holes.len());
        for chunks in chunks.chunks(CHUNKS_AT_ONCE) {
            let tallies: Vec<Tally> = chunks.par_iter().map(play).collect();
            tallies.iter().for_each(|tally| total.add(tally));
        }
        total
    }

    /// Plays some rounds, all of them a hole before the next: what the hole holds stays at hand meanwhile.
    fn play_chunk(
        &self,
        chunk: Range<u64>,
        rules: &Rulebook,
        counters: &[Option<Counter>],
        watch: Option<Watch<'_>>,
    ) -> Tally {
        let mut tally = Tally::new(self.holes.len());
        let mut rounds: Vec<Round> = chunk
            .map(|number| Round::new(self.seed, number, self.holes.len()))
            .collect();
        for (index, counter) in counters.iter().enumerate() {
            if rules.stop().is_stopped() {
                return tally;
            }
            let hole = OnHole {
                hole: &self.holes[index],
                golfer: &self.golfer[index],
                goal: self.goal.map(|goal| &goal[index]),
                counter: counter.as_ref(),
                watch,
                index,
            };
            hole.play(&mut rounds, &mut tally);
        }
        rounds.iter().for_each(|round| round.count(&mut tally));
        tally
    }
}

/// A round on its way.
pub(super) struct Round {
    number: u64,
    pub random: ChaCha8Rng,
    /// Its score on each hole played.
    pub scores: Vec<u8>,
    /// Its full shots, if they are kept.
    pub visits: Vec<Visit>,
}

impl Round {
    fn new(seed: u64, number: u64, holes: usize) -> Self {
        let mut random = ChaCha8Rng::seed_from_u64(seed);
        random.set_stream(number);
        Self {
            number,
            random,
            scores: Vec::with_capacity(holes),
            visits: Vec::new(),
        }
    }

    pub const fn is_kept(&self) -> bool {
        self.number < ROUNDS_VISITED
    }

    fn count(&self, tally: &mut Tally) {
        let score = self.scores.iter().map(|strokes| u64::from(*strokes)).sum();
        if self.number < ROUNDS_KEPT {
            tally.scores.extend_from_slice(&self.scores);
        }
        tally.visits.extend_from_slice(&self.visits);
        tally.rounds += 1;
        tally.strokes += score;
        tally.strokes_squared += score * score;
        *tally.by_score.entry(score).or_default() += 1;
    }
}
