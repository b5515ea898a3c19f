//! Words that keep off each other: each takes the first of the places it may stand at that is free.
//!
//! The width of words is reckoned from their letters, generously, since the fonts of the reader are not known.

use super::svg::{Svg, Words};

/// Width of a letter as a share of the size of the words; the widest of the common fonts without serifs comes to 0.6.
pub(super) const LETTER: f64 = 0.6;

/// What is taken, by corners: left, top, right, bottom.
#[derive(Debug, Clone, Default)]
pub(super) struct Labels {
    taken: Vec<[f64; 4]>,
}

impl Labels {
    /// Keeps words off a round mark.
    pub fn keep_off(&mut self, (x, y): (f64, f64), radius: f64) {
        self.taken
            .push([x - radius, y - radius, x + radius, y + radius]);
    }

    /// Writes words at the first free place, by baseline; not at all where none is free. Says whether.
    pub fn write(
        &mut self,
        svg: &mut Svg,
        text: &str,
        words: Words,
        places: &[((f64, f64), &'static str)],
    ) -> bool {
        for &(at, anchor) in places {
            let taken = bounds(text, words.size, at, anchor);
            if self.taken.iter().all(|other| apart(other, &taken)) {
                self.taken.push(taken);
                svg.words(at, text, words.anchored(anchor));
                return true;
            }
        }
        false
    }
}

fn bounds(text: &str, size: f64, (x, y): (f64, f64), anchor: &str) -> [f64; 4] {
    let width = width(text, size) + GAP;
    let left = match anchor {
        "middle" => x - width / 2.0,
        "end" => x - width,
        _ => x,
    };
    [left, y - 0.85 * size, left + width, y + 0.25 * size]
}

/// Space between words that stand side by side.
const GAP: f64 = 4.0;

/// The width that words take at most, pixels.
pub(super) fn width(text: &str, size: f64) -> f64 {
    text.chars().count() as f64 * LETTER * size
}

fn apart(a: &[f64; 4], b: &[f64; 4]) -> bool {
    a[2] <= b[0] || b[2] <= a[0] || a[3] <= b[1] || b[3] <= a[1]
}

/// Words broken into lines no wider than so many pixels.
pub(super) fn lines(text: &str, size: f64, width: f64) -> Vec<String> {
    let letters = (width / (LETTER * 0.92 * size)) as usize;
    let wrapped = crate::show::page::wrapped(text, letters.max(8), 0);
    wrapped.lines().map(str::to_owned).collect()
}
