//! A script beside the built-in rules, for people.

use crate::rules::lies::LieEffect;
use crate::rules::script::lie_name;
use crate::rules::script::trial::{NEAR_EDGE_YD, Tried, TriedLie};
use crate::units::Length;

use super::page::Page;
use super::table::{folded, number, table};

/// Landings with the built-in run and the script's.
#[must_use]
pub fn landings(tried: &[Tried], page: Page) -> String {
    let (unit, speed) = (page.reading.length_unit(), page.reading.speed_unit());
    let by_place = tried.iter().any(|one| one.near_edges.is_some());
    let landing_headings = [
        format!("speed\n({speed})"),
        "descent\n(deg)".to_owned(),
        "spin\n(rpm)".to_owned(),
    ];
    let run_headings = [
        format!("built-in\nrun ({unit})"),
        format!("script\nrun ({unit})"),
    ];
    let edges = ["near\nfront", "near\nback", "near\nleft", "near\nright"];
    let mut headings = vec!["\nclub", "\ngreen"];
    // One page holds the landings or the places, not both.
    if !by_place {
        headings.extend(landing_headings.iter().map(String::as_str));
    }
    headings.extend(run_headings.iter().map(String::as_str));
    if by_place {
        headings.extend(edges);
    }
    let mut rows = table(headings, 2);
    let mut club_before = None;
    for one in tried {
        rows.add_row(landing(one, club_before == Some(one.club), by_place, page));
        club_before = Some(one.club);
    }
    let mut out = folded(&rows, 2, page);
    if by_place {
        out.push('\n');
        let near = number(page.reading.length(Length::from_yd(NEAR_EDGE_YD)), 1);
        out += &page.paragraph(&format!(
            "The script asks where the ball pitches: `script run` is in the middle of the green, the last four columns \
             are where it pitches {near} {} from that edge. Behind the comma: how far to the left (L) or right (R).",
            page.reading.length_unit()
        ));
    }
    out
}

fn landing(one: &Tried, club_again: bool, by_place: bool, page: Page) -> Vec<String> {
    let length = |run: crate::ball::turf::Run| {
        let along = number(page.reading.length(run.along), 1);
        let side = page.reading.length(run.across);
        match number(side.abs(), 1).as_str() {
            "0.0" => along,
            far if side > 0.0 => format!("{along}, {far} R"),
            far => format!("{along}, {far} L"),
        }
    };
    let firmness = match one.firmness.value() {
        soft if soft < 0.25 => "soft",
        medium if medium < 0.75 => "medium",
        _ => "firm",
    };
    let club = if club_again {
        String::new()
    } else {
        one.club.to_string()
    };
    let mut cells = vec![club, firmness.to_owned()];
    if !by_place {
        cells.extend([
            number(page.reading.speed(one.speed), 1),
            number(one.descent.deg(), 1),
            number(one.spin.rpm(), 0),
        ]);
    }
    cells.extend([length(one.usual), length(one.run)]);
    if by_place {
        let near = one.near_edges.unwrap_or([one.run; 4]);
        cells.extend(near.map(length));
    }
    cells
}

/// Lies whose effect the script changes.
#[must_use]
pub fn lies(tried: &[TriedLie], page: Page) -> String {
    let changed: Vec<&TriedLie> = tried.iter().filter(|one| one.usual != one.effect).collect();
    if changed.is_empty() {
        return page.paragraph("The script leaves every lie as the built-in table has it.");
    }
    let headings = [
        "lie", "club", "speed", "spin", "launch", "spread", "mishits",
    ];
    let mut rows = table(headings, 2);
    for alike in changed.chunk_by(|one, next| is_alike(one, next)) {
        if let [first, ..] = alike {
            let mut row = vec![lie_name(first.lie).to_owned(), clubs(alike)];
            row.extend(effects(first));
            rows.add_row(row);
        }
    }
    let note = "Factors on speed, spin, spread and mishits; degrees added to the launch. Lies and clubs that are not shown \
                play as usual.";
    folded(&rows, 2, page) + "\n" + page.paragraph(note).as_str()
}

/// Whether two clubs can stand in one row.
fn is_alike(one: &TriedLie, other: &TriedLie) -> bool {
    one.lie == other.lie && effects(one) == effects(other)
}

/// The first and the last of clubs that follow each other.
fn clubs(alike: &[&TriedLie]) -> String {
    match alike {
        [first, .., last] => format!("{} to {}", first.club, last.club),
        [only] => only.club.to_string(),
        [] => String::new(),
    }
}

/// The built-in effect, and the script's where it is another.
fn effects(tried: &TriedLie) -> [String; 5] {
    let figure = |of: fn(&LieEffect) -> f64| {
        let (usual, now) = (number(of(&tried.usual), 2), number(of(&tried.effect), 2));
        if usual == now {
            now
        } else {
            format!("{usual} → {now}")
        }
    };
    [
        figure(|e| e.ball_speed),
        figure(|e| e.spin),
        figure(|e| e.launch_deg),
        figure(|e| e.spread),
        figure(|e| e.mishits),
    ]
}
