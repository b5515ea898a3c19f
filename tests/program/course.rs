//! Courses from outside: templates and schemas, tees and pins, and the card of `check`.

use std::fs;

use serde_json::Value;

use super::{costcard_in, stdout, text};

fn json(words: &[&str]) -> Value {
    serde_json::from_str(&stdout(words)).expect("one JSON document")
}

/// What a command prints in a folder with these files; it must succeed.
fn done(files: &[(&str, &str)], words: &[&str]) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, content) in files {
        fs::write(folder.path().join(name), content).expect("written");
    }
    let output = costcard_in(folder.path(), words);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    text(&output.stdout)
}

/// What a command tells when the input is at fault.
fn refused(files: &[(&str, &str)], words: &[&str]) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, content) in files {
        fs::write(folder.path().join(name), content).expect("written");
    }
    let output = costcard_in(folder.path(), words);
    assert_eq!(output.status.code(), Some(2), "{}", text(&output.stdout));
    text(&output.stderr)
}

/// A driver from the tee runs into a creek of two yards as it runs into one of six, wherever its banks lie in the grid.
#[test]
fn no_creek_is_stepped_over() {
    let driver = "name = 'Ann'\nhandicap_index = 15\nsex = 'men'\nnot_carried = ['3 wood', '5 wood', '4 hybrid', '5 hybrid', \
                  '5 iron', '6 iron', '7 iron', '8 iron', '9 iron', 'gap wedge', 'sand wedge']\n\
                  [[clubs]]\nclub = 'driver'\nball_speed_mph = 135\nlaunch_deg = 12\nbackspin_rpm = 2900\n";
    let played = |area: &str| {
        let course = format!(
            "name = 'Creek'\n[defaults]\nfairway_width_yd = 80\nrough_width_yd = 20\n[[holes]]\npar = 5\n\
             length_yd = 560\ngreen = {{ depth_yd = 28, width_yd = 24 }}\nareas = [{{ lie = 'water', {area} }}]\n"
        );
        let files = [("ann.toml", driver), ("creek.toml", &course)];
        let words = "play ann.toml creek.toml --assume level --rounds 8000 --json";
        let played = done(&files, &words.split(' ').collect::<Vec<&str>>());
        let played: Value = serde_json::from_str(&played).expect("one JSON document");
        let figure = |name: &str| played[name].as_f64().expect("a number");
        [figure("penalties_mean"), figure("expected_strokes")]
    };
    let [broad, _] = played("from_yd = 209, to_yd = 215");
    assert!((0.35..0.5).contains(&broad), "{broad}");
    for area in [
        "from_yd = 210.9, to_yd = 213.1",
        "from_yd = 211.4, to_yd = 213.6",
    ] {
        let [narrow, _] = played(area);
        assert!(narrow > 0.85 * broad, "{area}: {narrow} of {broad}");
    }
    // Across at an angle there is a better side to aim at; but what is broader costs no less.
    let mut before = 0.0;
    for half_yd in [1.25, 2.0, 3.5] {
        let [from, to] = [164.75 - half_yd, 164.75 + half_yd];
        let [_, now] = played(&format!(
            "outline_yd = [[-95, {from}], [95, {}], [95, {}], [-95, {to}]]",
            from + 92.0,
            to + 92.0
        ));
        assert!(now > before, "{half_yd}: {now} after {before}");
        before = now;
    }
    assert!(before - played("from_yd = 1, to_yd = 2")[1] > 0.3);
}

const TWO_TEES: &str = r#"
name = "Two Tees"
[[tees]]
name = "white"
[[tees]]
name = "red"
rating = { course_rating = 34.0, slope_rating = 110 }
[[holes]]
par = 4
length_yd = 400
tees = { red = 330 }
green = { depth_yd = 30, width_yd = 24 }
areas = [
  { lie = "sand", at_yd = 236, side_yd = 22, length_yd = 14, width_yd = 9 },
  { lie = "sand", at_yd = 60, side_yd = -40, length_yd = 10, width_yd = 8 },
]
[[holes]]
par = 3
length_yd = 265
tees = { red = 150 }
green = { depth_yd = 30, width_yd = 24 }
areas = [{ lie = "water", from_yd = 20, to_yd = 100 }]
[[holes]]
par = 4
length_yd = 410
tees = { red = { length_yd = 390, par = 5 } }
green = { depth_yd = 30, width_yd = 24 }
areas = [{ lie = "water", from_yd = 30, to_yd = 245 }]
"#;

