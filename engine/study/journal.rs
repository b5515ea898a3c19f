//! The journal of a study: a line for every cell that is done, written as soon as it is.
//!
//! A line is a checksum and a JSON document. What a killed run left of a line has no right checksum, and no more has a
//! line that was damaged since: it is passed over, and its cell worked out again. Once all cells are done the journal is
//! written anew in their order, so that it too is the same however often the run was ended.

use std::collections::HashMap;
use std::fs::{File, OpenOptions};
use std::io::{BufRead, BufReader, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

use serde::{Deserialize, Serialize, de::DeserializeOwned};

use super::folder::Held;
use super::row::Texts;
use super::{StudyError, hash, within};

/// The journal's file.
pub(super) const JOURNAL: &str = "study.journal";
/// Digits of a line's checksum.
const CHECK: usize = 16;
/// At least so often the journal is brought to the disk.
const SYNC: Duration = Duration::from_secs(2);

/// So much of each part's journal is read at once when parts are merged, bytes.
const AT_ONCE: u64 = 32 * 1024;

/// The first line: whose journal it is.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Head {
    /// What the study is called.
    pub name: String,
    /// What its file is called, wherever that lies.
    #[serde(default)]
    pub file: String,
    /// What tells it from others.
    pub study: String,
    /// Which part it is, of how many.
    pub part: [u64; 2],
    /// Cells of the whole study.
    pub cells: u64,
    /// The program's version.
    pub version: String,
}

/// The last line of a journal in which every cell of the part stands in order: so many of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct End {
    pub finished: u64,
}

/// A cell that is done.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Record {
    /// Its number, from 0.
    pub cell: u64,
    /// What it was worked out from.
    pub key: String,
    /// The texts of its inputs.
    pub inputs: Vec<String>,
    /// What came of it.
    pub texts: Texts,
}

/// Where the cell of each key stands: all that is kept of a cell in memory.
#[derive(Debug, Default)]
struct Places(HashMap<[u8; 16], u64>);

impl Places {
    /// The bytes that a key writes out; none for what is no key.
    fn bytes(key: &str) -> Option<[u8; 16]> {
        let number = u128::from_str_radix(key, 16).ok()?;
        Some(number.to_be_bytes())
    }

    fn get(&self, key: &str) -> Option<u64> {
        self.0.get(&Self::bytes(key)?).copied()
    }

    /// Refuses cells of which none is asked for.
    fn refuse_strange(
        &self,
        folder: &Path,
        other: &str,
        mut asked: impl Iterator<Item = String>,
    ) -> Result<(), StudyError> {
        if self.0.is_empty() || asked.any(|key| self.get(&key).is_some()) {
            return Ok(());
        }
        let name = match other.is_empty() {
            true => "another study".to_owned(),
            false => format!("the study \"{other}\""),
        };
        Err(StudyError::folder(
            format!(
                "`{}` holds {} cells of {name}, and none that this one asks for",
                folder.display(),
                self.0.len()
            ),
            "name another folder with `--out`, or remove this one",
        ))
    }

    fn put(&mut self, key: &str, place: u64) {
        if let Some(bytes) = Self::bytes(key) {
            self.0.insert(bytes, place);
        }
    }
}

/// A journal in use.
#[derive(Debug)]
pub(super) struct Journal {
    path: PathBuf,
    inner: Mutex<Inner>,
}

#[derive(Debug)]
struct Inner {
    file: File,
    end: u64,
    places: Places,
    synced: Instant,
}

/// What was found in a journal.
#[derive(Debug, Default)]
pub(super) struct Found {
    pub head: Option<Head>,
    places: Places,
    /// Behind the last whole line.
    end: u64,
    /// Lines that do not fit their checksum, the last one aside, which a killed run leaves.
    pub damaged: usize,
    /// Whole lines stand in it, and none is of a journal.
    is_strange: bool,
}

