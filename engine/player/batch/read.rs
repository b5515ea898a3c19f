//! From the lines of one sheet to its shots, row by row.

use std::collections::{BTreeMap, VecDeque};
use std::ops::Range;

use super::cells::Splitter;
use super::column_map::{ColumnMap, quoted};
use super::figures::Figures;
use super::golfers::Golfers;
use super::header::{self, BadHeader, Header, UnitsRow};
use super::layout::{decimal, drop_columns_of_words, find_header};
use super::number::{self, Decimal};
use super::quantity::{COUNT, Quantity, Unit};
use super::told::Told;
use super::{Passed, PassedKind, totals};
use crate::files::Faults;
use crate::files::lines::Lines;
use crate::player::club::{self, Club};

/// Lines looked at before the layout is settled.
const LOOKED_AT: usize = 200;
/// After as many faults it is no sheet of shots, and not read on.
const MOST_FAULTS: usize = 1000;

/// One row that is a shot.
pub(super) struct RawShot<'a> {
    pub row: usize,
    pub club: Club,
    pub session: &'a str,
    pub date: &'a str,
    pub figures: Figures,
}

/// Takes a shot, and which columns its sheet has.
pub(super) type Take<'a> = dyn FnMut(RawShot<'_>, &[bool; COUNT]) + 'a;

/// What a sheet held beside its shots.
pub(super) struct Read {
    /// Rows that are no shots, by what they are.
    pub passed: BTreeMap<PassedKind, Passed>,
    /// Which columns it has.
    pub has: [bool; COUNT],
    /// The headers of columns that are not read.
    pub unread: Vec<String>,
    /// The columns that are, with their units.
    pub units: Units,
}

/// The line that names the columns, and what the sheet says they are in.
pub(super) struct Units {
    pub row: usize,
    pub text: String,
    pub units: Vec<(Quantity, Unit)>,
    /// Where each of these columns is named.
    pub places: Vec<Range<usize>>,
}

/// Reads a sheet; every shot is handed on as it comes.
pub(super) fn read(
    lines: &mut Lines,
    map: &ColumnMap,
    take: &mut Take<'_>,
) -> Result<Read, Faults> {
    let mut head = VecDeque::new();
    while head.len() < LOOKED_AT
        && let Some(line) = lines.next_line()?
    {
        head.push_back((line.number, line.text.to_owned()));
    }
    let mut sheet = Sheet::open(lines, map, &mut head)?;
    while let Some((number, text)) = head.pop_front() {
        sheet.row(number, &text, map, take);
    }
    while sheet.told.total() < MOST_FAULTS
        && let Some(line) = lines.next_line()?
    {
        sheet.row(line.number, line.text, map, take);
    }
    sheet.close()
}

struct Sheet {
    told: Told,
    splitter: Splitter,
    header: Header,
    /// Where the header stands, and its text.
    header_line: (usize, String),
    has: [bool; COUNT],
    decimal: Decimal,
    /// Whether the next row may be one of units.
    under_header: bool,
    /// Whether the first cells of rows number the shots; not known before the first shot.
    is_numbered: Option<bool>,
    golfers: Golfers,
    /// Lofts that clubs were named by, and what stood there.
    lofts: BTreeMap<Club, (u8, String)>,
    shots: usize,
    passed: BTreeMap<PassedKind, Passed>,
}

impl Sheet {
    /// Settles the layout from the first lines and takes off those up to the column names.
    fn open(
        lines: &Lines,
        map: &ColumnMap,
        head: &mut VecDeque<(usize, String)>,
    ) -> Result<Self, Faults> {
        let mut told = Told::new(lines.name());
        let Some((at, separator)) = find_header(head, map) else {
            let hint = "its first line names the columns: \
                        club,ball_speed_mph,launch_deg,direction_deg,backspin_rpm,sidespin_rpm";
            told.add(1, "", 0..0, "this file is empty".to_owned(), hint);
            return Err(told.faults());
        };
        let mut splitter = Splitter::new(separator);
        let before: Vec<usize> = head.drain(..at).map(|(number, _)| number).collect();
        let (number, text) = head.pop_front().unwrap_or_default();
        splitter.split(&text);
        let mut header = match Header::read(splitter.cells(), map) {
            Ok(header) => header,
            Err(bad) => {
                add_bad(&mut told, &splitter, number, &text, bad);
                return Err(told.faults());
            }
        };
        drop_columns_of_words(head, &mut header, &mut splitter);
        let decimal = decimal(head, &header, &mut splitter, map, &mut told);
        let mut sheet = Self {
            told,
            splitter,
            has: with_split_spin(header.has()),
            header,
            header_line: (number, text),
            decimal,
            under_header: true,
            is_numbered: None,
            golfers: Golfers::default(),
            lofts: BTreeMap::new(),
            shots: 0,
            passed: BTreeMap::new(),
        };
        sheet.golfers = Golfers::of(&sheet.header.names, |index| {
            sheet.is_free(index) && sheet.header.session != Some(index)
        });
        for row in before {
            sheet.pass(row, PassedKind::Preamble);
        }
        Ok(sheet)
    }

