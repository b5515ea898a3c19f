//! From the measured strikes of one club to its pattern.
//!
//! Normal strikes are taken to follow a multivariate Student t, mishits a second t whose centre and spread hang on
//! the first. Both are found together by expectation–maximisation (K.L. Lange, R.J.A. Little & J.M.G. Taylor 1989,
//! J. Am. Statist. Assoc. 84, 881, for the t; the mixture is the usual one). The level of the player's handicap
//! stands behind the figures with the weight of a few strikes, so that ten shots give an honest answer.

use nalgebra::{Cholesky, Matrix5, Vector5};

use super::pattern::{Five, Mishit, Pattern, PatternFault};
use super::posterior::Evidence;

/// Degrees of freedom of every fitted pattern.
///
/// Not fitted: a batch of twenty cannot tell 4 from 10. Six is heavy enough for the tails that published shot
/// patterns show (S. Ko 2012, PhD, Columbia: t and mixtures of t and normal), and light enough for the fourth moment
/// to exist, without which a standard deviation from a dozen strikes means nothing.
pub const TAIL_DOF: f64 = 6.0;

/// How many strikes the pattern that stands behind a fit counts like.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Weights {
    /// Its mean.
    mean: f64,
    /// Its covariance.
    covariance: f64,
    /// Its share of mishits.
    share: f64,
    /// How many times as much it draws the strikes towards itself, however much it tells.
    times: f64,
}

impl Weights {
    /// The level of a handicap: golfers of one handicap differ in spread, and more in mishits.
    pub(super) const LEVEL: Self = Self {
        mean: 1.0,
        covariance: 8.0,
        share: 20.0,
        times: 1.0,
    };

    /// The shots of two sessions together, behind those of one of them: so little that most of a true change is left, and
    /// so much that five shots give a pattern. Chosen by simulation, no published source: of half the mishits or spreads
    /// less, fifteen shots a side then tell three quarters and more.
    pub(super) const SESSIONS: Self = Self {
        mean: 1.0,
        covariance: 2.0,
        share: 4.0,
        times: 1.0,
    };

    /// The same, drawing so many times as much. Sides of unlike numbers of strikes are drawn alike only if what stands
    /// behind grows as these do: else a change would be made of what is none but more strikes.
    pub(super) fn times(self, times: f64) -> Self {
        Self { times, ..self }
    }

    fn drawing(self) -> Self {
        Self {
            mean: self.times * self.mean,
            covariance: self.times * self.covariance,
            share: self.times * self.share,
            times: 1.0,
        }
    }
}

/// The mean of a club that nobody measured is as sure as that of so many strikes.
pub const UNMEASURED_STRIKES: f64 = Weights::LEVEL.mean;
/// Mishits needed before they say anything about what mishits look like.
const MISHITS_TO_LEARN_FROM: f64 = 5.0;
/// Weight, in mishits, of what the level's mishits look like.
const MISHIT_SHAPE_WEIGHT: f64 = 10.0;
/// Rounds of expectation and maximisation at most.
const MOST_ROUNDS: usize = 300;

/// A pattern and what it was fitted to.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    /// The pattern.
    pub pattern: Pattern,
    /// Strikes it was fitted to.
    pub strikes: usize,
    /// For each strike, in the order given, the chance that it was a mishit, 0 to 1.
    pub mishit_chance: Vec<f64>,
    /// How sure the pattern is.
    pub evidence: Evidence,
    /// How much of the spreads is the player's own, 0 to 1; the rest is the level's.
    pub own_share: f64,
}

