//! The handicap index from differentials.

use super::{Ratio, Tenths};

/// Differentials that count toward an index: the latest 20 (rule 5.2).
pub const RECORD: usize = 20;
/// The highest index (rule 5.3).
pub const HIGHEST: Tenths = Tenths::new(540);
/// Above the low index by more than this, only half of the excess counts (rule 5.8).
const SOFT_CAP: Tenths = Tenths::new(30);
/// Never more than this above the low index (rule 5.8).
const HARD_CAP: Tenths = Tenths::new(50);

/// An index worked out from differentials, before caps.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Calculated {
    /// The index, to a tenth; the highest index is not applied yet.
    pub index: Tenths,
    /// Which differentials were used, by their place, in the order of the record.
    pub used: Vec<usize>,
    /// What was added because there are few scores; zero or less.
    pub adjustment: Tenths,
}

/// How many of the lowest differentials are used, and what is added to their mean (rule 5.2a); none below three.
#[must_use]
pub const fn counting(differentials: usize) -> Option<(usize, Tenths)> {
    let (used, tenths) = match differentials {
        0..=2 => return None,
        3 => (1, -20),
        4 => (1, -10),
        5 => (1, 0),
        6 => (2, -10),
        7 | 8 => (2, 0),
        9..=11 => (3, 0),
        12..=14 => (4, 0),
        15 | 16 => (5, 0),
        17 | 18 => (6, 0),
        19 => (7, 0),
        _ => (8, 0),
    };
    Some((used, Tenths::new(tenths)))
}

/// The index of the differentials of a record, at most the latest 20 of which are given; none below three.
#[must_use]
pub fn calculated(differentials: &[Tenths]) -> Option<Calculated> {
    let (count, adjustment) = counting(differentials.len())?;
    let mut lowest: Vec<usize> = (0..differentials.len()).collect();
    // Of equal differentials the later ones are used: they stay in the record longest.
    lowest.sort_by_key(|&place| (differentials[place], usize::MAX - place));
    lowest.truncate(count);
    lowest.sort_unstable();
    let sum: i32 = lowest
        .iter()
        .map(|&place| differentials[place].tenths())
        .sum();
    let count = count as i64;
    let total = i64::from(sum) + count * i64::from(adjustment.tenths());
    Some(Calculated {
        index: Ratio::new(total, count).to_tenth(),
        used: lowest,
        adjustment,
    })
}

/// The caps (rule 5.8): over the low index, what exceeds 3.0 counts half, and the whole is at most 5.0.
///
/// ```
/// use costcard::cost::handicap::{Tenths, index::capped};
/// assert_eq!(capped(Tenths::new(134), Tenths::new(100)), Tenths::new(132));
/// ```
#[must_use]
pub fn capped(calculated: Tenths, low: Tenths) -> Tenths {
    let excess = calculated - low - SOFT_CAP;
    if excess <= Tenths::ZERO {
        return calculated;
    }
    let half = Ratio::new(i64::from(excess.tenths()), 2).to_tenth();
    low + (SOFT_CAP + half).min(HARD_CAP)
}

/// Whether it is the hard cap that binds.
#[must_use]
pub fn is_hard_capped(calculated: Tenths, low: Tenths) -> bool {
    let twice = HARD_CAP - SOFT_CAP;
    calculated - low - SOFT_CAP > twice + twice
}

/// What an exceptional score takes off the differentials of the record (rule 5.9): 1.0 when it lies 7.0 to 9.9 under
/// the index in force when it was played, 2.0 when it lies further under it, otherwise nothing.
#[must_use]
pub fn exceptional(index: Tenths, differential: Tenths) -> Tenths {
    match (index - differential).tenths() {
        ..70 => Tenths::ZERO,
        70..100 => Tenths::new(-10),
        100.. => Tenths::new(-20),
    }
}
