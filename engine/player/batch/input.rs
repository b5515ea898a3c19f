//! Where sheets come from, and what the user overrules.

use std::fmt;
use std::path::PathBuf;
use std::str::FromStr;
use std::sync::Arc;

use encoding_rs::Encoding;

use crate::files::lines::Lines;
use crate::files::{Fault, Faults, Source};

/// A sheet to be read.
#[derive(Debug, Clone)]
pub enum Input {
    /// A file, read as a stream.
    Path(PathBuf),
    /// A text in memory.
    Text(Source),
    /// The bytes of a file, in whatever encoding, under the name the user knows it by.
    Bytes(Arc<str>, Arc<[u8]>),
}

impl Input {
    /// What the user calls it.
    #[must_use]
    pub fn name(&self) -> Arc<str> {
        match self {
            Self::Path(path) => path.display().to_string().into(),
            Self::Text(source) => source.name.clone(),
            Self::Bytes(name, _) => name.clone(),
        }
    }

    pub(super) fn open(&self, encoding: Option<&'static Encoding>) -> Result<Lines, Faults> {
        match self {
            Self::Path(path) => Lines::open(path, encoding),
            Self::Text(source) => Ok(Lines::of(source)),
            Self::Bytes(name, bytes) => Ok(Lines::of_bytes(name, bytes, encoding)),
        }
    }

    /// A fault of one row, its text looked up again: only few rows of a stream are ever told of.
    pub(super) fn fault(
        &self,
        encoding: Option<&'static Encoding>,
        row: usize,
        message: String,
        hint: &str,
    ) -> Fault {
        let text = self.line(encoding, row).unwrap_or_default();
        Fault {
            span: Some(0..text.len()),
            source: Source::excerpt(&self.name(), &text, row),
            message,
            hint: Some(hint.to_owned()),
        }
    }

    fn line(&self, encoding: Option<&'static Encoding>, row: usize) -> Option<String> {
        let mut lines = self.open(encoding).ok()?;
        loop {
            let line = lines.next_line().ok()??;
            if line.number == row {
                return Some(line.text.to_owned());
            }
        }
    }
}

/// Rows whose screening the user overrules.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Overrule {
    /// Rows to keep, whatever the screening says.
    pub keep: Vec<RowName>,
    /// Rows to leave out, whatever it says.
    pub drop: Vec<RowName>,
}

impl Overrule {
    /// The rows that may be of this sheet, where each of several is read by itself.
    #[must_use]
    pub fn of_sheet(&self, file: &str) -> Self {
        let of_it = |rows: &[RowName]| {
            let rows = rows.iter().filter(|row| row.may_be_of(file));
            rows.cloned().collect()
        };
        Self {
            keep: of_it(&self.keep),
            drop: of_it(&self.drop),
        }
    }
}

/// A row as the user names it: `12`, or `may.csv:12` where there are several sheets.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RowName {
    /// The sheet; any when there is only one.
    pub file: Option<String>,
    /// Line of the file, from 1.
    pub row: usize,
}

impl FromStr for RowName {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let (file, row) = match text.rsplit_once(':') {
            Some((file, row)) => (Some(file.to_owned()), row),
            None => (None, text),
        };
        match row.trim().parse() {
            Ok(row) if row > 0 => Ok(Self { file, row }),
            _ => Err(format!(
                "`{text}` is no row: write its line in the sheet, as 12, or FILE.csv:12"
            )),
        }
    }
}

impl fmt::Display for RowName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.file {
            Some(file) => write!(f, "{file}:{}", self.row),
            None => write!(f, "{}", self.row),
        }
    }
}

impl RowName {
    /// Whether it names this row of this sheet.
    pub(super) fn names(&self, file: &str, row: usize) -> bool {
        self.row == row && self.may_be_of(file)
    }

    /// Whether it names a row of this sheet: by the sheet's whole name, or the last part of it.
    #[must_use]
    pub fn may_be_of(&self, file: &str) -> bool {
        let base = || file.rsplit(['/', '\\']).next();
        self.file
            .as_ref()
            .is_none_or(|named| named == file || base() == Some(named))
    }
}
