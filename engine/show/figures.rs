//! A golfer's figures on a course, for people.

use std::fmt::Write;

use crate::cost::figures::Figures;
use crate::units::Length;

use super::reading::Reading;
use super::table::{pct, table, text};

/// The figures of `play`.
#[must_use]
pub fn figures(golfer: &str, course: &str, figures: &Figures, reading: Reading) -> String {
    let mut out = String::new();
    let par: u32 = figures.holes.iter().map(|hole| u32::from(hole.par)).sum();
    let _ = writeln!(
        out,
        "{golfer} at {course}, par {par}: {} rounds\n",
        figures.rounds
    );
    let _ = writeln!(
        out,
        "Score         {:6.1}  (two rounds in three within {:.1} of it)",
        figures.score_mean, figures.score_sd
    );
    let _ = writeln!(out, "Fairways hit  {:>6}", pct(figures.fairways_hit_pct));
    let _ = writeln!(
        out,
        "Greens hit    {:>6}  in regulation",
        pct(Some(figures.greens_hit_pct))
    );
    let _ = writeln!(
        out,
        "Greens held   {:>6}  of the full shots that pitched on one",
        pct(figures.greens_held_pct)
    );
    let _ = writeln!(
        out,
        "Putts         {:6.1}  with {:.1} three-putts",
        figures.putts_mean, figures.three_putts_mean
    );
    let _ = writeln!(out, "Penalties     {:6.1}\n", figures.penalties_mean);
    out + &holes(figures, reading)
}

fn holes(figures: &Figures, reading: Reading) -> String {
    let length = format!("length ({})", reading.length_unit());
    let mut rows = table(
        [
            "hole", "par", &length, "score", "over par", "fairway", "green",
        ],
        0,
    );
    for hole in &figures.holes {
        rows.add_row([
            hole.number.to_string(),
            hole.par.to_string(),
            format!("{:.0}", reading.length(Length::from_yd(hole.length_yd))),
            format!("{:.2}", hole.score_mean),
            format!("{:+.2}", hole.score_mean - f64::from(hole.par)),
            pct(hole.fairway_hit_pct),
            pct(Some(hole.green_hit_pct)),
        ]);
    }
    text(&rows)
}
