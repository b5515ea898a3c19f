//! From the names in a study to players, courses and rules, and to the hashes of what stands in their files.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use super::file::LEVEL;
use super::hash;
use crate::course::{self, Course, PinSheet, Pins, Setup};
use crate::files::{Fault, Faults, Source};
use crate::player::{self, Golfer, Sex, levels};
use crate::rules::Rulebook;
use crate::rules::script::{self, Print};

/// No name of a file is longer, bytes.
const LONGEST_NAME: usize = 4096;

/// What stands before the name of something the program carries inside it.
const DEMO: &str = "demo:";

/// A player of a study.
#[derive(Debug)]
pub(super) struct PlayerInput {
    /// As written in the study, or found by a pattern.
    pub name: String,
    seen: OnceLock<(String, Sex)>,
}

/// A course of a study, set up for play.
#[derive(Debug)]
pub(super) struct CourseInput {
    pub name: String,
    pub tees: Option<String>,
    pub pins: Option<String>,
    hash: OnceLock<String>,
}

/// Scripts in force together.
#[derive(Debug)]
pub(super) struct RulesInput {
    pub names: Vec<String>,
    hash: OnceLock<String>,
}

impl PlayerInput {
    pub fn new(name: String) -> Self {
        Self {
            name,
            seen: OnceLock::new(),
        }
    }

    /// The hash of the file and of the sheets it names. A level and a demo belong to the program's version.
    pub fn hash(&self, folder: &Path) -> &str {
        &self.seen(folder).0
    }

    /// The player's sex, as far as the file can be read: goals are of it.
    pub fn sex(&self, folder: &Path) -> Sex {
        self.seen(folder).1
    }

    /// Whether the files are still what they were when they were first looked at.
    pub fn is_as_it_was(&self, folder: &Path) -> bool {
        !is_file(&self.name) || self.look(folder).0 == self.hash(folder)
    }

    fn seen(&self, folder: &Path) -> &(String, Sex) {
        self.seen.get_or_init(|| self.look(folder))
    }

    fn look(&self, folder: &Path) -> (String, Sex) {
        if !is_file(&self.name) {
            let sex = self.golfer(folder).map_or(Sex::Men, |golfer| golfer.sex);
            return (hash::of(self.name.as_bytes()), sex);
        }
        let (files, table) = content(folder, &self.name);
        let word = table.get("sex").and_then(toml::Value::as_str);
        let sex = match word {
            Some("women") => Sex::Women,
            _ => Sex::Men,
        };
        (hash::of_files(&files), sex)
    }

    /// The player.
    pub fn golfer(&self, folder: &Path) -> Result<Golfer, String> {
        if self.is_level() {
            return levels::parse_spec(&self.name).map_err(|error| error.to_string());
        }
        self.read(folder).map_err(|faults| told(&faults, folder))
    }

    /// Whether it is a level, which no file holds.
    pub fn is_level(&self) -> bool {
        self.name.starts_with(LEVEL)
    }

    /// The player from his file.
    pub fn read(&self, folder: &Path) -> Result<Golfer, Faults> {
        match self.name.strip_prefix(DEMO) {
            Some(name) => player::embedded::player(name),
            None => Golfer::from_path(&folder.join(&self.name)),
        }
    }
}

impl CourseInput {
    pub fn new(name: String, tees: Option<String>, pins: Option<String>) -> Self {
        Self {
            name,
            tees,
            pins,
            hash: OnceLock::new(),
        }
    }

    /// The hash of the file, of the scripts it names, and of the pin sheet.
    pub fn hash(&self, folder: &Path) -> &str {
        self.hash.get_or_init(|| self.look(folder))
    }

    /// Whether the files are still what they were when they were first looked at.
    pub fn is_as_it_was(&self, folder: &Path) -> bool {
        self.look(folder) == self.hash(folder)
    }

    fn look(&self, folder: &Path) -> String {
        let mut files = match is_file(&self.name) {
            true => content(folder, &self.name).0,
            false => vec![(self.name.clone(), self.name.as_bytes().to_vec())],
        };
        let is_sheet = |pins: &&String| Pins::from_word(pins).is_none();
        if let Some(sheet) = self.pins.as_ref().filter(is_sheet) {
            files.push((sheet.clone(), bytes(&folder.join(sheet))));
        }
        hash::of_files(&files)
    }

    /// The course on a day.
    pub fn course(&self, folder: &Path, day: course::Conditions) -> Result<Course, String> {
        self.read(folder, day)
            .map_err(|faults| told(&faults, folder))
    }

    /// The same, its faults where they stand.
    pub fn read(&self, folder: &Path, day: course::Conditions) -> Result<Course, Faults> {
        let setup = Setup {
            tees: self.tees.clone(),
            pins: self.pins(folder)?,
            day,
        };
        match self.name.strip_prefix(DEMO) {
            Some(name) => course::embedded::course_as(name, &setup),
            None => Course::read_as(&Source::read(&folder.join(&self.name))?, &setup),
        }
    }

    fn pins(&self, folder: &Path) -> Result<Pins, Faults> {
        let Some(pins) = &self.pins else {
            return Ok(Pins::File);
        };
        match Pins::from_word(pins) {
            Some(pins) => Ok(pins),
            None => Ok(Pins::Sheet(PinSheet::read(&Source::read(
                &folder.join(pins),
            )?)?)),
        }
    }
}

