//! The sets of tees of an imported course: the colours that enough holes have.

use std::fmt::Write as _;

use super::course::{Imported, ImportedHole, colours};
use super::write::{comment, quoted};
use crate::course::Point;

/// A colour that fewer holes have than this share of them makes no set.
const LEAST_SHARE: f64 = 0.5;
/// The most colours that are written.
const MOST_SETS: usize = 8;
/// What the start of the lines is called where no colour was asked for.
const DRAWN: &str = "drawn";

/// The sets of tees of a course, the one played from first.
pub(super) struct TeeSets {
    names: Vec<String>,
    /// Whether the first is that of a colour, not the start of the lines.
    is_coloured: bool,
}

impl TeeSets {
    /// The colours on at least half of the holes, the longest first, after what the course is played from.
    pub(super) fn of(course: &Imported) -> Self {
        let found: Vec<_> = course.holes.iter().map(|hole| hole.found.clone()).collect();
        let least = LEAST_SHARE * found.len() as f64;
        let mut common: Vec<(f64, String)> = colours(&found)
            .into_iter()
            .filter(|(_, count)| *count as f64 >= least)
            .filter(|(colour, _)| course.tees.as_ref() != Some(colour) && colour != DRAWN)
            .map(|(colour, _)| (mean_length_yd(course, &colour), colour))
            .collect();
        common.sort_by(|a, b| b.0.total_cmp(&a.0).then_with(|| a.1.cmp(&b.1)));
        common.truncate(MOST_SETS);
        let own = course.tees.clone();
        let is_coloured = own.is_some();
        let mut names: Vec<String> = common.into_iter().map(|(_, colour)| colour).collect();
        if is_coloured || !names.is_empty() {
            names.insert(0, own.unwrap_or_else(|| DRAWN.to_owned()));
        }
        Self { names, is_coloured }
    }

    /// Names the sets at the head of the file.
    pub(super) fn write(&self, out: &mut String) {
        if self.names.is_empty() {
            return;
        }
        out.push('\n');
        let first = if self.is_coloured {
            "Tees on the map, the first of them played from."
        } else {
            "Tees on the map; the first are where its lines of play start. To play from others by default, move them up, or add `default = true`."
        };
        comment(out, "", first);
        comment(
            out,
            "",
            "Maps tell no ratings: add `rating.men = { course_rating = 71.2, slope_rating = 128 }` to the tees they are for.",
        );
        for name in &self.names {
            let _ = writeln!(out, "[[tees]]\nname = {}", quoted(name));
        }
    }

    /// Says where they stand on a hole.
    pub(super) fn write_on(&self, out: &mut String, hole: &ImportedHole) {
        let others = self.names.iter().skip(1);
        let places: Vec<String> = others
            .filter_map(|name| {
                let Point { x_yd, y_yd } = place(hole, name)?;
                Some(format!("{} = [{x_yd}, {y_yd}]", quoted(name)))
            })
            .collect();
        if !places.is_empty() {
            let _ = writeln!(out, "tees = {{ {} }}", places.join(", "));
        }
    }
}

/// Where the tee of a colour stands on a hole.
fn place(hole: &ImportedHole, colour: &str) -> Option<Point> {
    let mut tees = hole.laid.tees.iter();
    let tee = tees.find(|tee| tee.colours.iter().any(|own| own == colour))?;
    Some(tee.point)
}

/// The mean length of the holes that have tees of a colour.
fn mean_length_yd(course: &Imported, colour: &str) -> f64 {
    let (mut sum_yd, mut count) = (0.0, 0.0);
    for hole in &course.holes {
        let mut tees = hole.found.tees.iter();
        if let Some(tee) = tees.find(|tee| tee.colours.iter().any(|own| own == colour)) {
            sum_yd += tee.length_yd;
            count += 1.0;
        }
    }
    sum_yd / f64::max(count, 1.0)
}
