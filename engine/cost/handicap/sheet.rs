//! The sheet of scores.
//!
//! ```csv
//! date,holes,course_rating,slope_rating,par,pcc,gross,adjusted_gross,hole_scores,hole_pars,stroke_indexes
//! 2026-04-11,18,70.8,126,72,0,88,86,,,
//! 2026-04-18,9,35.2,121,36,,,,5 4 6 3 5 x 4 5 5,4 4 5 3 4 4 3 4 5,5 11 3 17 7 1 15 9 13
//! ```
//!
//! One row is one score, the oldest first. Columns are parted by commas, semicolons, tabs or bars; decimals begin with a
//! point or, where they part no columns, a comma. Needed are `date` (year-month-day, or day.month.year), `course_rating`, `slope_rating` and one
//! of three ways to say what was scored:
//! - `adjusted_gross`: the gross score with no hole above net double bogey;
//! - `hole_scores` with `hole_pars` and `stroke_indexes`, each a list in one cell with blanks between, `x` for a hole
//!   picked up: the adjusted gross score is worked out, from the index in force that day;
//! - `gross` alone: taken as it stands, as if no hole were above net double bogey.
//!
//! `gross` may stand beside either of the others, and must then agree. `holes` is 18 (when left out) or 9; ratings and
//! par are then those of the nine. `par` is the course's, and must agree with `hole_pars`. `pcc` is the playing
//! conditions adjustment of the day, −1 to 3 (0 when left out). `course`, `tee` and `remark` are the owner's.

use std::ops::RangeInclusive;

use jiff::civil::Date;

use super::record::{Record, Score, Strokes};
use super::{Rated, Tenths};
use crate::files::sheet::{self, Columns, Row};
use crate::files::{Fault, Faults, Source};

use super::lists;

const COLUMNS: Columns<'_> = Columns {
    needed: &["date", "course_rating", "slope_rating"],
    optional: &[
        "holes",
        "par",
        "pcc",
        GROSS,
        ADJUSTED,
        HOLES,
        "hole_pars",
        "stroke_indexes",
        "course",
        "tee",
        "remark",
    ],
    others: false,
};
const GROSS: &str = "gross";
const ADJUSTED: &str = "adjusted_gross";
pub(super) const HOLES: &str = "hole_scores";

/// Scores from a sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// The scores, oldest first.
    pub scores: Vec<Score>,
    /// How many gross scores were taken as adjusted, since nothing else was said of them.
    pub unadjusted: usize,
}

/// What is possible over so many holes.
struct Limits {
    holes: u8,
    rating: RangeInclusive<f64>,
    par: RangeInclusive<f64>,
    score: RangeInclusive<f64>,
    /// Strokes over the course rating: nobody ever scored lower, and nothing adjusted to net double bogey is higher, two
    /// strokes a hole and a handicap of 54, courses being rated a little otherwise than par.
    over_rating: RangeInclusive<f64>,
}

const EIGHTEEN: Limits = Limits {
    holes: 18,
    rating: 45.0..=90.0,
    par: 50.0..=80.0,
    score: 45.0..=250.0,
    over_rating: -18.0..=100.0,
};
const NINE: Limits = Limits {
    holes: 9,
    rating: 22.0..=45.0,
    par: 25.0..=40.0,
    score: 20.0..=130.0,
    over_rating: -12.0..=50.0,
};

/// Reads a sheet of scores.
///
/// # Errors
/// Every fault of the sheet; dates out of order; fewer scores than an index needs.
pub fn read(source: &Source) -> Result<Sheet, Faults> {
    let mut reader = Reader::default();
    let scores = sheet::read(source, COLUMNS, |row| reader.score(row))?;
    let sheet = Sheet {
        scores,
        unadjusted: reader.unadjusted,
    };
    if Record::of(&sheet.scores).index.is_none() {
        return Err(too_few(source, &sheet.scores).into());
    }
    Ok(sheet)
}

