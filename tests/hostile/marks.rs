//! Marks and letters of which the bytes are not what they seem: places told of them lie in the text, and nothing stops.

use std::fs;

use costcard::player::change::Change;

use crate::program::{costcard_in, text};

/// What a command says of files, each with its bytes.
fn said(files: &[(&str, &str)], arguments: &[&str]) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, content) in files {
        fs::write(folder.path().join(name), content).expect("written");
    }
    let output = costcard_in(folder.path(), arguments);
    let told = text(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{told}");
    told
}

/// Letters that are longer when they are small.
#[test]
fn letters_that_grow_are_no_amount() {
    for change in [
        "irons launch levelİİİİİİ",
        "irons launch LEVELİ",
        "irons launch leve",
    ] {
        assert!(change.parse::<Change>().is_err(), "{change}");
    }
    assert!("putting LEVEL 5".parse::<Change>().is_ok());
}

/// A mark of the byte order in the middle of a sheet, as two sheets have that were put together.
#[test]
fn a_mark_within_a_sheet_is_pointed_past() {
    let sheet = "club,ball_speed_mph,launch_deg,direction_deg,backspin_rpm,sidespin_rpm\n\
                 7 iron,105,17,0,6000,0\n\u{feff}7 iron,106,17,0,6100,L\n";
    let told = said(
        &[("bay.csv", sheet)],
        &[
            "fit",
            "bay.csv",
            "--player",
            "A",
            "--handicap",
            "12",
            "--out",
            "a.toml",
        ],
    );
    assert!(
        told.contains("sidespin must be a number, not `L`"),
        "{told}"
    );
    assert!(told.contains("bay.csv:3:23"), "{told}");
}

/// A text of a file that is written another way than it is read.
#[test]
fn a_change_in_escapes_is_pointed_at_as_a_whole() {
    let study = "players = [\"level:5\"]\ncourses = [\"demo:parkland\"]\n\
                 changes = [\"\\u0061dd club 56°    x\"]\n";
    let told = said(&[("study.toml", study)], &["check", "study.toml"]);
    assert!(told.contains("study.toml:3:12"), "{told}");
}

/// Lines that end with a carriage return alone.
#[test]
fn lines_are_counted_however_they_end() {
    for end in ["\r", "\r\n", "\n"] {
        let rows = [
            "date,course_rating,slope_rating,gross",
            "2026-01-01,70.1,120,80",
            "2026-01-03,70.1,120,80",
            "2026-01-02,70.1,120,80",
        ];
        let told = said(
            &[(
                "scores.csv",
                &rows.map(|row| format!("{row}{end}")).concat(),
            )],
            &["handicap", "scores.csv"],
        );
        assert!(told.contains("on line 3"), "{end:?}: {told}");
        assert!(told.contains("scores.csv:4:1"), "{end:?}: {told}");
        assert!(!told.contains("2026-01-01"), "{end:?}: {told}");
    }
}

/// A mark of the byte order before a map.
#[test]
fn a_map_may_begin_with_a_mark() {
    let json = "{\"elements\":[\n {\"type\":\"node\",\"id\":1,\"lat\":\"abc\",\"lon\":2}\n]}";
    let xml = "<osm>\n<node id='1' lat='abc' lon='2'/>\n</osm>";
    for (name, map) in [("map.json", json), ("map.osm", xml)] {
        let plain = said(&[(name, map)], &["import", name]);
        let marked = said(&[(name, &format!("\u{feff}{map}"))], &["import", name]);
        assert_eq!(plain, marked);
    }
}

/// Hundreds of islands, each a place to play to: what is forced on whoever plays there is found at once.
#[test]
fn hundreds_of_islands_are_looked_over_at_once() {
    let island = |at: usize| {
        let (x, y) = (10 * (at % 12) as i32 - 60, 24 + 10 * (at / 12));
        let (right, far) = (x + 8, y + 8);
        format!("[[{x},{y}],[{right},{y}],[{right},{far}],[{x},{far}]]")
    };
    let islands: Vec<String> = (0..492).map(island).collect();
    let water = format!(
        "areas = [{{ lie = 'water', outline_yd = [[-90,22],[90,22],[90,435],[-90,435]], islands_yd = [{}] }}]\n",
        islands.join(",")
    );
    let hole = "[[holes]]\npar = 5\nlength_yd = 480\ngreen = { depth_yd = 28, width_yd = 26 }\n";
    let course = format!("name = 'Isles'\n{hole}{water}");
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("isles.toml"), course).expect("written");
    let start = std::time::Instant::now();
    let output = costcard_in(folder.path(), &["check", "isles.toml", "--no-rating"]);
    assert!(output.status.success(), "{}", text(&output.stderr));
    assert!(start.elapsed() < super::PATIENCE, "{:?}", start.elapsed());
}
