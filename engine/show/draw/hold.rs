//! Hold curves: the share of shots on target that stay on the green, against the green's firmness or the ball's descent.

use crate::round::clubs::curves::Curve;
use crate::round::clubs::{GREEN_DEPTH_YD, GREEN_WIDTH_YD};
use crate::show::reading::{Reading, number};

use super::colour::{Colour, SERIES};
use super::labels::Labels;
use super::panel::Panel;
use super::scale::Frame;
use super::svg::{Element, Svg, Words, path_through};
use super::{BODY, MARGIN, Picture, SMALL, Style, TITLE_HEIGHT, length, title};

const SIZE: (f64, f64) = (560.0, 340.0);
const LEFT: f64 = 60.0;
const PANEL: f64 = 250.0;
const DASHES: [&str; 4] = ["none", "8 4", "2 3", "10 3 2 3"];

/// One curve, with its name.
#[derive(Debug, Clone, PartialEq)]
pub struct HoldCurve {
    /// What it is of, as `soft green`, `7 iron`, `7 iron of golfers off 5`.
    pub name: String,
    /// The curve.
    pub curve: Curve,
    /// The place on it that is the player's own; none where it has none.
    pub own: Option<Own>,
}

/// A place on a curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Own {
    /// Mean descent, degrees.
    pub descent_deg: f64,
    /// Share held, percent.
    pub held_pct: f64,
}

/// The share held against the firmness of the green, a curve for each club.
#[must_use]
pub fn against_firmness(player: &str, curves: &[HoldCurve], style: Style<'_>) -> Picture {
    let chart = Chart {
        heading: format!("Greens held by {player}, by the firmness of the green"),
        x: (0.0, 1.0),
        x_name: "firmness of the green: 0 soft, 0.5 medium, 1 firm",
        note: None,
    };
    chart.draw(curves, style)
}

/// The share held by one club against the angle of descent, a curve for each green.
#[must_use]
pub fn against_descent(
    player: &str,
    club: &str,
    curves: &[HoldCurve],
    style: Style<'_>,
) -> Picture {
    let all = || {
        curves
            .iter()
            .flat_map(|curve| &curve.curve.points)
            .map(|(x, _)| *x)
    };
    let (low, high) = (
        all().fold(f64::INFINITY, f64::min),
        all().fold(0.0, f64::max),
    );
    let chart = Chart {
        heading: format!("Greens held by the {club} of {player}, by how steeply it comes down"),
        x: (low, high.max(low + 1.0)),
        x_name: "mean angle of descent, °",
        note: Some(
            "Every shot is made to come down as much flatter or steeper, at the same speed and with the same spin. Dots: \
             as it comes down today.",
        ),
    };
    chart.draw(curves, style)
}

struct Chart {
    heading: String,
    x: (f64, f64),
    x_name: &'static str,
    note: Option<&'static str>,
}

impl Chart {
    fn draw(&self, curves: &[HoldCurve], style: Style<'_>) -> Picture {
        let frame = Frame {
            corner: (MARGIN + LEFT, TITLE_HEIGHT),
            size: SIZE,
            x: self.x,
            y: (0.0, 100.0),
        };
        let below = "Of 100 shots that pitch on the front half of a level green, mishits included, so many stay on it";
        let description = format!("{}. {below}. {}", self.heading, read_out(curves));
        let size = (
            MARGIN + LEFT + SIZE.0 + 24.0 + PANEL + MARGIN,
            TITLE_HEIGHT + SIZE.1 + 50.0 + MARGIN / 2.0,
        );
        let mut svg = Svg::new(style.id, size, &self.heading, &description);
        title(&mut svg, size.0, &self.heading, below);
        frame.grid(&mut svg, (10, 10), SMALL, 0.0);
        frame.names(&mut svg, self.x_name, "stay on the green, of 100");
        for (index, curve) in curves.iter().enumerate() {
            draw(&mut svg, &frame, curve, index);
        }
        let mut labels = Labels::default();
        for (index, curve) in curves.iter().enumerate() {
            own(&mut svg, &frame, curve, index, &mut labels);
        }
        self.key(&mut svg, curves, style.reading);
        svg.finish()
    }

