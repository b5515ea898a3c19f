//! The pattern: how one golfer strikes one club.

use nalgebra::{Cholesky, Matrix5};
use rand_distr::{Distribution, StandardNormal};
use statrs::distribution::ChiSquared;

use super::quantile;
use crate::ball::Strike;
use crate::units::{Angle, Speed, Spin};

/// Ball speed (mph), launch (°), direction (°), backspin (rpm), sidespin (rpm), in this order.
pub type Five = [f64; 5];

/// The names of the five figures of a [`Five`], in its order.
pub const FIGURES: [&str; 5] = ["ball speed", "launch", "direction", "backspin", "sidespin"];

/// The order in which the factor of the covariance takes the five figures: those that a mirror leaves alone first,
/// direction and sidespin last, so that a mirrored golfer's factor differs by signs alone.
const FACTOR_ORDER: [usize; 5] = [0, 1, 3, 2, 4];

/// The figures a mirror turns: direction and sidespin.
const TURNED: [usize; 2] = [2, 4];

/// The joint distribution of one club's strikes: a multivariate Student t, and mishits beside it.
#[derive(Debug, Clone, PartialEq)]
pub struct Pattern {
    /// Mean of the normal strikes.
    pub mean: Five,
    /// Standard deviations of the normal strikes (of the t distribution itself, not of its scale matrix).
    pub sd: Five,
    /// Correlations of the normal strikes; ones on the diagonal, symmetric, positive definite.
    pub correlation: [Five; 5],
    /// Degrees of freedom of the t distribution, over 2.
    pub tail_dof: f64,
    /// The mishits.
    pub mishit: Mishit,
}

/// Mishits, described against the normal strikes of the same club.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mishit {
    /// Share of all strikes, 0 to 1.
    pub share: f64,
    /// Mean ball speed as a share of the normal one.
    pub ball_speed_factor: f64,
    /// Mean launch, degrees added to the normal one.
    pub launch_shift_deg: f64,
    /// Mean backspin as a share of the normal one.
    pub backspin_factor: f64,
    /// Standard deviations as a multiple of the normal ones.
    pub spread_factor: f64,
}

/// What can be wrong with a pattern.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PatternFault {
    /// A figure is infinite or not a number.
    #[error("{figure} is not a finite number")]
    NotFinite {
        /// Which figure.
        figure: &'static str,
    },
    /// A standard deviation under zero.
    #[error("the spread of {figure} is {sd}: a spread is 0 or more")]
    NegativeSpread {
        /// Which figure.
        figure: &'static str,
        /// Its standard deviation.
        sd: f64,
    },
    /// Too few degrees of freedom for a standard deviation to exist.
    #[error("tail_dof is {0}: it must be over 2, or the spread has no meaning")]
    TailTooHeavy(f64),
    /// Correlations that cannot all hold together.
    #[error("the correlations contradict each other: no strikes can have all of them at once")]
    Correlations,
    /// A share of mishits that is none.
    #[error("the share of mishits is {0}: it must lie between 0 and 1")]
    MishitShare(f64),
}

impl Mishit {
    /// No mishits at all.
    pub const NONE: Self = Self {
        share: 0.0,
        ball_speed_factor: 1.0,
        launch_shift_deg: 0.0,
        backspin_factor: 1.0,
        spread_factor: 1.0,
    };

    /// The mean of the mishits of a club whose normal strikes have this mean.
    #[must_use]
    pub fn mean_of(&self, normal: &Five) -> Five {
        [
            normal[0] * self.ball_speed_factor,
            normal[1] + self.launch_shift_deg,
            normal[2],
            normal[3] * self.backspin_factor,
            normal[4],
        ]
    }
}

/// Correlations of figures that have nothing to do with each other.
#[must_use]
pub fn uncorrelated() -> [Five; 5] {
    std::array::from_fn(|row| std::array::from_fn(|column| f64::from(row == column)))
}

