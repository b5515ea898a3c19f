//! The ratings a course file states.

use crate::course::rating::{Rating, Ratings, SLOPES};
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
    let for_all = is_for_all.then(|| Stated::read(&table)).flatten();
    let of = |key, sex| {
        let own = table.may(key, "{ course_rating = 71.2, slope_rating = 128 }");
        let stated = if table.has(key) {
            let own = own.table(&FIGURES)?;
            Stated::read(&own.called(&format!("the rating of {key}")))
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
    fn read(table: &Table<'_>) -> Option<Self> {
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
        Some(Self {
            course,
            slope: u8::try_from(slope?).ok()?,
            bogey,
        })
    }
}
