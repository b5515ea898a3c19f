//! Courses from maps: extracts of OpenStreetMap as OSM XML, Overpass JSON or GeoJSON.

mod assemble;
mod geojson;
mod input;
mod json;
pub mod kind;
pub mod map;
mod overpass;
mod rings;
mod xml;

use std::path::Path;

pub use map::Map;

use crate::files::Faults;

impl Map {
    /// Reads a map of any of the forms.
    ///
    /// # Errors
    /// When there is no such file or it is no map, is broken or cut off, or is larger than any course needs.
    pub fn read(path: &Path) -> Result<Self, Faults> {
        input::read(path)
    }
}
