//! What changes are worth: nothing for no change, no strokes for what makes a golfer better, and the whole for the sum.

use costcard::cost::card::{Effort, play};
use costcard::cost::changes::{Accuracy, ClubFigures, Ready, Tried, ready, try_changes};
use costcard::cost::infer::Assume;
use costcard::player::{Golfer, Sex};
use costcard::rules::Rulebook;

use super::{change, changed, three_holes};
use crate::support::{demo_course, demo_player};

/// Strokes that choices made with few draws may move a difference by, on three holes; a change of a ten-thousandth moves
/// it by less.
const NOISE: f64 = 0.01;

fn on_three_holes<R>(golfer: &Golfer, then: impl FnOnce(&Ready<'_>) -> R) -> R {
    let (course, rules) = (three_holes(), Rulebook::default());
    ready(golfer, (&course, &rules), Assume::Level, &|_| (), then)
        .unwrap_or_else(|error| panic!("{error}"))
}

fn saved(ready: &Ready<'_>, text: &str, accuracy: Accuracy) -> f64 {
    ready.saved(&[&changed(ready.golfer(), text)], accuracy)[0]
}

fn tried(golfer: &Golfer, texts: &[&str], seed: u64) -> Tried {
    let (course, rules) = (three_holes(), Rulebook::default());
    let changes: Vec<_> = texts.iter().map(|text| change(text)).collect();
    let effort = Effort { rounds: 200, seed };
    let asked = (effort, Assume::Level);
    try_changes(golfer, (&course, &rules), &changes, &[], asked, &|_| ())
        .unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn a_change_of_zero_is_worth_exactly_zero() {
    on_three_holes(&demo_player("rowan"), |ready| {
        for text in [
            "all clubs ball_speed +0",
            "irons dynamic_loft +0",
            "all clubs spread +0%",
            "putting spread -0%",
            "short game mishits +0",
        ] {
            for accuracy in [Accuracy::Full, Accuracy::Quick] {
                assert_eq!(saved(ready, text, accuracy), 0.0, "{text}");
            }
        }
    });
    let none = tried(&demo_player("rowan"), &["irons launch +0"], 1);
    assert_eq!(none.together.saved, 0.0);
    assert_eq!(none.before, none.after);
    assert!(none.clubs.is_empty());
}

/// Who is made much worse plays from places where he never was: what it costs is what he is expected to take when he
/// comes to the course as he is.
#[test]
fn a_change_for_much_worse_costs_what_such_a_golfer_takes() {
    let effort = Effort {
        rounds: 100,
        seed: 1,
    };
    let expected = |golfer: &Golfer| play(golfer, &three_holes(), effort, &|_| ()).expected_strokes;
    for (level, sex, text) in [
        ("17", Sex::Men, "all clubs level 28"),
        ("17", Sex::Men, "all clubs spread +60%"),
        ("20", Sex::Women, "all clubs spread +60%"),
    ] {
        let golfer = crate::support::level(level, sex);
        let costs = expected(&changed(&golfer, text)) - expected(&golfer);
        assert!(costs > 1.0, "{text}: {costs}");
        let told = on_three_holes(&golfer, |ready| -saved(ready, text, Accuracy::Full));
        assert!(
            (told - costs).abs() < 0.05,
            "{level} {text}: {told} against {costs}"
        );
    }
}

#[test]
fn next_to_no_change_is_worth_next_to_nothing() {
    on_three_holes(&demo_player("rowan"), |ready| {
        for text in ["all clubs ball_speed +0.0001", "irons backspin +0.01"] {
            for accuracy in [Accuracy::Full, Accuracy::Quick] {
                let saved = saved(ready, text, accuracy);
                assert!(saved.abs() < NOISE, "{text}: {saved}");
            }
        }
    });
}

#[test]
fn what_makes_a_golfer_better_never_costs_strokes() {
    for name in ["rowan", "dale", "mika"] {
        on_three_holes(&demo_player(name), |ready| {
            for text in [
                "all clubs ball_speed +3%",
                "driver club_speed +5",
                "irons club_speed +3",
                "driver direction_spread -20%",
                "irons direction_spread -20%",
                "irons backspin +500",
                "irons launch +1",
                "driver launch +1",
                "wedges backspin +500",
                "irons distance_spread -20%",
                "all clubs spread half",
                "all clubs mishits half",
                "wedges mishits half",
                "short game spread -20%",
                "short game mishits half",
                "sand level scratch",
                "putting level scratch",
                "putting distance_spread -20%",
                "putting direction_spread -20%",
            ] {
                let saved = saved(ready, text, Accuracy::Full);
                assert!(saved > -NOISE, "{name}, {text}: {saved}");
            }
        });
    }
}

/// The case in which physics says otherwise: loft is paid for with carry. Whose irons hold greens already loses by more.
#[test]
fn more_loft_costs_strokes_where_greens_are_held_already() {
    let (course, mika, rules) = (
        demo_course("parkland"),
        demo_player("mika"),
        Rulebook::default(),
    );
    let found = ready(&mika, (&course, &rules), Assume::Level, &|_| (), |ready| {
        saved(ready, "mid irons dynamic_loft +8", Accuracy::Full)
    });
    let saved = found.unwrap_or_else(|error| panic!("{error}"));
    assert!(saved < -NOISE, "{saved}");
}

#[test]
fn strokes_saved_are_the_same_whatever_is_played_beside_them() {
    let rowan = demo_player("rowan");
    let texts = ["driver direction_spread -20%", "putting level 5"];
    let both = tried(&rowan, &texts, 1);
    let other_seed = tried(&rowan, &texts, 2);
    let saved = |tried: &Tried| -> Vec<f64> {
        let each = tried.changes.iter().map(|change| change.saved);
        each.chain([tried.together.saved]).collect()
    };
    assert_eq!(saved(&both), saved(&other_seed));
    // How sure they are is told by the shots of the rounds.
    for (one, other) in both.changes.iter().zip(&other_seed.changes) {
        for (one, other) in [(one.low, other.low), (one.high, other.high)] {
            let apart = one.zip(other).map(|(one, other)| (one - other).abs());
            assert!(apart.is_some_and(|apart| apart < 0.01), "{apart:?}");
        }
    }
    let alone = tried(&rowan, &texts[..1], 1);
    assert_eq!(alone.changes[0].saved, both.changes[0].saved);
    assert_eq!(alone.together.saved, alone.changes[0].saved);
    // Two changes that have nothing to do with each other add up but for a little.
    let sum: f64 = both.changes.iter().map(|change| change.saved).sum();
    assert!((both.together.saved - sum).abs() < 0.1 * sum, "{both:?}");
    // What is saved is what the expected strokes say, hole by hole.
    let expected = both.before.figures.expected_strokes - both.after.figures.expected_strokes;
    assert!((expected - both.together.saved).abs() < 1e-9);
    let holes = |tried: &costcard::cost::rated::RatedFigures| -> f64 {
        tried
            .figures
            .holes
            .iter()
            .map(|hole| hole.expected_strokes)
            .sum()
    };
    assert!((holes(&both.before) - holes(&both.after) - both.together.saved).abs() < 1e-9);
}

#[test]
fn clubs_that_are_touched_are_shown_before_and_after() {
    let tried = tried(
        &demo_player("rowan"),
        &["6 iron dynamic_loft +4", "5 wood off"],
        1,
    );
    let names: Vec<String> = tried
        .clubs
        .iter()
        .map(|club| club.club.to_string())
        .collect();
    assert_eq!(names, ["5 wood", "6 iron"]);
    assert!(tried.clubs[0].before.is_some() && tried.clubs[0].after.is_none());
    let (Some(before), Some(after)) = (tried.clubs[1].before, tried.clubs[1].after) else {
        panic!("{tried:?}");
    };
    assert!(after.launch_deg > before.launch_deg && after.descent_deg > before.descent_deg);
    assert!(after.held_pct.medium > before.held_pct.medium && after.apex_yd > before.apex_yd);
}

/// It is meant for a page that shows tenths, and on eighteen holes it comes within a tenth or two.
#[test]
fn a_quick_answer_lies_near_the_whole_one() {
    on_three_holes(&demo_player("rowan"), |ready| {
        for text in [
            "6 iron ball_speed +6",
            "mid irons dynamic_loft +4",
            "5 wood off",
            "wedges mishits half",
        ] {
            let (whole, quick) = (
                saved(ready, text, Accuracy::Full),
                saved(ready, text, Accuracy::Quick),
            );
            assert!((whole - quick).abs() < 0.05, "{text}: {whole} and {quick}");
        }
    });
}

/// However many changes are weighed at once, each is worth what it is worth alone.
#[test]
fn the_three_hundredth_change_is_worth_what_it_is_alone() {
    let rowan = demo_player("rowan");
    let (mut course, rules) = (three_holes(), Rulebook::default());
    course.holes.truncate(1);
    let golfers: Vec<Golfer> = (1..=300)
        .map(|number| {
            let amount = f64::from(number) / 100.0;
            changed(&rowan, &format!("all clubs ball_speed +{amount:.2}"))
        })
        .collect();
    let all: Vec<&Golfer> = golfers.iter().collect();
    let (together, alone) = ready(&rowan, (&course, &rules), Assume::Level, &|_| (), |ready| {
        let alone = |place: usize| ready.saved(&[all[place]], Accuracy::Quick)[0];
        (
            ready.saved(&all, Accuracy::Quick),
            [255, 256, 257, 299].map(|place| (place, alone(place))),
        )
    })
    .unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(together.len(), 300);
    for (place, alone) in alone {
        assert_eq!(together[place], alone, "{place}");
    }
    assert_ne!(together[256], together[0]);
}

/// The greatest amount by which a figure can be raised, to a thousandth.
fn most(golfer: &Golfer, figure: &str) -> f64 {
    let can = |amount: f64| {
        let change = format!("{figure} +{amount:.3}").parse::<costcard::player::change::Change>();
        change.is_ok_and(|change| change.apply(golfer).is_ok())
    };
    let (mut low, mut high) = (0.0, 300.0);
    while high - low > 0.001 {
        let middle = f64::midpoint(low, high);
        *(if can(middle) { &mut low } else { &mut high }) = middle;
    }
    low - 0.001
}

/// He need not play it.
#[test]
fn a_club_more_never_costs_strokes() {
    for player in ["rowan", "mika"] {
        on_three_holes(&demo_player(player), |ready| {
            for text in [
                "add club 2 iron ball_speed 60",
                "add club 3 iron ball_speed 100",
                "add club 2 hybrid",
                "add club 9 wood",
            ] {
                let saved = saved(ready, text, Accuracy::Full);
                assert!(saved >= 0.0, "{player}, {text}: {saved}");
            }
        });
    }
}

/// Nor could it, however he would hit it.
#[test]
fn no_interval_of_a_club_more_begins_below_zero() {
    let tried = tried(
        &demo_player("rowan"),
        &["add club 2 iron", "putting level 5"],
        1,
    );
    assert!(
        tried.changes[0].low.is_some_and(|low| low >= 0.0),
        "{tried:?}"
    );
    assert!(tried.changes[0].high > tried.changes[0].low);
}

/// Nobody wins by having a club less, and nobody loses by mishitting less or spreading less: golfers who could be the player
/// were once held to his choice of clubs, and lost two strokes by halving their mishits.
#[test]
fn intervals_of_what_can_only_help_or_only_harm_stay_on_their_side() {
    let texts = [
        "driver mishits half",
        "6 iron mishits half",
        "driver direction_spread half",
        "5 wood off",
        "7 iron off",
    ];
    let tried = tried(&demo_player("rowan"), &texts, 1);
    for change in &tried.changes {
        let [low, high] = [change.low, change.high].map(|end| end.unwrap_or(f64::NAN));
        println!(
            "{}: {:.2}, {low:.2} to {high:.2}",
            change.change, change.saved
        );
        match change.change.to_string().ends_with("off") {
            true => assert!(high <= 0.0, "{change:?}"),
            false => assert!(low >= -0.02, "{change:?}"),
        }
    }
}

/// What a club is worth that is hardly played today hangs on the clubs it would be played for, and how they are struck is
/// known from a few shots: the interval was once a point.
#[test]
fn a_club_that_is_hardly_played_today_is_not_worth_its_figure_for_sure() {
    let tried = tried(&demo_player("rowan"), &["6 iron level 0"], 1);
    let club = &tried.clubs[0];
    let shots = |figures: &Option<ClubFigures>| figures.map_or(0.0, |club| club.shots_per_round);
    let (now, then) = (shots(&club.before), shots(&club.after));
    assert!(now < 0.2 && then > 1.0, "{now} today, {then} then");
    let change = &tried.changes[0];
    let wide = change
        .low
        .zip(change.high)
        .map_or(0.0, |(low, high)| high - low);
    assert!(wide > 0.2 * change.saved, "{change:?}");
}

/// A change that takes the player's own figure to the end of what it can be cannot be made of every golfer who could be
/// the player as well: it is told of how many it can, and with too few of them nothing is said of how sure it is.
#[test]
fn how_many_could_make_a_change_is_told() {
    let rowan = demo_player("rowan");
    let clubs = ["driver", "5 wood", "6 iron", "7 iron"];
    let raised = |club: &str, less: f64| {
        let figure = format!("{club} ball_speed");
        format!("{figure} +{:.3}", most(&rowan, &figure) - less)
    };
    let usual = tried(&rowan, &["driver ball_speed +1"], 1);
    assert_eq!((usual.golfers_drawn, usual.golfers_counted), (24, 24));
    let some = tried(&rowan, &[&raised("driver", 1.0)], 1);
    assert!(
        (12..24).contains(&some.golfers_counted),
        "{}",
        some.golfers_counted
    );
    assert!(some.together.low < some.together.high && some.together.low.is_some());
    let few = clubs.map(|club| raised(club, 0.0));
    let few = tried(&rowan, &few.each_ref().map(String::as_str), 1);
    assert!(few.golfers_counted < 12, "{}", few.golfers_counted);
    assert_eq!((few.together.low, few.together.high), (None, None));
    for change in few.changes {
        assert_eq!((change.low, change.high), (None, None));
    }
}