impl Journal {
    /// Opens the journal of a folder, or begins one; tells how many of its lines were damaged. A journal of another part
    /// is refused. Cells of another study may stand in it: keys tell which are this one's, and the others are left out
    /// when all are written in order. But where none of them is `asked` for, and the study has not the same name, the
    /// folder is another study's, and is left as it is.
    pub fn open(
        held: &Held,
        head: &Head,
        asked: impl Iterator<Item = String>,
    ) -> Result<(Self, usize), StudyError> {
        let path = held.file(JOURNAL);
        let mut found = look(&path)?;
        found.refuse_strange(&path)?;
        // Its first line may be damaged: whose cells these are, their keys tell.
        let is_headless = found.head.is_none() && !found.places.0.is_empty();
        let other = found.head.take_if(|found| *found != *head);
        if other.is_some() || is_headless {
            found.refuse(other.as_ref(), (held, head), asked)?;
            begin_anew(held, head)?;
            found = Found {
                damaged: found.damaged,
                ..look(&path)?
            };
        }
        let disk = |error| StudyError::disk(&path, error);
        let mut file = OpenOptions::new()
            .read(true)
            .write(true)
            .create(true)
            .truncate(false)
            .open(&path)
            .map_err(disk)?;
        let mut end = found.end;
        file.set_len(end).map_err(disk)?;
        file.seek(SeekFrom::Start(end)).map_err(disk)?;
        if found.head.is_none() {
            let text = line(head);
            file.write_all(text.as_bytes()).map_err(disk)?;
            end += text.len() as u64;
        }
        file.sync_all().map_err(disk)?;
        let inner = Inner {
            file,
            end,
            places: found.places,
            synced: Instant::now(),
        };
        Ok((
            Self {
                path,
                inner: Mutex::new(inner),
            },
            found.damaged,
        ))
    }

    /// Whether the cell of a key is done.
    pub fn has(&self, key: &str) -> bool {
        self.inner().places.get(key).is_some()
    }

    /// Writes cells down.
    pub fn add(&self, records: &[Record]) -> Result<(), StudyError> {
        let mut inner = self.inner();
        let mut text = String::new();
        let mut places = Vec::new();
        for record in records {
            places.push(inner.end + text.len() as u64);
            text += &line(record);
        }
        let write = |inner: &mut Inner| {
            inner.file.seek(SeekFrom::Start(inner.end))?;
            inner.file.write_all(text.as_bytes())?;
            if inner.synced.elapsed() >= SYNC {
                inner.file.sync_data()?;
                inner.synced = Instant::now();
            }
            Ok(())
        };
        write(&mut inner).map_err(|error| StudyError::disk(&self.path, error))?;
        inner.end += text.len() as u64;
        for (record, place) in records.iter().zip(places) {
            inner.places.put(&record.key, place);
        }
        Ok(())
    }

    /// What came of the cell of a key; none where it is not in the journal, or is damaged there.
    pub fn get(&self, key: &str) -> Result<Option<Record>, StudyError> {
        let mut inner = self.inner();
        let Some(place) = inner.places.get(key) else {
            return Ok(None);
        };
        let read = |inner: &mut Inner| {
            inner.file.seek(SeekFrom::Start(place))?;
            let mut text = Vec::new();
            BufReader::new(&inner.file).read_until(b'\n', &mut text)?;
            Ok(text)
        };
        let text = read(&mut inner).map_err(|error| StudyError::disk(&self.path, error))?;
        Ok(parsed(&text).filter(|record: &Record| record.key == key))
    }

