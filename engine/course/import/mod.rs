//! Courses from maps: extracts of OpenStreetMap as OSM XML, Overpass JSON or GeoJSON.
//!
//! A reader for each form ([`Map::read`]) keeps what matters to golf as one [`Map`] of points, lines and areas. A
//! [`Survey`] sorts its holes into courses and refuses what is none. One course is then imported: each line gets its
//! direction, green, tees and par, and the ground around it; [`Imported::to_toml`] writes the course file, with comments
//! on all that was inferred.

mod assemble;
mod candidate;
mod course;
mod direction;
pub mod document;
pub mod embedded;
mod find;
mod flat;
mod free;
mod geojson;
mod green;
mod ground;
mod group;
mod input;
mod json;
pub mod kind;
mod lay;
pub mod map;
mod overpass;
mod pair;
mod par;
mod pieces;
mod rings;
mod sets;
mod swapped;
mod tee;
mod tidy;
mod write;
mod xml;

use std::path::Path;

pub use candidate::Refused;
pub use course::{ImportError, Imported, ImportedHole, Options, Survey, colours};
pub use direction::{Direction, Rule};
pub use find::FoundHole;
pub use green::GreenFrom;
pub use lay::{LaidArea, LaidHole, LaidTee};
pub use map::Map;
pub use par::ParFrom;
pub use tee::FoundTee;
pub use write::{ATTRIBUTION, Turf};

use crate::files::{Faults, Source};

impl Map {
    /// Reads a map of any of the forms from a file, as a stream.
    ///
    /// # Errors
    /// When there is no such file or it is no map, is broken or cut off, or is larger than any course needs.
    pub fn read(path: &Path) -> Result<Self, Faults> {
        input::read(path)
    }

    /// Reads a map of any of the forms from a text.
    ///
    /// # Errors
    /// As [`Map::read`].
    pub fn of_text(source: &Source) -> Result<Self, Faults> {
        input::read_text(source)
    }
}
