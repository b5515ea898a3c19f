//! The lines of a sheet, read as a stream: a file may be far larger than memory.
//!
//! Text is UTF-8 or UTF-16, with or without a byte-order mark, or any other encoding that is named. Line ends are
//! those of any system.

use std::fs::File;
use std::io::{BufRead, BufReader, Cursor, ErrorKind, Read};
use std::path::Path;
use std::sync::Arc;

use encoding_rs::{Encoding, UTF_8, UTF_16BE, UTF_16LE};
use encoding_rs_io::{DecodeReaderBytes, DecodeReaderBytesBuilder};

use super::source::cannot_open;
use super::{Fault, Faults, Source};

/// The longest line of a sheet, bytes. A row of a hundred columns takes two thousand.
const LONGEST_LINE: usize = 64 * 1024;

/// Lines of a text, one after the other.
pub struct Lines {
    name: Arc<str>,
    reader: BufReader<DecodeReaderBytes<Box<dyn Read>, Vec<u8>>>,
    line: Vec<u8>,
    number: usize,
    /// The last line ended with a carriage return, so that a line feed right after it ends no other.
    after_return: bool,
}

/// One line.
#[derive(Debug, Clone, Copy)]
pub struct Line<'a> {
    /// Number of the line, from 1.
    pub number: usize,
    /// Its text, without what ends it.
    pub text: &'a str,
}

impl Lines {
    /// Opens a file.
    ///
    /// # Errors
    /// When there is no such file, it is a folder or may not be read.
    pub fn open(path: &Path, encoding: Option<&'static Encoding>) -> Result<Self, Faults> {
        let file = File::open(path)
            .and_then(|file| match file.metadata()?.is_dir() {
                true => Err(ErrorKind::IsADirectory.into()),
                false => Ok(file),
            })
            .map_err(|error| cannot_open(path, &error))?;
        Ok(Self::new(
            &path.display().to_string(),
            Box::new(file),
            encoding,
        ))
    }

    /// The lines of a file that was read already.
    #[must_use]
    pub fn of_bytes(name: &str, bytes: &Arc<[u8]>, encoding: Option<&'static Encoding>) -> Self {
        Self::new(name, Box::new(Cursor::new(bytes.clone())), encoding)
    }

    /// The lines of a text already in memory.
    #[must_use]
    pub fn of(source: &Source) -> Self {
        let bytes = source.text.as_bytes().to_vec();
        Self::new(&source.name, Box::new(Cursor::new(bytes)), None)
    }

    /// The lines of whatever can be read; with no encoding named it is told from the first bytes.
    #[must_use]
    pub fn new(name: &str, mut reader: Box<dyn Read>, encoding: Option<&'static Encoding>) -> Self {
        let mut first = Vec::new();
        // What cannot be read now cannot be read later either, and is told then.
        let _ = reader.by_ref().take(4).read_to_end(&mut first);
        let encoding = encoding.unwrap_or_else(|| encoding_of(&first));
        let decoded = DecodeReaderBytesBuilder::new()
            // UTF-8 passes as it is, so that what is none can be told.
            .encoding(Some(encoding).filter(|encoding| *encoding != UTF_8))
            .bom_override(true)
            .strip_bom(true)
            .utf8_passthru(true)
            .build(Box::new(Cursor::new(first).chain(reader)) as Box<dyn Read>);
        Self {
            name: name.into(),
            reader: BufReader::with_capacity(64 * 1024, decoded),
            line: Vec::new(),
            number: 0,
            after_return: false,
        }
    }

    /// What the user calls the text.
    #[must_use]
    pub fn name(&self) -> &Arc<str> {
        &self.name
    }

    /// The next line; none after the last.
    ///
    /// # Errors
    /// When the text cannot be read on, is not text, or has a line no sheet has.
    pub fn next_line(&mut self) -> Result<Option<Line<'_>>, Faults> {
        self.line.clear();
        let mut found = false;
        while !self.take_part(&mut found)? {}
        if !found && self.line.is_empty() {
            return Ok(None);
        }
        self.number += 1;
        match std::str::from_utf8(&self.line) {
            Ok(text) if !text.contains('\0') => Ok(Some(Line {
                number: self.number,
                text,
            })),
            _ => Err(self.not_text()),
        }
    }

    /// Takes what the buffer holds of the line; returns whether the line, or the text, is at its end.
    fn take_part(&mut self, found: &mut bool) -> Result<bool, Faults> {
        let (number, name) = (self.number + 1, self.name.clone());
        let buffer = match self.reader.fill_buf() {
            Ok(buffer) => buffer,
            Err(error) if error.kind() == ErrorKind::Interrupted => return Ok(false),
            Err(error) => {
                let message = format!("this file cannot be read: {error}");
                return Err(fault(&name, number, "", message, None));
            }
        };
        if buffer.is_empty() {
            return Ok(true);
        }
        if std::mem::take(&mut self.after_return) && buffer[0] == b'\n' {
            self.reader.consume(1);
            return Ok(false);
        }
        let end = buffer.iter().position(|byte| matches!(byte, b'\n' | b'\r'));
        let taken = end.unwrap_or(buffer.len());
        self.line.extend_from_slice(&buffer[..taken]);
        self.after_return = end.is_some_and(|end| buffer[end] == b'\r');
        self.reader.consume(taken + usize::from(end.is_some()));
        if self.line.len() > LONGEST_LINE {
            return Err(self.too_long());
        }
        *found = end.is_some();
        Ok(*found)
    }

    fn too_long(&self) -> Faults {
        let message = format!(
            "this line is longer than {} KB, as no row of a sheet is",
            LONGEST_LINE / 1024
        );
        let hint = "export the shots as CSV: one line a shot, the columns named in the first";
        let start: String = String::from_utf8_lossy(&self.line)
            .chars()
            .take(60)
            .collect();
        fault(&self.name, self.number + 1, &start, message, Some(hint))
    }

    fn not_text(&self) -> Faults {
        let text = String::from_utf8_lossy(&self.line).replace('\0', "\u{fffd}");
        let hint = "save it as `CSV UTF-8`, or name its encoding in the column map: \
                    `encoding = \"windows-1252\"`";
        let message = "this is not text in UTF-8".to_owned();
        fault(&self.name, self.number, &text, message, Some(hint))
    }
}

