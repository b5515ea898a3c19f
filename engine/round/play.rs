//! Rounds played shot by shot from the bank.

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use rayon::prelude::*;

use crate::course::{Hole, Lie};
use crate::player::club::Club;
use crate::rules::Rulebook;
use crate::rules::count::ShotFacts;

use super::bank::SwingShots;
use super::counting::{Counter, ended, over_water, to_pin_yd};
use super::finish::{Finish, Spot, finish};
use super::ground::Ground;
use super::nearness::{MEANT_YD, band};
use super::part::Part;
use super::place::{FEET, Xy};
use super::ruled::Told;
use super::solve::{Play, Solved};
use super::tally::{ROUNDS_KEPT, Tally};
use super::touch::TouchShot;
use super::values::MOST_STROKES;
use super::visits::{ROUNDS_VISITED, Visit};

/// Rounds counted into one partial tally.
const CHUNK: u64 = 128;
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
            let mut tally = Tally::new(self.holes.len());
            for round in chunk {
                if rules.stop().is_stopped() {
                    break;
                }
                self.play_one(round, &counters, watch, &mut tally);
            }
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

    fn play_one(
        &self,
        round: u64,
        counters: &[Option<Counter>],
        watch: Option<Watch<'_>>,
        tally: &mut Tally,
    ) {
        let mut random = ChaCha8Rng::seed_from_u64(self.seed);
        random.set_stream(round);
        let mut score = 0;
        for index in 0..self.holes.len() {
            let mut ball = Ball {
                hole: &self.holes[index],
                golfer: &self.golfer[index],
                goal: self.goal.map(|goal| &goal[index]),
                counter: counters[index].as_ref(),
                watch,
                index,
                is_kept: round < ROUNDS_VISITED,
                spot: self.golfer[index].tee_spot(),
                strokes: 0,
                on_in: None,
                near_in: None,
            };
            ball.play_hole(&mut random, tally);
            score += u64::from(ball.strokes);
            if round < ROUNDS_KEPT {
                // A hole is given up long before its strokes are too many for a byte.
                tally.scores.push(ball.strokes as u8);
            }
        }
        tally.rounds += 1;
        tally.strokes += score;
        tally.strokes_squared += score * score;
        *tally.by_score.entry(score).or_default() += 1;
    }
}

/// One ball on its way round one hole.
struct Ball<'a> {
    hole: &'a Hole,
    golfer: &'a Solved<'a>,
    goal: Option<&'a Solved<'a>>,
    counter: Option<&'a Counter>,
    watch: Option<Watch<'a>>,
    index: usize,
    /// Whether its full shots are kept.
    is_kept: bool,
    spot: Spot,
    strokes: u32,
    /// Strokes it took to reach the green.
    on_in: Option<u32>,
    /// The part of the first shot from near the green, and the strokes taken before it.
    near_in: Option<(Part, u32)>,
}

