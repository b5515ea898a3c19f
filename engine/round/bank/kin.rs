//! Shots reckoned from those of a golfer much alike, not flown.
//!
//! How sure a figure is takes dozens of golfers who could be the player as well. Their strikes lie close by his: the
//! same draw of another pattern. So each of their shots is his shot, moved by what a quadratic through all of his
//! shots says that so much other speed, launch, direction and spin changes. Where nothing differs it is his shot, to
//! the bit. It costs a hundredth of flying the ball. Only strikes far out, or far apart, are flown.

use nalgebra::{Cholesky, Const, SMatrix, SVector};

use crate::player::pattern::Five;

/// One, the five figures of a strike, and their products two by two.
const TERMS: usize = 21;
/// What a quadratic is made of.
type Terms = SVector<f64, TERMS>;
/// The least spread a figure is measured by, in its own unit (mph, degrees, rpm): for patterns without any.
const LEAST_SPREAD: Five = [1.0, 0.5, 0.5, 100.0, 100.0];
/// Added to the diagonal of the normal equations of figures in standard deviations: enough to solve them where two
/// figures go together.
const RIDGE: f64 = 1e-6;
/// Strikes farther out than so many standard deviations are not reckoned from others, nor others from them: what
/// becomes of a topped ball is no smooth figure.
const FARTHEST: f64 = 2.0;
/// Nor are strikes that lie farther apart than this.
const FARTHEST_APART: f64 = 1.0;

/// A list of strikes, ready to tell how whatever became of them hangs on the strike.
#[derive(Debug)]
pub(super) struct Kin {
    mean: Five,
    spread: Five,
    terms: Vec<Terms>,
    solver: Cholesky<f64, Const<TERMS>>,
}

impl Kin {
    /// None for strikes that no quadratic goes through.
    pub fn of(strikes: &[Five]) -> Option<Self> {
        let count = strikes.len() as f64;
        let over = |figure: usize, of: &dyn Fn(f64) -> f64| {
            strikes.iter().map(|strike| of(strike[figure])).sum::<f64>() / count
        };
        let mean: Five = std::array::from_fn(|figure| over(figure, &|value| value));
        let spread = std::array::from_fn(|figure| {
            let variance = over(figure, &|value| (value - mean[figure]).powi(2));
            variance.sqrt().max(LEAST_SPREAD[figure])
        });
        let terms: Vec<Terms> = strikes
            .iter()
            .map(|strike| terms(strike, &mean, &spread))
            .collect();
        let mut normal = SMatrix::<f64, TERMS, TERMS>::identity() * RIDGE;
        for term in &terms {
            normal.ger(1.0 / count, term, term, 1.0);
        }
        Some(Self {
            mean,
            spread,
            solver: Cholesky::new(normal)?,
            terms,
        })
    }

    /// How far each of some strikes, made with the same draws, lies from its own; none where it is to be flown.
    pub fn apart(&self, strikes: &[Five]) -> Vec<Option<Apart>> {
        let each = strikes.iter().zip(&self.terms);
        each.map(|(strike, own)| {
            let other = terms(strike, &self.mean, &self.spread);
            let z = |terms: &Terms| Z.map(|place| terms[place]);
            let is_near = z(&other).iter().zip(z(own)).all(|(other, own)| {
                other.abs().max(own.abs()) <= FARTHEST && (other - own).abs() <= FARTHEST_APART
            });
            is_near.then(|| Apart(other - own))
        })
        .collect()
    }

    /// How an outcome of each strike hangs on the strike.
    pub fn answer(&self, outcomes: impl Iterator<Item = f64>) -> Answer {
        let mut sum = Terms::zeros();
        for (term, outcome) in self.terms.iter().zip(outcomes) {
            sum.axpy(outcome, term, 1.0);
        }
        Answer(self.solver.solve(&sum) / self.terms.len() as f64)
    }
}

/// How far a strike lies from another.
#[derive(Debug, Clone)]
pub(super) struct Apart(Terms);

/// How an outcome hangs on the strike.
#[derive(Debug, Clone)]
pub(super) struct Answer(Terms);

impl Answer {
    /// What an outcome differs by for a strike so far from another.
    pub fn over(&self, apart: &Apart) -> f32 {
        self.0.dot(&apart.0) as f32
    }
}

/// The places of the five figures themselves among the terms.
const Z: [usize; 5] = [1, 7, 12, 16, 19];

fn terms(strike: &Five, mean: &Five, spread: &Five) -> Terms {
    let z: Five = std::array::from_fn(|figure| (strike[figure] - mean[figure]) / spread[figure]);
    let mut terms = Terms::zeros();
    terms[0] = 1.0;
    let mut next = 1;
    for first in 0..z.len() {
        terms[next] = z[first];
        next += 1;
        for second in first..z.len() {
            terms[next] = z[first] * z[second];
            next += 1;
        }
    }
    terms
}

#[cfg(test)]
#[expect(
    clippy::expect_used,
    reason = "what a test needs is there, or it fails"
)]
mod tests {
    use super::*;

    fn strikes(shift: f64) -> Vec<Five> {
        (0..64)
            .map(|i| {
                let at =
                    |k: u32| f64::from((i * (k + 3) * 7919 + k * 104_729) % 1000) / 500.0 - 1.0;
                [
                    110.0 + 4.0 * at(0) + shift,
                    16.0 + 2.0 * at(1) - shift,
                    2.0 * at(2),
                    6500.0 + 600.0 * at(3) + 100.0 * shift,
                    400.0 * at(4),
                ]
            })
            .collect()
    }

    fn outcome(strike: &Five) -> f64 {
        1.4 * strike[0] + 0.01 * strike[0] * strike[1] - 1e-6 * strike[3].powi(2)
            + strike[4] / 300.0
    }

    #[test]
    fn a_quadratic_is_met_and_the_same_strike_is_the_same_shot() {
        let (own, other) = (strikes(0.0), strikes(0.8));
        let kin = Kin::of(&own).expect("strikes spread in every figure");
        let answer = kin.answer(own.iter().map(outcome));
        let mut reckoned = 0;
        for (apart, (own, other)) in kin.apart(&other).iter().zip(own.iter().zip(&other)) {
            let Some(apart) = apart else { continue };
            reckoned += 1;
            let expected = outcome(other) - outcome(own);
            assert!(
                (f64::from(answer.over(apart)) - expected).abs() < 1e-3 * expected.abs() + 1e-3
            );
        }
        assert!(reckoned > own.len() / 2);
        for apart in kin.apart(&own).iter().flatten() {
            assert_eq!(answer.over(apart), 0.0);
        }
    }
}
