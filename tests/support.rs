//! What several tests share.

use std::path::Path;

use costcard::course::{Course, Ratings};
use costcard::files::Source;
use costcard::player::{Golfer, Sex, embedded, levels};

/// A course from its text.
pub fn course(text: &str) -> Course {
    Course::read(&Source::new("test.toml", text)).unwrap_or_else(|faults| panic!("{faults}"))
}

/// A demo course.
pub fn demo_course(name: &str) -> Course {
    let path = format!(
        "{}/profiles/courses/{name}.toml",
        env!("CARGO_MANIFEST_DIR")
    );
    let source = Source::read(Path::new(&path)).unwrap_or_else(|faults| panic!("{faults}"));
    Course::read(&source).unwrap_or_else(|faults| panic!("{faults}"))
}

/// A course without the ratings it states, so that it is rated by play.
pub fn unrated(course: Course) -> Course {
    Course {
        ratings: Ratings::default(),
        ..course
    }
}

/// Both demo courses.
pub fn demo_courses() -> [Course; 2] {
    ["parkland", "heathland"].map(demo_course)
}

/// A demo player.
pub fn demo_player(name: &str) -> Golfer {
    embedded::player(name).unwrap_or_else(|faults| panic!("{faults}"))
}

/// A named level.
pub fn level(name: &str, sex: Sex) -> Golfer {
    levels::named(name, sex).unwrap_or_else(|error| panic!("{error}"))
}

/// The first holes of the neutral ground (tests/data/neutral.toml), made this long in all.
pub fn neutral_course(holes: usize, length_yd: f64) -> Course {
    let text = include_str!("data/neutral.toml");
    let mut parts = text.split("[[holes]]");
    let mut made = parts.next().unwrap_or_default().to_owned();
    let chosen: Vec<&str> = parts.take(holes).collect();
    let yards = |line: &str| -> Option<f64> { line.strip_prefix("length_yd = ")?.parse().ok() };
    let lines = |hole: &&str| hole.lines().filter_map(yards).sum::<f64>();
    let scale = length_yd / chosen.iter().map(lines).sum::<f64>();
    for hole in chosen {
        made += "[[holes]]\n";
        for line in hole.lines() {
            made += &match yards(line) {
                Some(yards) => format!("length_yd = {:.1}\n", yards * scale),
                None => format!("{line}\n"),
            };
        }
    }
    course(&made)
}

/// Whether tests that lack a tool must fail.
fn is_ci() -> bool {
    std::env::var_os("CI").is_some_and(|set| !set.is_empty() && set != "false")
}

/// Says that something a test needs is missing; in CI that is a failure.
pub fn missing<T>(what: &str) -> Option<T> {
    assert!(!is_ci(), "{what}: in CI it must be there");
    println!("skipped: {what}");
    None
}
