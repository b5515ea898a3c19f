//! The column map: what a sheet of another layout calls things.
//!
//! ```toml
//! columns = { club = "Schläger", ball_speed_mph = "Tempo", carry_yd = "Flugweite" }
//! units = { ball_speed_mph = "km/h", carry_yd = "m" }   # where the sheet does not say it
//! clubs = { "Keil" = "gap wedge", "Chipper" = "none" }  # "none": rows to pass over
//! flipped = ["direction_deg"]                           # columns in which left is positive
//! figures = "mirrored"                                  # a device that shows a left-hander as a right-hander
//! separator = ";"                                       # usually told from the sheet, as is the decimal mark
//! decimal = ","
//! encoding = "windows-1252"                             # UTF-8 and UTF-16 are told from the sheet
//! ```

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::ops::Range;

use encoding_rs::Encoding;

use super::number::Decimal;
use super::quantity::{Kind, Quantity, Unit};
use crate::files::toml::{self, Table};
use crate::files::{Faults, Source, listed, nearest};
use crate::player::club::{Club, is_putter};

/// The keys of a map.
pub(in crate::player) const KEYS: [&str; 8] = [
    "columns",
    "units",
    "clubs",
    "flipped",
    "figures",
    "separator",
    "decimal",
    "encoding",
];

/// Columns that hold words.
pub(super) const CLUB: &str = "club";
pub(super) const SESSION: &str = "session";
pub(super) const DATE: &str = "date";
const WORDS: [&str; 3] = [CLUB, SESSION, DATE];

/// What stands for a club whose rows are passed over.
const NONE: &str = "none";

/// What a sheet of another layout calls things; the default is costcard's own layout.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ColumnMap {
    /// Header of the sheet by `club`, `session` or `date`.
    words: BTreeMap<&'static str, String>,
    /// Header of the sheet by quantity, and the unit its key names.
    quantities: BTreeMap<Quantity, String>,
    units: BTreeMap<Quantity, UnitWord>,
    /// The sheet's names of clubs, in small letters; none for rows that are passed over.
    clubs: BTreeMap<String, (String, Option<Club>)>,
    flipped: Vec<Quantity>,
    /// Whether the device shows a left-hander's figures as a right-hander's.
    pub mirrored: bool,
    pub(super) separator: Option<u8>,
    pub(super) decimal: Option<Decimal>,
    encoding: Option<&'static Encoding>,
}

/// A unit as it was written.
#[derive(Debug, Clone, Copy, PartialEq)]
struct UnitWord(Unit);

impl ColumnMap {
    /// Reads a map file, or the map in a player's file.
    ///
    /// # Errors
    /// Every fault of the map; a player's file without one.
    pub fn read(source: &Source) -> Result<Self, Faults> {
        let keys: Vec<&'static str> = crate::player::file::KEYS.into_iter().chain(KEYS).collect();
        toml::read(source, &keys, |file| {
            if file.has("map") {
                return Self::of_table(&file.need("map", "{}").table(&KEYS)?);
            }
            if file.has("handicap_index") {
                let hint = "a player file has one once `fit` made it with `--map MAP.toml`";
                file.fault(
                    0..0,
                    "there is no `map` in this player file".to_owned(),
                    hint,
                );
                return None;
            }
            Self::of_table(file)
        })
    }

    /// Reads the table of a map.
    pub(in crate::player) fn of_table(table: &Table<'_>) -> Option<Self> {
        let mut map = Self::default();
        let sound = [
            map.read_columns(table),
            map.read_units(table),
            map.read_clubs(table),
            map.read_flipped(table),
            map.read_marks(table),
        ];
        sound.iter().all(|sound| *sound).then_some(map)
    }

    fn read_columns(&mut self, table: &Table<'_>) -> bool {
        let entry = table.may("columns", "{ ball_speed_mph = \"Speed\" }");
        let Some(columns) = entry.free_table() else {
            return !table.has("columns");
        };
        let mut sound = true;
        for (key, place) in columns.keys() {
            let Some(header) = columns.may(key, "\"Speed\"").text() else {
                sound = false;
                continue;
            };
            if let Some(word) = WORDS.into_iter().find(|word| *word == key) {
                self.words.insert(word, header);
            } else if let Some((quantity, unit)) = Quantity::named(key) {
                self.quantities.insert(quantity, header);
                if unit != quantity.kind().trade() {
                    self.units.insert(quantity, UnitWord(unit));
                }
            } else if WORDS.contains(&&*header) || Quantity::named(&header).is_some() {
                let message = format!("`{key}` stands where costcard's own name belongs");
                let hint = format!("write it the other way round: `{header} = {}`", quoted(key));
                columns.fault(place, message, &hint);
                sound = false;
            } else {
                sound = unknown(&columns, key, place);
            }
        }
        sound
    }