/// The fault of a sheet that is too short, told of its last line.
fn too_few(source: &Source, scores: &[Score]) -> Fault {
    let nines = scores.iter().filter(|score| score.is_nine).count();
    let holes = 18 * (scores.len() - nines) + 9 * nines;
    let text = source.text.trim_end();
    let last_line = text.rfind('\n').map_or(0, |at| at + 1);
    let count = match scores.len() {
        1 => "one score is".to_owned(),
        many => format!("{many} scores are"),
    };
    Fault {
        source: source.clone(),
        span: Some(last_line..text.len()),
        message: format!(
            "{count} too few for an index: it needs three rounds, and this is {holes} holes"
        ),
        hint: Some(
            "add scores up to 54 holes; two scores over nine holes make one round".to_owned(),
        ),
    }
}

#[derive(Debug, Default)]
struct Reader {
    latest: Option<(Date, usize)>,
    unadjusted: usize,
    told_of_no_scores: bool,
}

impl Reader {
    fn score(&mut self, row: &Row<'_>) -> Option<Score> {
        // All cells are read before a fault ends the row, so that each is told.
        let date = self.date(row);
        let limits = limits(row);
        let rated = limits.and_then(|limits| rated(row, limits));
        let pcc = may_whole(row, "pcc", -1.0..=3.0);
        let par = limits.and_then(|limits| may_whole(row, "par", limits.par.clone()));
        let strokes = limits.and_then(|limits| self.strokes(row, limits, par.flatten()));
        par?;
        let (limits, rated, strokes) = (limits?, rated?, strokes?);
        let is_score = is_of_so_many_holes(row, limits, &rated, &strokes);
        Some(Score {
            date: date?,
            is_nine: limits.holes == 9,
            strokes,
            rated,
            pcc: pcc?.unwrap_or(0),
        })
        .filter(|_| is_score)
    }

    fn date(&mut self, row: &Row<'_>) -> Option<Date> {
        let text = row.text("date")?;
        let Some(date) = date_of(text) else {
            let is_year_first = text.split('/').next().is_some_and(|first| first.len() == 4);
            let (message, hint) = match text.contains('/') && !is_year_first {
                true => (
                    format!("`{text}` may name the day or the month first"),
                    "write year, month and day as 2026-05-03, or the day first as 03.05.2026",
                ),
                false => (
                    format!("`{text}` is no date"),
                    "write year, month and day as 2026-05-31",
                ),
            };
            row.fault("date", message, hint);
            return None;
        };
        if let Some((latest, line)) = self.latest.filter(|(latest, _)| date < *latest) {
            let message = format!("{date} comes before {latest} on line {line}");
            row.fault("date", message, "list scores from the oldest to the newest");
            return None;
        }
        self.latest = Some((date, row.line()));
        Some(date)
    }

    fn strokes(&mut self, row: &Row<'_>, limits: &Limits, par: Option<i32>) -> Option<Strokes> {
        let whole = |column| may_whole(row, column, limits.score.clone());
        let (gross, adjusted) = (whole(GROSS), whole(ADJUSTED));
        if row.has(HOLES) {
            let strokes = lists::read(row, limits.holes, par);
            if adjusted.flatten().is_some() {
                let message =
                    "both `adjusted_gross` and `hole_scores` say what was scored".to_owned();
                row.fault(ADJUSTED, message, "keep one of them");
            }
            return lists::agreeing(row, strokes?, gross?).map(Strokes::Holes);
        }
        match (gross?, adjusted?) {
            (Some(gross), Some(adjusted)) if adjusted > gross => {
                let message =
                    format!("`adjusted_gross` is {adjusted}, more than the gross score of {gross}");
                row.fault(ADJUSTED, message, "adjusting only takes strokes off");
                None
            }
            (_, Some(adjusted)) => Some(Strokes::Adjusted(adjusted)),
            (Some(gross), None) => {
                self.unadjusted += 1;
                Some(Strokes::Adjusted(gross))
            }
            (None, None) => {
                self.no_score(row);
                None
            }
        }
    }

    /// Tells of a row without strokes; where no column could hold any, once.
    fn no_score(&mut self, row: &Row<'_>) {
        let hint = "write `adjusted_gross`, `gross`, or `hole_scores` with `hole_pars` and `stroke_indexes`";
        let columns = [ADJUSTED, GROSS, HOLES];
        match columns.into_iter().find(|column| row.knows(column)) {
            Some(column) => row.fault(column, "this row has no score".to_owned(), hint),
            None if !self.told_of_no_scores => {
                self.told_of_no_scores = true;
                row.fault("date", "no column holds scores".to_owned(), hint);
            }
            None => {}
        }
    }
}

