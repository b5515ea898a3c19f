//! How sure it is what changes are worth, with so many measured shots and what was assumed.
//!
//! The changes are made of golfers who could be the player as well. What they are worth to one of them is taken where
//! the player plays full shots in his rounds, by what these cost with his clubs and with the changed ones; an assumed
//! short game or putting is taken one standard deviation to either side, and the course solved for it.

use rayon::prelude::*;

use crate::cost::PlayError;
use crate::cost::infer::Inferred;
use crate::cost::known::Known;
use crate::cost::sure::moves::{drawn, outlooks, rounds_visited};
use crate::player::change::Change;
use crate::player::{BagClub, Golfer, Origin};
use crate::round::tally::Tally;

use super::{Accuracy, Ready, TryError, changed};

/// Golfers drawn who could be the player as well.
const DRAWS: u64 = 24;
/// So many of them must allow the changes, or nothing is said of how sure these are.
const LEAST_COUNTED: usize = DRAWS as usize / 2;
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
        let (spreads, counted) = self.by_shots(changes, golfers, tally);
        let skills = self.by_skills(changes)?;
        let all = saved.iter().zip(spreads).zip(skills);
        let interval = |((saved, (off, sd)), skill): ((&f64, (f64, f64)), f64)| {
            let wide = QUANTILE * sd.hypot(skill);
            (counted >= LEAST_COUNTED).then_some([saved + off - wide, saved + off + wide])
        };
        Ok(Sure {
            intervals: all.map(interval).collect(),
            drawn: DRAWS,
            counted: counted as u64,
        })
    }

    /// By change: how far the mean over the golfers drawn lies from the player's own, where any club it touches was
    /// measured, and their standard deviation. Then how many of them the changes can be made of; with fewer than two the
    /// rest says nothing.
    fn by_shots(
        &self,
        changes: &[Change],
        golfers: &[Golfer],
        tally: &Tally,
    ) -> (Vec<(f64, f64)>, usize) {
        let strokes = |golfer: &Golfer| -> f64 {
            let all = outlooks(&self.venue, self.own, tally, golfer);
            let strokes: f64 = all.iter().map(|shot| f64::from(shot.strokes)).sum();
            strokes / rounds_visited(tally)
        };
        let worth = |player: &Golfer, golfers: &[Golfer]| -> Vec<f64> {
            let now = strokes(player);
            let changed = |golfer: &Golfer| match golfer.clubs == player.clubs {
                true => 0.0,
                false => now - strokes(golfer),
            };
            golfers.iter().map(changed).collect()
        };
        let own = worth(self.golfer, golfers);
        let draws: Vec<u64> = (0..DRAWS).collect();
        // A change that cannot be made of a golfer drawn leaves him out, and it is told how many are left: the player
        // himself was asked before.
        let each = draws.par_iter().filter_map(|&number| {
            let player = drawn(self.golfer, number);
            let golfers = changed(&player, changes).ok()?;
            Some(worth(&player, &golfers))
        });
        let each: Vec<Vec<f64>> = each.collect();
        let spread = |(index, own): (usize, &f64)| {
            let off: Vec<f64> = each.iter().map(|worth| worth[index] - own).collect();
            let count = off.len() as f64;
            let mean = off.iter().sum::<f64>() / count;
            let squares: f64 = off.iter().map(|off| (off - mean).powi(2)).sum();
            // Golfers drawn round a level make none of its figures better or worse: it stands for all of them.
            let off = match touches_only_assumed(self.golfer, &golfers[index]) {
                true => 0.0,
                false => mean,
            };
            (off, (squares / (count - 1.0)).sqrt())
        };
        (own.iter().enumerate().map(spread).collect(), each.len())
    }

    /// By change: by how much it is worth more to a player whose assumed skills are a standard deviation worse.
    fn by_skills(&self, changes: &[Change]) -> Result<Vec<f64>, TryError> {
        let golfer = self.golfer;
        let assumed =
            [golfer.short_game.1, golfer.sand.1, golfer.putting.1].contains(&Origin::Assumed);
        let count = changes.len() + usize::from(changes.len() > 1);
        if !assumed {
            return Ok(vec![0.0; count]);
        }
        let known = Known::of(&Inferred {
            golfer: golfer.clone(),
            inference: self.inference.clone(),
        })
        .map_err(PlayError::Level)?;
        let mut worth = Vec::new();
        for player in &known.better_and_worse {
            let mut all = vec![player.clone()];
            all.extend(changed(player, changes)?);
            // What a change does to clubs is the same for both.
            all.iter_mut()
                .for_each(|one| one.clubs.clone_from(&golfer.clubs));
            let saved = self.saved(&all.iter().collect::<Vec<_>>(), Accuracy::Full);
            worth.push(
                saved[1..]
                    .iter()
                    .map(|changed| changed - saved[0])
                    .collect::<Vec<f64>>(),
            );
        }
        let both = worth[0].iter().zip(&worth[1]);
        Ok(both
            .map(|(better, worse)| (worse - better).abs() / 2.0)
            .collect())
    }
}

/// Whether nobody measured or stated any club in which another golfer differs.
fn touches_only_assumed(player: &Golfer, other: &Golfer) -> bool {
    let differs = |entry: &&BagClub| !other.clubs.contains(entry);
    let mut touched = player.clubs.iter().filter(differs);
    touched.all(|entry| entry.origin == Origin::Assumed)
}
