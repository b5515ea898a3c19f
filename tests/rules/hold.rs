//! What must hold of any rule for the run on a green.

use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use costcard::ball::Strike;
use costcard::ball::air::{Air, Atmosphere};
use costcard::ball::flight::fly;
use costcard::ball::turf::{Firmness, Run};
use costcard::cost::card::{Card, Effort, card, card_by_rules};
use costcard::course::{Course, Lie};
use costcard::files::Faults;
use costcard::player::club::Club;
use costcard::player::{Golfer, Sex};
use costcard::rules::hold::{GreenAt, Hold, LandingFacts};
use costcard::rules::script::trial;
use costcard::rules::worth::PartFacts;
use costcard::rules::{Rulebook, refused};
use costcard::units::{Angle, Length, Speed, Spin};

use super::{sound, three_holes};
use crate::support::{course, demo_courses, demo_player, level};

const EFFORT: Effort = Effort {
    rounds: 2000,
    seed: 5,
};

/// A 7 iron as it comes down; an invented strike.
pub fn seven_iron() -> LandingFacts {
    let strike = Strike {
        ball_speed: Speed::from_mph(108.0),
        launch: Angle::from_deg(17.0),
        direction: Angle::ZERO,
        backspin: Spin::from_rpm(6200.0),
        sidespin: Spin::ZERO,
    };
    let flight = fly(&strike, &Atmosphere::new(&Air::standard()));
    LandingFacts {
        ball: flight.landing,
        carry_yd: flight.carry.yd(),
        club: Some(Club::Iron(7)),
        lie: Lie::Fairway,
    }
}

fn by_rules(player: &Golfer, course: &Course, rules: &Rulebook) -> Result<Card, Faults> {
    let goal = level("9", Sex::Men);
    card_by_rules(player, &goal, (course, rules), EFFORT, &|_| {})
}

fn usual_run(_: &LandingFacts, green: &GreenAt) -> Result<Run, Faults> {
    Ok(green.usual_run())
}

#[test]
fn a_rule_that_gives_the_usual_run_changes_not_a_digit() {
    // Demo greens slope, and the wind blows across: runs have a side too.
    let [parkland, heathland] = demo_courses();
    let goal = level("9", Sex::Men);
    for mut course in [parkland, heathland] {
        course.holes.truncate(2);
        let player = demo_player("rowan");
        let built_in = card(&player, &goal, &course, EFFORT, &|_| {});
        let script = sound("fn hold(landing, green) { usual_run(landing, green) }");
        let doubled =
            sound("fn hold(landing, green) { let r = usual_run(landing, green) * 2; r / 2 }");
        // It asks where the ball pitched, and so is asked place by place.
        let asks = sound(
            "fn hold(landing, green) { if green.from_front_yd < 0.0 || green.from_edge_yd < 0.0 { 1 } \
             else { usual_run(landing, green) } }",
        );
        for rules in [
            Rulebook::default().with_hold(script),
            Rulebook::default().with_hold(doubled),
            Rulebook::default().with_hold(asks),
            Rulebook::default().with_hold(usual_run),
        ] {
            assert_eq!(by_rules(&player, &course, &rules), Ok(built_in.clone()));
        }
    }
}

/// Places are told in steps, and the middle of a rough step must not lie behind the green.
#[test]
fn a_rule_is_told_of_no_place_beyond_the_green() {
    let asks = || {
        sound(
            "fn hold(landing, green) { \
         let least = min(min(green.from_back_yd, green.from_front_yd), min(green.from_left_yd, green.from_right_yd)); \
         if least < 0.0 || green.from_edge_yd < 0.0 { throw `told of ${green.from_back_yd}` } \
         usual_run(landing, green) }",
        )
    };
    for depth_yd in 27..34 {
        let hole = format!(
            "name = 'One'\n[[holes]]\npar = 3\nlength_yd = 160\n\
             green = {{ depth_yd = {depth_yd}, width_yd = {} }}\n",
            depth_yd + 3
        );
        let found = by_rules(
            &level("15", Sex::Men),
            &course(&hole),
            &Rulebook::default().with_hold(asks()),
        );
        assert!(found.is_ok(), "{depth_yd}: {found:?}");
    }
}

