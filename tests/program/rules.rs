//! Scripts from outside: `--rule`, `rules` of a course file, `check`, and what becomes of a script that fails.

use std::fs;
use std::path::Path;
use std::process::Output;
use std::time::{Duration, Instant};

use serde_json::Value;

use super::{FLIGHT, SHORT, costcard_in, text, told_by};

/// The program in a folder with the short course and one script.
fn with_script(script: &str, words: &[&str]) -> Output {
    in_folder(script, |_| {}, words)
}

fn in_folder(script: &str, more: impl Fn(&Path), words: &[&str]) -> Output {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("short.toml"), SHORT).expect("written");
    fs::write(folder.path().join("mine.rhai"), script).expect("written");
    more(folder.path());
    costcard_in(folder.path(), words)
}

fn json(output: &Output) -> Value {
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    serde_json::from_slice(&output.stdout).expect("one JSON document")
}

const RANK: [&str; 8] = [
    "rank",
    "demo:rowan",
    "short.toml",
    "--goal",
    "5",
    "--rounds",
    "300",
    "--json",
];
const PLAY: [&str; 6] = [
    "play",
    "level:10",
    "short.toml",
    "--rounds",
    "300",
    "--json",
];
const USUAL: &str = "fn hold(landing, green) { usual_run(landing, green) }";

/// A card without what is reckoned from the player's own shots where no rule for greens is in force, and from flown ones
/// where one is: traits, intervals, and what follows from them; and without what was typed.
pub(super) fn without_the_reckoned(card: &str) -> serde_json::Value {
    let mut card: serde_json::Value = serde_json::from_str(card).expect("JSON");
    let card_keys = ["told_apart", "ahead", "more_shots", "inputs"];
    let part_keys = ["low", "high", "likely", "first_chance", "traits"];
    let all = card.as_object_mut().expect("a document");
    card_keys.iter().for_each(|key| drop(all.remove(*key)));
    for part in all
        .get_mut("parts")
        .and_then(|parts| parts.as_array_mut())
        .into_iter()
        .flatten()
    {
        let part = part.as_object_mut().expect("a part");
        part_keys.iter().for_each(|key| drop(part.remove(*key)));
    }
    card
}

#[test]
fn a_script_of_the_usual_run_gives_the_same_figures() {
    for words in [&RANK[..], &PLAY[..]] {
        let ruled = [words, &["--rule", "mine.rhai"]].concat();
        let with = text(&with_script(USUAL, &ruled).stdout);
        let without = text(&with_script(USUAL, words).stdout);
        let named = "\"rules\": [\n    \"mine.rhai\"\n  ]";
        assert!(with.contains(named), "{with}");
        let with = with.replace(named, "\"rules\": []");
        assert_eq!(without_the_reckoned(&with), without_the_reckoned(&without));
    }
}

#[test]
fn a_script_that_asks_for_places_gives_the_same_bytes_on_any_number_of_threads() {
    let on = |threads| {
        let words = [
            &RANK[..],
            &["--rule", "demo:crowned-greens.rhai", "--threads", threads],
        ];
        text(&with_script(USUAL, &words.concat()).stdout)
    };
    let one = on("1");
    assert!(one.contains("crowned-greens"));
    assert_eq!(one, on("3"));
}

#[test]
fn a_course_file_names_its_scripts_from_its_own_folder() {
    let away = |folder: &Path| {
        let own = folder.join("courses");
        fs::create_dir(&own).expect("a folder");
        let course = SHORT.replacen("[[holes]]", "rules = [\"dead.rhai\"]\n[[holes]]", 1);
        fs::write(own.join("dead.toml"), course).expect("written");
        fs::write(own.join("dead.rhai"), "fn hold(landing, green) { 0 }").expect("written");
    };
    let words = [
        "play",
        "level:10",
        "courses/dead.toml",
        "--rounds",
        "300",
        "--json",
    ];
    let play = json(&in_folder(USUAL, away, &words));
    assert_eq!(play["greens_held_pct"], 100.0);
    assert_eq!(play["rules"], serde_json::json!(["dead.rhai"]));
    let check = text(&in_folder(USUAL, away, &["check", "courses/dead.toml"]).stdout);
    let words: Vec<&str> = check.split_whitespace().collect();
    assert!(words.join(" ").contains("; rules: dead.rhai"), "{check}");
}

#[test]
fn labels_are_counted_and_shown() {
    let script = "fn count(shot) { if shot.par == 3 && shot.stroke == 1 { \"first of a par 3\" } }";
    let play = json(&with_script(
        script,
        &[&PLAY[..], &["--rule", "mine.rhai"]].concat(),
    ));
    let counts = serde_json::json!([{ "label": "first of a par 3", "per_round": 1.0 }]);
    assert_eq!(play["counts"], counts);
    let words = [
        "play",
        "level:10",
        "short.toml",
        "--rounds",
        "300",
        "--rule",
        "mine.rhai",
    ];
    let shown = text(&with_script(script, &words).stdout);
    let counted = shown
        .lines()
        .any(|line| line.starts_with("first of a par 3 ") && line.ends_with(" 1.00"));
    assert!(
        counted && shown.contains("Rules in force: mine.rhai."),
        "{shown}"
    );
    let rank = json(&with_script(
        script,
        &[&RANK[..], &["--rule", "mine.rhai"]].concat(),
    ));
    assert_eq!(rank["counts"], counts);
}

