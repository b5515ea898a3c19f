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
    insta::assert_snapshot!(told(&["play", "ann.toml", "demo:parkland"]), @"");
}

#[test]
fn a_missing_player_and_a_missing_course_are_told_at_once() {
    insta::assert_snapshot!(told(&["play", "demo:rowam", "home.toml"]), @"");
}

#[test]
fn broken_toml() {
    insta::assert_snapshot!(told_of("ann.toml", "name = \"Ann\nsex = \"men\"\n"), @"");
}

#[test]
fn an_unknown_key_and_a_number_out_of_range() {
    let text = "name = \"Ann\"\nhandicap = 12\nhandicap_index = 99\nsex = \"women\"\n";
    insta::assert_snapshot!(told_of("ann.toml", text), @"");
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
    insta::assert_snapshot!(told_by(&output), @"");
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
    insta::assert_snapshot!(told(&[&line[..], &["puting"]].concat()), @"");
    insta::assert_snapshot!(told(&[&line[..], &["swing"]].concat()), @"");
}

#[test]
fn a_goal_out_of_range_or_no_number() {
    let line = ["rank", "demo:rowan", "demo:parkland", "--goal"];
    insta::assert_snapshot!(told(&[&line[..], &["40"]].concat()), @"");
    insta::assert_snapshot!(told(&[&line[..], &["low"]].concat()), @"");
}

#[test]
fn an_unknown_demo() {
    insta::assert_snapshot!(told(&["play", "demo:ann", "demo:parkland"]), @"");
    insta::assert_snapshot!(told(&["play", "demo:rowan", "demo:links"]), @"");
    insta::assert_snapshot!(told(&["check", "demo:links"]), @"");
}

#[test]
fn a_level_that_does_not_exist() {
    insta::assert_snapshot!(told(&["play", "level:50", "demo:parkland"]), @"");
    insta::assert_snapshot!(told(&["play", "level:good", "demo:parkland"]), @"");
}

#[test]
fn a_player_and_a_course_in_the_wrong_order() {
    insta::assert_snapshot!(told(&["play", "demo:parkland", "demo:rowan"]), @"");
    insta::assert_snapshot!(told_of("home.toml", "name = \"Home\"\n[[holes]]\npar = 4\n"), @"");
}

#[test]
fn strikes_are_no_player() {
    insta::assert_snapshot!(told_of("ann.csv", "club,ball_speed_mph\ndriver,140\n"), @"");
}

#[test]
fn a_file_that_is_nothing_of_the_kind() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("letter"), "Dear Ann\n").expect("written");
    fs::write(folder.path().join("empty.toml"), "").expect("written");
    insta::assert_snapshot!(told_by(&costcard_in(folder.path(), &["check", "letter", "empty.toml"])), @"");
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
    insta::assert_snapshot!(told, @"");
}
