//! The value of one key of a TOML file.

use std::ops::{Range, RangeInclusive};

use ::toml::{Spanned, de::DeValue};

use super::outline::comment;
use super::{Form, PARTS, Table};
use crate::files::{Collector, Source, listed, nearest};

/// How much of an offending value is quoted, characters.
const LONGEST_QUOTE: usize = 40;

/// What stands at a key, for the few that may be written in more than one way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A whole number or a decimal.
    Number,
    /// Text in quotes.
    Text,
    /// A list in brackets, or a list of tables.
    List,
    /// A table.
    Table,
    /// Yes, no, a date or a time.
    Other,
}

/// The value of one key, there or not. Each way to take it gives `None` when it is absent or at fault, and has noted
/// the fault.
#[derive(Debug)]
pub struct Entry<'a> {
    pub(super) collector: &'a Collector,
    pub(super) key: String,
    /// Where it stands, while it is written down what is asked.
    pub(super) path: Option<String>,
    pub(super) example: &'static str,
    pub(super) value: Option<&'a Spanned<DeValue<'a>>>,
}

impl<'a> Entry<'a> {
    /// What stands there, if anything.
    #[must_use]
    pub fn kind(&self) -> Option<Kind> {
        Some(match self.value?.get_ref() {
            DeValue::Integer(_) | DeValue::Float(_) => Kind::Number,
            DeValue::String(_) => Kind::Text,
            DeValue::Array(_) => Kind::List,
            DeValue::Table(_) => Kind::Table,
            DeValue::Boolean(_) | DeValue::Datetime(_) => Kind::Other,
        })
    }

    /// Where the value stands; nowhere when it is absent.
    #[must_use]
    pub fn span(&self) -> Option<Range<usize>> {
        self.value.map(Spanned::span)
    }