#[test]
fn the_card_is_ordered_by_the_worth_of_a_script() {
    let script = "fn worth(part) { if part.name == \"sand\" { 9 } else { part.saved_strokes } }";
    let rank = json(&with_script(
        script,
        &[&RANK[..], &["--rule", "mine.rhai"]].concat(),
    ));
    let parts = rank["parts"].as_array().expect("parts");
    for part in parts {
        let worth = part["worth"].as_f64().expect("a number");
        let saved = part["saved"].as_f64().expect("a number");
        assert_eq!(worth, if part["part"] == "sand" { 9.0 } else { saved });
    }
    let words = [
        "rank",
        "demo:rowan",
        "short.toml",
        "--goal",
        "5",
        "--rounds",
        "300",
        "--rule",
        "mine.rhai",
    ];
    let shown = text(&with_script(script, &words).stdout);
    let first = shown
        .lines()
        .skip_while(|line| !line.starts_with('─'))
        .nth(1);
    assert!(
        first.is_some_and(|line| line.starts_with("sand")),
        "{shown}"
    );
    assert!(shown.contains("Worth by the rule"), "{shown}");
}

#[test]
fn a_checked_script_has_its_landings() {
    let output = with_script(
        "fn hold(landing, green) { usual_run(landing, green) * 2 }",
        &["check", "mine.rhai", "--json"],
    );
    let check = json(&output);
    assert_eq!(check["files"][0]["kind"], "script");
    assert_eq!(check["files"][0]["landings"], check["landings"]);
    let landings = check["landings"].as_array().expect("landings");
    assert_eq!(landings.len(), 18);
    for landing in landings {
        let mut keys: Vec<&String> = landing.as_object().expect("an object").keys().collect();
        keys.sort_unstable();
        assert_eq!(
            keys,
            [
                "descent_deg",
                "firmness",
                "run_yd",
                "speed_mph",
                "spin_rpm",
                "usual_run_yd"
            ]
        );
        let number = |key: &str| landing[key].as_f64().expect("a number");
        assert!((number("run_yd") - 2.0 * number("usual_run_yd")).abs() < 1e-9);
    }
    let shown = text(&with_script(USUAL, &["check", "mine.rhai"]).stdout);
    assert!(
        shown.starts_with("mine.rhai: script, defines `hold(landing, green)`"),
        "{shown}"
    );
    assert!(shown.contains("pitching wedge"), "{shown}");
}

#[test]
fn a_flight_runs_on_the_green_as_the_script_says() {
    let words = [&FLIGHT[..], &["--rule", "mine.rhai", "--json"]].concat();
    let flight = json(&with_script("fn hold(landing, green) { 4.5 }", &words));
    let runs = flight["runs"].as_array().expect("runs");
    for run in runs {
        assert_eq!(run["run_yd"] == 4.5, run["surface"] == "green", "{run}");
    }
    let shown = text(&with_script(USUAL, &[&FLIGHT[..], &["--rule", "mine.rhai"]].concat()).stdout);
    assert!(shown.contains("green, built-in rule"), "{shown}");
}

#[test]
fn a_script_that_fails_stops_the_command_with_its_line_and_gives_no_figure() {
    for (script, place) in [
        (
            "fn hold(landing, green) {\n  landing.speed\n}",
            "mine.rhai:2:11",
        ),
        // It comes through the trial, and fails among the shots.
        (
            "fn hold(landing, green) {\n  if landing.lie == \"rough\" { loop {} }\n  1\n}",
            "mine.rhai:2:31",
        ),
        (
            "fn lie_effect(lie, club) {\n  #{ speed_factor: if club.loft_deg > 58 { 7 } else { 1 } }\n}",
            "mine.rhai:1:4",
        ),
        (
            "fn count(shot) {\n  if shot.stroke == 6 { throw \"six\" }\n}",
            "mine.rhai:2:25",
        ),
    ] {
        let begun = Instant::now();
        let words = [
            "play",
            "level:10",
            "short.toml",
            "--rounds",
            "20000",
            "--rule",
            "mine.rhai",
        ];
        let output = with_script(script, &words);
        let told = told_by(&output);
        assert!(told.contains(place), "{told}");
        assert!(
            begun.elapsed() < Duration::from_secs(20),
            "{:?}",
            begun.elapsed()
        );
    }
}

#[test]
fn a_missing_script_and_a_misspelt_example_get_a_hint() {
    let told = told_by(&with_script(
        USUAL,
        &[&PLAY[..], &["--rule", "mine.rhia"]].concat(),
    ));
    assert!(
        told.contains("there is no such file") && told.contains("did you mean `mine.rhai`?"),
        "{told}"
    );
    let told = told_by(&with_script(
        USUAL,
        &[&PLAY[..], &["--rule", "demo:crownd-greens"]].concat(),
    ));
    assert!(
        told.contains("did you mean `demo:crowned-greens.rhai`?"),
        "{told}"
    );
}

#[test]
fn what_a_script_prints_goes_to_stderr_and_is_cut_short() {
    let script = "fn hold(landing, green) { print(landing.club.name); usual_run(landing, green) }";
    let output = with_script(script, &[&PLAY[..], &["--rule", "mine.rhai"]].concat());
    let _ = json(&output);
    let told = text(&output.stderr);
    assert!(
        told.contains("iron\n") && told.contains("the rest is left out"),
        "{told}"
    );
    assert!(told.lines().count() < 110, "{}", told.lines().count());
}
