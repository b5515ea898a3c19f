//! Inputs at fault, and study files at fault.

use std::collections::BTreeMap;

use serde_json::Value;

use super::{Place, told};

/// Rows are told apart by the names of their days and combinations; a goal stated twice is one.
#[test]
fn no_name_stands_twice_and_no_goal_is_worked_out_twice() {
    let head = "players = ['level:10']\ncourses = ['hole.toml']\nrounds = 40\n";
    for (twice, at) in [
        (
            "conditions = [{ name = 'a' }, { name = 'a', wind_mph = 9 }]\n",
            "study.toml:4:40",
        ),
        (
            "[[combinations]]\nname = 'a'\n[[combinations]]\nname = 'a'\n",
            "study.toml:7:8",
        ),
    ] {
        let place = Place::with(&format!("{head}{twice}"));
        let output = place.run(&["study", "study.toml", "--out", "out"]);
        assert_eq!(output.status.code(), Some(2));
        let said = told(&output);
        assert!(
            said.contains(&format!("`a` stands twice --> {at} ")),
            "{said}"
        );
    }
    let place = Place::with(&format!("{head}goals = [5, 5, 0]\n"));
    let output = place.run(&["study", "study.toml", "--out", "out"]);
    assert_eq!(output.status.code(), Some(0), "{}", told(&output));
    assert_eq!(place.rows("out/cells.csv").len(), 2);
    // So are rules, and changes.
    let doubled = "rules = ['built in', 'built in']\nchanges = ['none', 'driver off', 'none']\n";
    let place = Place::with(&format!("{head}{doubled}"));
    let output = place.run(&["study", "study.toml", "--out", "out"]);
    assert_eq!(output.status.code(), Some(0), "{}", told(&output));
    assert_eq!(place.rows("out/cells.csv").len(), 2);
}

/// A player who is not there, one whose file is broken and a change that cannot be made are told; others are played.
#[test]
fn a_cell_at_fault_stops_no_other() {
    let place = Place::with(
        "players = ['nobody.toml', 'broken.toml', 'level:10']\ncourses = ['hole.toml', 'far/course.toml']\n\
         changes = ['none', '2 iron off']\nrounds = 40\n",
    );
    place.write(
        "broken.toml",
        "name = 'Ann'\nhandicap_index = 'low'\nsex = 'men'\n",
    );
    let output = place.run(&["study", "study.toml", "--out", "out", "--json"]);
    assert_eq!(output.status.code(), Some(2));
    let document: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(
        (&document["cells"], &document["done"]),
        (&12.into(), &1.into())
    );
    assert!(document["seconds"].as_f64().is_some());
    let failed = document["failed"].as_array().expect("a list");
    assert_eq!(failed.len(), 11);
    let error = |cell: u64| {
        let found = failed.iter().find(|one| one["cell"] == cell);
        found
            .and_then(|one| one["error"].as_str())
            .unwrap_or_default()
            .to_owned()
    };
    assert!(
        error(1).starts_with("nobody.toml: there is no such file"),
        "{}",
        error(1)
    );
    assert!(
        error(5).starts_with("broken.toml:2:18: `handicap_index` must be a number, not 'low'"),
        "{}",
        error(5)
    );
    assert!(error(10).contains("2 iron"), "{}", error(10));
    assert!(
        error(12).starts_with("far/course.toml: there is no such file"),
        "{}",
        error(12)
    );
    assert!(
        told(&output).contains("cell 5, broken.toml at hole.toml"),
        "{}",
        told(&output)
    );
    let rows = place.rows("out/cells.csv");
    assert_eq!(rows.len(), 12);
    let sound: Vec<&str> = rows
        .iter()
        .filter(|row| row["error"].is_empty())
        .map(|row| row["cell"].as_str())
        .collect();
    assert_eq!(sound, ["9"]);
    // From anywhere else, with the study named by its whole path, the bytes are the same.
    let path = place.path().join("study.toml").display().to_string();
    let out = place.path().join("other").display().to_string();
    let far = place
        .command(&["study", &path, "--out", &out])
        .current_dir("/")
        .output();
    assert_eq!(far.expect("a program").status.code(), Some(2));
    super::assert_same(&place.files("other"), &place.files("out"));
}

