//! A player's patterns club by club: where shots land beside the target line, all clubs to one scale.

use crate::course::Point;
use crate::player::Golfer;
use crate::round::clubs::landings::Landings;
use crate::show::reading::{Reading, number};
use crate::units::Length;

use super::colour::Colour;
use super::ground::{Extent, View};
use super::scale::{Frame, bar};
use super::svg::{Element, Svg, Words};
use super::{BODY, MARGIN, Picture, SMALL, Style, TITLE_HEIGHT, title, unmeasured};

/// The largest panel, pixels.
const MOST: (f64, f64) = (190.0, 230.0);
const MOST_PX_PER_YD: f64 = 3.0;
/// Room above a panel for its name, left of it for numbers, below it for numbers.
const ABOVE: f64 = 42.0;
const LEFT: f64 = 40.0;
const BELOW: f64 = 34.0;
const MOST_COLUMNS: usize = 5;
const KEY: f64 = 100.0;
const LEAST_SHEET: f64 = 700.0;

/// The patterns of a player's clubs; with `beside`, the ellipses of other golfers with the same clubs, one by one.
#[must_use]
pub fn patterns(
    player: &Golfer,
    clubs: &[Landings],
    beside: Option<(&str, &[Landings])>,
    style: Style<'_>,
) -> Picture {
    let sheet = Sheet::of(clubs, beside.map_or(&[], |(_, landings)| landings));
    let heading = format!("Where shots like those of {} land", player.name);
    let unit = style.reading.length_unit();
    let below = format!(
        "Seen from above: side of the target line against carry, {unit}; all to one scale, still air"
    );
    let mut description = format!("{heading}, club by club.");
    for club in clubs {
        let carry = style.reading.length(Length::from_yd(club.carry_yd));
        let assumed = unmeasured(player, club.club);
        description += &format!(
            " {}: carry {} {unit}{assumed}.",
            club.club,
            number(carry, 0)
        );
    }
    let mut svg = Svg::new(style.id, sheet.size(clubs.len()), &heading, &description);
    title(&mut svg, sheet.size(clubs.len()).0, &heading, &below);
    for (index, club) in clubs.iter().enumerate() {
        let other = beside.and_then(|(_, all)| all.get(index));
        let assumed = player.is_assumed(club.club);
        one(&mut svg, &sheet, index, (club, assumed), other, style);
    }
    key(
        &mut svg,
        &sheet,
        (
            clubs.len(),
            clubs.iter().any(|club| player.is_assumed(club.club)),
        ),
        beside.map(|(name, _)| name),
        style.reading,
    );
    svg.finish()
}

/// How the panels stand.
struct Sheet {
    columns: usize,
    /// Half the ground of a panel across, and the ground short of and beyond the mean carry, yards.
    half_width_yd: f64,
    short_yd: f64,
    long_yd: f64,
    px_per_yd: f64,
}

impl Sheet {
    /// Panels large enough for every nine-in-ten ellipse and most landings.
    fn of(clubs: &[Landings], others: &[Landings]) -> Self {
        let (mut side, mut short, mut long) = (20.0_f64, 20.0_f64, 15.0_f64);
        for (index, club) in clubs.iter().enumerate() {
            for held in club
                .ellipses
                .iter()
                .chain(others.get(index).iter().flat_map(|other| &other.ellipses))
            {
                let (low, high) = crate::course::shape::Shape::Ellipse(held.ellipse).bounds();
                side = side.max(-low.x_yd).max(high.x_yd);
                short = short.max(club.carry_yd - low.y_yd);
                long = long.max(high.y_yd - club.carry_yd);
            }
        }
        let round = |yd: f64| (yd * 1.08 / 5.0).ceil() * 5.0;
        // Mishits land short: room for some of them.
        let (half_width_yd, short_yd, long_yd) = (round(side), round(short * 1.35), round(long));
        let fits = (MOST.0 / (2.0 * half_width_yd)).min(MOST.1 / (short_yd + long_yd));
        Self {
            columns: clubs.len().clamp(1, MOST_COLUMNS),
            half_width_yd,
            short_yd,
            long_yd,
            px_per_yd: fits.min(MOST_PX_PER_YD),
        }
    }

    fn panel(&self) -> (f64, f64) {
        (
            2.0 * self.half_width_yd * self.px_per_yd,
            (self.short_yd + self.long_yd) * self.px_per_yd,
        )
    }

    fn cell(&self) -> (f64, f64) {
        let (width, height) = self.panel();
        (width + LEFT + 10.0, height + ABOVE + BELOW)
    }

    fn size(&self, count: usize) -> (f64, f64) {
        let (width, height) = self.cell();
        let rows = count.div_ceil(self.columns);
        let width = 2.0 * MARGIN + self.columns as f64 * width;
        (
            width.max(LEAST_SHEET).ceil(),
            (TITLE_HEIGHT + rows as f64 * height + KEY).ceil(),
        )
    }
}

