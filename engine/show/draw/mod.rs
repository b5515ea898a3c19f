//! Pictures as SVG: holes and courses, shot patterns, flights, hold curves, maps of expected strokes.
//!
//! Each function takes figures and gives a [`Picture`], which stands alone as a file or within a page of HTML. Pictures
//! are drawn for a light page and for paper; a page of a dark scheme sets the colours of [`dark_colours`].

mod beside;
mod colour;
mod course;
mod flight;
mod ground;
mod hold;
mod hole;
mod key;
mod labels;
mod legs;
mod panel;
mod patterns;
mod savings;
mod scale;
mod small_hole;
mod strokes;
mod study;
mod svg;
mod trace;

pub use beside::{Under, flights_beside, holds_beside, patterns_over};
pub use colour::{colour_rules, dark_colours};
pub use course::course;
pub use flight::flight;
pub use hold::{HoldCurve, Own, against_descent, against_firmness};
pub use hole::hole;
pub use key::{Mark, mark};
pub use patterns::patterns;
pub use savings::{Saving, savings};
pub use small_hole::{ground_seen, shots_in_words, small_hole};
pub use strokes::strokes;
pub use study::study;

use super::reading::Reading;
use crate::cost::on_hole::OnHole;
use crate::player::Golfer;
use crate::player::club::Club;

/// A picture.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// The SVG document, one `svg` element.
    pub svg: String,
    /// Width, CSS pixels.
    pub width_px: f64,
    /// Height, CSS pixels.
    pub height_px: f64,
    /// What it shows, in a line.
    pub title: String,
}

/// How a picture is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Style<'a> {
    /// Units of its distances.
    pub reading: Reading,
    /// Letters, digits and hyphens that no other picture of the page has: the names within the picture begin with it.
    pub id: &'a str,
}

/// A player on a hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Played<'a> {
    /// The player's name.
    pub name: &'a str,
    /// Whom strokes are lost to, as `golfers off 5`; none where nobody stands beside the player.
    pub beside: Option<&'a str>,
    /// How he plays it.
    pub on: &'a OnHole,
}

/// Sizes of words, pixels: a title, what is read first, what is read next.
const TITLE: f64 = 20.0;
const BODY: f64 = 13.0;
const SMALL: f64 = 11.5;

/// Space round a picture, pixels.
const MARGIN: f64 = 24.0;

/// Writes a title and, below it, a line in smaller words, both made small enough for a picture of that width; what
/// follows stands below [`TITLE_HEIGHT`].
fn title(svg: &mut svg::Svg, width: f64, title: &str, below: &str) {
    // Bold letters are wider.
    let fits = |text: &str, size: f64, letter: f64| {
        let room = (width - 2.0 * MARGIN) / (letter * text.chars().count().max(1) as f64);
        size.min(room)
    };
    let first = svg::Words::sized(fits(title, TITLE, labels::LETTER * 1.07)).bold();
    let next = svg::Words::sized(fits(below, BODY, labels::LETTER * 0.95)).faint();
    svg.words((MARGIN, MARGIN + TITLE * 0.8), title, first);
    svg.words((MARGIN, MARGIN + TITLE * 0.8 + 20.0), below, next);
}

const TITLE_HEIGHT: f64 = MARGIN + 52.0;

/// What the words of a picture add about a club that nobody measured.
fn unmeasured(player: &Golfer, club: Club) -> &'static str {
    if player.is_assumed(club) {
        ", not measured"
    } else {
        ""
    }
}

/// A length in the units of a picture, as `231 yd`.
fn length(yd: f64, reading: Reading) -> String {
    let value = reading.length(crate::units::Length::from_yd(yd));
    format!(
        "{} {}",
        super::reading::number(value, 0),
        reading.length_unit()
    )
}