    fn pass(&mut self, row: usize, kind: PassedKind) {
        let passed = self.passed.entry(kind).or_insert(Passed {
            rows: 0,
            file: 0,
            row,
        });
        passed.rows += 1;
    }

    /// Reads one row.
    fn row(&mut self, number: usize, text: &str, map: &ColumnMap, take: &mut Take<'_>) {
        if !self.splitter.split(text) {
            let message = "a quoted cell is not closed on its line".to_owned();
            let hint = "close it with a second `\"`, or remove the first";
            self.told.add(number, text, 0..text.len(), message, hint);
            return;
        }
        if let Some(kind) = self.kind_of_row(map) {
            return self.pass(number, kind);
        }
        if self.is_units_row(number, text) || !self.check_length(number, text) {
            return;
        }
        self.check_open_units();
        let club = self.club(number, text, map);
        let figures = self.figures(number, text);
        match (club, figures) {
            (Some(Some(club)), Some(figures)) => {
                self.check_golfer(number, text);
                self.shots += 1;
                if self.is_numbered.is_none() {
                    let is_word = self.is_free(0) && self.header.session != Some(0);
                    self.is_numbered =
                        Some(is_word && self.splitter.cell(0).parse::<u32>().is_ok());
                }
                let word = |index: Option<usize>| index.map_or("", |i| self.splitter.cell(i));
                let shot = RawShot {
                    row: number,
                    club,
                    session: word(self.header.session),
                    date: word(self.header.date),
                    figures,
                };
                take(shot, &self.has);
            }
            (Some(None), _) if club::is_putter(self.splitter.cell(self.header.club)) => {
                self.pass(number, PassedKind::Putter);
            }
            (Some(None), _) => self.pass(number, PassedKind::NoClub),
            _ => {}
        }
    }

    /// What a row is that is no shot; none for a shot.
    fn kind_of_row(&self, map: &ColumnMap) -> Option<PassedKind> {
        let cells = || (0..self.splitter.len()).map(|index| self.splitter.cell(index));
        let filled = cells().filter(|cell| !cell.is_empty()).count();
        if filled == 0 {
            return Some(PassedKind::Blank);
        }
        if filled == 1
            && self
                .header
                .columns
                .iter()
                .all(|c| self.splitter.cell(c.index).is_empty())
        {
            return Some(PassedKind::Title);
        }
        if self.is_totals(map) {
            return Some(PassedKind::Totals);
        }
        let first = self.splitter.cell(self.header.club);
        (first == self.header.names[self.header.club]
            && cells().eq(self.header.names.iter().map(String::as_str)))
        .then_some(PassedKind::Header)
    }

    /// Whether a column is neither one of figures nor that of clubs.
    fn is_free(&self, index: usize) -> bool {
        index != self.header.club && self.header.columns.iter().all(|c| c.index != index)
    }

    /// Whether a row holds averages or the like. A row with a club is one only where its first cell can be nothing else,
    /// or stands in a column of shot numbers: players are called Max, and places Range.
    fn is_totals(&self, map: &ColumnMap) -> bool {
        let club = self.splitter.cell(self.header.club);
        if !club.contains(char::is_alphanumeric) {
            let mut free = (0..self.splitter.len()).filter(|index| self.is_free(*index));
            return free.any(|index| totals::is_mark(self.splitter.cell(index)));
        }
        if totals::is_mark_of_club(club) && map.club(club).is_err() {
            return true;
        }
        let first = (0..self.splitter.len()).find(|index| !self.splitter.cell(*index).is_empty());
        first
            .filter(|index| self.is_free(*index))
            .is_some_and(|index| {
                let cell = self.splitter.cell(index);
                totals::is_plain(cell) || self.is_numbered == Some(true) && totals::is_mark(cell)
            })
    }

    fn check_golfer(&mut self, number: usize, text: &str) {
        let Some(index) = self.golfers.column() else {
            return;
        };
        if let Some(message) = self.golfers.other(self.splitter.cell(index).trim()) {
            let span = self.splitter.place(text, index);
            let hint = "a sheet holds the shots of one golfer: make one of each; or rename the column if all are his";
            self.told.add(number, text, span, message, hint);
        }
    }

    fn is_units_row(&mut self, number: usize, text: &str) -> bool {
        if !std::mem::take(&mut self.under_header) {
            return false;
        }
        match header::units_row(&self.splitter.cells(), &self.header) {
            UnitsRow::No => return false,
            UnitsRow::Units(columns) => self.header.columns = columns,
            UnitsRow::Bad(bad) => add_bad(&mut self.told, &self.splitter, number, text, bad),
        }
        self.pass(number, PassedKind::Units);
        true
    }

    fn check_length(&mut self, number: usize, text: &str) -> bool {
        let (cells, names) = (self.splitter.len(), self.header.names.len());
        let extra_is_empty = (names..cells).all(|index| self.splitter.cell(index).is_empty());
        if cells == names || cells > names && extra_is_empty {
            return true;
        }
        let message = format!("this row has {cells} values, but there are {names} columns");
        let hint = "a value with a separator in it stands in quotes; an empty value still has its separator";
        self.told.add(number, text, 0..text.len(), message, hint);
        false
    }

