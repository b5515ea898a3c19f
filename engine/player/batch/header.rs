//! The line of a sheet that names its columns: where it stands, what parts the columns, what each of them holds.

use super::column_map::{CLUB, ColumnMap, DATE, SESSION, unit_for};
use super::number::wrong_unit;
use super::plain;
use super::quantity::{COUNT, Kind, Quantity, Unit};
use crate::files::{listed, nearest};

/// A column with a quantity.
#[derive(Debug, Clone, Copy)]
pub(super) struct Column {
    pub quantity: Quantity,
    pub index: usize,
    pub unit: Unit,
    /// Whether the map, or costcard's own name of the column, says the unit, so that a row of units must agree.
    pub unit_is_said: bool,
    /// Whether nothing has said the unit yet, and it could be one of several.
    pub unit_is_open: bool,
    /// Whether the column is known by what practitioners call it only: with words in it, it is something else.
    pub is_plain: bool,
    /// −1 where left is positive.
    pub sign: f64,
}

/// Which column holds what.
#[derive(Debug, Clone)]
pub(super) struct Header {
    /// Headers as they stand.
    pub names: Vec<String>,
    pub club: usize,
    pub session: Option<usize>,
    pub date: Option<usize>,
    pub columns: Vec<Column>,
}

/// What is wrong with a header: which of its cells (the whole line when none), what, and what to write.
#[derive(Debug)]
pub(super) struct BadHeader {
    pub cell: Option<usize>,
    pub message: String,
    pub hint: String,
}

/// The fault of a column whose unit nothing says.
pub(super) fn open_unit(name: &str, quantity: Quantity) -> BadHeader {
    let units = match quantity.kind() {
        Kind::Speed => ["mph", "km/h", "m/s"],
        _ => ["yd", "m", "ft"],
    };
    let [a, b, c] = units.map(|unit| format!("`{name} ({unit})`"));
    let key = quantity.name();
    BadHeader {
        cell: None,
        message: format!("`{name}` does not say its unit"),
        hint: format!(
            "write {a}, {b} or {c}, or say it in a column map (`--map MAP.toml`): `units = {{ {key} = \"{}\" }}`",
            units[0]
        ),
    }
}

/// Two headers are one when they differ in case and blanks only.
fn same(a: &str, b: &str) -> bool {
    let plain = |text: &str| -> String {
        let letters = text.chars().filter(|c| !c.is_whitespace());
        letters.flat_map(char::to_lowercase).collect()
    };
    plain(a) == plain(b)
}

/// How many cells of a line are headers that are looked for.
pub(super) fn likeness(cells: &[String], map: &ColumnMap) -> usize {
    let wanted = |cell: &&String| {
        [CLUB, SESSION, DATE]
            .iter()
            .any(|word| same(map.word_header(word), cell))
            || Quantity::ALL.iter().any(|quantity| {
                map.header(*quantity)
                    .is_some_and(|header| same(header, cell))
            })
            || Quantity::named(cell).is_some()
            || plain::is_club(cell)
            || plain::quantity(cell).is_some()
    };
    cells.iter().filter(wanted).count()
}

impl Header {
    /// Finds every column; or every fault of the line.
    pub(super) fn read(cells: Vec<String>, map: &ColumnMap) -> Result<Self, Vec<BadHeader>> {
        let mut bad = Vec::new();
        let club = word(&cells, map, CLUB, &mut bad).or_else(|| {
            let plain = (0..cells.len()).find(|&index| plain::is_club(&cells[index]));
            plain.filter(|_| !map.maps_word(CLUB))
        });
        let session = word(&cells, map, SESSION, &mut bad);
        let date = word(&cells, map, DATE, &mut bad);
        let columns: Vec<Column> = Quantity::ALL
            .into_iter()
            .filter_map(|quantity| column(&cells, map, quantity, &mut bad))
            .collect();
        note_misspelt(&cells, map, &columns, &mut bad);
        if bad.is_empty() {
            super::lacking::note(&cells, club, [session, date], &columns, &mut bad);
        }
        match club {
            Some(club) if bad.is_empty() => Ok(Self {
                names: cells,
                club,
                session,
                date,
                columns,
            }),
            _ => Err(bad),
        }
    }

    /// The index of each quantity's column among `columns`.
    pub(super) fn has(&self) -> [bool; COUNT] {
        let mut has = [false; COUNT];
        for column in &self.columns {
            has[column.quantity as usize] = true;
        }
        has
    }

