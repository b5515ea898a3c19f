//! The page of the desk: its skeleton, style and script, and the parts of it that follow the lesson.
//!
//! Sentences and pictures are those of the report (`show/report/`). Parts are put into the page as it runs; a page that
//! takes no style but its own must hold the colours of pictures itself.

pub mod answer;
pub mod card;
mod page;

pub use page::page;

use super::draw::{colour_rules, dark_colours};

/// The style: that of the report, what the desk has beside it, and the colours of pictures.
#[must_use]
pub fn style() -> String {
    format!(
        "{}{}{}@media screen and (prefers-color-scheme:dark){{:root{{{}--mark:#2c3a22;--line:#3a434d;--field:#20262d}}}}\n",
        include_str!("../report/page.css"),
        include_str!("desk.css"),
        colour_rules(),
        dark_colours()
    )
}

/// The script.
#[must_use]
pub fn script() -> String {
    include_str!("desk.js").to_owned()
}

/// A part of the page without the styles that its pictures bring along.
fn bare(html: &str) -> String {
    let mut out = String::with_capacity(html.len());
    let mut rest = html;
    while let Some((before, after)) = rest.split_once("<style>") {
        out += before;
        rest = after.split_once("</style>").map_or("", |(_, rest)| rest);
    }
    out + rest
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pictures_lose_their_styles_and_nothing_else() {
        assert_eq!(bare("<p>a</p>"), "<p>a</p>");
        let two = "<svg>1<style>x{}</style></svg><svg>2<style>y{}</style></svg>z";
        assert_eq!(bare(two), "<svg>1</svg><svg>2</svg>z");
    }
}
