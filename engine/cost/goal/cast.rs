//! The golfers that take part when goals are weighed.

use crate::player::Golfer;
use crate::player::levels::{self, LevelError, TOUR_HANDICAP};

/// Numbers of the golfers.
pub const PLAYER: usize = 0;
pub const TOUR: usize = 1;
pub const HALF_TO_TOUR: usize = 2;

/// The player, the tour professional, the golfers of the goals, and the player half of the way to each of them.
pub struct Cast {
    pub player: Golfer,
    others: Vec<Golfer>,
}

impl Cast {
    pub fn new(player: &Golfer, to: &[f64]) -> Result<Self, LevelError> {
        let mut others = Vec::new();
        for handicap in std::iter::once(&TOUR_HANDICAP).chain(to) {
            let golfer = levels::level(*handicap, player.sex)?;
            let half = player.toward(&golfer, 0.5);
            others.extend([golfer, half]);
        }
        Ok(Self {
            player: player.clone(),
            others,
        })
    }

    /// All of them, by number.
    pub fn list(&self) -> Vec<&Golfer> {
        std::iter::once(&self.player).chain(&self.others).collect()
    }

    /// The golfers of a goal.
    pub const fn goal(number: usize) -> usize {
        HALF_TO_TOUR + 1 + 2 * number
    }

    /// The player half of the way to the golfers of a goal.
    pub const fn half_to_goal(number: usize) -> usize {
        Self::goal(number) + 1
    }
}
