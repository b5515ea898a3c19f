//! The flight of each club seen from the side.

use crate::player::Golfer;
use crate::player::club::Club;
use crate::round::clubs::arcs::Arc;
use crate::show::reading::{Reading, number};
use crate::units::Length;

use super::colour::{Colour, SERIES};
use super::labels::Labels;
use super::scale::Frame;
use super::svg::{Element, Svg, Words, path_through};
use super::{BODY, MARGIN, Picture, SMALL, Style, TITLE_HEIGHT, title, unmeasured};

/// Width of the chart, pixels.
const WIDTH: f64 = 860.0;
/// Heights are drawn so many times as large as distances.
const STRETCH: f64 = 2.0;
/// Room left of the chart for numbers and a name.
const LEFT: f64 = 56.0;
/// Room below it for numbers, the names of clubs and of the axis.
const BELOW: f64 = 105.0;
/// A row of the table.
const ROW: f64 = 19.0;
/// Dashes that tell neighbours apart beside their colour.
const DASHES: [&str; 5] = ["none", "7 3", "2 3", "10 3 2 3", "14 4"];

/// The flights of a player's clubs; with `beside`, those of other golfers with the same clubs, one by one.
#[must_use]
pub fn flight(
    player: &Golfer,
    clubs: &[Arc],
    beside: Option<(&str, &[Arc])>,
    style: Style<'_>,
) -> Picture {
    let shown = |yd: f64| style.reading.length(Length::from_yd(yd));
    let unit = style.reading.length_unit();
    let others = beside.map_or(&[][..], |(_, arcs)| arcs);
    let most = |figure: fn(&Arc) -> f64| {
        clubs
            .iter()
            .chain(others)
            .map(figure)
            .fold(10.0_f64, f64::max)
    };
    let (farthest, highest) = (
        shown(most(|arc| arc.carry_yd)) * 1.05,
        shown(most(|arc| arc.apex_yd)) * 1.12,
    );
    let frame = Frame {
        corner: (MARGIN + LEFT, TITLE_HEIGHT),
        size: (WIDTH, WIDTH / farthest * highest * STRETCH),
        x: (0.0, farthest),
        y: (0.0, highest),
    };
    let heading = format!("How high and how far {} hits each club", player.name);
    let below = "Mean strikes in still air, seen from the side; heights are drawn twice as large as distances";
    let mut description = format!("{heading}. {below}.");
    for arc in clubs {
        let assumed = unmeasured(player, arc.club);
        let figures = told(arc, style.reading).join(", ");
        description += &format!(" {}: {figures}{assumed}.", arc.club);
    }
    let table = TITLE_HEIGHT + frame.size.1 + BELOW;
    let any_assumed = clubs.iter().any(|arc| player.is_assumed(arc.club));
    let rows = clubs.len() + 2 + usize::from(any_assumed);
    let height = table + rows as f64 * ROW + MARGIN;
    let mut svg = Svg::new(
        style.id,
        (2.0 * MARGIN + LEFT + WIDTH, height.ceil()),
        &heading,
        &description,
    );
    title(&mut svg, 2.0 * MARGIN + LEFT + WIDTH, &heading, below);
    frame.grid(&mut svg, (12, 5), SMALL, 42.0);
    for (index, arc) in others.iter().enumerate() {
        curve(&mut svg, &frame, arc, index, style.reading, true);
    }
    for (index, arc) in clubs.iter().enumerate() {
        curve(&mut svg, &frame, arc, index, style.reading, false);
    }
    names(&mut svg, &frame, (player, clubs), style.reading);
    let (bottom, middle) = (frame.corner.1 + frame.size.1, frame.corner.0 + WIDTH / 2.0);
    svg.words(
        (middle, bottom + 77.0),
        &format!("carry, {unit}"),
        Words::sized(BODY).anchored("middle"),
    );
    let upright = Words::sized(BODY).anchored("middle").upright();
    svg.words(
        (MARGIN + 10.0, TITLE_HEIGHT + frame.size.1 / 2.0),
        &format!("height, {unit}"),
        upright,
    );
    figures(&mut svg, table, (player, clubs), beside, style.reading);
    if any_assumed {
        svg.words(
            (MARGIN + LEFT, table + rows as f64 * ROW),
            "* and hollow: not measured, assumed from the handicap",
            Words::sized(SMALL).faint(),
        );
    }
    svg.finish()
}

fn colour(index: usize) -> Colour {
    SERIES[index % SERIES.len()]
}

fn curve(svg: &mut Svg, frame: &Frame, arc: &Arc, index: usize, reading: Reading, is_beside: bool) {
    let shown = |yd: f64| reading.length(Length::from_yd(yd));
    let places: Vec<(f64, f64)> = arc
        .places_yd
        .iter()
        .map(|(x, z)| frame.at(shown(*x), shown(z.max(0.0))))
        .collect();
    let path = Element::path(path_through(&places, false));
    if is_beside {
        let path = path.stroke(Colour::Faint, 1.1).with("stroke-opacity", 0.75);
        svg.put(path.dashed("1 3").with("data-beside", arc.club));
    } else {
        let path = path.stroke(colour(index), 1.8);
        svg.put(
            path.dashed(DASHES[index % DASHES.len()])
                .with("data-club", arc.club),
        );
    }
}