/// Files at fault whose texts are alike are told by their own names, without the folder of the study and with all else that
/// stands in those names.
#[test]
fn each_file_at_fault_is_told_by_its_own_name() {
    let place = Place::with("");
    let broken = "name = 'Ann'\nhandicap_index = 'low'\nsex = 'men'\n";
    std::fs::create_dir_all(place.path().join("golf/half-golf")).expect("made");
    for name in ["a.toml", "b.toml", "half-golf/c.toml"] {
        place.write(&format!("golf/{name}"), broken);
    }
    place.write(
        "golf/study.toml",
        "players = ['a.toml', 'b.toml', 'half-golf/c.toml']\ncourses = ['../hole.toml']\nrounds = 40\n",
    );
    place.run(&["study", "golf/study.toml", "--out", "out"]);
    for row in place.rows("out/cells.csv") {
        let (player, error) = (&row["player"], &row["error"]);
        assert!(
            error.starts_with(&format!("{player}:2:18: ")),
            "{player}: {error}"
        );
    }
}

/// Two courses of one name are two columns.
#[test]
fn courses_of_one_name_are_told_apart_by_their_files() {
    let place =
        Place::with("players = ['level:5']\ncourses = ['hole.toml', 'long.toml']\nrounds = 40\n");
    place.write("long.toml", &super::HOLE.replace("140", "220"));
    let files = place.study("out");
    let page = |files: &BTreeMap<String, Vec<u8>>, name: &str| {
        String::from_utf8(files[name].clone()).expect("text")
    };
    for own in ["(hole.toml)", "(long.toml)"] {
        assert!(page(&files, "summary.svg").contains(own), "{own}");
        let overview = page(&files, "overview.html");
        assert!(overview.contains(&format!("One Hole {own}")), "{own}");
    }
}

/// Where all cells are alike none is darker than another.
#[test]
fn a_single_cell_has_its_colour() {
    let place = Place::with("players = ['level:5']\ncourses = ['hole.toml']\nrounds = 40\n");
    let files = place.study("out");
    let picture = String::from_utf8(files["summary.svg"].clone()).expect("text");
    assert!(!picture.contains("NaN"), "{picture}");
    assert!(picture.contains("fill-opacity"), "{picture}");
}

/// A rule that fails for some players ends their cells alone.
#[test]
fn a_failing_rule_ends_only_the_cells_it_fails_in() {
    let place = Place::with(
        "players = ['level:tour', 'level:28', 'level:5']\ncourses = ['hole.toml']\nrules = ['mine.rhai']\nrounds = 40\ngoals = [10]\n",
    );
    // Only a fast ball makes it fail.
    place.write(
        "mine.rhai",
        "fn count(shot) { if shot.stroke > 7 { throw \"too many\" } \"shot\" }",
    );
    let output = place.run(&["study", "study.toml", "--out", "out"]);
    let rows = place.rows("out/cells.csv");
    for row in &rows {
        let words = [
            "rank",
            &row["player"],
            "hole.toml",
            "--goal",
            "10",
            "--rounds",
            "40",
            "--rule",
            "mine.rhai",
        ];
        let ranked = place.run(&words);
        assert_eq!(
            ranked.status.success(),
            row["error"].is_empty(),
            "{row:?} {}",
            told(&ranked)
        );
    }
    let failed = rows.iter().filter(|row| !row["error"].is_empty()).count();
    assert_eq!(output.status.code(), Some(if failed > 0 { 2 } else { 0 }));
}

