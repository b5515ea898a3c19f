//! A player's shots on a hole: aims, patterns and landings, and the list of them.

use crate::cost::on_hole::CostedLeg;
use crate::course::Lie;
use crate::show::reading::{Reading, number};

use super::colour::{Colour, SERIES};
use super::ground::View;
use super::key::cross;
use super::labels::Labels;
use super::panel::Panel;
use super::svg::{Element, Svg, Words, path_through, px};
use super::{BODY, Played, length};

/// Landings shown of a shot, mishits among them in their share.
const SHOWN: f64 = 72.0;
/// A landing is marked as costly from so many strokes on.
const COSTLY: f64 = 0.5;

/// What a shot is called.
fn name(leg: &CostedLeg) -> String {
    match leg.leg.club {
        Some(club) => club.to_string(),
        None if leg.leg.from.lie == Lie::Sand => "bunker shot".to_owned(),
        None => "chip or pitch".to_owned(),
    }
}

fn colour(index: usize) -> Colour {
    SERIES[index % SERIES.len()]
}

/// Writes landings, patterns and aims, the first shot on top.
pub(super) fn shots(svg: &mut Svg, view: &View, legs: &[CostedLeg]) {
    view.open_clipped(svg, "shots");
    for (index, leg) in legs.iter().enumerate().rev() {
        landings(svg, view, leg, index);
        ellipses(svg, view, leg, index);
    }
    for (index, leg) in legs.iter().enumerate().rev() {
        aim(svg, view, leg, index);
    }
    svg.close("g");
}

fn landings(svg: &mut Svg, view: &View, leg: &CostedLeg, index: usize) {
    let mishits = (SHOWN * leg.leg.mishit_share).round() as usize;
    let shown = |mishit: bool, count: usize| {
        let all = leg.leg.shots.iter().zip(&leg.costs);
        all.filter(move |(shot, _)| shot.mishit == mishit)
            .take(count)
    };
    let all = shown(false, SHOWN as usize - mishits).chain(shown(true, mishits));
    for (shot, cost) in all {
        let at = view.at(shot.at.into());
        if *cost >= COSTLY {
            cross(svg, at, 3.4, "costly");
        } else {
            svg.put(mark(at, 2.1, index).with("fill-opacity", 0.75));
        }
    }
}

fn ellipses(svg: &mut Svg, view: &View, leg: &CostedLeg, index: usize) {
    for held in &leg.leg.ellipses {
        let d = view.ellipse(&held.ellipse);
        let rim = Element::path(d.clone()).stroke(Colour::Paper, 3.2);
        svg.put(rim.with("stroke-opacity", 0.7));
        let line = Element::path(d).stroke(colour(index), 1.5);
        let line = if held.share > 0.6 {
            line.dashed("6 3")
        } else {
            line
        };
        svg.put(line.with("data-share", held.share));
    }
}

fn aim(svg: &mut Svg, view: &View, leg: &CostedLeg, index: usize) {
    let (from, to) = (
        view.at(leg.leg.from.at.into()),
        view.at(leg.leg.target.into()),
    );
    svg.put(
        Element::line(from, to)
            .stroke(Colour::Paper, 3.6)
            .with("stroke-opacity", 0.75),
    );
    svg.put(Element::line(from, to).stroke(colour(index), 1.6));
    if index > 0 {
        svg.put(
            Element::circle(from, 3.2)
                .fill(Colour::Paper)
                .stroke(Colour::Ink, 1.2),
        );
    }
    target(svg, to, index);
}

/// A ring with a cross in it.
pub(super) fn target(svg: &mut Svg, (x, y): (f64, f64), index: usize) {
    svg.put(
        Element::circle((x, y), 5.5)
            .fill(Colour::Paper)
            .stroke(colour(index), 1.8),
    );
    let cross = format!("M{} {}h11M{} {}v11", px(x - 5.5), px(y), px(x), px(y - 5.5));
    svg.put(Element::path(cross).stroke(colour(index), 1.4));
}

/// The mark of a landing, another shape for each shot of the way.
fn mark((x, y): (f64, f64), r: f64, index: usize) -> Element {
    let around = |corners: &[(f64, f64)]| {
        let places: Vec<(f64, f64)> = corners
            .iter()
            .map(|(right, up)| (x + right * r, y - up * r))
            .collect();
        Element::path(path_through(&places, true))
    };
    let mark = match index % SERIES.len() {
        0 => Element::circle((x, y), r),
        1 => around(&[(0.0, 1.4), (1.3, -0.9), (-1.3, -0.9)]),
        2 => around(&[(1.0, 1.0), (1.0, -1.0), (-1.0, -1.0), (-1.0, 1.0)]),
        _ => around(&[(0.0, 1.5), (1.2, 0.0), (0.0, -1.5), (-1.2, 0.0)]),
    };
    mark.fill(colour(index))
}

