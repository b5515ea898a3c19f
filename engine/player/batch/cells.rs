//! One line of a sheet, split into cells.

use std::ops::Range;

use csv_core::{ReadRecordResult, ReaderBuilder};

use crate::files::cell;

/// Splits lines; keeps its buffers from line to line.
pub(super) struct Splitter {
    separator: u8,
    reader: csv_core::Reader,
    text: Vec<u8>,
    ends: Vec<usize>,
    count: usize,
}

impl Splitter {
    pub(super) fn new(separator: u8) -> Self {
        Self {
            separator,
            reader: ReaderBuilder::new().delimiter(separator).build(),
            text: Vec::new(),
            ends: Vec::new(),
            count: 0,
        }
    }

    /// Splits a line; returns whether every quote in it is closed.
    pub(super) fn split(&mut self, line: &str) -> bool {
        self.count = 0;
        if line.is_empty() {
            return true;
        }
        self.reader.reset();
        self.text.resize(line.len() + 2, 0);
        let most = line.bytes().filter(|byte| *byte == self.separator).count() + 2;
        self.ends.resize(most, 0);
        let (mut written, mut ended, mut closed) = (0, 0, false);
        for input in [line.as_bytes(), b"\n", b""] {
            let (result, _, out, ends) =
                self.reader
                    .read_record(input, &mut self.text[written..], &mut self.ends[ended..]);
            written += out;
            ended += ends;
            if matches!(result, ReadRecordResult::Record) {
                closed = input == b"\n";
                break;
            }
        }
        self.count = ended;
        closed
    }

    /// How many cells the line has.
    pub(super) fn len(&self) -> usize {
        self.count
    }

    /// A cell without the blanks round it; empty beyond the last.
    pub(super) fn cell(&self, index: usize) -> &str {
        if index >= self.count {
            return "";
        }
        let from = if index == 0 { 0 } else { self.ends[index - 1] };
        // Cells end between characters, since separators and quotes are single bytes.
        std::str::from_utf8(&self.text[from..self.ends[index]])
            .unwrap_or_default()
            .trim()
    }

    /// Every cell.
    pub(super) fn cells(&self) -> Vec<String> {
        (0..self.count)
            .map(|index| self.cell(index).to_owned())
            .collect()
    }

    /// Where a cell stands in its line, without the blanks round it.
    pub(super) fn place(&self, line: &str, index: usize) -> Range<usize> {
        cell::place(line, self.separator, index)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_are_split_as_csv_is() {
        let mut splitter = Splitter::new(b',');
        for (line, cells) in [
            ("a, b ,c", vec!["a", "b", "c"]),
            ("a,,", vec!["a", "", ""]),
            ("\"6,200\",x", vec!["6,200", "x"]),
            ("\"say \"\"7\"\"\",x", vec!["say \"7\"", "x"]),
            ("", vec![]),
        ] {
            assert!(splitter.split(line), "{line}");
            assert_eq!(splitter.cells(), cells, "{line}");
        }
        assert!(!splitter.split("a,\"b"));
    }

    #[test]
    fn places_are_those_of_the_text() {
        let mut splitter = Splitter::new(b';');
        let line = "a; b ;\"c;d\";";
        splitter.split(line);
        let at = |index| &line[splitter.place(line, index)];
        assert_eq!([at(0), at(1), at(2), at(3)], ["a", "b", "\"c;d\"", ""]);
    }
}
