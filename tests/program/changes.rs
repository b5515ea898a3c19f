//! `try` from outside.

use serde_json::Value;

use super::{costcard, stdout, text, told};

const TRY: [&str; 7] = [
    "try",
    "demo:rowan",
    "short.toml",
    "--rounds",
    "300",
    "--assume",
    "level",
];

fn words<'a>(more: &[&'a str]) -> Vec<&'a str> {
    [&TRY[..], more].concat()
}

fn json(more: &[&str]) -> Value {
    let text = stdout(&[&words(more)[..], &["--json"]].concat());
    serde_json::from_str(&text).expect("one document")
}

#[test]
fn the_document_has_changes_together_before_and_after() {
    let changes = [
        "--change",
        "mid irons mishits half",
        "--change",
        "putting level 5",
    ];
    let document = json(&changes);
    let listed = document["changes"].as_array().expect("a list");
    assert_eq!(listed[0]["change"], "mid irons mishits half");
    assert_eq!(listed[1]["change"], "putting level 5");
    assert!(listed.iter().all(|change| change["saved"].is_f64()));
    assert!(document["together"]["saved"].as_f64() > listed[1]["saved"].as_f64());
    let play = stdout(&[
        "play",
        "demo:rowan",
        "short.toml",
        "--rounds",
        "300",
        "--assume",
        "level",
        "--json",
    ]);
    let mut play: Value = serde_json::from_str(&play).expect("one document");
    // What two saved documents are told apart by.
    let inputs = play["inputs"].take();
    for (key, wanted) in [
        ("player", Value::from("demo:rowan")),
        ("course", "short.toml".into()),
        ("rounds", 300.into()),
        ("seed", 1.into()),
        ("version", env!("CARGO_PKG_VERSION").into()),
    ] {
        assert_eq!(inputs[key], wanted, "{key}");
        assert_eq!(document["inputs"][key], wanted, "{key}");
    }
    play.as_object_mut().expect("an object").remove("inputs");
    assert_eq!(document["before"], play);
    let keys = |value: &Value| -> Vec<String> {
        let object = value.as_object().expect("an object");
        object.keys().cloned().collect()
    };
    assert_eq!(keys(&document["after"]), keys(&play));
    assert_eq!(document["clubs"].as_array().map(Vec::len), Some(3));
    let club = &document["clubs"][0];
    assert_eq!(club["club"], "5 iron");
    assert!(club["after"]["carry_yd"].is_f64() && club["before"]["held_pct"]["firm"].is_f64());
    // Units change what people read, never the document.
    assert_eq!(
        json(&[&changes[..], &["--units", "metres"]].concat()),
        document
    );
}

#[test]
fn holes_are_answered_with_changes_and_without() {
    let alone = json(&["--hole", "3"]);
    assert_eq!(alone["holes"][0]["number"], 3);
    assert_eq!(alone["inputs"]["player"], "demo:rowan");
    assert!(alone["holes"][0]["drive"]["usual_yd"].is_f64());
    let with = json(&["--hole", "3", "--change", "driver ball_speed +8"]);
    let usual = |value: &Value| value["holes"][0]["drive"]["usual_yd"].as_f64();
    assert!(usual(&with) > usual(&alone));
}

#[test]
fn people_read_what_changes_and_what_it_saves() {
    let page = stdout(&words(&[
        "--change",
        "6 iron dynamic_loft +4",
        "--change",
        "5 wood off",
        "--hole",
        "2",
    ]));
    for part in [
        "would",
        "nine times",
        "all together",
        "today  changed",
        "  left out",
        "Hole 2, par 4",
    ] {
        assert!(page.contains(part), "{part}: {page}");
    }
    assert!(
        page.lines().all(|line| line.chars().count() <= 80),
        "{page}"
    );
}

#[test]
fn faults_of_changes_are_told_all_at_once_and_pointed_at() {
    let told = told(&words(&[
        "--change",
        "drivr launch +1",
        "--change",
        "6 iron launch 4",
    ]));
    assert!(
        told.contains("`drivr` names no clubs") && told.contains("did you mean `driver`?"),
        "{told}"
    );
    assert!(told.contains("`4` may be a step or a new value"), "{told}");
    assert!(told.contains("--change:1:15"), "{told}");
}

#[test]
fn a_change_that_cannot_be_made_is_the_users_to_mend() {
    let missing = told(&words(&["--change", "2 iron launch +1"]));
    assert!(
        missing.contains("the bag of Rowan Pike holds no 2 iron"),
        "{missing}"
    );
    let speed = told(&words(&["--change", "driver ball_speed = 20"]));
    assert!(
        speed.contains("no golfer's ball leaves the driver at 20 mph"),
        "{speed}"
    );
    let hole = told(&words(&["--hole", "7"]));
    assert!(
        hole.contains("hole 7, which Three Holes does not have"),
        "{hole}"
    );
    let nothing = costcard(&TRY);
    assert_eq!(nothing.status.code(), Some(2));
    assert!(
        text(&nothing.stderr).contains("--change"),
        "{}",
        text(&nothing.stderr)
    );
}

