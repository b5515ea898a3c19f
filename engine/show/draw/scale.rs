//! Scales: round numbers along an axis, the bar that shows a distance, the frame of a chart.

use crate::show::reading::{Reading, number};
use crate::units::Length;

use super::colour::Colour;
use super::svg::{Element, Svg, Words};

/// The least step of 1, 2 or 5 times a power of ten that divides a range into at most so many steps.
pub(super) fn round_step(range: f64, most: usize) -> f64 {
    let least = range / most.max(1) as f64;
    let power = 10f64.powf(least.max(1e-9).log10().floor());
    [1.0, 2.0, 5.0, 10.0]
        .map(|times| times * power)
        .into_iter()
        .find(|step| *step >= least * (1.0 - 1e-9))
        .unwrap_or(10.0 * power)
}

/// Round numbers from one to another.
pub(super) fn round_numbers(from: f64, to: f64, most: usize) -> Vec<f64> {
    let step = round_step(to - from, most);
    let first = (from / step - 1e-9).ceil() as i64;
    let last = (to / step + 1e-9).floor() as i64;
    (first..=last).map(|number| number as f64 * step).collect()
}

/// A number with as many decimals as its step needs.
pub(super) fn tick(value: f64, step: f64) -> String {
    number(
        value,
        if step < 0.1 {
            2
        } else {
            usize::from(step < 1.0)
        },
    )
    .replace('-', "−")
}

/// Writes a bar as long as a round distance, and what it is.
pub(super) fn bar(
    svg: &mut Svg,
    (x, y): (f64, f64),
    px_per_yd: f64,
    reading: Reading,
    most_px: f64,
) {
    let one = match reading {
        Reading::Yards => Length::from_yd(1.0),
        Reading::Metres => Length::from_m(1.0),
    };
    let px_per_unit = px_per_yd * one.yd();
    let longest = most_px / px_per_unit;
    let power = 10f64.powf(longest.log10().floor());
    let times = if longest / power >= 5.0 { 5.0 } else { 1.0 };
    let units = times * power;
    let length = units * px_per_unit;
    let half = Element::rect((x, y), (length / 2.0, 5.0)).fill(Colour::Ink);
    svg.put(half.stroke(Colour::Ink, 0.8));
    let whole = Element::rect((x, y), (length, 5.0))
        .with("fill", "none")
        .stroke(Colour::Ink, 0.8);
    svg.put(whole.with("data-mark", "scale bar"));
    let words = Words::sized(11.5);
    svg.words((x, y + 17.0), "0", words);
    // Under a short bar the figure begins where the bar ends, so that it stands clear of the nought.
    let (at, anchor) = match length < SHORT_BAR {
        true => (x + length - 6.0, "start"),
        false => (x + length, "middle"),
    };
    let figure = format!("{} {}", tick(units, units), reading.length_unit());
    svg.words((at, y + 17.0), &figure, words.anchored(anchor));
}

/// A bar under which a figure in the middle of its end would meet the nought, pixels.
const SHORT_BAR: f64 = 45.0;

/// The frame of a chart: where its corners stand, and what they mean.
#[derive(Debug, Clone, Copy)]
pub(super) struct Frame {
    /// Upper left corner, pixels.
    pub corner: (f64, f64),
    /// Width and height, pixels.
    pub size: (f64, f64),
    /// What stands at the left and the right edge.
    pub x: (f64, f64),
    /// What stands at the lower and the upper edge.
    pub y: (f64, f64),
}

impl Frame {
    /// Where a figure stands.
    pub fn at(&self, x: f64, y: f64) -> (f64, f64) {
        (
            self.corner.0 + (x - self.x.0) / (self.x.1 - self.x.0) * self.size.0,
            self.corner.1 + self.size.1 - (y - self.y.0) / (self.y.1 - self.y.0) * self.size.1,
        )
    }

    /// Writes lines at round numbers, with the numbers along the left edge and, so far `down`, the lower one.
    pub fn grid(&self, svg: &mut Svg, most: (usize, usize), size: f64, down: f64) {
        let (left, bottom) = (self.corner.0, self.corner.1 + self.size.1);
        let step = round_step(self.x.1 - self.x.0, most.0);
        for value in round_numbers(self.x.0, self.x.1, most.0) {
            let (x, _) = self.at(value, self.y.0);
            svg.put(Element::line((x, self.corner.1), (x, bottom)).stroke(Colour::Rule, 1.0));
            svg.words(
                (x, bottom + size + 4.0 + down),
                &tick(value, step),
                Words::sized(size).faint().anchored("middle"),
            );
        }
        let step = round_step(self.y.1 - self.y.0, most.1);
        for value in round_numbers(self.y.0, self.y.1, most.1) {
            let (_, y) = self.at(self.x.0, value);
            svg.put(Element::line((left, y), (left + self.size.0, y)).stroke(Colour::Rule, 1.0));
            svg.words(
                (left - 6.0, y + 0.35 * size),
                &tick(value, step),
                Words::sized(size).faint().anchored("end"),
            );
        }
    }

    /// Writes the names of the two axes.
    pub fn names(&self, svg: &mut Svg, x_name: &str, y_name: &str) {
        let (left, bottom) = (self.corner.0, self.corner.1 + self.size.1);
        let words = Words::sized(13.0).anchored("middle");
        svg.words((left + self.size.0 / 2.0, bottom + 36.0), x_name, words);
        svg.words(
            (left - 44.0, self.corner.1 + self.size.1 / 2.0),
            y_name,
            words.upright(),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_along_an_axis_are_round() {
        assert_eq!(
            round_numbers(0.0, 1.0, 5),
            [0.0, 0.2, 0.4, 0.6000000000000001, 0.8, 1.0]
        );
        assert_eq!(
            round_numbers(-37.0, 62.0, 5),
            [-20.0, 0.0, 20.0, 40.0, 60.0]
        );
        assert_eq!(tick(0.6000000000000001, 0.2), "0.6");
        assert_eq!(tick(-0.0, 20.0), "0");
    }
}
