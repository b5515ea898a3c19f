//! From a screened batch to the player's clubs.

use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;
use rayon::prelude::*;

use super::batch::{Batch, Figures, Quantity, Shot};
use super::club::Club;
use super::club_table::within_reach;
use super::delivery::Delivered;
use super::fit::{self, Fit, Weights};
use super::pattern::{Five, Pattern, PatternFault, strike_of};
use super::posterior::{Evidence, Given, Open};
use super::{BagClub, Golfer, Origin, fill};
use crate::ball::Strike;
use crate::ball::air::{Air, Atmosphere};
use crate::ball::flight::fly_all;

/// Pairs of strikes flown for a club's mean carry and spreads: enough that a spread is good to 2 %.
const PAIRS_FLOWN: usize = 2000;

/// One club fitted to measured shots.
#[derive(Debug, Clone, PartialEq)]
pub struct FittedClub {
    /// Which club.
    pub club: Club,
    /// The pattern, its figures rounded as a player's file holds them.
    pub pattern: Pattern,
    /// How sure it is.
    pub evidence: Evidence,
    /// Shots it was fitted to.
    pub used: usize,
    /// How many of these were mishits.
    pub mishits: usize,
    /// What was measured, as far as it was used.
    pub measured: Vec<Quantity>,
    /// Which figures of the strike were derived from others.
    pub derived: Vec<Quantity>,
    /// How the club was delivered: the mean of what was measured.
    pub delivered: Delivered,
    /// Where its normal strikes go: what is reckoned with.
    pub flown: Flown,
    /// Where the measured strikes go that are no mishits.
    pub hit: Flown,
    /// Whether the shots told where balls went to the sides. Otherwise that is the level's.
    pub tells_sides: bool,
    /// How much of the spreads is the player's own, 0 to 1; the rest is that of golfers of the handicap.
    pub own_share: f64,
}

/// What tells where a ball goes to the sides: of a face the start direction is worked out.
pub(super) const SIDES: [Quantity; 3] = [Quantity::Direction, Quantity::Side, Quantity::Face];

/// That of some clubs nobody measured where balls go to the sides.
pub(super) fn sides_assumed(clubs: impl Iterator<Item = Club>) -> Option<String> {
    let names: Vec<String> = clubs.map(|club| club.to_string()).collect();
    (!names.is_empty()).then(|| {
        format!(
            "nobody measured where balls go to the sides, so that is assumed from the handicap: {}",
            names.join(", ")
        )
    })
}

/// Where a club's normal strikes pitch in standard air, mishits left out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flown {
    /// Mean carry, yards.
    pub carry_yd: f64,
    /// Standard deviation of carry, yards.
    pub carry_sd_yd: f64,
    /// Mean side, yards, right positive.
    pub side_yd: f64,
    /// Standard deviation of side, yards.
    pub side_sd_yd: f64,
}

/// The clubs of a batch.
#[derive(Debug, Clone, PartialEq)]
pub struct Fitted {
    /// Clubs with shots enough, longest first.
    pub clubs: Vec<FittedClub>,
    /// Clubs hit too seldom for a pattern.
    pub too_few: Vec<Club>,
    /// Shots, by their place in the batch, that no strike flies, and why: they are left out too.
    pub unflown: Vec<(usize, String)>,
}

/// A shot that was left out, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LeftOut {
    /// Which of the batch's files.
    pub file: usize,
    /// Line of the file, from 1.
    pub row: usize,
    /// The club.
    pub club: Club,
    /// Why.
    pub reason: String,
}

impl Fitted {
    /// The shots left out, as far as they are listed, in order of file and row.
    #[must_use]
    pub fn left_out(&self, batch: &Batch) -> Vec<LeftOut> {
        let left_out = |shot: &Shot, reason: String| LeftOut {
            file: shot.file,
            row: shot.row,
            club: shot.club,
            reason,
        };
        let misreads = batch.misreads();
        let misreads = misreads.map(|(shot, why)| left_out(shot, why.to_string()));
        let unflown = self.unflown.iter();
        let unflown = unflown.map(|(index, why)| left_out(&batch.shots[*index], why.clone()));
        let mut all: Vec<LeftOut> = misreads.chain(unflown).collect();
        all.sort_by_key(|shot| (shot.file, shot.row));
        all
    }