#[test]
fn a_usual_run_of_the_greens_own_firmness_and_pace_is_the_usual_run() {
    let rule = sound(
        "fn hold(landing, green) { usual_run(landing, green, green.firmness, green.stimp_ft) }",
    );
    let (run, usual) = trial::on_level_green(&rule, &seven_iron(), Firmness::MEDIUM, 10.0)
        .unwrap_or_else(|faults| panic!("{faults}"));
    assert!((run.along.yd() - usual.along.yd()).abs() < 1e-9);
}

/// Strokes and holds that doubling the run takes from a player on open greens: it takes some of both from everybody.
fn taken_by_double_the_run(player: &Golfer) -> (f64, f64) {
    let course = open_greens();
    let double = Rulebook::default().with_hold(sound(
        "fn hold(landing, green) { 2 * usual_run(landing, green) }",
    ));
    let figures = |rules: &Rulebook| {
        let card = by_rules(player, &course, rules).unwrap_or_else(|faults| panic!("{faults}"));
        let held = card.player.greens_held_pct.unwrap_or_default();
        (card.player.expected_strokes, held)
    };
    let ((before, held_before), (after, held_after)) =
        (figures(&Rulebook::default()), figures(&double));
    println!(
        "{}: {before:.3} → {after:.3}, held {held_before:.1} → {held_after:.1}",
        player.name
    );
    assert!(held_after < held_before - 1.0, "{}", player.name);
    assert!(after > before + 0.01, "{}", player.name);
    (after - before, held_before - held_after)
}

#[test]
fn doubling_the_run_raises_scores_and_lowers_holds_of_every_player() {
    for name in ["rowan", "dale", "mika"] {
        taken_by_double_the_run(&demo_player(name));
    }
}

#[test]
#[ignore = "0.19 strokes against 0.22 and 0.29, 13 of 100 holds against 7 and 17: the low flyer lands more of his shots short and runs them on"]
fn doubling_the_run_takes_most_from_the_low_flyer() {
    let [rowan, dale, mika] =
        ["rowan", "dale", "mika"].map(|name| taken_by_double_the_run(&demo_player(name)));
    assert!(
        rowan.0 > dale.0 && rowan.0 > mika.0,
        "{rowan:?} {dale:?} {mika:?}"
    );
    assert!(
        rowan.1 > dale.1 && rowan.1 > mika.1,
        "{rowan:?} {dale:?} {mika:?}"
    );
}

/// Three holes whose greens can be run onto: what a low flyer needs, and loses when the run doubles.
fn open_greens() -> Course {
    course(
        r#"
name = "Open Greens"
[[holes]]
par = 3
length_yd = 165
green = { depth_yd = 28, width_yd = 24, firmness = "firm" }
[[holes]]
par = 4
length_yd = 385
green = { depth_yd = 30, width_yd = 24 }
[[holes]]
par = 5
length_yd = 505
green = { depth_yd = 30, width_yd = 24 }
"#,
    )
}