/// Writes the name of each shot beside its aim, between a left and a right edge.
pub(super) fn names(
    svg: &mut Svg,
    view: &View,
    legs: &[CostedLeg],
    labels: &mut Labels,
    edges: (f64, f64),
) {
    for leg in legs {
        labels.keep_off(view.at(leg.leg.target.into()), 6.0);
    }
    for (index, leg) in legs.iter().enumerate() {
        let (x, y) = view.at(leg.leg.target.into());
        let text = format!("{}: {}", index + 1, name(leg));
        let words = Words::sized(BODY).bold().coloured(colour(index)).rimmed();
        let beside = |away: f64, down: f64| {
            [
                ((x + away, y + down), "start"),
                ((x - away, y + down), "end"),
            ]
        };
        let places: Vec<_> = [
            (11.0, 4.5),
            (11.0, -12.0),
            (11.0, 20.0),
            (24.0, -26.0),
            (24.0, 34.0),
        ]
        .into_iter()
        .flat_map(|(away, down)| beside(away, down))
        .filter(|((x, _), anchor)| inside(edges, *x, &text, anchor))
        .collect();
        labels.write(svg, &text, words, &places);
    }
}

/// Whether words stay between two edges.
fn inside((left, right): (f64, f64), x: f64, text: &str, anchor: &str) -> bool {
    let width = super::labels::width(text, BODY);
    if anchor == "end" {
        x - width >= left
    } else {
        x + width <= right
    }
}

/// Writes the list of shots: what is aimed at, what it costs.
pub(super) fn list(svg: &mut Svg, panel: &mut Panel, played: &Played<'_>, reading: Reading) {
    panel.heading(svg, &format!("The way {} plays it", played.name));
    for (index, leg) in played.on.legs.iter().enumerate() {
        let [name, to, mut below] = told(leg, reading);
        let name = format!("{}: {name}", index + 1);
        if played.beside.is_some() {
            below += &format!(", {}", loses(leg.lost));
        }
        panel.row(svg, [&name, &to, &below], |svg, at| {
            svg.put(mark(at, 4.5, index))
        });
    }
    legend(svg, panel, played);
}

/// What a shot is, how far it is meant to go, and the strokes from where it is played.
fn told(leg: &CostedLeg, reading: Reading) -> [String; 3] {
    let carry = leg.leg.target.seen_from(leg.leg.from.at).length();
    let to = length(f64::from(carry), reading);
    let to = if leg.leg.club.is_some() {
        format!("carry {to}")
    } else {
        to
    };
    let expected = format!("{} strokes from here", number(leg.expected, 2));
    [name(leg), to, expected]
}

/// What a shot is, how far it is meant to go, and what it loses to the golfers beside the player.
pub(super) fn in_words(leg: &CostedLeg, reading: Reading) -> [String; 3] {
    let [name, to, _] = told(leg, reading);
    [name, to, loses(leg.lost)]
}

fn loses(strokes: f64) -> String {
    let shown = number(strokes.abs(), 2);
    match shown.as_str() {
        "0.00" => "loses nothing".to_owned(),
        _ if strokes > 0.0 => format!("loses {shown}"),
        _ => format!("gains {shown}"),
    }
}

fn legend(svg: &mut Svg, panel: &mut Panel, played: &Played<'_>) {
    panel.entry(
        svg,
        "Aim: where the middle of the pattern is to land",
        |svg, at| target(svg, at, 0),
    );
    let text = "Half of the shots land inside the solid line, nine in ten inside the dashed one, mishits aside";
    panel.entry(svg, text, |svg, (x, y)| {
        let ring = |rx: f64, ry: f64| {
            let ring = Element::new("ellipse")
                .px("cx", x)
                .px("cy", y + 4.0)
                .px("rx", rx)
                .px("ry", ry);
            ring.with("fill", "none").stroke(Colour::First, 1.5)
        };
        svg.put(ring(5.5, 3.5));
        svg.put(ring(12.0, 8.0).dashed("6 3"));
    });
    panel.entry(
        svg,
        "Single shots, mishits among them, where they land",
        |svg, at| {
            svg.put(mark(at, 2.6, 0));
        },
    );
    let text = match played.beside {
        Some(beside) => format!("One that loses half a stroke or more to {beside}"),
        None => "One that costs half a stroke or more".to_owned(),
    };
    panel.entry(svg, &text, |svg, at| cross(svg, at, 4.0, "costly"));
    let ball = "Where a usual shot comes to rest, and the next is played";
    if played.on.legs.len() > 1 {
        panel.entry(svg, ball, |svg, at| {
            svg.put(
                Element::circle(at, 3.6)
                    .fill(Colour::Paper)
                    .stroke(Colour::Ink, 1.3),
            );
        });
    }
}