    /// How many shots were left out, listed or not.
    #[must_use]
    pub fn left_out_count(&self, batch: &Batch) -> usize {
        let misreads: usize = batch.counts.values().map(|count| count.misreads).sum();
        misreads + self.unflown.len()
    }

    /// What the reader should know beside the figures: what was left out, and clubs hit too seldom.
    #[must_use]
    pub fn notes(&self, batch: &Batch) -> Vec<String> {
        let mut notes = Vec::new();
        let left_out = self.left_out_count(batch);
        if left_out > 0 {
            let all: usize = batch.counts.values().map(|count| count.shots).sum();
            let first = self.left_out(batch).into_iter().next();
            let told =
                first.map(|shot| format!(", the first in row {}: {}", shot.row, shot.reason));
            notes.push(format!(
                "{left_out} of {all} shots left out as misreads{}",
                told.unwrap_or_default()
            ));
        }
        let untold = self.clubs.iter().filter(|club| !club.tells_sides);
        notes.extend(sides_assumed(untold.map(|club| club.club)));
        notes.extend(
            self.too_few
                .iter()
                .map(|club| self.too_few_words(*club, batch)),
        );
        notes
    }

    /// Why a club was hit too seldom for a pattern, in words.
    #[must_use]
    pub fn too_few_words(&self, club: Club, batch: &Batch) -> String {
        let unflown = self.unflown.iter();
        let unflown = unflown.filter(|(index, _)| batch.shots[*index].club == club);
        let sound = batch.counts.get(&club).map_or(0, |count| count.sound());
        let what = match sound.saturating_sub(unflown.count()) {
            0 => format!("no shot with the {club} can be used"),
            _ => format!("one strike with the {club} says too little"),
        };
        format!("{what}: its pattern is assumed from the handicap")
    }
}

/// Shots a pattern needs: one says nothing of spread.
const LEAST: usize = 2;

/// Fits every club of a batch, with the player's level behind it: turned, for a left-hander, and with the shift of
/// lofts of the player's device.
///
/// # Errors
/// When a strike is not finite or the level is no valid pattern.
pub fn fit_batch(batch: &Batch, level: &Golfer) -> Result<Fitted, PatternFault> {
    fit_with(batch, level, |_| Weights::LEVEL)
}

/// The same with a golfer behind the clubs who counts otherwise than a level does.
pub(super) fn fit_with(
    batch: &Batch,
    level: &Golfer,
    weights: impl Fn(Club) -> Weights + Sync,
) -> Result<Fitted, PatternFault> {
    let of_clubs: Vec<(Club, Vec<(usize, &Shot)>)> = batch
        .counts
        .keys()
        .map(|club| {
            let shots = batch.shots.iter().enumerate();
            let sound = shots.filter(|(_, shot)| shot.club == *club && shot.misread.is_none());
            (*club, sound.collect())
        })
        .collect();
    let fitted: Vec<Result<OfClub, PatternFault>> = of_clubs
        .par_iter()
        .map(|(club, shots)| fit_club(*club, shots, (level, weights(*club))))
        .collect();
    let mut all = Fitted {
        clubs: Vec::new(),
        too_few: Vec::new(),
        unflown: Vec::new(),
    };
    for ((club, _), fitted) in of_clubs.iter().zip(fitted) {
        let fitted = fitted?;
        all.unflown.extend(fitted.unflown);
        match fitted.club {
            Some(club) => all.clubs.push(club),
            None => all.too_few.push(*club),
        }
    }
    all.unflown.sort_by_key(|(index, _)| *index);
    Ok(all)
}

struct OfClub {
    club: Option<FittedClub>,
    unflown: Vec<(usize, String)>,
}