/// Correlations as a mirror shows them: what a mirror turns is bound the other way to what it leaves alone.
pub(super) fn mirrored_correlation(correlation: &[Five; 5]) -> [Five; 5] {
    std::array::from_fn(|row| {
        std::array::from_fn(|column| {
            let one_turned = TURNED.contains(&row) != TURNED.contains(&column);
            let r = correlation[row][column];
            if one_turned { -r } else { r }
        })
    })
}

impl Pattern {
    /// Checks every figure, the correlations by Cholesky's factor.
    ///
    /// # Errors
    /// The first [`PatternFault`] found.
    pub fn validate(&self) -> Result<(), PatternFault> {
        for (index, &figure) in FIGURES.iter().enumerate() {
            if !self.mean[index].is_finite() || !self.sd[index].is_finite() {
                return Err(PatternFault::NotFinite { figure });
            }
            if self.sd[index] < 0.0 {
                let sd = self.sd[index];
                return Err(PatternFault::NegativeSpread { figure, sd });
            }
        }
        if self.tail_dof.is_nan() || self.tail_dof <= 2.0 {
            return Err(PatternFault::TailTooHeavy(self.tail_dof));
        }
        if !(0.0..=1.0).contains(&self.mishit.share) {
            return Err(PatternFault::MishitShare(self.mishit.share));
        }
        self.correlation_factor().map(|_| ())
    }

    /// The lower Cholesky factor of the correlations, in [`FACTOR_ORDER`].
    fn correlation_factor(&self) -> Result<Matrix5<f64>, PatternFault> {
        let ordered = Matrix5::from_fn(|row, column| {
            self.correlation[FACTOR_ORDER[row]][FACTOR_ORDER[column]]
        });
        let asymmetric = (ordered - ordered.transpose()).amax() > 1e-9;
        let off_diagonal = (0..5).any(|i| (ordered[(i, i)] - 1.0).abs() > 1e-9);
        if asymmetric || off_diagonal || ordered.iter().any(|r| !r.is_finite()) {
            return Err(PatternFault::Correlations);
        }
        Cholesky::new(ordered)
            .map(|factor| factor.l())
            .ok_or(PatternFault::Correlations)
    }

    /// The pattern as a mirror shows it: a right-hander's seen as a left-hander's.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        let mut mirrored = self.clone();
        for turned in TURNED {
            mirrored.mean[turned] = -mirrored.mean[turned];
        }
        mirrored.correlation = mirrored_correlation(&self.correlation);
        mirrored
    }

    /// The pattern of the same swing at another speed: ball speed and both spins grow with it, angles stay.
    #[must_use]
    pub fn scaled(&self, ratio: f64) -> Self {
        let mut scaled = self.clone();
        for index in [0, 3, 4] {
            scaled.mean[index] *= ratio;
            scaled.sd[index] *= ratio;
        }
        scaled
    }

    /// Covariances of the normal strikes.
    #[must_use]
    pub fn covariance(&self) -> [Five; 5] {
        std::array::from_fn(|row| {
            std::array::from_fn(|column| {
                self.correlation[row][column] * self.sd[row] * self.sd[column]
            })
        })
    }

    /// What draws strikes from the pattern.
    ///
    /// # Errors
    /// As [`Pattern::validate`].
    pub fn sampler(&self) -> Result<Sampler, PatternFault> {
        self.validate()?;
        let factor = self.correlation_factor()?;
        let chi = ChiSquared::new(self.tail_dof)
            .map_err(|_| PatternFault::TailTooHeavy(self.tail_dof))?;
        Ok(Sampler {
            normal: Component::new(self.mean, self.sd, &factor),
            mishit: Component::new(
                self.mishit.mean_of(&self.mean),
                self.sd.map(|sd| sd * self.mishit.spread_factor),
                &factor,
            ),
            mishit_share: self.mishit.share,
            dof: self.tail_dof,
            chi,
        })
    }
}

