//! What several tests share.

use std::path::Path;

use costcard::course::Course;
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
