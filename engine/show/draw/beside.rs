//! One club of a player beside that of other golfers, in small pictures: its pattern over a green or a fairway, its
//! flight from the side, and how often greens are held.

use crate::course::Point;
use crate::course::shape::{Ellipse, Shape};
use crate::round::clubs::beside::Beside;
use crate::round::clubs::landings::Landings;
use crate::round::clubs::{GREEN_DEPTH_YD, GREEN_WIDTH_YD};
use crate::show::reading::{Reading, number};
use crate::units::Length;

use super::colour::Colour;
use super::ground::{Extent, View, pin};
use super::key::{cross, dotted};
use super::scale::{Frame, bar};
use super::svg::{Element, Svg, Words, path_through};
use super::{Picture, Style, length};

/// Width of each picture, pixels.
const WIDTH: f64 = 280.0;
const EDGE: f64 = 6.0;
/// Room left of a chart and below it for numbers.
const LEFT: f64 = 34.0;
const BELOW: f64 = 36.0;
const NUMBERS: f64 = 11.0;
/// Heights are drawn so many times as large as distances.
const STRETCH: f64 = 2.0;
/// Width of the fairway under a tee shot, yards: what is taken where a map draws none.
const FAIRWAY_YD: f64 = 36.0;

/// What lies under a pattern.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Under {
    /// A round green with its middle at the mean carry.
    Green,
    /// A straight fairway.
    Fairway,
}

/// The patterns of some clubs over a green or a fairway, all to one scale, one picture each; `names` begin the names
/// within them, one for each club.
#[must_use]
pub fn patterns_over(
    clubs: &[&Beside],
    under: Under,
    beside: &str,
    (reading, names): (Reading, &[String]),
) -> Vec<Picture> {
    let sheet = Sheet::of(clubs);
    let each = |(club, id): (&&Beside, &String)| {
        let style = Style { reading, id };
        sheet.pattern(club, under, beside, style)
    };
    clubs.iter().zip(names).map(each).collect()
}

/// The ground of every picture, the mean carry at 0.
struct Sheet {
    extent: Extent,
}

impl Sheet {
    /// Ground enough for every nine-in-ten ellipse, for the green, and for some mishits.
    fn of(clubs: &[&Beside]) -> Self {
        let half_green = (GREEN_WIDTH_YD.max(FAIRWAY_YD) / 2.0, GREEN_DEPTH_YD / 2.0);
        let (mut side, mut short, mut long) = (half_green.0, half_green.1, half_green.1);
        for landed in clubs.iter().flat_map(|club| &club.landings) {
            for held in &landed.ellipses {
                let (low, high) = Shape::Ellipse(at_zero(held.ellipse, landed)).bounds();
                side = side.max(-low.x_yd).max(high.x_yd);
                short = short.max(-low.y_yd);
                long = long.max(high.y_yd);
            }
        }
        let (x_yd, low_yd, high_yd) = (1.05 * side, 1.12 * short, 1.05 * long);
        Self {
            extent: Extent {
                low: Point {
                    x_yd: -x_yd,
                    y_yd: -low_yd,
                },
                high: Point {
                    x_yd,
                    y_yd: high_yd,
                },
            },
        }
    }

    fn pattern(&self, club: &Beside, under: Under, beside: &str, style: Style<'_>) -> Picture {
        let view = View {
            extent: self.extent,
            corner: (EDGE, EDGE),
            px_per_yd: (WIDTH - 2.0 * EDGE) / self.extent.width_yd(),
        };
        let size = (WIDTH, (EDGE + view.size().1 + 30.0).ceil());
        let [heading, description] = pattern_words(club, under, beside, style.reading);
        let mut svg = Svg::new(style.id, size, &heading, &description);
        view.open_clipped(&mut svg, "ground");
        ground(&mut svg, &view, under);
        shots(&mut svg, &view, &club.landings);
        svg.close("g");
        let at = (EDGE + 2.0, EDGE + view.size().1 + 7.0);
        bar(&mut svg, at, view.px_per_yd, style.reading, 90.0);
        svg.finish()
    }
}

fn pattern_words(club: &Beside, under: Under, beside: &str, reading: Reading) -> [String; 2] {
    let [own, theirs] = &club.landings;
    let (name, ground) = match under {
        Under::Green => ("green", "a green aimed at the middle"),
        Under::Fairway => ("fairway", "a fairway aimed down the middle"),
    };
    let heading = format!("Where the {} lands, over a {name}", club.club);
    let said = |landed: &Landings| {
        let carry = length(landed.carry_yd, reading);
        let mishits = number(100.0 * landed.mishit_share, 0);
        match under {
            Under::Green => format!(
                "carry {carry}, {} of 100 pitch on it, mishits {mishits} %",
                number(landed.on_green_pct, 0)
            ),
            Under::Fairway => format!("carry {carry}, mishits {mishits} %"),
        }
    };
    let description = format!(
        "Landings of the {} seen from above, over {ground}. Player: {}. {beside}: {}.",
        club.club,
        said(own),
        said(theirs)
    );
    [heading, description]
}

