//! The column of words beside a picture, written from the top down.

use super::colour::Colour;
use super::labels::lines;
use super::svg::{Element, Svg, Words};
use super::{BODY, SMALL};

/// A column of words, and how far down it is filled.
#[derive(Debug, Clone, Copy)]
pub(super) struct Panel {
    pub x: f64,
    pub y: f64,
    pub width: f64,
}

/// Room for the mark before an entry.
const MARK: f64 = 33.0;

impl Panel {
    /// Writes a heading.
    pub fn heading(&mut self, svg: &mut Svg, text: &str) {
        self.y += 8.0;
        for line in lines(text, BODY, self.width) {
            self.y += 17.0;
            svg.words((self.x, self.y - 4.0), &line, Words::sized(BODY).bold());
        }
        self.y += 6.0;
    }

    /// Writes a paragraph in small words.
    pub fn paragraph(&mut self, svg: &mut Svg, text: &str) {
        for line in lines(text, SMALL, self.width) {
            self.y += 15.0;
            svg.words((self.x, self.y - 4.0), &line, Words::sized(SMALL).faint());
        }
        self.y += 4.0;
    }

    /// Writes an entry behind a mark, which `mark` writes round the place it is given.
    pub fn entry(&mut self, svg: &mut Svg, text: &str, mark: impl FnOnce(&mut Svg, (f64, f64))) {
        mark(svg, (self.x + 13.0, self.y + 8.0));
        for line in lines(text, SMALL, self.width - MARK) {
            self.y += 15.0;
            svg.words((self.x + MARK, self.y - 3.0), &line, Words::sized(SMALL));
        }
        self.y += 5.0;
    }

    /// Writes a row of words and, at the right edge, a figure; below it a line in faint words.
    pub fn row(
        &mut self,
        svg: &mut Svg,
        [name, figure, below]: [&str; 3],
        mark: impl FnOnce(&mut Svg, (f64, f64)),
    ) {
        mark(svg, (self.x + 13.0, self.y + 9.0));
        self.y += 14.0;
        svg.words((self.x + MARK, self.y), name, Words::sized(BODY).bold());
        svg.words(
            (self.x + self.width, self.y),
            figure,
            Words::sized(BODY).anchored("end"),
        );
        for line in lines(below, SMALL, self.width - MARK)
            .iter()
            .filter(|line| !line.is_empty())
        {
            self.y += 15.0;
            svg.words((self.x + MARK, self.y), line, Words::sized(SMALL).faint());
        }
        self.y += 11.0;
    }

    /// Writes bars to both sides of a line, each with its name and figure.
    pub fn bars(&mut self, svg: &mut Svg, bars: &[(&str, f64)]) {
        let (name, figure) = (104.0, 46.0);
        let span = |sign: f64| {
            bars.iter()
                .fold(0.0_f64, |most, (_, value)| most.max(sign * value))
        };
        let (below, above) = (span(-1.0), span(1.0));
        let px = (self.width - name - figure) / (below + above).max(0.05);
        let zero = self.x + name + below * px;
        for (label, value) in bars {
            let (from, length) = (zero + value.min(0.0) * px, value.abs() * px);
            let colour = if *value > 0.0 {
                Colour::Costly
            } else {
                Colour::First
            };
            svg.put(Element::rect((from, self.y + 3.0), (length, 11.0)).fill(colour));
            svg.words((self.x, self.y + 13.0), label, Words::sized(SMALL));
            let shown = signed(*value);
            svg.words(
                (self.x + self.width, self.y + 13.0),
                &shown,
                Words::sized(SMALL).anchored("end"),
            );
            self.y += 19.0;
        }
        let top = self.y - 19.0 * bars.len() as f64;
        svg.put(Element::line((zero, top), (zero, self.y)).stroke(Colour::Ink, 1.0));
        self.y += 4.0;
    }
}

/// Strokes with their sign, to a hundredth.
pub(super) fn signed(strokes: f64) -> String {
    let shown = crate::show::reading::number(strokes, 2);
    if shown.starts_with('-') {
        shown.replace('-', "−")
    } else if shown == "0.00" {
        shown
    } else {
        format!("+{shown}")
    }
}
