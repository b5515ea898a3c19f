//! Golfers: levels, and changes there and back.

use costcard::player::change::Change;
use costcard::player::{Golfer, Sex, levels};
use proptest::prelude::*;

fn golfer(handicap: f64) -> Golfer {
    levels::level(handicap, Sex::Men).unwrap()
}

fn changed(golfer: &Golfer, text: &str) -> Golfer {
    text.parse::<Change>().unwrap().apply(golfer).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn every_handicap_has_a_golfer_who_is_his_own_mirrors_mirror(handicap in -6.0..54.0) {
        let golfer = golfer(handicap);
        for entry in &golfer.clubs {
            prop_assert_eq!(entry.pattern.validate(), Ok(()), "{}", entry.club);
        }
        prop_assert_eq!(golfer.mirrored().mirrored(), golfer);
    }

    /// The skills of a worse golfer are worse.
    #[test]
    fn a_higher_handicap_is_no_better_around_the_green(low in -6.0..54.0, high in -6.0..54.0) {
        let (low, high) = if low < high { (low, high) } else { (high, low) };
        let (better, worse) = (golfer(low), golfer(high));
        let errors = |golfer: &Golfer| {
            let (touch, sand, putting) = (golfer.short_game.0, golfer.sand.0, golfer.putting.0);
            [touch.along_pct, sand.along_pct, putting.direction_sd_deg, putting.length_sd_pct]
        };
        for (a, b) in errors(&better).into_iter().zip(errors(&worse)) {
            prop_assert!(a <= b + 1e-9, "{:?} and {:?}", errors(&better), errors(&worse));
        }
    }

    #[test]
    fn what_is_changed_and_changed_back_is_as_it_was_and_nothing_else_moved(
        handicap in 0.0..30.0,
        amount in 0.1..5.0,
    ) {
        let before = golfer(handicap);
        let there = changed(&before, &format!("driver ball_speed +{amount:.2}"));
        prop_assert_eq!(&there.clubs[1..], &before.clubs[1..]);
        prop_assert_eq!(there.putting, before.putting);
        let back = changed(&there, &format!("driver ball_speed -{amount:.2}"));
        let apart = back.clubs[0].pattern.mean[0] - before.clubs[0].pattern.mean[0];
        prop_assert!(apart.abs() < 1e-9, "{}", apart);
    }

    #[test]
    fn a_club_left_at_home_is_the_only_one_missing(handicap in 0.0..30.0) {
        let before = golfer(handicap);
        let without = changed(&before, "driver off");
        prop_assert_eq!(&without.clubs[..], &before.clubs[1..]);
    }
}
