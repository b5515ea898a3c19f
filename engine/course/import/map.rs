//! A map as it was read: what matters to golf, in latitude and longitude, whatever form it came in.

use std::fmt;

use super::kind::Kind;

/// A place on the earth (WGS 84).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Latitude, degrees from −90 to 90, north positive.
    pub lat_deg: f64,
    /// Longitude, degrees from −180 to 180, east positive.
    pub lon_deg: f64,
}

impl Place {
    /// A place; none when it does not lie on the earth.
    #[must_use]
    pub fn new(lat_deg: f64, lon_deg: f64) -> Option<Self> {
        let on_earth = (-90.0..=90.0).contains(&lat_deg) && (-180.0..=180.0).contains(&lon_deg);
        on_earth.then_some(Self { lat_deg, lon_deg })
    }
}

/// What an element of a map is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Element {
    /// A point.
    Node,
    /// A line or a closed line.
    Way,
    /// Ways that belong together.
    Relation,
    /// An element whose kind the file does not tell, numbered by its place in the file.
    Feature,
}

/// The name of an element in the map it came from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Id {
    /// What it is.
    pub element: Element,
    /// Its number, which may be negative in maps not yet uploaded.
    pub number: i64,
}

impl fmt::Display for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let element = match self.element {
            Element::Node => "node",
            Element::Way => "way",
            Element::Relation => "relation",
            Element::Feature => "feature",
        };
        write!(f, "{element} {}", self.number)
    }
}

/// An area: its outline and the outlines of its islands, neither with the first point again at the end.
#[derive(Debug, Clone, PartialEq)]
pub struct Patch {
    /// The outline.
    pub outline: Vec<Place>,
    /// Islands, which are no part of the area.
    pub islands: Vec<Vec<Place>>,
}

/// Where a feature lies.
#[derive(Debug, Clone, PartialEq)]
pub enum Form {
    /// At a point.
    Point(Place),
    /// Along a line, which is an outline where its first point is its last.
    Line(Vec<Place>),
    /// On one or more patches of ground.
    Area(Vec<Patch>),
}

impl Form {
    /// Every place of it.
    pub fn places(&self) -> Box<dyn Iterator<Item = Place> + '_> {
        match self {
            Self::Point(place) => Box::new(std::iter::once(*place)),
            Self::Line(places) => Box::new(places.iter().copied()),
            Self::Area(patches) => Box::new(
                patches
                    .iter()
                    .flat_map(|patch| patch.outline.iter().copied()),
            ),
        }
    }
}

/// Tags of a feature that may matter, as `key`, `value`.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Tags(pub(super) Vec<(String, String)>);

impl Tags {
    /// The value of a key, without blanks around it; none when it is empty.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&str> {
        let found = self.0.iter().find(|(known, _)| known == key);
        found
            .map(|(_, value)| value.trim())
            .filter(|value| !value.is_empty())
    }

    /// Keys that begin with a prefix, without it, and their values, in order of the keys.
    #[must_use]
    pub fn after(&self, prefix: &str) -> Vec<(&str, &str)> {
        let stripped = self.0.iter().filter_map(|(key, value)| {
            let rest = key.strip_prefix(prefix)?;
            Some((rest, value.trim()))
        });
        let mut found: Vec<_> = stripped.collect();
        found.sort_unstable();
        found
    }
}

/// One thing on the map that matters to golf.
#[derive(Debug, Clone, PartialEq)]
pub struct Feature {
    /// Its name in the map.
    pub id: Id,
    /// What it is to golf.
    pub kind: Kind,
    /// What the map says of it.
    pub tags: Tags,
    /// Where it lies.
    pub form: Form,
    /// Points of it that the file speaks of but does not hold, as in an extract that was cut.
    pub lost_points: usize,
}

impl Feature {
    /// The feature as people know it: its number and name, and its name in the map.
    #[must_use]
    pub fn label(&self) -> String {
        let mut label = self.kind.to_string();
        let number = self.tags.get("ref");
        if let Some(number) = number {
            label += &format!(" {number}");
        }
        if let Some(name) = self.tags.get("name").filter(|name| Some(*name) != number) {
            label += &format!(" \"{name}\"");
        }
        format!("{label} ({})", self.id)
    }
}

/// What was read of a map.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Map {
    /// What matters to golf.
    pub features: Vec<Feature>,
    /// Golf features that have no shape: null geometry, or only a middle point.
    pub shapeless: Vec<String>,
}
