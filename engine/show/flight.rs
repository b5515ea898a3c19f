//! One strike's flight and runs, for people.

use std::fmt::Write;

use crate::ball::flight::Flight;
use crate::units::{Length, Speed, Spin};

use super::reading::Reading;
use super::table::{table, text};

/// One run: surface, firmness in words, and length.
pub type RunRow<'a> = (&'a str, &'a str, Length);

/// The flight and runs as a text.
#[must_use]
pub fn flight(flight: &Flight, runs: &[RunRow<'_>], reading: Reading) -> String {
    let (length, unit) = (|l| reading.length(l), reading.length_unit());
    let speed = Speed::from_mps(flight.landing.velocity_mps.length());
    let spin = Spin::from_rad_s(flight.landing.spin_rad_s.length());
    let mut out = String::new();
    let _ = writeln!(out, "Carry    {:6.1} {unit}", length(flight.carry));
    let _ = writeln!(
        out,
        "Side     {:6.1} {unit}  {}",
        length(flight.side).abs(),
        side_word(flight.side)
    );
    let _ = writeln!(out, "Apex     {:6.1} {unit}", length(flight.apex));
    let _ = writeln!(out, "In air   {:6.1} s", flight.time_s);
    let _ = writeln!(out, "Descent  {:6.1}°", flight.descent.deg());
    let _ = writeln!(
        out,
        "Lands at {:6.1} {} with {:.0} rpm of spin\n",
        reading.speed(speed),
        reading.speed_unit(),
        spin.rpm()
    );
    out + &run_table(runs, reading)
}

fn side_word(side: Length) -> &'static str {
    match side.yd() {
        side if side > 0.05 => "right",
        side if side < -0.05 => "left",
        _ => "",
    }
}

/// Surfaces down, firmness across.
fn run_table(runs: &[RunRow<'_>], reading: Reading) -> String {
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
    let heading = format!("Run on ({})", reading.length_unit());
    let mut rows = table(std::iter::once(heading.as_str()).chain(firmness), 1);
    for surface in surfaces {
        let figures = runs
            .iter()
            .filter(|(on, ..)| *on == surface)
            .map(|(_, _, run)| format!("{:.1}", reading.length(*run)));
        rows.add_row(std::iter::once(surface.to_owned()).chain(figures));
    }
    text(&rows)
}
