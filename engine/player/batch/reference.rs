//! What is usual for a club in its batch: middles and spreads that misreads and mishits do not move.

use super::figures::Figures;
use super::quantity::{COUNT, Quantity};
use super::screen::{self, Expected};

/// The middle of a club's shots and how far they usually lie from it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Usual {
    /// Median.
    pub middle: f64,
    /// What would be the standard deviation of a normal distribution, from the median distance.
    pub spread: f64,
}

impl Usual {
    /// Where too few shots say anything.
    pub(super) const NONE: Self = Self {
        middle: 0.0,
        spread: 0.0,
    };
}

/// Ways in which two measured things bind each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Residual {
    /// Carry over the flown one, less 1.
    Carry,
    /// Side less the flown one, yards.
    Side,
    /// Apex over the flown one, less 1.
    Apex,
    /// Descent less the flown one, degrees.
    Descent,
    /// Logarithm of spin over what the delivery gives.
    Spin,
    /// Ball speed over club speed.
    Smash,
}

const RESIDUALS: [Residual; 6] = [
    Residual::Carry,
    Residual::Side,
    Residual::Apex,
    Residual::Descent,
    Residual::Spin,
    Residual::Smash,
];

/// Fewer shots than this say nothing of what is usual.
const LEAST: usize = 5;

/// What is usual for a club.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Reference {
    quantities: [Option<Usual>; COUNT],
    residuals: [Option<Usual>; RESIDUALS.len()],
}

impl Reference {
    /// From shots that are sound by themselves.
    pub(super) fn of(shots: &[(&Figures, &Expected)]) -> Self {
        let quantity = |quantity: Quantity| {
            let values = shots
                .iter()
                .filter_map(|(figures, _)| figures.measured(quantity));
            let usual = usual(values.collect())?;
            let least = least_spread(quantity, usual.middle);
            let spread = usual.spread.max(least);
            Some(Usual { spread, ..usual })
        };
        let residual = |residual: Residual| {
            let values = shots.iter();
            let values = values
                .filter_map(|(figures, expected)| screen::residual(residual, figures, expected));
            usual(values.collect())
        };
        Self {
            quantities: Quantity::ALL.map(quantity),
            residuals: RESIDUALS.map(residual),
        }
    }

    pub(super) fn usual(&self, quantity: Quantity) -> Option<Usual> {
        self.quantities[quantity as usize]
    }

    pub(super) fn residual(&self, residual: Residual) -> Option<Usual> {
        self.residuals[residual as usize]
    }
}

fn usual(mut values: Vec<f64>) -> Option<Usual> {
    if values.len() < LEAST {
        return None;
    }
    let middle = median(&mut values);
    let mut off: Vec<f64> = values.iter().map(|value| (value - middle).abs()).collect();
    Some(Usual {
        middle,
        // The median distance of a normal distribution is 0.6745 of its standard deviation.
        spread: median(&mut off) / 0.6745,
    })
}

/// The spread below which no golfer's shots stay (common practice, no published source): a handful may lie close
/// together by luck.
fn least_spread(quantity: Quantity, middle: f64) -> f64 {
    match quantity {
        Quantity::BallSpeed | Quantity::ClubSpeed => 0.025 * middle,
        Quantity::Launch | Quantity::Descent | Quantity::Attack | Quantity::DynamicLoft => 1.2,
        Quantity::Direction | Quantity::Path | Quantity::Face | Quantity::Lie => 2.0,
        Quantity::SpinAxis => 4.0,
        Quantity::Backspin | Quantity::Spin => (0.08 * middle).max(200.0),
        Quantity::Sidespin => 250.0,
        Quantity::Carry => 0.04 * middle,
        Quantity::Side => 5.0,
        Quantity::Apex => (0.1 * middle).max(1.5),
    }
}

pub(super) fn median(values: &mut [f64]) -> f64 {
    let middle = values.len() / 2;
    let (below, at, _) = values.select_nth_unstable_by(middle, f64::total_cmp);
    let at = *at;
    if below.len() == middle && below.len() * 2 == values.len() {
        let below = values[..middle]
            .iter()
            .copied()
            .fold(f64::NEG_INFINITY, f64::max);
        return f64::midpoint(below, at);
    }
    at
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_median_is_the_middle() {
        assert_eq!(median(&mut [3.0, 1.0, 2.0]), 2.0);
        assert_eq!(median(&mut [4.0, 1.0, 2.0, 3.0]), 2.5);
    }

    #[test]
    fn a_third_of_misreads_moves_nothing_far() {
        let mut values: Vec<f64> = (0..20).map(|i| 100.0 + f64::from(i % 5)).collect();
        values.extend([1000.0; 9]);
        let usual = usual(values).unwrap_or(Usual::NONE);
        assert!(
            (usual.middle - 102.5).abs() < 1.0 && usual.spread < 5.0,
            "{usual:?}"
        );
    }
}