    /// The text it stands in.
    pub(crate) fn source(&self) -> &'a Source {
        self.collector.source()
    }

    /// Writes down what is asked, where that is kept.
    fn asked(&self, form: impl FnOnce() -> Form) {
        let Some(path) = &self.path else { return };
        let text = &self.source().text;
        self.collector.outline(|outline| {
            outline.note(path, form(), self.example);
            outline.says(path, || comment(text, &self.span()?));
        });
    }

    /// A part of this list.
    fn part(&self, value: &'a Spanned<DeValue<'a>>) -> Self {
        Self {
            value: Some(value),
            key: self.key.clone(),
            path: self.path.as_ref().map(|path| format!("{path}{PARTS}")),
            ..*self
        }
    }

    /// Text, not empty.
    #[must_use]
    pub fn text(&self) -> Option<String> {
        self.asked(|| Form::Text);
        match self.value?.get_ref() {
            DeValue::String(text) if !text.trim().is_empty() => Some(text.trim().to_owned()),
            _ => self.wrong("text in quotes"),
        }
    }

    /// A number within a range; `unit` is what it is counted in, as `yards`, or empty.
    #[must_use]
    pub fn number(&self, range: RangeInclusive<f64>, unit: &str) -> Option<f64> {
        self.asked(|| Form::Number(*range.start(), *range.end()));
        let Some(number) = self.bare_number() else {
            return self.value.and_then(|_| self.wrong("a number"));
        };
        if range.contains(&number) {
            return Some(number);
        }
        let (low, high) = (range.start(), range.end());
        let is_example_out = self
            .example
            .parse()
            .is_ok_and(|example| !range.contains(&example));
        let unit = if unit.is_empty() {
            String::new()
        } else {
            format!(" {unit}")
        };
        let must = format!("a number from {low} to {high}{unit}");
        match is_example_out {
            // What else would do is known only here.
            true => self.note(
                format!("`{}` must be {must}, not {}", self.key, self.quote()),
                format!("write one from {low} to {high}"),
            ),
            false => self.wrong(&must),
        }
    }

    /// A whole number within a range.
    #[must_use]
    pub fn whole(&self, range: RangeInclusive<u32>) -> Option<u32> {
        self.asked(|| Form::Whole(*range.start(), *range.end()));
        self.value?;
        self.bare_whole()
            .and_then(|number| u32::try_from(number).ok())
            .filter(|number| range.contains(number))
            .or_else(|| {
                self.wrong(&format!(
                    "a whole number from {} to {}",
                    range.start(),
                    range.end()
                ))
            })
    }

    /// `true` or `false`.
    #[must_use]
    pub fn yes_no(&self) -> Option<bool> {
        self.asked(|| Form::YesNo);
        match self.value?.get_ref() {
            DeValue::Boolean(value) => Some(*value),
            _ => self.wrong("`true` or `false`"),
        }
    }

    /// One of a few words, each with what it stands for.
    #[must_use]
    pub fn word<T: Copy>(&self, words: &[(&str, T)]) -> Option<T> {
        let names: Vec<&str> = words.iter().map(|(name, _)| *name).collect();
        self.asked(|| Form::Words(names.iter().map(|name| (*name).to_owned()).collect()));
        let DeValue::String(typed) = self.value?.get_ref() else {
            return self.wrong(&format!("one of {}", listed(&names, "and")));
        };
        let found = words
            .iter()
            .find(|(name, _)| *name == typed.trim())
            .map(|(_, meaning)| *meaning);
        found.or_else(|| {
            let message = format!("`{}` cannot be {}", self.key, self.quote());
            let hint = match nearest(typed, names.iter().copied()) {
                Some(meant) => format!("did you mean \"{meant}\"?"),
                None => format!("write one of {}", listed(&names, "and")),
            };
            self.note(message, hint)
        })
    }

    /// A number within a range, or one of a few words for such numbers.
    #[must_use]
    pub fn number_or_word(
        &self,
        range: RangeInclusive<f64>,
        unit: &str,
        words: &[(&str, f64)],
    ) -> Option<f64> {
        self.asked(|| Form::Words(words.iter().map(|(name, _)| (*name).to_owned()).collect()));
        self.asked(|| Form::Number(*range.start(), *range.end()));
        match self.kind()? {
            Kind::Number => self.number(range, unit),
            Kind::Text => self.word(words),
            _ => {
                let names: Vec<&str> = words.iter().map(|(name, _)| *name).collect();
                self.wrong(&format!("{} or a number", listed(&names, "or")))
            }
        }
    }

    /// A list; its parts take their place and example from it.
    #[must_use]
    pub fn list(&self) -> Option<Vec<Entry<'a>>> {
        self.asked(|| Form::List);
        let DeValue::Array(values) = self.value?.get_ref() else {
            return self.wrong("a list in brackets");
        };
        Some(values.iter().map(|value| self.part(value)).collect())
    }

    /// A list of points `[x, y]`, each coordinate within ±`limit`.
    #[must_use]
    pub fn points(&self, limit: f64) -> Option<Vec<[f64; 2]>> {
        // All points are read before any fault ends the reading, so that each is told.
        let points: Vec<_> = self
            .list()?
            .iter()
            .map(|point| point.point(limit))
            .collect();
        points.into_iter().collect()
    }

    /// A point `[x, y]`, each coordinate within ±`limit`.
    #[must_use]
    pub fn point(&self, limit: f64) -> Option<[f64; 2]> {
        self.asked(|| Form::Point(limit));
        let numbers = match self.value?.get_ref() {
            DeValue::Array(values) if values.len() == 2 => {
                let part = |value| self.part(value).bare_number();
                values.iter().map(part).collect::<Option<Vec<f64>>>()
            }
            _ => None,
        };
        match numbers.as_deref() {
            Some(&[x, y]) if x.abs() <= limit && y.abs() <= limit => Some([x, y]),
            Some(_) => self.note_point(&format!(
                "a point of `{}` lies more than {limit} away",
                self.key
            )),
            None => self.note_point(&format!("a point of `{}` must be two numbers", self.key)),
        }
    }

    fn note_point<T>(&self, message: &str) -> Option<T> {
        self.note(format!("{message}: {}", self.quote()), self.advice())
    }

    /// A table in which only `keys` may stand.
    #[must_use]
    pub fn table(&self, keys: &[&'static str]) -> Option<Table<'a>> {
        self.open(Some(keys))
    }

    /// A table whose keys the user chooses.
    #[must_use]
    pub fn free_table(&self) -> Option<Table<'a>> {
        self.open(None)
    }

    fn open(&self, keys: Option<&[&'static str]>) -> Option<Table<'a>> {
        self.asked(|| Form::Table);
        let value = self.value?;
        match value.get_ref() {
            DeValue::Table(table) => Some(Table::open(
                self.collector,
                table,
                value.span(),
                format!("`{}`", self.key),
                keys,
                self.path.clone(),
            )),
            _ => self.wrong("a table"),
        }
    }

    /// A list of tables in which only `keys` may stand; empty when it is left out.
    #[must_use]
    pub fn tables(&self, keys: &[&'static str]) -> Vec<Table<'a>> {
        self.asked(|| Form::List);
        if self.value.is_none() {
            return Vec::new();
        }
        self.list()
            .unwrap_or_default()
            .iter()
            .filter_map(|entry| entry.open(Some(keys)))
            .collect()
    }

    /// Notes that the value itself is at fault.
    pub fn note<T>(&self, message: String, hint: String) -> Option<T> {
        self.collector.add(self.span()?, message, Some(hint));
        None
    }

    /// A whole number, if one stands there; nothing is noted where none does.
    pub(crate) fn bare_whole(&self) -> Option<i64> {
        match self.value?.get_ref() {
            DeValue::Integer(integer) => {
                i64::from_str_radix(integer.as_str(), integer.radix()).ok()
            }
            _ => None,
        }
    }

    /// A number, if one stands there; nothing is noted where none does.
    pub(crate) fn bare_number(&self) -> Option<f64> {
        let number = match self.value?.get_ref() {
            DeValue::Integer(integer) => {
                i64::from_str_radix(integer.as_str(), integer.radix()).ok()? as f64
            }
            DeValue::Float(float) => float.as_str().parse().ok()?,
            _ => return None,
        };
        number.is_finite().then_some(number)
    }

    fn wrong<T>(&self, must: &str) -> Option<T> {
        self.note(
            format!("`{}` must be {must}, not {}", self.key, self.quote()),
            self.advice(),
        )
    }

    fn advice(&self) -> String {
        format!("write for instance `{} = {}`", self.key, self.example)
    }

    /// The offending text, on one line and not too long.
    fn quote(&self) -> String {
        let text = self
            .span()
            .and_then(|span| self.collector.source().text.get(span))
            .unwrap_or_default();
        let line = text.lines().next().unwrap_or_default();
        if line.chars().count() <= LONGEST_QUOTE && line.len() == text.len() {
            return line.to_owned();
        }
        let start: String = line.chars().take(LONGEST_QUOTE).collect();
        format!("{start}…")
    }
}
