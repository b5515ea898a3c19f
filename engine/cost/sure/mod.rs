//! How sure the figures of a card are: from the shots that were measured, and from what was assumed.
//!
//! Golfers are drawn who could be the player as well, and what a part saves is taken for each of them. With other
//! patterns a part saves what it saves now, and what the shots would cost more that are gone from the score when the
//! part is at the goal's standard: its own, and those of other parts that are played less then. It also saves more
//! where the other patterns lead to more shots of it.

mod more;
pub(super) mod moves;

use rand::rngs::ChaCha8Rng;
use rand::{Rng, RngExt, SeedableRng};
use rand_distr::{Distribution, StandardNormal};

use crate::player::club::Club;
use crate::player::{Golfer, Origin};
use crate::round::part::Part;
use crate::round::tally::Tally;

use super::known::Known;
use super::pair::{Pair, Saving};
use super::venue::PLAYER;
use moves::{ByPart, ClubMoves, Move, moves};

pub use more::MoreShots;

/// Players put together from the draws of each club.
const PLAYERS: usize = 2000;
const SEED: u64 = 61;
/// A handicap index tells a player's mean score on eighteen holes to this many strokes (standard deviation): the best 8
/// of 20 rounds of a spread of 3.5 strokes leave 3.5/√8 = 1.2 of it (reckoned).
const INDEX_SD: f64 = 1.2;
/// What choices leave open of a saving, strokes for the root of the holes: they are flat around the best, and made anew
/// where balls come by only. On eighteen holes it is 0.02 (measured beside whole solutions).
const SOLVED_SD: f64 = 0.005;
/// Of the interval that is shown, the share to either side of it.
const TAIL: f64 = 0.05;
/// A part is told apart from another when it costs more with this chance.
pub const TOLD_APART: f64 = 0.8;

/// How sure a card is.
#[derive(Debug, Clone, PartialEq)]
pub struct Sure {
    /// By part: the 90 % interval of the strokes it would save.
    pub intervals: Vec<[f64; 2]>,
    /// By part: what it would save in the mean of the golfers who could be the player. That is the part's own figure,
    /// unless the handicap says more of the player than his shots do.
    pub likely: Vec<f64>,
    /// By part: the chance that it saves most of all.
    pub first_chances: Vec<f64>,
    /// Whether the part to work on is told apart from every other.
    pub told_apart: bool,
    /// The part it is not told apart from.
    pub rival: Option<Part>,
    /// A part that saves more than it with a chance of four in five or better: one that nobody measured, or that the rule
    /// which orders the parts puts behind it.
    pub ahead: Option<Part>,
    /// The shots that would tell it apart from that; none where no number that anyone hits would.
    pub more_shots: Vec<MoreShots>,
}

/// How far savings and the score are off, for one club's draw or one whole player.
#[derive(Debug, Clone, Copy, Default)]
struct Off {
    /// By part: strokes saved more.
    saved: ByPart,
    /// Strokes a round more.
    score: f64,
}

impl Off {
    /// So many strokes more in one part.
    fn of_part(part: Part, strokes: f64) -> Self {
        let mut off = Self {
            score: strokes,
            ..Self::default()
        };
        off.saved[part as usize] = strokes;
        off
    }

    fn add(&mut self, other: &Self, share: f64) {
        self.score += share * other.score;
        for (sum, more) in self.saved.iter_mut().zip(other.saved) {
            *sum += share * more;
        }
    }
}

/// What the players are put together from.
struct Cloud {
    /// By club: how far its draws are off.
    clubs: Vec<(Club, Vec<Off>)>,
    /// One standard deviation of each assumed skill.
    skills: Vec<Off>,
    /// How far the assumed skills that are usual at the handicap are off those inferred.
    usual: Off,
    /// One standard deviation of what solving leaves open, strokes.
    solved_sd: f64,
}

/// How sure it is what each part saves. `first` names the part to work on by what each is likely to save.
pub(super) fn sure(
    pair: &Pair<'_>,
    tally: &Tally,
    known: &Known,
    saved: &[Saving],
    first: impl FnOnce(&[f64]) -> Option<Part>,
) -> Sure {
    let each: Vec<Weights> = Part::ALL
        .into_iter()
        .map(|part| Weights::of(part, tally, &saved[part as usize]))
        .collect();
    let club = |club: ClubMoves| {
        let mut offs: Vec<Off> = club.by_draw.iter().map(|moved| off(&each, moved)).collect();
        centre(&mut offs);
        (club.club, offs)
    };
    let cloud = Cloud {
        clubs: moves(pair, tally).into_iter().map(club).collect(),
        skills: skills(pair, known),
        usual: usual(pair, known),
        solved_sd: SOLVED_SD * (tally.holes.len() as f64).sqrt(),
    };
    let handicap_tells = known.by_handicap;
    let players = cloud.put_together(handicap_tells.then(|| index_sd(tally.holes.len())));
    let figures: Vec<f64> = saved.iter().map(|part| part.saved).collect();
    cloud.told(&players, pair.golfers[PLAYER], &figures, first)
}

