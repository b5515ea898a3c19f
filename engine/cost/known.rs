//! What is known of a player's short game, sand shots and putts where nobody measured them.

use crate::player::Golfer;
use crate::player::levels::LevelError;

use super::infer::Inferred;

/// The short game, sand shots and putts of golfers of one handicap differ like those of golfers so many strokes of
/// handicap apart (standard deviation; an assumption, no published source).
pub(super) const SKILL_SD: f64 = 4.0;

/// What is known of the player's short game, sand shots and putts where nobody measured them.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Known {
    /// The player with assumed skills one standard deviation better, and worse.
    pub(super) better_and_worse: [Golfer; 2],
    /// Whether the player's figures as a whole are those of his handicap: then a player whose long game is worse than it
    /// seems is better near the hole.
    pub(super) by_handicap: bool,
    /// The player with the assumed skills that golfers of his handicap have in the mean, where others were inferred: what
    /// is to be thought of them before his scores are.
    pub(super) usual: Option<Golfer>,
}

impl Known {
    /// Nothing was inferred: the skills are those of his handicap. Of a player of whom nothing else is known either, the
    /// handicap tells all there is.
    pub fn as_he_stands(player: &Golfer) -> Result<Self, LevelError> {
        Self::around(player, player.handicap, player.is_as_his_handicap())
    }

    /// What was inferred; a handicap that does not fit the shots tells nothing of either.
    pub fn of(inferred: &Inferred) -> Result<Self, LevelError> {
        match &inferred.inference {
            None => Self::as_he_stands(&inferred.golfer),
            Some(found) => Self::around(&inferred.golfer, found.handicap, found.fits),
        }
    }

    fn around(player: &Golfer, handicap: f64, by_handicap: bool) -> Result<Self, LevelError> {
        let at = |handicap| player.with_assumed_skills_of(handicap);
        Ok(Self {
            better_and_worse: [at(handicap - SKILL_SD)?, at(handicap + SKILL_SD)?],
            by_handicap,
            usual: match by_handicap && handicap != player.handicap {
                true => Some(at(player.handicap)?),
                false => None,
            },
        })
    }
}
