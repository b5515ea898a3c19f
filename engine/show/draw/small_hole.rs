//! A hole without words beside it, small enough for three of them side by side.

use crate::course::{Hole, Lie};
use crate::show::reading::Reading;

use super::ground::{self, Extent, View};
use super::hole::{about, marks};
use super::svg::Svg;
use super::{Picture, Played, Style, legs, scale};

/// The largest the ground is drawn, pixels.
const MOST: (f64, f64) = (268.0, 470.0);
const MOST_PX_PER_YD: f64 = 2.4;
const EDGE: f64 = 6.0;
/// A picture is at least so wide, so that the names of shots have room beside a narrow hole.
const LEAST: f64 = 250.0;
/// Textures are smaller than on a large picture.
const TEXTURES: f64 = 0.7;

/// A hole as a player plays it, without its list of shots: see [`shots_in_words`].
#[must_use]
pub fn small_hole(course: &str, hole: &Hole, played: &Played<'_>, style: Style<'_>) -> Picture {
    let extent = Extent::of(hole);
    let fits = (MOST.0 / extent.width_yd()).min(MOST.1 / extent.length_yd());
    let view = View {
        extent,
        corner: (0.0, EDGE),
        px_per_yd: fits.min(MOST_PX_PER_YD),
    };
    let (width, height) = view.size();
    let total = (width + 2.0 * EDGE).max(LEAST).ceil();
    let view = View {
        corner: ((total - width) / 2.0, EDGE),
        ..view
    };
    let about = about(course, hole, Some(played), style.reading);
    let size = (total, (height + EDGE + 30.0).ceil());
    let mut svg = Svg::new(style.id, size, &about.title, &about.description);
    ground::textures(&mut svg, TEXTURES);
    view.open_clipped(&mut svg, "ground");
    ground::areas(&mut svg, hole, &view, &ground::LIES);
    ground::line(&mut svg, hole, &view, 1.4);
    svg.close("g");
    legs::shots(&mut svg, &view, &played.on.legs);
    let edges = (EDGE, total - EDGE);
    marks(&mut svg, hole, &view, style.reading, Some(played), edges);
    let bar = (view.corner.0 + 2.0, EDGE + height + 7.0);
    let most = (0.6 * width).min(110.0);
    scale::bar(&mut svg, bar, view.px_per_yd, style.reading, most);
    svg.finish()
}

/// The shots of a hole in words: what each is, how far, and what it loses to the golfers beside the player.
#[must_use]
pub fn shots_in_words(played: &Played<'_>, reading: Reading) -> Vec<[String; 3]> {
    let told = |leg| legs::in_words(leg, reading);
    played.on.legs.iter().map(told).collect()
}

/// The lies that are seen of a hole, in the order they are listed, with their names.
#[must_use]
pub fn ground_seen(hole: &Hole) -> Vec<(Lie, &'static str)> {
    ground::lies_seen(hole, &Extent::of(hole))
}
