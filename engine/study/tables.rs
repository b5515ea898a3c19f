//! The files a study leaves: written in one pass over its cells in order.

use std::io;

use super::StudyError;
use super::columns::{self, Column};
use super::folder::{Held, Whole};
use super::journal::{End, Head, JOURNAL, Record, line};
use super::summary::Summary;

/// The tables and the journal, being written.
pub(super) struct Tables<'a> {
    held: &'a Held,
    cells: csv::Writer<Whole>,
    parts: csv::Writer<Whole>,
    journal: Whole,
    summary: Summary,
}

/// Pages made of what a study says: the names of their files, and what is in them.
pub type Pages<'a> = &'a (dyn Fn(&Summary) -> Vec<(&'static str, String)> + Sync);

impl<'a> Tables<'a> {
    pub fn begin(held: &'a Held, head: &Head) -> Result<Self, StudyError> {
        let mut journal = held.whole(JOURNAL)?;
        journal.put(line(head).as_bytes())?;
        Ok(Self {
            cells: table(held.whole("cells.csv")?, &columns::of_cells())?,
            parts: table(held.whole("parts.csv")?, &columns::of_parts())?,
            journal,
            summary: Summary::new(&head.name, head.part, head.cells),
            held,
        })
    }

    /// Writes the rows of a cell.
    pub fn put(&mut self, record: &Record) -> Result<(), StudyError> {
        let cell = record.inputs.iter().chain(&record.texts.figures);
        row(&mut self.cells, cell)?;
        for part in &record.texts.parts {
            row(&mut self.parts, record.inputs.iter().chain(part))?;
        }
        self.summary.add(&record.inputs, &record.texts.figures);
        self.journal.put(line(record).as_bytes())
    }

    /// Puts all files in their places, the journal last: once it says that the study is finished, all are there. None is
    /// put in its place before all are on the disk.
    pub fn finish(mut self, pages: Pages<'_>) -> Result<Summary, StudyError> {
        let held = self.held;
        let end = End {
            finished: self.summary.cells,
        };
        self.journal.put(line(&end).as_bytes())?;
        let columns = held.with("columns.csv", columns::described().as_bytes())?;
        let mut all = vec![unwrapped(self.cells)?, unwrapped(self.parts)?, columns];
        self.summary.tell_apart();
        for (name, page) in pages(&self.summary) {
            all.push(held.with(name, page.as_bytes())?);
        }
        all.iter_mut().try_for_each(Whole::settle)?;
        self.journal.settle()?;
        all.into_iter().try_for_each(Whole::finish)?;
        #[cfg(feature = "parquet")]
        super::parquet::write(held)?;
        self.journal.finish()?;
        Ok(self.summary)
    }
}

/// The file behind a table, all of it written.
fn unwrapped(mut table: csv::Writer<Whole>) -> Result<Whole, StudyError> {
    table
        .flush()
        .map_err(|error| table.get_ref().cannot(error))?;
    table.into_inner().map_err(|error| {
        let error = error.into_error();
        StudyError::Disk {
            message: "a table cannot be written".to_owned(),
            source: error,
        }
    })
}

fn table(whole: Whole, columns: &[Column]) -> Result<csv::Writer<Whole>, StudyError> {
    let mut writer = csv::Writer::from_writer(whole);
    row(&mut writer, columns.iter().map(|column| column.name))?;
    Ok(writer)
}

fn row(
    writer: &mut csv::Writer<Whole>,
    texts: impl Iterator<Item = impl AsRef<[u8]>>,
) -> Result<(), StudyError> {
    writer.write_record(texts).map_err(|error| {
        let error = match error.into_kind() {
            csv::ErrorKind::Io(error) => error,
            other => io::Error::other(format!("{other:?}")),
        };
        writer.get_ref().cannot(error)
    })
}