#[test]
fn every_template_passes_its_check() {
    for (kind, says) in [
        ("course", "my.toml: course My Course, 3 holes, par 12"),
        ("player", "my.toml: player My Player, off 14.2"),
        ("level", "my.toml: level my level, 3 clubs"),
    ] {
        let template = stdout(&["check", "--template", kind]);
        assert!(template.lines().filter(|line| line.contains('#')).count() > 5);
        let told = done(
            &[("my.toml", &template)],
            &["check", "my.toml", "--no-rating"],
        );
        assert!(told.starts_with(says), "{told}");
        assert_eq!(
            json(&["check", "--template", kind, "--json"])["template"],
            template.as_str()
        );
        let schema = json(&["check", "--schema", kind]);
        assert_eq!(
            schema["$schema"],
            "https://json-schema.org/draft/2020-12/schema"
        );
    }
}

#[test]
fn a_hole_is_played_from_the_tees_that_are_named() {
    let play = |tees: &[&str]| {
        let words = ["play", "level:10", "two.toml", "--rounds", "200", "--json"];
        let told = done(&[("two.toml", TWO_TEES)], &[&words[..], tees].concat());
        serde_json::from_str::<Value>(&told).expect("JSON")
    };
    let (white, red) = (play(&[]), play(&["--tees", "Red"]));
    assert_eq!(white["holes"][0]["length_yd"], 400.0);
    assert_eq!(red["holes"][0]["length_yd"], 330.0);
    assert_eq!(
        (&red["holes"][2]["par"], &red["course_rating"]),
        (&5.into(), &34.0.into())
    );
    assert_eq!(white["course_rating"], Value::Null);
    let first = |play: &Value| play["holes"][0]["expected_strokes"].as_f64();
    assert!(first(&white) > first(&red));
    let told = refused(
        &[("two.toml", TWO_TEES)],
        &["play", "level:10", "two.toml", "--tees", "rde"],
    );
    assert!(
        told.contains("there are no `rde` tees on this course"),
        "{told}"
    );
    assert!(told.contains("hint: did you mean `red`?"), "{told}");
}

#[test]
fn pins_of_the_day_are_a_word_or_a_sheet() {
    let play = |pins: &str, sheet: &str| {
        let files = [("two.toml", TWO_TEES), ("pins.csv", sheet)];
        let words = [
            "play", "level:10", "two.toml", "--rounds", "50", "--json", "--pins", pins,
        ];
        let told = done(&files, &words);
        let played: Value = serde_json::from_str(&told).expect("JSON");
        played["holes"][0]["expected_strokes"]
            .as_f64()
            .expect("a number")
    };
    let (front, back) = (play("front", ""), play("back", ""));
    assert_ne!(front, back);
    // Six tenths of the way to the back of a green 30 yd deep are 24 yd on.
    let sheet = play("pins.csv", "hole,on_paces\n1,24\n");
    assert!((sheet - back).abs() < 0.01, "{sheet} {back}");
    let told = refused(
        &[("two.toml", TWO_TEES)],
        &["play", "level:10", "two.toml", "--pins", "bakc"],
    );
    assert!(told.contains("did you mean `back`?"), "{told}");
    let off = [
        ("two.toml", TWO_TEES),
        ("pins.csv", "hole,on_paces\n2,44\n"),
    ];
    let told = refused(
        &off,
        &["play", "level:10", "two.toml", "--pins", "pins.csv"],
    );
    assert!(
        told.contains("pins.csv:2:1") && told.contains("is not on the green"),
        "{told}"
    );
}

