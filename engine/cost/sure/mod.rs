//! How sure the figures of a card are: from the shots that were measured, and from what was assumed.
//!
//! Golfers are drawn who could be the player as well, and what a part saves is taken for each of them. With other
//! patterns a part saves what it saves now, and what the shots would cost more that are gone from the score when the
//! part is at the goal's standard: its own, and those of other parts that are played less then.

mod more;
pub(super) mod moves;

use rand::rngs::ChaCha8Rng;
use rand::{Rng, RngExt, SeedableRng};
use rand_distr::{Distribution, StandardNormal};

use crate::player::{Golfer, Origin};
use crate::round::part::Part;
use crate::round::tally::Tally;

use super::card::PLAYER;
use super::detail::Known;
use super::pair::{Pair, Saving};
use moves::{ByPart, ClubMoves, moves};

pub use more::MoreShots;

/// Players put together from the draws of each club.
const PLAYERS: usize = 2000;
const SEED: u64 = 61;
/// A handicap index tells a player's mean score to this many strokes (standard deviation): the best 8 of 20 rounds of
/// a spread of 3.5 strokes leave 3.5/√8 = 1.2 of it (reckoned).
const INDEX_SD: f64 = 1.2;
/// Of the interval that is shown, the share to either side of it.
const TAIL: f64 = 0.05;
/// A part is told apart from another when it costs more with this chance.
pub const TOLD_APART: f64 = 0.8;

/// How sure a card is.
#[derive(Debug, Clone, PartialEq)]
pub struct Sure {
    /// By part: the 90 % interval of the strokes it would save.
    pub intervals: Vec<[f64; 2]>,
    /// By part: the chance that it saves most of all.
    pub first_chances: Vec<f64>,
    /// Whether the part to work on is told apart from every other.
    pub told_apart: bool,
    /// The part it is not told apart from.
    pub rival: Option<Part>,
    /// The shots that would tell it apart from that; none where no number that anyone hits would.
    pub more_shots: Vec<MoreShots>,
}

/// What moves the parts, in the players put together.
struct Cloud {
    clubs: Vec<ClubMoves>,
    /// By part: what one standard deviation of an assumed skill costs.
    skills: ByPart,
    /// By part that is replaced, and by part: the share of that part's moves by which the saving moves.
    counted: Vec<ByPart>,
    /// By player and part: what is saved there more than as fitted and assumed.
    players: Vec<ByPart>,
}

/// How sure it is what each part saves.
pub(super) fn sure(
    pair: &Pair<'_>,
    tally: &Tally,
    known: &Known,
    saved: &[Saving],
    work_on: Option<Part>,
) -> Sure {
    let clubs = moves(pair, tally);
    let skills = skills(pair, known);
    let counted: Vec<ByPart> = Part::ALL
        .into_iter()
        .map(|part| counted(part, &pair.now, &saved[part as usize]))
        .collect();
    let moved = put_together(&clubs, &skills, known.by_handicap);
    let players = moved.iter().map(|moved| {
        std::array::from_fn(|part| {
            let each = counted[part].iter().zip(moved);
            each.map(|(share, more)| share * more).sum()
        })
    });
    let cloud = Cloud {
        players: players.collect(),
        clubs,
        skills,
        counted,
    };
    let figures: Vec<f64> = saved.iter().map(|part| part.saved).collect();
    cloud.told(pair.golfers[PLAYER], &figures, work_on)
}

/// How much of each part's moves a part's saving moves by, when it is replaced: all of its own, for its shots are gone
/// then; of the others' as much as is played less of them then.
fn counted(replaced: Part, now: &Saving, then: &Saving) -> ByPart {
    std::array::from_fn(|part| {
        if part == replaced as usize {
            1.0
        } else if now.shots[part] > 0.0 {
            1.0 - then.shots[part] / now.shots[part]
        } else {
            0.0
        }
    })
}

/// What one standard deviation of every assumed skill costs.
fn skills(pair: &Pair<'_>, known: &Known) -> ByPart {
    let player = pair.golfers[PLAYER];
    let [better, worse] = &known.better_and_worse;
    let mut all = ByPart::default();
    for (part, origin) in [
        (Part::ShortGame, player.short_game.1),
        (Part::Sand, player.sand.1),
        (Part::Putting, player.putting.1),
    ] {
        if origin == Origin::Assumed {
            all[part as usize] =
                (pair.with_skill(part, worse) - pair.with_skill(part, better)) / 2.0;
        }
    }
    all
}

