//! The marks of pictures one by one, small, for a page that explains them in words.

use crate::course::Lie;

use super::colour::Colour;
use super::ground::{LIES, slug, textures};
use super::legs::target;
use super::svg::{Element, Svg, px};
use super::{Picture, Style};

const SIZE: (f64, f64) = (34.0, 18.0);
const MIDDLE: (f64, f64) = (17.0, 9.0);

/// A mark of a picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// The ring that half of the player's shots land in.
    Half,
    /// The ring that nine in ten of them land in.
    NineInTen,
    /// The ring that nine in ten shots of the golfers beside him land in.
    NineInTenBeside,
    /// A shot.
    Shot,
    /// A mishit, or a shot that costs half a stroke or more.
    Costly,
    /// Where the middle of a pattern is aimed at.
    Aim,
    /// The player's line.
    Own,
    /// The line of the golfers beside him.
    Beside,
    /// Ground of a lie.
    Ground(Lie),
}

impl Mark {
    /// What the mark looks like, for those who do not see it.
    fn looks(self) -> String {
        let looks = match self {
            Self::Half => "solid ring",
            Self::NineInTen => "dashed ring",
            Self::NineInTenBeside => "dotted ring",
            Self::Shot => "dot",
            Self::Costly => "cross",
            Self::Aim => "ring with a cross in it",
            Self::Own => "solid line",
            Self::Beside => "dotted line",
            Self::Ground(lie) => {
                let name = LIES.iter().find(|(other, _)| *other == lie);
                return format!("the tint of {}", name.map_or("ground", |(_, name)| name));
            }
        };
        looks.to_owned()
    }
}

/// One mark by itself.
#[must_use]
pub fn mark(mark: Mark, style: Style<'_>) -> Picture {
    let looks = mark.looks();
    let mut svg = Svg::new(
        style.id,
        SIZE,
        &looks,
        &format!("Key to the pictures: {looks}."),
    );
    let ring = Element::new("ellipse")
        .px("cx", MIDDLE.0)
        .px("cy", MIDDLE.1)
        .px("rx", 14.0)
        .px("ry", 6.5)
        .with("fill", "none");
    let line = Element::line((2.0, MIDDLE.1), (SIZE.0 - 2.0, MIDDLE.1));
    match mark {
        Mark::Half => svg.put(ring.stroke(Colour::First, 1.7)),
        Mark::NineInTen => svg.put(ring.stroke(Colour::First, 1.7).dashed("6 3")),
        Mark::NineInTenBeside => svg.put(dotted(ring)),
        Mark::Shot => svg.put(Element::circle(MIDDLE, 3.0).fill(Colour::First)),
        Mark::Costly => cross(&mut svg, MIDDLE, 4.0, "costly"),
        Mark::Aim => target(&mut svg, MIDDLE, 0),
        Mark::Own => svg.put(line.stroke(Colour::First, 2.2)),
        Mark::Beside => svg.put(dotted(line)),
        Mark::Ground(lie) => ground(&mut svg, lie),
    }
    svg.finish()
}

fn ground(svg: &mut Svg, lie: Lie) {
    let Some((_, name)) = LIES.iter().find(|(other, _)| *other == lie) else {
        return;
    };
    textures(svg, 0.7);
    let fill = format!("url(#{})", svg.name(&slug(name)));
    let area = Element::rect((1.0, 1.0), (SIZE.0 - 2.0, SIZE.1 - 2.0)).with("fill", fill);
    svg.put(area.stroke(Colour::Texture, 0.7));
}

/// A line of the golfers beside the player.
pub(super) fn dotted(element: Element) -> Element {
    element.stroke(Colour::Second, 2.0).dashed("2 2.5")
}

/// A cross that stands for what goes wrong: a `mishit`, or a `costly` shot.
pub(super) fn cross(svg: &mut Svg, (x, y): (f64, f64), r: f64, mark: &str) {
    let (left, right, top, bottom) = (px(x - r), px(x + r), px(y - r), px(y + r));
    let d = format!("M{left} {top}L{right} {bottom}M{left} {bottom}L{right} {top}");
    let rim = Element::path(d.clone()).stroke(Colour::Paper, 3.2);
    svg.put(rim.with("stroke-opacity", 0.7));
    svg.put(
        Element::path(d)
            .stroke(Colour::Costly, 1.6)
            .with("data-mark", mark),
    );
}
