//! How many putts a golfer takes from each distance: worked out once, looked up many million times.

use super::putt::{Putt, PuttStroke};
use crate::units::Length;

/// Putts told apart: the last stands for itself and everything above it.
pub const MOST_PUTTS: usize = 6;

/// Distances worked out. They lie evenly in the square root of the distance: close together near the hole,
/// where the chance of holing changes fast.
const NODES: usize = 385;

/// Nodes per square root of a foot.
const NODES_PER_ROOT_FT: f64 = (NODES - 1) as f64 / FARTHEST_ROOT_FT;
/// Square root of the farthest distance worked out, 400 ft: farther putts count as that one. Greens seldom reach half of it.
const FARTHEST_ROOT_FT: f64 = 20.0;

/// Up to this node, 25 ft, every distance is worked out, beyond it each [`STRIDE`]th: there the chances change so
/// slowly that cubics through the nearest four give the rest.
const DENSE: usize = 96;
const STRIDE: usize = 4;

/// Putts to hole out by distance, for one golfer on greens of one speed.
///
/// Look-up, chances and draws all read the same straight lines between the same nodes, so that they agree exactly.
///
/// ```
/// use costcard::ball::putt::PuttStroke;
/// use costcard::ball::putts::PuttTable;
/// let stroke = PuttStroke { direction_sd_deg: 1.2, length_sd_pct: 8.0, past_ft: 1.0 };
/// let table = PuttTable::new(&stroke, 10.0);
/// assert!(table.expected(3.0) < 1.1);
/// assert_eq!(table.draw(3.0, 0.5), 1);
/// let chances = table.chances(30.0);
/// let mean: f64 = chances.iter().enumerate().map(|(i, p)| (i + 1) as f64 * p).sum();
/// assert!((table.expected(30.0) - mean).abs() < 1e-12);
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct PuttTable {
    /// By node: chance of at most 1, 2, … putts; the last is 1.
    within: Vec<[f64; MOST_PUTTS]>,
    /// By node: mean putts.
    expected: Vec<f64>,
}

impl PuttTable {
    /// Works the table out for a stroke and a Stimpmeter reading, feet, on level greens.
    ///
    /// The chance of n putts is that of missing, times that of n − 1 putts from what is left, summed over all
    /// that can be left. No random numbers.
    #[must_use]
    pub fn new(stroke: &PuttStroke, stimp_ft: f64) -> Self {
        let leaves: Vec<Leave> = worked_nodes()
            .map(|node| Leave::new(stroke, node, stimp_ft))
            .collect();
        let mut exactly: Vec<Vec<f64>> = vec![at_all_nodes(leaves.iter().map(|l| l.holed))];
        for putts in 1..MOST_PUTTS {
            let before = &exactly[putts - 1];
            exactly.push(at_all_nodes(leaves.iter().map(|l| l.mean(before))));
        }
        let within: Vec<[f64; MOST_PUTTS]> =
            (0..NODES).map(|node| running_sum(&exactly, node)).collect();
        let expected = within.iter().map(mean_putts).collect();
        Self { within, expected }
    }

    /// Mean putts to hole out from a distance, feet.
    #[must_use]
    pub fn expected(&self, distance_ft: f64) -> f64 {
        let (node, share) = place(distance_ft);
        between(self.expected[node], self.expected[node + 1], share)
    }

    /// Chance of exactly 1, 2, … putts from a distance, feet; the last is that of [`MOST_PUTTS`] or more,
    /// counted as that many.
    #[must_use]
    pub fn chances(&self, distance_ft: f64) -> [f64; MOST_PUTTS] {
        let (node, share) = place(distance_ft);
        let mut below = 0.0;
        std::array::from_fn(|i| {
            let within = between(self.within[node][i], self.within[node + 1][i], share);
            let chance = within - below;
            below = within;
            chance
        })
    }

    /// Putts taken from a distance, feet, for a number drawn evenly from 0 to 1.
    #[must_use]
    pub fn draw(&self, distance_ft: f64, evenly: f64) -> u8 {
        let (node, share) = place(distance_ft);
        let (near, far) = (&self.within[node], &self.within[node + 1]);
        let mut putts = 1;
        while putts < MOST_PUTTS && evenly >= between(near[putts - 1], far[putts - 1], share) {
            putts += 1;
        }
        putts as u8
    }
}

