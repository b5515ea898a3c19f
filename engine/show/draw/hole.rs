//! A hole: its ground, tee, pin and line of play; for a player, his shots and where strokes are lost.

use crate::course::{Hole, Point};
use crate::show::reading::{Reading, number};
use crate::units::Length;

use super::colour::Colour;
use super::ground::{self, Extent, View};
use super::labels::Labels;
use super::panel::{Panel, signed};
use super::svg::{Element, Svg, Words};
use super::{MARGIN, Picture, Played, SMALL, Style, TITLE_HEIGHT, legs, length, scale, title};

/// The largest the ground is drawn, pixels.
const MOST: (f64, f64) = (560.0, 780.0);
/// The largest scale, pixels a yard.
const MOST_PX_PER_YD: f64 = 3.6;
/// Width of the column of words.
const PANEL: f64 = 300.0;
/// Room below the ground for the scale bar.
const BAR: f64 = 44.0;

/// A hole of a course; with `played`, as a player plays it.
#[must_use]
pub fn hole(course: &str, hole: &Hole, played: Option<&Played<'_>>, style: Style<'_>) -> Picture {
    let view = view(hole);
    let about = about(course, hole, played, style.reading);
    draft(&view, &about, style, |svg, panel| {
        ground::textures(svg, 1.0);
        view.open_clipped(svg, "ground");
        ground::areas(svg, hole, &view, &ground::LIES);
        ground::line(svg, hole, &view, 1.6);
        svg.close("g");
        if let Some(played) = played {
            legs::shots(svg, &view, &played.on.legs);
        }
        marks(svg, hole, &view, style.reading, played, view.edges());
        if let Some(played) = played {
            legs::list(svg, panel, played, style.reading);
            lost(svg, panel, played);
        }
        key(svg, panel, hole, &view, style.reading);
    })
}

/// Where the ground of a hole stands, and how large it is.
pub(super) fn view(hole: &Hole) -> View {
    let extent = Extent::of(hole);
    let fits = (MOST.0 / extent.width_yd()).min(MOST.1 / extent.length_yd());
    View {
        extent,
        corner: (MARGIN, TITLE_HEIGHT),
        px_per_yd: fits.min(MOST_PX_PER_YD),
    }
}

/// What stands above a picture of a hole, and what is read out of it.
pub(super) struct About {
    pub title: String,
    pub below: String,
    pub description: String,
}

pub(super) fn about(
    course: &str,
    hole: &Hole,
    played: Option<&Played<'_>>,
    reading: Reading,
) -> About {
    let title = format!("{course}, hole {}", hole.number);
    let mut below = format!("Par {}, {}", hole.par, length(hole.length_yd, reading));
    if let Some(played) = played {
        below += &format!(
            "; {}: {} strokes expected",
            played.name,
            number(played.on.expected, 2)
        );
        if let (Some(beside), Some(strokes)) = (played.beside, played.on.goal_expected) {
            below += &format!("; {beside}: {}", number(strokes, 2));
        }
    }
    let lies = ground::lies_seen(hole, &Extent::of(hole));
    let lies: Vec<&str> = lies.into_iter().map(|(_, name)| name).collect();
    let mut description = format!(
        "{title}. {below}. Seen from above, played upwards. Ground: {}.",
        lies.join(", ")
    );
    for (index, leg) in played
        .iter()
        .flat_map(|played| played.on.legs.iter().enumerate())
    {
        let club = leg
            .leg
            .club
            .map_or_else(|| leg.leg.part.name().to_owned(), |club| club.to_string());
        let carry = f64::from(leg.leg.target.seen_from(leg.leg.from.at).length());
        description += &format!(" Shot {}: {club}, {}.", index + 1, length(carry, reading));
    }
    About {
        title,
        below,
        description,
    }
}

/// A picture of a hole: `write` writes the ground and the column of words. The height is what both take.
pub(super) fn draft(
    view: &View,
    about: &About,
    style: Style<'_>,
    write: impl Fn(&mut Svg, &mut Panel),
) -> Picture {
    let (width, height) = view.size();
    let x = MARGIN + width.max(BAR_LEAST) + 28.0;
    let written = |total: f64| {
        let total_width = (x + PANEL + MARGIN).ceil();
        let mut svg = Svg::new(
            style.id,
            (total_width, total),
            &about.title,
            &about.description,
        );
        title(&mut svg, total_width, &about.title, &about.below);
        let mut panel = Panel {
            x,
            y: TITLE_HEIGHT - 12.0,
            width: PANEL,
        };
        write(&mut svg, &mut panel);
        let bar = (MARGIN, TITLE_HEIGHT + height + 12.0);
        scale::bar(
            &mut svg,
            bar,
            view.px_per_yd,
            style.reading,
            width.clamp(60.0, 200.0),
        );
        (svg, panel.y)
    };
    // How high the words are is known once they are written.
    let (_, words) = written(0.0);
    let total = (TITLE_HEIGHT + height + BAR).max(words) + MARGIN / 2.0;
    written(total.ceil()).0.finish()
}

