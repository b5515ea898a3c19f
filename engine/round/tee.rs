//! The one place every ball starts from.

use crate::course::Lie;

use super::choose::{Care, Choice, Choosing};
use super::finish::Spot;
use super::place::Xy;
use super::values::Values;

/// The tee of a hole, and what a golfer may play from it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Tee<'a> {
    pub choosing: Choosing<'a>,
    pub spot: Spot,
}

impl<'a> Tee<'a> {
    pub fn new(choosing: Choosing<'a>) -> Self {
        let spot = Spot {
            at: Xy::from(choosing.hole.tee),
            lie: Lie::Tee,
        };
        Self { choosing, spot }
    }

    /// The best choice and its expected strokes; none where no swing can be made.
    pub fn best(&self, values: &Values<'_>) -> Option<(Choice, f32)> {
        let candidates = self.choosing.candidates(self.spot, self.choosing.swings);
        self.choosing
            .best(values, self.spot, &candidates, Care::TEE)
    }
}
