//! What is told of a sheet whose columns do not say which club was hit, and how fast or how far the ball went; with a
//! column map that is ready but for what only its owner knows.

use super::column_map::{CLUB, quoted};
use super::header::{BadHeader, Column};
use super::plain;
use super::quantity::Quantity;
use crate::files::listed;

/// What stands for a header that only the sheet's owner knows.
const GAP: &str = "…";

/// Columns looked at for the map that is offered.
const MOST_LOOKED_AT: usize = 100;

/// A sheet must say which club was hit and how far or how fast.
pub(super) fn note(
    cells: &[String],
    club: Option<usize>,
    others: [Option<usize>; 2],
    columns: &[Column],
    bad: &mut Vec<BadHeader>,
) {
    let has = |quantity| columns.iter().any(|column| column.quantity == quantity);
    let speed = has(Quantity::BallSpeed)
        || has(Quantity::Carry)
        || has(Quantity::ClubSpeed) && has(Quantity::DynamicLoft);
    if club.is_some() && speed {
        return;
    }
    let is_known = |index: usize| {
        club == Some(index)
            || others.contains(&Some(index))
            || columns.iter().any(|column| column.index == index)
    };
    let unknown = (0..cells.len()).filter(|index| !is_known(*index) && !cells[*index].is_empty());
    let unknown: Vec<&str> = unknown.map(|index| cells[index].as_str()).collect();
    let what = match (club, speed) {
        (None, true) => "no column says which club was hit",
        (None, false) => "no column says which club was hit, nor how fast or how far the ball went",
        _ => "no column says how fast or how far the ball went",
    };
    let message = match unknown.is_empty() {
        true => what.to_owned(),
        false => format!("{what}; not known: {}", listed(&unknown, "and")),
    };
    bad.push(BadHeader {
        cell: None,
        message,
        hint: hint(&unknown, club.is_none(), speed, columns),
    });
}

fn hint(unknown: &[&str], needs_club: bool, has_speed: bool, columns: &[Column]) -> String {
    let speed = "`ball_speed_mph`, or `carry_yd`, or `club_speed_mph` and `dynamic_loft_deg`";
    let named = match (needs_club, has_speed) {
        (true, true) => "`club`".to_owned(),
        (true, false) => format!("`club`, and {speed}"),
        _ => speed.to_owned(),
    };
    let map = map(unknown, needs_club, has_speed, columns);
    if map.is_empty() {
        return format!("a sheet needs {named}");
    }
    format!(
        "a sheet needs {named}; or put this into a file MAP.toml, behind each name the sheet's own header of it, and add `--map MAP.toml`: `{map}`"
    )
}

/// A column map of the headers that look like a quantity, with gaps for what the sheet must say and no header looks
/// like: only its owner knows which of the rest that is.
fn map(unknown: &[&str], needs_club: bool, has_speed: bool, columns: &[Column]) -> String {
    let mut free: Vec<Quantity> = Quantity::ALL.to_vec();
    free.retain(|quantity| columns.iter().all(|column| column.quantity != *quantity));
    let mut alike = Vec::new();
    let mut rest = Vec::new();
    for &name in unknown.iter().take(MOST_LOOKED_AT) {
        match plain::like(name).filter(|quantity| free.contains(quantity)) {
            Some(quantity) => {
                free.retain(|one| *one != quantity);
                alike.push((quantity, name));
            }
            None => rest.push(name),
        }
    }
    let tells_speed = |quantity| matches!(quantity, Quantity::BallSpeed | Quantity::Carry);
    let has_speed = has_speed || alike.iter().any(|(quantity, _)| tells_speed(*quantity));
    // A total with its run says neither how far nor how fast the ball flew.
    rest.retain(|name| !plain::is_total(name));
    let far = rest.iter().any(|name| is_length(name));
    let told_by = if far {
        Quantity::Carry
    } else {
        Quantity::BallSpeed
    };
    let club = needs_club.then(|| CLUB.to_owned());
    let speed = (!has_speed).then(|| told_by.name());
    let needed: Vec<String> = club.into_iter().chain(speed).collect();
    let value = match (&needed[..], &rest[..]) {
        ([_], [only]) => quoted(only),
        _ => quoted(GAP),
    };
    let gaps = needed.iter().map(|key| format!("{key} = {value}"));
    let alike = alike
        .iter()
        .map(|(quantity, name)| format!("{} = {}", quantity.name(), quoted(name)));
    let all: Vec<String> = gaps.chain(alike).collect();
    match unknown.is_empty() || all.is_empty() {
        true => String::new(),
        false => format!("columns = {{ {} }}", all.join(", ")),
    }
}

fn is_length(header: &str) -> bool {
    plain::any_unit_of(header).is_some_and(|unit| unit.kind == Quantity::Carry.kind())
}
