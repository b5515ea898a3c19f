//! How sure it is what changes are worth, with so many measured shots and what was assumed.
//!
//! The changes are made of golfers who could be the player as well. What they are worth to one of them is taken where
//! the player plays full shots in his rounds, by what these cost with his clubs and with the changed ones, these in place
//! of others too where they are better; an assumed short game or putting is taken one standard deviation to either side,
//! and the course solved for it.

use rayon::prelude::*;

use crate::cost::PlayError;
use crate::cost::infer::Inferred;
use crate::cost::known::{Known, SKILL_SD};
use crate::cost::sure::index_sd;
use crate::cost::sure::moves::{drawn, outlooks, rounds_visited};
use crate::player::change::Change;
use crate::player::club::Club;
use crate::player::{BagClub, Golfer, Origin};
use crate::round::tally::Tally;
use crate::round::visits::{Visit, with_clubs};

use super::ready::{is_same_near, only_adds};
use super::{Accuracy, Ready, TryError, changed};

/// Golfers drawn who could be the player as well.
const DRAWS: u64 = 24;
/// So many of them must allow the changes, or nothing is said of how sure these are.
const LEAST_COUNTED: usize = DRAWS as usize / 2;
/// A change worth less than this either way to a golfer drawn, strokes a round, is worth nothing to him.
const NO_STROKES: f64 = 0.01;
/// Clubs hit less often a round are hardly hit.
const HARDLY_HIT: f64 = 1.0;
/// Spreads and share of mishits of golfers who hit a club far better, over the player's.
const TAMED: f64 = 0.5;
/// Standard normal quantile of the 90 % interval.
const QUANTILE: f64 = 1.645;

/// How sure it is what changes save.
pub(super) struct Sure {
    /// 90 % intervals of each change, and of all together; none where too few of the golfers drawn allow them.
    pub intervals: Vec<Option<[f64; 2]>>,
    /// Golfers drawn.
    pub drawn: u64,
    /// Those the changes can be made of.
    pub counted: u64,
}

/// What the shots that were measured leave open: draws around the clubs as they are fitted, in the mean as good as they
/// are.
struct ByShots {
    /// By change: the variance of what it is worth, and its covariance with the score.
    worth: Vec<[f64; 2]>,
    /// By change: whether it costs none of the golfers drawn anything, and whether it saves none anything.
    never_costs: Vec<bool>,
    never_saves: Vec<bool>,
    /// The variance of the score.
    score: f64,
    /// Golfers drawn the changes can be made of.
    counted: usize,
}

/// What one standard deviation of the assumed skills moves.
struct BySkills {
    /// By change: how much more it is worth to a player of worse skills.
    worth: Vec<f64>,
    /// How much more such a player scores.
    score: f64,
    /// How many standard deviations worse than inferred the skills usual at the handicap are.
    usual: f64,
    /// Whether the handicap tells the score.
    by_handicap: bool,
    /// How far the handicap leaves the score open, strokes.
    index_sd: f64,
}

