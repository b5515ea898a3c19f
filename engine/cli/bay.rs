//! From sheets of shots, as they were typed, to a fitted player.

use std::path::{Path, PathBuf};

use costcard::files::{Faults, Source};
use costcard::player::batch::{ColumnMap, Input, Overrule};
use costcard::player::bay::{BayFault, FittedPlayer, Who};
use costcard::player::{embedded, levels};

use super::args::{Hand, SheetArgs};
use super::kind::whole_file;
use super::load::{self, DEMO};
use super::usage::Usage;

/// Reads and fits sheets.
pub fn fitted(
    sheets: &[String],
    name: &str,
    handicap: &str,
    how: &SheetArgs,
    overrule: &Overrule,
) -> anyhow::Result<FittedPlayer> {
    let who = who(name, handicap, how)?;
    let inputs: Result<Vec<Input>, Faults> = sheets.iter().map(|sheet| input(sheet)).collect();
    let map = how.map.as_ref().map(|path| column_map(path)).transpose()?;
    FittedPlayer::fit(who, inputs?, map.unwrap_or_default(), overrule).map_err(
        |fault| match fault {
            BayFault::Sheets(faults) => faults.into(),
            other => other.into(),
        },
    )
}

/// Who hit the shots.
pub fn who(name: &str, handicap: &str, how: &SheetArgs) -> Result<Who, Usage> {
    let level = levels::named(handicap, how.sex.into())
        .map_err(|error| load::no_handicap("--handicap", handicap, error))?;
    Ok(Who {
        name: name.to_owned(),
        handicap: level.handicap,
        sex: how.sex.into(),
        left_handed: how.hand == Hand::Left,
    })
}

/// A sheet: a file, read as a stream, or one the program carries.
pub fn input(text: &str) -> Result<Input, Faults> {
    match text.strip_prefix(DEMO) {
        Some(name) => embedded::sheet(name).map(Input::Text),
        None if text.to_lowercase().ends_with(".toml") => Err(whole_file(
            &Source::new(text, ""),
            "this is no sheet of shots".to_owned(),
            "a sheet is a CSV file with a row for each shot; a player file goes to `rank`, `clubs` or `try`".to_owned(),
        )),
        None => Ok(Input::Path(PathBuf::from(text))),
    }
}

/// A column map: a file, or one the program carries.
pub fn column_map(path: &Path) -> Result<ColumnMap, Faults> {
    let demo = path.to_str().and_then(|text| text.strip_prefix(DEMO));
    let source = match demo {
        Some(name) => embedded::sheet(name),
        None => Source::read(path),
    };
    ColumnMap::read(&source?)
}

/// Whether the rows named, to be kept or dropped, say which of several sheets they are of.
pub fn overrule(overrule: Overrule, sheets: usize) -> Result<Overrule, Usage> {
    let mut named = overrule.keep.iter().chain(&overrule.drop);
    match named.find(|row| sheets > 1 && row.file.is_none()) {
        None => Ok(overrule),
        Some(row) => Err(Usage {
            message: format!("row {row} could be of any of the {sheets} sheets"),
            hint: format!("write the sheet before it, as `may.csv:{row}`"),
        }),
    }
}