    fn read_units(&mut self, table: &Table<'_>) -> bool {
        let entry = table.may("units", "{ carry_yd = \"m\" }");
        let Some(units) = entry.free_table() else {
            return !table.has("units");
        };
        let mut sound = true;
        for (key, place) in units.keys() {
            let entry = units.may(key, "\"m\"");
            let Some((quantity, _)) = Quantity::named(key) else {
                sound = unknown(&units, key, place);
                continue;
            };
            let Some(text) = entry.text() else {
                sound = false;
                continue;
            };
            match Unit::named(&text).filter(|unit| unit.kind == quantity.kind()) {
                Some(unit) => {
                    self.units.insert(quantity, UnitWord(unit));
                }
                None => {
                    let bad = super::number::wrong_unit(&text, quantity);
                    sound = entry.note::<()>(bad.message, bad.hint).is_some();
                }
            }
        }
        sound
    }

    fn read_clubs(&mut self, table: &Table<'_>) -> bool {
        let entry = table.may("clubs", "{ \"E7\" = \"7 iron\" }");
        let Some(clubs) = entry.free_table() else {
            return !table.has("clubs");
        };
        let mut sound = true;
        for (key, _) in clubs.keys() {
            let entry = clubs.may(key, "\"7 iron\"");
            let Some(text) = entry.text() else {
                sound = false;
                continue;
            };
            let club = match text.parse::<Club>() {
                Ok(club) => Some(club),
                Err(_) if text == NONE => None,
                Err(unknown) => {
                    let message = format!("unknown club \"{}\"", unknown.given);
                    let hint = format!("{}, or \"none\" to pass over its rows", unknown.hint());
                    sound = entry.note::<()>(message, hint).is_some();
                    continue;
                }
            };
            self.clubs
                .insert(key.to_lowercase(), (key.to_owned(), club));
        }
        sound
    }

    fn read_flipped(&mut self, table: &Table<'_>) -> bool {
        let entry = table.may("flipped", "[\"direction_deg\"]");
        let Some(list) = entry.list() else {
            return !table.has("flipped");
        };
        let mut sound = true;
        for entry in list {
            let Some(text) = entry.text() else {
                sound = false;
                continue;
            };
            match Quantity::named(&text) {
                Some((quantity, _)) => self.flipped.push(quantity),
                None => {
                    let message = no_own(&text);
                    sound = entry.note::<()>(message, columns_hint(&text)).is_some();
                }
            }
        }
        sound
    }

    fn read_marks(&mut self, table: &Table<'_>) -> bool {
        let word = |key, example, words: &[(&str, u8)]| {
            let read = table.may(key, example).word(words);
            (read, read.is_some() || !table.has(key))
        };
        let (separator, a) = word("separator", "\";\"", &SEPARATORS);
        let (decimal, b) = word("decimal", "\",\"", &[(".", b'.'), (",", b',')]);
        let (mirrored, c) = word(
            "figures",
            "\"mirrored\"",
            &[("as seen", 0), ("mirrored", 1)],
        );
        self.separator = separator;
        self.decimal = decimal.map(|mark| match mark {
            b',' => Decimal::Comma,
            _ => Decimal::Point,
        });
        self.mirrored = mirrored == Some(1);
        let encoding = table.may("encoding", "\"windows-1252\"");
        let Some(label) = encoding.text() else {
            return a && b && c && !table.has("encoding");
        };
        self.encoding = Encoding::for_label(label.as_bytes());
        if self.encoding.is_none() {
            let message = format!("there is no encoding \"{label}\"");
            let hint =
                "write \"utf-8\", \"utf-16le\", \"windows-1252\" or another name of the web's";
            return encoding.note::<()>(message, hint.to_owned()).is_some();
        }
        a && b && c
    }

    /// The columns it names, by their names here.
    #[must_use]
    pub fn named(&self) -> Vec<String> {
        let words = self.words.keys().map(|word| (*word).to_owned());
        let figures = self.quantities.keys().map(|quantity| quantity.name());
        words.chain(figures).collect()
    }

    /// Whether the map says nothing: costcard's own layout.
    #[must_use]
    pub fn is_plain(&self) -> bool {
        *self == Self::default()
    }

