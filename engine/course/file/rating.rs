//! The ratings a course file states.

use crate::course::rating::{Rating, Ratings, SLOPES, slope_of};
use crate::files::toml::{Entry, Table};
use crate::player::Sex;

pub(super) const EXAMPLE: &str = "{ men = { course_rating = 71.2, slope_rating = 128 } }";

const FIGURES: [&str; 3] = ["course_rating", "slope_rating", "bogey_rating"];
const ALL: [&str; 5] = [
    "men",
    "women",
    "course_rating",
    "slope_rating",
    "bogey_rating",
];

/// A hole adds so much to a course rating at least and at most, strokes: over eighteen 45 to 90.
const RATING_OF_A_HOLE: std::ops::RangeInclusive<f64> = 2.5..=5.0;
/// Ratings to a tenth leave a slope rating over nine holes open by so much.
const SLOPE_OPEN: f64 = 2.0;

/// Course ratings of nine holes and more, strokes.
const COURSE_RATINGS: std::ops::RangeInclusive<f64> = 20.0..=180.0;
/// Bogey ratings of nine holes and more, strokes.
const BOGEY_RATINGS: std::ops::RangeInclusive<f64> = 22.0..=260.0;

/// Reads `rating`; nothing when it is left out.
pub(super) fn read(entry: &Entry<'_>, holes: usize) -> Ratings {
    let Some(table) = entry.table(&ALL) else {
        return Ratings::default();
    };
    let is_for_all = FIGURES.iter().any(|key| table.has(key));
    let for_all = is_for_all.then(|| Stated::read(&table, holes)).flatten();
    let of = |key, sex| {
        let own = table.may(key, "{ course_rating = 71.2, slope_rating = 128 }");
        let stated = if table.has(key) {
            let own = own.table(&FIGURES)?.called(&format!("the rating of {key}"));
            Stated::read(&own, holes)?.agrees(&own, holes, sex)
        } else {
            for_all
        };
        let stated = stated?;
        Some(Rating::stated(
            stated.course,
            stated.slope,
            stated.bogey,
            holes,
            sex,
        ))
    };
    Ratings {
        men: of("men", Sex::Men),
        women: of("women", Sex::Women),
    }
}

/// What one table states.
#[derive(Debug, Clone, Copy)]
struct Stated {
    course: f64,
    slope: u8,
    bogey: Option<f64>,
}

impl Stated {
    fn read(table: &Table<'_>, holes: usize) -> Option<Self> {
        let course = table
            .need("course_rating", "71.2")
            .number(COURSE_RATINGS, "");
        let slope = table
            .need("slope_rating", "128")
            .whole(SLOPES.0 as u32..=SLOPES.1 as u32);
        let entry = table.may("bogey_rating", "95.0");
        let bogey = entry.number(BOGEY_RATINGS, "");
        let course = course?;
        if let Some(bogey) = bogey.filter(|bogey| *bogey <= course) {
            let message =
                format!("`bogey_rating` is {bogey}, no more than the course rating of {course}");
            let hint = "a bogey golfer takes more strokes than a scratch golfer";
            return entry.note(message, hint.to_owned());
        }
        if holes >= 9 && !RATING_OF_A_HOLE.contains(&(course / holes as f64)) {
            let message = format!("a course rating of {course} over {holes} holes");
            let [low, high] = [RATING_OF_A_HOLE.start(), RATING_OF_A_HOLE.end()]
                .map(|of_a_hole| of_a_hole * holes as f64);
            let hint = format!("state the rating of the holes in this file, from {low} to {high}");
            table.fault(table.place("course_rating"), message, &hint);
            return None;
        }
        Some(Self {
            course,
            slope: u8::try_from(slope?).ok()?,
            bogey,
        })
    }

    /// These, where the bogey rating is the one that the slope rating is made of.
    fn agrees(self, table: &Table<'_>, holes: usize, sex: Sex) -> Option<Self> {
        let Some(bogey) = self.bogey else {
            return Some(self);
        };
        let slope = slope_of(self.course, bogey, holes, sex);
        if (slope - f64::from(self.slope)).abs() > SLOPE_OPEN {
            let message = format!(
                "a bogey rating of {bogey} makes a slope rating of {slope:.0} with this course rating, not {}",
                self.slope
            );
            let hint = "leave `bogey_rating` out: it follows from the other two";
            table.fault(table.place("bogey_rating"), message, hint);
            return None;
        }
        Some(self)
    }
}
