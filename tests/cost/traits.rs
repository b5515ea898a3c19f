//! What about a part costs strokes, on golfers who differ in one thing.

use costcard::course::Course;
use costcard::player::traits::Trait;
use costcard::player::{Golfer, Sex};
use costcard::round::part::Part;

use super::{detail, detailed, three_holes};
use crate::support::{demo_course, demo_player, level};

/// The first trait of a part on three holes, and what it alone would give.
fn first(player: &Golfer, goal: &Golfer, part: Part) -> (Trait, f64) {
    first_on(&three_holes(), player, goal, part)
}

fn first_on(course: &Course, player: &Golfer, goal: &Golfer, part: Part) -> (Trait, f64) {
    let card = detailed(player, goal, course);
    let first = detail(&card).traits[part as usize][0];
    (first.which, first.saved)
}

/// A golfer off 5 whose clubs were changed.
fn changed(change: impl Fn(&mut costcard::player::pattern::Pattern)) -> (Golfer, Golfer) {
    let goal = level("5", Sex::Men);
    let mut player = goal.clone();
    for club in &mut player.clubs {
        change(&mut club.pattern);
    }
    (player, goal)
}

#[test]
fn who_scatters_to_the_sides_is_told_so() {
    let (player, goal) = changed(|pattern| {
        pattern.sd[2] *= 2.0;
        pattern.sd[4] *= 2.0;
    });
    let (which, saved) = first(&player, &goal, Part::TeeShots);
    assert!(
        which == Trait::Direction && saved > 0.1,
        "{which:?} {saved}"
    );
}

#[test]
fn who_mishits_is_told_so() {
    let (player, goal) = changed(|pattern| pattern.mishit.share *= 3.0);
    let (which, saved) = first(&player, &goal, Part::TeeShots);
    assert!(which == Trait::Mishits && saved > 0.1, "{which:?} {saved}");
}

#[test]
#[ignore = "0.096: a thin drive runs on, so that twice the mishits from the tees of three holes cost less than a tenth"]
fn who_mishits_twice_as_often_loses_a_tenth() {
    let (player, goal) = changed(|pattern| pattern.mishit.share *= 2.0);
    let (which, saved) = first(&player, &goal, Part::TeeShots);
    assert!(which == Trait::Mishits && saved > 0.1, "{which:?} {saved}");
}

#[test]
fn who_is_slow_is_told_so() {
    let (player, goal) = changed(|pattern| *pattern = pattern.scaled(0.85));
    let (which, saved) = first(&player, &goal, Part::TeeShots);
    assert!(which == Trait::Speed && saved > 0.2, "{which:?} {saved}");
}

/// The demo player who flies his irons low, on eighteen holes.
fn height_and_spin_come_first(part: Part) {
    let (player, goal) = (demo_player("rowan"), level("9", Sex::Men));
    let (which, saved) = first_on(&demo_course("parkland"), &player, &goal, part);
    assert_eq!(which, Trait::HeightAndSpin);
    assert!(saved > 0.5, "{saved}");
}

#[test]
fn who_flies_irons_low_without_spin_is_told_so() {
    height_and_spin_come_first(Part::MidIrons);
}

#[test]
#[ignore = "0.32, not half a stroke: his hybrid is slow as well as low"]
fn who_flies_long_approaches_low_without_spin_is_told_so() {
    height_and_spin_come_first(Part::LongApproach);
}

/// At the goal's speed there is no speed left to lack.
#[test]
fn golfers_at_the_players_own_speed_leave_speed_out() {
    let player = demo_player("rowan");
    let goal = level("9", Sex::Men).at_speed_of(&player);
    let card = detailed(&player, &goal, &three_holes());
    for traits in &detail(&card).traits {
        let speed = traits.iter().find(|found| found.which == Trait::Speed);
        assert!(
            speed.is_none_or(|speed| speed.saved.abs() < 0.01),
            "{speed:?}"
        );
    }
}
