//! The card of a course, as people read it.

use crate::cost::design::{Design, HoleDesign, Played};
use crate::cost::rating::{CourseRating, CourseRatings};
use crate::course::{Course, Hole, Rating};
use crate::units::Length;

use super::page::{Page, tied};
use super::table;

/// The most sets of tees that stand in the table.
const MOST_SETS: usize = 4;
/// Width of the columns beside those of tees and causes, and the least of one set of tees, characters.
const COLUMNS_WIDTH: usize = 38;
const SET_WIDTH: usize = 4;

/// The card: hole by hole, ratings, and what a designer would raise.
#[must_use]
pub fn course(course: &Course, ratings: &CourseRatings, design: &Design, page: Page) -> String {
    let tees = course.tees_name();
    let played = tees.map_or(String::new(), |tees| format!(", from the {tees} tees"));
    let mut out = page.paragraph(&format!("{}{played}.", course.name));
    out.push('\n');
    out += &of_holes(course, design, page);
    out.push('\n');
    out += &of_ratings(course, ratings, page);
    let warnings = of_warnings(course, design, page);
    if !warnings.is_empty() {
        out += "\nMind:\n";
        out += &warnings;
    }
    out.push('\n');
    out += &page.item(&format!(
        "Over par: expected strokes of a scratch golfer and of a bogey golfer (off {:.0}), best clubs and targets for each.",
        design.bogey_handicap
    ));
    out += &page.item("Hard: strokes the bogey golfer would save with a tenth off the length, fairway for rough, rough for sand, water, trees or out of bounds, no wind, medium turf, a level hole: each by itself, the costliest first, as many as there is room for.");
    out
}

/// The sets of tees that stand in the table: the first few, the played one among them.
fn shown(course: &Course) -> Vec<usize> {
    let mut sets: Vec<usize> = (0..course.tees.len()).take(MOST_SETS).collect();
    if let Some(played) = course.played_from.filter(|played| !sets.contains(played)) {
        sets.pop();
        sets.push(played);
    }
    sets
}

fn of_holes(course: &Course, design: &Design, page: Page) -> String {
    let unit = page.reading.length_unit();
    let sets = shown(course);
    let mut headings = vec!["hole".to_owned(), "par".to_owned(), "index".to_owned()];
    if sets.is_empty() {
        headings.push(unit.to_owned());
    }
    headings.extend(
        sets.iter()
            .map(|set| format!("{}\n({unit})", course.tees[*set].name)),
    );
    headings.extend(["scratch\nover par", "bogey\nover par", "hard"].map(str::to_owned));
    let words = headings.len() - 1;
    let room = room(course, &sets, page);
    let mut table = table::table(headings.iter().map(String::as_str), 1);
    if let Some(column) = table.column_mut(words) {
        column.set_cell_alignment(comfy_table::CellAlignment::Left);
    }
    for (hole, said) in course.holes.iter().zip(&design.holes) {
        table.add_row(row(hole, said, &sets, room, page));
    }
    table.add_row(totals(course, design, &sets, page));
    table::text(&table, page)
}

fn row(hole: &Hole, said: &HoleDesign, sets: &[usize], room: usize, page: Page) -> Vec<String> {
    let mut row = vec![
        hole.number.to_string(),
        hole.par.to_string(),
        hole.stroke_index
            .map_or(String::new(), |index| index.to_string()),
    ];
    let yards = |yd: f64| format!("{:.0}", page.reading.length(Length::from_yd(yd)));
    if sets.is_empty() {
        row.push(yards(hole.length_yd));
    }
    row.extend(sets.iter().map(|set| from_tee(hole, *set, page)));
    row.extend(match &said.played {
        Some(played) => [
            signed(played.scratch_over_par),
            signed(played.bogey_over_par),
            causes(played, room),
        ],
        None => [String::new(), String::new(), String::new()],
    });
    row
}

/// A hole from one set of tees: its length, and its par where that is another.
fn from_tee(hole: &Hole, set: usize, page: Page) -> String {
    let tee = hole.tees[set];
    let length = page.reading.length(Length::from_yd(tee.length_yd));
    if tee.par == hole.par {
        format!("{length:.0}")
    } else {
        format!("{length:.0} par {}", tee.par)
    }
}

