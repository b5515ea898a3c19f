//! What each part of the game would save, with the interval it most likely lies in.

use crate::show::reading::number;

use super::colour::Colour;
use super::scale::Frame;
use super::svg::{Element, Svg, Words};
use super::{BODY, Picture, SMALL, Style};

const WIDTH: f64 = 390.0;
/// Room for the names of parts, and for figures at the right edge.
const NAMES: f64 = 108.0;
const FIGURES: f64 = 44.0;
const ROW: f64 = 27.0;
const ABOVE: f64 = 10.0;
const BELOW: f64 = 46.0;

/// What one part would save.
#[derive(Debug, Clone, PartialEq)]
pub struct Saving {
    /// The part's name, with its mark where nobody measured it.
    pub name: String,
    /// Whether the player's own shots stand behind it.
    pub measured: bool,
    /// Strokes a round.
    pub saved: f64,
    /// The interval; none where it is not known how sure the figure is.
    pub interval: Option<[f64; 2]>,
}

/// The savings of parts, in the order they are given; `beside` names whose standard they are at.
#[must_use]
pub fn savings(parts: &[Saving], beside: &str, style: Style<'_>) -> Picture {
    let heading = format!("Strokes a round each part would save at the standard of {beside}");
    let told = |part: &Saving| {
        let figures = match part.interval {
            Some([low, high]) => format!(", {} to {}", number(low, 1), number(high, 1)),
            None => String::new(),
        };
        format!(" {}: {}{figures}.", part.name, number(part.saved, 1))
    };
    let told: String = parts.iter().map(told).collect();
    let description = format!("{heading}, and the interval it lies in nine times in ten.{told}");
    let high = ROW * parts.len() as f64;
    let size = (WIDTH, ABOVE + high + BELOW);
    let frame = frame(parts, high);
    let mut svg = Svg::new(style.id, size, &heading, &description);
    frame.grid(&mut svg, (6, 1), SMALL, 0.0);
    let zero = frame.at(0.0, 0.0).0;
    let (top, bottom) = (ABOVE, ABOVE + high);
    svg.put(Element::line((zero, top), (zero, bottom)).stroke(Colour::Ink, 1.2));
    for (index, part) in parts.iter().enumerate() {
        row(&mut svg, &frame, part, ABOVE + (index as f64 + 0.5) * ROW);
    }
    let middle = frame.corner.0 + frame.size.0 / 2.0;
    let words = Words::sized(SMALL).faint().anchored("middle");
    svg.words((middle, bottom + 36.0), "strokes saved a round", words);
    svg.finish()
}

fn frame(parts: &[Saving], high: f64) -> Frame {
    let ends = parts
        .iter()
        .flat_map(|part| part.interval.into_iter().flatten().chain([part.saved]));
    let (low, most) = ends.fold((0.0_f64, 0.5_f64), |(low, most), value| {
        (low.min(value), most.max(value))
    });
    let room = 0.04 * (most - low);
    Frame {
        corner: (NAMES, ABOVE),
        size: (WIDTH - NAMES - FIGURES, high),
        x: (low - room, most + room),
        // Without numbers: nothing is measured upwards.
        y: (0.1, 0.9),
    }
}

fn row(svg: &mut Svg, frame: &Frame, part: &Saving, y: f64) {
    svg.words((4.0, y + 4.0), &part.name, Words::sized(BODY));
    let at = |strokes: f64| frame.at(strokes, 0.5).0;
    if let Some([low, high]) = part.interval {
        let (left, right) = (at(low), at(high));
        let line = Element::line((left, y), (right, y)).stroke(Colour::First, 3.0);
        let line = line.with("stroke-opacity", 0.55);
        svg.put(line.with("data-interval", &part.name));
        for x in [left, right] {
            svg.put(Element::line((x, y - 5.0), (x, y + 5.0)).stroke(Colour::First, 1.6));
        }
    }
    let dot = Element::circle((at(part.saved), y), 5.0).stroke(Colour::First, 2.0);
    let inside = if part.measured {
        Colour::First
    } else {
        Colour::Paper
    };
    svg.put(dot.fill(inside).with("data-saved", number(part.saved, 1)));
    svg.words(
        (WIDTH - 4.0, y + 4.0),
        &number(part.saved, 1).replace('-', "−"),
        Words::sized(BODY).bold().anchored("end"),
    );
}