fn ground(svg: &mut Svg, view: &View, under: Under) {
    let (low, high) = (view.extent.low, view.extent.high);
    svg.put(Element::rect(view.corner, view.size()).fill(Colour::Rough));
    match under {
        Under::Green => {
            let green = Ellipse {
                centre: Point {
                    x_yd: 0.0,
                    y_yd: 0.0,
                },
                heading_rad: 0.0,
                half_length_yd: GREEN_DEPTH_YD / 2.0,
                half_width_yd: GREEN_WIDTH_YD / 2.0,
            };
            let area = Element::path(view.ellipse(&green)).fill(Colour::Green);
            svg.put(area.stroke(Colour::Texture, 0.8).with("data-mark", "green"));
        }
        Under::Fairway => {
            let edge = |x_yd, y_yd| view.at(Point { x_yd, y_yd });
            let (from, to) = (
                edge(-FAIRWAY_YD / 2.0, high.y_yd),
                edge(FAIRWAY_YD / 2.0, low.y_yd),
            );
            let strip = Element::rect(from, (to.0 - from.0, to.1 - from.1)).fill(Colour::Fairway);
            svg.put(
                strip
                    .stroke(Colour::Texture, 0.8)
                    .with("data-mark", "fairway"),
            );
        }
    }
    let on_line = |y_yd| Point { x_yd: 0.0, y_yd };
    let (near, far) = (view.at(on_line(low.y_yd)), view.at(on_line(high.y_yd)));
    let target = Element::line(near, far).stroke(Colour::Ink, 1.0);
    svg.put(target.dashed("1 4"));
    if under == Under::Green {
        pin(svg, view, on_line(0.0), 20.0);
    }
}

fn shots(svg: &mut Svg, view: &View, [own, theirs]: &[Landings; 2]) {
    for landed in &own.sample {
        let at = view.at(Point {
            x_yd: landed.at.x_yd,
            y_yd: landed.at.y_yd - own.carry_yd,
        });
        if landed.mishit {
            cross(svg, at, 3.0, "mishit");
        } else {
            let dot = Element::circle(at, 2.1).fill(Colour::First);
            svg.put(dot.with("fill-opacity", 0.75));
        }
    }
    for held in theirs.ellipses.iter().filter(|held| held.share > 0.6) {
        let d = view.ellipse(&at_zero(held.ellipse, theirs));
        rim(svg, &d);
        svg.put(dotted(Element::path(d)).with("data-share-beside", held.share));
    }
    for held in &own.ellipses {
        let d = view.ellipse(&at_zero(held.ellipse, own));
        rim(svg, &d);
        let line = Element::path(d).stroke(Colour::First, 1.7);
        let line = if held.share > 0.6 {
            line.dashed("6 3")
        } else {
            line
        };
        svg.put(line.with("data-share", held.share));
    }
}

/// A light rim that sets a line off from the ground.
fn rim(svg: &mut Svg, d: &str) {
    let rim = Element::path(d.to_owned()).stroke(Colour::Paper, 3.4);
    svg.put(rim.with("stroke-opacity", 0.7));
}

/// An ellipse of landings with the mean carry at 0.
fn at_zero(ellipse: Ellipse, landed: &Landings) -> Ellipse {
    let centre = Point {
        x_yd: ellipse.centre.x_yd,
        y_yd: ellipse.centre.y_yd - landed.carry_yd,
    };
    Ellipse { centre, ..ellipse }
}

/// The flights of some clubs from the side, all to one scale, one picture each.
#[must_use]
pub fn flights_beside(
    clubs: &[&Beside],
    beside: &str,
    (reading, names): (Reading, &[String]),
) -> Vec<Picture> {
    let shown = |yd: f64| reading.length(Length::from_yd(yd));
    let arcs = || clubs.iter().flat_map(|club| &club.arcs);
    let farthest = arcs().fold(10.0_f64, |most, arc| most.max(arc.carry_yd));
    let highest = arcs().fold(5.0_f64, |most, arc| most.max(arc.apex_yd));
    let width = WIDTH - LEFT - EDGE;
    let (farthest, highest) = (1.04 * shown(farthest), 1.1 * shown(highest));
    let frame = Frame {
        corner: (LEFT, EDGE),
        size: (width, width / farthest * highest * STRETCH),
        x: (0.0, farthest),
        y: (0.0, highest),
    };
    let each =
        |(club, id): (&&Beside, &String)| flight(&frame, club, beside, Style { reading, id });
    clubs.iter().zip(names).map(each).collect()
}