/// Every landing makes the rule fail, and threads are not at the same one first in every run.
#[test]
fn a_failing_rule_is_told_in_the_same_words_in_every_run() {
    let place = Place::with(
        "players = ['level:28', 'level:5']\ncourses = ['hole.toml']\nrules = ['mine.rhai']\nrounds = 40\n",
    );
    place.write(
        "mine.rhai",
        "fn hold(landing, green) {\n    if green.hole > 0 { \"bad\" } else { usual_run(landing, green) }\n}\n",
    );
    let run = |out: &str, threads: &str| {
        let words = ["study", "study.toml", "--out", out, "--threads", threads];
        assert_eq!(place.run(&words).status.code(), Some(2));
        place.files(out)
    };
    let first = run("first", "2");
    let rows = place.rows("first/cells.csv");
    for row in &rows {
        let error = &row["error"];
        assert!(error.contains("gave a text, for a landing of"), "{error}");
    }
    assert_ne!(rows[0]["error"], rows[1]["error"]);
    for out in ["second", "third", "fourth", "fifth"] {
        super::assert_same(&run(out, "2"), &first);
    }
    super::assert_same(&run("alone", "1"), &first);
}

/// Of very many cells without figures the first are told, the others counted.
#[test]
fn a_thousand_cells_without_figures_are_told_and_the_others_counted() {
    let players: Vec<String> = (0..60)
        .map(|place| format!("'level:{}'", place as f64 / 2.0))
        .collect();
    let goals: Vec<String> = (0..20).map(|goal| goal.to_string()).collect();
    let place = Place::with(&format!(
        "players = [{}]\ncourses = ['far.toml']\ngoals = [{}]\n",
        players.join(", "),
        goals.join(", ")
    ));
    let output = place.run(&["study", "study.toml", "--out", "out"]);
    assert_eq!(output.status.code(), Some(2));
    let errors = told(&output);
    let no_file =
        "cell 1, level:0 at far.toml, and 999 more cells: far.toml: there is no such file";
    assert!(errors.contains(no_file), "{errors}");
    assert_eq!(errors.matches("no such file").count(), 1, "{errors}");
    assert!(
        errors.contains("200 more cells are without figures"),
        "{errors}"
    );
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(
        said.contains("1200 cells in out. 1200 cells without figures."),
        "{said}"
    );
    let overview = String::from_utf8(place.files("out")["overview.html"].clone()).expect("text");
    assert!(overview.contains("Cells without figures: 1200"));
    let output = place.run(&["study", "study.toml", "--out", "out", "--json"]);
    let document: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(
        (&document["cells"], &document["done"]),
        (&1200.into(), &0.into())
    );
    assert_eq!(document["failed"].as_array().map(Vec::len), Some(1000));
}

/// What is wrong with a study file is told at its line before anything is played.
#[test]
fn faults_of_the_file_point_at_their_line() {
    for (text, wanted) in [
        (
            "courses = ['hole.toml']",
            "`players` is missing in this file",
        ),
        (
            "players = ['level:99']\ncourses = ['hole.toml']",
            "study.toml:1:12",
        ),
        (
            "players = ['level:9']\ncourses = ['far/*.toml']",
            "no file matches `far/*.toml`",
        ),
        (
            "players = ['level:9']\ncourses = ['hole.toml']\nruonds = 5",
            "did you mean `rounds`?",
        ),
        (
            "players = ['level:9']\ncourses = ['hole.toml']\ngoals = [99]",
            "`goals` must be a number from -6 to 54",
        ),
        (
            "players = ['level:9']\ncourses = ['hole.toml']\nchanges = ['irons bakspin +4']",
            "study.toml:3:19",
        ),
        (
            "players = []\ncourses = ['hole.toml']",
            "this list is empty",
        ),
        (
            "players = ['level:9']\ncourses = ['hole.toml']\nconditions = [{ firmness = 'firm' }]",
            "`name` is missing",
        ),
        (
            "players = ['level:9']\ncourses = ['hole.toml']\n[[combinations]]\ngoals = [5]",
            "`name` is missing",
        ),
    ] {
        let place = Place::with(text);
        let output = place.run(&["study", "study.toml", "--out", "out"]);
        assert_eq!(output.status.code(), Some(2), "{text}");
        assert!(told(&output).contains(wanted), "{text}\n{}", told(&output));
        assert!(!place.path().join("out").exists(), "{text}");
        let checked = place.run(&["check", "study.toml"]);
        assert_eq!(checked.status.code(), Some(2), "{text}");
        assert!(
            told(&checked).contains(wanted),
            "{text}\n{}",
            told(&checked)
        );
    }
}

