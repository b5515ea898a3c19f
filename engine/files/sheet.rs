//! CSV files with a row of column names, read cell by cell so that every fault is found in one pass.

use std::cell::Cell;
use std::ops::{Range, RangeInclusive};

use csv::{ReaderBuilder, StringRecord, Trim};

use super::source::lines_ended;
use super::{Collector, Faults, Source, as_key, listed, nearest};

/// The most columns of a sheet: far more than any has.
const MOST_COLUMNS: usize = 1000;

/// What columns a sheet has.
#[derive(Debug, Clone, Copy)]
pub struct Columns<'a> {
    /// Columns that must be there.
    pub needed: &'a [&'a str],
    /// Columns that are read when they are there.
    pub optional: &'a [&'a str],
    /// Whether any other column may stand in the file and is passed over.
    pub others: bool,
}

/// Reads a sheet: the closure takes what it needs from each row and returns the value built, or `None` when a cell it
/// needs was at fault (the fault itself is already noted).
///
/// # Errors
/// Every fault of the file: no rows, missing, doubled or unknown columns, or whatever the closure found in the cells.
pub fn read<T>(
    source: &Source,
    columns: Columns<'_>,
    mut build: impl FnMut(&Row<'_>) -> Option<T>,
) -> Result<Vec<T>, Faults> {
    let collector = Collector::new(source);
    let separator = separator(&source.text);
    let mut reader = ReaderBuilder::new()
        .delimiter(separator)
        .has_headers(false)
        .flexible(true)
        .trim(Trim::All)
        .from_reader(source.text.as_bytes());
    let mut records = reader.records();
    let Some(Ok(header)) = records.next().filter(|_| !source.text.trim().is_empty()) else {
        let hint = format!(
            "its first line names the columns: {}",
            columns.needed.join(",")
        );
        collector.add(0..0, "this file is empty".to_owned(), Some(hint));
        return Err(collector.faults());
    };
    if header.len() > MOST_COLUMNS {
        let message = format!(
            "this file has {} columns, more than {MOST_COLUMNS}",
            header.len()
        );
        let hint = "keep the columns that are read, one line a row".to_owned();
        collector.add(0..0, message, Some(hint));
        return Err(collector.faults());
    }
    let header = as_known(&header, columns);
    check_header(&collector, separator, &header, columns);
    if !collector.is_clean() {
        return Err(collector.faults());
    }
    let mut values = Vec::new();
    let counted = Cell::new((0, 1));
    for record in records {
        // Text is UTF-8 already and rows may differ in length, so that no record can fail.
        let Ok(record) = record else { break };
        let row = Row {
            collector: &collector,
            separator,
            header: &header,
            record: &record,
            counted: &counted,
        };
        values.extend(row.check_length().and_then(|()| build(&row)));
    }
    if values.is_empty() && collector.is_clean() {
        let end = source.text.len();
        let hint = "each line after the first is one row".to_owned();
        collector.add(
            end..end,
            "this file has column names but no rows".to_owned(),
            Some(hint),
        );
    }
    collector.finish(Some(values))
}

/// The columns by the names they are known under, where they are written with capitals or with blanks between words.
fn as_known(header: &StringRecord, columns: Columns<'_>) -> StringRecord {
    let known = || columns.needed.iter().chain(columns.optional);
    let name = |given: &str| {
        let plain = as_key(given);
        match known().any(|name| *name == plain) {
            true => plain,
            false => given.to_owned(),
        }
    };
    let mut named: StringRecord = header.iter().map(name).collect();
    named.set_position(header.position().cloned());
    named
}

/// What stands between the columns: the mark of those there are that the first line has most of.
fn separator(text: &str) -> u8 {
    let line = text.trim_start().lines().next().unwrap_or_default();
    let count = |mark: u8| line.bytes().filter(|byte| *byte == mark).count();
    let marks = [b'|', b'\t', b';', b','];
    marks
        .into_iter()
        .max_by_key(|mark| count(*mark))
        .unwrap_or(b',')
}

/// A number with a point or a comma before its decimals. One comma before three digits may part thousands, and is none.
fn decimal(text: &str) -> Option<f64> {
    let number = match text.split_once(',') {
        Some((whole, decimals)) if decimals.len() != 3 && !whole.contains('.') => {
            format!("{whole}.{decimals}").parse::<f64>()
        }
        _ => text.parse::<f64>(),
    };
    number.ok().filter(|number| number.is_finite())
}

/// Notes missing, doubled and unknown columns.
fn check_header(collector: &Collector, separator: u8, header: &StringRecord, columns: Columns<'_>) {
    let known: Vec<&str> = columns
        .needed
        .iter()
        .chain(columns.optional)
        .copied()
        .collect();
    let missing: Vec<&str> = columns
        .needed
        .iter()
        .copied()
        .filter(|name| !header.iter().any(|c| c == *name))
        .collect();
    let mut meant = Vec::new();
    for (index, name) in header.iter().enumerate() {
        let place = cell(collector, separator, header, index);
        if header.iter().take(index).any(|earlier| earlier == name) && known.contains(&name) {
            let hint = "each column stands once; remove one of the two".to_owned();
            collector.add(
                place,
                format!("the column `{name}` stands twice"),
                Some(hint),
            );
        } else if let Some(near) =
            nearest(name, missing.iter().copied()).filter(|_| !known.contains(&name))
        {
            meant.push(near);
            let hint = format!("did you mean `{near}`?");
            collector.add(place, format!("there is no column `{name}`"), Some(hint));
        } else if !columns.others && !known.contains(&name) {
            let hint = match nearest(name, known.iter().copied()) {
                Some(meant) => format!("did you mean `{meant}`?"),
                None => format!("the columns are {}", listed(&known, "and")),
            };
            collector.add(place, format!("there is no column `{name}`"), Some(hint));
        }
    }
    for name in missing.iter().filter(|name| !meant.contains(name)) {
        let hint = format!("the first line must name {}", listed(columns.needed, "and"));
        collector.add(
            line(collector, header),
            format!("the column `{name}` is missing"),
            Some(hint),
        );
    }
}

/// One row of a sheet.
#[derive(Debug)]
pub struct Row<'a> {
    collector: &'a Collector,
    separator: u8,
    header: &'a StringRecord,
    record: &'a StringRecord,
    /// The byte up to which lines were counted, and the line it stands on.
    counted: &'a Cell<(usize, usize)>,
}

