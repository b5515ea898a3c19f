//! The demo map that the program carries inside it.

use include_dir::{Dir, include_dir};

use super::Map;
use crate::files::{Fault, Faults, Source, listed, nearest};

static MAPS: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/profiles/maps");

/// The names of the demo maps, in order of the alphabet.
#[must_use]
pub fn map_names() -> Vec<&'static str> {
    let mut names: Vec<&str> = MAPS
        .files()
        .filter_map(|file| file.path().file_name()?.to_str()?.strip_suffix(".osm"))
        .collect();
    names.sort_unstable();
    names
}

/// A demo map by name, without `demo:`.
///
/// # Errors
/// When there is no such demo map.
pub fn map(name: &str) -> Result<Map, Faults> {
    let shown = format!("demo:{name}");
    let text = MAPS
        .get_file(format!("{name}.osm"))
        .and_then(include_dir::File::contents_utf8)
        .ok_or_else(|| unknown(&shown, name))?;
    Map::of_text(&Source::new(&shown, text))
}

fn unknown(shown: &str, name: &str) -> Faults {
    let names = map_names();
    let hint = match nearest(name, names.iter().copied()) {
        Some(meant) => format!("did you mean `demo:{meant}`?"),
        None => format!("the demo maps are {}", listed(&names, "and")),
    };
    Fault {
        source: Source::new(shown, ""),
        span: None,
        message: "there is no such demo map".to_owned(),
        hint: Some(hint),
    }
    .into()
}