fn put_together(clubs: &[ClubMoves], skills: &ByPart, handicap_tells: bool) -> Vec<ByPart> {
    let mut rng = ChaCha8Rng::seed_from_u64(SEED);
    let mut players: Vec<ByPart> = (0..PLAYERS)
        .map(|_| one_player(clubs, skills, &mut rng))
        .collect();
    if handicap_tells {
        hold_to_handicap(&mut players, &mut rng);
    }
    players
}

fn one_player(clubs: &[ClubMoves], skills: &ByPart, rng: &mut impl Rng) -> ByPart {
    let mut sum = ByPart::default();
    for club in clubs.iter().filter(|club| !club.by_draw.is_empty()) {
        let draw = &club.by_draw[rng.random_range(0..club.by_draw.len())];
        for (sum, more) in sum.iter_mut().zip(draw) {
            *sum += more;
        }
    }
    for (sum, one_sd) in sum.iter_mut().zip(skills) {
        let off: f64 = StandardNormal.sample(rng);
        *sum += one_sd * off;
    }
    sum
}

/// Moves each player to a score that the handicap allows, every part by its share in the doubt about the score: the
/// conditional of a normal distribution, drawn by moving draws of the unconditional one (G. Matheron's rule).
fn hold_to_handicap(players: &mut [ByPart], rng: &mut impl Rng) {
    let totals: Vec<f64> = players.iter().map(|parts| parts.iter().sum()).collect();
    let mean = mean_of(totals.iter().copied());
    let variance = mean_of(totals.iter().map(|total| (total - mean).powi(2)));
    let gains: ByPart = std::array::from_fn(|part| {
        let centre = mean_of(players.iter().map(|parts| parts[part]));
        let both = players.iter().zip(&totals);
        let shared = mean_of(both.map(|(parts, total)| (parts[part] - centre) * (total - mean)));
        shared / (variance + INDEX_SD * INDEX_SD)
    });
    for (parts, total) in players.iter_mut().zip(totals) {
        let noise: f64 = StandardNormal.sample(rng);
        let off = total - mean + INDEX_SD * noise;
        for (part, gain) in parts.iter_mut().zip(gains) {
            *part -= gain * off;
        }
    }
}

impl Cloud {
    fn told(&self, player: &Golfer, saved: &[f64], work_on: Option<Part>) -> Sure {
        let parts = Part::ALL.len();
        let intervals = (0..parts).map(|part| {
            let all = self.players.iter().map(|moved| saved[part] + moved[part]);
            interval(all.collect())
        });
        let mut firsts = vec![0_u32; parts];
        for moved in &self.players {
            let with = |part: &usize| saved[*part] + moved[*part];
            if let Some(first) = (0..parts).max_by(|a, b| with(a).total_cmp(&with(b))) {
                firsts[first] += 1;
            }
        }
        let rival = work_on.and_then(|first| self.rival(saved, first));
        Sure {
            intervals: intervals.collect(),
            first_chances: firsts
                .iter()
                .map(|count| f64::from(*count) / PLAYERS as f64)
                .collect(),
            told_apart: rival.is_none(),
            rival,
            more_shots: work_on
                .zip(rival)
                .map(|(first, rival)| more::more_shots(self, player, saved, [first, rival]))
                .unwrap_or_default(),
        }
    }

    /// The part that most likely costs more than the first, if that is likely enough.
    fn rival(&self, saved: &[f64], first: Part) -> Option<Part> {
        let beats = |part: Part| {
            let ahead = |moved: &&ByPart| {
                let with = |part: Part| saved[part as usize] + moved[part as usize];
                with(part) > with(first)
            };
            self.players.iter().filter(ahead).count() as f64 / PLAYERS as f64
        };
        let others = Part::ALL.into_iter().filter(|part| *part != first);
        let chances = others.map(|part| (part, beats(part)));
        let nearest = chances.max_by(|a, b| a.1.total_cmp(&b.1))?;
        (nearest.1 > 1.0 - TOLD_APART).then_some(nearest.0)
    }
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