    /// The headers of columns that are not read.
    pub(super) fn unread(&self) -> Vec<&str> {
        let is_read = |index: usize| {
            index == self.club
                || [self.session, self.date].contains(&Some(index))
                || self.columns.iter().any(|column| column.index == index)
        };
        let unread = (0..self.names.len()).filter(|index| !is_read(*index));
        unread
            .map(|index| self.names[index].as_str())
            .filter(|name| !name.is_empty())
            .collect()
    }
}

/// Where a header stands; standing twice is a fault.
fn place(cells: &[String], header: &str, bad: &mut Vec<BadHeader>) -> Option<usize> {
    let mut places = (0..cells.len()).filter(|&index| same(&cells[index], header));
    let first = places.next()?;
    if let Some(second) = places.next() {
        bad.push(BadHeader {
            cell: Some(second),
            message: format!("the column `{header}` stands twice"),
            hint: "each column stands once; remove or rename one of the two".to_owned(),
        });
    }
    Some(first)
}

/// The column of a header that the map names.
fn mapped(cells: &[String], key: &str, header: &str, bad: &mut Vec<BadHeader>) -> Option<usize> {
    let found = place(cells, header, bad);
    if found.is_none() {
        let names: Vec<&str> = cells
            .iter()
            .map(String::as_str)
            .filter(|c| !c.is_empty())
            .collect();
        let hint = match nearest(header, names.iter().copied()) {
            _ if names.iter().any(|name| same(name, key)) => {
                format!("the sheet has `{key}` itself: take that line out of the map")
            }
            Some(meant) => format!("did you mean `{meant}`?"),
            None => format!("its columns are {}", listed(&names, "and")),
        };
        bad.push(BadHeader {
            cell: None,
            message: format!("no column `{header}`, which the map names for `{key}`"),
            hint,
        });
    }
    found
}

fn word(
    cells: &[String],
    map: &ColumnMap,
    key: &'static str,
    bad: &mut Vec<BadHeader>,
) -> Option<usize> {
    let header = map.word_header(key);
    if map.maps_word(key) {
        mapped(cells, key, header, bad)
    } else {
        place(cells, header, bad)
    }
}

/// Where a quantity stands, and what of its unit is known.
struct Found {
    index: usize,
    unit: Option<Unit>,
    /// Whether costcard's own name says the unit.
    is_own: bool,
    is_plain: bool,
}

fn column(
    cells: &[String],
    map: &ColumnMap,
    quantity: Quantity,
    bad: &mut Vec<BadHeader>,
) -> Option<Column> {
    let found = match map.header(quantity) {
        Some(header) => {
            let index = mapped(cells, &quantity.name(), header, bad)?;
            if let Some(other) = of_another_kind(&cells[index], quantity) {
                bad.push(BadHeader {
                    cell: Some(index),
                    ..other
                });
                return None;
            }
            Found {
                index,
                unit: plain::unit_of(&cells[index], quantity),
                is_own: false,
                is_plain: false,
            }
        }
        None => match own_column(cells, quantity, bad) {
            Some((index, unit)) => Found {
                index,
                unit,
                is_own: true,
                is_plain: false,
            },
            None => plain_column(cells, map, quantity, bad)?,
        },
    };
    let said = map.unit(quantity).or(found.unit.filter(|_| found.is_own));
    let unit = said.or(found.unit);
    Some(Column {
        quantity,
        index: found.index,
        unit: unit.unwrap_or_else(|| quantity.kind().trade()),
        unit_is_said: said.is_some(),
        // Degrees and rpm are what everybody writes; a map is written by who knows the sheet.
        unit_is_open: unit.is_none()
            && found.is_plain
            && matches!(quantity.kind(), Kind::Speed | Kind::Length),
        is_plain: found.is_plain,
        sign: if map.is_flipped(quantity) { -1.0 } else { 1.0 },
    })
}

/// The fault of a header that a map names for a quantity while it says a unit of another.
fn of_another_kind(header: &str, quantity: Quantity) -> Option<BadHeader> {
    let unit = plain::any_unit_of(header).filter(|unit| unit.kind != quantity.kind())?;
    let wrong = wrong_unit(unit.word(), quantity);
    let name = quantity.name();
    Some(BadHeader {
        cell: None,
        message: format!("`{header}` is mapped to `{name}`, but {}", wrong.message),
        hint: wrong.hint,
    })
}