/// A date as 2026-05-31, or as 31.5.2026, which nobody writes with the month first.
fn date_of(text: &str) -> Option<Date> {
    let mut parts = text.split('.').map(str::trim);
    let (Some(day), Some(month), Some(year), None) =
        (parts.next(), parts.next(), parts.next(), parts.next())
    else {
        return text.parse().ok();
    };
    let year = year.parse().ok().filter(|year: &i16| *year > 999)?;
    Date::new(year, month.parse().ok()?, day.parse().ok()?).ok()
}

fn limits(row: &Row<'_>) -> Option<&'static Limits> {
    let limits = match may_whole(row, "holes", 1.0..=36.0)? {
        Some(9) => &NINE,
        Some(18) => &EIGHTEEN,
        None if lists::count(row).is_some_and(|holes| holes <= 9) => &NINE,
        None => &EIGHTEEN,
        Some(other) => {
            let message = format!("`holes` is {other}, but a score counts over 18 holes or 9");
            row.fault("holes", message, "write 18 or 9; 18 may be left out");
            return None;
        }
    };
    Some(limits)
}

fn rated(row: &Row<'_>, limits: &Limits) -> Option<Rated> {
    let of = format!("strokes over {} holes", limits.holes);
    let course = row.number("course_rating", limits.rating.clone(), &of);
    let course = course.and_then(|course| one_decimal(row, course));
    let slope = row.number("slope_rating", 55.0..=155.0, "");
    let slope = slope.and_then(|slope| whole(row, "slope_rating", slope));
    Some(Rated {
        course_rating: course?,
        slope_rating: u8::try_from(slope?).ok()?,
    })
}

/// Whether a score can be one over so many holes, which is told otherwise: `holes` is easily forgotten.
fn is_of_so_many_holes(row: &Row<'_>, limits: &Limits, rated: &Rated, strokes: &Strokes) -> bool {
    let Strokes::Adjusted(score) = strokes else {
        return true;
    };
    let rating = rated.course_rating.strokes();
    let over = f64::from(*score) - rating;
    if limits.over_rating.contains(&over) {
        return true;
    }
    let Limits { holes, .. } = limits;
    let is_low = over < 0.0;
    let what = match is_low {
        true => "fewer than anybody takes",
        false => "more than a score with no hole above net double bogey can be",
    };
    let hint = match (is_low, holes) {
        (true, 18) => "if these were nine holes, write 9 under `holes`, and the rating of the nine",
        (true, _) => "write the strokes of all nine holes",
        (false, 9) => {
            "if these were 18 holes, write 18 under `holes`, and the rating of all; or write `hole_scores`, which are adjusted"
        }
        (false, _) => {
            "write `hole_scores` with `hole_pars` and `stroke_indexes`: they are adjusted"
        }
    };
    let column = if row.has(ADJUSTED) { ADJUSTED } else { GROSS };
    let message = format!("{score} strokes over {holes} holes rated {rating:.1} are {what}");
    row.fault(column, message, hint);
    false
}

fn one_decimal(row: &Row<'_>, rating: f64) -> Option<Tenths> {
    let rounded = Tenths::rounded(rating);
    if (rounded.strokes() - rating).abs() > 1e-6 {
        let message = format!("`course_rating` is {rating}, but ratings have one decimal");
        row.fault(
            "course_rating",
            message,
            "write it as the scorecard has it: 71.2",
        );
        return None;
    }
    Some(rounded)
}

/// A whole number that may be left out, as [`Row::may_number`].
fn may_whole(row: &Row<'_>, column: &str, range: RangeInclusive<f64>) -> Option<Option<i32>> {
    match row.may_number(column, range, "")? {
        None => Some(None),
        Some(number) => whole(row, column, number).map(Some),
    }
}

fn whole(row: &Row<'_>, column: &str, number: f64) -> Option<i32> {
    if number.fract() != 0.0 {
        let message = format!("`{column}` must be a whole number, not {number}");
        row.fault(column, message, "write it without decimals");
        return None;
    }
    Some(number as i32)
}
