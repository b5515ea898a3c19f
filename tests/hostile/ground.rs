//! Holes of no length and of two thousand yards, greens of no width, water everywhere, and a player who cannot reach.

use std::fs;

use costcard::cost::card::{Effort, play};
use costcard::course::Course;
use costcard::player::Sex;
use serde_json::Value;

use super::told;
use crate::program::{costcard_in, text};

/// A course of one hole.
fn hole(keys: &str) -> String {
    let green = match keys.contains("green") {
        true => "",
        false => "green = { depth_yd = 30, width_yd = 24 }\n",
    };
    format!("name = 'One'\n[[holes]]\npar = 4\n{green}{keys}\n")
}

fn told_of(keys: &str) -> String {
    told("one.toml", &hole(keys), Course::read)
}

#[test]
fn holes_of_no_length_and_of_two_thousand_yards_are_refused() {
    for length in ["0", "1", "39", "2000"] {
        let told = told_of(&format!("length_yd = {length}"));
        let said = format!("`length_yd` must be a number from 40 to 800 yards, not {length}");
        assert!(told.contains(&said), "{told}");
    }
    let straight = |end: u32| told_of(&format!("line_yd = [[0, 0], [0, {end}]]"));
    for end in [1, 1400] {
        let told = straight(end);
        assert!(told.contains(&format!("is {end} yards long")), "{told}");
    }
    assert_eq!(straight(300), "no fault");
}

#[test]
fn greens_of_no_width_are_refused() {
    let none = told_of("length_yd = 300\ngreen = { depth_yd = 30, width_yd = 0 }");
    assert!(
        none.contains("`width_yd` must be a number from 5 to 80 yards, not 0"),
        "{none}"
    );
    let line = told_of("length_yd = 300\ngreen = { outline_yd = [[0, 290], [0, 300], [0, 310]] }");
    assert!(line.contains("the outline crosses itself"), "{line}");
    let thin = told_of(
        "length_yd = 300\ngreen = { outline_yd = [[-0.1, 290], [0.1, 290], [0.1, 310], [-0.1, 310]] }",
    );
    assert!(
        thin.contains(
            "the pin of hole 1 is too near the edge of its green, or the green is too narrow there"
        ),
        "{thin}"
    );
}

#[test]
fn water_over_tee_or_green_is_refused() {
    let all = told_of("length_yd = 300\nareas = [{ lie = 'water', from_yd = -50, to_yd = 900 }]");
    assert!(
        all.contains("the tee of hole 1 is covered by this water"),
        "{all}"
    );
    let green = told_of("length_yd = 300\nareas = [{ lie = 'water', from_yd = 250, to_yd = 900 }]");
    assert!(
        green.contains("the green of hole 1 is covered by this water"),
        "{green}"
    );
}

/// A carry of 275 yards, and a bag that cannot make it.
const OVER_WATER: &str = "length_yd = 300\nareas = [{ lie = 'water', from_yd = 8, to_yd = 283 }]";
const WEAK: &str = "name = 'Ann'\nhandicap_index = 36\nsex = 'women'\nassumed_clubs = []\n\
                    [[clubs]]\nclub = 'sand wedge'\nball_speed_mph = 22\nlaunch_deg = 40\n";

/// Forty strokes stand on the card, which is no score: it is said.
#[test]
fn a_hole_out_of_reach_is_said_to_be() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("ann.toml"), WEAK).expect("written");
    fs::write(folder.path().join("one.toml"), hole(OVER_WATER)).expect("written");
    let words = ["play", "ann.toml", "one.toml", "--rounds", "200"];
    let said = "note: Ann gave up hole 1 in 100 % of the rounds after 40 strokes";
    let shown = costcard_in(folder.path(), &words);
    assert_eq!(shown.status.code(), Some(0));
    assert!(
        text(&shown.stderr).contains(said),
        "{}",
        text(&shown.stderr)
    );
    let shown = costcard_in(folder.path(), &[&words[..], &["--json"]].concat());
    assert!(
        text(&shown.stderr).contains(said),
        "{}",
        text(&shown.stderr)
    );
    let document: Value = serde_json::from_slice(&shown.stdout).expect("JSON");
    assert_eq!(document["holes"][0]["given_up_pct"], 100.0);
    assert!(
        document["score_mean"].as_f64().is_some_and(f64::is_finite),
        "{document}"
    );
    assert!(
        document["expected_strokes"]
            .as_f64()
            .is_some_and(f64::is_finite),
        "{document}"
    );
}

/// A pitch-and-putt course: from the shortest hole there is on, everybody plays a pitch, and nobody gives up.
#[test]
fn short_holes_are_pitched() {
    for length_yd in [40, 45, 58, 62, 70, 85, 99] {
        let keys = format!("length_yd = {length_yd}");
        let course = crate::support::course(&hole(&keys).replace("par = 4", "par = 3"));
        for golfer in ["tour", "10", "20", "36"] {
            let golfer = crate::support::level(golfer, Sex::Men);
            let effort = Effort {
                rounds: 400,
                seed: 1,
            };
            let score = play(&golfer, &course, effort, &|_| ()).score_mean;
            assert!(
                (2.3..5.5).contains(&score),
                "{length_yd} yd, {}: {score}",
                golfer.name
            );
        }
    }
}