/// What strikes with these chances of being mishits come to, with the level behind them.
///
/// A t of ν degrees of freedom in p figures tells its centre like n·(ν + p)/(ν + p + 2)·ν/(ν − 2) normal strikes of the
/// same covariance. Of a variance it tells the share that is shape, 1 − 1/p, (ν + p)/(ν + p + 2) times as well as normal
/// strikes would, and the share that is common to all variances, 1/p, ν/(ν + p + 2) times as well (Fisher information
/// of the t: K.L. Lange et al. 1989, appendix B). Strikes that could be either tell of neither.
pub(super) fn evidence(mishit_chance: &[f64], behind: Weights) -> Evidence {
    const P: f64 = 5.0;
    const SHAPE: f64 = (TAIL_DOF + P) / (TAIL_DOF + P + 2.0);
    const COMMON: f64 = TAIL_DOF / (TAIL_DOF + P + 2.0);
    const OF_VARIANCE: f64 = 1.0 / ((1.0 - 1.0 / P) / SHAPE + 1.0 / P / COMMON);
    let strikes = mishit_chance.len() as f64;
    let normals: f64 = mishit_chance.iter().map(|chance| 1.0 - chance).sum();
    let unclear: f64 = mishit_chance
        .iter()
        .map(|chance| chance * (1.0 - chance))
        .sum();
    let clear = (normals - unclear).max(0.0);
    Evidence {
        mean_strikes: (clear + behind.mean) * SHAPE * COVARIANCE_PER_SCALE,
        spread_dof: behind.covariance + OF_VARIANCE * telling(clear),
        share_strikes: behind.share + (strikes - 2.0 * unclear).max(0.0),
        open: None,
    }
}

/// A single strike says nothing of spread. Beyond it, taking one off, as for normal strikes, would leave more bias in
/// the batches of tests/player/fit.rs, not less.
fn telling(normals: f64) -> f64 {
    (normals - 1.0 / normals.max(1.0)).max(0.0)
}

/// Fits the pattern of one club to its strikes, with `level` behind it.
///
/// No strikes give the level itself. The level is first scaled to the player's own ball speed.
///
/// # Errors
/// A [`PatternFault`] when the level is no valid pattern or a strike is not finite.
pub fn fit(strikes: &[Five], level: &Pattern) -> Result<Fit, PatternFault> {
    fit_with(strikes, level, Weights::LEVEL)
}

/// The same with any pattern behind it, of whatever weight.
pub(super) fn fit_with(
    strikes: &[Five],
    level: &Pattern,
    behind: Weights,
) -> Result<Fit, PatternFault> {
    level.validate()?;
    for (index, figure) in super::pattern::FIGURES.into_iter().enumerate() {
        if strikes.iter().any(|strike| !strike[index].is_finite()) {
            return Err(PatternFault::NotFinite { figure });
        }
    }
    if strikes.is_empty() {
        return Ok(Fit {
            pattern: level.clone(),
            strikes: 0,
            mishit_chance: Vec::new(),
            evidence: evidence(&[], behind),
            own_share: 0.0,
        });
    }
    let weights = behind.drawing();
    let prior = Prior {
        pattern: level.scaled(speed_ratio(strikes, level, weights.mean)),
        weights,
    };
    let mut state = State::start(strikes, &prior);
    for _ in 0..MOST_ROUNDS {
        if state.improve(strikes, &prior)? < 1e-10 {
            break;
        }
    }
    let normals: f64 = state.mishit_chance.iter().map(|chance| 1.0 - chance).sum();
    Ok(Fit {
        pattern: state.pattern(),
        evidence: evidence(&state.mishit_chance, behind),
        own_share: telling(normals) / (weights.covariance + telling(normals)),
        strikes: strikes.len(),
        mishit_chance: state.mishit_chance,
    })
}

/// The player's ball speed over the level's. The median keeps mishits out; one strike alone counts half.
fn speed_ratio(strikes: &[Five], level: &Pattern, weight: f64) -> f64 {
    let count = strikes.len() as f64;
    let median = median(strikes.iter().map(|strike| strike[0]).collect());
    (count * median / level.mean[0] + weight) / (count + weight)
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    let middle = values.len() / 2;
    if values.len() % 2 == 1 {
        values[middle]
    } else {
        f64::midpoint(values[middle - 1], values[middle])
    }
}

/// The pattern behind a fit, at the player's own ball speed.
struct Prior {
    pattern: Pattern,
    weights: Weights,
}

/// The estimates so far.
struct State {
    mean: Vector5<f64>,
    /// Scale matrix of the t: its covariance is this × dof/(dof − 2).
    scale: Matrix5<f64>,
    mishit: Mishit,
    mishit_chance: Vec<f64>,
}

