//! The layout of a sheet, from its first lines: where its columns are named, what parts them, which of them hold figures,
//! what decimals begin with.

use std::collections::VecDeque;

use super::cells::Splitter;
use super::column_map::ColumnMap;
use super::header::{self, Header};
use super::number::Decimal;
use super::told::Told;

/// Lines among which the column names are looked for.
const HEADER_WITHIN: usize = 30;

/// The separators tried, when the map names none.
const SEPARATORS: [u8; 4] = [b',', b';', b'\t', b'|'];

/// Takes off columns that are figures by their plain name alone, where the first rows hold none: words, or nothing.
pub(super) fn drop_columns_of_words(
    head: &VecDeque<(usize, String)>,
    header: &mut Header,
    splitter: &mut Splitter,
) {
    if header.columns.iter().all(|column| !column.is_plain) {
        return;
    }
    let mut has_figure = vec![false; header.names.len()];
    for (_, text) in head {
        splitter.split(text);
        for (index, has_figure) in has_figure.iter_mut().enumerate() {
            *has_figure |= splitter.cell(index).contains(|c: char| c.is_ascii_digit());
        }
    }
    // Where nothing follows, nothing is said of any column.
    if has_figure.contains(&true) {
        header
            .columns
            .retain(|column| !column.is_plain || has_figure[column.index]);
    }
}

/// Which of the first lines names the columns, and what parts them; none when there is no text at all.
pub(super) fn find_header(
    head: &VecDeque<(usize, String)>,
    map: &ColumnMap,
) -> Option<(usize, u8)> {
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
pub(super) fn decimal(
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
