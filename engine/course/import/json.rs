//! Overpass JSON and GeoJSON, read as a stream: each element or feature is read, turned into what matters to golf, and
//! dropped before the next.

use std::cell::Cell;
use std::fmt;
use std::io::BufRead;

use serde::de::{DeserializeSeed, Error, IgnoredAny, MapAccess, SeqAccess, Visitor};

use super::assemble::Assembler;
use super::input::{At, Broken, FORMS};
use super::{geojson, overpass};

/// Reads a map; `eaten` counts the bytes since the last element.
pub(super) fn read(
    input: impl BufRead,
    eaten: &Cell<u64>,
    assembler: &mut Assembler,
) -> Result<(), Broken> {
    let mut deserializer = serde_json::Deserializer::from_reader(input);
    let mut state = State {
        eaten,
        assembler,
        broken: None,
        found: false,
    };
    let outcome = Root(&mut state).deserialize(&mut deserializer);
    let outcome = outcome.and_then(|()| deserializer.end());
    let State { broken, found, .. } = state;
    match outcome {
        _ if broken.is_some() => Err(at_fault(broken, deserializer_place(&outcome))),
        Err(error) if error.is_io() => Err(Broken {
            at: None,
            message: format!("this file cannot be read: {error}"),
            hint: None,
        }),
        Err(error) => Err(no_json(&error)),
        Ok(()) if !found => Err(Broken::new(None, "this is JSON, but no map", NO_MAP)),
        Ok(()) => Ok(()),
    }
}

pub(super) const NO_MAP: &str =
    "Overpass JSON has a list `elements`, GeoJSON a list `features`; both come from OpenStreetMap";

fn deserializer_place(outcome: &Result<(), serde_json::Error>) -> Option<At> {
    let error = outcome.as_ref().err()?;
    (error.line() > 0).then(|| At::Line {
        line: error.line(),
        column: error.column(),
    })
}

/// What an element was at fault for, at the place where its reading ended.
fn at_fault(broken: Option<Broken>, at: Option<At>) -> Broken {
    let mut broken = broken.unwrap_or_else(|| Broken::new(None, "this is no map", FORMS));
    broken.at = at;
    broken
}

fn no_json(error: &serde_json::Error) -> Broken {
    let at = Some(At::Line {
        line: error.line(),
        column: error.column(),
    });
    if error.is_eof() {
        return Broken::new(
            at,
            "the map ends before its last bracket is closed",
            "it was cut off; fetch it again",
        );
    }
    let text = error.to_string();
    let what = text.split(" at line ").next().unwrap_or(&text);
    let what = what
        .replace("f64", "a number")
        .replace("i64", "a whole number");
    Broken::new(
        at,
        format!("broken JSON: {what}"),
        "the file was damaged or written by hand; fetch it again",
    )
}

/// What reading has come to.
struct State<'a> {
    /// Bytes read since the last element.
    eaten: &'a Cell<u64>,
    assembler: &'a mut Assembler,
    /// The fault that ended the reading.
    broken: Option<Broken>,
    /// Whether a list of a map was found.
    found: bool,
}

/// The outermost object.
struct Root<'a, 'b>(&'a mut State<'b>);

impl<'de> DeserializeSeed<'de> for Root<'_, '_> {
    type Value = ();

    fn deserialize<D: serde::Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        deserializer.deserialize_map(self)
    }
}

impl<'de> Visitor<'de> for Root<'_, '_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a map")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut object: A) -> Result<(), A::Error> {
        while let Some(key) = object.next_key::<String>()? {
            let state = &mut *self.0;
            match key.as_str() {
                "elements" => object.next_value_seed(List {
                    state,
                    add: overpass::add,
                })?,
                "features" => object.next_value_seed(List {
                    state,
                    add: geojson::add,
                })?,
                _ => {
                    object.next_value::<IgnoredAny>()?;
                }
            }
        }
        Ok(())
    }
}

/// Turns one element into what matters to golf; the number is its place in the file, from 1.
type Add<T> = fn(&mut Assembler, T, i64) -> Result<(), Broken>;

/// A list of elements or features.
struct List<'a, 'b, T> {
    state: &'a mut State<'b>,
    add: Add<T>,
}

impl<'de, T: serde::Deserialize<'de>> DeserializeSeed<'de> for List<'_, '_, T> {
    type Value = ();

    fn deserialize<D: serde::Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        deserializer.deserialize_seq(self)
    }
}

impl<'de, T: serde::Deserialize<'de>> Visitor<'de> for List<'_, '_, T> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a list")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<(), A::Error> {
        self.state.found = true;
        let mut number = 0;
        while let Some(item) = list.next_element::<T>()? {
            number += 1;
            self.state.eaten.set(0);
            if let Err(broken) = (self.add)(self.state.assembler, item, number) {
                self.state.broken = Some(broken);
                return Err(A::Error::custom("at fault"));
            }
        }
        Ok(())
    }
}
