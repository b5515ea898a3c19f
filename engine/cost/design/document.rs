//! The card of a course, for other programs.

use serde::Serialize;

use crate::cost::rating::CourseRating;
use crate::course::Course;

use super::{Cause, Design};

/// The card.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CourseDocument {
    /// Par of all holes.
    pub par: u32,
    /// Length of all holes, yards.
    pub length_yd: f64,
    /// The tees played from; none where the course names none.
    pub tees: Option<String>,
    /// Course rating, stated or by play; none where there is none.
    pub course_rating: Option<f64>,
    /// Bogey rating.
    pub bogey_rating: Option<f64>,
    /// Slope rating.
    pub slope_rating: Option<u8>,
    /// Hole by hole.
    pub holes: Vec<HoleDocument>,
}

/// A hole of it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HoleDocument {
    /// Number on the card.
    pub number: u32,
    /// Par.
    pub par: u8,
    /// Stroke index; none where the file gives none.
    pub stroke_index: Option<u8>,
    /// Length, yards.
    pub length_yd: f64,
    /// The hole from each set of tees.
    pub tees: Vec<TeeDocument>,
    /// Expected strokes of a scratch golfer over par; none where nothing was played.
    pub scratch_over_par: Option<f64>,
    /// Those of a bogey golfer.
    pub bogey_over_par: Option<f64>,
    /// What makes it hard for the bogey golfer.
    pub hard: Vec<Cause>,
    /// What a designer would raise, lengths in yards.
    pub warnings: Vec<String>,
}

/// A hole from one set of tees.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TeeDocument {
    /// The tees.
    pub name: String,
    /// Length, yards.
    pub length_yd: f64,
    /// Par.
    pub par: u8,
}

impl CourseDocument {
    /// Of a course, its rating and what there is to say of it.
    #[must_use]
    pub fn new(course: &Course, rating: Option<CourseRating>, design: &Design) -> Self {
        let rating = rating.map(|rating| rating.rating);
        let holes = course.holes.iter().zip(&design.holes);
        let hole = |(hole, said): (&crate::course::Hole, &super::HoleDesign)| HoleDocument {
            number: hole.number,
            par: hole.par,
            stroke_index: hole.stroke_index,
            length_yd: hole.length_yd,
            tees: (course.tees.iter().zip(&hole.tees))
                .map(|(set, tee)| TeeDocument {
                    name: set.name.clone(),
                    length_yd: tee.length_yd,
                    par: tee.par,
                })
                .collect(),
            scratch_over_par: said.played.as_ref().map(|played| played.scratch_over_par),
            bogey_over_par: said.played.as_ref().map(|played| played.bogey_over_par),
            hard: said
                .played
                .as_ref()
                .map_or(Vec::new(), |played| played.hard.clone()),
            warnings: (said.warnings.iter())
                .map(|warning| warning.told(|yd| format!("{yd:.0} yd")))
                .collect(),
        };
        Self {
            par: course.par(),
            length_yd: course.length_yd(),
            tees: course.tees_name().map(str::to_owned),
            course_rating: rating.map(|rating| rating.course_rating),
            bogey_rating: rating.map(|rating| rating.bogey_rating),
            slope_rating: rating.map(|rating| rating.slope_rating),
            holes: holes.map(hole).collect(),
        }
    }
}