/// Covariance over scale matrix of a t of [`TAIL_DOF`].
const COVARIANCE_PER_SCALE: f64 = TAIL_DOF / (TAIL_DOF - 2.0);

/// How many standard deviations the level's spread of a figure may lie from the player's own before it gives way.
const GIVES_WAY_SD: f64 = 1.5;

/// The level's scale matrix beside the scatter of so many strikes, moved towards the player's own spread where that
/// contradicts it.
///
/// A variance is a sum of squares: a level four times as wide as the player would make his spread half as wide again
/// even after eighty strikes. So a figure whose spread lies farther from the level's than golfers of one level and so few
/// strikes explain (in logarithms, one and a half standard deviations) is not of such a golfer, and the level is weighed as an
/// outlier is: by the square of how far beyond that it lies (P.J. Huber 1964), and never moved farther than the strikes
/// outweigh it. Correlations stay.
fn giving_way(
    level: Matrix5<f64>,
    scatter: &Matrix5<f64>,
    (strikes, weight): (f64, f64),
) -> Matrix5<f64> {
    if strikes <= 1.0 {
        return level;
    }
    let doubt = 2.0 / weight + 2.0 / strikes;
    let outweighed = strikes / (strikes + weight);
    let factor = Vector5::from_fn(|i, _| {
        let finest = FINEST[i].powi(2) / COVARIANCE_PER_SCALE;
        let apart = ((scatter[(i, i)] / strikes).max(finest) / level[(i, i)]).ln();
        let beyond = apart.powi(2) / doubt / GIVES_WAY_SD.powi(2);
        let moved = outweighed * (1.0 - 1.0 / beyond.max(1.0));
        (0.5 * moved * apart).exp()
    });
    Matrix5::from_fn(|row, column| level[(row, column)] * factor[row] * factor[column])
}

/// Smallest standard deviations told apart, so that a covariance always has a factor.
const FINEST: Five = [0.01, 0.01, 0.01, 1.0, 1.0];

fn scale_matrix(pattern: &Pattern) -> Matrix5<f64> {
    let covariance = pattern.covariance();
    Matrix5::from_fn(|row, column| {
        let finest = if row == column {
            FINEST[row].powi(2)
        } else {
            0.0
        };
        (covariance[row][column] + finest) / COVARIANCE_PER_SCALE
    })
}

impl State {
    fn start(strikes: &[Five], prior: &Prior) -> Self {
        let medians: Five =
            std::array::from_fn(|i| median(strikes.iter().map(|strike| strike[i]).collect()));
        let weight = strikes.len() as f64;
        let mean = Vector5::from_fn(|i, _| {
            (prior.weights.mean * prior.pattern.mean[i] + weight * medians[i])
                / (prior.weights.mean + weight)
        });
        Self {
            mean,
            scale: scale_matrix(&prior.pattern),
            mishit: prior.pattern.mishit,
            mishit_chance: vec![prior.pattern.mishit.share; strikes.len()],
        }
    }

    /// One round; returns the greatest change of a mean, in standard deviations.
    fn improve(&mut self, strikes: &[Five], prior: &Prior) -> Result<f64, PatternFault> {
        let weights = self.expect(strikes)?;
        let before = self.mean;
        self.maximise(strikes, prior, &weights);
        self.learn_mishits(strikes, prior);
        Ok((0..5)
            .map(|i| (self.mean[i] - before[i]).abs() / self.scale[(i, i)].sqrt())
            .fold(0.0, f64::max))
    }

