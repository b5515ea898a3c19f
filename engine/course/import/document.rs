//! An import as other programs read it.

use serde::Serialize;

use super::candidate::Refused;
use super::course::{Imported, ImportedHole, Survey};
use super::direction::Rule;
use super::green::GreenFrom;
use super::par::ParFrom;
use super::tee::FoundTee;
use super::write::ATTRIBUTION;

/// What was found on a map, and what became of it.
#[derive(Debug, Serialize)]
pub struct ImportDocument<'a> {
    /// The courses of the map.
    pub courses: Vec<CourseDocument>,
    /// The course the holes are of; none where none was chosen.
    pub course: Option<&'a str>,
    /// Its par.
    pub par: Option<u32>,
    /// Its length, yards.
    pub length_yd: Option<f64>,
    /// Its holes.
    pub holes: Vec<HoleDocument<'a>>,
    /// What cannot be played.
    pub refused: &'a [Refused],
    /// What should be known of the ground.
    pub notes: &'a [String],
    /// Who made the map.
    pub attribution: &'static str,
}

/// A course of the map.
#[derive(Debug, Serialize)]
pub struct CourseDocument {
    /// Its name, or its number where the map has none.
    pub name: String,
    /// How many holes have a line of play.
    pub holes: usize,
}

/// A hole.
#[derive(Debug, Serialize)]
pub struct HoleDocument<'a> {
    number: u32,
    par: u8,
    par_from: ParFrom,
    stroke_index: Option<u8>,
    length_yd: f64,
    green_from: GreenFrom,
    green_sq_yd: Option<f64>,
    tee_from: String,
    tees: Vec<FoundTee>,
    direction_from: Rule,
    reversed: bool,
    warnings: &'a [String],
}

impl<'a> ImportDocument<'a> {
    /// What was found on a map; `imported` is the course that was chosen, and `refused` what cannot be played.
    #[must_use]
    pub fn new(
        survey: &Survey<'_>,
        imported: Option<&'a Imported>,
        refused: &'a [Refused],
    ) -> Self {
        let courses = survey.courses().into_iter();
        Self {
            courses: courses
                .map(|(name, holes)| CourseDocument { name, holes })
                .collect(),
            course: imported.map(|course| course.name.as_str()),
            par: imported.map(Imported::par),
            length_yd: imported.map(|course| tenths(course.length_yd())),
            holes: imported
                .map(|course| course.holes.iter().map(HoleDocument::of).collect())
                .unwrap_or_default(),
            refused,
            notes: imported.map_or(&[], |course| &course.notes),
            attribution: ATTRIBUTION,
        }
    }
}

impl<'a> HoleDocument<'a> {
    fn of(hole: &'a ImportedHole) -> Self {
        let found = &hole.found;
        let tees = found.tees.iter();
        Self {
            number: found.number,
            par: found.par,
            par_from: found.par_from,
            stroke_index: found.stroke_index,
            length_yd: tenths(found.length_yd),
            green_from: found.green_from,
            green_sq_yd: found.green_sq_yd.map(tenths),
            tee_from: found
                .tee_colour
                .as_ref()
                .map_or("line".to_owned(), |colour| format!("{colour} tee")),
            tees: tees
                .map(|tee| FoundTee {
                    length_yd: tenths(tee.length_yd),
                    ..tee.clone()
                })
                .collect(),
            direction_from: found.direction.rule,
            reversed: found.direction.is_reversed,
            warnings: &found.warnings,
        }
    }
}

fn tenths(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}
