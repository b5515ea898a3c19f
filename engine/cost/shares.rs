//! The whole gap to the goal, split over the parts so that it adds up.
//!
//! A part saves one amount when it alone is played at the goal's standard, and another when it is the last to get
//! there: a better drive is worth less to who already hits every green. The Shapley value is its mean saving over all
//! orders in which the parts could reach the goal (L.S. Shapley 1953, in Contributions to the Theory of Games II,
//! 307–317). Over seven parts that would be 128 mixtures to solve. As far as parts act on each other two by two, a
//! part's mean saving falls in even steps from the first place to the last, so the two ends tell the whole; what three
//! and more parts do together is shared by how far the two ends of a part lie apart, so that the shares add up exactly.

/// The share of each part in the gap, from what it saves as the first to reach the goal and as the last.
#[must_use]
pub fn shares(first: &[f64], last: &[f64], gap: f64) -> Vec<f64> {
    let ends = || first.iter().zip(last);
    let means: Vec<f64> = ends().map(|(a, b)| f64::midpoint(*a, *b)).collect();
    let left = gap - means.iter().sum::<f64>();
    let apart: f64 = ends().map(|(a, b)| (a - b).abs()).sum();
    let share = |(a, b): (&f64, &f64)| match apart {
        apart if apart > 0.0 => (a - b).abs() / apart,
        _ => 1.0 / means.len() as f64,
    };
    let of_left = ends().map(share);
    let all = means.iter().zip(of_left);
    all.map(|(mean, share)| mean + share * left).collect()
}

/// Shapley values from the saving of every mixture: `saved[set]` is what the parts of a set save together, a part's
/// bit set where it is played at the goal's standard. Exact, and the measure of [`shares`].
#[must_use]
pub fn exact(saved: &[f64], parts: usize) -> Vec<f64> {
    let chance = |size: usize| {
        // One over the number of sets of that size among the others, and over the sizes there are.
        let others = parts - 1;
        let choose = (0..size).fold(1.0, |c, i| c * (others - i) as f64 / (i + 1) as f64);
        1.0 / (choose * parts as f64)
    };
    let of_part = |part: usize| {
        let without = (0..saved.len()).filter(|set| set & (1 << part) == 0);
        let gain = |set: usize| {
            let size = set.count_ones() as usize;
            chance(size) * (saved[set | (1 << part)] - saved[set])
        };
        without.map(gain).sum()
    };
    (0..parts).map(of_part).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_parts_that_act_two_by_two_the_ends_tell_the_exact_shares() {
        // Savings 1, 2 and 3, less 0.4 where the first two are both at the standard.
        let saved: Vec<f64> = (0..8_u32)
            .map(|set| {
                let has = |part: u32| f64::from(set >> part & 1);
                has(0) + 2.0 * has(1) + 3.0 * has(2) - 0.4 * has(0) * has(1)
            })
            .collect();
        let first = [saved[1], saved[2], saved[4]];
        let last = [
            saved[7] - saved[6],
            saved[7] - saved[5],
            saved[7] - saved[3],
        ];
        let found = shares(&first, &last, saved[7]);
        for (found, exact) in found.iter().zip(exact(&saved, 3)) {
            assert!((found - exact).abs() < 1e-12);
        }
    }

    #[test]
    fn shares_add_up_to_the_gap_whatever_the_parts_do_together() {
        let found = shares(&[1.0, 0.5, -0.2], &[0.7, 0.6, 0.0], 1.9);
        assert!((found.iter().sum::<f64>() - 1.9).abs() < 1e-12);
    }
}
