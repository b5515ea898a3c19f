//! The demo score sheets that the program carries inside it.

use include_dir::{Dir, include_dir};

use crate::files::{Fault, Faults, Source, listed, nearest};

static SCORES: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/profiles/scores");

/// The names of the demo score sheets, in order of the alphabet.
#[must_use]
pub fn score_names() -> Vec<&'static str> {
    let mut names: Vec<&str> = SCORES
        .files()
        .filter_map(|file| file.path().file_name()?.to_str()?.strip_suffix(".csv"))
        .collect();
    names.sort_unstable();
    names
}

/// A demo score sheet by name, without `demo:`.
///
/// # Errors
/// When there is no such demo score sheet.
pub fn scores(name: &str) -> Result<Source, Faults> {
    let shown = format!("demo:{name}");
    SCORES
        .get_file(format!("{name}.csv"))
        .and_then(include_dir::File::contents_utf8)
        .map(|text| Source::new(&shown, text))
        .ok_or_else(|| unknown(&shown, name))
}

fn unknown(shown: &str, name: &str) -> Faults {
    let names = score_names();
    let hint = match nearest(name, names.iter().copied()) {
        Some(meant) => format!("did you mean `demo:{meant}`?"),
        None => format!("the demo score sheets are {}", listed(&names, "and")),
    };
    Fault {
        source: Source::new(shown, ""),
        span: None,
        message: "there is no such demo score sheet".to_owned(),
        hint: Some(hint),
    }
    .into()
}
