//! What must hold of any record.

use costcard::cost::handicap::record::{Record, Score};
use costcard::cost::handicap::{Tenths, index};
use proptest::prelude::*;

use super::{record_every, score, tenths};

/// Differentials of a golfer, tenths: no further apart than that none is exceptional.
fn steady(count: std::ops::Range<usize>) -> impl Strategy<Value = Vec<i32>> {
    prop::collection::vec(150..200_i32, count)
}

fn any_differentials(count: std::ops::Range<usize>) -> impl Strategy<Value = Vec<i32>> {
    prop::collection::vec(-60..600_i32, count)
}

fn index_of(differentials: &[i32]) -> Tenths {
    let differentials: Vec<Tenths> = differentials.iter().map(|d| tenths(*d)).collect();
    index::calculated(&differentials).unwrap().index
}

proptest! {
    /// From seven scores on: with fewer, one score more changes what is taken off the mean.
    #[test]
    fn a_score_worse_than_those_used_never_lowers_the_index(
        differentials in steady(7..40),
        worse in 0..30_i32,
    ) {
        let before = record_every(1, &differentials);
        let used = before.latest().iter().filter(|entry| entry.used);
        let worst_used = used.map(|entry| entry.adjusted.tenths()).max().unwrap();
        let mut more = differentials;
        more.push(worst_used + worse);
        prop_assert!(record_every(1, &more).index >= before.index);
    }

    #[test]
    fn a_lower_score_never_raises_the_index(
        differentials in steady(3..40),
        place in 0..40_usize,
        better in 0..50_i32,
    ) {
        let place = place % differentials.len();
        let mut lower = differentials.clone();
        lower[place] -= better;
        prop_assert!(record_every(1, &lower).index <= record_every(1, &differentials).index);
    }

    /// The index of at most 20 differentials does not depend on their order.
    #[test]
    fn the_order_within_the_record_does_not_matter(
        (one, other) in any_differentials(3..21).prop_flat_map(|d| (Just(d.clone()), Just(d).prop_shuffle())),
    ) {
        prop_assert_eq!(index_of(&one), index_of(&other));
    }

    /// The order of scores of one day does not matter, exceptional ones among them.
    #[test]
    fn the_order_within_a_day_does_not_matter(
        before in any_differentials(3..16),
        (one, other) in any_differentials(1..5).prop_flat_map(|d| (Just(d.clone()), Just(d).prop_shuffle())),
    ) {
        let record = |day: &[i32]| {
            let first = (0..).zip(&before).map(|(day, d)| score(day, *d));
            let last = day.iter().map(|d| score(99, *d));
            Record::of(&first.chain(last).collect::<Vec<Score>>())
        };
        prop_assert_eq!(record(&one).index, record(&other).index);
    }

    #[test]
    fn an_index_never_exceeds_its_caps(differentials in any_differentials(3..60)) {
        let record = record_every(3, &differentials);
        let index = record.index.unwrap();
        prop_assert!(index <= tenths(540));
        if let Some(low) = record.low_index {
            prop_assert!(low <= index);
            prop_assert!(index <= low + tenths(50));
        }
    }

    /// Of an excess of a single tenth the half is rounded up to a tenth, so that the cap takes nothing off.
    #[test]
    fn caps_only_lower(calculated in -60..540_i32, low in -60..540_i32, more in 0..50_i32) {
        let capped = |calculated| index::capped(tenths(calculated), tenths(low));
        prop_assert!(capped(calculated) <= tenths(calculated));
        prop_assert!(capped(calculated) <= capped(calculated + more));
        prop_assert_eq!(capped(calculated) < tenths(calculated), calculated > low + 31);
    }

    #[test]
    fn exactly_the_used_differentials_make_the_index(differentials in steady(20..50)) {
        let record = record_every(1, &differentials);
        let used: Vec<f64> = record
            .latest()
            .iter()
            .filter(|entry| entry.used)
            .map(|entry| entry.adjusted.strokes())
            .collect();
        prop_assert_eq!(used.len(), 8);
        let mean = used.iter().sum::<f64>() / 8.0;
        if record.adjustments.is_empty() {
            prop_assert!((record.index.unwrap().strokes() - mean).abs() <= 0.05 + 1e-9);
        }
    }
}
