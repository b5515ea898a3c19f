//! Opening a map: what form it has, how much of it may be held at once, and where in it a fault stands.

use std::cell::Cell;
use std::fs::File;
use std::io::{self, BufRead, BufReader, Read};
use std::path::Path;
use std::rc::Rc;

use super::assemble::{Assembler, TooLarge};
use super::map::Map;
use super::{json, swapped, xml};
use crate::files::{Fault, Faults, Source};

/// Bytes read at once.
const CHUNK: usize = 64 * 1024;
/// The longest file read, bytes.
const LONGEST_BYTES: u64 = 400 * 1024 * 1024;
/// The longest piece of a file held at once, bytes: a tag of XML, an element or a feature of JSON.
const LONGEST_PIECE: u64 = 16 * 1024 * 1024;
/// The longest line shown with a fault, bytes; files without line breaks are pointed at in words.
const LONGEST_LINE: usize = 400;

/// What is wrong with a map, and where.
#[derive(Debug)]
pub(super) struct Broken {
    /// Bytes from the start of the file, or the line and column, from 1; none when it is the file as a whole.
    pub(super) at: Option<At>,
    pub(super) message: String,
    pub(super) hint: Option<String>,
}

/// A place in a file.
#[derive(Debug, Clone, Copy)]
pub(super) enum At {
    Byte(u64),
    Line { line: usize, column: usize },
}

impl Broken {
    pub(super) fn new(at: Option<At>, message: impl Into<String>, hint: &str) -> Self {
        Self {
            at,
            message: message.into(),
            hint: Some(hint.to_owned()),
        }
    }

    /// The fault of a map that is too large.
    pub(super) fn too_large(_: TooLarge) -> Self {
        Self::new(
            None,
            "this map holds more than any course needs",
            "cut it to the course and the ground around it",
        )
    }
}

/// Reads a map from a file, whatever its form.
pub(super) fn read(path: &Path) -> Result<Map, Faults> {
    let file = open(path)?;
    assembled(file)
        .map_err(|broken| fault(&path.display().to_string(), broken, |at| excerpt(path, at)))
}

/// Reads a map from a text.
pub(super) fn read_text(source: &Source) -> Result<Map, Faults> {
    let place = |at| Some((source.clone(), byte_of(&source.text, at)));
    assembled(source.text.as_bytes()).map_err(|broken| fault(&source.name, broken, place))
}

fn assembled(input: impl Read) -> Result<Map, Broken> {
    let eaten = Rc::new(Cell::new(0));
    let metered = Metered {
        input,
        since_piece: Rc::clone(&eaten),
        total: 0,
    };
    let mut reader = BufReader::with_capacity(CHUNK, metered);
    let mut assembler = Assembler::default();
    match form(&mut reader)? {
        Form::Xml => xml::read(reader, &eaten, &mut assembler)?,
        Form::Json => json::read(reader, &eaten, &mut assembler)?,
    }
    let map = assembler.finish();
    swapped::check(&map)?;
    Ok(map)
}

/// Opens a file, with the same words as other files have when that fails.
fn open(path: &Path) -> Result<File, Faults> {
    match File::open(path) {
        Ok(file) if path.is_file() => Ok(file),
        // A folder, a missing file, one that may not be read: told as of any other file.
        _ => Err(match Source::read(path) {
            Err(faults) => faults,
            Ok(_) => whole(
                &path.display().to_string(),
                "this file cannot be read".to_owned(),
                None,
            ),
        }),
    }
}

/// The forms that are read.
enum Form {
    Xml,
    Json,
}

/// The form of a file by what it begins with.
fn form(reader: &mut impl BufRead) -> Result<Form, Broken> {
    past_mark(reader).map_err(cannot_read)?;
    let start = reader.fill_buf().map_err(cannot_read)?;
    let first = start.iter().find(|byte| !byte.is_ascii_whitespace());
    match first {
        Some(b'<') => Ok(Form::Xml),
        Some(b'{') => Ok(Form::Json),
        Some(b'[') => Err(Broken::new(None, "this is JSON, but no map", json::NO_MAP)),
        Some(0x1f) => Err(Broken::new(
            None,
            "this file is packed",
            "unpack it first, with gunzip for instance",
        )),
        None => Err(Broken::new(None, "this file is empty", FORMS)),
        Some(_) if start.windows(9).take(64).any(|word| word == b"OSMHeader") => {
            let hint = "save it as OSM XML, for instance with `osmium cat IN.osm.pbf -o OUT.osm`";
            Err(Broken::new(
                None,
                "this is a map in binary form (PBF)",
                hint,
            ))
        }
        Some(_) => Err(Broken::new(None, "this is no map", FORMS)),
    }
}

