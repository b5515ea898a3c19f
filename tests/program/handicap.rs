//! `handicap`, and ratings stated or by play, from outside.

use std::fs;

use serde_json::Value;

use super::{costcard_in, stdout, text, told, told_by};

/// Low 10.0 from twenty scores, then 13.4 in the twenty after: the soft cap makes 13.2.
fn capped_sheet() -> String {
    let mut sheet = String::from("date,course_rating,slope_rating,adjusted_gross\n");
    for day in 0..40 {
        let rating = if day < 20 { "72.0" } else { "71.6" };
        let gross = if day < 20 { 82 } else { 85 };
        sheet += &format!(
            "2026-{:02}-{:02},{rating},113,{gross}\n",
            4 + day / 28,
            1 + day % 28
        );
    }
    sheet
}

/// `handicap` of a sheet, with more words.
fn handicap(sheet: &str, words: &[&str]) -> std::process::Output {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("scores.csv"), sheet).expect("written");
    costcard_in(
        folder.path(),
        &[&["handicap", "scores.csv"], words].concat(),
    )
}

fn json(output: &std::process::Output) -> Value {
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    serde_json::from_slice(&output.stdout).expect("one JSON document")
}

fn keys(value: &Value) -> Vec<&str> {
    let mut keys: Vec<&str> = value
        .as_object()
        .expect("an object")
        .keys()
        .map(String::as_str)
        .collect();
    keys.sort_unstable();
    keys
}

#[test]
fn an_index_has_the_keys_that_others_read() {
    let found = json(&handicap(&capped_sheet(), &["--json"]));
    assert_eq!(
        keys(&found),
        [
            "adjustments",
            "differentials",
            "index",
            "low_index",
            "records",
            "used"
        ]
    );
    assert_eq!(found["index"], 13.2);
    assert_eq!(found["low_index"], 10.0);
    assert_eq!(found["differentials"].as_array().map(Vec::len), Some(40));
    let records = found["records"].as_array().expect("a list");
    let of =
        |key: &str| -> Vec<Value> { records.iter().map(|record| record[key].clone()).collect() };
    assert_eq!(Value::from(of("differential")), found["differentials"]);
    let used = records.iter().filter(|record| record["used"] == true);
    let used: Vec<Value> = used
        .map(|record| record["adjusted_differential"].clone())
        .collect();
    assert_eq!(Value::from(used), found["used"]);
    assert_eq!(
        found["used"],
        serde_json::json!([13.4, 13.4, 13.4, 13.4, 13.4, 13.4, 13.4, 13.4])
    );
    let [adjustment] = &found["adjustments"].as_array().expect("a list")[..] else {
        panic!("one adjustment: {found}");
    };
    assert_eq!(keys(adjustment), ["date", "reason", "strokes"]);
    assert_eq!(
        (&adjustment["reason"], &adjustment["strokes"]),
        (&"soft cap".into(), &(-0.2).into())
    );
}

#[test]
fn a_course_named_gives_course_and_playing_handicap() {
    let course = [
        "--course-rating",
        "71.2",
        "--slope-rating",
        "128",
        "--par",
        "72",
        "--allowance",
        "95",
    ];
    let found = json(&handicap(
        &capped_sheet(),
        &[&["--json"], &course[..]].concat(),
    ));
    // 13.2 × 128 / 113 − 0.8 = 14.15, and 95 % of it 13.44.
    assert_eq!(
        (&found["course_handicap"], &found["playing_handicap"]),
        (&14.into(), &13.into())
    );
    let read = text(&handicap(&capped_sheet(), &course).stdout);
    assert!(
        read.contains("Course handicap 14; playing handicap 13 at 95 %."),
        "{read}"
    );
    for (flag, value) in [
        ("--slope-rating", "54"),
        ("--slope-rating", "156"),
        ("--course-rating", "30"),
        ("--par", "90"),
        ("--allowance", "0"),
    ] {
        let mut words = course;
        let at = words.iter().position(|word| *word == flag).expect("a flag");
        words[at + 1] = value;
        let told = told_by(&handicap(&capped_sheet(), &words));
        assert!(told.contains(value), "{told}");
    }
    let nine = |rest: &[&str]| {
        let words = [
            "--course-rating",
            "35.2",
            "--slope-rating",
            "128",
            "--par",
            "36",
        ];
        handicap(&capped_sheet(), &[&words[..], rest].concat())
    };
    // Half of 13.2 is 6.6; 6.6 × 128 / 113 − 0.8 = 6.68.
    let read = text(&nine(&["--holes", "9"]).stdout);
    assert!(
        read.contains("Course handicap 7; playing handicap 7 at 100 %."),
        "{read}"
    );
    let told = told_by(&nine(&[]));
    assert!(
        told.contains("are not those of 18 holes") && told.contains("say `--holes 9`"),
        "{told}"
    );
    let told = told_by(&handicap(&capped_sheet(), &["--course-rating", "71.2"]));
    assert!(
        told.contains("--slope-rating") && told.contains("--par"),
        "{told}"
    );
}

