//! `compare` from outside: what the coach reads, the JSON, and sheets that cannot be compared.

use std::fs;
use std::path::Path;

use serde_json::Value;

use super::{SHORT, costcard_in, text, told_by};

const DEMO: [&str; 5] = [
    "compare",
    "demo:bay.csv",
    "demo:bay-after.csv",
    "--map",
    "demo:bay-map.toml",
];

/// Two sessions of one sheet.
const TWO: &str = "\
session,club,carry_yd,side_yd
May,7 iron,148.2,4.1
May,7 iron,151.9,-2.3
May,7 iron,146.4,7.9
May,7 iron,153.0,1.2
May,7 iron,149.5,-5.6
May,7 iron,144.8,9.4
May,7 iron,150.7,3.3
May,driver,221.0,12.4
June,7 iron,157.3,2.0
June,7 iron,161.8,-3.1
June,7 iron,158.9,5.2
June,7 iron,155.1,0.7
June,7 iron,163.4,-6.8
June,7 iron,159.6,8.8
June,7 iron,156.7,4.5
June,9 iron,131.2,-1.0
June,9 iron,0,-1.0
";

fn folder_with(files: &[(&str, &str)]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, content) in files {
        fs::write(folder.path().join(name), content).expect("written");
    }
    folder
}

/// What stands on stdout of a run that must do its work.
fn done(folder: &Path, words: &[&str]) -> String {
    let output = costcard_in(folder, words);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    text(&output.stdout)
}

fn json(folder: &Path, words: &[&str]) -> Value {
    let words = [words, &["--json"]].concat();
    serde_json::from_str(&done(folder, &words)).expect("one JSON document")
}

#[test]
fn two_sessions_of_one_sheet_are_compared_in_words() {
    let folder = folder_with(&[("two.csv", TWO)]);
    insta::assert_snapshot!(done(folder.path(), &["compare", "two.csv"]), @r"
    Real: the 7 iron carries 9.6 yd further. All else could be chance with this many
    shots.

    Before: May. After: June.

    7 iron: 7 shots before, 7 after
                          before  after  change  90 % interval       verdict
    ────────────────────────────────────────────────────────────────────────
    carry (yd)             149.3  158.9    +9.6  +6.5 to +12.7          real
    side (yd)                2.7    1.8    -1.0   -6.5 to +4.5  noise so far
    spread of carry (yd)     3.4    3.3    -0.1   -2.6 to +2.4  noise so far
    spread of side (yd)      5.8    5.7    -0.1   -5.0 to +4.8  noise so far

    Hit only before, so not compared: driver.
    Hit only after, so not compared: 9 iron.
    Before and after are means without the highest and lowest tenth, so that one
      mishit counts for little; right is positive.
    Real: where nothing has changed, 96 of 100 comparisons like this one, of 4
      figures, call nothing real. Of the intervals, one in ten leaves out 0 by
      chance alone.
    Estimates from a model and from few shots, not promises.

    Left out as misreads (--keep ROW takes one back in):
    row 18, 9 iron: carry is 0
    ");
}

#[test]
fn sessions_can_be_named_and_turned_about() {
    let folder = folder_with(&[("two.csv", TWO)]);
    let carry = |words: &[&str]| {
        let found = json(folder.path(), &[&["compare", "two.csv"], words].concat());
        found["clubs"][0]["changes"][0]["change"]
            .as_f64()
            .expect("a change")
    };
    let change = carry(&[]);
    assert!(change > 9.0, "{change}");
    assert_eq!(carry(&["--before", "May", "--after", "June"]), change);
    assert_eq!(carry(&["--before", "june"]), -change);
    assert_eq!(carry(&["--after", "May"]), -change);
}

/// A device that lists the newest shots first changes nothing; where both are named, they stay as they are named, and that
/// they run backwards is told.
#[test]
fn the_earlier_of_two_days_is_before() {
    let dated = |days: [&str; 2]| {
        TWO.replacen("session", "date", 1)
            .replace("May", days[0])
            .replace("June", days[1])
    };
    let newest_first = |sheet: &str| {
        let (head, rows) = sheet.split_once('\n').expect("rows");
        let rows: Vec<&str> = rows.lines().rev().collect();
        format!("{head}\n{}\n", rows.join("\n"))
    };
    for days in [["2026-05-03", "2026-05-17"], ["03/05/2026", "17/05/2026"]] {
        let sheet = dated(days);
        let folder = folder_with(&[("two.csv", &sheet), ("new.csv", &newest_first(&sheet))]);
        for name in ["two.csv", "new.csv"] {
            let told = done(folder.path(), &["compare", name]);
            assert!(told.contains("carries 9.6 yd further"), "{told}");
            let which = format!("Before: {}. After: {}.", days[0], days[1]);
            assert!(told.contains(&which), "{told}");
        }
        let named = ["compare", "two.csv", "--before", days[1]];
        let output = costcard_in(folder.path(), &named);
        let told = text(&output.stdout);
        assert!(told.contains("carries 9.6 yd shorter"), "{told}");
        let noted = text(&output.stderr)
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ");
        let backwards = format!(
            "the shots before are of {}, those after of {}",
            days[1], days[0]
        );
        assert!(noted.contains(&backwards), "{noted}");
    }
}

#[test]
fn a_curve_that_changes_sides_is_told_as_that() {
    let rows = |session: &str, middle: i32| -> String {
        (0..8)
            .map(|shot| format!("{session},7 iron,{},{}\n", 150 + shot, middle + 12 * shot))
            .collect()
    };
    let sheet = format!(
        "session,club,carry_yd,sidespin_rpm\n{}{}",
        rows("May", -254),
        rows("June", 873)
    );
    let folder = folder_with(&[("two.csv", &sheet)]);
    let told = done(folder.path(), &["compare", "two.csv"]);
    let first = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        first.contains("has 1127 rpm more sidespin to the right, 212 rpm to the left before"),
        "{told}"
    );
}