/// Each of the things a designer would raise is raised where it is, and nowhere else.
#[test]
fn the_card_warns_of_what_is_odd() {
    let told = done(&[("two.toml", TWO_TEES)], &["check", "two.toml", "--json"]);
    let card: Value = serde_json::from_str(&told).expect("JSON");
    assert_eq!(
        (&card["par"], &card["length_yd"], &card["tees"]),
        (&11.into(), &1075.0.into(), &"white".into())
    );
    for key in ["course_rating", "bogey_rating", "slope_rating"] {
        assert_eq!(card[key], Value::Null);
    }
    assert_eq!(card["files"][0]["holes"], card["holes"]);
    let warnings = |hole: usize| -> Vec<String> {
        let list = card["holes"][hole]["warnings"].as_array().expect("a list");
        list.iter()
            .map(|one| one.as_str().expect("text").to_owned())
            .collect()
    };
    let is_told = |hole: usize, what: &str| warnings(hole).iter().any(|one| one.contains(what));
    assert!(
        is_told(
            0,
            "the bunker 60 yd from the tee, 40 yd left, is not in play"
        ),
        "{:?}",
        warnings(0)
    );
    assert!(!is_told(0, "236 yd"), "{:?}", warnings(0));
    assert!(
        is_told(1, "265 yd is long for a par 3"),
        "{:?}",
        warnings(1)
    );
    assert!(!is_told(1, "a carry of"), "{:?}", warnings(1));
    assert!(
        is_told(2, "a carry of 215 yd, with no way round"),
        "{:?}",
        warnings(2)
    );
    let hole = &card["holes"][2];
    assert_eq!(
        (&hole["number"], &hole["par"], &hole["length_yd"]),
        (&3.into(), &4.into(), &410.0.into())
    );
    assert_eq!(
        hole["tees"][1],
        serde_json::json!({ "name": "red", "length_yd": 390.0, "par": 5 })
    );
    // Neither carries the water: the hole is given up after 40 strokes, and no more are expected.
    for golfer in ["scratch_over_par", "bogey_over_par"] {
        assert_eq!(hole[golfer].as_f64(), Some(36.0));
    }
    let first = &card["holes"][0];
    assert!(first["bogey_over_par"].as_f64() > first["scratch_over_par"].as_f64());
    assert_eq!(hole["hard"][0]["what"], "water", "{hole}");
}

#[test]
fn the_card_reads_as_a_card() {
    let told = done(&[("two.toml", TWO_TEES)], &["check", "two.toml"]);
    for said in [
        "Two Tees, from the white tees.",
        "Rating from the red tees: men 34.0, bogey",
        "- Hole 2: 265 yd is long for a par 3",
        "all    11",
    ] {
        let plain = told.split_whitespace().collect::<Vec<_>>().join(" ");
        let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(plain.contains(&said), "{said}: {told}");
    }
    for line in told.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    let metres = done(
        &[("two.toml", TWO_TEES)],
        &["check", "two.toml", "--units", "metres"],
    );
    assert!(
        metres.contains("242 m is long for a par 3") && !metres.contains(" yd"),
        "{metres}"
    );
}

/// At a glance nothing is played: what lengths and carries tell is there, the rest is null.
#[test]
fn without_play_the_card_has_what_the_ground_tells() {
    let told = done(
        &[("two.toml", TWO_TEES)],
        &["check", "two.toml", "--no-rating", "--json"],
    );
    let card: Value = serde_json::from_str(&told).expect("JSON");
    let hole = &card["holes"][2];
    assert_eq!(hole["scratch_over_par"], Value::Null);
    assert_eq!(hole["warnings"].as_array().map(Vec::len), Some(1), "{hole}");
}

/// Chips stay where they are played to: they do not make up for full shots that a green throws off.
#[test]
fn a_slick_green_is_told_of_however_many_chips_stay_on_it() {
    let slick = r#"
name = "Slick"
conditions = { firmness = "firm" }
[[holes]]
par = 3
length_yd = 190
green = { depth_yd = 28, width_yd = 24, stimp_ft = 11 }
"#;
    let files = [("slick.toml", slick)];
    let words = ["play", "level:scratch", "slick.toml", "--json"];
    let played: Value = serde_json::from_str(&done(&files, &words)).expect("JSON");
    let held = played["greens_held_pct"].as_f64().expect("a number");
    assert!(held < 20.0, "{held}");
    let card: Value =
        serde_json::from_str(&done(&files, &["check", "slick.toml", "--json"])).expect("JSON");
    let warnings = card["holes"][0]["warnings"].to_string();
    assert!(warnings.contains("scratch golfers"), "{warnings}");
}
