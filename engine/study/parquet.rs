//! The two tables as Parquet: the columns of the CSV files with their kinds, read back from them.

use std::fs::File;
use std::io;
use std::sync::Arc;

use parquet::data_type::{BoolType, ByteArray, ByteArrayType, DataType, DoubleType, Int64Type};
use parquet::errors::ParquetError;
use parquet::file::properties::WriterProperties;
use parquet::file::writer::{SerializedFileWriter, SerializedRowGroupWriter};
use parquet::schema::parser::parse_message_type;

use super::StudyError;
use super::columns::{self, Column, Holds};
use super::folder::{Held, Whole};
use super::plan::VERSION;

/// Rows held in memory at a time.
const GROUP: usize = 50_000;

/// Writes both tables.
pub(super) fn write(held: &Held) -> Result<(), StudyError> {
    table(held, "cells", &columns::of_cells())?;
    table(held, "parts", &columns::of_parts())
}

fn table(held: &Held, name: &str, columns: &[Column]) -> Result<(), StudyError> {
    let csv = held.file(&format!("{name}.csv"));
    let file = File::open(&csv).map_err(|error| StudyError::disk(&csv, error))?;
    let whole = held.whole(&format!("{name}.parquet"))?;
    let path = held.file(&format!("{name}.parquet"));
    written(file, whole, columns)
        .map_err(|error| StudyError::disk(&path, error))?
        .finish()
}

fn written(file: File, whole: Whole, columns: &[Column]) -> io::Result<Whole> {
    let schema = parse_message_type(&schema(columns)).map_err(other)?;
    let properties = WriterProperties::builder().set_created_by(format!("costcard {VERSION}"));
    let properties = Arc::new(properties.build());
    let mut writer =
        SerializedFileWriter::new(whole, Arc::new(schema), properties).map_err(other)?;
    let mut rows = csv::Reader::from_reader(file);
    let mut rows = rows.records();
    loop {
        let group: Vec<csv::StringRecord> = rows
            .by_ref()
            .take(GROUP)
            .collect::<Result<_, _>>()
            .map_err(io::Error::other)?;
        if group.is_empty() {
            return writer.into_inner().map_err(other);
        }
        let mut to = writer.next_row_group().map_err(other)?;
        for (place, column) in columns.iter().enumerate() {
            let texts = group.iter().map(|row| row.get(place).unwrap_or_default());
            column_of(&mut to, column.holds, texts).map_err(other)?;
        }
        to.close().map_err(other)?;
    }
}

fn other(error: ParquetError) -> io::Error {
    match error {
        ParquetError::External(error) => match error.downcast::<io::Error>() {
            Ok(error) => *error,
            Err(error) => io::Error::other(error),
        },
        error => io::Error::other(error),
    }
}

fn schema(columns: &[Column]) -> String {
    let field = |column: &Column| {
        let name = column.name;
        match column.holds {
            Holds::Text => format!("optional binary {name} (utf8);"),
            Holds::Whole => format!("optional int64 {name};"),
            Holds::Number => format!("optional double {name};"),
            Holds::YesNo => format!("optional boolean {name};"),
        }
    };
    let fields: String = columns.iter().map(field).collect();
    format!("message costcard {{ {fields} }}")
}

/// Writes one column of a group; an empty text is no value.
fn column_of<'t>(
    to: &mut SerializedRowGroupWriter<'_, Whole>,
    holds: Holds,
    texts: impl Iterator<Item = &'t str>,
) -> Result<(), ParquetError> {
    match holds {
        Holds::Text => values::<ByteArrayType>(to, texts, |text| Some(ByteArray::from(text))),
        Holds::Whole => values::<Int64Type>(to, texts, |text| text.parse().ok()),
        Holds::Number => values::<DoubleType>(to, texts, |text| text.parse().ok()),
        Holds::YesNo => values::<BoolType>(to, texts, |text| text.parse().ok()),
    }
}

fn values<'t, T: DataType>(
    to: &mut SerializedRowGroupWriter<'_, Whole>,
    texts: impl Iterator<Item = &'t str>,
    read: impl Fn(&str) -> Option<T::T>,
) -> Result<(), ParquetError> {
    let mut levels = Vec::new();
    let mut found = Vec::new();
    for text in texts {
        let value = (!text.is_empty()).then(|| read(text)).flatten();
        levels.push(i16::from(value.is_some()));
        found.extend(value);
    }
    let Some(mut column) = to.next_column()? else {
        return Ok(());
    };
    column
        .typed::<T>()
        .write_batch(&found, Some(&levels), None)?;
    column.close()
}