/// A club that is hit better is hit in place of others, which is where most of its worth may come from.
#[test]
fn how_often_a_changed_club_is_played_is_told() {
    let words = [
        "try",
        "level:20",
        "short.toml",
        "--rounds",
        "100",
        "--change",
        "7i level 5",
    ];
    let page = stdout(&words);
    assert!(page.contains("shots a round with"), "{page}");
    assert!(page.contains("`7i level 5` would save"), "{page}");
    let document = stdout(&[&words[..], &["--json"]].concat());
    let document: Value = serde_json::from_str(&document).expect("one document");
    let shots = |when: &str| document["clubs"][0][when]["shots_per_round"].as_f64();
    let (before, after) = (shots("before"), shots("after"));
    assert!(
        after > before && before >= Some(0.0),
        "{before:?} {after:?}"
    );
    // Three holes of par 12 are no twenty shots of one club.
    assert!(after < Some(20.0), "{after:?}");
}

#[test]
fn carry_is_answered_with_the_speed_that_gives_it() {
    let told = told(&words(&["--change", "driver carry +10"]));
    assert!(
        told.contains("`carry` comes of the strike") && told.contains("`driver speed +5`"),
        "{told}"
    );
}

/// A change of a club that is never hit is worth nothing, and it is said why.
#[test]
fn a_club_that_is_not_hit_is_said_not_to_be() {
    let folder = tempfile::tempdir().expect("a folder");
    let hole = "par = 3\nlength_yd = 150\ngreen = { depth_yd = 28, width_yd = 26 }\n";
    let course = format!("name = \"One\"\n[[holes]]\n{hole}");
    std::fs::write(folder.path().join("one.toml"), course).expect("written");
    let said = |change: &str| {
        let words = [
            "try", "level:5", "one.toml", "--rounds", "40", "--change", change,
        ];
        let output = super::costcard_in(folder.path(), &words);
        assert!(output.status.success(), "{}", text(&output.stderr));
        text(&output.stdout).replace(['\n', '\u{a0}'], " ")
    };
    let driver = said("driver spread half");
    assert!(
        driver.contains("No shot a round is hit with the driver, today or changed"),
        "{driver}"
    );
    let irons = said("irons spread half");
    assert!(!irons.contains("No shot a round"), "{irons}");
}

/// A slip of the pen in a speed is told where it makes a club faster than a longer one, and not otherwise.
#[test]
fn a_club_that_would_be_faster_than_a_longer_one_is_told() {
    let faster = |change: &str| {
        let document = json(&["--change", change]);
        let pairs = document["faster_than_longer"].as_array().expect("a list");
        let clubs = pairs.iter().map(|pair| format!("{pair}"));
        clubs.collect::<Vec<_>>().join(" ")
    };
    assert_eq!(faster("7 iron speed = 150"), r#"["7 iron","6 iron"]"#);
    assert_eq!(faster("7 iron speed +5"), "");
    let page = stdout(&words(&["--change", "7 iron speed = 150"]));
    let page = page.replace(['\n', '\u{a0}'], " ");
    assert!(
        page.contains("With it the 7 iron starts faster than the longer 6 iron, as no bag is hit"),
        "{page}"
    );
}

/// Fifteen drives drawn of an invented golfer that came out wild: as fitted he leaves the driver in the bag, and what he
/// would do with a straighter one is worth hardly anything to him. To golfers who hit such drives by bad luck it is worth
/// more, and the interval says so.
#[test]
fn what_a_club_left_in_the_bag_could_be_worth_is_in_its_interval() {
    let folder = tempfile::tempdir().expect("a folder");
    let course = "name = \"One\"\n[[holes]]\npar = 4\nlength_yd = 400\nfairway_width_yd = 32\n\
                  rough_width_yd = 14\nbeyond = \"trees\"\ngreen = { depth_yd = 28, width_yd = 26 }\n";
    std::fs::write(folder.path().join("one.toml"), course).expect("written");
    let sheet = include_str!("../data/wild-driver.csv");
    std::fs::write(folder.path().join("bay.csv"), sheet).expect("written");
    let words = [
        "try",
        "bay.csv",
        "one.toml",
        "--handicap",
        "16",
        "--assume",
        "level",
        "--rounds",
        "300",
        "--change",
        "driver direction_spread -30%",
        "--json",
    ];
    let output = super::costcard_in(folder.path(), &words);
    assert!(output.status.success(), "{}", text(&output.stderr));
    let document: Value = serde_json::from_slice(&output.stdout).expect("one document");
    let hit = document["clubs"][0]["before"]["shots_per_round"].as_f64();
    assert!(hit < Some(0.05), "{hit:?}");
    let change = &document["changes"][0];
    let [saved, low, high] =
        ["saved", "low", "high"].map(|key| change[key].as_f64().expect("a number"));
    assert!(low <= saved && saved <= high, "{change}");
    assert!(high > saved + 0.02, "{change}");
}