/// Past a mark of the byte order: no reader knows it, and places are told in the file without it.
fn past_mark(reader: &mut impl BufRead) -> io::Result<()> {
    const MARK: &[u8] = "\u{feff}".as_bytes();
    if reader.fill_buf()?.starts_with(MARK) {
        reader.consume(MARK.len());
    }
    Ok(())
}

pub(super) const FORMS: &str =
    "maps are read as OSM XML, Overpass JSON or GeoJSON, all from OpenStreetMap";

pub(super) fn cannot_read(error: io::Error) -> Broken {
    Broken {
        at: None,
        message: format!("this file cannot be read: {error}"),
        hint: None,
    }
}

/// A file that is counted while it is read, so that neither one piece of it nor the whole outgrows memory.
struct Metered<R> {
    input: R,
    since_piece: Rc<Cell<u64>>,
    total: u64,
}

impl<R: Read> Read for Metered<R> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        if self.since_piece.get() > LONGEST_PIECE {
            return Err(io::Error::other("a piece of it is larger than 16 MB"));
        }
        let count = self.input.read(buffer)?;
        self.since_piece.set(self.since_piece.get() + count as u64);
        self.total += count as u64;
        if self.total > LONGEST_BYTES {
            return Err(io::Error::other(
                "it is larger than 400 MB; cut it to the course and the ground around it",
            ));
        }
        Ok(count)
    }
}

/// The fault at its place; `find` gives the text as far as it is needed, and the byte at fault in it.
fn fault(name: &str, broken: Broken, find: impl FnOnce(At) -> Option<(Source, usize)>) -> Faults {
    let Some((source, byte)) = broken.at.and_then(find) else {
        return whole(name, broken.message, broken.hint);
    };
    let text = &source.text;
    let line_start = text[..byte].rfind('\n').map_or(0, |at| at + 1);
    let line_end = text[byte..].find('\n').map_or(text.len(), |at| byte + at);
    if line_end - line_start > LONGEST_LINE {
        let place = source.position(byte);
        let message = format!(
            "{} (line {}, column {})",
            broken.message, place.line, place.column
        );
        return whole(name, message, broken.hint);
    }
    let end = text[byte..]
        .chars()
        .next()
        .map_or(byte, |c| byte + c.len_utf8());
    let span = Some(byte..end);
    let (message, hint) = (broken.message, broken.hint);
    Fault {
        source,
        span,
        message,
        hint,
    }
    .into()
}

/// A file as far as the end of the line at fault, and the byte at fault in it.
fn excerpt(path: &Path, at: At) -> Option<(Source, usize)> {
    let mut reader = BufReader::new(File::open(path).ok()?.take(LONGEST_BYTES));
    past_mark(&mut reader).ok()?;
    let (mut bytes, mut lines) = (Vec::new(), 0);
    loop {
        let count = reader.read_until(b'\n', &mut bytes).ok()?;
        lines += 1;
        let reached = match at {
            At::Byte(byte) => bytes.len() as u64 > byte,
            At::Line { line, .. } => lines >= line,
        };
        if reached || count == 0 {
            break;
        }
    }
    let text = String::from_utf8(bytes).ok()?;
    let source = Source::new(
        &path.display().to_string(),
        text.trim_end_matches(['\n', '\r']),
    );
    let byte = byte_of(&source.text, at);
    Some((source, byte))
}

/// The byte of a place in a text, at the start of a character.
fn byte_of(text: &str, at: At) -> usize {
    let byte = match at {
        At::Byte(byte) => usize::try_from(byte).unwrap_or(usize::MAX),
        At::Line { line, column } => {
            let start: usize = text
                .split_inclusive('\n')
                .take(line.saturating_sub(1))
                .map(str::len)
                .sum();
            start + column.saturating_sub(1)
        }
    };
    text.floor_char_boundary(byte)
}

/// A fault of the file as a whole.
fn whole(name: &str, message: String, hint: Option<String>) -> Faults {
    let source = Source::new(name, "");
    Fault {
        source,
        span: None,
        message,
        hint,
    }
    .into()
}
