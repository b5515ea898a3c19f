//! What a golfer, or a mixture of two, brings to a hole.

use std::sync::Arc;

use crate::ball::putts::PuttTable;
use crate::player::skill::Putting;

use super::choose::SwingId;
use super::touch::TouchShots;

/// What one golfer brings to a hole: swings from the tee of a par 4 or 5, swings otherwise, touch, putts.
#[derive(Debug, Clone)]
pub struct Side {
    /// Swings for tee shots on par 4s and 5s.
    pub tee: Vec<SwingId>,
    /// Swings for every other full shot.
    pub field: Vec<SwingId>,
    /// Short game and sand.
    pub touch: TouchShots,
    /// Putting.
    pub putting: Putting,
    /// The putts of that putting, by the stage's Stimpmeter readings.
    pub(super) putts: Arc<[PuttTable]>,
}

impl Side {
    /// Whether everything but tee shots is played alike.
    #[must_use]
    pub fn plays_field_like(&self, other: &Self) -> bool {
        self.field == other.field && self.touch == other.touch && self.putting == other.putting
    }
}
