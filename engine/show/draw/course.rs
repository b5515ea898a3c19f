//! A course as a sheet of its holes, all to one scale.

use crate::course::{Course, Hole};
use crate::show::reading::{holes, number};

use super::colour::Colour;
use super::ground::{self, Extent, LIES, View};
use super::svg::{Element, Svg, Words};
use super::{BODY, MARGIN, Picture, Played, SMALL, Style, TITLE_HEIGHT, length, scale, title};

/// The largest ground of a hole, pixels.
const MOST: (f64, f64) = (190.0, 300.0);
/// Room for the words above a hole, without and with a player's, and between holes.
const ABOVE: f64 = 22.0;
const ABOVE_PLAYED: f64 = 36.0;
const GAP: f64 = 22.0;
/// Room below the holes for the key.
const KEY: f64 = 84.0;
/// A hole's words need this width.
const LEAST_WIDTH: f64 = 118.0;

/// A course; with `played`, hole by hole, as a player plays it.
#[must_use]
pub fn course(course: &Course, played: &[Played<'_>], style: Style<'_>) -> Picture {
    let sheet = Sheet::of(course, !played.is_empty());
    let about = format!(
        "{}, par {}, {}",
        holes(course.holes.len()),
        course.par(),
        length(course.length_yd(), style.reading)
    );
    let below = match played.first() {
        Some(first) => {
            let strokes: f64 = played.iter().map(|played| played.on.expected).sum();
            format!(
                "{about}; {}: {} strokes expected",
                first.name,
                number(strokes, 1)
            )
        }
        None => about,
    };
    let description = format!(
        "{}. {below}. Every hole seen from above, played upwards, all to one scale.",
        course.name
    );
    let mut svg = Svg::new(style.id, sheet.size(), &course.name, &description);
    title(&mut svg, sheet.size().0, &course.name, &below);
    ground::textures(&mut svg, 0.5);
    for (index, hole) in course.holes.iter().enumerate() {
        one(&mut svg, &sheet, index, hole, played.get(index), style);
    }
    key(&mut svg, &sheet, course, !played.is_empty(), style);
    svg.finish()
}

/// How the holes stand on the sheet.
struct Sheet {
    columns: usize,
    /// The longest ground of each row, pixels.
    rows_px: Vec<f64>,
    /// Room for the words above a hole.
    above: f64,
    /// Room for its ground across.
    width: f64,
    px_per_yd: f64,
}

impl Sheet {
    fn of(course: &Course, is_played: bool) -> Self {
        let extents: Vec<Extent> = course.holes.iter().map(Extent::of).collect();
        let wide = extents.iter().map(Extent::width_yd).fold(1.0, f64::max);
        let lengths: Vec<f64> = extents.iter().map(Extent::length_yd).collect();
        let long = lengths.iter().copied().fold(1.0, f64::max);
        let px_per_yd = (MOST.0 / wide).min(MOST.1 / long);
        let holes = course.holes.len();
        let columns = match holes {
            0..=4 => holes.max(1),
            5..=10 => holes.div_ceil(2),
            _ => 6,
        };
        Self {
            columns,
            rows_px: lengths
                .chunks(columns)
                .map(|row| px_per_yd * row.iter().copied().fold(0.0, f64::max))
                .collect(),
            above: if is_played { ABOVE_PLAYED } else { ABOVE },
            width: (wide * px_per_yd).max(LEAST_WIDTH),
            px_per_yd,
        }
    }

    fn size(&self) -> (f64, f64) {
        let width = 2.0 * MARGIN + self.columns as f64 * (self.width + GAP) - GAP;
        let height = self.top(self.rows_px.len()) + KEY;
        (width.max(LEAST_SHEET).ceil(), height.ceil())
    }

    fn corner(&self, index: usize) -> (f64, f64) {
        (
            MARGIN + (index % self.columns) as f64 * (self.width + GAP),
            self.top(index / self.columns),
        )
    }

    /// Where a row begins.
    fn top(&self, row: usize) -> f64 {
        let above = self.rows_px.iter().take(row);
        TITLE_HEIGHT + above.map(|ground| self.above + ground + GAP).sum::<f64>()
    }
}

/// The key: where its lies begin, how many stand in a row, and the room each takes.
const LIES_FROM: f64 = 180.0;
const LIES_IN_A_ROW: usize = 4;
const LIE_WIDTH: f64 = 138.0;
/// The key needs this width.
const LEAST_SHEET: f64 = 2.0 * MARGIN + LIES_FROM + LIES_IN_A_ROW as f64 * LIE_WIDTH;

fn one(
    svg: &mut Svg,
    sheet: &Sheet,
    index: usize,
    hole: &Hole,
    played: Option<&Played<'_>>,
    style: Style<'_>,
) {
    let (x, y) = sheet.corner(index);
    svg.words(
        (x, y + 13.0),
        &hole.number.to_string(),
        Words::sized(17.0).bold(),
    );
    let about = format!(
        "par {}, {}",
        hole.par,
        length(hole.length_yd, style.reading)
    );
    svg.words((x + 31.0, y + 13.0), &about, Words::sized(SMALL));
    if let Some(played) = played {
        let strokes = format!("{} strokes", number(played.on.expected, 2));
        svg.words(
            (x + 31.0, y + 28.0),
            &strokes,
            Words::sized(SMALL).coloured(Colour::First),
        );
    }
    let view = View {
        extent: Extent::of(hole),
        corner: (x, y + sheet.above),
        px_per_yd: sheet.px_per_yd,
    };
    view.open_clipped(svg, &format!("hole-{index}"));
    ground::areas(svg, hole, &view, &LIES);
    ground::line(svg, hole, &view, 1.1);
    if let Some(played) = played {
        way(svg, &view, played);
    }
    svg.close("g");
    ground::tee(svg, &view, hole.tee, 4.5);
    ground::pin(svg, &view, hole.pin, 13.0);
}

/// The aims of a player, one after the other.
fn way(svg: &mut Svg, view: &View, played: &Played<'_>) {
    for leg in played
        .on
        .legs
        .iter()
        .map(|leg| &leg.leg)
        .filter(|leg| leg.club.is_some())
    {
        let (from, to) = (view.at(leg.from.at.into()), view.at(leg.target.into()));
        svg.put(
            Element::line(from, to)
                .stroke(Colour::Paper, 3.2)
                .with("stroke-opacity", 0.7),
        );
        svg.put(Element::line(from, to).stroke(Colour::First, 1.5));
        svg.put(
            Element::circle(to, 3.0)
                .fill(Colour::Paper)
                .stroke(Colour::First, 1.5),
        );
    }
}

fn key(svg: &mut Svg, sheet: &Sheet, course: &Course, is_played: bool, style: Style<'_>) {
    let y = sheet.top(sheet.rows_px.len()) + 2.0;
    let seen: Vec<_> = LIES
        .into_iter()
        .filter(|lie| {
            course
                .holes
                .iter()
                .any(|hole| ground::lies_seen(hole, &Extent::of(hole)).contains(lie))
        })
        .collect();
    scale::bar(
        svg,
        (MARGIN, y + 8.0),
        sheet.px_per_yd,
        style.reading,
        130.0,
    );
    let from = (MARGIN + LIES_FROM, y);
    ground::legend(svg, from, &seen, LIES_IN_A_ROW, LIE_WIDTH);
    if is_played {
        let at = (MARGIN + 193.0, y + 55.0);
        svg.put(Element::line((at.0 - 13.0, at.1), at).stroke(Colour::First, 1.5));
        svg.put(
            Element::circle(at, 3.0)
                .fill(Colour::Paper)
                .stroke(Colour::First, 1.5),
        );
        let text = "Where full shots are aimed, each from where the one before usually ends";
        svg.words((at.0 + 20.0, at.1 + 4.0), text, Words::sized(BODY - 0.5));
    }
}
