//! Holes and rounds, and the floor under the rounds.

use std::hint::black_box;

use costcard::course::{Course, embedded as demo};
use costcard::player::{Sex, levels};
use costcard::round::part::Part;
use costcard::round::play::Rounds;
use costcard::round::stage::Stage;
use costcard::round::tally::Tally;
use criterion::{Criterion, Throughput};
use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use rayon::prelude::*;

const ROUNDS: u64 = 20_000;
/// Rounds a thread takes at a time, as `Rounds` does.
const CHUNK: usize = 128;

/// A 400 yd hole solved, and rounds of 18 holes once everything stands; what no rounds could do without beside them.
pub fn holes(c: &mut Criterion) {
    let (Ok(course), Ok(golfer)) = (demo::course("parkland"), levels::named("scratch", Sex::Men))
    else {
        return;
    };
    let golfers = [&golfer];
    let stage = Stage::new(&course, &golfers);
    let banks = stage.hole_banks();
    let side = stage.side(|_| 0);
    let solved = stage.solve(&banks, &side, None);
    let hole = nearest_400(&course);
    c.bench_function("sweeps of a 400 yd hole", |b| {
        b.iter(|| stage.solve_hole(hole, &banks, &side));
    });
    let rounds = Rounds {
        holes: &course.holes,
        golfer: &solved,
        goal: None,
        seed: 1,
    };
    // What is decided once for every place is no part of a round: most of it is decided here.
    let floor = Floor::of(&rounds.play(ROUNDS, &|_| {}));
    let mut group = c.benchmark_group("rounds");
    group.throughput(Throughput::Elements(ROUNDS));
    group.sample_size(20);
    group.bench_function("of 18 holes", |b| b.iter(|| rounds.play(ROUNDS, &|_| {})));
    group.bench_function("their draws and look-ups alone", |b| {
        b.iter(|| floor.play(ROUNDS));
    });
    group.finish();
}

fn nearest_400(course: &Course) -> usize {
    let off = |index: &usize| (course.holes[*index].length_yd - 400.0).abs();
    (0..course.holes.len())
        .min_by(|a, b| off(a).total_cmp(&off(b)))
        .unwrap_or(0)
}

/// The least that rounds come to: as many draws, from the same generator, and one reading of a table for each.
pub struct Floor {
    /// Full shots of a round, each with two draws: normal or mishit, and which of them.
    full: usize,
    /// Chips, pitches and bunker shots, with three: whether it is holed too. A mishit needs only two of them.
    touch: usize,
    /// Greens putted out on, with one.
    greens: usize,
    /// As large as the shots of one hole.
    table: Vec<u32>,
}

/// Places in the table: some 80 lists of 192 shots, of eight numbers each.
const TABLE: usize = 1 << 17;

impl Floor {
    /// The floor under rounds that were played.
    pub fn of(tally: &Tally) -> Self {
        let shots = |parts: &[Part]| {
            let all = parts.iter().map(|part| tally.shots[*part as usize]);
            tally.per_round(all.sum()).round() as usize
        };
        Self {
            full: shots(&[
                Part::TeeShots,
                Part::LongApproach,
                Part::MidIrons,
                Part::ShortIrons,
            ]),
            touch: shots(&[Part::ShortGame, Part::Sand]),
            greens: tally.holes.len(),
            table: (0..TABLE as u32).collect(),
        }
    }

    /// Draws and reads as often as so many rounds do.
    pub fn play(&self, rounds: u64) -> u64 {
        let all: Vec<u64> = (0..rounds).collect();
        let chunks = all.par_chunks(CHUNK);
        chunks.map(|rounds| self.chunk(rounds)).sum()
    }

    fn chunk(&self, rounds: &[u64]) -> u64 {
        rounds.iter().map(|round| self.round(*round)).sum()
    }

    fn round(&self, round: u64) -> u64 {
        let mut random = ChaCha8Rng::seed_from_u64(1);
        random.set_stream(round);
        let mut sum = 0;
        for _ in 0..self.full {
            sum += self.at(random.random::<f32>()) + self.among(random.random_range(0..128));
        }
        for _ in 0..self.touch {
            sum += self.at(random.random::<f32>()) + self.at(random.random::<f32>());
            sum += self.among(random.random_range(0..64));
        }
        for _ in 0..self.greens {
            sum += self.at(random.random::<f64>() as f32);
        }
        black_box(sum)
    }

    fn at(&self, evenly: f32) -> u64 {
        // The last number below 1 may round up to the length.
        let place = (evenly * TABLE as f32) as usize;
        u64::from(self.table[place.min(TABLE - 1)])
    }

    fn among(&self, shot: usize) -> u64 {
        u64::from(self.table[shot * 8])
    }
}
