//! From the lines of one sheet to its shots, row by row.

use std::collections::VecDeque;

use super::cells::Splitter;
use super::column_map::ColumnMap;
use super::figures::Figures;
use super::header::{self, BadHeader, Header, UnitsRow};
use super::number::{self, Decimal};
use super::quantity::{COUNT, Quantity};
use super::{Passed, PassedKind};
use crate::files::lines::Lines;
use crate::files::{Fault, Faults, Source};
use crate::player::club::Club;

/// Lines looked at before the layout is settled.
const LOOKED_AT: usize = 200;
/// Lines among which the column names are looked for.
const HEADER_WITHIN: usize = 30;
/// Faults told of one sheet; after as many again it is no sheet of shots, and not read on.
const MOST_TOLD: usize = 20;
const MOST_FAULTS: usize = 1000;
/// Rows passed over that are told one by one.
const MOST_PASSED: usize = 1000;

/// The separators tried, when the map names none.
const SEPARATORS: [u8; 4] = [b',', b';', b'\t', b'|'];

/// Words that mark a row of totals, in the languages exports usually come in.
const TOTALS: [&str; 39] = [
    "total",
    "totals",
    "sum",
    "average",
    "averages",
    "avg",
    "mean",
    "median",
    "std",
    "stdev",
    "std dev",
    "stddev",
    "sd",
    "deviation",
    "standard deviation",
    "min",
    "max",
    "minimum",
    "maximum",
    "consistency",
    "range",
    "summe",
    "gesamt",
    "mittel",
    "mittelwert",
    "durchschnitt",
    "schnitt",
    "abweichung",
    "ø",
    "somme",
    "moyenne",
    "média",
    "media",
    "promedio",
    "gemiddelde",
    "medel",
    "medelvärde",
    "gennemsnit",
    "snitt",
];

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
    pub passed: Vec<Passed>,
    pub passed_more: usize,
    /// Which columns it has.
    pub has: [bool; COUNT],
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

/// Faults of one sheet.
struct Told {
    name: String,
    list: Vec<Fault>,
    more: usize,
}

impl Told {
    fn total(&self) -> usize {
        self.list.len() + self.more
    }

    fn add(
        &mut self,
        number: usize,
        text: &str,
        span: std::ops::Range<usize>,
        message: String,
        hint: &str,
    ) {
        if self.list.len() >= MOST_TOLD {
            self.more += 1;
            return;
        }
        self.list.push(Fault {
            source: Source::excerpt(&self.name, text, number),
            span: Some(span),
            message,
            hint: Some(hint.to_owned()).filter(|hint| !hint.is_empty()),
        });
    }

    fn faults(self) -> Faults {
        let mut faults = Faults::default();
        for fault in self.list {
            faults.extend(fault.into());
        }
        faults.and_more(self.more)
    }
}

struct Sheet {
    told: Told,
    splitter: Splitter,
    header: Header,
    has: [bool; COUNT],
    decimal: Decimal,
    /// Whether the next row may be one of units.
    under_header: bool,
    shots: usize,
    passed: Vec<Passed>,
    passed_more: usize,
}

impl Sheet {
    /// Settles the layout from the first lines and takes off those up to the column names.
    fn open(
        lines: &Lines,
        map: &ColumnMap,
        head: &mut VecDeque<(usize, String)>,
    ) -> Result<Self, Faults> {
        let mut told = Told {
            name: lines.name().to_string(),
            list: Vec::new(),
            more: 0,
        };
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
        let header = match Header::read(splitter.cells(), map) {
            Ok(header) => header,
            Err(bad) => {
                add_bad(&mut told, &splitter, number, &text, bad);
                return Err(told.faults());
            }
        };
        let decimal = decimal(head, &header, &mut splitter, map, &mut told);
        let mut sheet = Self {
            told,
            splitter,
            has: with_split_spin(header.has()),
            header,
            decimal,
            under_header: true,
            shots: 0,
            passed: Vec::new(),
            passed_more: 0,
        };
        for row in before {
            sheet.pass(row, PassedKind::Preamble);
        }
        Ok(sheet)
    }

    fn pass(&mut self, row: usize, kind: PassedKind) {
        if self.passed.len() < MOST_PASSED {
            self.passed.push(Passed { row, kind });
        } else {
            self.passed_more += 1;
        }
    }