/// Five standard normals and a place on the scale of the t's chi-square: the raw material of one strike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Draw {
    /// Standard normals for ball speed, launch, backspin, direction, sidespin (in this order).
    normals: [f64; 5],
    /// Where on its distribution the chi-square lies, 0 to 1.
    tail: f64,
}

impl Draw {
    /// The draw at a point of the unit cube, each coordinate in [0, 1).
    #[must_use]
    pub fn at(point: [f64; 6]) -> Self {
        Self {
            normals: std::array::from_fn(|i| quantile::normal(point[i])),
            tail: point[5],
        }
    }

    /// The draw that gives a mirrored golfer the mirrored strike: the last two normals with their signs turned.
    ///
    /// A set of draws that holds the mirror of each of its draws treats a golfer and his mirror image alike.
    #[must_use]
    pub fn mirrored(self) -> Self {
        let [speed, launch, backspin, direction, sidespin] = self.normals;
        Self {
            normals: [speed, launch, backspin, -direction, -sidespin],
            tail: self.tail,
        }
    }
}

/// One of the two parts of a pattern, ready to draw from.
#[derive(Debug, Clone, PartialEq)]
struct Component {
    mean: Five,
    /// Rows and columns in [`FACTOR_ORDER`], scaled to the standard deviations.
    factor: [Five; 5],
}

impl Component {
    fn new(mean: Five, sd: Five, correlation_factor: &Matrix5<f64>) -> Self {
        let factor = std::array::from_fn(|row| {
            std::array::from_fn(|column| correlation_factor[(row, column)] * sd[FACTOR_ORDER[row]])
        });
        Self { mean, factor }
    }

    fn strike(&self, normals: &[f64; 5], stretch: f64) -> Five {
        let mut strike = self.mean;
        for (row, figure) in FACTOR_ORDER.into_iter().enumerate() {
            let sum: f64 = (0..=row).map(|i| self.factor[row][i] * normals[i]).sum();
            strike[figure] += stretch * sum;
        }
        strike
    }
}

/// Draws strikes from a pattern.
#[derive(Debug, Clone, PartialEq)]
pub struct Sampler {
    normal: Component,
    mishit: Component,
    mishit_share: f64,
    dof: f64,
    chi: ChiSquared,
}

impl Sampler {
    /// How far a t strike is stretched from its mean against a normal one of the same standard deviation.
    fn stretch(&self, chi_square: f64) -> f64 {
        ((self.dof - 2.0) / chi_square).sqrt()
    }

    /// Degrees of freedom of the t. Samplers that share them share [`Self::stretches`] too.
    #[must_use]
    pub fn tail_dof(&self) -> f64 {
        self.dof
    }

    /// How far a strike at each of these draws is stretched from its mean: what the tail of a draw comes to.
    ///
    /// Most of the cost of a strike, and the same for every club with the same [`Self::tail_dof`]: worked out once
    /// for many clubs, it makes their strikes cheap with [`Self::normal_strike_at`] and [`Self::mishit_strike_at`].
    ///
    /// ```
    /// use costcard::player::pattern::{Draw, Mishit, Pattern, uncorrelated};
    /// let club = Pattern {
    ///     mean: [120.0, 16.0, 0.0, 7000.0, 0.0],
    ///     sd: [2.0, 1.0, 1.5, 500.0, 300.0],
    ///     correlation: uncorrelated(),
    ///     tail_dof: 6.0,
    ///     mishit: Mishit::NONE,
    /// };
    /// let sampler = club.sampler()?;
    /// let draws = [Draw::at([0.9, 0.5, 0.5, 0.5, 0.5, 0.01]), Draw::at([0.9, 0.5, 0.5, 0.5, 0.5, 0.5])];
    /// let stretches = sampler.stretches(&draws);
    /// assert!(stretches[0] > 2.0 && stretches[1] < 1.0);
    /// let strike = sampler.normal_strike_at(&draws[0], stretches[0]);
    /// assert_eq!(strike, sampler.normal_strike(&draws[0]));
    /// # Ok::<(), costcard::player::pattern::PatternFault>(())
    /// ```
    #[must_use]
    pub fn stretches(&self, draws: &[Draw]) -> Vec<f64> {
        draws.iter().map(|draw| self.stretch_of(draw)).collect()
    }

