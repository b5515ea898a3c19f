//! Which changes are real: chance is played many times over by dealing each club's shots anew to before and after.
//!
//! Source: P.H. Westfall & S.S. Young 1993, Resampling-Based Multiple Testing: step-down of the greatest. A deal gives a
//! shot with all its figures to one side, so that figures that move together count as what they are; and every
//! change, of every club, is held against the greatest that the deal makes of any.

use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;
use rand::seq::SliceRandom;
use rayon::prelude::*;

use super::column::Column;
use super::trimmed::{Contrast, Trimmed};

/// Deals, and the seed they are drawn with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Deals {
    /// How many. The chances found are whole multiples of one over this and one.
    pub count: u64,
    /// The same seed gives the same deals, on any number of threads.
    pub seed: u64,
}

impl Default for Deals {
    fn default() -> Self {
        Self {
            count: 1999,
            seed: 1,
        }
    }
}

/// One club's columns, those that can be tested.
pub(super) struct Table<'a> {
    /// Shots before and after: those before come first.
    pub shots: [usize; 2],
    /// The columns.
    pub columns: Vec<&'a Column>,
}

/// What the deals say.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Ruling {
    /// For each column of each club in order: the chance that dealing alone makes a change as great anywhere.
    pub chances: Vec<f64>,
    /// The size that dealing alone reaches in one of `1/level` comparisons.
    pub critical: f64,
}

/// Judges every column of every club. `level`: see [`Ruling::critical`].
pub(super) fn judge(clubs: &[Table<'_>], deals: Deals, level: f64) -> Ruling {
    let seen = sizes(clubs, |table| {
        let after = |shot| shot >= table.shots[0];
        (0..table.shots.iter().sum()).map(after).collect()
    });
    let dealt: Vec<Vec<f64>> = (0..deals.count)
        .into_par_iter()
        .map(|deal| {
            let mut rng = ChaCha8Rng::seed_from_u64(deals.seed);
            rng.set_stream(deal);
            sizes(clubs, |table| dealt_sides(table.shots, &mut rng))
        })
        .collect();
    Ruling {
        chances: step_down(&seen, &dealt),
        critical: critical(&dealt, level),
    }
}

/// For each shot, whether the deal puts it after.
fn dealt_sides([before, after]: [usize; 2], rng: &mut ChaCha8Rng) -> Vec<bool> {
    let mut sides = vec![false; before];
    sides.resize(before + after, true);
    sides.shuffle(rng);
    sides
}

/// The size of the change in every column.
fn sizes(clubs: &[Table<'_>], mut sides: impl FnMut(&Table<'_>) -> Vec<bool>) -> Vec<f64> {
    let mut sizes = Vec::new();
    let mut parted = [Vec::new(), Vec::new()];
    for table in clubs {
        let sides = sides(table);
        for column in &table.columns {
            parted.iter_mut().for_each(Vec::clear);
            for (shot, value) in &column.rising {
                parted[usize::from(sides[*shot])].push(*value);
            }
            sizes.push(size(&parted));
        }
    }
    sizes
}

/// A side with a single figure, where some shots lack it, says nothing.
fn size([before, after]: &[Vec<f64>; 2]) -> f64 {
    let change = |before: Trimmed, after: Trimmed| Contrast::of(&before, &after).size();
    let both = Trimmed::of(before).zip(Trimmed::of(after));
    both.map_or(0.0, |(before, after)| change(before, after))
}

/// Step-down: the greatest change is held against the greatest of all in each deal, the next against the greatest of
/// the rest, and so on; no change is surer than one greater than it.
fn step_down(seen: &[f64], dealt: &[Vec<f64>]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..seen.len()).collect();
    order.sort_by(|a, b| seen[*a].total_cmp(&seen[*b]));
    let mut reached = vec![1_u64; seen.len()];
    for sizes in dealt {
        let mut greatest = 0.0_f64;
        for column in &order {
            greatest = greatest.max(sizes[*column]);
            reached[*column] += u64::from(greatest >= seen[*column]);
        }
    }
    let mut chances = vec![0.0; seen.len()];
    let mut least = 0.0_f64;
    for column in order.iter().rev() {
        least = least.max(reached[*column] as f64 / (dealt.len() + 1) as f64);
        chances[*column] = least;
    }
    chances
}

fn critical(dealt: &[Vec<f64>], level: f64) -> f64 {
    let greatest = |sizes: &Vec<f64>| sizes.iter().copied().fold(0.0, f64::max);
    let mut all: Vec<f64> = dealt.iter().map(greatest).collect();
    all.sort_by(f64::total_cmp);
    let place = ((1.0 - level) * all.len() as f64) as usize;
    all.get(place).copied().unwrap_or(f64::INFINITY)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn step_down_by_hand() {
        // Three columns, three deals. The greatest, 3.0, is reached by the greatest of one deal: (1 + 1)/4. Of the two
        // left the greater, 2.0, is reached in two deals (2.5 and 2.0): (2 + 1)/4. The last is reached in all.
        let dealt = vec![
            vec![3.5, 2.5, 0.2],
            vec![0.1, 2.0, 0.6],
            vec![0.3, 0.4, 0.9],
        ];
        assert_eq!(step_down(&[3.0, 2.0, 0.1], &dealt), [0.5, 0.75, 1.0]);
        // No change is surer than a greater one.
        let dealt = vec![vec![5.0, 0.0], vec![5.0, 0.0], vec![0.0, 0.0]];
        assert_eq!(step_down(&[4.0, 1.0], &dealt), [0.75, 0.75]);
    }

    #[test]
    fn the_critical_size_is_that_of_the_greatest() {
        let dealt: Vec<Vec<f64>> = (0..100).map(|i| vec![0.0, f64::from(i)]).collect();
        assert_eq!(critical(&dealt, 0.05), 95.0);
    }
}
