//! One strike's flight and runs, for people.

use crate::ball::Strike;
use crate::ball::flight::Flight;
use crate::ball::impact::Delivery;
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

/// What the head gave the ball, as a text; a blank line ends it.
#[must_use]
pub fn impact(delivery: &Delivery, strike: &Strike, page: Page) -> String {
    let reading = page.reading;
    let sided = |value: f64, decimals| {
        let figure = number(value, decimals);
        let side = match figure.as_str() {
            zero if zero.chars().all(|c| matches!(c, '0' | '.')) => "",
            left if left.starts_with('-') => " left",
            _ => " right",
        };
        (figure.replace('-', ""), side)
    };
    let (direction, start_side) = sided(strike.direction.deg(), 1);
    let (sidespin, curve_side) = sided(strike.sidespin.rpm(), 0);
    let (face, face_side) = sided(delivery.face_to_path().deg(), 1);
    let speed = number(reading.speed(strike.ball_speed), 1);
    [
        ("Ball speed", speed, reading.speed_unit().to_owned()),
        ("Launch", number(strike.launch.deg(), 1), "degrees".into()),
        ("Direction", direction, format!("degrees{start_side}")),
        ("Backspin", number(strike.backspin.rpm(), 0), "rpm".into()),
        ("Sidespin", sidespin, format!("rpm{curve_side}")),
        (
            "Spin loft",
            number(delivery.spin_loft().deg(), 1),
            "degrees".into(),
        ),
        ("Face to path", face, format!("degrees{face_side}")),
    ]
    .iter()
    .map(|(name, figure, unit)| page.figure(name, figure, unit))
    .chain(["\n".to_owned()])
    .collect()
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
    text(&rows, page)
}