    fn inner(&self) -> std::sync::MutexGuard<'_, Inner> {
        self.inner.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// A document as a line of a journal.
pub(super) fn line(document: &impl Serialize) -> String {
    // Texts and numbers are JSON in any case.
    let json = serde_json::to_string(document).unwrap_or_default();
    format!("{} {json}\n", &hash::of(json.as_bytes())[..CHECK])
}

/// The document of a whole line whose checksum is right.
fn parsed<T: DeserializeOwned>(text: &[u8]) -> Option<T> {
    let text = std::str::from_utf8(text).ok()?.strip_suffix('\n')?;
    let (check, json) = text.split_once(' ')?;
    if check != &hash::of(json.as_bytes())[..CHECK] {
        return None;
    }
    serde_json::from_str(json).ok()
}

/// Looks a journal through; nothing is found where there is none.
fn look(path: &Path) -> Result<Found, StudyError> {
    let mut found = Found::default();
    if !path.exists() {
        return Ok(found);
    }
    each_line(path, |place, text| {
        if place == 0 {
            found.head = parsed(text);
            found.damaged += usize::from(found.head.is_none() && text.ends_with(b"\n"));
        } else if let Some(record) = parsed::<Record>(text) {
            found.places.put(&record.key, place);
        } else if !text.ends_with(b"\n") {
            return Ok(());
        } else if parsed::<End>(text).is_none() {
            found.damaged += 1;
        }
        found.end = place + text.len() as u64;
        Ok(())
    })?;
    if found.head.is_none() && found.places.0.is_empty() {
        found.is_strange = found.damaged > 0;
        found.end = 0;
    }
    Ok(found)
}

/// Writes the journal with another first line, and without the closing one, which would say that all cells of that study
/// are there.
fn begin_anew(held: &Held, head: &Head) -> Result<(), StudyError> {
    let mut whole = held.whole(JOURNAL)?;
    whole.put(line(head).as_bytes())?;
    each_line(&held.file(JOURNAL), |_, text| {
        match parsed::<Record>(text) {
            Some(_) => whole.put(text),
            None => Ok(()),
        }
    })?;
    whole.finish()
}

fn each_line(
    path: &Path,
    mut with: impl FnMut(u64, &[u8]) -> Result<(), StudyError>,
) -> Result<(), StudyError> {
    let disk = |error| StudyError::disk(path, error);
    let mut reader = BufReader::with_capacity(1 << 16, File::open(path).map_err(disk)?);
    let (mut place, mut text) = (0, Vec::new());
    loop {
        text.clear();
        let read = reader.by_ref().read_until(b'\n', &mut text).map_err(disk)?;
        if read == 0 {
            return Ok(());
        }
        with(place, &text)?;
        place += read as u64;
    }
}

/// The first line of a folder's journal.
pub(super) fn head(folder: &Path) -> Result<Head, StudyError> {
    let path = within(folder, JOURNAL);
    if !path.is_file() {
        return Err(StudyError::folder(
            format!("there is no study in `{}`", folder.display()),
            "name folders that `costcard study STUDY.toml --out FOLDER` has written",
        ));
    }
    let file = File::open(&path).map_err(|error| StudyError::disk(&path, error))?;
    let mut text = Vec::new();
    BufReader::new(file)
        .read_until(b'\n', &mut text)
        .map_err(|error| StudyError::disk(&path, error))?;
    parsed(&text).ok_or_else(|| damaged(folder))
}

/// Whether the journal of a folder ends as a finished one does.
pub(super) fn is_finished(folder: &Path) -> Result<bool, StudyError> {
    let path = within(folder, JOURNAL);
    let tail = || {
        let mut file = File::open(&path)?;
        let from = file.metadata()?.len().saturating_sub(200);
        file.seek(SeekFrom::Start(from))?;
        let mut text = Vec::new();
        file.read_to_end(&mut text)?;
        Ok(text)
    };
    let tail = tail().map_err(|error| StudyError::disk(&path, error))?;
    let last = tail.split_inclusive(|byte| *byte == b'\n').next_back();
    Ok(last.and_then(parsed::<End>).is_some())
}

/// The cells of a finished journal, in order, one after the other. Its file is open only while some lines of it are
/// read: a study may have more parts than a process may have files open.
pub(super) struct Reader {
    folder: PathBuf,
    path: PathBuf,
    /// What was read of the file last, and how much of that is behind.
    text: Vec<u8>,
    behind: usize,
    /// How much of the file was read.
    read: u64,
}

impl Reader {
    /// The journal of a folder, behind its first line.
    pub fn open(folder: &Path) -> Result<Self, StudyError> {
        let mut reader = Self {
            folder: folder.to_owned(),
            path: within(folder, JOURNAL),
            text: Vec::new(),
            behind: 0,
            read: 0,
        };
        reader.line()?;
        Ok(reader)
    }

