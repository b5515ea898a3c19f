//! How sure a fitted pattern is: what stands behind it, and other patterns that could as well be the player's.
//!
//! Given the strikes, the club's covariance Σ, mean μ and share of mishits are taken to be distributed as
//!
//! - Σ: inverse Wishart round the fitted covariance, each variance with [`Evidence::spread_dof`] degrees of freedom;
//! - μ given Σ: normal round the fitted mean with covariance Σ / [`Evidence::mean_strikes`], and beside it what
//!   deriving figures left open, [`Evidence::open`];
//! - share of mishits: Beta round the fitted share, as after [`Evidence::share_strikes`] strikes.
//!
//! What mishits look like, and the weight of the tails, are kept. The three numbers are what the strikes and the level
//! behind them come to; `tests/player/coverage.rs` shows how well intervals drawn so cover the truth.

use nalgebra::{Cholesky, Matrix5, Vector5};
use rand::Rng;
use rand_distr::{Beta, ChiSquared, Distribution, StandardNormal};

use super::fit::{self, Weights};
use super::pattern::{Five, Pattern};
use super::{BagClub, Golfer, Origin};

/// What stands behind a fitted pattern.
#[derive(Debug, Clone, PartialEq)]
pub struct Evidence {
    /// The mean is as sure as that of so many normal strikes.
    pub mean_strikes: f64,
    /// Degrees of freedom of each variance, over 2.
    pub spread_dof: f64,
    /// The share of mishits is as sure as after so many strikes.
    pub share_strikes: f64,
    /// What deriving figures leaves open of the mean: a covariance that more strikes do not make smaller.
    pub open: Option<Open>,
}

/// What deriving figures leaves open of a club's mean: standard deviations and correlations.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Open {
    /// Standard deviations.
    pub sd: Five,
    /// Correlations.
    pub correlation: [Five; 5],
}

impl Open {
    /// As a mirror shows it.
    #[must_use]
    pub(super) fn mirrored(&self) -> Self {
        Self {
            sd: self.sd,
            correlation: super::pattern::mirrored_correlation(&self.correlation),
        }
    }
}

impl Golfer {
    /// Another golfer who could be this one as well: every club that was measured drawn anew, and every club taken
    /// from the level as widely as the fit takes the level to be true. What the file states is taken as it stands, and
    /// what it leaves open of a club as that of any club from the level.
    pub fn drawn<R: Rng + ?Sized>(&self, rng: &mut R) -> Self {
        let unmeasured = fit::evidence(&[], Weights::LEVEL);
        let club = |entry: &BagClub| {
            let draw = |evidence: &Evidence, rng: &mut R| evidence.draw(&entry.pattern, rng);
            let pattern = match (entry.origin, &entry.evidence) {
                (Origin::Assumed, _) => draw(&unmeasured, rng),
                (_, Some(evidence)) => draw(evidence, rng),
                (Origin::Stated, None) if !entry.given.is_all() => {
                    let drawn = draw(&unmeasured, rng);
                    entry.given.kept(&entry.pattern, drawn)
                }
                (_, None) => entry.pattern.clone(),
            };
            BagClub {
                pattern,
                ..entry.clone()
            }
        };
        let clubs = self.clubs.iter().map(club).collect();
        Self {
            clubs,
            ..self.clone()
        }
    }
}

/// Which figures of a club's pattern the player gave; the others come from the level.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Given {
    /// Means.
    pub mean: [bool; 5],
    /// Standard deviations.
    pub sd: [bool; 5],
    /// The share of mishits.
    pub mishits: bool,
}

impl Given {
    /// Whether it is a ball speed and nothing else: how far a club goes, but not how well it is hit.
    pub(super) fn is_speed_alone(&self) -> bool {
        let mut speed_alone = Self::default();
        speed_alone.mean[0] = true;
        *self == speed_alone
    }

    fn is_all(&self) -> bool {
        self.mishits
            && [self.mean, self.sd]
                .as_flattened()
                .iter()
                .all(|given| *given)
    }

    /// Another pattern, but for what was given. With every spread correlations are taken to be given too.
    fn kept(&self, own: &Pattern, mut other: Pattern) -> Pattern {
        let keep = |other: &mut Five, own: &Five, given: &[bool; 5]| {
            let both = other.iter_mut().zip(own).zip(given);
            both.filter(|(_, given)| **given)
                .for_each(|((other, own), _)| *other = *own);
        };
        keep(&mut other.mean, &own.mean, &self.mean);
        keep(&mut other.sd, &own.sd, &self.sd);
        if self.sd == [true; 5] {
            other.correlation = own.correlation;
        }
        if self.mishits {
            other.mishit.share = own.mishit.share;
        }
        other
    }
}

