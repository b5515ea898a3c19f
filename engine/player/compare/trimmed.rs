//! Trimmed means and the change between two of them.
//!
//! Source: K.K. Yuen 1974, Biometrika 61, 165 (two trimmed means of unequal spread: winsorised variances, degrees of
//! freedom as B.L. Welch's).

use statrs::distribution::{ContinuousCDF, StudentsT};

/// Share of the figures left out at either end: a mishit in ten, whichever way it goes, counts for little.
const TRIMMED: f64 = 0.1;

/// What stands for a change that no spread at all speaks against, far beyond every critical value.
const CERTAIN: f64 = 40.0;

/// A trimmed mean and how sure it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Trimmed {
    /// The mean of the figures but the lowest and highest tenth.
    pub mean: f64,
    /// Its squared standard error.
    squared_error: f64,
    /// Degrees of freedom of that error.
    dof: f64,
}

impl Trimmed {
    /// Of figures in rising order; none of fewer than two, which say nothing of spread.
    pub(super) fn of(rising: &[f64]) -> Option<Self> {
        let cut = (TRIMMED * rising.len() as f64) as usize;
        let kept = rising.get(cut..rising.len() - cut)?;
        let (low, high) = (kept.first()?, kept.last()?);
        if kept.len() < 2 {
            return None;
        }
        let count = kept.len() as f64;
        let mean = kept.iter().sum::<f64>() / count;
        // Winsorised: what is cut counts as the last figure that is not.
        let (ends, all) = (cut as f64, rising.len() as f64);
        let shift = ends * (low - mean + high - mean) / all;
        let squares: f64 = kept.iter().map(|value| (value - mean).powi(2)).sum();
        let tails = ends * ((low - mean).powi(2) + (high - mean).powi(2));
        let about_winsorised = (squares + tails - all * shift.powi(2)).max(0.0);
        Some(Self {
            mean,
            squared_error: about_winsorised / (count * (count - 1.0)),
            dof: count - 1.0,
        })
    }
}

/// The change from one trimmed mean to another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Contrast {
    /// After less before.
    pub change: f64,
    error: f64,
    dof: f64,
}

impl Contrast {
    pub(super) fn of(before: &Trimmed, after: &Trimmed) -> Self {
        let (a, b) = (before.squared_error, after.squared_error);
        let least = before.dof.min(after.dof);
        let dof = (a + b).powi(2) / (a.powi(2) / before.dof + b.powi(2) / after.dof);
        Self {
            change: after.mean - before.mean,
            error: (a + b).sqrt(),
            // Without any spread the quotient is not a number.
            dof: if dof.is_finite() { dof } else { least },
        }
    }

    /// How far the change is from nothing, on the scale of a normal distribution whatever the degrees of freedom, so
    /// that clubs with few shots and clubs with many stand on one scale.
    ///
    /// Source: D.L. Wallace 1959, Ann. Math. Stat. 30, 1124, his second approximation: within 0.02 for 3 and more degrees
    /// of freedom.
    pub(super) fn size(&self) -> f64 {
        if self.change == 0.0 {
            return 0.0;
        }
        let (t, dof) = (self.change / self.error, self.dof);
        let log = (t * t / dof).ln_1p();
        let s = 0.184 * (8.0 * dof + 3.0) / (dof * log.sqrt());
        let scale = 1.0 - 2.0 * (-(-s * s).exp_m1()).sqrt() / (8.0 * dof + 3.0);
        let size = scale * (dof * log).sqrt();
        if size.is_finite() {
            size.min(CERTAIN)
        } else {
            CERTAIN
        }
    }

    /// The interval that holds the true change with this chance, 0 to 1.
    pub(super) fn interval(&self, chance: f64) -> (f64, f64) {
        let upper = 0.5 + chance / 2.0;
        let quantile =
            StudentsT::new(0.0, 1.0, self.dof).map_or(f64::INFINITY, |t| t.inverse_cdf(upper));
        let half = quantile * self.error;
        (self.change - half, self.change + half)
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)] // a test may stop
mod tests {
    use super::*;
    use statrs::distribution::Normal;

    #[test]
    fn few_figures_are_not_trimmed_and_give_the_t_test_of_welch() {
        // Worked out by hand: means 3 and 6, variances 2.5 and 10, five figures each; t = 3/√2.5, and Welch's degrees
        // of freedom 12.5²/(2.5²/4 + 10²/4) = 5.882.
        let before = Trimmed::of(&[1.0, 2.0, 3.0, 4.0, 5.0]).unwrap();
        let after = Trimmed::of(&[2.0, 4.0, 6.0, 8.0, 10.0]).unwrap();
        let contrast = Contrast::of(&before, &after);
        assert_eq!(contrast.change, 3.0);
        assert!((contrast.error - 2.5_f64.sqrt()).abs() < 1e-12);
        assert!((contrast.dof - 5.882).abs() < 1e-3, "{}", contrast.dof);
    }

    #[test]
    fn a_tenth_is_cut_at_either_end_and_the_error_is_that_of_winsorised_figures() {
        // Worked out by hand: the mean of 2 to 9 is 5.5; winsorised 2,2,3,4,5,6,7,8,9,9 has squares of
        // 2·(3.5² + 2.5² + 1.5² + 0.5²) + 2·3.5² = 66.5 about 5.5.
        let figures = [-50.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 90.0];
        let trimmed = Trimmed::of(&figures).unwrap();
        assert_eq!(trimmed.mean, 5.5);
        assert!((trimmed.squared_error - 66.5 / 56.0).abs() < 1e-12);
        // Uneven ends: winsorised 1,1,2,…,8,9→8: mean 4.4 against 4.5 of those kept.
        let uneven = [0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 7.0, 9.0];
        let plain = [1.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 7.0, 7.0];
        let mean = plain.iter().sum::<f64>() / 10.0;
        let squares: f64 = plain.iter().map(|v: &f64| (v - mean).powi(2)).sum();
        let found = Trimmed::of(&uneven).unwrap().squared_error;
        assert!((found - squares / 56.0).abs() < 1e-12, "{found}");
    }

    #[test]
    fn one_scale_for_every_number_of_shots() {
        for dof in [3.0, 6.0, 12.0, 28.0] {
            for p in [0.9, 0.975, 0.999] {
                let t = StudentsT::new(0.0, 1.0, dof).unwrap().inverse_cdf(p);
                let z = Normal::standard().inverse_cdf(p);
                let size = Contrast {
                    change: t,
                    error: 1.0,
                    dof,
                }
                .size();
                assert!((size - z).abs() < 0.02, "dof {dof}, {p}: {size} for {z}");
            }
        }
    }

    #[test]
    fn figures_all_alike_are_certain_or_nothing() {
        let (low, high) = (
            Trimmed::of(&[5.0; 6]).unwrap(),
            Trimmed::of(&[7.0; 6]).unwrap(),
        );
        assert_eq!(Contrast::of(&low, &low).size(), 0.0);
        assert_eq!(Contrast::of(&low, &high).size(), CERTAIN);
        assert_eq!(Contrast::of(&low, &high).interval(0.9), (2.0, 2.0));
    }
}
