//! What readers ask of a file, written down while they read: from it follows the schema of such files.
//!
//! Nothing is said twice. A reader that asks for `par` as a whole number from 3 to 6 says so once, to the file it reads;
//! [`outline`](fn@super::outline) lets the same reader read samples that show every key, and keeps what it asked.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

/// What one value may be.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Form {
    /// A number within a range.
    Number(f64, f64),
    /// A whole number within a range.
    Whole(u32, u32),
    /// Text.
    Text,
    /// One of a few words.
    Words(Vec<String>),
    /// Yes or no.
    YesNo,
    /// Two numbers, each within ± a limit.
    Point(f64),
    /// A list, whose parts stand under `[]`.
    List,
    /// A table.
    Table,
}

/// What readers ask at one place of a file.
#[derive(Debug, Clone, Default)]
pub(crate) struct Place {
    pub(crate) forms: Vec<Form>,
    /// A right value, as it would stand in the file.
    pub(crate) example: Option<&'static str>,
    /// What the comment beside it says in a sample.
    pub(crate) says: Option<String>,
    /// Of a table: the keys that may stand in it; none where the user chooses them.
    pub(crate) keys: Option<Vec<&'static str>>,
    /// Of a table: how many were read.
    read: usize,
    /// Of a table: the keys that must stand in it, each with those of the tables read in which that was asked.
    needed: BTreeMap<String, BTreeSet<usize>>,
}

impl Place {
    /// The keys that every table read there must have.
    pub(crate) fn required(&self) -> Vec<&str> {
        let always = |asked: &BTreeSet<usize>| asked.len() == self.read;
        let needed = self.needed.iter().filter(|(_, asked)| always(asked));
        needed.map(|(key, _)| key.as_str()).collect()
    }
}

/// What readers ask of a kind of file.
#[derive(Debug, Clone, Default)]
pub struct Outline {
    /// By path: keys with a `/` before each, `[]` for the parts of a list, `*` for a key that the user chooses.
    pub(crate) places: BTreeMap<String, Place>,
}

/// The parts of a list.
pub(crate) const PARTS: &str = "/[]";
/// A key the user chooses.
pub(crate) const ANY: &str = "*";

impl Outline {
    /// Adds what was asked of another sample of the same kind of file.
    #[must_use]
    pub fn and(mut self, other: Self) -> Self {
        for (path, more) in other.places {
            let place = self.places.entry(path).or_default();
            let before = place.read;
            for form in more.forms {
                place.add(form);
            }
            place.example = place.example.or(more.example);
            place.says = place.says.take().or(more.says);
            place.keys = place.keys.take().or(more.keys);
            place.read += more.read;
            for (key, asked) in more.needed {
                let shifted = asked.into_iter().map(|table| table + before);
                place.needed.entry(key).or_default().extend(shifted);
            }
        }
        self
    }

    /// The keys that may stand in the files but were asked of no sample, with the tables they belong to: there is none
    /// where the samples show everything.
    #[must_use]
    pub fn unseen(&self) -> Vec<String> {
        let of = |(path, place): (&String, &Place)| -> Vec<String> {
            let keys = place.keys.iter().flatten();
            let all = keys.map(|key| format!("{path}/{key}"));
            let is_unseen = |path: &String| {
                self.places
                    .get(path)
                    .is_none_or(|place| place.forms.is_empty())
            };
            all.filter(is_unseen).collect()
        };
        let is_shut =
            |(_, place): &(&String, &Place)| place.forms.contains(&Form::Table) && place.read == 0;
        let shut = self.places.iter().filter(is_shut);
        let shut = shut.map(|(path, _)| format!("{path}: no table"));
        self.places.iter().flat_map(of).chain(shut).collect()
    }

    pub(super) fn note(&mut self, path: &str, form: Form, example: &'static str) {
        let place = self.places.entry(path.to_owned()).or_default();
        place.add(form);
        if place.example.is_none() && !path.ends_with(PARTS) {
            place.example = Some(example);
        }
    }

    /// Notes what a comment says of a place.
    pub(super) fn says(&mut self, path: &str, comment: impl FnOnce() -> Option<String>) {
        let place = self.places.entry(path.to_owned()).or_default();
        if place.says.is_none() {
            place.says = comment();
        }
    }

    /// Notes that a table is read; the answer is which of those at its place it is.
    pub(super) fn open(&mut self, path: &str, keys: Option<&[&'static str]>) -> usize {
        let place = self.places.entry(path.to_owned()).or_default();
        if place.keys.is_none() {
            place.keys = keys.map(<[_]>::to_vec);
        }
        place.read += 1;
        place.read
    }

    pub(super) fn need(&mut self, path: &str, table: usize, key: &str) {
        let place = self.places.entry(path.to_owned()).or_default();
        place
            .needed
            .entry(key.to_owned())
            .or_default()
            .insert(table);
    }
}

impl Place {
    /// Adds a form; ranges of one kind are joined.
    fn add(&mut self, form: Form) {
        for known in &mut self.forms {
            match (known, &form) {
                (Form::Number(low, high), Form::Number(a, b)) => {
                    (*low, *high) = (low.min(*a), high.max(*b));
                    return;
                }
                (Form::Whole(low, high), Form::Whole(a, b)) => {
                    (*low, *high) = ((*low).min(*a), (*high).max(*b));
                    return;
                }
                (known, form) if known == form => return,
                _ => {}
            }
        }
        self.forms.push(form);
    }
}

/// The comment that stands beside a value, on the line it ends on.
pub(super) fn comment(text: &str, value: &Range<usize>) -> Option<String> {
    let line = text.get(value.end..)?.lines().next()?;
    let (between, comment) = line.split_once('#')?;
    let is_beside = between.trim().trim_end_matches(',').is_empty();
    let comment = comment.trim();
    (is_beside && !comment.is_empty()).then(|| comment.to_owned())
}