impl Ready<'_> {
    /// How sure each change is, and all together, where `saved` is told of them.
    pub(super) fn sure(
        &self,
        changes: &[Change],
        golfers: &[Golfer],
        saved: &[f64],
        tally: &Tally,
    ) -> Result<Sure, TryError> {
        if changes.is_empty() {
            return Ok(Sure {
                intervals: Vec::new(),
                drawn: 0,
                counted: 0,
            });
        }
        let shots = self.by_shots(changes, golfers, tally);
        let skills = self.by_skills(changes)?;
        let counted = shots.counted;
        let all = saved.iter().enumerate();
        let interval = |(index, saved): (usize, &f64)| {
            let (off, sd) = doubt(&shots, &skills, index);
            // No figure is told outside its own interval.
            let low = saved + (off - QUANTILE * sd).min(0.0);
            let high = saved + (off + QUANTILE * sd).max(0.0);
            // The bell curve reaches to where none of the golfers drawn is.
            let is_by_clubs = self.golfer.clubs != golfers[index].clubs
                && is_same_near(self.golfer, &golfers[index]);
            let low = match is_by_clubs && *saved >= 0.0 && shots.never_costs[index] {
                true => low.max(0.0),
                false => low,
            };
            let high = match is_by_clubs && *saved <= 0.0 && shots.never_saves[index] {
                true => high.min(0.0),
                false => high,
            };
            (counted >= LEAST_COUNTED).then_some([low, high])
        };
        Ok(Sure {
            intervals: all.map(interval).collect(),
            drawn: DRAWS,
            counted: counted as u64,
        })
    }

    /// What the shots that were measured leave open.
    fn by_shots(&self, changes: &[Change], golfers: &[Golfer], tally: &Tally) -> ByShots {
        let otherwise = |golfer: &Golfer| {
            let visits = self.visits_of(golfer, tally);
            let mut all = played_otherwise(&tally.visits, &visits);
            let clubs = clubs_changed(self.golfer, golfer);
            if !clubs.is_empty() && self.hit_with(&clubs, tally) < HARDLY_HIT {
                // A golfer drawn may hit well what the player, as he was fitted, leaves in the bag.
                let visits = self.visits_of(&tamed(golfer, &clubs), tally);
                all.extend(played_otherwise(&tally.visits, &visits));
            }
            all
        };
        let shots = Shots {
            ready: self,
            visits: &tally.visits,
            otherwise: golfers.iter().map(otherwise).collect(),
            rounds: rounds_visited(tally),
        };
        let draws: Vec<u64> = (0..DRAWS).collect();
        // A change that cannot be made of a golfer drawn leaves him out, and it is told how many are left: the player
        // himself was asked before.
        let each = draws.par_iter().filter_map(|&number| {
            let player = drawn(self.golfer, number);
            let golfers = changed(&player, changes).ok()?;
            Some(shots.worth(&player, &golfers))
        });
        let each: Vec<Vec<f64>> = each.collect();
        // With fewer than two the rest says nothing.
        let count = each.len().max(2) as f64;
        let mean = |index: usize| each.iter().map(|of| of[index]).sum::<f64>() / count;
        let shared = |one: usize, other: usize| {
            let (a, b) = (mean(one), mean(other));
            let products = each.iter().map(|of| (of[one] - a) * (of[other] - b));
            products.sum::<f64>() / (count - 1.0)
        };
        let never = |is_so: fn(&f64) -> bool| -> Vec<bool> {
            let one = |index: usize| !each.is_empty() && !each.iter().any(|of| is_so(&of[index]));
            (1..=golfers.len()).map(one).collect()
        };
        ByShots {
            worth: (1..=golfers.len())
                .map(|index| [shared(index, index), shared(index, 0)])
                .collect(),
            never_costs: never(|worth| *worth < -NO_STROKES),
            never_saves: never(|worth| *worth > NO_STROKES),
            score: shared(0, 0),
            counted: each.len(),
        }
    }

    /// How many shots a round the player hits with some clubs.
    fn hit_with(&self, clubs: &[Club], tally: &Tally) -> f64 {
        let is_hit = |visit: &&Visit| {
            let choosing = self.own[visit.hole].choosing(visit.spot);
            clubs.contains(&choosing.club(visit.choice))
        };
        tally.visits.iter().filter(is_hit).count() as f64 / rounds_visited(tally)
    }

    /// The player's full shots as a changed player would play them.
    fn visits_of(&self, changed: &Golfer, tally: &Tally) -> Vec<Visit> {
        let clubs = clubs_changed(self.golfer, changed);
        if clubs.is_empty() {
            return tally.visits.clone();
        }
        let stage = self.venue.stage;
        stage.with_guest(changed, |banks| {
            with_clubs(&tally.visits, self.own, banks, &clubs)
        })
    }

    /// What the assumed skills leave open.
    fn by_skills(&self, changes: &[Change]) -> Result<BySkills, TryError> {
        let golfer = self.golfer;
        let skills = [golfer.short_game.1, golfer.sand.1, golfer.putting.1];
        let is_assumed = skills.contains(&Origin::Assumed);
        let known = Known::of(&Inferred {
            golfer: golfer.clone(),
            inference: self.inference.clone(),
        })
        .map_err(PlayError::Level)?;
        let usual = match &self.inference {
            Some(found) if known.by_handicap => (golfer.handicap - found.handicap) / SKILL_SD,
            _ => 0.0,
        };
        let told = BySkills {
            worth: vec![0.0; changes.len() + usize::from(changes.len() > 1)],
            score: 0.0,
            usual,
            by_handicap: known.by_handicap,
            index_sd: index_sd(self.own.len()),
        };
        if !is_assumed {
            return Ok(told);
        }
        let mut worth = Vec::new();
        for player in &known.better_and_worse {
            let mut all = vec![player.clone()];
            all.extend(changed(player, changes)?);
            // What a change does to clubs is the same for both.
            all.iter_mut()
                .for_each(|one| one.clubs.clone_from(&golfer.clubs));
            let saved = self.saved(&all.iter().collect::<Vec<_>>(), Accuracy::Full);
            worth.push(saved);
        }
        let [better, worse] = [&worth[0], &worth[1]];
        let more = |index: usize| {
            let worth = |saved: &[f64]| saved[index] - saved[0];
            (worth(worse) - worth(better)) / 2.0
        };
        Ok(BySkills {
            worth: (1..better.len()).map(more).collect(),
            score: (better[0] - worse[0]) / 2.0,
            ..told
        })
    }
}