#[test]
fn a_lesson_on_the_6_iron_shows_in_its_loft_launch_and_spin() {
    let folder = folder_with(&[]);
    let found = json(folder.path(), &DEMO);
    let real = |club: &Value| -> Vec<String> {
        let changes = club["changes"].as_array().expect("changes").iter();
        let real = changes.filter(|change| change["real"] == true);
        real.map(|change| change["quantity"].as_str().expect("a name").to_owned())
            .collect()
    };
    for club in found["clubs"].as_array().expect("clubs") {
        let wanted: &[&str] = match club["club"].as_str() {
            Some("6 iron") => &["launch_deg", "backspin_rpm", "dynamic_loft_deg"],
            _ => &[],
        };
        assert_eq!(real(club), wanted, "{}", club["club"]);
    }
    let told = done(folder.path(), &DEMO);
    let first: String = told.lines().take(2).collect::<Vec<_>>().join(" ");
    assert_eq!(
        first,
        "Real: the 6 iron launches 3.8° higher, spins 963 rpm more and is delivered with 4.4° more loft. All else could be chance with this many shots."
    );
}

#[test]
fn the_json_has_the_keys_that_others_read() {
    let folder = folder_with(&[("two.csv", TWO)]);
    let found = json(folder.path(), &["compare", "two.csv"]);
    let club = &found["clubs"][0];
    assert_eq!(club["club"], "7 iron");
    let changes = club["changes"].as_array().expect("changes");
    let names: Vec<&str> = changes
        .iter()
        .filter_map(|change| change["quantity"].as_str())
        .collect();
    assert_eq!(names, ["carry_yd", "side_yd", "carry_sd_yd", "side_sd_yd"]);
    for key in ["before", "after", "change", "low", "high"] {
        assert!(changes[0][key].is_f64(), "{key}");
    }
    assert_eq!(
        (&changes[0]["real"], &changes[1]["real"]),
        (&true.into(), &false.into())
    );
    assert_eq!(found["before"]["sessions"][0], "May");
    assert_eq!(found["after"]["shots"], 9);
    assert_eq!(found["after"]["misreads"][0]["row"], 18);
    assert_eq!(found["only_before"][0], "driver");
    assert!(found.get("worth").is_none(), "nobody asked");
}

#[test]
fn json_keeps_yards_and_any_number_of_threads_gives_the_same_bytes() {
    let folder = folder_with(&[("two.csv", TWO)]);
    let with = |more: &[&str]| done(folder.path(), &[&["compare", "two.csv"], more].concat());
    assert_eq!(
        with(&["--json", "--threads", "1"]),
        with(&["--json", "--threads", "5", "--units", "metres"])
    );
    let metres = with(&["--units", "metres"]);
    assert!(
        metres.contains("carries 8.8 m further") && !metres.contains("yd"),
        "{metres}"
    );
}