fn fit_club(
    club: Club,
    shots: &[(usize, &Shot)],
    (level, weights): (&Golfer, Weights),
) -> Result<OfClub, PatternFault> {
    let mut of_club = OfClub {
        club: None,
        unflown: Vec::new(),
    };
    let loft_shift = level.loft_shift;
    let Some(level) = level.pattern_with(club) else {
        return Ok(of_club);
    };
    let plain: Vec<&Shot> = shots.iter().map(|(_, shot)| *shot).collect();
    let strikes = fill::strikes(club, &plain, &level, loft_shift);
    let unflown = strikes.unflown.into_iter();
    of_club.unflown = unflown.map(|(index, why)| (shots[index].0, why)).collect();
    if strikes.list.len() < LEAST {
        return Ok(of_club);
    }
    let fitted = fit::fit_with(&strikes.list, &level, weights)?;
    let used: Vec<&Figures> = strikes
        .of
        .iter()
        .map(|index| &plain[*index].figures)
        .collect();
    let pattern = rounded(&within_reach(fitted.pattern.clone()));
    let named = |wanted: &dyn Fn(Quantity) -> bool| {
        let all = Quantity::ALL.into_iter();
        all.filter(|quantity| wanted(*quantity)).collect()
    };
    let is_derived = |quantity: Quantity| {
        let place = Quantity::STRIKE.iter().position(|one| *one == quantity);
        place.is_some_and(|place| strikes.derived[place])
    };
    let is_measured = |quantity: Quantity| {
        used.iter()
            .any(|figures| figures.measured(quantity).is_some())
    };
    let tells_sides = SIDES.into_iter().any(is_measured);
    of_club.club = Some(FittedClub {
        club,
        flown: flown(&pattern)?,
        hit: hit(&strikes.list, &fitted.mishit_chance),
        own_share: fitted.own_share,
        pattern,
        evidence: evidence(&fitted, strikes.open, (tells_sides, weights)),
        tells_sides,
        used: fitted.strikes,
        mishits: fitted
            .mishit_chance
            .iter()
            .filter(|chance| **chance > 0.5)
            .count(),
        measured: named(&|quantity| is_measured(quantity) && !is_derived(quantity)),
        derived: named(&is_derived),
        delivered: delivered(&used, &fitted.mishit_chance),
    });
    Ok(of_club)
}

/// Spreads of which one is the level's alone are no surer than those of a club that nobody hit.
fn evidence(fitted: &Fit, open: Option<Open>, (tells_sides, weights): (bool, Weights)) -> Evidence {
    let tenths = |value: f64| (value * 10.0).round() / 10.0;
    let spread_dof = match tells_sides {
        true => fitted.evidence.spread_dof,
        false => fit::evidence(&[], weights).spread_dof,
    };
    Evidence {
        mean_strikes: tenths(fitted.evidence.mean_strikes),
        spread_dof: tenths(spread_dof),
        share_strikes: tenths(fitted.evidence.share_strikes),
        open: open.map(|open| Open {
            sd: rounded_figures(&open.sd, &SPREAD_STEPS),
            correlation: rounded_correlations(&open.correlation),
        }),
    }
}

/// Mean of each figure of the delivery over the normal strikes it was measured for, to a tenth.
fn delivered(figures: &[&Figures], mishit_chance: &[f64]) -> Delivered {
    let mean = |quantity: Quantity| {
        let (mut sum, mut weight) = (0.0, 0.0);
        for (figures, chance) in figures.iter().zip(mishit_chance) {
            if let Some(value) = figures.measured(quantity) {
                sum += value * (1.0 - chance);
                weight += 1.0 - chance;
            }
        }
        (weight > 0.5).then(|| (sum / weight * 10.0).round() / 10.0 + 0.0)
    };
    Delivered {
        club_speed_mph: mean(Quantity::ClubSpeed),
        attack_deg: mean(Quantity::Attack),
        path_deg: mean(Quantity::Path),
        face_deg: mean(Quantity::Face),
        dynamic_loft_deg: mean(Quantity::DynamicLoft),
        lie_deg: mean(Quantity::Lie),
    }
}

/// Flies normal strikes of a pattern, always the same draws.
fn flown(pattern: &Pattern) -> Result<Flown, PatternFault> {
    let mut normal = pattern.clone();
    normal.mishit.share = 0.0;
    let sampler = normal.sampler()?;
    let mut rng = ChaCha8Rng::seed_from_u64(3);
    // One on either side of the mean, so that means are those of the pattern.
    let pair = |_| {
        let drawn = sampler.random(&mut rng);
        [
            drawn,
            std::array::from_fn(|i| 2.0 * pattern.mean[i] - drawn[i]),
        ]
    };
    let strikes: Vec<Five> = (0..PAIRS_FLOWN).flat_map(pair).collect();
    Ok(pitches(&strikes))
}