impl Row<'_> {
    /// Text that must be there.
    #[must_use]
    pub fn text(&self, column: &str) -> Option<&str> {
        let (index, text) = self.get(column)?;
        if text.is_empty() {
            return self.note(
                index,
                format!("`{column}` is empty"),
                "write it, or remove the row",
            );
        }
        Some(text)
    }

    /// A number that must be there, within a range; `unit` is what it is counted in, as `mph`, or empty.
    #[must_use]
    pub fn number(&self, column: &str, range: RangeInclusive<f64>, unit: &str) -> Option<f64> {
        let (index, text) = self.get(column)?;
        if text.is_empty() {
            return self.note(
                index,
                format!("`{column}` is empty"),
                "write a number, or remove the row",
            );
        }
        let Some(number) = decimal(text) else {
            let message = format!("`{column}` must be a number, not `{text}`");
            return self.note(
                index,
                message,
                "write digits only, with a point before decimals: 167.2",
            );
        };
        if range.contains(&number) {
            return Some(number);
        }
        let unit = if unit.is_empty() {
            String::new()
        } else {
            format!(" {unit}")
        };
        let message = format!(
            "`{column}` is {text}, but must be from {} to {}{unit}",
            range.start(),
            range.end()
        );
        self.note(index, message, "correct it, or remove the row")
    }

    /// A number that may be left out: `Some(None)` when the column or the cell is empty, `None` when it is at fault.
    #[must_use]
    pub fn may_number(
        &self,
        column: &str,
        range: RangeInclusive<f64>,
        unit: &str,
    ) -> Option<Option<f64>> {
        match self.get(column) {
            None | Some((_, "")) => Some(None),
            Some(_) => self.number(column, range, unit).map(Some),
        }
    }

    /// Whether the sheet has a column of this name.
    #[must_use]
    pub fn knows(&self, column: &str) -> bool {
        self.get(column).is_some()
    }

    /// Whether anything stands in a cell.
    #[must_use]
    pub fn has(&self, column: &str) -> bool {
        self.get(column).is_some_and(|(_, text)| !text.is_empty())
    }

    /// Line of the file the row begins on, from 1.
    #[must_use]
    pub fn line(&self) -> usize {
        let start = line(self.collector, self.record).start;
        // From the row that was asked last, so that all rows of a long sheet are counted in one go.
        let (from, before) = self.counted.get();
        let text = &self.collector.source().text;
        let number = before + lines_ended(text, from..start);
        self.counted.set((start, number));
        number
    }

    /// Where a cell stands; nowhere when the sheet has no such column.
    #[must_use]
    pub fn place(&self, column: &str) -> Range<usize> {
        self.get(column).map_or(0..0, |(index, _)| {
            cell(self.collector, self.separator, self.record, index)
        })
    }

    /// Notes a fault of a cell.
    pub fn fault(&self, column: &str, message: String, hint: &str) {
        if let Some((index, _)) = self.get(column) {
            let _: Option<()> = self.note(index, message, hint);
        }
    }

    fn get(&self, column: &str) -> Option<(usize, &str)> {
        let index = self.header.iter().position(|name| name == column)?;
        Some((index, self.record.get(index).unwrap_or_default()))
    }

    fn check_length(&self) -> Option<()> {
        if self.record.len() == self.header.len() {
            return Some(());
        }
        let message = format!(
            "this row has {} values, but the first line names {} columns",
            self.record.len(),
            self.header.len()
        );
        let hint = match self.separator {
            b',' => {
                "a value with a comma in it stands in quotes; an empty value still has its comma"
            }
            _ => "an empty value still has the mark before the next",
        };
        self.collector.add(
            line(self.collector, self.record),
            message,
            Some(hint.to_owned()),
        );
        None
    }

    fn note<T>(&self, index: usize, message: String, hint: &str) -> Option<T> {
        self.collector.add(
            cell(self.collector, self.separator, self.record, index),
            message,
            Some(hint.to_owned()),
        );
        None
    }
}

/// Where a record stands: its first line.
fn line(collector: &Collector, record: &StringRecord) -> Range<usize> {
    let text = &collector.source().text;
    let from = record
        .position()
        .map_or(0, |position| usize::try_from(position.byte()).unwrap_or(0));
    // The reader counts the line breaks before a record to it.
    let start = text[from..]
        .find(['\r', '\n'])
        .filter(|gap| *gap == 0)
        .map_or(from, |_| {
            text[from..]
                .find(|c| c != '\r' && c != '\n')
                .map_or(text.len(), |skip| from + skip)
        });
    let end = text[start..]
        .find(['\r', '\n'])
        .map_or(text.len(), |length| start + length);
    start..end
}

/// Where a cell of a record stands, without the blanks round it.
fn cell(collector: &Collector, separator: u8, record: &StringRecord, index: usize) -> Range<usize> {
    let start = line(collector, record).start;
    let place = super::cell::place(&collector.source().text[start..], separator, index);
    start + place.start..start + place.end
}