#[test]
fn what_a_change_is_worth_is_told_in_strokes() {
    let folder = folder_with(&[("two.csv", TWO), ("short.toml", SHORT)]);
    let words = [
        "compare",
        "two.csv",
        "--course",
        "short.toml",
        "--handicap",
        "13",
    ];
    let worth = &json(folder.path(), &words)["worth"];
    let figure = |value: &Value| value.as_f64().expect("a figure");
    let [strokes, before, after] = ["strokes", "before", "after"].map(|key| figure(&worth[key]));
    assert!(
        (10.0..20.0).contains(&before),
        "three holes of par 12: {before}"
    );
    assert!((before - after - strokes).abs() < 1e-9);
    // The one club that is compared has really changed: its worth is the whole.
    assert_eq!(worth["real"]["clubs"], Value::from(vec!["7 iron"]));
    assert_eq!(figure(&worth["real"]["strokes"]), strokes);
    let told = done(folder.path(), &words);
    assert!(
        told.contains("On Three Holes, with every compared club as it was hit after, the"),
        "{told}"
    );
    // How sure it is, and in words where that leaves out nothing.
    let [low, high] = ["low", "high"].map(|key| figure(&worth[key]));
    assert!(low < strokes && strokes < high, "{low} {strokes} {high}");
    let is_open = low <= 0.0 && high >= 0.0;
    let folded = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(
        folded.contains("there is no visible effect on the score"),
        is_open,
        "{told}"
    );
    assert_eq!(folded.contains("nine times in ten by"), !is_open, "{told}");
}

/// With the same shots hit again, nothing shows.
#[test]
fn a_change_within_its_own_noise_is_no_visible_effect() {
    let again = TWO
        .replace("157.3,2.0", "148.3,2.0")
        .replace("161.8,-3.1", "151.7,-3.1");
    let again = again
        .replace("158.9,5.2", "146.9,5.2")
        .replace("155.1,0.7", "153.1,0.7");
    let again = again
        .replace("163.4,-6.8", "149.3,-6.8")
        .replace("159.6,8.8", "144.6,8.8");
    let again = again.replace("156.7,4.5", "150.9,4.5");
    let folder = folder_with(&[("two.csv", &again), ("short.toml", SHORT)]);
    let words = [
        "compare",
        "two.csv",
        "--course",
        "short.toml",
        "--handicap",
        "13",
    ];
    let told = done(folder.path(), &words);
    let folded = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(folded.contains("there is no visible effect"), "{told}");
}

#[test]
fn too_few_shots_are_worth_nothing_in_strokes() {
    let few: String = TWO
        .lines()
        .filter(|line| !line.starts_with("June,7 iron,15"))
        .map(|line| format!("{line}\n"))
        .collect();
    let folder = folder_with(&[("two.csv", &few), ("short.toml", SHORT)]);
    let words = [
        "compare",
        "two.csv",
        "--course",
        "short.toml",
        "--handicap",
        "13",
    ];
    let told = done(folder.path(), &words);
    let folded = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        folded.contains(
            "Nothing is told in strokes: that takes 4 shots or more with a club before and after."
        ),
        "{told}"
    );
    assert!(json(folder.path(), &words).get("worth").is_none());
}

/// Whoever plays is the golfer of `rank`: his unmeasured short game is inferred as there.
#[test]
fn the_golfer_who_plays_is_the_one_of_the_card() {
    let folder = folder_with(&[("two.csv", TWO), ("nine.toml", &super::goal::nine())]);
    let may: String = TWO
        .lines()
        .filter(|line| !line.starts_with("June"))
        .map(|line| format!("{line}\n"))
        .collect();
    fs::write(folder.path().join("may.csv"), may).expect("written");
    let figure = |value: &Value| value.as_f64().expect("a figure");
    let played = |assume: &str| {
        let words = [
            "play",
            "may.csv",
            "nine.toml",
            "--handicap",
            "13",
            "--rounds",
            "50",
            "--assume",
            assume,
        ];
        figure(&json(folder.path(), &words)["expected_strokes"])
    };
    let compared = |more: &[&str]| {
        let words = [
            "compare",
            "two.csv",
            "--course",
            "nine.toml",
            "--handicap",
            "13",
        ];
        figure(&json(folder.path(), &[&words, more].concat())["worth"]["before"])
    };
    let (index, level) = (played("index"), played("level"));
    assert!(
        (index - level).abs() > 0.2,
        "inferring makes no difference here: {index} {level}"
    );
    assert!(
        (compared(&[]) - index).abs() < 0.1,
        "{} {index}",
        compared(&[])
    );
    let of_level = compared(&["--assume", "level"]);
    assert!((of_level - level).abs() < 0.1, "{of_level} {level}");
}

/// What `compare` tells of sheets at fault.
fn told(files: &[(&str, &str)], words: &[&str]) -> String {
    let folder = folder_with(files);
    told_by(&costcard_in(folder.path(), &[&["compare"], words].concat()))
}

const DRIVER: &str = "club,carry_yd,side_yd\ndriver,210,3\ndriver,211,4\n";

