//! The colours of pictures.
//!
//! Marks take their colours from the palette of M. Okabe & K. Ito (2008), "Color Universal Design: How to make figures
//! and presentations that are friendly to colorblind people". Ground has tints that differ in lightness, and a texture
//! each, so that it can be told apart without colour. Maps use cividis: J. R. Nuñez, C. R. Anderton & R. S. Renslow
//! (2018), PLOS ONE 13(7), e0199239.

use crate::course::Lie;

/// A colour by what it is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Colour {
    /// The page.
    Paper,
    /// Words, axes, outlines.
    Ink,
    /// Words of less weight.
    Faint,
    /// Lines of a grid, edges of panels.
    Rule,
    /// Ground.
    Fairway,
    Rough,
    Green,
    Tee,
    Sand,
    Water,
    Trees,
    OutOfBounds,
    /// Textures on ground: tree tops and hatching, grains and waves.
    Texture,
    /// Series: the player's shots and curves, one after the other.
    First,
    Second,
    Third,
    Fourth,
    /// What costs strokes.
    Costly,
}

use Colour::*;

/// Colours of series, in order.
pub(super) const SERIES: [Colour; 4] = [First, Second, Third, Fourth];

/// Every colour: its name, on a light page and on a dark one.
const ALL: [(Colour, &str, &str, &str); 18] = [
    (Paper, "paper", "#ffffff", "#15191e"),
    (Ink, "ink", "#1c2126", "#e9ecef"),
    (Faint, "faint", "#56606b", "#a9b3bd"),
    (Rule, "rule", "#d3d8dd", "#3a434d"),
    (Fairway, "fairway", "#e0efc6", "#55713f"),
    (Rough, "rough", "#bcd3a0", "#3a5130"),
    (Green, "green", "#86d1ae", "#2f8a66"),
    (Tee, "tee", "#f3f6ee", "#77816f"),
    (Sand, "sand", "#fbeab0", "#94803f"),
    (Water, "water", "#a5d5f0", "#1f5577"),
    (Trees, "trees", "#93b183", "#22331f"),
    (OutOfBounds, "out-of-bounds", "#e9e9e9", "#2a2d31"),
    (Texture, "texture", "#44583c", "#9fb096"),
    (First, "first", "#0072b2", "#56b4e9"),
    (Second, "second", "#8a3b6d", "#cc79a7"),
    (Third, "third", "#00604a", "#3fc79f"),
    (Fourth, "fourth", "#000000", "#f0e442"),
    (Costly, "costly", "#d55e00", "#ff8a3d"),
];

impl Colour {
    fn row(self) -> &'static (Colour, &'static str, &'static str, &'static str) {
        ALL.iter()
            .find(|(colour, ..)| *colour == self)
            .unwrap_or(&ALL[1])
    }

    /// Its name, as classes and variables have it.
    pub fn name(self) -> &'static str {
        self.row().1
    }

    /// On a light page, and on paper.
    pub fn light(self) -> &'static str {
        self.row().2
    }

    /// The ground of a lie.
    pub fn of(lie: Lie) -> Self {
        match lie {
            Lie::Tee => Tee,
            Lie::Fairway => Fairway,
            Lie::Rough => Rough,
            Lie::Sand => Sand,
            Lie::Trees => Trees,
            Lie::Green => Green,
            Lie::Water => Water,
            Lie::OutOfBounds => OutOfBounds,
        }
    }
}

/// CSS declarations of the colours for a dark page, to be put by a page that holds pictures into a rule of its own:
///
/// ```
/// let css = format!("@media (prefers-color-scheme: dark) {{ :root {{ {} }} }}", costcard::show::draw::dark_colours());
/// assert!(css.contains("--costcard-paper:#"));
/// ```
#[must_use]
pub fn dark_colours() -> String {
    let declared =
        |(_, name, _, dark): &(Colour, &str, &str, &str)| format!("--costcard-{name}:{dark};");
    ALL.iter().map(declared).collect()
}

/// The rules of every colour of pictures, for a page whose pictures come without a style of their own.
#[must_use]
pub fn colour_rules() -> String {
    let rule = |kind: char, property: &str, (_, name, light, _): &(Colour, &str, &str, &str)| {
        format!(".costcard-{kind}-{name}{{{property}:var(--costcard-{name},{light})}}")
    };
    let both = |row| [rule('f', "fill", row), rule('s', "stroke", row)].concat();
    ALL.iter().map(both).collect()
}

/// A place on the scale of maps, 0 to 1: dark is few strokes, light is many.
pub(super) fn on_scale(share: f64) -> String {
    format!(
        "#{:x}",
        colorous::CIVIDIS.eval_continuous(share.clamp(0.0, 1.0))
    )
}