impl RulesInput {
    pub fn new(names: Vec<String>) -> Self {
        Self {
            names,
            hash: OnceLock::new(),
        }
    }

    /// The hash of the scripts; empty for the built-in rules.
    pub fn hash(&self, folder: &Path) -> &str {
        self.hash.get_or_init(|| self.look(folder))
    }

    /// Whether the scripts are still what they were when they were first looked at.
    pub fn is_as_it_was(&self, folder: &Path) -> bool {
        self.look(folder) == self.hash(folder)
    }

    fn look(&self, folder: &Path) -> String {
        let file = |name: &String| {
            let content = match is_file(name) {
                true => bytes(&folder.join(name)),
                false => name.as_bytes().to_vec(),
            };
            (name.clone(), content)
        };
        match self.names.is_empty() {
            true => String::new(),
            false => hash::of_files(&self.names.iter().map(file).collect::<Vec<_>>()),
        }
    }

    /// The rules of a course with these scripts before its own.
    pub fn rulebook(
        &self,
        folder: &Path,
        course: &Course,
        print: &Print,
    ) -> Result<Rulebook, String> {
        self.load(folder, Some(course), print)
            .map_err(|faults| told(&faults, folder))
    }

    /// The same, perhaps without a course, its faults where they stand.
    pub fn load(
        &self,
        folder: &Path,
        course: Option<&Course>,
        print: &Print,
    ) -> Result<Rulebook, Faults> {
        let path = |name: &String| match is_file(name) {
            true => folder.join(name).display().to_string(),
            false => name.clone(),
        };
        let named: Vec<String> = self.names.iter().map(path).collect();
        script::load(course, &named, print)
    }

    /// What they are called in the tables.
    pub fn label(&self) -> String {
        match self.names.is_empty() {
            true => "built in".to_owned(),
            false => self.names.join(" + "),
        }
    }
}

/// Whether a name is that of a file.
fn is_file(name: &str) -> bool {
    !name.starts_with(LEVEL) && !name.starts_with(DEMO)
}

/// A file that is not there has no bytes: once it is there, its hash is another.
fn bytes(path: &Path) -> Vec<u8> {
    fs::read(path).unwrap_or_default()
}

/// A TOML file and the files it names: whatever of its texts is the name of a file beside it.
fn content(folder: &Path, name: &str) -> (Vec<(String, Vec<u8>)>, toml::Table) {
    let path = folder.join(name);
    let own = bytes(&path);
    // Read as readers of files read it, whatever its encoding.
    let text = Source::of_bytes(name, own.clone()).map(|source| source.text.to_string());
    let table: toml::Table = toml::from_str(&text.unwrap_or_default()).unwrap_or_default();
    let beside = path.parent().map(PathBuf::from).unwrap_or_default();
    let mut files = vec![(base(name), own)];
    let mut add = |text: &str| {
        let named = beside.join(text);
        if files.iter().all(|(known, _)| known != text) && named.is_file() {
            files.push((text.to_owned(), bytes(&named)));
        }
    };
    table.values().for_each(|value| texts(value, &mut add));
    (files, table)
}

/// A file's own name: where it lies changes nothing of what it says.
pub(super) fn base(name: &str) -> String {
    let file = Path::new(name).file_name();
    file.map_or_else(
        || name.to_owned(),
        |file| file.to_string_lossy().into_owned(),
    )
}

/// Every text of a value that may be the name of a file.
fn texts(value: &toml::Value, add: &mut impl FnMut(&str)) {
    match value {
        toml::Value::String(text) if (1..=LONGEST_NAME).contains(&text.len()) => add(text),
        toml::Value::Array(list) => list.iter().for_each(|value| texts(value, add)),
        toml::Value::Table(table) => table.values().for_each(|value| texts(value, add)),
        _ => {}
    }
}

/// Faults on one line, with the names of files as the study has them: the same wherever the study lies.
pub(super) fn told(faults: &Faults, folder: &Path) -> String {
    let Some((first, rest)) = faults.list().split_first() else {
        return "this input is at fault".to_owned();
    };
    let prefix = folder.join("").display().to_string();
    let first = shortened(first, &prefix).to_string();
    let (text, hint) = match first.split_once("\nhint: ") {
        Some((text, hint)) => (text, format!(" ({hint})")),
        None => (first.as_str(), String::new()),
    };
    let more = match rest.len() + faults.more() {
        0 => String::new(),
        more => format!("; and {more} more"),
    };
    format!("{text}{hint}{more}").replace(['\n', '\r'], " ")
}

/// A fault whose file is named, and spoken of, without the folder of the study.
fn shortened(fault: &Fault, prefix: &str) -> Fault {
    let mut short = fault.clone();
    if prefix.is_empty() {
        return short;
    }
    if let Some(name) = fault.source.name.strip_prefix(prefix) {
        short.source.name = name.into();
    }
    let quoted = format!("`{prefix}");
    short.message = short.message.replace(&quoted, "`");
    short.hint = short.hint.map(|hint| hint.replace(&quoted, "`"));
    short
}
