//! How near the hole shots at the green finish.

/// Distances to the hole from which shots at the green are counted, yards: each band from its first figure up to its
/// second.
pub const BANDS_YD: [[f32; 2]; 4] = [
    [50.0, 100.0],
    [100.0, 150.0],
    [150.0, 200.0],
    [200.0, 250.0],
];

/// A shot is meant for the green when it is aimed to pitch within this many yards of the hole; otherwise it is laid up.
pub const MEANT_YD: f32 = 40.0;

/// Width of a bin, feet.
const BIN_FT: f32 = 2.0;
/// Bins; the last holds everything farther.
const BINS: usize = 300;

/// The distances left by many shots, counted in bins.
#[derive(Debug, Clone, PartialEq)]
pub struct Nearness {
    counts: Vec<u32>,
}

/// The band of a distance to the hole, yards.
#[must_use]
pub fn band(distance_yd: f32) -> Option<usize> {
    let holds = |[from, to]: &[f32; 2]| (*from..*to).contains(&distance_yd);
    BANDS_YD.iter().position(holds)
}

impl Nearness {
    /// No shots yet.
    #[must_use]
    pub fn new() -> Self {
        Self {
            counts: vec![0; BINS],
        }
    }

    /// Counts a shot that left `left_ft` feet to the hole.
    pub fn count(&mut self, left_ft: f32) {
        let bin = (left_ft / BIN_FT) as usize;
        self.counts[bin.min(BINS - 1)] += 1;
    }

    /// Adds other shots.
    pub fn add(&mut self, other: &Self) {
        for (count, more) in self.counts.iter_mut().zip(&other.counts) {
            *count += more;
        }
    }

    /// The distance that half of the shots left at most, feet; none where there are no shots.
    #[must_use]
    pub fn median_ft(&self) -> Option<f64> {
        let all: u32 = self.counts.iter().sum();
        let half = f64::from(all) / 2.0;
        let mut below = 0.0;
        for (bin, count) in self.counts.iter().enumerate() {
            let count = f64::from(*count);
            if count > 0.0 && below + count >= half {
                return Some(f64::from(BIN_FT) * (bin as f64 + (half - below) / count));
            }
            below += count;
        }
        None
    }
}

impl Default for Nearness {
    fn default() -> Self {
        Self::new()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_of_the_shots_end_within_the_median() {
        let mut near = Nearness::new();
        assert_eq!(near.median_ft(), None);
        for foot in 0..100 {
            near.count(foot as f32 + 0.5);
        }
        assert_eq!(near.median_ft(), Some(50.0));
        let mut far = Nearness::new();
        (0..300).for_each(|_| far.count(1e6));
        near.add(&far);
        assert!(near.median_ft() > Some(590.0));
    }

    #[test]
    fn a_band_begins_where_the_one_before_it_ends() {
        assert_eq!(
            [49.9, 50.0, 99.9, 100.0, 250.0].map(band),
            [None, Some(0), Some(0), Some(1), None]
        );
    }
}