    fn key(&self, svg: &mut Svg, curves: &[HoldCurve], reading: Reading) {
        let x = MARGIN + LEFT + SIZE.0 + 24.0;
        let mut panel = Panel {
            x,
            y: TITLE_HEIGHT,
            width: PANEL,
        };
        for (index, curve) in curves.iter().enumerate() {
            let mark = |svg: &mut Svg, (x, y): (f64, f64)| {
                let line = Element::line((x - 13.0, y), (x + 13.0, y)).stroke(colour(index), 2.2);
                svg.put(line.dashed(DASHES[index % DASHES.len()]));
            };
            let held = |share: f64| {
                let last = curve.curve.points.len().saturating_sub(1) as f64;
                let point = curve.curve.points.get((share * last).round() as usize);
                point.map_or_else(String::new, |(_, held)| number(*held, 0))
            };
            let (figure, below) = match curve.own {
                Some(own) => (format!("{} %", number(own.held_pct, 0)), String::new()),
                None => (
                    String::new(),
                    format!(
                        "soft {} %, medium {} %, firm {} %",
                        held(0.0),
                        held(0.5),
                        held(1.0)
                    ),
                ),
            };
            panel.row(svg, [&curve.name, &figure, &below], mark);
        }
        panel.y += 6.0;
        let green = format!(
            "The green is level, {} deep and {} wide, Stimpmeter 10.",
            length(GREEN_DEPTH_YD, reading),
            length(GREEN_WIDTH_YD, reading)
        );
        panel.paragraph(svg, &green);
        if let Some(note) = self.note {
            panel.paragraph(svg, note);
        }
        panel.paragraph(svg, "Estimates from a model, not promises.");
    }
}

fn colour(index: usize) -> Colour {
    SERIES[index % SERIES.len()]
}

/// The ends of the curves in words.
fn read_out(curves: &[HoldCurve]) -> String {
    let of = |curve: &HoldCurve| {
        let (first, last) = (curve.curve.points.first()?, curve.curve.points.last()?);
        let ends =
            [first, last].map(|(x, held)| format!("{} at {}", number(*held, 0), number(*x, 1)));
        Some(format!("{}: {}.", curve.name, ends.join(", ")))
    };
    curves.iter().filter_map(of).collect::<Vec<_>>().join(" ")
}

fn draw(svg: &mut Svg, frame: &Frame, curve: &HoldCurve, index: usize) {
    let places: Vec<(f64, f64)> = curve
        .curve
        .points
        .iter()
        .map(|(x, y)| frame.at(*x, *y))
        .collect();
    let path = Element::path(path_through(&places, false)).stroke(colour(index), 2.2);
    let path = path.with("stroke-linejoin", "round");
    svg.put(
        path.dashed(DASHES[index % DASHES.len()])
            .with("data-curve", &curve.name),
    );
}

fn own(svg: &mut Svg, frame: &Frame, curve: &HoldCurve, index: usize, labels: &mut Labels) {
    let Some(own) = curve.own else { return };
    let (x, y) = frame.at(own.descent_deg, own.held_pct);
    svg.put(
        Element::circle((x, y), 5.0)
            .fill(Colour::Paper)
            .stroke(colour(index), 2.4),
    );
    labels.keep_off((x, y), 6.0);
    let words = Words::sized(BODY).bold().coloured(colour(index)).rimmed();
    let places = [
        ((x + 10.0, y + 16.0), "start"),
        ((x - 10.0, y - 9.0), "end"),
        ((x + 10.0, y + 30.0), "start"),
        ((x + 10.0, y - 9.0), "start"),
    ];
    // Below the axis stand its figures.
    let lowest = frame.corner.1 + frame.size.1 - 4.0;
    let places: Vec<_> = places
        .into_iter()
        .filter(|((_, y), _)| *y < lowest)
        .collect();
    labels.write(
        svg,
        &format!("{} %", number(own.held_pct, 0)),
        words,
        &places,
    );
}
