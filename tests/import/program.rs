//! `import` as it is typed.

use serde_json::Value;

use super::sketch::Sketch;
use crate::program::{costcard_in, text, told_by};

/// A folder with maps in it.
fn folder(maps: &[(&str, &Sketch)]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, sketch) in maps {
        std::fs::write(folder.path().join(name), sketch.xml(1, false)).expect("written");
    }
    folder
}

fn one() -> Sketch {
    Sketch::default()
        .hole(1, &[(0.0, 0.0), (0.0, 300.0)], "par=4")
        .hole(2, &[(60.0, 300.0), (60.0, 150.0)], "par=3")
}

fn two() -> Sketch {
    one().hole(
        1,
        &[(5000.0, 0.0), (5000.0, 300.0)],
        "par=4|golf:course:name=Far",
    )
}

#[test]
fn import_then_check_then_play() {
    let folder = folder(&[("map.osm", &one())]);
    let words = [
        "import",
        "map.osm",
        "--out",
        "course.toml",
        "--firmness",
        "firm",
        "--stimp",
        "9.5",
    ];
    let output = costcard_in(folder.path(), &words);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    assert!(
        text(&output.stdout).starts_with("Course 1: 2 holes, par 7, 492 yd."),
        "{}",
        text(&output.stdout)
    );
    let course = std::fs::read_to_string(folder.path().join("course.toml")).expect("written");
    assert!(
        course.contains("firmness = \"firm\"") && course.contains("stimp_ft = 9.5"),
        "{course}"
    );
    let check = costcard_in(folder.path(), &["check", "course.toml"]);
    let told = text(&check.stdout);
    let read =
        "course.toml: course Course 1, 2 holes, par 7, 492 yd\n\nCourse 1, from the drawn tees.";
    assert!(told.starts_with(read), "{told}");
    let play = costcard_in(
        folder.path(),
        &[
            "play",
            "level:scratch",
            "course.toml",
            "--rounds",
            "50",
            "--json",
        ],
    );
    let play: Value = serde_json::from_slice(&play.stdout).expect("JSON");
    let score = play["score_mean"].as_f64().expect("a score");
    assert!((6.0..9.0).contains(&score), "{score}");
}

#[test]
fn json_tells_courses_holes_and_what_is_refused() {
    let folder = folder(&[(
        "map.osm",
        &one().line(&[(200.0, 0.0), (200.0, 200.0)], "golf=hole|ref=0"),
    )]);
    let output = costcard_in(folder.path(), &["import", "map.osm", "--json"]);
    let document: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(
        document["courses"],
        serde_json::json!([{"name": "Course 1", "holes": 2}])
    );
    let hole = &document["holes"][0];
    assert_eq!((&hole["number"], &hole["par"]), (&1.into(), &4.into()));
    assert_eq!(
        (&hole["par_from"], &hole["green_from"], &hole["tee_from"]),
        (&"tag".into(), &"outline".into(), &"line".into())
    );
    assert!(
        (hole["length_yd"].as_f64().expect("a length") - 328.1).abs() < 0.3,
        "{hole}"
    );
    assert!(
        hole["warnings"].as_array().is_some_and(Vec::is_empty),
        "{hole}"
    );
    assert_eq!(
        document["refused"][0]["why"],
        "holes are numbered from 1 to 36, not 0"
    );
    assert!(!folder.path().join("course.toml").exists());
}

#[test]
fn nothing_is_written_over_without_force() {
    let folder = folder(&[("map.osm", &one())]);
    let out = folder.path().join("course.toml");
    std::fs::write(&out, "mine").expect("written");
    let told = told_by(&costcard_in(
        folder.path(),
        &["import", "map.osm", "--out", "course.toml"],
    ));
    assert_eq!(
        told,
        "error: `course.toml` is there already\n\nhint: name another file, or write over it with `--force`\n"
    );
    assert_eq!(std::fs::read_to_string(&out).expect("there"), "mine");
    let forced = costcard_in(
        folder.path(),
        &["import", "map.osm", "--out", "course.toml", "--force"],
    );
    assert_eq!(forced.status.code(), Some(0));
    assert!(
        std::fs::read_to_string(&out)
            .expect("there")
            .contains("[[holes]]")
    );
}