#[test]
fn a_landing_is_asked_about_once_unless_the_rule_asks_where_it_pitched() {
    let asked = Arc::new(AtomicUsize::new(0));
    let counting = |by: &Arc<AtomicUsize>, place: bool| {
        let by = Arc::clone(by);
        move |_: &LandingFacts, green: &GreenAt| -> Result<Run, Faults> {
            by.fetch_add(1, Ordering::Relaxed);
            if place {
                let _ = green.from_front_yd();
            }
            Ok(green.usual_run())
        }
    };
    let mut course = three_holes();
    course.holes.truncate(1);
    let player = demo_player("rowan");
    let shots = |rounds, place: bool| {
        asked.store(0, Ordering::Relaxed);
        let rules = Rulebook::default().with_hold(counting(&asked, place));
        let goal = level("9", Sex::Men);
        let effort = Effort { rounds, seed: 1 };
        card_by_rules(&player, &goal, (&course, &rules), effort, &|_| {})
            .unwrap_or_else(|faults| panic!("{faults}"));
        asked.load(Ordering::Relaxed)
    };
    let (few, many, placed) = (shots(200, false), shots(20_000, false), shots(200, true));
    // A hundred times the rounds meet a few shots more of the bank, not a hundred times as many.
    assert!(many < few + few / 5, "{few} {many}");
    assert!(placed > 2 * few, "{few} {placed}");
}

#[test]
fn a_rule_that_fails_gives_no_card() {
    let course = three_holes();
    let player = demo_player("rowan");
    let fails = |landing: &LandingFacts, green: &GreenAt| -> Result<Run, Faults> {
        if landing.lie == Lie::Rough {
            return Err(refused("my rule", "rough is not for me".to_owned()));
        }
        Ok(green.usual_run())
    };
    let told = by_rules(&player, &course, &Rulebook::default().with_hold(fails));
    assert_eq!(
        told.map_err(|faults| faults.to_string()).err().as_deref(),
        Some("my rule: rough is not for me")
    );
    let absurd = |_: &LandingFacts, _: &GreenAt| -> Result<Run, Faults> {
        Ok(Run {
            along: Length::from_yd(f64::NAN),
            across: Length::from_yd(0.0),
        })
    };
    let told = by_rules(&player, &course, &Rulebook::default().with_hold(absurd));
    assert!(told.is_err_and(|faults| faults.to_string().contains("NaN")));
    let worth = |_: &PartFacts| -> Result<f64, Faults> { Ok(f64::INFINITY) };
    assert!(by_rules(&player, &course, &Rulebook::default().with_worth(worth)).is_err());
}

#[test]
fn backspin_and_descent_are_those_of_the_travel() {
    let landing = seven_iron();
    assert!(landing.backspin().rpm() > 4000.0 && landing.sidespin().rpm().abs() < 1.0);
    assert!((landing.backspin().rpm() - landing.spin().rpm()).abs() < 1.0);
    assert!((40.0..50.0).contains(&landing.descent().deg()));
    // The same ball on its way to the right: what is seen along its travel is the same.
    let turned = LandingFacts {
        ball: costcard::ball::flight::Landing {
            velocity_mps: turn(landing.ball.velocity_mps),
            spin_rad_s: turn(landing.ball.spin_rad_s),
        },
        ..landing.clone()
    };
    assert!((turned.backspin().rpm() - landing.backspin().rpm()).abs() < 1e-6);
}

/// A vector turned 30° to the right.
fn turn(v: glam::DVec3) -> glam::DVec3 {
    let (sin, cos) = 30.0_f64.to_radians().sin_cos();
    glam::DVec3::new(v.x * cos + v.y * sin, v.y * cos - v.x * sin, v.z)
}

#[test]
fn a_rule_is_a_trait_that_a_struct_fulfils_too() {
    struct Dead;
    impl Hold for Dead {
        fn run(&self, _: &LandingFacts, _: &GreenAt) -> Result<Run, Faults> {
            Ok(Run {
                along: Length::from_yd(0.0),
                across: Length::from_yd(0.0),
            })
        }
    }
    let course = three_holes();
    let player = demo_player("rowan");
    let dead = by_rules(&player, &course, &Rulebook::default().with_hold(Dead))
        .unwrap_or_else(|faults| panic!("{faults}"));
    let usual = by_rules(&player, &course, &Rulebook::default())
        .unwrap_or_else(|faults| panic!("{faults}"));
    assert_eq!(dead.player.greens_held_pct, Some(100.0));
    assert!(dead.player.expected_strokes < usual.player.expected_strokes);
}