/// The ground takes at least this width, so that the scale bar has room.
const BAR_LEAST: f64 = 120.0;

/// Writes distances, tee, pin and, between two edges, the names of shots.
pub(super) fn marks(
    svg: &mut Svg,
    hole: &Hole,
    view: &View,
    reading: Reading,
    played: Option<&Played<'_>>,
    edges: (f64, f64),
) {
    let mut labels = Labels::default();
    ground::tee(svg, view, hole.tee, 7.0);
    ground::pin(svg, view, hole.pin, 24.0);
    labels.keep_off(view.at(hole.tee), 5.0);
    let (x, y) = view.at(hole.pin);
    labels.keep_off((x + 7.0, y - 12.0), 13.0);
    if let Some(played) = played {
        legs::names(svg, view, &played.on.legs, &mut labels, edges);
    }
    distances(svg, hole, view, reading, &mut labels);
}

/// Writes ticks across the line of play at round distances to the middle of the green.
fn distances(svg: &mut Svg, hole: &Hole, view: &View, reading: Reading, labels: &mut Labels) {
    let unit = match reading {
        Reading::Yards => Length::from_yd(50.0),
        Reading::Metres => Length::from_m(50.0),
    };
    for step in 1.. {
        let to_go_yd = f64::from(step) * unit.yd();
        let Some((place, ahead)) =
            place(&hole.line, to_go_yd).filter(|_| to_go_yd < hole.length_yd - 12.0)
        else {
            break;
        };
        let (x, y) = view.at(place);
        let (across, along) = (ahead.1 * 7.0, ahead.0 * 7.0);
        svg.put(
            Element::line((x - across, y - along), (x + across, y + along))
                .stroke(Colour::Ink, 1.4),
        );
        let text = (step * 50).to_string();
        let words = Words::sized(SMALL).rimmed();
        let places = [1.0, 2.2, 3.6].map(|far| {
            let beside = far * 7.0 + 5.0;
            [
                ((x + ahead.1 * beside, y + ahead.0 * beside + 4.0), "start"),
                ((x - ahead.1 * beside, y - ahead.0 * beside + 4.0), "end"),
            ]
        });
        labels.write(svg, &text, words, places.as_flattened());
    }
}

/// The place on the line of play so far before its end, and the direction of play there.
fn place(line: &[Point], to_go_yd: f64) -> Option<(Point, (f64, f64))> {
    let mut left = to_go_yd;
    for leg in line.windows(2).rev() {
        let (dx, dy) = (leg[1].x_yd - leg[0].x_yd, leg[1].y_yd - leg[0].y_yd);
        let long = dx.hypot(dy);
        let ahead = (dx / long, dy / long);
        if left <= long {
            let place = Point {
                x_yd: leg[1].x_yd - left * ahead.0,
                y_yd: leg[1].y_yd - left * ahead.1,
            };
            return Some((place, ahead));
        }
        left -= long;
    }
    None
}

/// Writes the strokes lost by part.
fn lost(svg: &mut Svg, panel: &mut Panel, played: &Played<'_>) {
    let Some(beside) = played.beside.filter(|_| !played.on.lost.is_empty()) else {
        return;
    };
    panel.heading(svg, &format!("Strokes lost here to {beside}"));
    let bars: Vec<(&str, f64)> = played
        .on
        .lost
        .iter()
        .map(|(part, lost)| (part.name(), *lost))
        .collect();
    panel.bars(svg, &bars);
    let together: f64 = bars.iter().map(|(_, lost)| lost).sum();
    panel.paragraph(
        svg,
        &format!(
            "Together {}, a mean over many rounds of this hole",
            signed(together)
        ),
    );
}

/// Writes what the ground and its marks mean.
fn key(svg: &mut Svg, panel: &mut Panel, hole: &Hole, view: &View, reading: Reading) {
    panel.heading(svg, "The ground");
    let lies = ground::lies_seen(hole, &view.extent);
    panel.y += ground::legend(svg, (panel.x, panel.y), &lies, 2, 140.0) + 4.0;
    let text = format!(
        "Line of play from the tee; numbers: {} to the middle of the green",
        if reading == Reading::Yards {
            "yards"
        } else {
            "metres"
        }
    );
    panel.entry(svg, &text, |svg, (x, y)| {
        let dots = Element::line((x - 12.0, y + 4.0), (x + 12.0, y + 4.0)).stroke(Colour::Ink, 1.6);
        svg.put(dots.dashed("1 4").with("stroke-linecap", "round"));
        svg.put(Element::line((x, y - 3.0), (x, y + 11.0)).stroke(Colour::Ink, 1.4));
    });
}