    fn stretch_of(&self, draw: &Draw) -> f64 {
        self.stretch(quantile::chi_square(&self.chi, self.dof, draw.tail))
    }

    /// The normal strike at a draw.
    #[must_use]
    pub fn normal_strike(&self, draw: &Draw) -> Five {
        self.normal_strike_at(draw, self.stretch_of(draw))
    }

    /// The normal strike at a draw, its stretch known: see [`Self::stretches`].
    #[must_use]
    pub fn normal_strike_at(&self, draw: &Draw, stretch: f64) -> Five {
        self.normal.strike(&draw.normals, stretch)
    }

    /// The mishit at a draw.
    #[must_use]
    pub fn mishit_strike(&self, draw: &Draw) -> Five {
        self.mishit_strike_at(draw, self.stretch_of(draw))
    }

    /// The mishit at a draw, its stretch known: see [`Self::stretches`].
    #[must_use]
    pub fn mishit_strike_at(&self, draw: &Draw, stretch: f64) -> Five {
        self.mishit.strike(&draw.normals, stretch)
    }

    /// Share of strikes that are mishits, 0 to 1.
    #[must_use]
    pub fn mishit_share(&self) -> f64 {
        self.mishit_share
    }

    /// A random strike, mishits included.
    pub fn random<R: rand::Rng + ?Sized>(&self, rng: &mut R) -> Five {
        use rand::RngExt;
        let mishit = rng.random::<f64>() < self.mishit_share;
        let component = if mishit { &self.mishit } else { &self.normal };
        let normals = std::array::from_fn(|_| StandardNormal.sample(rng));
        let chi_square =
            rand_distr::ChiSquared::new(self.dof).map_or(self.dof, |chi| chi.sample(rng));
        component.strike(&normals, self.stretch(chi_square))
    }
}

/// Lowest launch of a ball that is hit on a course, degrees: a topped one is turned up by the ground at once, and skims.
pub const LOWEST_DEG: f64 = 0.5;

/// Bounds of what a ball can do. The tails of a fitted distribution reach beyond them.
mod possible {
    /// A ball that is struck at all leaves the face faster than this.
    pub const SLOWEST_MPH: f64 = 5.0;
    /// Faster than any golf ball measured.
    pub const FASTEST_MPH: f64 = 240.0;
    pub use super::LOWEST_DEG;
    /// Steeper than the loft of any club.
    pub const STEEPEST_DEG: f64 = 75.0;
    /// Off the hosel at most.
    pub const WIDEST_DEG: f64 = 60.0;
    /// A topped ball turns forwards, hardly faster than this.
    pub const MOST_TOPSPIN_RPM: f64 = 3000.0;
    /// More than any wedge gives.
    pub const MOST_BACKSPIN_RPM: f64 = 15_000.0;
    /// More than any slice or hook.
    pub const MOST_SIDESPIN_RPM: f64 = 8000.0;
}

/// The strike for the ball, held within what a ball can do.
#[must_use]
pub fn strike_of(five: &Five) -> Strike {
    use possible::*;
    let [ball_speed, launch, direction, backspin, sidespin] = *five;
    Strike {
        ball_speed: Speed::from_mph(ball_speed.clamp(SLOWEST_MPH, FASTEST_MPH)),
        launch: Angle::from_deg(launch.clamp(LOWEST_DEG, STEEPEST_DEG)),
        direction: Angle::from_deg(direction.clamp(-WIDEST_DEG, WIDEST_DEG)),
        backspin: Spin::from_rpm(backspin.clamp(-MOST_TOPSPIN_RPM, MOST_BACKSPIN_RPM)),
        sidespin: Spin::from_rpm(sidespin.clamp(-MOST_SIDESPIN_RPM, MOST_SIDESPIN_RPM)),
    }
}
