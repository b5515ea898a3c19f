//! Where a cell stands in the text of a record.

use std::ops::Range;

/// What a byte of a cell is read as.
#[derive(Clone, Copy, PartialEq)]
enum Reading {
    /// The first of its cell: only here a quote opens.
    First,
    Quoted,
    /// Behind a quote within quotes: its end, or the first half of a quote that is meant.
    Closed,
    Plain,
}

/// Where the cell of a number stands in a text that begins with its record, without the blanks round it: the last cell
/// where there are not so many. Quotes are read as the reader of CSV reads them: one within an unquoted cell, as in `6" of
/// rain`, is a letter.
pub fn place(text: &str, separator: u8, index: usize) -> Range<usize> {
    let (mut reading, mut column, mut from, mut to) = (Reading::First, 0, 0, text.len());
    for (at, &byte) in text.as_bytes().iter().enumerate() {
        let is_end_of_line = matches!(byte, b'\r' | b'\n');
        if reading != Reading::Quoted && (byte == separator || is_end_of_line) {
            if column == index || is_end_of_line {
                to = at;
                break;
            }
            (reading, column, from) = (Reading::First, column + 1, at + 1);
            continue;
        }
        reading = match (reading, byte) {
            (Reading::First | Reading::Closed, b'"') => Reading::Quoted,
            (Reading::Quoted, b'"') => Reading::Closed,
            (Reading::Quoted, _) => Reading::Quoted,
            _ => Reading::Plain,
        };
    }
    let cell = &text[from..to];
    if cell.trim().is_empty() {
        return from..to;
    }
    let lead = cell.len() - cell.trim_start().len();
    from + lead..from + lead + cell.trim().len()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cell_stands_where_the_reader_of_csv_reads_it() {
        for (text, index, wanted) in [
            ("a, b ,c", 1, "b"),
            ("6\" of rain,71.2,abc", 2, "abc"),
            ("\"a,\"\"b\"\"\",c", 1, "c"),
            ("\"a\nb\",c\nd", 1, "c"),
            ("\"a\" b,c", 1, "c"),
            (" \"a,b\",c", 1, "b\""),
            ("a,b\r\nc,d", 1, "b"),
            ("a,b\nc,d", 5, "b"),
            ("a,,c", 1, ""),
        ] {
            assert_eq!(&text[place(text, b',', index)], wanted, "{text:?} {index}");
        }
    }
}
