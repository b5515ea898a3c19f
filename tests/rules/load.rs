//! Where scripts are named, and which of them is in force.

#![allow(clippy::expect_used)] // a test may stop

use std::fs;
use std::path::Path;

use costcard::course::Course;
use costcard::files::{Faults, Source};
use costcard::rules::Rulebook;
use costcard::rules::script::load;

use super::{listener, silent};

const COURSE: &str = r#"
name = "Two"
rules = ["usual.rhai"]
[[holes]]
par = 3
length_yd = 150
green = { depth_yd = 30, width_yd = 26 }
rules = ["dead.rhai"]
[[holes]]
par = 3
length_yd = 150
green = { depth_yd = 30, width_yd = 26 }
"#;

/// A course and its scripts in a folder of their own, and scripts named with the command.
fn loaded(course: &str, scripts: &[(&str, &str)], named: &[&str]) -> Result<Rulebook, Faults> {
    let folder = tempfile::tempdir().unwrap_or_else(|error| panic!("{error}"));
    let at = |name: &str| folder.path().join(name);
    for (name, text) in scripts.iter().chain(&[("two.toml", course)]) {
        fs::write(at(name), text).unwrap_or_else(|error| panic!("{error}"));
    }
    let course = Course::read(&Source::read(Path::new(&at("two.toml")))?)?;
    let named: Vec<String> = named
        .iter()
        .map(|name| at(name).display().to_string())
        .collect();
    load(Some(&course), &named, &silent()).map_err(|faults| without(&faults, folder.path()))
}

/// Faults with the names of files alone.
fn without(faults: &Faults, folder: &Path) -> Faults {
    let prefix = format!("{}/", folder.display());
    let mut told = Faults::default();
    for fault in faults.list() {
        let mut fault = fault.clone();
        fault.source = Source::new(&fault.source.name.replace(&prefix, ""), &fault.source.text);
        fault.message = fault.message.replace(&prefix, "");
        told.extend(fault.into());
    }
    told
}

const USUAL: (&str, &str) = (
    "usual.rhai",
    "fn hold(landing, green) { usual_run(landing, green) }",
);
const DEAD: (&str, &str) = ("dead.rhai", "fn hold(landing, green) { 0 }");

fn told(result: Result<Rulebook, Faults>) -> String {
    result.map(|_| ()).expect_err("a fault").to_string()
}

#[test]
fn a_holes_script_stands_before_the_courses_and_the_commands_before_both() {
    let rules = loaded(COURSE, &[USUAL, DEAD], &[]).unwrap_or_else(|faults| panic!("{faults}"));
    assert_eq!(rules.files(), ["usual.rhai", "dead.rhai"]);
    let run = |rules: &Rulebook, hole| {
        let hold = rules
            .hole(hole)
            .hold
            .clone()
            .unwrap_or_else(|| panic!("a rule"));
        let landing = super::hold::seven_iron();
        let firmness = costcard::ball::turf::Firmness::MEDIUM;
        let both = costcard::rules::script::trial::on_level_green(&*hold, &landing, firmness, 10.0);
        both.unwrap_or_else(|faults| panic!("{faults}"))
            .0
            .along
            .yd()
    };
    assert_eq!(run(&rules, 0), 0.0);
    assert!(run(&rules, 1) > 5.0);
    let one = ("one.rhai", "fn hold(landing, green) { 1 }");
    let rules = loaded(COURSE, &[USUAL, DEAD, one], &["one.rhai"])
        .unwrap_or_else(|faults| panic!("{faults}"));
    assert_eq!((run(&rules, 0), run(&rules, 1)), (1.0, 1.0));
}

#[test]
fn a_missing_script_is_told_where_it_is_named() {
    let told = told(loaded(COURSE, &[USUAL], &[]));
    assert!(
        told.starts_with("two.toml:8:10: `dead.rhai`: there is no such file"),
        "{told}"
    );
}

#[test]
fn two_scripts_side_by_side_cannot_define_the_same_rule() {
    let course = COURSE.replace("[\"usual.rhai\"]", "[\"usual.rhai\", \"dead.rhai\"]");
    let told = told(loaded(&course, &[USUAL, DEAD], &[]));
    assert_eq!(
        told,
        "dead.rhai:1:4: `hold` is defined here and in usual.rhai\n\
         hint: name one of the two scripts, or put both rules into one function"
    );
}

#[test]
fn a_hole_cannot_order_the_parts_of_the_game() {
    let dead = ("dead.rhai", "fn worth(part) { 1 }");
    let told = told(loaded(COURSE, &[USUAL, dead], &[]));
    assert!(
        told.starts_with("dead.rhai:1:4: `worth` orders the whole game"),
        "{told}"
    );
}

#[test]
fn rules_are_a_list_of_texts() {
    for (rules, place) in [("\"usual.rhai\"", "two.toml:3:9"), ("[1]", "two.toml:3:10")] {
        let course = COURSE.replace("[\"usual.rhai\"]", rules);
        let told = told(loaded(&course, &[USUAL, DEAD], &[]));
        assert!(
            told.contains(&place[8..]) && told.contains("`rules` must be"),
            "{told}"
        );
    }
}

#[test]
fn what_scripts_print_is_heard() {
    let (print, heard) = listener();
    let source = Source::new(
        "p.rhai",
        "print(\"hello\"); fn worth(part) { print(part.name); 1 }",
    );
    let script = costcard::rules::script::Script::read(&source, &print)
        .unwrap_or_else(|faults| panic!("{faults}"));
    costcard::rules::script::trial::sound(&script).unwrap_or_else(|faults| panic!("{faults}"));
    let heard = heard
        .lock()
        .unwrap_or_else(|poisoned| poisoned.into_inner());
    assert_eq!(heard.first().map(String::as_str), Some("hello"));
    assert_eq!(heard.last().map(String::as_str), Some("putting"));
}
