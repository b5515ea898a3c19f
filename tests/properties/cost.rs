//! Ratings and strokes received.

use costcard::cost::handicap::allowance::strokes_received;
use costcard::course::Rating;
use costcard::player::Sex;
use proptest::prelude::*;

proptest! {
    #[test]
    fn strokes_received_hole_by_hole_are_the_course_handicap(handicap in -12..60_i32, nine: bool) {
        let holes: u8 = if nine { 9 } else { 18 };
        let received: Vec<i32> = (1..=holes).map(|rank| strokes_received(handicap, rank, holes)).collect();
        prop_assert_eq!(received.iter().sum::<i32>(), handicap);
        // The harder hole never gets fewer, and no two differ by more than one.
        prop_assert!(received.windows(2).all(|pair| pair[0] >= pair[1]), "{:?}", received);
        prop_assert!(received[0] - received[received.len() - 1] <= 1, "{:?}", received);
    }

    #[test]
    fn the_slope_grows_with_what_the_course_costs_the_bogey_golfer(
        scratch in 60.0..80.0,
        apart in 5.0..35.0,
        more in 0.0..5.0,
    ) {
        let slope = |apart: f64| Rating::played(scratch, scratch + apart, 18, Sex::Men).slope_rating;
        prop_assert!(slope(apart) <= slope(apart + more));
        prop_assert!((55..=155).contains(&slope(apart)));
    }
}
