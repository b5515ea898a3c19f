//! Writes SVG: elements, words and colours, through an XML writer.
//!
//! Colours stand as plain attributes, which every reader of SVG knows and paper prints; a style at the end, for readers
//! that know CSS variables, lets a page that holds the picture set them for a dark scheme.

use std::collections::BTreeSet;
use std::fmt::Display;

use quick_xml::Writer;
use quick_xml::events::{BytesEnd, BytesStart, BytesText, Event};

use super::Picture;
use super::colour::Colour;

/// Fonts for words: those of common systems, and whatever has no serifs.
const FONTS: &str = "Helvetica, Arial, 'Liberation Sans', 'DejaVu Sans', sans-serif";

/// An element before it is written.
#[derive(Debug, Clone)]
pub(super) struct Element {
    name: &'static str,
    attributes: Vec<(&'static str, String)>,
    colours: Vec<(char, Colour)>,
}

impl Element {
    pub fn new(name: &'static str) -> Self {
        Self {
            name,
            attributes: Vec::new(),
            colours: Vec::new(),
        }
    }

    /// A straight line.
    pub fn line(from: (f64, f64), to: (f64, f64)) -> Self {
        let line = Self::new("line").px("x1", from.0).px("y1", from.1);
        line.px("x2", to.0).px("y2", to.1)
    }

    /// A rectangle by its upper left corner.
    pub fn rect(at: (f64, f64), (width, height): (f64, f64)) -> Self {
        let rect = Self::new("rect").px("x", at.0).px("y", at.1);
        rect.px("width", width).px("height", height)
    }

    /// A circle.
    pub fn circle(at: (f64, f64), radius: f64) -> Self {
        Self::new("circle")
            .px("cx", at.0)
            .px("cy", at.1)
            .px("r", radius)
    }

    /// A path, not filled.
    pub fn path(d: String) -> Self {
        Self::new("path").with("d", d).with("fill", "none")
    }

    /// An attribute; one that stands already is replaced.
    pub fn with(mut self, key: &'static str, value: impl Display) -> Self {
        self.attributes.retain(|(other, _)| *other != key);
        self.attributes.push((key, value.to_string()));
        self
    }

    /// A length in pixels.
    pub fn px(self, key: &'static str, value: f64) -> Self {
        self.with(key, px(value))
    }

    pub fn fill(self, colour: Colour) -> Self {
        let mut filled = self.with("fill", colour.light());
        filled.colours.push(('f', colour));
        filled
    }

    pub fn stroke(self, colour: Colour, width: f64) -> Self {
        let mut stroked = self
            .with("stroke", colour.light())
            .px("stroke-width", width);
        stroked.colours.push(('s', colour));
        stroked
    }

    pub fn dashed(self, dashes: &str) -> Self {
        self.with("stroke-dasharray", dashes)
    }
}

/// Words: how large, from where they run, in what colour.
#[derive(Debug, Clone, Copy)]
pub(super) struct Words {
    pub size: f64,
    /// `start`, `middle` or `end`.
    pub anchor: &'static str,
    pub colour: Colour,
    pub bold: bool,
    /// Whether they stand on a ground from which a rim sets them off.
    pub rimmed: bool,
    /// Turned a quarter against the clock, for the name of an upright axis.
    pub upright: bool,
}

impl Words {
    /// Words of a size, from their start, in ink.
    pub const fn sized(size: f64) -> Self {
        Self {
            size,
            anchor: "start",
            colour: Colour::Ink,
            bold: false,
            rimmed: false,
            upright: false,
        }
    }

    pub const fn anchored(self, anchor: &'static str) -> Self {
        Self { anchor, ..self }
    }

    pub const fn faint(self) -> Self {
        Self {
            colour: Colour::Faint,
            ..self
        }
    }

    pub const fn coloured(self, colour: Colour) -> Self {
        Self { colour, ..self }
    }

    pub const fn bold(self) -> Self {
        Self { bold: true, ..self }
    }

    pub const fn rimmed(self) -> Self {
        Self {
            rimmed: true,
            ..self
        }
    }

