//! What an import found, as people read it.

use crate::course::import::{FoundHole, GreenFrom, Imported, Refused, colours};
use crate::units::Length;

use super::page::Page;
use super::reading::holes;
use super::table;

/// The most refusals told one by one.
const MOST_REFUSED: usize = 12;

/// The courses of a map that holds several.
#[must_use]
pub fn courses(courses: &[(String, usize)], refused: &[Refused], page: Page) -> String {
    let mut out = page.paragraph(&format!(
        "This map holds {} courses. Choose one with `--course`, by name or number.",
        courses.len()
    ));
    out.push('\n');
    let mut table = table::table(["course", "holes"], 1);
    for (at, (name, holes)) in (1..).zip(courses) {
        table.add_row([format!("{at} {name}"), holes.to_string()]);
    }
    out += &table::text(&table, page);
    out + of_refused(refused, page).as_str()
}

/// A course, hole by hole.
#[must_use]
pub fn course(course: &Imported, written: Option<&str>, page: Page) -> String {
    let length = page.reading.length(Length::from_yd(course.length_yd()));
    let unit = page.reading.length_unit();
    let mut out = page.paragraph(&format!(
        "{}: {}, par {}, {length:.0} {unit}.",
        course.name,
        holes(course.holes.len()),
        course.par()
    ));
    out.push('\n');
    out += &of_holes(course, page);
    out += &of_tees(course, page);
    let warnings: Vec<&String> = course
        .holes
        .iter()
        .flat_map(|hole| &hole.found.warnings)
        .chain(&course.notes)
        .collect();
    if !warnings.is_empty() {
        out += "\nMind:\n";
        out.extend(
            warnings
                .into_iter()
                .map(|warning| page.item(&format!("- {warning}"))),
        );
    }
    out += &of_refused(&course.refused, page);
    out.push('\n');
    out += &page.paragraph(&match written {
        Some(file) => format!(
            "Written to {file}. Firmness, green speed and slope are not on maps: edit them there."
        ),
        None => "Nothing is written without `--out COURSE.toml`.".to_owned(),
    });
    out
}

/// A line for each hole.
fn of_holes(course: &Imported, page: Page) -> String {
    let unit = page.reading.length_unit();
    let green = format!("green\nsq {unit}");
    let mut table = table::table(
        [
            "hole",
            "par",
            unit,
            green.as_str(),
            "bunkers",
            "water",
            "inferred",
        ],
        0,
    );
    if let Some(column) = table.column_mut(6) {
        column.set_cell_alignment(comfy_table::CellAlignment::Left);
    }
    for hole in &course.holes {
        let found = &hole.found;
        let count = |lie| {
            hole.laid
                .areas
                .iter()
                .filter(|area| area.lie == lie)
                .count()
                .to_string()
        };
        let scale = page.reading.length(Length::from_yd(1.0)).powi(2);
        table.add_row([
            found.number.to_string(),
            found.par.to_string(),
            format!(
                "{:.0}",
                page.reading.length(Length::from_yd(found.length_yd))
            ),
            found
                .green_sq_yd
                .map_or("–".to_owned(), |sq_yd| format!("{:.0}", sq_yd * scale)),
            count(crate::course::Lie::Sand),
            count(crate::course::Lie::Water),
            inferred(found, hole.laid.is_fairway_assumed),
        ]);
    }
    table::text(&table, page)
}

/// What of a hole the map does not say.
fn inferred(found: &FoundHole, is_fairway_assumed: bool) -> String {
    let told = [
        (!found.is_drawn, "line"),
        (found.direction.is_reversed, "direction"),
        (!found.par_from.is_stated(), "par"),
        (found.green_from != GreenFrom::Outline, "green"),
        (is_fairway_assumed, "fairway"),
    ];
    let told: Vec<&str> = told
        .into_iter()
        .filter(|(is_so, _)| *is_so)
        .map(|(_, what)| what)
        .collect();
    told.join(", ")
}

fn of_tees(course: &Imported, page: Page) -> String {
    let found: Vec<FoundHole> = course.holes.iter().map(|hole| hole.found.clone()).collect();
    let known: Vec<String> = colours(&found)
        .into_iter()
        .map(|(colour, holes)| match holes {
            1 => format!("{colour} on 1 hole"),
            _ => format!("{colour} on {holes} holes"),
        })
        .collect();
    let played = match &course.tees {
        Some(colour) => format!("Played from the {colour} tees."),
        None => {
            "Holes start where their lines do; `--tees COLOUR` starts them from tees.".to_owned()
        }
    };
    let known = if known.is_empty() {
        "The map tells no colours of tees.".to_owned()
    } else {
        format!("Tees on the map: {}.", known.join(", "))
    };
    format!("\n{}", page.paragraph(&format!("{played} {known}")))
}

fn of_refused(refused: &[Refused], page: Page) -> String {
    if refused.is_empty() {
        return String::new();
    }
    let mut out = String::from("\nLeft out:\n");
    out.extend(
        refused
            .iter()
            .take(MOST_REFUSED)
            .map(|one| page.item(&format!("- {}: {}", one.what, one.why))),
    );
    if refused.len() > MOST_REFUSED {
        out += &format!("and {} more\n", refused.len() - MOST_REFUSED);
    }
    out
}

/// Why nothing can be played, in a sentence.
#[must_use]
pub fn why_nothing(refused: &[Refused]) -> String {
    let told: Vec<String> = refused
        .iter()
        .take(MOST_REFUSED)
        .map(|one| format!("{}: {}", one.what, one.why))
        .collect();
    match refused.len() {
        0 => "it holds no golf course: no `golf=hole` line, no green and no tee".to_owned(),
        count if count > MOST_REFUSED => {
            format!("{}; and {} more", told.join("; "), count - MOST_REFUSED)
        }
        _ => told.join("; "),
    }
}