    /// Reads one row.
    fn row(&mut self, number: usize, text: &str, map: &ColumnMap, take: &mut Take<'_>) {
        if !self.splitter.split(text) {
            let message = "a quoted cell is not closed on its line".to_owned();
            let hint = "close it with a second `\"`, or remove the first";
            self.told.add(number, text, 0..text.len(), message, hint);
            return;
        }
        if let Some(kind) = self.kind_of_row() {
            return self.pass(number, kind);
        }
        if self.is_units_row(number, text) || !self.check_length(number, text) {
            return;
        }
        let club = self.club(number, text, map);
        let figures = self.figures(number, text);
        match (club, figures) {
            (Some(Some(club)), Some(figures)) => {
                self.shots += 1;
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
            (Some(None), _) => self.pass(number, PassedKind::NoClub),
            _ => {}
        }
    }

    /// What a row is that is no shot; none for a shot.
    fn kind_of_row(&self) -> Option<PassedKind> {
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
        let is_figure = |index: usize| self.header.columns.iter().any(|c| c.index == index);
        let total = (0..self.splitter.len()).any(|index| {
            let cell = self.splitter.cell(index);
            !is_figure(index) && cell.len() < 40 && is_total(cell, index == self.header.club)
        });
        if total {
            return Some(PassedKind::Totals);
        }
        let first = self.splitter.cell(self.header.club);
        (first == self.header.names[self.header.club]
            && cells().eq(self.header.names.iter().map(String::as_str)))
        .then_some(PassedKind::Header)
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

    /// The club; inside, none for a row to pass over.
    fn club(&mut self, number: usize, text: &str, map: &ColumnMap) -> Option<Option<Club>> {
        let index = self.header.club;
        let cell = self.splitter.cell(index);
        let (message, hint) = if cell.is_empty() {
            let hint = "write which club it was, or remove the row".to_owned();
            ("`club` is empty".to_owned(), hint)
        } else {
            match map.club(cell) {
                Ok(club) => return Some(club),
                Err(unknown) => {
                    let hint = match unknown.nearest {
                        Some(_) => unknown.hint(),
                        None => format!(
                            "{}, or say what it is in a map: `clubs = {{ \"{}\" = \"7 iron\" }}`, or \"none\"",
                            unknown.hint(),
                            unknown.given
                        ),
                    };
                    (format!("unknown club `{}`", unknown.given), hint)
                }
            }
        };
        let span = self.splitter.place(text, index);
        self.told.add(number, text, span, message, &hint);
        None
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
            self.told.list.push(Fault {
                source: Source::new(&self.told.name, ""),
                span: None,
                message: "this file has column names but no shots".to_owned(),
                hint: Some("each line after the column names is one shot".to_owned()),
            });
        }
        if self.told.total() > 0 {
            return Err(self.told.faults());
        }
        Ok(Read {
            passed: self.passed,
            passed_more: self.passed_more,
            has: self.has,
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

/// Whether a cell marks a row of totals: by itself, or in front of a club's name.
fn is_total(cell: &str, of_club: bool) -> bool {
    let plain = cell.to_lowercase();
    let plain = plain.trim_end_matches([':', '.']);
    let first = plain.split([' ', ':']).next().unwrap_or_default();
    TOTALS.contains(&plain) || of_club && TOTALS.contains(&first)
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

/// Which of the first lines names the columns, and what parts them; none when there is no text at all.
fn find_header(head: &VecDeque<(usize, String)>, map: &ColumnMap) -> Option<(usize, u8)> {
    let separators = match map.separator {
        Some(one) => vec![one],
        None => SEPARATORS.to_vec(),
    };
    let mut best = None;
    let mut most = 0;
    for (index, (_, text)) in head.iter().enumerate().take(HEADER_WITHIN) {
        for separator in &separators {
            let mut splitter = Splitter::new(*separator);
            splitter.split(text);
            let likeness = header::likeness(&splitter.cells(), map);
            if likeness > most {
                most = likeness;
                best = Some((index, *separator));
            }
        }
    }
    best.or_else(|| {
        let first = head.iter().position(|(_, text)| !text.trim().is_empty())?;
        let text = &head[first].1;
        let count = |separator: &u8| text.bytes().filter(|byte| byte == separator).count();
        let separator = separators
            .iter()
            .copied()
            .max_by_key(|one| (count(one), *one == b','))?;
        Some((first, separator))
    })
}

/// The decimal mark: the map's, or what the first rows show.
fn decimal(
    head: &VecDeque<(usize, String)>,
    header: &Header,
    splitter: &mut Splitter,
    map: &ColumnMap,
    told: &mut Told,
) -> Decimal {
    if let Some(decimal) = map.decimal {
        return decimal;
    }
    let mut open = None;
    for (number, text) in head {
        splitter.split(text);
        for column in &header.columns {
            let cell = splitter.cell(column.index);
            if let Some(shown) = Decimal::shown_by(cell) {
                return shown;
            }
            if open.is_none() && Decimal::is_open(cell) {
                open = Some((
                    *number,
                    text,
                    splitter.place(text, column.index),
                    cell.to_owned(),
                ));
            }
        }
    }
    if let Some((number, text, span, cell)) = open {
        let message = format!("is `{cell}` thousands, or has it three decimals?");
        let hint = "say it in a column map: `decimal = \".\"` when the comma parts thousands, `decimal = \",\"` otherwise";
        told.add(number, text, span, message, hint);
    }
    Decimal::Point
}