#[test]
fn check_counts_the_cells() {
    let place = Place::with(super::SMALL);
    let output = place.run(&["check", "study.toml"]);
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(
        text.contains("study, 8 cells; players: 4, courses: 1"),
        "{text}"
    );
}

/// A fault in a file that is named is told by `check`, each once, before a run tells it cell by cell.
#[test]
fn check_reads_what_a_study_names() {
    let text = "players = ['level:9', 'gone.toml', 'odd.toml']\ncourses = ['hole.toml']\n\
                rules = ['built in', 'odd.rhai']\ngoals = [5, 9]\n";
    let place = Place::with(text);
    for (name, text) in [
        (
            "odd.toml",
            "name = 'Odd'\nhandicap_index = 99\nsex = 'men'\n",
        ),
        ("odd.rhai", "fn hold(landing) { 1 }\n"),
    ] {
        place.write(name, text);
    }
    let checked = place.run(&["check", "study.toml"]);
    assert_eq!(checked.status.code(), Some(2));
    let said = told(&checked);
    for wanted in ["gone.toml", "`handicap_index` must be", "odd.rhai"] {
        assert!(said.contains(wanted), "{wanted}: {said}");
    }
    let gone = "gone.toml: there is no such file";
    assert_eq!(said.matches(gone).count(), 1, "{said}");
}

/// A change that cannot be made of a player is told before a run tells it in every one of his cells.
#[test]
fn check_tells_changes_that_cannot_be_made() {
    let place = Place::with(
        "players = ['level:9', 'level:20']\ncourses = ['hole.toml']\nchanges = ['none', '2 iron off', 'driver launch +1']\n\
         goals = [5, 3]\n",
    );
    let checked = place.run(&["check", "study.toml"]);
    assert_eq!(checked.status.code(), Some(2));
    let said = told(&checked);
    for player in ["level:9", "level:20"] {
        let wanted = format!("`2 iron off` of {player}: ");
        assert_eq!(said.matches(&wanted).count(), 1, "{said}");
    }
    assert!(!said.contains("driver launch"), "{said}");
}

/// What is missing is told where the study names it.
#[test]
fn check_points_at_what_the_study_names_in_vain() {
    let text = "players = ['level:9', 'gone.toml', 'demo:nobody']\n\
                courses = [{ course = 'hole.toml', tees = 'gold' },\n\
                { course = 'hole.toml', pins = 'none.csv' }]\n\
                rules = ['built in', ['gone.rhai']]\ngoals = [5]\n";
    let place = Place::with(text);
    let checked = place.run(&["check", "study.toml"]);
    let said = told(&checked);
    for (wanted, at) in [
        ("gone.toml: there is no such file", "study.toml:1:23"),
        (
            "demo:nobody: there is no such demo player",
            "study.toml:1:36",
        ),
        (
            "hole.toml: there are no `gold` tees on this course",
            "study.toml:2:23",
        ),
        ("none.csv: there is no such file", "study.toml:3:12"),
        ("gone.rhai: there is no such file", "study.toml:4:23"),
    ] {
        let (_, from) = said
            .split_once(wanted)
            .unwrap_or_else(|| panic!("{wanted}: {said}"));
        let place = from.split("-->").nth(1).unwrap_or_default();
        assert!(place.trim_start().starts_with(at), "{wanted}: {said}");
    }
}