impl Ball<'_> {
    fn play_hole(&mut self, random: &mut ChaCha8Rng, tally: &mut Tally) {
        let mut holed = false;
        while !holed && self.strokes < MOST_STROKES {
            let before = self.goal_expects();
            let taken_before = self.strokes;
            let part;
            (part, holed) = self.play_shot(random, tally);
            let over = holed || self.strokes >= MOST_STROKES;
            let after = if over { 0.0 } else { self.goal_expects() };
            tally.lost[part as usize] += after + f64::from(self.strokes - taken_before) - before;
        }
        match self.near_in {
            Some((Part::Sand, before)) => {
                tally.sand_saves.count(holed && self.strokes <= before + 2)
            }
            Some((_, before)) => tally
                .up_and_downs
                .count(holed && self.strokes <= before + 2),
            None => {}
        }
        let hole = &mut tally.holes[self.index];
        hole.strokes += u64::from(self.strokes);
        hole.given_up += u64::from(!holed);
        hole.greens += u64::from(
            self.on_in
                .is_some_and(|on| on + 2 <= u32::from(self.hole.par)),
        );
    }

    fn goal_expects(&self) -> f64 {
        self.goal
            .map_or(0.0, |goal| f64::from(goal.expected(self.spot)))
    }

    /// Plays one shot (or all putts); says which part it belongs to, and whether the ball is holed.
    fn play_shot(&mut self, random: &mut ChaCha8Rng, tally: &mut Tally) -> (Part, bool) {
        if self.spot.lie == Lie::Green {
            return (Part::Putting, self.putt_out(random, tally));
        }
        let play = self.golfer.play(self.spot);
        let is_full = matches!(play, Some(Play::Full(_)));
        let (part, end) = match play {
            Some(Play::Touch(shot)) => {
                let part = Part::near_green(self.spot.lie);
                self.near_in.get_or_insert((part, self.strokes));
                tally.shots[part as usize] += 1;
                match touch_end(random, &shot, self.golfer.ground()) {
                    None => {
                        self.count(Counted::touch(part, None), tally);
                        self.strokes += 1;
                        self.on_in.get_or_insert(self.strokes);
                        return (part, true);
                    }
                    Some(end) => {
                        let again = || self.golfer.expected(self.spot);
                        let end = end.or_again(self.spot, &self.golfer.values, again);
                        self.count(Counted::touch(part, Some(&end)), tally);
                        (part, end)
                    }
                }
            }
            Some(Play::Full(choice)) => self.full_shot(choice, random, tally),
            // No club is played from this lie: the ball is unplayable, and goes back to the tee.
            None => {
                self.strokes += 1;
                tally.penalties += 1;
                self.spot = self.golfer.tee_spot();
                return (Part::LongApproach, false);
            }
        };
        if let Some(watch) = self.watch {
            watch(Watched {
                hole: self.index,
                is_full,
                end: &end,
            });
        }
        self.strokes += 1 + u32::from(end.penalty);
        tally.penalties += u64::from(end.penalty);
        self.spot = end.spot;
        if end.spot.lie == Lie::Green {
            self.on_in.get_or_insert(self.strokes);
        }
        (part, false)
    }

    fn full_shot(
        &self,
        choice: super::choose::Choice,
        random: &mut ChaCha8Rng,
        tally: &mut Tally,
    ) -> (Part, Finish) {
        let choosing = self.golfer.choosing(self.spot);
        let (line, shots) = choosing.line(self.spot, choice);
        let struck = shots.struck(pick(random, shots), Told::Finely);
        let ground = self.golfer.ground();
        let again = || self.golfer.expected(self.spot);
        let end =
            finish(ground, self.spot, line, struck).or_again(self.spot, &self.golfer.values, again);
        let from_tee = self.golfer.on_tee(self.spot) && self.hole.par >= 4;
        let part = if from_tee {
            Part::TeeShots
        } else {
            choosing.part(choice)
        };
        tally.shots[part as usize] += 1;
        if self.is_kept {
            tally.visits.push(Visit {
                hole: self.index,
                spot: self.spot,
                choice,
                part,
            });
        }
        if from_tee && self.strokes == 0 {
            let hit = matches!(end.spot.lie, Lie::Fairway | Lie::Green) && end.penalty == 0;
            tally.holes[self.index].fairways += u64::from(hit);
        }
        if !from_tee {
            self.count_nearness(choice.target, end.spot.at, tally);
        }
        if end.pitched == Lie::Green {
            tally.holds[part as usize].pitched += 1;
            tally.holds[part as usize].held += u64::from(end.spot.lie == Lie::Green && !end.replay);
        }
        if self.counter.is_some() {
            let counted = Counted {
                part,
                club: Some(choosing.club(choice)),
                over_water: over_water(ground, self.spot, line, struck.shot),
                end: Some(&end),
            };
            self.count(counted, tally);
        }
        (part, end)
    }

    /// Counts a shot under the label its rule gives it. The ball still lies where it was played from.
    fn count(&self, shot: Counted<'_>, tally: &mut Tally) {
        let Some(counter) = self.counter else {
            return;
        };
        let facts = ShotFacts {
            hole: self.hole.number,
            par: self.hole.par,
            stroke: self.strokes + 1,
            part: shot.part.name(),
            club: shot.club,
            lie: self.spot.lie,
            to_pin_yd: to_pin_yd(self.hole, self.spot.at),
            left_yd: shot.end.map_or(0, |end| to_pin_yd(self.hole, end.spot.at)),
            over_water: shot.over_water,
            pitched: shot.end.map_or(Lie::Green, |end| end.pitched),
            ended: ended(shot.end),
            penalty: shot.end.map_or(0, |end| end.penalty),
        };
        if let Some(label) = counter.label(&facts) {
            *tally.labels.entry(label).or_default() += 1;
        }
    }

    /// Counts how near the hole a shot meant for the green finished.
    fn count_nearness(&self, target: Xy, end: Xy, tally: &mut Tally) {
        let pin = Xy::from(self.hole.pin);
        if pin.seen_from(target).length() > MEANT_YD {
            return;
        }
        if let Some(band) = band(pin.seen_from(self.spot.at).length()) {
            tally.near[band].count(pin.seen_from(end).length() * FEET);
        }
    }

    fn putt_out(&mut self, random: &mut ChaCha8Rng, tally: &mut Tally) -> bool {
        let distance_ft = Xy::from(self.hole.pin).seen_from(self.spot.at).length() * FEET;
        let putts = u32::from(
            self.golfer
                .values
                .putts()
                .draw(f64::from(distance_ft), random.random()),
        );
        self.on_in.get_or_insert(self.strokes);
        self.strokes += putts;
        tally.putts += u64::from(putts);
        tally.three_putts += u64::from(putts >= 3);
        tally.shots[Part::Putting as usize] += u64::from(putts);
        true
    }
}

/// What a rule that counts is told of a shot, beside where it was played from.
struct Counted<'a> {
    part: Part,
    /// None for chips, pitches and greenside bunker shots.
    club: Option<Club>,
    over_water: bool,
    /// None when it was holed.
    end: Option<&'a Finish>,
}

impl<'a> Counted<'a> {
    const fn touch(part: Part, end: Option<&'a Finish>) -> Self {
        Self {
            part,
            club: None,
            over_water: false,
            end,
        }
    }
}

fn pick<'a>(random: &mut ChaCha8Rng, shots: &'a SwingShots) -> &'a super::bank::HoleShot {
    let list = if random.random::<f32>() < shots.mishit_share {
        &shots.mishit
    } else {
        &shots.normal
    };
    &list[random.random_range(0..list.len())]
}

/// None when the shot is holed.
fn touch_end(random: &mut ChaCha8Rng, shot: &TouchShot<'_>, ground: &Ground) -> Option<Finish> {
    let (normal, mishits) = shot.counts();
    if random.random::<f32>() < shot.mishit_share {
        return Some(shot.mishit(ground, random.random_range(0..mishits)));
    }
    if random.random::<f32>() < shot.holed {
        return None;
    }
    Some(shot.normal(ground, random.random_range(0..normal)))
}
