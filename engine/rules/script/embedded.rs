//! The example scripts that the program carries inside it.

use include_dir::{Dir, include_dir};

use crate::files::{Fault, Faults, Source, listed, nearest};

static SCRIPTS: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/scripts");

/// The names of the example scripts, without `.rhai`, in order of the alphabet.
#[must_use]
pub fn script_names() -> Vec<&'static str> {
    let mut names: Vec<&str> = SCRIPTS
        .files()
        .filter_map(|file| file.path().file_name()?.to_str()?.strip_suffix(".rhai"))
        .collect();
    names.sort_unstable();
    names
}

/// An example script by name, without `demo:`; `.rhai` may follow.
///
/// # Errors
/// When there is no such example.
pub fn script(name: &str) -> Result<Source, Faults> {
    let stem = name.strip_suffix(".rhai").unwrap_or(name);
    let text = SCRIPTS
        .get_file(format!("{stem}.rhai"))
        .and_then(include_dir::File::contents_utf8)
        .ok_or_else(|| unknown(name, stem))?;
    Ok(Source::new(&format!("demo:{stem}.rhai"), text))
}

fn unknown(name: &str, stem: &str) -> Faults {
    let names = script_names();
    let hint = match nearest(stem, names.iter().copied()) {
        Some(meant) => format!("did you mean `demo:{meant}.rhai`?"),
        None => format!("the example scripts are {}", listed(&names, "and")),
    };
    Fault {
        source: Source::new(&format!("demo:{name}"), ""),
        span: None,
        message: "there is no such example script".to_owned(),
        hint: Some(hint),
    }
    .into()
}
