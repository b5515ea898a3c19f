//! The line of play of a hole.

use super::area::FARTHEST_YD;
use crate::{
    course::{Point, line::Line},
    files::toml::Table,
};

/// How far a stated length and the length of a stated line may differ, as a share.
const LENGTH_SHARE: f64 = 0.03;

/// Reads the line of play, from its length and turns or from its points, and its length in yards: a stated length is
/// kept as it is, where the sum of the legs would differ in the last digits.
pub(super) fn read(table: &Table<'_>) -> Option<(Line, f64)> {
    if table.has("line_yd") {
        return read_free_line(table);
    }
    let length_yd = table.need("length_yd", "402").number(40.0..=800.0, "yards");
    let mut turns = Vec::new();
    let mut last_yd = 0.0;
    for turn in table
        .may("dogleg", "[{ at_yd = 230, turn_deg = 25 }]")
        .tables(&["at_yd", "turn_deg"])
    {
        let most = length_yd.unwrap_or(800.0);
        let at_yd = turn.need("at_yd", "230").number(1.0..=most - 1.0, "yards");
        let turn_deg = turn
            .need("turn_deg", "25")
            .number(-120.0..=120.0, "degrees");
        if let Some(at_yd) = at_yd {
            if at_yd <= last_yd {
                let message = "a turn must come after the one before it".to_owned();
                turn.fault(
                    turn.place("at_yd"),
                    message,
                    "list the turns from the tee to the green",
                );
            }
            last_yd = at_yd;
        }
        turns.push((at_yd, turn_deg));
    }
    let turns: Option<Vec<(f64, f64)>> = turns.into_iter().map(|(at, turn)| at.zip(turn)).collect();
    let length_yd = length_yd?;
    Some((Line::with_turns(length_yd, &turns?)?, length_yd))
}

fn read_free_line(table: &Table<'_>) -> Option<(Line, f64)> {
    let stated_yd = table.may("length_yd", "402").number(40.0..=800.0, "yards");
    if table.has("dogleg") {
        let message = format!("{} has both `dogleg` and `line_yd`", table.label());
        table.fault(table.place("dogleg"), message, "keep one of them");
    }
    let entry = table.may("line_yd", "[[0, 0], [10, 230], [90, 400]]");
    let points: Vec<Point> = entry
        .points(FARTHEST_YD)?
        .into_iter()
        .map(|[x_yd, y_yd]| Point { x_yd, y_yd })
        .collect();
    let place = table.place("line_yd");
    if points.first()
        != Some(&Point {
            x_yd: 0.0,
            y_yd: 0.0,
        })
    {
        table.fault(
            place,
            "the line of play begins at the tee, [0, 0]".to_owned(),
            "write [0, 0] first",
        );
        return None;
    }
    let Some(line) = Line::through(&points) else {
        let message = "a line of play has at least two points, no two in a row the same".to_owned();
        table.fault(
            place,
            message,
            "write the tee, each turn, and the middle of the green",
        );
        return None;
    };
    let length_yd = line.length_yd();
    if !(40.0..=800.0).contains(&length_yd) {
        let message = format!(
            "the line of play of {} is {length_yd:.0} yards long",
            table.label()
        );
        table.fault(place, message, "a hole is from 40 to 800 yards long");
        return None;
    }
    if let Some(stated) =
        stated_yd.filter(|stated| (stated - length_yd).abs() > LENGTH_SHARE * length_yd)
    {
        let message =
            format!("`length_yd` is {stated}, but the line of play is {length_yd:.0} yards long");
        table.fault(
            table.place("length_yd"),
            message,
            "correct one of them, or leave `length_yd` out",
        );
    }
    Some((line, length_yd))
}