/// What a part's saving hangs on.
struct Weights {
    /// By part: how much of that part's strokes more are saved with this one. All of its own, for its shots are gone
    /// from the score then; of the others' as much as is played less of them then.
    strokes: ByPart,
    part: Part,
    /// What each shot of the part saves: with more shots of it, more is saved.
    per_shot: f64,
}

impl Weights {
    fn of(part: Part, tally: &Tally, saving: &Saving) -> Self {
        let Saving { saved, then, now } = saving;
        let strokes = std::array::from_fn(|other| {
            if other == part as usize {
                1.0
            } else if now[other] > 0.0 {
                1.0 - then[other] / now[other]
            } else {
                0.0
            }
        });
        let shots = tally.per_round(tally.shots[part as usize]);
        // A hole is putted out once, however it is played; and every hole has its one drive.
        let per_shot = match part {
            Part::Putting | Part::TeeShots => 0.0,
            _ if shots > 0.0 => saved / shots,
            _ => 0.0,
        };
        Self {
            strokes,
            part,
            per_shot,
        }
    }
}

fn off(each: &[Weights], moved: &Move) -> Off {
    let saved = std::array::from_fn(|part| {
        let weights = &each[part];
        let strokes = weights.strokes.iter().zip(moved.strokes);
        let by_strokes: f64 = strokes.map(|(share, more)| share * more).sum();
        by_strokes + weights.per_shot * moved.shots[weights.part as usize]
    });
    Off {
        saved,
        score: moved.strokes.iter().sum(),
    }
}

/// Shifts draws so that nothing is lost or won in the mean of them.
///
/// A draw plays on by the choices that suit the player as he was fitted, not those that suit it, so that nearly every
/// draw seems worse than it is. And a level stands for all golfers of its handicap: by how much these differ makes none
/// of its figures better or worse. Beside golfers whose patterns are known, centred intervals hold the truth more often,
/// and as often as they say (`tests/cost/sure.rs`).
fn centre(draws: &mut [Off]) {
    let mut mean = Off::default();
    for off in &*draws {
        mean.add(off, 1.0 / draws.len() as f64);
    }
    for off in draws {
        off.add(&mean, -1.0);
    }
}

/// One standard deviation of every assumed skill.
fn skills(pair: &Pair<'_>, known: &Known) -> Vec<Off> {
    let [better, worse] = &known.better_and_worse;
    let one_sd = |part| {
        let strokes = (pair.with_skill(part, worse) - pair.with_skill(part, better)) / 2.0;
        Off::of_part(part, strokes)
    };
    assumed_skills(pair).map(one_sd).collect()
}

/// What the usual skills of the handicap make the player lose more than those inferred.
///
/// An inference gives the skills all of what the handicap and the shots leave over between them. How likely that is hangs on
/// how widely golfers of one handicap differ near the hole, and on how many shots tell of the rest: so the players are put
/// together around the usual skills, and the handicap then moves all they are made of by their shares.
fn usual(pair: &Pair<'_>, known: &Known) -> Off {
    let mut off = Off::default();
    if let Some(usual) = &known.usual {
        for part in assumed_skills(pair) {
            let strokes = pair.with_skill(part, usual) - pair.score();
            off.add(&Off::of_part(part, strokes), 1.0);
        }
    }
    off
}

/// The parts near the hole that nobody measured.
fn assumed_skills(pair: &Pair<'_>) -> impl Iterator<Item = Part> {
    let player = pair.golfers[PLAYER];
    let all = [
        (Part::ShortGame, player.short_game.1),
        (Part::Sand, player.sand.1),
        (Part::Putting, player.putting.1),
    ];
    let assumed = all
        .into_iter()
        .filter(|(_, origin)| *origin == Origin::Assumed);
    assumed.map(|(part, _)| part)
}

/// How far a handicap index leaves a player's mean score open on so many holes, strokes.
pub(super) fn index_sd(holes: usize) -> f64 {
    INDEX_SD * holes as f64 / 18.0
}

/// Moves each player to a score that the handicap allows, every part by its share in the doubt about the score: the
/// conditional of a normal distribution, drawn by moving draws of the unconditional one (G. Matheron's rule). The score
/// the handicap tells is the one the player is simulated with.
fn hold_to_handicap(players: &mut [Off], index_sd: f64, rng: &mut impl Rng) {
    let mean = mean_of(players.iter().map(|player| player.score));
    let variance = mean_of(players.iter().map(|player| (player.score - mean).powi(2)));
    let gains: ByPart = std::array::from_fn(|part| {
        let centre = mean_of(players.iter().map(|player| player.saved[part]));
        let shared = |player: &Off| (player.saved[part] - centre) * (player.score - mean);
        mean_of(players.iter().map(shared)) / (variance + index_sd * index_sd)
    });
    for player in players {
        let noise: f64 = StandardNormal.sample(rng);
        let off = player.score + index_sd * noise;
        for (saved, gain) in player.saved.iter_mut().zip(gains) {
            *saved -= gain * off;
        }
    }
}