#[test]
fn several_courses_are_never_mixed() {
    let folder = folder(&[("map.osm", &two())]);
    let told = told_by(&costcard_in(
        folder.path(),
        &["import", "map.osm", "--out", "course.toml"],
    ));
    assert_eq!(
        told,
        "error: this map holds 2 courses: Course 1 (2 holes) and Far (1 hole)\n\n\
         hint: say which with `--course`, by its name or its number in this list\n"
    );
    assert!(!folder.path().join("course.toml").exists());
    let list = costcard_in(folder.path(), &["import", "map.osm"]);
    assert!(
        text(&list.stdout).contains("1 Course 1") && text(&list.stdout).contains("2 Far"),
        "{}",
        text(&list.stdout)
    );
    let far = costcard_in(
        folder.path(),
        &["import", "map.osm", "--course", "far", "--json"],
    );
    let far: Value = serde_json::from_slice(&far.stdout).expect("JSON");
    assert_eq!(far["holes"].as_array().map(Vec::len), Some(1));
    let told = told_by(&costcard_in(
        folder.path(),
        &["import", "map.osm", "--course", "near"],
    ));
    assert!(
        told.starts_with("error: this map holds no course `near`"),
        "{told}"
    );
}

#[test]
fn a_map_without_a_hole_says_why_and_writes_nothing() {
    let bare =
        Sketch::default()
            .disc((0.0, 0.0), 13.0, "golf=green")
            .disc((40.0, 0.0), 5.0, "golf=tee");
    let folder = folder(&[("map.osm", &bare)]);
    let told = told_by(&costcard_in(
        folder.path(),
        &["import", "map.osm", "--out", "course.toml"],
    ));
    assert_eq!(
        told,
        "error: map.osm: no hole of this map can be played; nothing is written\n\n\
         hint: the map: no hole has a line of play, and no tee and green share a number; found 1 green, 1 tee\n"
    );
    let json = costcard_in(folder.path(), &["import", "map.osm", "--json"]);
    assert_eq!(json.status.code(), Some(2));
    let json: Value = serde_json::from_slice(&json.stdout).expect("JSON");
    assert_eq!(json["holes"], serde_json::json!([]));
    assert!(!folder.path().join("course.toml").exists());
}

#[test]
fn a_hostile_map_writes_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let map = "<?xml version=\"1.0\"?>\n<!DOCTYPE osm [<!ENTITY a \"ha\">]>\n<osm/>\n";
    std::fs::write(folder.path().join("map.osm"), map).expect("written");
    let told = told_by(&costcard_in(
        folder.path(),
        &["import", "map.osm", "--out", "course.toml"],
    ));
    assert!(
        told.starts_with("error: this file declares a document type, which no map does\n")
            && told.contains("map.osm:2:1"),
        "{told}"
    );
    let missing = told_by(&costcard_in(folder.path(), &["import", "mop.osm"]));
    assert!(
        missing.contains("there is no such file") && missing.contains("did you mean `map.osm`?"),
        "{missing}"
    );
    assert_eq!(
        std::fs::read_dir(folder.path()).expect("a folder").count(),
        1
    );
}

#[test]
fn metres_change_what_people_read_and_not_the_json() {
    let folder = folder(&[("map.osm", &one())]);
    let people = costcard_in(folder.path(), &["import", "map.osm", "--units", "metres"]);
    assert!(
        text(&people.stdout).starts_with("Course 1: 2 holes, par 7, 450 m."),
        "{}",
        text(&people.stdout)
    );
    let yards = costcard_in(folder.path(), &["import", "map.osm", "--json"]);
    let metres = costcard_in(
        folder.path(),
        &["import", "map.osm", "--json", "--units", "metres"],
    );
    assert_eq!(yards.stdout, metres.stdout);
}
