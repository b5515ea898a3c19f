//! The level tables and the demo players that the program carries inside it.

use include_dir::{Dir, include_dir};

use super::Golfer;
use super::batch::Input;
use crate::files::{Fault, Faults, Source, listed, nearest};

static LEVELS: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/profiles/levels");
static PLAYERS: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/profiles/players");
static SHOTS: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/profiles/shots");

/// The level files, as sources named by where they stand in the project.
pub(super) fn levels() -> Vec<Source> {
    let text = |file: &include_dir::File<'_>| {
        file.path().extension().filter(|kind| *kind == "toml")?;
        let name = format!("profiles/levels/{}", file.path().display());
        Some(Source::new(&name, file.contents_utf8()?))
    };
    LEVELS.files().filter_map(text).collect()
}

/// The names of the demo players, in order of the alphabet.
#[must_use]
pub fn player_names() -> Vec<&'static str> {
    let mut names: Vec<&str> = PLAYERS
        .files()
        .filter_map(|file| file.path().file_name()?.to_str()?.strip_suffix(".toml"))
        .collect();
    names.sort_unstable();
    names
}

/// A demo player by name, without `demo:`.
///
/// # Errors
/// When there is no such demo player.
pub fn player(name: &str) -> Result<Golfer, Faults> {
    player_with(name, &[])
}

/// A demo player with more shots beside his own.
///
/// # Errors
/// When there is no such demo player; every fault of the shots.
pub fn player_with(name: &str, more: &[Input]) -> Result<Golfer, Faults> {
    let shown = format!("demo:{name}");
    let text = PLAYERS
        .get_file(format!("{name}.toml"))
        .and_then(include_dir::File::contents_utf8)
        .ok_or_else(|| unknown(&shown, name))?;
    Golfer::read_with(&Source::new(&shown, text), &shots, more)
}

/// Opens the sheet of a demo player by the path in the player's file.
fn shots(path: &str) -> Result<Source, Faults> {
    let file = path.rsplit('/').next().unwrap_or(path);
    SHOTS
        .get_file(file)
        .and_then(include_dir::File::contents_utf8)
        .map(|text| Source::new(&format!("demo:{file}"), text))
        .ok_or_else(|| missing(path, "there is no such demo file", None))
}

/// A demo sheet of shots, or the map of its columns, by file name, without `demo:`.
///
/// # Errors
/// When there is no such demo sheet.
pub fn sheet(name: &str) -> Result<Source, Faults> {
    let text = SHOTS
        .get_file(name)
        .and_then(include_dir::File::contents_utf8);
    let shown = format!("demo:{name}");
    text.map(|text| Source::new(&shown, text)).ok_or_else(|| {
        let files = SHOTS.files().filter_map(|file| file.path().to_str());
        let mut names: Vec<&str> = files.collect();
        names.sort_unstable();
        let hint = format!("the demo sheets are {}", listed(&names, "and"));
        missing(&shown, "there is no such demo sheet", Some(hint))
    })
}

fn unknown(shown: &str, name: &str) -> Faults {
    let names = player_names();
    let hint = match nearest(name, names.iter().copied()) {
        Some(meant) => format!("did you mean `demo:{meant}`?"),
        None => format!("the demo players are {}", listed(&names, "and")),
    };
    missing(shown, "there is no such demo player", Some(hint))
}

fn missing(name: &str, message: &str, hint: Option<String>) -> Faults {
    Fault {
        source: Source::new(name, ""),
        span: None,
        message: message.to_owned(),
        hint,
    }
    .into()
}
