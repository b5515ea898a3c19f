//! Reading users' text: TOML tables and CSV sheets, with every fault pointing at the text at fault.
//!
//! [`toml::read`] and [`sheet::read`] hand a reader to a closure, collect whatever it finds wrong, and return
//! either the closure's value or all faults of the file in order of position.
//!
//! ```
//! use costcard::files::{Source, toml};
//! let source = Source::new("my.toml", "name = 'Ann'\nhandicap = 'low'");
//! let faults = toml::read(&source, &["name", "handicap"], |file| {
//!     let name = file.need("name", "\"Ann\"").text();
//!     let handicap = file.need("handicap", "12.4").number(-10.0..=54.0, "");
//!     Some((name?, handicap?))
//! })
//! .unwrap_err();
//! assert_eq!(
//!     faults.to_string(),
//!     "my.toml:2:12: `handicap` must be a number, not 'low'\n\
//!      hint: write for instance `handicap = 12.4`"
//! );
//! ```

pub mod cell;
mod fault;
pub mod lines;
mod schema;
pub mod sheet;
mod source;
pub mod toml;

pub use fault::{Fault, Faults};
pub use source::{Position, Source, line_start};

pub(crate) use fault::Collector;

/// The word of `known` that `typed` most likely meant, if one is close.
#[must_use]
pub fn nearest<'a>(typed: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let typed = typed.to_lowercase();
    let length = typed.chars().count();
    let apart = |word: &str| {
        let lower = word.to_lowercase();
        let most = (word.chars().count() / 3).max(1);
        // Words are at least as far apart as their lengths, and comparing long ones takes long.
        if length.abs_diff(lower.chars().count()) > most {
            return None;
        }
        Some(strsim::damerau_levenshtein(&typed, &lower)).filter(|distance| *distance <= most)
    };
    known
        .into_iter()
        .filter_map(|word| Some((apart(word)?, word)))
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, word)| word)
}

/// A name as keys and columns are written: in small letters, its words joined by `_`.
#[must_use]
pub fn as_key(name: &str) -> String {
    name.to_lowercase().replace([' ', '-'], "_")
}

/// Words as a list for reading: `` `a`, `b` and `c` ``.
#[must_use]
pub fn listed(words: &[&str], last: &str) -> String {
    let quoted: Vec<String> = words.iter().map(|word| format!("`{word}`")).collect();
    joined(&quoted, last)
}

/// Words as a list for reading, without marks: `a, b and c`.
#[must_use]
pub fn joined<S: AsRef<str>>(words: &[S], last: &str) -> String {
    let words: Vec<&str> = words.iter().map(AsRef::as_ref).collect();
    match words.split_last() {
        None => String::new(),
        Some((only, [])) => (*only).to_owned(),
        Some((end, rest)) => format!("{} {last} {end}", rest.join(", ")),
    }
}