#[test]
fn an_index_reads_in_words() {
    let read = text(&handicap(&capped_sheet(), &[]).stdout);
    assert!(
        read.starts_with(
            "Handicap index 13.2: the mean of the lowest 8 of the last 20 differentials.\n"
        ),
        "{read}"
    );
    assert!(read.contains("The soft cap takes 0.2 off"), "{read}");
    assert!(
        read.contains("Low index of the last 365 days: 10.0."),
        "{read}"
    );
    for line in read.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    let plus = "date,course_rating,slope_rating,gross\n2026-04-01,72.0,113,70\n2026-04-02,72.0,113,70\n2026-04-03,72.0,113,70\n";
    let output = handicap(plus, &[]);
    assert!(
        text(&output.stdout).starts_with("Handicap index +4.0"),
        "{}",
        text(&output.stdout)
    );
    let note = "note: 3 gross scores are taken as they stand";
    assert!(
        text(&output.stderr).starts_with(note),
        "{}",
        text(&output.stderr)
    );
}

/// The demo sheet is that of the demo player who plays off 12.
#[test]
fn the_demo_sheet_makes_the_index_of_the_demo_player() {
    let found: Value =
        serde_json::from_str(&stdout(&["handicap", "demo:rowan-scores", "--json"])).expect("JSON");
    assert_eq!(found["index"], 12.0);
    let checked = stdout(&["check", "demo:rowan-scores"]);
    assert_eq!(
        checked,
        "demo:rowan-scores: scores, 24 differentials, handicap index 12.0\n"
    );
}