/// Flies the measured strikes that are more likely normal ones than mishits.
fn hit(strikes: &[Five], mishit_chance: &[f64]) -> Flown {
    let normal = strikes.iter().zip(mishit_chance);
    let normal = normal.filter(|(_, chance)| **chance <= 0.5);
    pitches(&normal.map(|(strike, _)| *strike).collect::<Vec<Five>>())
}

/// Where strikes pitch in standard air.
fn pitches(strikes: &[Five]) -> Flown {
    let air = Atmosphere::new(&Air::standard());
    let strikes: Vec<Strike> = strikes.iter().map(strike_of).collect();
    let pitches: Vec<[f64; 2]> = fly_all(&strikes, &air)
        .iter()
        .map(|flight| [flight.carry.yd(), flight.side.yd()])
        .collect();
    let count = pitches.len() as f64;
    let mean = |i: usize| pitches.iter().map(|pitch| pitch[i]).sum::<f64>() / count.max(1.0);
    let sd = |i: usize, mean: f64| {
        let squares: f64 = pitches.iter().map(|pitch| (pitch[i] - mean).powi(2)).sum();
        (squares / (count - 1.0).max(1.0)).sqrt()
    };
    let (carry_yd, side_yd) = (mean(0), mean(1));
    Flown {
        carry_yd,
        carry_sd_yd: sd(0, carry_yd),
        side_yd,
        side_sd_yd: sd(1, side_yd),
    }
}

/// What means are rounded to: mph, degrees, degrees, rpm, rpm. The last digit is far below what any device tells, and
/// a file stays readable.
pub(super) const MEAN_STEPS: Five = [0.01, 0.01, 0.01, 1.0, 1.0];
/// What spreads are rounded to.
pub(super) const SPREAD_STEPS: Five = [0.001, 0.001, 0.001, 0.1, 0.1];

fn to_step(value: f64, step: f64) -> f64 {
    // Dividing by a whole number gives the decimal that is written, multiplying by a step may not. Adding nothing
    // turns a negative zero into a plain one.
    let per_one = (1.0 / step).round();
    (value * per_one).round() / per_one + 0.0
}

fn rounded_figures(figures: &Five, steps: &Five) -> Five {
    std::array::from_fn(|i| to_step(figures[i], steps[i]))
}

fn rounded_correlations(correlation: &[Five; 5]) -> [Five; 5] {
    std::array::from_fn(|row| {
        std::array::from_fn(|column| match row == column {
            true => 1.0,
            // A file holds nothing closer to 1.
            false => to_step(correlation[row][column], 0.001).clamp(-0.99, 0.99),
        })
    })
}

/// A pattern as a player's file holds it.
fn rounded(pattern: &Pattern) -> Pattern {
    let mut rounded = Pattern {
        mean: rounded_figures(&pattern.mean, &MEAN_STEPS),
        sd: rounded_figures(&pattern.sd, &SPREAD_STEPS),
        correlation: rounded_correlations(&pattern.correlation),
        tail_dof: pattern.tail_dof,
        mishit: pattern.mishit,
    };
    let mishit = &mut rounded.mishit;
    mishit.share = to_step(100.0 * mishit.share, 0.01) / 100.0;
    mishit.ball_speed_factor = to_step(mishit.ball_speed_factor, 0.001);
    mishit.launch_shift_deg = to_step(mishit.launch_shift_deg, 0.01);
    mishit.backspin_factor = to_step(mishit.backspin_factor, 0.001);
    mishit.spread_factor = to_step(mishit.spread_factor, 0.001);
    // Rounding may turn correlations that nearly contradict each other into ones that do.
    while rounded.validate().is_err() && rounded.correlation[0][1..].iter().any(|r| *r != 0.0) {
        for row in 0..5 {
            for column in (0..5).filter(|column| *column != row) {
                let r = 0.98 * rounded.correlation[row][column];
                rounded.correlation[row][column] = (r * 1000.0).trunc() / 1000.0;
            }
        }
    }
    rounded
}

impl From<&FittedClub> for BagClub {
    fn from(fitted: &FittedClub) -> Self {
        Self {
            club: fitted.club,
            pattern: fitted.pattern.clone(),
            origin: Origin::Measured {
                strikes: fitted.used,
            },
            evidence: Some(fitted.evidence.clone()),
            given: Given::default(),
            delivered: fitted.delivered,
        }
    }
}