    /// The encoding the sheets are in, when it is named.
    #[must_use]
    pub fn encoding(&self) -> Option<&'static Encoding> {
        self.encoding
    }

    /// The header under which a column of words stands: the sheet's own, or costcard's.
    pub(super) fn word_header(&self, word: &'static str) -> &str {
        self.words.get(word).map_or(word, String::as_str)
    }

    /// Whether a column of words is mapped.
    pub(super) fn maps_word(&self, word: &str) -> bool {
        self.words.contains_key(word)
    }

    /// The sheet's header for a quantity, when it is mapped.
    pub(super) fn header(&self, quantity: Quantity) -> Option<&str> {
        self.quantities.get(&quantity).map(String::as_str)
    }

    /// Whether the map gives a header to any quantity or word.
    pub(super) fn names_header(&self, is: impl Fn(&str) -> bool) -> bool {
        let quantities = self.quantities.values();
        self.words
            .values()
            .chain(quantities)
            .any(|header| is(header))
    }

    /// The unit the map says a quantity's column is in.
    pub(super) fn unit(&self, quantity: Quantity) -> Option<Unit> {
        self.units.get(&quantity).map(|word| word.0)
    }

    /// The club a cell names; inside `Ok`, none for one whose rows are passed over, as a putter's are.
    pub(super) fn club(&self, cell: &str) -> Result<Option<Club>, super::super::club::UnknownClub> {
        match self.clubs.get(&cell.to_lowercase()) {
            Some((_, club)) => Ok(*club),
            None if is_putter(cell) => Ok(None),
            None => cell.parse().map(Some),
        }
    }

    /// Whether the map says itself what a cell names.
    pub(super) fn maps_club(&self, cell: &str) -> bool {
        self.clubs.contains_key(&cell.to_lowercase())
    }

    /// Whether left is positive in a quantity's column.
    pub(super) fn is_flipped(&self, quantity: Quantity) -> bool {
        self.flipped.contains(&quantity)
    }

    /// The map as a TOML table of this title.
    #[must_use]
    pub fn to_toml(&self, title: &str) -> String {
        let mut out = format!("[{title}]\n");
        let mut mark = |key: &str, value: Option<String>| {
            if let Some(value) = value {
                let _ = writeln!(out, "{key} = {}", quoted(&value));
            }
        };
        mark("figures", self.mirrored.then(|| "mirrored".to_owned()));
        let separator = SEPARATORS
            .iter()
            .find(|(_, byte)| Some(*byte) == self.separator);
        mark("separator", separator.map(|(word, _)| (*word).to_owned()));
        let decimal = self.decimal.map(|decimal| match decimal {
            Decimal::Point => ".".to_owned(),
            Decimal::Comma => ",".to_owned(),
        });
        mark("decimal", decimal);
        mark("encoding", self.encoding.map(|e| e.name().to_lowercase()));
        if !self.flipped.is_empty() {
            let names: Vec<String> = self.flipped.iter().map(|q| quoted(&q.name())).collect();
            let _ = writeln!(out, "flipped = [{}]", names.join(", "));
        }
        let words = self
            .words
            .iter()
            .map(|(key, header)| ((*key).to_owned(), header.clone()));
        let quantities = self.quantities.iter();
        let quantities = quantities.map(|(quantity, header)| (quantity.name(), header.clone()));
        subtable(&mut out, title, "columns", words.chain(quantities));
        let units = self.units.iter();
        let units = units.map(|(quantity, unit)| (quantity.name(), unit.0.word().to_owned()));
        subtable(&mut out, title, "units", units);
        let club = |club: &Option<Club>| club.map_or(NONE.to_owned(), |club| club.to_string());
        let clubs = self.clubs.values();
        let clubs = clubs.map(|(name, meant)| (quoted(name), club(meant)));
        subtable(&mut out, title, "clubs", clubs);
        out
    }
}

/// What may stand between columns.
const SEPARATORS: [(&str, u8); 5] = [
    (",", b','),
    (";", b';'),
    ("tab", b'\t'),
    ("\t", b'\t'),
    ("|", b'|'),
];

/// A key that is no column of costcard's; always false.
fn unknown(table: &Table<'_>, key: &str, place: Range<usize>) -> bool {
    let hint = columns_hint(key);
    table.fault(place, no_own(key), &hint);
    false
}

/// The sheet may well have such a column: it is no name of costcard's.
fn no_own(key: &str) -> String {
    format!("`{key}` is none of costcard's own names of columns")
}

/// Which columns there are, or the one that was meant.
fn columns_hint(key: &str) -> String {
    let names: Vec<String> = WORDS
        .map(str::to_owned)
        .into_iter()
        .chain(Quantity::ALL.map(Quantity::name))
        .collect();
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    match nearest(key, names.iter().copied()) {
        Some(meant) => format!("did you mean `{meant}`?"),
        None => format!("its names are {}", listed(&names, "and")),
    }
}

/// A table within the map's, left out when it is empty.
fn subtable(
    out: &mut String,
    title: &str,
    key: &str,
    entries: impl Iterator<Item = (String, String)>,
) {
    let mut entries = entries.peekable();
    if entries.peek().is_none() {
        return;
    }
    let _ = writeln!(out, "[{title}.{key}]");
    for (key, value) in entries {
        let _ = writeln!(out, "{key} = {}", quoted(&value));
    }
}

/// Text in quotes, as TOML wants it.
#[must_use]
pub(in crate::player) fn quoted(text: &str) -> String {
    ::toml::Value::String(text.to_owned()).to_string()
}

/// Whether a unit fits a kind: used where a sheet names its units itself.
pub(super) fn unit_for(text: &str, kind: Kind) -> Option<Unit> {
    Unit::named(text).filter(|unit| unit.kind == kind)
}