impl Cloud {
    fn put_together(&self, index_sd: Option<f64>) -> Vec<Off> {
        let mut rng = ChaCha8Rng::seed_from_u64(SEED);
        let mut players: Vec<Off> = (0..PLAYERS).map(|_| self.one(&mut rng)).collect();
        if let Some(index_sd) = index_sd {
            hold_to_handicap(&mut players, index_sd, &mut rng);
        }
        players
    }

    fn one(&self, rng: &mut impl Rng) -> Off {
        let mut sum = self.usual;
        for (_, draws) in self.clubs.iter().filter(|(_, draws)| !draws.is_empty()) {
            sum.add(&draws[rng.random_range(0..draws.len())], 1.0);
        }
        for one_sd in &self.skills {
            sum.add(one_sd, StandardNormal.sample(rng));
        }
        for saved in &mut sum.saved {
            let noise: f64 = StandardNormal.sample(rng);
            *saved += self.solved_sd * noise;
        }
        sum
    }

    fn told(
        &self,
        players: &[Off],
        player: &Golfer,
        saved: &[f64],
        first: impl FnOnce(&[f64]) -> Option<Part>,
    ) -> Sure {
        let parts = Part::ALL.len();
        let of_all = |part: usize| players.iter().map(move |off| saved[part] + off.saved[part]);
        let intervals = (0..parts).map(|part| {
            let [low, high] = interval(of_all(part).collect());
            // No figure is told outside its own interval, though all that was inferred may lie at the end of what is likely.
            [low.min(saved[part]), high.max(saved[part])]
        });
        let likely: Vec<f64> = (0..parts).map(|part| mean_of(of_all(part))).collect();
        let mut firsts = vec![0_u32; parts];
        for off in players {
            let with = |part: &usize| saved[*part] + off.saved[*part];
            if let Some(first) = (0..parts).max_by(|a, b| with(a).total_cmp(&with(b))) {
                firsts[first] += 1;
            }
        }
        let first_chances: Vec<f64> = firsts
            .iter()
            .map(|count| f64::from(*count) / PLAYERS as f64)
            .collect();
        let work_on = first(&likely);
        let by = [likely.as_slice(), &first_chances];
        let [rival, ahead] = work_on.map_or([None; 2], |first| others(players, saved, by, first));
        Sure {
            intervals: intervals.collect(),
            first_chances,
            told_apart: rival.is_none() && ahead.is_none(),
            rival,
            ahead,
            more_shots: work_on
                .zip(rival)
                .map(|(first, rival)| more::more_shots(self, player, &likely, [first, rival]))
                .unwrap_or_default(),
            likely,
        }
    }
}

/// Of the parts that may well cost more than the first, but not clearly, the one that is most often the first of all; and
/// of those that clearly do the one that is likely to save most.
fn others(
    players: &[Off],
    saved: &[f64],
    [likely, first_chances]: [&[f64]; 2],
    first: Part,
) -> [Option<Part>; 2] {
    let beats = |part: Part| {
        let ahead = |off: &&Off| {
            let with = |part: Part| saved[part as usize] + off.saved[part as usize];
            with(part) > with(first)
        };
        players.iter().filter(ahead).count() as f64 / PLAYERS as f64
    };
    let others = Part::ALL.into_iter().filter(|part| *part != first);
    let chances = others.map(|part| (part, beats(part)));
    let (ahead, behind): (Vec<_>, Vec<_>) = chances.partition(|(_, chance)| *chance >= TOLD_APART);
    let rivals = behind
        .iter()
        .filter(|(_, chance)| *chance > 1.0 - TOLD_APART);
    let most = |a: Part, b: Part, by: &[f64]| by[a as usize].total_cmp(&by[b as usize]);
    let rival = rivals.max_by(|a, b| most(a.0, b.0, first_chances));
    let ahead = ahead.iter().max_by(|a, b| most(a.0, b.0, likely));
    [rival, ahead].map(|found| found.map(|(part, _)| *part))
}

/// The 90 % interval of figures.
pub(super) fn interval(mut all: Vec<f64>) -> [f64; 2] {
    all.sort_by(f64::total_cmp);
    let last = all.len().saturating_sub(1);
    let at = |share: f64| {
        let place = (share * last as f64).round() as usize;
        all.get(place).copied().unwrap_or(0.0)
    };
    [at(TAIL), at(1.0 - TAIL)]
}

fn mean_of(values: impl ExactSizeIterator<Item = f64>) -> f64 {
    let count = values.len().max(1);
    values.sum::<f64>() / count as f64
}