/// Writes the short names of clubs where their balls come down, in as many rows as they need.
fn names(svg: &mut Svg, frame: &Frame, (player, clubs): (&Golfer, &[Arc]), reading: Reading) {
    let mut labels = Labels::default();
    let bottom = frame.corner.1 + frame.size.1;
    for (index, arc) in clubs.iter().enumerate() {
        let (x, _) = frame.at(reading.length(Length::from_yd(arc.carry_yd)), 0.0);
        let dot = Element::circle((x, bottom), 2.6);
        svg.put(if player.is_assumed(arc.club) {
            dot.fill(Colour::Paper)
                .stroke(colour(index), 1.2)
                .with("data-mark", "assumed")
        } else {
            dot.fill(colour(index))
        });
        let words = Words::sized(SMALL).bold().coloured(colour(index)).rimmed();
        let rows = [17.0, 30.0, 43.0].map(|down| ((x, bottom + down), "middle"));
        labels.write(svg, &short(arc.club), words, &rows);
    }
}

/// The name of a club as it stands on its sole.
fn short(club: Club) -> String {
    match club {
        Club::Driver => "D".to_owned(),
        Club::Wood(number) => format!("{number}W"),
        Club::Hybrid(number) => format!("{number}H"),
        Club::Iron(number) => number.to_string(),
        Club::PitchingWedge => "PW".to_owned(),
        Club::GapWedge => "GW".to_owned(),
        Club::SandWedge => "SW".to_owned(),
        Club::LobWedge => "LW".to_owned(),
    }
}

/// Carry, apex and descent in words.
fn told(arc: &Arc, reading: Reading) -> [String; 3] {
    let shown = |yd: f64| number(reading.length(Length::from_yd(yd)), 0);
    let unit = reading.length_unit();
    [
        format!("carry {} {unit}", shown(arc.carry_yd)),
        format!("apex {} {unit}", shown(arc.apex_yd)),
        format!("descent {}°", number(arc.descent_deg, 0)),
    ]
}

/// Writes the table of carry, apex and descent, with those of the golfers beside.
fn figures(
    svg: &mut Svg,
    top: f64,
    (player, clubs): (&Golfer, &[Arc]),
    beside: Option<(&str, &[Arc])>,
    reading: Reading,
) {
    let x = MARGIN + LEFT;
    let columns = [260.0, 340.0, 430.0].map(|right| x + right);
    let others = [610.0, 690.0, 780.0].map(|right| x + right);
    let unit = reading.length_unit();
    let headings = [
        format!("carry, {unit}"),
        format!("apex, {unit}"),
        "descent, °".to_owned(),
    ];
    let words = Words::sized(SMALL).faint().anchored("end");
    let mut sets = vec![columns];
    if let Some((name, _)) = beside {
        sets.push(others);
        let dotted = Element::line((others[0] - 62.0, top - 4.0), (others[0] - 30.0, top - 4.0))
            .stroke(Colour::Faint, 1.1);
        svg.put(dotted.dashed("1 3"));
        svg.words((others[0] - 24.0, top), name, Words::sized(SMALL).bold());
    }
    for columns in &sets {
        for (column, heading) in columns.iter().zip(&headings) {
            svg.words((*column, top + ROW - 2.0), heading, words);
        }
    }
    for (index, arc) in clubs.iter().enumerate() {
        let y = top + (index + 2) as f64 * ROW;
        let sample = Element::line((x, y - 4.0), (x + 32.0, y - 4.0)).stroke(colour(index), 1.8);
        svg.put(sample.dashed(DASHES[index % DASHES.len()]));
        let star = if player.is_assumed(arc.club) {
            " *"
        } else {
            ""
        };
        svg.words(
            (x + 42.0, y),
            &format!("{} ({}){star}", arc.club, short(arc.club)),
            Words::sized(BODY),
        );
        row(svg, columns, y, arc, reading);
        if let Some(other) = beside.and_then(|(_, arcs)| arcs.get(index)) {
            row(svg, others, y, other, reading);
        }
    }
}

fn row(svg: &mut Svg, columns: [f64; 3], y: f64, arc: &Arc, reading: Reading) {
    let shown = |yd: f64| number(reading.length(Length::from_yd(yd)), 0);
    let figures = [
        shown(arc.carry_yd),
        shown(arc.apex_yd),
        number(arc.descent_deg, 0),
    ];
    for (column, figure) in columns.iter().zip(figures) {
        svg.words((*column, y), &figure, Words::sized(BODY).anchored("end"));
    }
}
