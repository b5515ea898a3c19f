//! The tables as Parquet hold what the CSV files hold, value by value.

use std::fs::File;

use parquet::file::reader::{FileReader, SerializedFileReader};
use parquet::record::Field;

use super::Place;

/// Texts that need quotes, cells without a goal, one with a change, and detail.
const MIXED: &str = r#"
name = "Mixed"
players = ["level:5", "level:20:women"]
courses = ["hole.toml"]
rounds = 40
detail = true
[[combinations]]
name = "with a goal, \"as asked\""
goals = [5]
changes = ["none", "irons dynamic_loft +2"]
[[combinations]]
name = "rounds alone"
"#;

/// What a value is in the CSV file: the kind the columns are said to hold, and the text it was read from.
fn agrees(value: &Field, kind: &str, text: &str) -> bool {
    match (value, kind) {
        (Field::Null, _) => text.is_empty(),
        (Field::Str(value), "text") => value == text,
        (Field::Long(value), "whole number") => text.parse() == Ok(*value),
        (Field::Double(value), "number") => text.parse() == Ok(*value),
        (Field::Bool(value), "true or false") => text.parse() == Ok(*value),
        _ => false,
    }
}

fn compare(place: &Place, table: &str) {
    let kinds = place.rows("out/columns.csv");
    let kind = |name: &str| {
        let row = kinds
            .iter()
            .find(|row| row["column"] == name && row["table"].contains(table));
        row.map(|row| row["holds"].clone())
            .expect("a described column")
    };
    let rows = place.rows(&format!("out/{table}.csv"));
    let file = File::open(place.path().join(format!("out/{table}.parquet"))).expect("a file");
    let reader = SerializedFileReader::new(file).expect("Parquet");
    let read = reader.get_row_iter(None).expect("rows");
    let mut count = 0;
    let mut empty = 0;
    for (row, kept) in read.zip(&rows) {
        let row = row.expect("a row");
        assert_eq!(row.len(), kept.len(), "{table}");
        for (name, value) in row.get_column_iter() {
            let text = &kept[name];
            let kind = kind(name);
            assert!(
                agrees(value, &kind, text),
                "{table}, {name}: {value:?} for the {kind} `{text}`"
            );
            empty += usize::from(*value == Field::Null);
        }
        count += 1;
    }
    assert_eq!(count, rows.len(), "{table}");
    assert!(
        count > 0 && empty > 0,
        "{table}: {count} rows, {empty} empty"
    );
}

#[test]
fn the_parquet_tables_hold_what_the_csv_files_hold() {
    let place = Place::with(MIXED);
    place.study("out");
    compare(&place, "cells");
    compare(&place, "parts");
}

/// The bytes do not hang on the machine's clock or threads, as those of the other files.
#[test]
fn the_parquet_tables_of_two_runs_are_the_same_to_the_byte() {
    let place = Place::with(super::SMALL);
    let (one, other) = (place.study("one"), place.study("other"));
    for name in ["cells.parquet", "parts.parquet"] {
        assert!(one[name] == other[name], "{name}");
    }
}