/// Every command that plays rounds says it, of each golfer and on each course.
#[test]
fn every_command_that_plays_rounds_tells_of_a_hole_out_of_reach() {
    let folder = tempfile::tempdir().expect("a folder");
    let write =
        |name: &str, text: &str| fs::write(folder.path().join(name), text).expect("written");
    write("ann.toml", WEAK);
    write("one.toml", &hole(OVER_WATER));
    let dry = "[[holes]]\npar = 3\nlength_yd = 60\ngreen = { depth_yd = 30, width_yd = 24 }\n";
    let rating = "[rating.women]\ncourse_rating = 30\nslope_rating = 113\n";
    let nine = hole(OVER_WATER) + dry.repeat(8).as_str();
    write("nine.toml", &(nine + rating));
    let study = "players = ['ann.toml']\ncourses = ['one.toml']\nrounds = 50\nseed = 1\n";
    write("study.toml", study);
    let said = |words: &[&str]| {
        let shown = costcard_in(folder.path(), words);
        let told = text(&shown.stderr);
        assert_eq!(shown.status.code(), Some(0), "{told}");
        told
    };
    let rounds = ["--rounds", "100"];
    let words = ["try", "ann.toml", "one.toml", "--change", "putting level 5"];
    let told = said(&[&words[..], &rounds].concat());
    assert!(told.contains("note: Ann gave up hole 1 in 100 %"), "{told}");
    let changed = "note: Ann with the changes gave up hole 1 in 100 %";
    assert!(told.contains(changed), "{told}");

    let words = ["goal", "ann.toml", "nine.toml", "--to", "30"];
    let told = said(&[&words[..], &rounds].concat());
    assert!(
        told.contains("note: Ann at One gave up hole 1 in 100 %"),
        "{told}"
    );

    let words = [
        "report", "ann.toml", "one.toml", "--goal", "30", "--out", "ann.html",
    ];
    said(&[&words[..], &rounds].concat());
    let page = fs::read_to_string(folder.path().join("ann.html")).expect("written");
    assert!(
        page.contains("<li>Ann gave up hole 1 in 100 % of the rounds"),
        "{page}"
    );

    said(&["study", "study.toml", "--out", "told"]);
    let mut cells = csv::Reader::from_path(folder.path().join("told/cells.csv")).expect("a table");
    let heads = cells.headers().expect("heads").clone();
    let place = heads.iter().position(|head| head == "holes_given_up_mean");
    let row = cells.records().next().expect("a cell").expect("a row");
    assert_eq!(row.get(place.expect("a column")), Some("1"));
}

/// Who can be round in fewer strokes hears nothing of it.
#[test]
fn a_hole_within_reach_is_said_nothing_of() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("one.toml"), hole("length_yd = 300")).expect("written");
    let words = ["play", "level:20", "one.toml", "--rounds", "200", "--json"];
    let shown = costcard_in(folder.path(), &words);
    assert!(
        !text(&shown.stderr).contains("gave up"),
        "{}",
        text(&shown.stderr)
    );
    let document: Value = serde_json::from_slice(&shown.stdout).expect("JSON");
    assert!(
        document["holes"][0].get("given_up_pct").is_none(),
        "{document}"
    );
}

/// Goals, too, are said to be no surer than the hole whose rounds come to something else than is expected.
#[test]
fn goals_tell_of_a_hole_whose_rounds_are_apart_from_what_is_expected() {
    let folder = tempfile::tempdir().expect("a folder");
    let moat = "par = 3\nlength_yd = 130\ngreen = { depth_yd = 26, width_yd = 26 }\n[[holes.areas]]\nlie = 'water'\n\
                outline_yd = [[-60, 30], [60, 30], [60, 200], [-60, 200]]\n\
                islands_yd = [[[-15, 115], [15, 115], [15, 145], [-15, 145]]]\n";
    let dry = "[[holes]]\npar = 3\nlength_yd = 60\ngreen = { depth_yd = 30, width_yd = 24 }\n";
    let rating = "[rating.women]\ncourse_rating = 30\nslope_rating = 113\n";
    let nine = format!("name = 'Moat'\n{rating}[[holes]]\n{moat}{}", dry.repeat(8));
    fs::write(folder.path().join("nine.toml"), nine).expect("written");
    let words = [
        "goal",
        "level:36:women",
        "nine.toml",
        "--to",
        "30",
        "--rounds",
        "2000",
    ];
    let shown = costcard_in(folder.path(), &words);
    let told = text(&shown.stderr);
    let told: Vec<&str> = told.split_whitespace().collect();
    let told = told.join(" ");
    assert!(
        told.contains(" at Moat and what the rounds come to are"),
        "{told}"
    );
}
