//! One table of a TOML file.

use std::ops::Range;

use ::toml::de::DeTable;

use super::{ANY, Entry};
use crate::files::{Collector, listed, nearest};

/// One table of a TOML file, with the keys that may stand in it.
#[derive(Debug)]
pub struct Table<'a> {
    collector: &'a Collector,
    table: &'a DeTable<'a>,
    span: Range<usize>,
    label: String,
    /// Keys that were misspelt, by the key each was taken for: their absence is no second fault.
    misspelt: Vec<&'static str>,
    /// Where it stands, and which of those there it is, while it is written down what is asked.
    place: Option<(String, usize)>,
    /// Whether the user chooses its keys.
    is_free: bool,
}

impl<'a> Table<'a> {
    /// Opens a table and notes its unknown keys; with no list of keys, any may stand in it.
    pub(super) fn open(
        collector: &'a Collector,
        table: &'a DeTable<'a>,
        span: Range<usize>,
        label: String,
        keys: Option<&[&'static str]>,
        path: Option<String>,
    ) -> Self {
        let place = path.and_then(|path| {
            let number = collector.outline(|outline| outline.open(&path, keys))?;
            Some((path, number))
        });
        let mut opened = Self {
            collector,
            table,
            span,
            label,
            misspelt: Vec::new(),
            place,
            is_free: keys.is_none(),
        };
        for (key, span) in opened.keys() {
            if let Some(known) = keys.filter(|known| !known.contains(&key)) {
                opened.note_unknown(key, span, known);
            }
        }
        opened
    }

    fn note_unknown(&mut self, key: &str, span: Range<usize>, known: &[&'static str]) {
        let in_yards = key.strip_suffix("_m").map(|plain| format!("{plain}_yd"));
        let hint = match nearest(key, known.iter().copied()) {
            Some(meant) => {
                let taken_for = known.iter().copied().filter(|known| *known == meant);
                self.misspelt.extend(taken_for);
                match in_yards.as_deref() == Some(meant) {
                    true => format!(
                        "lengths are in yards here: write `{meant}`, and 1.094 yards for each metre"
                    ),
                    false => format!("did you mean `{meant}`?"),
                }
            }
            None => format!("the keys here are {}", listed(known, "and")),
        };
        self.fault(
            span,
            format!("there is no key `{key}` in {}", self.label),
            &hint,
        );
    }

    /// Names the table in messages, as `hole 3` rather than `` `holes` ``.
    #[must_use]
    pub fn called(mut self, label: &str) -> Self {
        label.clone_into(&mut self.label);
        self
    }

    /// What the table is called in messages.
    #[must_use]
    pub fn label(&self) -> &str {
        &self.label
    }

    /// The keys that stand in the table, each with its place, in the order of the file.
    #[must_use]
    pub fn keys(&self) -> Vec<(&'a str, Range<usize>)> {
        let table = self.table;
        let mut keys: Vec<_> = table
            .keys()
            .map(|key| (key.get_ref().as_ref(), key.span()))
            .collect();
        keys.sort_by_key(|(_, span)| span.start);
        keys
    }

    /// Whether a key stands in the table.
    #[must_use]
    pub fn has(&self, key: &str) -> bool {
        self.table.contains_key(key)
    }

    /// The value of a key that must be there; `example` is a right value as it would stand in the file.
    #[must_use]
    pub fn need(&self, key: &str, example: &'static str) -> Entry<'a> {
        if !self.has(key) && !self.misspelt.contains(&key) {
            let hint = format!("write for instance `{key} = {example}`");
            self.fault(
                self.span.clone(),
                format!("`{key}` is missing in {}", self.label),
                &hint,
            );
        }
        if let Some((path, table)) = &self.place {
            self.collector
                .outline(|outline| outline.need(path, *table, key));
        }
        self.may(key, example)
    }

    /// The value of a key that may be left out; `example` is a right value as it would stand in the file.
    #[must_use]
    pub fn may(&self, key: &str, example: &'static str) -> Entry<'a> {
        let value = self.table.get(key);
        let path = self.place.as_ref().map(|(path, _)| {
            let key = if self.is_free { ANY } else { key };
            format!("{path}/{key}")
        });
        Entry {
            path,
            collector: self.collector,
            key: key.to_owned(),
            example,
            value,
        }
    }

    /// Where a key's value stands; where the table begins when the key is left out.
    #[must_use]
    pub fn place(&self, key: &str) -> Range<usize> {
        self.table
            .get(key)
            .map_or_else(|| self.span.clone(), ::toml::Spanned::span)
    }

    /// Where the table begins.
    #[must_use]
    pub fn span(&self) -> Range<usize> {
        self.span.clone()
    }

    /// Notes a fault that only several values together show; an empty hint is none.
    pub fn fault(&self, span: Range<usize>, message: String, hint: &str) {
        self.collector.add(
            span,
            message,
            Some(hint.to_owned()).filter(|hint| !hint.is_empty()),
        );
    }
}