#[test]
fn sheets_that_are_missing_or_something_else_are_told() {
    insta::assert_snapshot!(told(&["handicap", "demo:rowan"]), @r#"
    error: demo:rowan: there is no such demo score sheet

    hint: the demo score sheets are `rowan-scores`
    "#);
    insta::assert_snapshot!(told(&["handicap", "scores.csv"]), @r#"
    error: scores.csv: there is no such file
    "#);
    insta::assert_snapshot!(told(&["handicap", "short.toml"]), @r#"
    error: short.toml: this is no sheet of scores

    hint: scores stand in a CSV file, one a line: see `costcard handicap --help`
    "#);
    let one = "date,course_rating,slope_rating,gross\n2026-04-01,72.0,45,70\n";
    insta::assert_snapshot!(told_by(&handicap(one, &[])), @r#"
    error: `slope_rating` is 45, but must be from 55 to 155
     --> scores.csv:2:17
      |
    2 | 2026-04-01,72.0,45,70
      |                 ^^
      |
      = hint: correct it, or remove the row
    "#);
}

/// Nine holes by the sea, without and with a rating.
fn nine_holes(rating: &str) -> String {
    let mut text = format!("name = \"Nine\"\n{rating}\n");
    for (par, length_yd) in [
        (4, 372),
        (5, 506),
        (3, 168),
        (4, 398),
        (4, 352),
        (4, 388),
        (3, 152),
        (5, 504),
        (4, 408),
    ] {
        text += &format!(
            "[[holes]]\npar = {par}\nlength_yd = {length_yd}\ngreen = {{ depth_yd = 30, width_yd = 26 }}\n"
        );
    }
    text
}

fn on_nine(rating: &str, words: &[&str]) -> std::process::Output {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("nine.toml"), nine_holes(rating)).expect("written");
    costcard_in(folder.path(), words)
}

const STATED: &str = "[rating.men]\ncourse_rating = 35.1\nslope_rating = 124\n";

#[test]
fn a_stated_rating_wins_over_one_by_play() {
    let play = [
        "play",
        "level:15",
        "nine.toml",
        "--rounds",
        "2000",
        "--json",
    ];
    let stated = json(&on_nine(STATED, &play));
    assert_eq!(
        (&stated["course_rating"], &stated["slope_rating"]),
        (&35.1.into(), &124.into())
    );
    // 35.1 + 124 / (2 × 5.381) = 46.6
    assert_eq!(stated["bogey_rating"], 46.6);
    let by_play = json(&on_nine("", &play));
    assert_ne!(by_play["course_rating"], 35.1);
    assert_ne!(by_play["index"], stated["index"]);
    assert_eq!(by_play["score_mean"], stated["score_mean"]);
    // Women's rounds are not rated by men's figures.
    let check = json(&on_nine(STATED, &["check", "nine.toml", "--json"]));
    let ratings = &check["files"][0]["ratings"];
    assert_eq!(ratings["men"]["stated"], true);
    assert_eq!(ratings["women"]["stated"], false);
    assert_eq!(
        keys(&ratings["women"]),
        ["bogey_rating", "course_rating", "slope_rating", "stated"]
    );
    let (men, women) = (
        &ratings["men"]["course_rating"],
        &ratings["women"]["course_rating"],
    );
    assert!(women.as_f64() > men.as_f64(), "{ratings}");
}

/// By play a scratch golfer rates the course, and so plays off about nothing on it: 0.13 standard deviations under it,
/// since an index is made of the best 8 of 20 and the rating of the better half.
#[test]
fn a_course_rated_by_play_gives_its_own_golfers_their_index() {
    let index = |level: &str| {
        let played = json(&on_nine(
            "",
            &["play", level, "nine.toml", "--rounds", "20000", "--json"],
        ));
        played["index"].as_f64().expect("an index")
    };
    let scratch = index("level:scratch");
    assert!((-0.8..0.0).contains(&scratch), "{scratch}");
    // The bogey golfer stands 113 / 5.381 = 21 over the rating, less the same, less what net double bogey takes off.
    let bogey = index("level:20");
    assert!((19.0..21.0).contains(&bogey), "{bogey}");
}

#[test]
fn the_index_of_rounds_is_the_same_on_any_number_of_threads() {
    let play = [
        "play",
        "level:15",
        "nine.toml",
        "--rounds",
        "2000",
        "--json",
        "--threads",
    ];
    let on = |threads| text(&on_nine("", &[&play[..], &[threads]].concat()).stdout);
    assert_eq!(on("1"), on("3"));
}

#[test]
fn the_seed_of_the_rounds_does_not_change_the_rating() {
    let rating = |seed| {
        let play = [
            "play",
            "level:scratch",
            "nine.toml",
            "--rounds",
            "40",
            "--json",
            "--seed",
            seed,
        ];
        json(&on_nine("", &play))
    };
    let (one, other) = (rating("1"), rating("2"));
    assert_ne!(one["score_mean"], other["score_mean"]);
    for key in ["course_rating", "bogey_rating", "slope_rating"] {
        assert!(one[key].is_number());
        assert_eq!(one[key], other[key], "{key}");
    }
}

#[test]
fn courses_are_rated_when_they_are_checked_unless_not_asked_for() {
    let check = ["check", "nine.toml", "--no-rating"];
    let quick = text(&on_nine("", &check).stdout);
    assert_eq!(quick, "nine.toml: course Nine, 9 holes, par 36, 3248 yd\n");
    let rating = format!("{STATED}[rating.women]\ncourse_rating = 37.5\nslope_rating = 128\n");
    let rated = text(&on_nine(&rating, &check[..2]).stdout);
    let rated = rated.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        rated.contains("Rating: men 35.1, bogey 46.6, slope 124, as stated; women 37.5, bogey 52.6, slope 128, as stated."),
        "{rated}"
    );
    let none = stdout(&["check", "short.toml"]);
    assert!(
        !none.contains("rating"),
        "three holes have no rating: {none}"
    );
}
