//! The demo courses that the program carries inside it.

use include_dir::{Dir, include_dir};

use super::{Course, Setup};
use crate::files::{Fault, Faults, Source, listed, nearest};

static COURSES: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/profiles/courses");

/// The names of the demo courses, in order of the alphabet.
#[must_use]
pub fn course_names() -> Vec<&'static str> {
    let mut names: Vec<&str> = COURSES
        .files()
        .filter_map(|file| file.path().file_name()?.to_str()?.strip_suffix(".toml"))
        .collect();
    names.sort_unstable();
    names
}

/// A demo course by name, without `demo:`.
///
/// # Errors
/// When there is no such demo course.
pub fn course(name: &str) -> Result<Course, Faults> {
    course_as(name, &Setup::default())
}

/// A demo course set up for play.
///
/// # Errors
/// When there is no such demo course, or it cannot be set up so.
pub fn course_as(name: &str, setup: &Setup) -> Result<Course, Faults> {
    Course::read_as(&source(name)?, setup)
}

fn source(name: &str) -> Result<Source, Faults> {
    let shown = format!("demo:{name}");
    let text = COURSES
        .get_file(format!("{name}.toml"))
        .and_then(include_dir::File::contents_utf8)
        .ok_or_else(|| unknown(&shown, name))?;
    Ok(Source::new(&shown, text))
}

fn unknown(shown: &str, name: &str) -> Faults {
    let names = course_names();
    let hint = match nearest(name, names.iter().copied()) {
        Some(meant) => format!("did you mean `demo:{meant}`?"),
        None => format!("the demo courses are {}", listed(&names, "and")),
    };
    Fault {
        source: Source::new(shown, ""),
        span: None,
        message: "there is no such demo course".to_owned(),
        hint: Some(hint),
    }
    .into()
}