/// The nodes worked out, nearest first.
fn worked_nodes() -> impl Iterator<Item = usize> {
    (0..DENSE).chain((DENSE..NODES).step_by(STRIDE))
}

/// The values at [`worked_nodes`], and between them those of the cubic through the nearest four.
fn at_all_nodes(worked: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut all = vec![0.0; NODES];
    for (node, value) in worked_nodes().zip(worked) {
        all[node] = value;
    }
    for node in (DENSE..NODES).filter(|node| !(node - DENSE).is_multiple_of(STRIDE)) {
        let before = node - (node - DENSE) % STRIDE;
        // The last gap has no node beyond it: its cubic leans back.
        let first = (before - STRIDE).min(NODES - 1 - 3 * STRIDE);
        let at = (node - first) as f64 / STRIDE as f64;
        let [a, b, c, d] = std::array::from_fn(|i| all[first + i * STRIDE]);
        // Lagrange's form at 0, 1, 2, 3.
        all[node] = a * (at - 1.0) * (at - 2.0) * (3.0 - at) / 6.0
            + b * at * (at - 2.0) * (at - 3.0) / 2.0
            + c * at * (at - 1.0) * (3.0 - at) / 2.0
            + d * at * (at - 1.0) * (at - 2.0) / 6.0;
    }
    all
}

/// Node at or before a distance, and how far on the way to the next, 0 to 1.
#[inline]
fn place(distance_ft: f64) -> (usize, f64) {
    // `max` also turns a distance that is no number into 0.
    let at = distance_ft.max(0.0).sqrt() * NODES_PER_ROOT_FT;
    let at = at.min((NODES - 1) as f64);
    let node = (at as usize).min(NODES - 2);
    (node, at - node as f64)
}

#[inline]
fn between(near: f64, far: f64, share: f64) -> f64 {
    near + (far - near) * share
}

fn mean_putts(within: &[f64; MOST_PUTTS]) -> f64 {
    1.0 + within[..MOST_PUTTS - 1]
        .iter()
        .map(|p| 1.0 - p)
        .sum::<f64>()
}

/// Chance of at most 1, 2, … putts at a node; the last takes all that remains.
fn running_sum(exactly: &[Vec<f64>], node: usize) -> [f64; MOST_PUTTS] {
    let mut sum = 0.0;
    std::array::from_fn(|i| {
        sum += exactly[i][node];
        if i + 1 == MOST_PUTTS {
            1.0
        } else {
            sum.min(1.0)
        }
    })
}

/// What a putt from one node leaves.
struct Leave {
    holed: f64,
    /// Chance of each node being left, from the nearest on.
    chances: Vec<f64>,
}

impl Leave {
    fn new(stroke: &PuttStroke, node: usize, stimp_ft: f64) -> Self {
        let root = node as f64 / NODES_PER_ROOT_FT;
        let putt = Putt::new(stroke, Length::from_ft(root * root), stimp_ft);
        let holed = putt.holed();
        let mut chances = vec![0.0; NODES];
        let mut total = 0.0;
        putt.left(|left_m, chance| {
            let (node, share) = place(Length::from_m(left_m).ft());
            chances[node] += chance * (1.0 - share);
            chances[node + 1] += chance * share;
            total += chance;
        });
        // The quadrature leaves out the farthest tails: scale to what must be missed.
        let scale = if total > 0.0 {
            (1.0 - holed) / total
        } else {
            0.0
        };
        let last = chances.iter().rposition(|c| *c > 0.0).map_or(0, |i| i + 1);
        chances.truncate(last);
        chances.iter_mut().for_each(|c| *c *= scale);
        Self { holed, chances }
    }

    /// Mean of a value by node over what is left, in four sums side by side.
    fn mean(&self, values: &[f64]) -> f64 {
        let mut sums = [0.0; 4];
        for (chances, values) in self.chances.chunks(4).zip(values.chunks(4)) {
            for (sum, (chance, value)) in sums.iter_mut().zip(chances.iter().zip(values)) {
                *sum += chance * value;
            }
        }
        (sums[0] + sums[1]) + (sums[2] + sums[3])
    }
}