    /// The next line; nothing behind the last.
    fn line(&mut self) -> Result<Vec<u8>, StudyError> {
        loop {
            let left = &self.text[self.behind..];
            if let Some(end) = left.iter().position(|byte| *byte == b'\n') {
                let line = left[..=end].to_vec();
                self.behind += line.len();
                return Ok(line);
            }
            let more = self.more();
            if more.map_err(|error| StudyError::disk(&self.path, error))? == 0 {
                return Ok(std::mem::take(&mut self.text));
            }
        }
    }

    /// Reads on in the file: so many bytes.
    fn more(&mut self) -> std::io::Result<usize> {
        self.text.drain(..self.behind);
        self.behind = 0;
        let mut file = File::open(&self.path)?;
        file.seek(SeekFrom::Start(self.read))?;
        let read = file.take(AT_ONCE).read_to_end(&mut self.text)?;
        self.read += read as u64;
        Ok(read)
    }

    /// The next cell; none after the last.
    pub fn next(&mut self) -> Result<Option<Record>, StudyError> {
        let text = self.line()?;
        if text.is_empty() || parsed::<End>(&text).is_some() {
            return Ok(None);
        }
        parsed(&text).map(Some).ok_or_else(|| damaged(&self.folder))
    }
}

fn damaged(folder: &Path) -> StudyError {
    StudyError::folder(
        format!("the journal in `{}` is damaged", folder.display()),
        "start the study there again: what is damaged is worked out anew",
    )
}

/// Refuses a folder that parts are to be merged into where it holds something else: a part, or another study.
pub fn refuse_foreign(held: &Held, head: &Head) -> Result<(), StudyError> {
    let mut found = look(&held.file(JOURNAL))?;
    match found.head.take() {
        Some(other) if other != *head => {
            found.refuse(Some(&other), (held, head), std::iter::empty())
        }
        _ => found.refuse_strange(&held.file(JOURNAL)),
    }
}

impl Found {
    /// Refuses a file that is called a journal and is none.
    fn refuse_strange(&self, path: &Path) -> Result<(), StudyError> {
        match self.is_strange {
            false => Ok(()),
            true => Err(StudyError::folder(
                format!("`{}` is no journal of a study", path.display()),
                "move it away, or name another folder with `--out`",
            )),
        }
    }

    /// Refuses a folder with the cells of `other`, unless that is this study, as it is or before it was edited, or holds cells
    /// that are asked for.
    fn refuse(
        &self,
        other: Option<&Head>,
        (held, head): (&Held, &Head),
        asked: impl Iterator<Item = String>,
    ) -> Result<(), StudyError> {
        let Some(other) = other else {
            return self.places.refuse_strange(&held.path, "", asked);
        };
        refuse_other(&held.path, other, head)?;
        // A name alone may be that of the template both began with.
        let is_same =
            !head.name.is_empty() && (&other.name, &other.file) == (&head.name, &head.file);
        if other.study == head.study || is_same {
            return Ok(());
        }
        self.places.refuse_strange(&held.path, &other.name, asked)
    }
}

/// Another part of a study, or of another, has a folder of its own.
fn refuse_other(folder: &Path, found: &Head, head: &Head) -> Result<(), StudyError> {
    let folder = folder.display();
    if found.part != head.part {
        let [number, of] = found.part;
        let what = match of {
            1 => "a whole study".to_owned(),
            _ => format!("part {number}/{of}"),
        };
        return Err(StudyError::folder(
            format!("`{folder}` holds {what}"),
            "name another folder, or ask for the same part",
        ));
    }
    Ok(())
}
