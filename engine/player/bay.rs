//! From the shots of the bay to a player: who hit them, what they come to, and what was left out.

use super::bag::{Contents, fill};
use super::batch::{Batch, ColumnMap, Input, Overrule};
use super::levels::{self, LevelError};
use super::measured::{Fitted, fit_batch};
use super::pattern::PatternFault;
use super::{BagClub, Golfer, Sex};
use crate::files::Faults;

/// Who hit the shots.
#[derive(Debug, Clone, PartialEq)]
pub struct Who {
    /// Name as it is shown.
    pub name: String,
    /// Handicap index, −6 to 54; plus handicaps are negative.
    pub handicap: f64,
    /// Which level tables stand behind the player.
    pub sex: Sex,
    /// Whether the player plays left-handed.
    pub left_handed: bool,
}

/// A player fitted to measured shots.
#[derive(Debug, Clone, PartialEq)]
pub struct FittedPlayer {
    /// Who hit the shots.
    pub who: Who,
    /// How the sheets name their columns.
    pub map: ColumnMap,
    /// The shots.
    pub batch: Batch,
    /// The clubs that were hit.
    pub fitted: Fitted,
    /// The player: what nobody measured comes from the level of the handicap.
    pub golfer: Golfer,
}

/// Why no player can be fitted.
#[derive(Debug, thiserror::Error)]
pub enum BayFault {
    /// The sheets are at fault.
    #[error(transparent)]
    Sheets(#[from] Faults),
    /// There is no such level.
    #[error(transparent)]
    Level(#[from] LevelError),
    /// The level or the shots make no pattern.
    #[error(transparent)]
    Pattern(#[from] PatternFault),
}

impl FittedPlayer {
    /// Reads sheets, leaves out the misreads, and fits every club.
    ///
    /// # Errors
    /// Every fault of the sheets; a handicap beyond the levels.
    pub fn fit(
        who: Who,
        inputs: Vec<Input>,
        map: ColumnMap,
        overrule: &Overrule,
    ) -> Result<Self, BayFault> {
        let batch = Batch::read(inputs, &map, overrule)?;
        Self::of_batch(who, map, batch)
    }

    /// Fits every club of a batch.
    ///
    /// # Errors
    /// A handicap beyond the levels.
    pub fn of_batch(who: Who, map: ColumnMap, batch: Batch) -> Result<Self, BayFault> {
        let mut level = levels::level(who.handicap, who.sex)?;
        if who.left_handed {
            level = level.mirrored();
        }
        let fitted = fit_batch(&batch, &level)?;
        let own: Vec<BagClub> = fitted.clubs.iter().map(BagClub::from).collect();
        let contents = Contents {
            wanted: fitted.too_few.clone(),
            ..Contents::default()
        };
        let golfer = Golfer {
            name: who.name.clone(),
            clubs: fill(&own, &contents, &level),
            notes: fitted.notes(&batch),
            ..level
        };
        Ok(Self {
            who,
            map,
            batch,
            fitted,
            golfer,
        })
    }
}