impl Evidence {
    /// As a mirror shows it.
    #[must_use]
    pub(super) fn mirrored(&self) -> Self {
        Self {
            open: self.open.as_ref().map(Open::mirrored),
            ..self.clone()
        }
    }

    /// Another pattern that could be the player's as well: one draw.
    ///
    /// ```
    /// use costcard::player::pattern::{Mishit, Pattern, uncorrelated};
    /// use costcard::player::posterior::Evidence;
    /// use rand::SeedableRng;
    /// let fitted = Pattern {
    ///     mean: [104.0, 17.0, 1.0, 6100.0, 300.0],
    ///     sd: [3.0, 1.8, 2.6, 550.0, 420.0],
    ///     correlation: uncorrelated(),
    ///     tail_dof: 6.0,
    ///     mishit: Mishit { share: 0.1, ..Mishit::NONE },
    /// };
    /// let evidence = Evidence { mean_strikes: 16.0, spread_dof: 20.0, share_strikes: 36.0, open: None };
    /// let mut rng = rand::rngs::ChaCha8Rng::seed_from_u64(1);
    /// let other = evidence.draw(&fitted, &mut rng);
    /// assert!(other.validate().is_ok() && other != fitted);
    /// ```
    pub fn draw<R: Rng + ?Sized>(&self, fitted: &Pattern, rng: &mut R) -> Pattern {
        let mut drawn = fitted.clone();
        let covariance = matrix(&fitted.covariance());
        if let Some(other) = self.covariance(&covariance, rng) {
            let sd: Five = std::array::from_fn(|i| other[(i, i)].sqrt());
            drawn.sd = sd;
            drawn.correlation = std::array::from_fn(|row| {
                std::array::from_fn(|column| {
                    if row == column {
                        1.0
                    } else {
                        let (low, high) = (row.min(column), row.max(column));
                        other[(low, high)] / (sd[low] * sd[high])
                    }
                })
            });
            add(&mut drawn.mean, &(other / self.mean_strikes), rng);
        }
        if let Some(open) = &self.open {
            let covariance = Matrix5::from_fn(|row, column| {
                open.correlation[row][column] * open.sd[row] * open.sd[column]
            });
            add(&mut drawn.mean, &covariance, rng);
        }
        drawn.mishit.share = self.share(fitted.mishit.share, rng);
        drawn
    }

    /// A covariance of the inverse Wishart: L·(A·Aᵀ)⁻¹·Lᵀ with Bartlett's A (M.S. Bartlett 1933, Proc. R. Soc. Edinb.
    /// 53, 260), L the factor of the fitted one.
    fn covariance<R: Rng + ?Sized>(
        &self,
        fitted: &Matrix5<f64>,
        rng: &mut R,
    ) -> Option<Matrix5<f64>> {
        let factor = Cholesky::new(*fitted)?.l();
        let mut bartlett = Matrix5::zeros();
        for row in 0..5 {
            // A marginal variance of an inverse Wishart has 4 = 5 − 1 degrees of freedom less than the whole.
            let dof = self.spread_dof + 4.0 - row as f64;
            bartlett[(row, row)] = ChiSquared::new(dof).ok()?.sample(rng).sqrt();
            for column in 0..row {
                bartlett[(row, column)] = StandardNormal.sample(rng);
            }
        }
        let inverse = bartlett.try_inverse()?;
        let root = factor * inverse.transpose();
        Some(root * root.transpose() * self.spread_dof)
    }

    fn share<R: Rng + ?Sized>(&self, fitted: f64, rng: &mut R) -> f64 {
        let (hits, others) = (
            fitted * self.share_strikes,
            (1.0 - fitted) * self.share_strikes,
        );
        Beta::new(hits, others).map_or(fitted, |beta| beta.sample(rng))
    }
}

fn matrix(rows: &[Five; 5]) -> Matrix5<f64> {
    Matrix5::from_fn(|row, column| rows[row][column])
}

/// Adds a normal draw of a covariance, whichever figures of it are nothing.
fn add<R: Rng + ?Sized>(mean: &mut Five, covariance: &Matrix5<f64>, rng: &mut R) {
    let normals = Vector5::from_fn(|_, _| StandardNormal.sample(rng));
    let finest =
        Matrix5::from_diagonal(&Vector5::from_fn(|i, _| 1e-12 * covariance[(i, i)] + 1e-18));
    if let Some(factor) = Cholesky::new(covariance + finest) {
        let off: Vector5<f64> = factor.l() * normals;
        for (figure, off) in mean.iter_mut().zip(off.iter()) {
            *figure += off;
        }
    }
}
