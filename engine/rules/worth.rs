//! What puts one part of the game before another on the cost card.

use super::refused;
use crate::files::Faults;

/// The words of the parts of the game, as rules are told them.
pub const PARTS: [&str; 7] = [
    "tee shots",
    "long approach",
    "mid irons",
    "short irons",
    "short game",
    "sand",
    "putting",
];

/// A part of the game as the cost card has it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartFacts {
    /// Its name, as `short game`.
    pub part: &'static str,
    /// Strokes saved a round when it alone is played at the goal's standard.
    pub saved: f64,
    /// Strokes lost a round to the goal's golfer.
    pub lost: f64,
    /// Shots a round.
    pub shots: f64,
    /// Whether the player's own shots stand behind it.
    pub measured: bool,
}

/// What a part is worth working on, in a unit of the rule's own; the parts are shown from the highest down.
pub trait Worth: Send + Sync {
    /// The worth of a part: finite, and no more than a million either way.
    ///
    /// # Errors
    /// When the rule has no answer.
    fn worth(&self, part: &PartFacts) -> Result<f64, Faults>;
}

impl<F> Worth for F
where
    F: Fn(&PartFacts) -> Result<f64, Faults> + Send + Sync,
{
    fn worth(&self, part: &PartFacts) -> Result<f64, Faults> {
        let worth = self(part)?;
        if is_sound(worth) {
            Ok(worth)
        } else {
            let message = format!("the worth of {} cannot be {worth}", part.part);
            Err(refused("worth", message))
        }
    }
}

/// Beyond this a worth is a slip of the script.
pub(super) const MOST_WORTH: f64 = 1e6;

/// Whether a worth can be shown and sorted by.
#[must_use]
pub(super) fn is_sound(worth: f64) -> bool {
    worth.abs() <= MOST_WORTH
}
