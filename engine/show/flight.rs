//! One strike's flight and runs, for people.

use crate::ball::flight::Flight;
use crate::units::{Length, Speed, Spin};

use super::page::Page;
use super::table::{number, table, text};

/// One run: surface, firmness in words, and length.
pub type RunRow<'a> = (&'a str, &'a str, Length);

/// The flight and runs as a text.
#[must_use]
pub fn flight(flight: &Flight, runs: &[RunRow<'_>], page: Page) -> String {
    let reading = page.reading;
    let length = |l| number(reading.length(l), 1);
    let speed = Speed::from_mps(flight.landing.velocity_mps.length());
    let spin = Spin::from_rad_s(flight.landing.spin_rad_s.length());
    let (unit, descent) = (reading.length_unit(), flight.descent.deg());
    let side = format!("{unit} {}", side_word(flight.side));
    let lines = [
        ("Carry", length(flight.carry), unit),
        ("Side", length(flight.side).replace('-', ""), side.trim()),
        ("Apex", length(flight.apex), unit),
        ("Time", number(flight.time_s, 1), "s"),
        ("Descent", number(descent, 1), "degrees"),
        (
            "Landing speed",
            number(reading.speed(speed), 1),
            reading.speed_unit(),
        ),
        ("Landing spin", number(spin.rpm(), 0), "rpm"),
    ];
    let mut out = String::new();
    for (name, figure, unit) in lines {
        out += &page.figure(name, &figure, unit);
    }
    out.push('\n');
    out += &run_table(runs, page);
    let turns_back = runs
        .iter()
        .any(|(.., run)| number(reading.length(*run), 1).starts_with('-'));
    if turns_back {
        out.push('\n');
        out += &page.paragraph("A run below zero spins back.");
    }
    out
}

fn side_word(side: Length) -> &'static str {
    match side.yd() {
        side if side > 0.05 => "right",
        side if side < -0.05 => "left",
        _ => "",
    }
}

/// Surfaces down, firmness across.
fn run_table(runs: &[RunRow<'_>], page: Page) -> String {
    let mut firmness: Vec<&str> = Vec::new();
    let mut surfaces: Vec<&str> = Vec::new();
    for (surface, firm, _) in runs {
        if !firmness.contains(firm) {
            firmness.push(firm);
        }
        if !surfaces.contains(surface) {
            surfaces.push(surface);
        }
    }
    let heading = format!("Run ({}) on", page.reading.length_unit());
    let mut rows = table(std::iter::once(heading.as_str()).chain(firmness), 1);
    for surface in surfaces {
        let figures = runs
            .iter()
            .filter(|(on, ..)| *on == surface)
            .map(|(_, _, run)| number(page.reading.length(*run), 1));
        rows.add_row(std::iter::once(surface.to_owned()).chain(figures));
    }
    text(&rows)
}