#[test]
fn the_same_shots_twice() {
    insta::assert_snapshot!(told(&[("may.csv", DRIVER)], &["may.csv", "./may.csv"]), @r"
    error: `./may.csv` is both before and after

    hint: name two sheets; or name one sheet, and its sessions with `--before` and `--after`
    ");
    insta::assert_snapshot!(told(&[("may.csv", DRIVER), ("copy.csv", DRIVER)], &["may.csv", "copy.csv"]), @r"
    error: 2 of the 2 shots after are also before

    hint: name the sheet of another session; or, where one sheet holds both, name it alone, and its sessions with `--before` and `--after`
    ");
    insta::assert_snapshot!(told(&[("two.csv", TWO)], &["two.csv", "--before", "May", "--after", "May"]), @r"
    error: session `May` is both before and after

    hint: the sessions of `two.csv` are `May` and `June`
    ");
}

#[test]
fn too_few_shots_on_a_side_are_not_compared_and_said_to_be_so() {
    let rows = |count: usize, from: f64| -> String {
        let row = |i: usize| format!("7 iron,{:.1},{:.1}\n", from + i as f64, i as f64 - 2.0);
        let rows: String = (0..count).map(row).collect();
        format!("club,carry_yd,side_yd\n{rows}")
    };
    let folder = folder_with(&[("may.csv", &rows(6, 150.0)), ("june.csv", &rows(3, 158.5))]);
    let told = done(folder.path(), &["compare", "may.csv", "june.csv"]);
    assert!(
        told.starts_with("Nothing is compared: there are too few shots.\n"),
        "{told}"
    );
    let words = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        words.contains("7 iron: 3 shots after, so not compared: hit at least 4 a side, better 15."),
        "{told}"
    );
    assert!(!told.contains("96 of 100"), "{told}");
}

#[test]
fn no_club_or_quantity_in_common() {
    let iron = "club,carry_yd,side_yd\n7 iron,150,3\n7 iron,151,4\n";
    insta::assert_snapshot!(told(&[("may.csv", DRIVER), ("june.csv", iron)], &["may.csv", "june.csv"]), @r"
    error: no club was hit both before and after

    hint: before: driver; after: 7 iron
    ");
    let speed = "club,ball_speed_mph\ndriver,130\ndriver,131.5\n";
    insta::assert_snapshot!(told(&[("may.csv", DRIVER), ("june.csv", speed)], &["may.csv", "june.csv"]), @r"
    error: before and after have no measured quantity in common

    hint: before has `carry_yd` and `side_yd`; after has `ball_speed_mph`
    ");
}

#[test]
fn sessions_that_are_not_there_or_not_told_apart() {
    insta::assert_snapshot!(told(&[("two.csv", TWO)], &["two.csv", "--before", "Juni"]), @r"
    error: `--before` names no session of `two.csv`: `Juni`

    hint: did you mean `June`? The sessions are `May` and `June`
    ");
    insta::assert_snapshot!(told(&[("may.csv", DRIVER)], &["may.csv"]), @r"
    error: `may.csv` holds one session, and there is no second sheet

    hint: name the sheet of after too; or tell sessions apart by a column `session` or `date`
    ");
    let three = TWO.replace("June,9", "July,9");
    insta::assert_snapshot!(told(&[("three.csv", &three)], &["three.csv"]), @r"
    error: `three.csv` holds 3 sessions

    hint: name two of them with `--before` and `--after`: `May`, `June` and `July`
    ");
}

#[test]
fn the_faults_of_both_sheets_are_told_at_once() {
    let spoilt = |cell: &str| DRIVER.replace("211", cell);
    let (may, june) = (spoilt("far"), spoilt("near"));
    let told = told(
        &[("may.csv", &may), ("june.csv", &june)],
        &["may.csv", "june.csv"],
    );
    assert!(
        told.contains("may.csv:3:8") && told.contains("june.csv:3:8"),
        "{told}"
    );
}

#[test]
fn a_row_must_say_which_of_the_sheets_it_is_of() {
    let files = [("may.csv", DRIVER), ("june.csv", DRIVER)];
    insta::assert_snapshot!(told(&files, &["may.csv", "june.csv", "--drop", "3"]), @r"
    error: row 3 could be of any of the 2 sheets

    hint: write the sheet before it, as `may.csv:3`
    ");
    insta::assert_snapshot!(told(&files, &["may.csv", "june.csv", "--drop", "july.csv:3"]), @r"
    error: row july.csv:3 is of none of the sheets

    hint: write the sheet as it is written here, as `may.csv:12`
    ");
}

#[test]
fn a_course_without_a_player() {
    insta::assert_snapshot!(told(&[("two.csv", TWO), ("short.toml", SHORT)], &["two.csv", "--course", "short.toml"]), @r"
    error: `--course` needs to know who plays it

    hint: add the player's file as `--player sam.toml`, or a handicap index as `--handicap 12.4`
    ");
}