    pub const fn upright(self) -> Self {
        Self {
            upright: true,
            ..self
        }
    }
}

/// A picture being written.
pub(super) struct Svg {
    writer: Writer<Vec<u8>>,
    id: String,
    used: BTreeSet<(char, Colour)>,
    size: (f64, f64),
    title: String,
}

impl Svg {
    /// A picture of a size in pixels; `id` sets its names apart from those of other pictures on one page. Title and
    /// description are read out to those who do not see it.
    pub fn new(id: &str, (width, height): (f64, f64), title: &str, description: &str) -> Self {
        let mut svg = Self {
            writer: Writer::new(Vec::new()),
            id: id.to_owned(),
            used: BTreeSet::new(),
            size: (width, height),
            title: title.to_owned(),
        };
        let root = Element::new("svg")
            .with("xmlns", "http://www.w3.org/2000/svg")
            .px("width", width)
            .px("height", height)
            .with("viewBox", format!("0 0 {} {}", px(width), px(height)))
            .with("role", "img")
            .with("aria-labelledby", format!("{id}-title {id}-desc"))
            .with("font-family", FONTS);
        svg.open(root);
        svg.words_in(
            Element::new("title").with("id", format!("{id}-title")),
            title,
        );
        svg.words_in(
            Element::new("desc").with("id", format!("{id}-desc")),
            description,
        );
        svg.put(Element::rect((0.0, 0.0), (width, height)).fill(Colour::Paper));
        svg
    }

    /// A name within this picture.
    pub fn name(&self, name: &str) -> String {
        format!("{}-{name}", self.id)
    }

    /// Writes an element without content.
    pub fn put(&mut self, element: Element) {
        let start = self.start(element);
        self.event(Event::Empty(start));
    }

    /// Opens an element.
    pub fn open(&mut self, element: Element) {
        let start = self.start(element);
        self.event(Event::Start(start));
    }

    /// Closes an element.
    pub fn close(&mut self, name: &str) {
        self.event(Event::End(BytesEnd::new(name)));
    }

    /// Writes words, their baseline at a place.
    pub fn words(&mut self, at: (f64, f64), text: &str, words: Words) {
        let mut element = Element::new("text")
            .px("x", at.0)
            .px("y", at.1)
            .px("font-size", words.size);
        if words.anchor != "start" {
            element = element.with("text-anchor", words.anchor);
        }
        if words.bold {
            element = element.with("font-weight", "bold");
        }
        if words.upright {
            element = element.with(
                "transform",
                format!("rotate(-90 {} {})", px(at.0), px(at.1)),
            );
        }
        if words.rimmed {
            let rim = element.stroke(Colour::Paper, 3.0);
            element = rim
                .with("stroke-linejoin", "round")
                .with("paint-order", "stroke");
        }
        self.words_in(element.fill(words.colour), text);
    }

    fn words_in(&mut self, element: Element, text: &str) {
        let name = element.name;
        self.open(element);
        self.event(Event::Text(BytesText::new(text)));
        self.close(name);
    }

    fn start(&mut self, element: Element) -> BytesStart<'static> {
        let mut start = BytesStart::new(element.name);
        for (key, value) in &element.attributes {
            start.push_attribute((*key, value.as_str()));
        }
        if !element.colours.is_empty() {
            let classes: Vec<String> = element
                .colours
                .iter()
                .map(|&(kind, colour)| class(kind, colour))
                .collect();
            start.push_attribute(("class", classes.join(" ").as_str()));
            self.used.extend(element.colours);
        }
        start
    }

    fn event(&mut self, event: Event<'_>) {
        // Writing into memory cannot fail.
        let _ = self.writer.write_event(event);
    }

    /// The picture, with the style of the colours it uses.
    pub fn finish(mut self) -> Picture {
        let rule = |&(kind, colour): &(char, Colour)| {
            let property = if kind == 'f' { "fill" } else { "stroke" };
            let (class, name, light) = (class(kind, colour), colour.name(), colour.light());
            format!(".{class}{{{property}:var(--costcard-{name},{light})}}")
        };
        let rules: String = self.used.iter().map(rule).collect();
        // Readers that do not know variables pass over the whole of it.
        self.words_in(
            Element::new("style"),
            &format!("@supports (color:var(--c)){{{rules}}}"),
        );
        self.close("svg");
        let (width_px, height_px) = self.size;
        let svg = String::from_utf8_lossy(&self.writer.into_inner()).into_owned() + "\n";
        Picture {
            svg,
            width_px,
            height_px,
            title: self.title,
        }
    }
}

fn class(kind: char, colour: Colour) -> String {
    format!("costcard-{kind}-{}", colour.name())
}

/// A number of pixels to a hundredth, as short as can be.
pub(super) fn px(value: f64) -> String {
    // Adding nothing turns a negative zero into a plain one.
    let rounded = (value * 100.0).round() / 100.0 + 0.0;
    rounded.to_string()
}

/// The path through some places.
pub(super) fn path_through(places: &[(f64, f64)], closed: bool) -> String {
    let mut d = String::new();
    for (index, &(x, y)) in places.iter().enumerate() {
        d += &format!("{}{} {}", if index == 0 { "M" } else { "L" }, px(x), px(y));
    }
    if closed {
        d.push('Z');
    }
    d
}