/// The room that is left for causes, characters.
fn room(course: &Course, sets: &[usize], page: Page) -> usize {
    let width = |set: &usize| {
        let holes = course.holes.iter();
        let cells = holes.map(|hole| from_tee(hole, *set, page).chars().count());
        let name = course.tees[*set].name.chars().count();
        2 + cells.fold(name.max(SET_WIDTH), usize::max)
    };
    let lengths: usize = sets.iter().map(width).sum();
    let used = COLUMNS_WIDTH + lengths.max(2 + SET_WIDTH);
    page.width.saturating_sub(used)
}

/// The last line: par, lengths and strokes of all holes.
fn totals(course: &Course, design: &Design, sets: &[usize], page: Page) -> Vec<String> {
    let yards = |yd: f64| format!("{:.0}", page.reading.length(Length::from_yd(yd)));
    let mut row = vec!["all".to_owned(), course.par().to_string(), String::new()];
    if sets.is_empty() {
        row.push(yards(course.length_yd()));
    }
    row.extend(sets.iter().map(|set| {
        yards(
            course
                .holes
                .iter()
                .map(|hole| hole.tees[*set].length_yd)
                .sum(),
        )
    }));
    let sum = |of: fn(&Played) -> f64| {
        let played: Option<Vec<f64>> = (design.holes.iter())
            .map(|said| said.played.as_ref().map(of))
            .collect();
        played.map_or(String::new(), |all| signed(all.iter().sum()))
    };
    row.push(sum(|played| played.scratch_over_par));
    row.push(sum(|played| played.bogey_over_par));
    row.push(String::new());
    row
}

/// The costliest causes, as many as there is room for, and one at least.
fn causes(played: &Played, room: usize) -> String {
    let mut told = String::new();
    for cause in &played.hard {
        let more = format!("{} {:.2}", cause.what.words(), cause.strokes);
        if !told.is_empty() {
            if told.chars().count() + 2 + more.chars().count() > room {
                break;
            }
            told += ", ";
        }
        told += &more;
    }
    told
}

fn signed(strokes: f64) -> String {
    let text = table::number(strokes, 2);
    if text.starts_with('-') {
        text
    } else {
        format!("+{text}")
    }
}

/// A line for each set of tees: the ratings of the played one, and what the file states of the others.
fn of_ratings(course: &Course, ratings: &CourseRatings, page: Page) -> String {
    let mut out = String::new();
    if course.tees.is_empty() {
        out += &page.item(&format!("Rating: {}.", played_ratings(ratings)));
    }
    for (index, set) in course.tees.iter().enumerate() {
        let told = if course.played_from == Some(index) {
            played_ratings(ratings)
        } else {
            let both = [("men", set.ratings.men), ("women", set.ratings.women)];
            let stated = both
                .into_iter()
                .filter_map(|(who, rating)| Some(one(who, &rating?)));
            let stated: Vec<String> = stated.collect();
            if stated.is_empty() {
                format!("none stated; `--tees '{}'` plays it", set.name)
            } else {
                format!("{}, as stated", stated.join("; "))
            }
        };
        out += &page.item(&format!("Rating from the {} tees: {told}.", set.name));
    }
    out
}

fn played_ratings(ratings: &CourseRatings) -> String {
    let both = [("men", ratings.men), ("women", ratings.women)];
    let told = |(who, rating): (&str, Option<CourseRating>)| {
        let CourseRating { rating, stated } = rating?;
        let how = if stated { "as stated" } else { "by play" };
        Some(format!("{}, {how}", one(who, &rating)))
    };
    let told: Vec<String> = both.into_iter().filter_map(told).collect();
    if told.is_empty() {
        "none: a course of neither 18 nor 9 holes has none unless it is stated".to_owned()
    } else {
        told.join("; ")
    }
}

fn one(who: &str, rating: &Rating) -> String {
    let bogey = tied(&format!("bogey {:.1}", rating.bogey_rating));
    let slope = tied(&format!("slope {}", rating.slope_rating));
    let course = tied(&format!("{who} {:.1}", rating.course_rating));
    format!("{course}, {bogey}, {slope}")
}

fn of_warnings(course: &Course, design: &Design, page: Page) -> String {
    let unit = page.reading.length_unit();
    let length = |yd: f64| {
        tied(&format!(
            "{:.0} {unit}",
            page.reading.length(Length::from_yd(yd))
        ))
    };
    let holes = course.holes.iter().zip(&design.holes);
    let told = holes.flat_map(|(hole, said)| {
        let each = said.warnings.iter();
        each.map(move |warning| format!("- Hole {}: {}.", hole.number, warning.told(length)))
    });
    told.map(|line| page.item(&line)).collect()
}