fn one(
    svg: &mut Svg,
    sheet: &Sheet,
    index: usize,
    (club, assumed): (&Landings, bool),
    other: Option<&Landings>,
    style: Style<'_>,
) {
    let cell = sheet.cell();
    let (x, y) = (
        MARGIN + (index % sheet.columns) as f64 * cell.0,
        TITLE_HEIGHT + (index / sheet.columns) as f64 * cell.1,
    );
    let (low, high) = (
        club.carry_yd - sheet.short_yd,
        club.carry_yd + sheet.long_yd,
    );
    let view = View {
        extent: Extent {
            low: Point {
                x_yd: -sheet.half_width_yd,
                y_yd: low,
            },
            high: Point {
                x_yd: sheet.half_width_yd,
                y_yd: high,
            },
        },
        corner: (x + LEFT, y + ABOVE),
        px_per_yd: sheet.px_per_yd,
    };
    let shown = |yd: f64| style.reading.length(Length::from_yd(yd));
    let name = club.club.to_string();
    svg.words((x + LEFT, y + 18.0), &name, Words::sized(BODY + 1.0).bold());
    let carry = super::length(club.carry_yd, style.reading);
    let mishits = number(100.0 * club.mishit_share, 0);
    let about = match assumed {
        true => format!("not measured, carry {carry}"),
        false => format!("carry {carry}, mishits {mishits} %"),
    };
    svg.words((x + LEFT, y + 34.0), &about, Words::sized(SMALL).faint());
    let frame = Frame {
        corner: view.corner,
        size: view.size(),
        x: (shown(-sheet.half_width_yd), shown(sheet.half_width_yd)),
        y: (shown(low), shown(high)),
    };
    frame.grid(svg, (6, 7), 10.5, 0.0);
    svg.put(
        Element::rect(view.corner, view.size())
            .with("fill", "none")
            .stroke(Colour::Rule, 1.0),
    );
    view.open_clipped(svg, &format!("club-{index}"));
    let target = |y_yd| view.at(Point { x_yd: 0.0, y_yd });
    svg.put(
        Element::line(target(low), target(high))
            .stroke(Colour::Ink, 1.0)
            .dashed("1 4"),
    );
    shots(svg, &view, (club, assumed), other);
    svg.close("g");
}

fn shots(svg: &mut Svg, view: &View, (club, assumed): (&Landings, bool), other: Option<&Landings>) {
    for landed in &club.sample {
        let at = view.at(landed.at);
        match (landed.mishit, assumed) {
            (true, _) => cross(svg, at),
            (false, true) => hollow(svg, at),
            (false, false) => svg.put(
                Element::circle(at, 1.9)
                    .fill(Colour::First)
                    .with("fill-opacity", 0.7),
            ),
        }
    }
    let own = if assumed {
        Colour::Faint
    } else {
        Colour::First
    };
    for held in &club.ellipses {
        let line = Element::path(view.ellipse(&held.ellipse)).stroke(own, 1.7);
        let line = if held.share > 0.6 {
            line.dashed("6 3")
        } else {
            line
        };
        svg.put(line.with("data-share", held.share));
    }
    for held in other
        .iter()
        .flat_map(|other| &other.ellipses)
        .filter(|held| held.share > 0.6)
    {
        let line = Element::path(view.ellipse(&held.ellipse)).stroke(Colour::Second, 1.6);
        svg.put(line.dashed("2 2.5").with("data-share-beside", held.share));
    }
}

/// A shot with a club that nobody measured.
fn hollow(svg: &mut Svg, at: (f64, f64)) {
    let ring = Element::circle(at, 1.9).with("fill", "none");
    svg.put(ring.stroke(Colour::Faint, 0.9).with("data-mark", "assumed"));
}

fn cross(svg: &mut Svg, (x, y): (f64, f64)) {
    let d = format!(
        "M{} {}l5 5m0 -5l-5 5",
        super::svg::px(x - 2.5),
        super::svg::px(y - 2.5)
    );
    svg.put(
        Element::path(d)
            .stroke(Colour::Costly, 1.4)
            .with("data-mark", "mishit"),
    );
}

fn key(
    svg: &mut Svg,
    sheet: &Sheet,
    (count, any_assumed): (usize, bool),
    beside: Option<&str>,
    reading: Reading,
) {
    let rows = count.div_ceil(sheet.columns) as f64;
    let y = TITLE_HEIGHT + rows * sheet.cell().1 + 12.0;
    bar(svg, (MARGIN + LEFT, y), sheet.px_per_yd, reading, 100.0);
    let x = MARGIN + LEFT + 160.0;
    let words = Words::sized(SMALL + 0.5);
    let ring = |svg: &mut Svg, at: (f64, f64), colour: Colour, dashes: Option<&str>| {
        let ring = Element::new("ellipse")
            .px("cx", at.0)
            .px("cy", at.1)
            .px("rx", 12.0)
            .px("ry", 6.0);
        let ring = ring.with("fill", "none").stroke(colour, 1.7);
        svg.put(match dashes {
            Some(dashes) => ring.dashed(dashes),
            None => ring,
        });
    };
    ring(svg, (x, y + 2.0), Colour::First, None);
    svg.words(
        (x + 20.0, y + 6.0),
        "half of the shots land inside, mishits aside",
        words,
    );
    ring(svg, (x, y + 24.0), Colour::First, Some("6 3"));
    svg.words((x + 20.0, y + 28.0), "nine in ten", words);
    svg.put(Element::circle((x + 92.0, y + 24.0), 2.2).fill(Colour::First));
    svg.words((x + 98.0, y + 28.0), "shots like these", words);
    cross(svg, (x + 202.0, y + 24.0));
    svg.words(
        (x + 210.0, y + 28.0),
        "a mishit (the farthest are not shown)",
        words,
    );
    if any_assumed {
        hollow(svg, (x, y + 68.0));
        svg.words(
            (x + 20.0, y + 72.0),
            "hollow: not measured, assumed from the handicap",
            words,
        );
    }
    if let Some(beside) = beside {
        ring(svg, (x, y + 46.0), Colour::Second, Some("2 2.5"));
        svg.words(
            (x + 20.0, y + 50.0),
            &format!("nine in ten of {beside}, mishits aside"),
            words,
        );
    }
}
