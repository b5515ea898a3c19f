//! The one place every ball starts from.

use crate::course::Lie;

use super::choose::{Care, Choice, Choosing};
use super::finish::Spot;
use super::place::Xy;
use super::values::{MOST_STROKES, Values};

/// A hole shorter than this is played with part swings too, as from a fairway: nobody tees a ball up for a pitch. The
/// shortest club in full, held back as far as it goes, reaches 60 to 90 yd.
const PITCHED_YD: f32 = 100.0;

/// The tee of a hole, and what a golfer may play from it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Tee<'a> {
    pub choosing: Choosing<'a>,
    pub spot: Spot,
}

impl<'a> Tee<'a> {
    pub fn new(choosing: Choosing<'a>) -> Self {
        let at = Xy::from(choosing.hole.tee);
        let to_pin = Xy::from(choosing.hole.pin).seen_from(at);
        let lie = match to_pin.length() < PITCHED_YD {
            true => Lie::Fairway,
            false => Lie::Tee,
        };
        let spot = Spot { at, lie };
        Self { choosing, spot }
    }

    /// The best choice and its expected strokes; none where no swing can be made. Nearer the pin than the shortest swing
    /// goes, it is that one.
    pub fn best(&self, values: &Values<'_>) -> Option<(Choice, f32)> {
        let candidates = self.choosing.any(self.spot, self.choosing.swings);
        let best = self
            .choosing
            .best(values, self.spot, &candidates, Care::TEE);
        best.map(|(choice, expected)| (choice, expected.min(MOST_STROKES as f32)))
    }
}
