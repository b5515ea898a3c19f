//! Faults of input: stdout stays empty, stderr says the whole, the exit code is 2.

use std::fs;

use super::{costcard_in, told, told_by};

/// What `play` tells of a player file with this text.
fn told_of(file: &str, text: &str) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join(file), text).expect("written");
    told_by(&costcard_in(
        folder.path(),
        &["play", file, "demo:parkland"],
    ))
}

#[test]
fn a_missing_file() {
    insta::assert_snapshot!(told(&["play", "ann.toml", "demo:parkland"]), @"error: ann.toml: there is no such file");
}

#[test]
fn a_missing_player_and_a_missing_course_are_told_at_once() {
    insta::assert_snapshot!(told(&["play", "demo:rowam", "parkland"]), @r#"
    error: demo:rowam: there is no such demo player

    hint: did you mean `demo:rowan`?

    error: parkland: there is no such file

    hint: did you mean `demo:parkland`?
    "#);
}

#[test]
fn broken_toml() {
    insta::assert_snapshot!(told_of("ann.toml", "name = \"Ann\nsex = \"men\"\n"), @r#"
    error: broken TOML: invalid basic string
     --> ann.toml:1:12
      |
    1 | name = "Ann
      |            ^
      |
      = hint: close the text with the quote it began with
    "#);
}

#[test]
fn an_unknown_key_and_a_number_out_of_range() {
    let text = "name = \"Ann\"\nhandicap = 12\nhandicap_index = 99\nsex = \"women\"\n";
    insta::assert_snapshot!(told_of("ann.toml", text), @r#"
    error: there is no key `handicap` in this file
     --> ann.toml:2:1
      |
    2 | handicap = 12
      | ^^^^^^^^
      |
      = hint: the keys here are `name`, `description`, `handicap_index`, `sex`, `hand`, `figures`, `strikes`, `map`, `fitted_to`, `assumed_clubs`, `not_carried`, `loft_shift_deg`, `clubs`, `short_game`, `sand` and `putting`

    error: `handicap_index` must be a number from -6 to 54 (a plus handicap is negative), not 99
     --> ann.toml:3:18
      |
    3 | handicap_index = 99
      |                  ^^
      |
      = hint: write for instance `handicap_index = 12.4`
    "#);
}

#[test]
fn a_fault_in_the_sheet_a_player_names() {
    let folder = tempfile::tempdir().expect("a folder");
    let player = "name = \"Ann\"\nhandicap_index = 9\nsex = \"women\"\nstrikes = \"ann.csv\"\n";
    let sheet = "club,ball_speed_mph,launch_deg,direction_deg,backspin_rpm,sidespin_rpm\r\n\
                 driver,fast,12,0,2500,0\r\n";
    fs::write(folder.path().join("ann.toml"), player).expect("written");
    fs::write(folder.path().join("ann.csv"), sheet).expect("written");
    let output = costcard_in(
        folder.path(),
        &["rank", "ann.toml", "demo:parkland", "--goal", "5"],
    );
    insta::assert_snapshot!(told_by(&output), @r#"
    error: ball speed must be a number, not `fast`
     --> ann.csv:2:8
      |
    2 | driver,fast,12,0,2500,0
      |        ^^^^
      |
      = hint: write digits, with a `.` before decimals, or leave the cell empty when nothing was measured
    "#);
}

#[test]
fn an_unknown_part() {
    let line = [
        "rank",
        "demo:rowan",
        "demo:parkland",
        "--goal",
        "9",
        "--asked",
    ];
    insta::assert_snapshot!(told(&[&line[..], &["puting"]].concat()), @r#"
    error: `--asked` names no part of the game: `puting`

    hint: did you mean 'putting'? The parts are 'tee shots', 'long approach', 'mid irons', 'short irons', 'short game', 'sand' and 'putting'
    "#);
    insta::assert_snapshot!(told(&[&line[..], &["swing"]].concat()), @r#"
    error: `--asked` names no part of the game: `swing`

    hint: the parts are 'tee shots', 'long approach', 'mid irons', 'short irons', 'short game', 'sand' and 'putting'
    "#);
}

#[test]
fn a_goal_out_of_range_or_no_number() {
    let line = ["rank", "demo:rowan", "demo:parkland", "--goal"];
    insta::assert_snapshot!(told(&[&line[..], &["60"]].concat()), @r#"
    error: `--goal` is 60, but handicaps reach from -6 (a plus handicap is written negative) to 54

    hint: write a handicap index such as 9 or 5.4
    "#);
    insta::assert_snapshot!(told(&[&line[..], &["low"]].concat()), @r#"
    error: `--goal` must be a handicap index, not `low`

    hint: write a number such as 9 or 5.4, or `scratch` or `tour`
    "#);
}

#[test]
fn an_unknown_demo() {
    insta::assert_snapshot!(told(&["play", "demo:ann", "demo:parkland"]), @r#"
    error: demo:ann: there is no such demo player

    hint: the demo players are `dale`, `mika` and `rowan`
    "#);
    insta::assert_snapshot!(told(&["play", "demo:rowan", "demo:links"]), @r#"
    error: demo:links: there is no such demo course

    hint: the demo courses are `heathland` and `parkland`
    "#);
    insta::assert_snapshot!(told(&["check", "demo:links"]), @r#"
    error: demo:links: there is no such demo

    hint: the demos that are checked are `dale`, `mika`, `rowan`, `heathland`, `parkland` and `rowan-scores`
    "#);
}

#[test]
fn a_level_that_does_not_exist() {
    insta::assert_snapshot!(told(&["play", "level:60", "demo:parkland"]), @r#"
    error: `level:60` is beyond the levels

    hint: levels reach from -6 (a plus handicap is written negative) to 54
    "#);
    insta::assert_snapshot!(told(&["play", "level:good", "demo:parkland"]), @r#"
    error: `level:good` is no level

    hint: write `level:tour`, `level:scratch` or a handicap as `level:5`; for women `level:20:women`
    "#);
}

#[test]
fn a_player_and_a_course_in_the_wrong_order() {
    insta::assert_snapshot!(told(&["play", "demo:parkland", "demo:rowan"]), @r#"
    error: `demo:parkland` is a course and `demo:rowan` a player

    hint: the player comes first, then the course
    "#);
    insta::assert_snapshot!(told_of("home.toml", "name = \"Home\"\n[[holes]]\npar = 4\n"), @r#"
    error: home.toml: this is a course file, not a player

    hint: name a player file here; of a player and a course, the player comes first
    "#);
}

#[test]
fn strikes_are_no_player() {
    insta::assert_snapshot!(told_of("ann.csv", "club,ball_speed_mph\ndriver,140\n"), @r#"
    error: ann.csv: these are strikes, not a player

    hint: add the handicap index of who hit them, as `--handicap 12.4`; or make a player file of them with `costcard fit`
    "#);
}

#[test]
fn a_file_that_is_nothing_of_the_kind() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("letter"), "Dear Ann\n").expect("written");
    fs::write(folder.path().join("empty.toml"), "").expect("written");
    insta::assert_snapshot!(told_by(&costcard_in(folder.path(), &["check", "letter", "empty.toml"])), @r#"
    error: letter: this is neither a player, nor a course, nor a sheet of strikes or scores, nor a script

    hint: players and courses are TOML files of `key = value` lines, strikes and scores CSV files, scripts end in `.rhai`

    error: empty.toml: this file is empty

    hint: see `costcard --help` for what a command reads
    "#);
}

#[test]
fn a_sheet_two_players_share_is_told_once() {
    let folder = tempfile::tempdir().expect("a folder");
    let player = "name = \"Ann\"\nhandicap_index = 9\nsex = \"women\"\nstrikes = \"ann.csv\"\n";
    fs::write(folder.path().join("ann.toml"), player).expect("written");
    fs::write(folder.path().join("ann.csv"), "").expect("written");
    let told = told_by(&costcard_in(
        folder.path(),
        &["check", "ann.toml", "./ann.csv", "ann.toml"],
    ));
    insta::assert_snapshot!(told, @r#"
    error: this file is empty
     --> ann.csv:1:1
      |
    1 |
      | ^
      |
      = hint: its first line names the columns: club,ball_speed_mph,launch_deg,direction_deg,backspin_rpm,sidespin_rpm
    "#);
}
