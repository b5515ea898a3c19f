//! What several tests share.

use costcard::course::Course;
use costcard::files::Source;
use costcard::player::{Golfer, Sex, levels};

/// A course from its text.
pub fn course(text: &str) -> Course {
    Course::read(&Source::new("test.toml", text)).unwrap_or_else(|faults| panic!("{faults}"))
}

/// A named level.
pub fn level(name: &str, sex: Sex) -> Golfer {
    levels::named(name, sex).unwrap_or_else(|error| panic!("{error}"))
}
