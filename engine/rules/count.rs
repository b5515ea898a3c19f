//! What is tallied beside the score: a label for every shot a rule wants counted.

use std::sync::Arc;

use crate::course::Lie;
use crate::files::Faults;
use crate::player::club::Club;

/// A label to tally.
pub type Label = Arc<str>;

/// One shot of a round, putts aside. Distances are told to the yard, so that like shots are asked about once.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct ShotFacts {
    /// Number of the hole on the card.
    pub hole: u32,
    /// Its par.
    pub par: u8,
    /// Which stroke of the hole it is, from 1, penalty strokes counted.
    pub stroke: u32,
    /// The part of the game it belongs to.
    pub part: &'static str,
    /// The club of a full shot; none for chips, pitches and greenside bunker shots.
    pub club: Option<Club>,
    /// The lie it is played from.
    pub lie: Lie,
    /// Distance to the hole before it, yards.
    pub to_pin_yd: u32,
    /// Distance to the hole after it, yards; 0 when it is holed.
    pub left_yd: u32,
    /// Whether water lies under its way to the pitch, the pitch itself aside. Chips are not looked at.
    pub over_water: bool,
    /// The lie it pitched on.
    pub pitched: Lie,
    /// The lie the next shot is played from; none when it is holed.
    pub ended: Option<Lie>,
    /// Penalty strokes it cost.
    pub penalty: u8,
}

/// The label a shot is counted under.
pub trait Count: Send + Sync {
    /// The label; none for a shot that is not counted.
    ///
    /// # Errors
    /// When the rule has no answer.
    fn label(&self, shot: &ShotFacts) -> Result<Option<Label>, Faults>;
}

impl<F> Count for F
where
    F: Fn(&ShotFacts) -> Result<Option<Label>, Faults> + Send + Sync,
{
    fn label(&self, shot: &ShotFacts) -> Result<Option<Label>, Faults> {
        self(shot)
    }
}
