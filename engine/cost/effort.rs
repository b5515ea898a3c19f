//! How much work a figure is worth.

/// How a card is worked out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Rounds played by each golfer.
    pub rounds: u64,
    /// Seed of the rounds.
    pub seed: u64,
}