/// A fault of one line, pointing at what in it is no text, or at its beginning.
fn fault(name: &str, number: usize, text: &str, message: String, hint: Option<&str>) -> Faults {
    let text: String = text.chars().take(200).collect();
    let at = text.find('\u{fffd}').unwrap_or(0);
    let end = at + text[at..].chars().next().map_or(0, char::len_utf8);
    Fault {
        source: Source::excerpt(name, &text, number),
        span: Some(at..end),
        message,
        hint: hint.map(str::to_owned),
    }
    .into()
}

/// UTF-16 without a mark has a zero in every other byte of plain letters.
fn encoding_of(first: &[u8]) -> &'static Encoding {
    match first {
        [low, 0, other, 0] if *low != 0 && *other != 0 => UTF_16LE,
        [0, low, 0, other] if *low != 0 && *other != 0 => UTF_16BE,
        _ => UTF_8,
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)] // a test may stop
mod tests {
    use super::*;

    fn all(bytes: &[u8], encoding: Option<&'static Encoding>) -> Vec<String> {
        let mut lines = Lines::new("a.csv", Box::new(Cursor::new(bytes.to_vec())), encoding);
        let mut all = Vec::new();
        while let Some(line) = lines.next_line().unwrap() {
            assert_eq!(line.number, all.len() + 1);
            all.push(line.text.to_owned());
        }
        all
    }

    #[test]
    fn line_ends_of_every_system_are_read() {
        let wanted = ["a", "", "b"];
        for text in ["a\n\nb", "a\r\n\r\nb\r\n", "a\r\rb\r", "a\n\nb\n"] {
            assert_eq!(all(text.as_bytes(), None), wanted, "{text:?}");
        }
        assert!(all(b"", None).is_empty());
    }

    #[test]
    fn every_usual_encoding_gives_the_same_text() {
        let text = "Schläger;°\n7;1\n";
        let wide = |big: bool, mark: bool| -> Vec<u8> {
            let marked = format!("{}{text}", if mark { "\u{feff}" } else { "" });
            let bytes = |unit: u16| {
                if big {
                    unit.to_be_bytes()
                } else {
                    unit.to_le_bytes()
                }
            };
            marked.encode_utf16().flat_map(bytes).collect()
        };
        let marked = format!("\u{feff}{text}");
        for bytes in [text.as_bytes(), marked.as_bytes()] {
            assert_eq!(all(bytes, None), ["Schläger;°", "7;1"]);
        }
        for (big, mark) in [(true, true), (false, true), (true, false), (false, false)] {
            assert_eq!(all(&wide(big, mark), None), ["Schläger;°", "7;1"]);
        }
        let latin = b"Schl\xe4ger;\xb0\n7;1\n";
        assert_eq!(
            all(latin, Some(encoding_rs::WINDOWS_1252)),
            ["Schläger;°", "7;1"]
        );
    }

    #[test]
    fn what_is_no_text_is_told_with_its_line() {
        let told = |bytes: &[u8]| {
            let mut lines = Lines::new("a.csv", Box::new(Cursor::new(bytes.to_vec())), None);
            loop {
                match lines.next_line() {
                    Ok(Some(_)) => {}
                    Ok(None) => return "no fault".to_owned(),
                    Err(faults) => return faults.to_string(),
                }
            }
        };
        assert!(told(b"club\n7\xffiron\n").starts_with("a.csv:2:2: this is not text in UTF-8"));
        assert!(told(b"cl\0ub\n").starts_with("a.csv:1:3: this is not text"));
        let long = [b"club\n".to_vec(), vec![b'x'; 70_000]].concat();
        assert!(told(&long).starts_with("a.csv:2:1: this line is longer than 64 KB"));
    }
}
