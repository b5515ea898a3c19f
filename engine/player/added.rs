//! Shots that join those a player file was fitted to.

use super::batch::Input;
use super::file::Open;
use crate::files::Faults;
use crate::files::toml::{Entry, Table};

/// Reads what a fitted file says it was fitted to, and gives the shots that join it: behind the sheets it was fitted
/// to, since a pattern cannot be joined with shots, but shots can. None where nothing joins.
pub(super) fn with_fitted(
    file: &Table<'_>,
    open: Open<'_>,
    more: &[Input],
    of_sheet: &mut Faults,
) -> Vec<Input> {
    let fitted = file.may("fitted_to", "{ files = [\"may.csv\"] }");
    let table = fitted.free_table();
    if more.is_empty() {
        return Vec::new();
    }
    let names = table.map(|table| table.may("files", "[\"may.csv\"]").list());
    let names = names.flatten().unwrap_or_default();
    let mut inputs: Vec<Input> = names
        .iter()
        .filter_map(|name| sheet(name, open, of_sheet))
        .collect();
    inputs.extend_from_slice(more);
    inputs
}

/// One of the sheets; one that cannot be opened is told where it is named.
fn sheet(name: &Entry<'_>, open: Open<'_>, of_sheet: &mut Faults) -> Option<Input> {
    let path = name.text()?;
    match open(&path) {
        Ok(source) => Some(Input::Text(source)),
        Err(faults) => {
            let [only] = faults.list() else {
                of_sheet.extend(faults);
                return None;
            };
            name.note(
                format!(
                    "this file was fitted to the shots in \"{path}\", which cannot be read: {}",
                    only.message
                ),
                "new shots join those shots, not what was made of them: put the sheet beside this file".to_owned(),
            )
        }
    }
}
