//! The shares of the gap, against identities and the exact Shapley values.

use costcard::cost::shares::exact;
use costcard::player::{Golfer, Sex};
use costcard::round::part::Part;
use costcard::round::solve::Asked;
use costcard::round::stage::Stage;

use super::{detail, detailed, three_holes};
use crate::support::level;

fn off(handicap: &str) -> Golfer {
    level(handicap, Sex::Men)
}

#[test]
fn shares_add_up_to_the_gap() {
    let course = three_holes();
    let card = detailed(&off("15"), &off("5"), &course);
    let detail = detail(&card);
    assert!((detail.shares.iter().sum::<f64>() - detail.gap).abs() < 1e-9);
    let expected = card.player.expected_strokes - card.goal.expected_strokes;
    // The gap is measured on the variants of the two golfers, which are decided for anew at the tees.
    assert!(
        (detail.gap - expected).abs() < 0.01,
        "{} {expected}",
        detail.gap
    );
}

/// The shares are reckoned from the two ends of every part's place in the order; here beside the 128 mixtures.
#[test]
fn shares_are_those_of_all_orders_of_the_parts() {
    let mut course = three_holes();
    course.holes.remove(1);
    let (player, goal) = (off("20"), off("5"));
    let card = detailed(&player, &goal, &course);
    let golfers = [&player, &goal];
    let stage = Stage::new(&course, &golfers);
    let banks = stage.hole_banks();
    let own_side = stage.side(|_| 0);
    let own = stage.solve(&banks, &own_side, None);
    let target_side = stage.side(|_| 1);
    let target = stage.solve(&banks, &target_side, None);
    let traffic: Vec<_> = own
        .iter()
        .zip(&target)
        .map(|(own, target)| own.traffic().or(target.traffic()))
        .collect();
    let strokes = |set: usize| -> f64 {
        let plays = |part: Part| set >> (part as usize) & 1;
        // From the nearer of the two golfers, as the card does it at both ends.
        let start = if set.count_ones() <= 3 { &own } else { &target };
        let side = stage.side(plays);
        let holes = stage.variant(&banks, &side, start, &traffic, Asked::default());
        holes.iter().map(|hole| f64::from(hole.strokes)).sum()
    };
    let now = strokes(0);
    let saved: Vec<f64> = (0..128).map(|set| now - strokes(set)).collect();
    let exact = exact(&saved, Part::ALL.len());
    let gap = detail(&card).gap;
    let both = detail(&card).shares.iter().zip(&exact);
    for (part, (share, exact)) in Part::ALL.iter().zip(both.clone()) {
        println!("{}: {share:.3}, exact {exact:.3} of {gap:.3}", part.name());
    }
    for (share, exact) in both {
        assert!(
            (share - exact).abs() < 0.02 * gap,
            "{share} {exact} of {gap}"
        );
    }
}

#[test]
fn a_part_at_the_goals_standard_has_no_share() {
    let course = three_holes();
    let (goal, worse) = (off("5"), off("20"));
    let mut player = goal.clone();
    player.putting = worse.putting;
    let card = detailed(&player, &goal, &course);
    for (part, share) in Part::ALL.iter().zip(&detail(&card).shares) {
        if *part == Part::Putting {
            assert!(*share > 0.2, "putting {share}");
        } else {
            assert!(share.abs() < 0.01, "{}: {share}", part.name());
        }
    }
}

#[test]
fn of_two_alike_golfers_nothing_is_saved_anywhere() {
    let course = three_holes();
    let card = detailed(&off("10"), &off("10"), &course);
    for cost in &card.parts {
        assert!(cost.saved.abs() < 0.01, "{:?}: {}", cost.part, cost.saved);
    }
    for traits in &detail(&card).traits {
        assert!(
            traits.iter().all(|found| found.saved.abs() < 0.01),
            "{traits:?}"
        );
    }
}