    /// Tells of columns with figures whose unit neither the header, nor a row under it, nor the cell says: each once.
    fn check_open_units(&mut self) {
        for column in &mut self.header.columns {
            let cell = self.splitter.cell(column.index);
            let is_figure = cell.contains(|c: char| c.is_ascii_digit());
            if !column.unit_is_open || !is_figure || number::says_unit(cell) {
                continue;
            }
            column.unit_is_open = false;
            let (number, text) = &self.header_line;
            let bad = header::open_unit(&self.header.names[column.index], column.quantity);
            let span = self.splitter.place(text, column.index);
            self.told.add(*number, text, span, bad.message, &bad.hint);
        }
    }

    /// The club; inside, none for a row to pass over.
    fn club(&mut self, number: usize, text: &str, map: &ColumnMap) -> Option<Option<Club>> {
        let index = self.header.club;
        let cell = self.splitter.cell(index);
        if cell.is_empty() {
            let span = self.splitter.place(text, index);
            let hint = "write which club it was, or remove the row";
            self.told
                .add(number, text, span, "`club` is empty".to_owned(), hint);
            return None;
        }
        match map.club(cell) {
            Ok(Some(club)) => {
                let is_sure = map.maps_club(cell) || self.is_one_loft(club, number, text);
                is_sure.then_some(Some(club))
            }
            Ok(None) => Some(None),
            Err(unknown) => {
                let hint = match unknown.nearest {
                    Some(_) => unknown.hint(),
                    None => format!(
                        "{}; or say in a column map which club it is, or \"none\" to pass over its rows: `clubs = {{ {} = \"none\" }}`",
                        unknown.hint(),
                        quoted(&unknown.given)
                    ),
                };
                let span = self.splitter.place(text, index);
                self.told
                    .add_name(&unknown.given, number, text, span, &hint);
                None
            }
        }
    }

    /// Whether a club is not named by two lofts, which are two clubs; the second is told of.
    fn is_one_loft(&mut self, club: Club, number: usize, text: &str) -> bool {
        let cell = self.splitter.cell(self.header.club);
        let Some(loft) = club::loft_named(cell) else {
            return true;
        };
        let (first, named) = self
            .lofts
            .entry(club)
            .or_insert_with(|| (loft, cell.to_owned()));
        if *first == loft {
            return true;
        }
        let message = format!("`{named}` and `{cell}` would both be the {club}");
        let hint = format!(
            "say in a column map which is which, or \"none\" to pass over its rows: `clubs = {{ {} = \"gap wedge\", {} = \"sand wedge\" }}`",
            quoted(named),
            quoted(cell)
        );
        let span = self.splitter.place(text, self.header.club);
        self.told.add(number, text, span, message, &hint);
        false
    }

    /// Every figure of the row; each at fault is told.
    fn figures(&mut self, number: usize, text: &str) -> Option<Figures> {
        let mut figures = Figures::default();
        let mut sound = true;
        // Sheets of one batch in different units must give the same bits.
        let tidy = |value: f64| (value * 1e6).round() / 1e6;
        for column in &self.header.columns {
            let cell = self.splitter.cell(column.index);
            match number::read(cell, column.quantity, column.unit, self.decimal) {
                Ok(Some(value)) => figures.measure(column.quantity, tidy(column.sign * value)),
                Ok(None) => {}
                Err(bad) => {
                    sound = false;
                    let span = self.splitter.place(text, column.index);
                    self.told.add(number, text, span, bad.message, &bad.hint);
                }
            }
        }
        figures.split_spin();
        sound.then_some(figures)
    }

    fn close(mut self) -> Result<Read, Faults> {
        if self.told.total() == 0 && self.shots == 0 {
            let hint = "each line after the column names is one shot";
            self.told
                .add_whole("this file has column names but no shots", hint);
        }
        if self.told.total() > 0 {
            return Err(self.told.faults());
        }
        let unread = self.header.unread().into_iter();
        let columns = &self.header.columns;
        let (row, text) = self.header_line;
        let place = |column: &header::Column| self.splitter.place(&text, column.index);
        let units = Units {
            units: columns.iter().map(|one| (one.quantity, one.unit)).collect(),
            places: columns.iter().map(place).collect(),
            row,
            text,
        };
        Ok(Read {
            unread: unread.map(str::to_owned).collect(),
            passed: self.passed,
            has: self.has,
            units,
        })
    }
}

/// Spin stands for backspin, and with its axis for sidespin too.
fn with_split_spin(mut has: [bool; COUNT]) -> [bool; COUNT] {
    has[Quantity::Backspin as usize] |= has[Quantity::Spin as usize];
    has[Quantity::Sidespin as usize] |=
        has[Quantity::Spin as usize] && has[Quantity::SpinAxis as usize];
    has
}

fn add_bad(told: &mut Told, splitter: &Splitter, number: usize, text: &str, bad: Vec<BadHeader>) {
    for bad in bad {
        let span = match bad.cell {
            Some(cell) => splitter.place(text, cell),
            None => 0..text.len(),
        };
        told.add(number, text, span, bad.message, &bad.hint);
    }
}
