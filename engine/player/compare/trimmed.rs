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
    ///
    /// Where a tenth is no whole number of figures, the next one at either end counts for what is left of it: sides of nine
    /// and of twenty shots are then cut alike, and a mishit weighs no more on the smaller.
    pub(super) fn of(rising: &[f64]) -> Option<Self> {
        if rising.len() < 2 {
            return None;
        }
        let all = rising.len() as f64;
        let cut = TRIMMED * all;
        let (whole, part) = (cut as usize, cut.fract());
        let kept = rising.get(whole..rising.len() - whole)?;
        let (low, high) = (kept.first()?, kept.last()?);
        let count = all - 2.0 * cut;
        // Counted from the lowest, so that figures all alike have themselves for a mean, to the last bit.
        let above: f64 = kept.iter().map(|value| value - low).sum();
        let mean = low + (above - part * (high - low)) / count;
        // Between the squares with so many cut and with one more, as the cut lies between the two.
        let squares = (1.0 - part) * about_winsorised(rising, whole)
            + part * about_winsorised(rising, whole + 1);
        // As without a cut where two or three are left of few.
        let freedom = (count - 1.0).max(0.5);
        Some(Self {
            mean,
            squared_error: squares / (count * freedom),
            dof: freedom,
        })
    }
}

/// Squares of figures about their mean, those cut at either end counting as the last that is not.
fn about_winsorised(rising: &[f64], cut: usize) -> f64 {
    let most = (rising.len() - 1) / 2;
    let cut = cut.min(most);
    let (low, high) = (rising[cut], rising[rising.len() - 1 - cut]);
    let winsorised = || rising.iter().map(|value| value.clamp(low, high));
    let mean = winsorised().sum::<f64>() / rising.len() as f64;
    winsorised().map(|value| (value - mean).powi(2)).sum()
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
    fn of_few_figures_the_ends_count_in_part() {
        // Worked out by hand: of five, half of either end is cut, and four are left. (0.5 + 2 + 3 + 4 + 50)/4, where
        // the plain mean is 22. Squares are 7610 about 22 uncut, and 4 about 3 with one cut at either end.
        let one_far = Trimmed::of(&[1.0, 2.0, 3.0, 4.0, 100.0]).unwrap();
        assert!((one_far.mean - 14.875).abs() < 1e-12);
        let squares = f64::midpoint(7610.0, 4.0);
        assert!(
            (one_far.squared_error - squares / 12.0).abs() < 1e-9,
            "{}",
            one_far.squared_error
        );
        assert!((one_far.dof - 3.0).abs() < 1e-12);
    }

    /// Nine shots and the same nine with one more in their middle: what lies far out weighs alike in both.
    #[test]
    fn a_shot_more_leaves_the_mean_where_it_is() {
        let few = [60.0, 98.0, 99.0, 100.0, 100.0, 100.0, 101.0, 101.0, 102.0];
        let more = [
            60.0, 98.0, 99.0, 100.0, 100.0, 100.0, 100.0, 101.0, 101.0, 102.0,
        ];
        let [few, more] = [Trimmed::of(&few).unwrap(), Trimmed::of(&more).unwrap()];
        assert!(
            (few.mean - more.mean).abs() < 0.6,
            "{} {}",
            few.mean,
            more.mean
        );
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