    /// Sets each strike's chance of being a mishit; returns the t's weight of each as a normal strike.
    fn expect(&mut self, strikes: &[Five]) -> Result<Vec<f64>, PatternFault> {
        let factor = Cholesky::new(self.scale).ok_or(PatternFault::Correlations)?;
        let mishit_mean = Vector5::from(self.mishit.mean_of(&self.mean.into()));
        let spread = self.mishit.spread_factor;
        let distance = |strike: &Five, mean: &Vector5<f64>| {
            let off = Vector5::from(*strike) - mean;
            off.dot(&factor.solve(&off))
        };
        // Densities up to the factor both share.
        let power = -(TAIL_DOF + 5.0) / 2.0;
        let mut weights = Vec::with_capacity(strikes.len());
        for (strike, chance) in strikes.iter().zip(&mut self.mishit_chance) {
            let normal = distance(strike, &self.mean);
            let mishit = distance(strike, &mishit_mean) / spread.powi(2);
            let as_normal = (1.0 - self.mishit.share) * (1.0 + normal / TAIL_DOF).powf(power);
            let as_mishit =
                self.mishit.share * (1.0 + mishit / TAIL_DOF).powf(power) / spread.powi(5);
            *chance = as_mishit / (as_normal + as_mishit);
            weights.push((TAIL_DOF + 5.0) / (TAIL_DOF + normal));
        }
        Ok(weights)
    }

    /// Mean and scale from the strikes as far as they are normal ones, and from the level.
    fn maximise(&mut self, strikes: &[Five], prior: &Prior, weights: &[f64]) {
        let mut total = prior.weights.mean;
        let mut sum = Vector5::from(prior.pattern.mean) * prior.weights.mean;
        let mut normals = 0.0;
        for ((strike, chance), weight) in strikes.iter().zip(&self.mishit_chance).zip(weights) {
            let share = (1.0 - chance) * weight;
            total += share;
            normals += 1.0 - chance;
            sum += Vector5::from(*strike) * share;
        }
        self.mean = sum / total;
        // How far the player lies from the level is no spread of his strikes, so the usual conjugate term for it
        // is left out.
        let mut scatter = Matrix5::zeros();
        for ((strike, chance), weight) in strikes.iter().zip(&self.mishit_chance).zip(weights) {
            let off = Vector5::from(*strike) - self.mean;
            scatter += off * off.transpose() * ((1.0 - chance) * weight);
        }
        let level = giving_way(
            scale_matrix(&prior.pattern),
            &scatter,
            (telling(normals), prior.weights.covariance),
        );
        self.scale = (scatter + level * prior.weights.covariance)
            / (prior.weights.covariance + telling(normals));
    }

    /// The share of mishits, and what they look like once there are enough of them.
    fn learn_mishits(&mut self, strikes: &[Five], prior: &Prior) {
        let count: f64 = self.mishit_chance.iter().sum();
        let strikes_count = strikes.len() as f64;
        self.mishit.share = (prior.weights.share * prior.pattern.mishit.share + count)
            / (prior.weights.share + strikes_count);
        let weight = (count - MISHITS_TO_LEARN_FROM).max(0.0);
        if weight == 0.0 {
            return;
        }
        let mean_of = |figure: usize| {
            let sum: f64 = strikes
                .iter()
                .zip(&self.mishit_chance)
                .map(|(strike, chance)| strike[figure] * chance)
                .sum();
            sum / count
        };
        let blend = |level: f64, own: f64| {
            (MISHIT_SHAPE_WEIGHT * level + weight * own) / (MISHIT_SHAPE_WEIGHT + weight)
        };
        self.mishit.ball_speed_factor = blend(
            prior.pattern.mishit.ball_speed_factor,
            mean_of(0) / self.mean[0],
        );
        self.mishit.launch_shift_deg = blend(
            prior.pattern.mishit.launch_shift_deg,
            mean_of(1) - self.mean[1],
        );
        self.mishit.backspin_factor = blend(
            prior.pattern.mishit.backspin_factor,
            mean_of(3) / self.mean[3].max(1.0),
        );
    }

    fn pattern(&self) -> Pattern {
        let covariance = self.scale * COVARIANCE_PER_SCALE;
        let sd: Five = std::array::from_fn(|i| covariance[(i, i)].sqrt());
        Pattern {
            mean: self.mean.into(),
            sd,
            correlation: std::array::from_fn(|row| {
                std::array::from_fn(|column| {
                    if row == column {
                        1.0
                    } else {
                        let between = row.min(column);
                        covariance[(between, row.max(column))] / (sd[row] * sd[column])
                    }
                })
            }),
            tail_dof: TAIL_DOF,
            mishit: self.mishit,
        }
    }
}