/// The player's full shots, played by golfers who could be him.
struct Shots<'a> {
    ready: &'a Ready<'a>,
    visits: &'a [Visit],
    /// By change: those that the changed player plays otherwise.
    otherwise: Vec<Vec<(usize, Visit)>>,
    /// Rounds they are of.
    rounds: f64,
}

impl Shots<'_> {
    /// The score, and what every change is worth.
    fn worth(&self, player: &Golfer, golfers: &[Golfer]) -> Vec<f64> {
        let now = self.strokes(player, self.visits);
        let changes = golfers.iter().zip(&self.otherwise);
        let worth = changes.map(|(golfer, otherwise)| match golfer.clubs == player.clubs {
            true => 0.0,
            false => self.of_change((player, &now), golfer, otherwise),
        });
        std::iter::once(self.a_round(&now)).chain(worth).collect()
    }

    /// What a change is worth. Each shot is played as the player plays it or as the changed player does, whichever is
    /// better with the golfer's own clubs, before and after.
    fn of_change(
        &self,
        (player, now): (&Golfer, &[f64]),
        changed: &Golfer,
        otherwise: &[(usize, Visit)],
    ) -> f64 {
        let then = self.strokes(changed, self.visits);
        let mut before = self.or_otherwise(player, now.to_vec(), otherwise);
        let mut after = self.or_otherwise(changed, then, otherwise);
        // Whatever can be done without a club can be done with it in the bag.
        if only_adds(player, changed) {
            lower(&mut after, &before);
        } else if only_adds(changed, player) {
            lower(&mut before, &after);
        }
        self.a_round(&before) - self.a_round(&after)
    }

    fn or_otherwise(
        &self,
        golfer: &Golfer,
        mut strokes: Vec<f64>,
        otherwise: &[(usize, Visit)],
    ) -> Vec<f64> {
        let visits: Vec<Visit> = otherwise.iter().map(|(_, visit)| *visit).collect();
        for ((place, _), found) in otherwise.iter().zip(self.strokes(golfer, &visits)) {
            strokes[*place] = strokes[*place].min(found);
        }
        strokes
    }

    fn strokes(&self, golfer: &Golfer, visits: &[Visit]) -> Vec<f64> {
        let all = outlooks(&self.ready.venue, self.ready.own, visits, golfer);
        all.iter().map(|shot| f64::from(shot.strokes)).collect()
    }

    fn a_round(&self, strokes: &[f64]) -> f64 {
        strokes.iter().sum::<f64>() / self.rounds
    }
}

/// Each figure of one list, or that of another where it is less.
fn lower(strokes: &mut [f64], others: &[f64]) {
    for (own, other) in strokes.iter_mut().zip(others) {
        *own = own.min(*other);
    }
}

/// Of some visits those that another list has otherwise, by their place.
fn played_otherwise(visits: &[Visit], others: &[Visit]) -> Vec<(usize, Visit)> {
    let both = visits.iter().zip(others).enumerate();
    let other = both.filter(|(_, (visit, other))| visit != other);
    other.map(|(place, (_, other))| (place, *other)).collect()
}

/// A golfer who hits some clubs far better: where he would play them they are worth asking about.
fn tamed(golfer: &Golfer, clubs: &[Club]) -> Golfer {
    let mut tamed = golfer.clone();
    for entry in &mut tamed.clubs {
        if clubs.contains(&entry.club) {
            entry.pattern.sd = entry.pattern.sd.map(|sd| TAMED * sd);
            entry.pattern.mishit.share *= TAMED;
        }
    }
    tamed
}

/// The clubs that a changed player hits otherwise.
fn clubs_changed(player: &Golfer, changed: &Golfer) -> Vec<Club> {
    let is_other = |entry: &&BagClub| !player.clubs.contains(entry);
    let clubs = changed.clubs.iter().filter(is_other);
    clubs.map(|entry| entry.club).collect()
}

/// How far what a change is worth is off in the mean of the golfers who could be the player, and its standard deviation.
///
/// To the first order both what it is worth and the score move with the shots and with the skills, and where the
/// handicap tells the score, it moves them by their shares in the doubt: the conditional of a normal distribution, as on
/// the card (`cost/sure`), but that the three skills move together.
fn doubt(shots: &ByShots, skills: &BySkills, index: usize) -> (f64, f64) {
    let [variance, shared] = shots.worth[index];
    let worth = skills.worth[index];
    let (off, variance) = (worth * skills.usual, variance + worth * worth);
    if !skills.by_handicap {
        return (off, variance.sqrt());
    }
    let shared = shared + worth * skills.score;
    let gain = shared / (shots.score + skills.score * skills.score + skills.index_sd.powi(2));
    let left = (variance - gain * shared).max(0.0);
    (off - gain * skills.score * skills.usual, left.sqrt())
}