/// The column that practitioners call a quantity; two of them are a fault.
fn plain_column(
    cells: &[String],
    map: &ColumnMap,
    quantity: Quantity,
    bad: &mut Vec<BadHeader>,
) -> Option<Found> {
    let mut found = cells.iter().enumerate().filter_map(|(index, cell)| {
        let (named, unit) = plain::quantity(cell)?;
        let is_free = named == quantity && Quantity::named(&own_form(cell)).is_none();
        (is_free && !map.names_header(|header| same(header, cell))).then_some((index, unit))
    });
    let (index, unit) = found.next()?;
    if let Some((second, _)) = found.next() {
        let (one, other) = (&cells[index], &cells[second]);
        let name = quantity.name();
        bad.push(BadHeader {
            cell: Some(second),
            message: twice(one, other),
            hint: format!(
                "remove one of the two columns, or say which is to be read in a column map: `columns = {{ {name} = \"{one}\" }}`"
            ),
        });
    }
    Some(Found {
        index,
        unit,
        is_own: false,
        is_plain: true,
    })
}

fn own_form(cell: &str) -> String {
    cell.trim().to_lowercase()
}

fn twice(one: &str, other: &str) -> String {
    if one == other {
        format!("the column `{other}` stands twice")
    } else {
        format!("`{one}` and `{other}` are the same quantity")
    }
}

/// Costcard's own column of a quantity, in whichever unit; in two units at once is a fault.
fn own_column(
    cells: &[String],
    quantity: Quantity,
    bad: &mut Vec<BadHeader>,
) -> Option<(usize, Option<Unit>)> {
    let mut found = cells.iter().enumerate().filter_map(|(index, cell)| {
        let (named, unit) = Quantity::named(&own_form(cell))?;
        (named == quantity).then_some((index, Some(unit)))
    });
    let first = found.next()?;
    if let Some((second, _)) = found.next() {
        bad.push(BadHeader {
            cell: Some(second),
            message: twice(&cells[first.0], &cells[second]),
            hint: "remove one of the two columns".to_owned(),
        });
    }
    Some(first)
}

/// Headers that are nearly costcard's own, where that column is missing: most likely meant.
fn note_misspelt(cells: &[String], map: &ColumnMap, columns: &[Column], bad: &mut Vec<BadHeader>) {
    let missing: Vec<String> = Quantity::ALL
        .into_iter()
        .filter(|quantity| columns.iter().all(|column| column.quantity != *quantity))
        // What the map names has a fault of its own by now.
        .filter(|quantity| map.header(*quantity).is_none())
        .map(Quantity::name)
        .collect();
    for (index, cell) in cells.iter().enumerate() {
        let taken = columns.iter().any(|column| column.index == index)
            || plain::is_club(cell)
            || plain::quantity(cell).is_some();
        if taken
            || [CLUB, SESSION, DATE]
                .iter()
                .any(|word| same(map.word_header(word), cell))
        {
            continue;
        }
        if let Some(meant) = nearest(cell, missing.iter().map(String::as_str)) {
            bad.push(BadHeader {
                cell: Some(index),
                message: format!("there is no column `{cell}`"),
                hint: format!("did you mean `{meant}`?"),
            });
        }
    }
}

/// What a row under the header says of units: the columns' units, or what is wrong with a cell.
pub(super) enum UnitsRow {
    /// No row of units.
    No,
    /// The units, one a column.
    Units(Vec<Column>),
    /// Cells at fault.
    Bad(Vec<BadHeader>),
}

/// Reads the row under the header as one of units, if it is one: no digit in it, and a unit in one of its cells.
pub(super) fn units_row(cells: &[String], header: &Header) -> UnitsRow {
    let of = |column: &Column| cells.get(column.index).map_or("", |cell| cell.trim());
    let no_digit = |column: &Column| {
        !of(column).contains(|c: char| c.is_ascii_digit()) || Unit::named(of(column)).is_some()
    };
    let some_unit = header
        .columns
        .iter()
        .any(|column| Unit::named(of(column)).is_some());
    if !some_unit || !header.columns.iter().all(no_digit) {
        return UnitsRow::No;
    }
    let mut bad = Vec::new();
    let mut columns = header.columns.clone();
    for column in &mut columns {
        let text = of(column).to_owned();
        if text.is_empty() {
            continue;
        }
        let cell = Some(column.index);
        match unit_for(&text, column.quantity.kind()) {
            None => {
                let wrong = wrong_unit(&text, column.quantity);
                let (message, hint) = (wrong.message, wrong.hint);
                bad.push(BadHeader {
                    cell,
                    message,
                    hint,
                });
            }
            Some(unit) if column.unit_is_said && unit != column.unit => bad.push(BadHeader {
                cell,
                message: format!(
                    "this row says {} is in {text}, but it was to be in {}",
                    column.quantity.words(),
                    column.unit.word()
                ),
                hint: "correct the unit in the map or in the sheet".to_owned(),
            }),
            Some(unit) => {
                column.unit = unit;
                column.unit_is_open = false;
            }
        }
    }
    if bad.is_empty() {
        UnitsRow::Units(columns)
    } else {
        UnitsRow::Bad(bad)
    }
}
