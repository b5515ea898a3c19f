//! A text to be read, under the name the user knows it by.

use std::{
    fs::{self, File},
    io::{ErrorKind, Read},
    ops::Range,
    path::Path,
    sync::Arc,
};

use encoding_rs::{Encoding, UTF_8};

use super::{Fault, Faults, nearest};

/// The longest file read, bytes. A course or a player takes kilobytes, a season of strikes a few megabytes.
const LONGEST_BYTES: u64 = 64 * 1024 * 1024;

/// A text to be read, under the name the user knows it by. Cheap to clone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Source {
    /// As the user typed it: a path, or `demo:NAME`.
    pub name: Arc<str>,
    /// The whole text, without a byte-order mark, or the lines of it that are told of.
    pub text: Arc<str>,
    /// Lines of the file before the text.
    lines_before: usize,
}

/// A place in a text, counted as an editor does: from 1, in characters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Position {
    /// Line, from 1.
    pub line: usize,
    /// Character of the line, from 1.
    pub column: usize,
}

impl Source {
    /// A text already in memory.
    #[must_use]
    pub fn new(name: &str, text: &str) -> Self {
        Self {
            name: name.into(),
            text: text.strip_prefix('\u{feff}').unwrap_or(text).into(),
            lines_before: 0,
        }
    }

    /// A few lines of a file that is read as a stream, the first of them with its number.
    #[must_use]
    pub fn excerpt(name: &str, text: &str, first_line: usize) -> Self {
        Self {
            name: name.into(),
            // As it is: places are counted in it from its first byte on, whatever that is.
            text: text.into(),
            lines_before: first_line.saturating_sub(1),
        }
    }

    /// Reads a file of UTF-8 or UTF-16.
    ///
    /// # Errors
    /// When there is no such file, it is a folder, it cannot be read, is larger than 64 MB, or is not text.
    pub fn read(path: &Path) -> Result<Self, Faults> {
        let name = path.display().to_string();
        let mut bytes = Vec::new();
        if path.is_dir() {
            return Err(cannot_open(path, &ErrorKind::IsADirectory.into()));
        }
        File::open(path)
            .and_then(|file| file.take(LONGEST_BYTES + 1).read_to_end(&mut bytes))
            .map_err(|error| cannot_open(path, &error))?;
        if bytes.len() as u64 > LONGEST_BYTES {
            let message = "this file is larger than 64 MB".to_owned();
            return Err(whole(&name, message, None));
        }
        Self::of_bytes(&name, bytes)
    }

    /// The text of a file that was read already, UTF-8 or UTF-16.
    ///
    /// # Errors
    /// When it is not text.
    pub fn of_bytes(name: &str, bytes: Vec<u8>) -> Result<Self, Faults> {
        if let Some((wide, _)) = Encoding::for_bom(&bytes).filter(|(marked, _)| *marked != UTF_8) {
            let (text, _, _) = wide.decode(&bytes);
            return Ok(Self::new(name, &text));
        }
        match String::from_utf8(bytes) {
            Ok(text) => Ok(Self::new(name, &text)),
            Err(error) => Err(not_text(
                name,
                error.as_bytes(),
                error.utf8_error().valid_up_to(),
            )),
        }
    }

    /// Where a byte of the text is.
    #[must_use]
    pub fn position(&self, byte: usize) -> Position {
        let byte = self.text.floor_char_boundary(byte);
        let line_start = line_start(&self.text, byte);
        Position {
            line: self.lines_before + lines_ended(&self.text, 0..byte) + 1,
            column: self.text[line_start..byte].chars().count() + 1,
        }
    }
}

/// How many lines end within a range of a text: by a line feed, by a carriage return, or by both in a row.
#[must_use]
pub(super) fn lines_ended(text: &str, range: Range<usize>) -> usize {
    range.filter(|at| ends_line(text, *at)).count()
}

/// Where the line begins on which a byte of a text stands.
#[must_use]
pub fn line_start(text: &str, byte: usize) -> usize {
    let ends = (0..byte).rev().find(|at| ends_line(text, *at));
    ends.map_or(0, |at| at + 1)
}

/// Whether a line ends with this byte.
fn ends_line(text: &str, at: usize) -> bool {
    let byte = |at: usize| text.as_bytes().get(at).copied();
    byte(at) == Some(b'\n') || byte(at) == Some(b'\r') && byte(at + 1) != Some(b'\n')
}

/// A fault of a file as a whole.
fn whole(name: &str, message: String, hint: Option<String>) -> Faults {
    Faults::from(Fault {
        source: Source::new(name, ""),
        span: None,
        message,
        hint,
    })
}

/// The fault of a file that cannot be opened or read.
pub(super) fn cannot_open(path: &Path, error: &std::io::Error) -> Faults {
    let (message, hint) = match error.kind() {
        ErrorKind::NotFound => ("there is no such file".to_owned(), near_file(path)),
        ErrorKind::PermissionDenied => ("you may not read this file".to_owned(), None),
        ErrorKind::IsADirectory => (
            "this is a folder, not a file".to_owned(),
            Some("name a file in it".to_owned()),
        ),
        _ => (format!("this file cannot be read: {error}"), None),
    };
    whole(&path.display().to_string(), message, hint)
}

/// The fault of bytes that are no UTF-8, pointing at the first of them.
fn not_text(name: &str, bytes: &[u8], good: usize) -> Faults {
    let source = Source::new(name, &String::from_utf8_lossy(bytes));
    // Everything before the first bad byte is kept as it is, save a byte-order mark that `new` takes off.
    let mark = if bytes.starts_with("\u{feff}".as_bytes()) {
        3
    } else {
        0
    };
    let at = good.saturating_sub(mark);
    let end = at + source.text[at..].chars().next().map_or(0, char::len_utf8);
    let hint = "save it as plain text in UTF-8; a spreadsheet is saved as `CSV UTF-8`".to_owned();
    Faults::from(Fault {
        source,
        span: Some(at..end),
        message: "this is not UTF-8 text".to_owned(),
        hint: Some(hint),
    })
}

/// A file of the same folder whose name is close to the one that is missing.
fn near_file(path: &Path) -> Option<String> {
    let folder = path
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty());
    if folder.is_some_and(|folder| !folder.is_dir()) {
        return folder.map(|folder| format!("there is no folder `{}` either", folder.display()));
    }
    let typed = path.file_name()?.to_str()?;
    let names: Vec<String> = fs::read_dir(folder.unwrap_or(Path::new(".")))
        .ok()?
        .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
        .collect();
    let mut names: Vec<&str> = names.iter().map(String::as_str).collect();
    // The folder's own order differs from machine to machine; the hint must not.
    names.sort_unstable();
    let meant = nearest(typed, names.iter().copied())
        .or_else(|| names.iter().copied().find(|name| same_stem(name, typed)))?;
    Some(format!(
        "did you mean `{}`?",
        path.with_file_name(meant).display()
    ))
}

/// Whether two file names differ only in what follows their last dot.
fn same_stem(a: &str, b: &str) -> bool {
    Path::new(a).file_stem() == Path::new(b).file_stem()
}