fn flight(frame: &Frame, club: &Beside, beside: &str, style: Style<'_>) -> Picture {
    let reading = style.reading;
    let shown = |yd: f64| reading.length(Length::from_yd(yd));
    let said = |whose: usize| {
        let arc = &club.arcs[whose];
        format!(
            "carry {}, apex {}, descent {}°",
            length(arc.carry_yd, reading),
            length(arc.apex_yd, reading),
            number(arc.descent_deg, 0)
        )
    };
    let heading = format!("The flight of the {} from the side", club.club);
    let description = format!(
        "{heading}. Player: {}. {beside}: {}. Heights are drawn twice as large as distances.",
        said(0),
        said(1)
    );
    let size = (WIDTH, (EDGE + frame.size.1 + BELOW).ceil());
    let mut svg = Svg::new(style.id, size, &heading, &description);
    frame.grid(&mut svg, (5, 3), NUMBERS, 0.0);
    for (whose, arc) in club.arcs.iter().enumerate().rev() {
        let places = arc.places_yd.iter();
        let places: Vec<(f64, f64)> = places
            .map(|(x, z)| frame.at(shown(*x), shown(z.max(0.0))))
            .collect();
        curve(&mut svg, &places, whose);
    }
    axis(
        &mut svg,
        frame,
        &format!("carry and height, {}", reading.length_unit()),
    );
    svg.finish()
}

/// A line of the player's, or of those beside him.
fn curve(svg: &mut Svg, places: &[(f64, f64)], whose: usize) {
    let path = Element::path(path_through(places, false));
    let path = match whose {
        0 => path.stroke(Colour::First, 2.2),
        _ => dotted(path),
    };
    svg.put(
        path.with("stroke-linejoin", "round")
            .with("data-whose", whose),
    );
}

fn axis(svg: &mut Svg, frame: &Frame, name: &str) {
    let middle = frame.corner.0 + frame.size.0 / 2.0;
    let y = frame.corner.1 + frame.size.1 + BELOW - 6.0;
    let words = Words::sized(NUMBERS).faint().anchored("middle");
    svg.words((middle, y), name, words);
}

/// Greens held by one club against their firmness.
#[must_use]
pub fn holds_beside(club: &Beside, beside: &str, style: Style<'_>) -> Picture {
    let said = |whose: usize| {
        let held = club.held_pct(whose);
        let held = held.map(|held| [held.soft, held.medium, held.firm].map(|of| number(of, 0)));
        held.map_or_else(String::new, |[soft, medium, firm]| {
            format!("soft {soft}, medium {medium}, firm {firm}")
        })
    };
    let heading = format!("Greens held with the {}, by firmness", club.club);
    let description = format!(
        "{heading}, of 100 shots that pitch on the front half. Player: {}. {beside}: {}.",
        said(0),
        said(1)
    );
    let frame = Frame {
        corner: (LEFT, EDGE + 4.0),
        size: (WIDTH - LEFT - EDGE - 14.0, 104.0),
        x: (0.0, 1.0),
        y: (0.0, 100.0),
    };
    let size = (WIDTH, EDGE + 4.0 + frame.size.1 + BELOW);
    let mut svg = Svg::new(style.id, size, &heading, &description);
    let words = Words::sized(NUMBERS).faint();
    for held in [0.0, 50.0, 100.0] {
        let (left, y) = frame.at(0.0, held);
        svg.put(Element::line((left, y), (left + frame.size.0, y)).stroke(Colour::Rule, 1.0));
        svg.words(
            (left - 6.0, y + 4.0),
            &number(held, 0),
            words.anchored("end"),
        );
    }
    for (firmness, name) in [(0.0, "soft"), (0.5, "medium"), (1.0, "firm")] {
        let (x, bottom) = frame.at(firmness, 0.0);
        svg.put(Element::line((x, frame.corner.1), (x, bottom)).stroke(Colour::Rule, 1.0));
        svg.words((x, bottom + 15.0), name, words.anchored("middle"));
    }
    for (whose, held) in club.holds.iter().enumerate().rev() {
        let points = held.points.iter();
        let places: Vec<(f64, f64)> = points.map(|(x, y)| frame.at(*x, *y)).collect();
        curve(&mut svg, &places, whose);
    }
    axis(&mut svg, &frame, "stay on the green, of 100");
    svg.finish()
}
