//! A golfer on the way to another's standard, and a player given the short game of a handicap.

use super::bag::{blend, pattern_with};
use super::levels::{LevelError, ladder};
use super::skill::{Putting, Touch};
use super::{BagClub, Golfer, Origin};

impl Golfer {
    /// The golfer with a share of the way to `goal` behind him in every part: 0 is himself, 1 plays his own clubs,
    /// his short game and his putts as `goal` does.
    ///
    /// Means, spreads and mishits of a club go toward those of the goal with the same club, or of those beside it.
    #[must_use]
    pub fn toward(&self, goal: &Self, share: f64) -> Self {
        let club = |entry: &BagClub| {
            let pattern = match pattern_with(&goal.clubs, entry.club) {
                Some(theirs) => blend(&entry.pattern, &theirs, share),
                None => entry.pattern.clone(),
            };
            BagClub {
                pattern,
                ..entry.clone()
            }
        };
        Self {
            clubs: self.clubs.iter().map(club).collect(),
            short_game: (
                Touch::blend(&self.short_game.0, &goal.short_game.0, share),
                self.short_game.1,
            ),
            sand: (Touch::blend(&self.sand.0, &goal.sand.0, share), self.sand.1),
            putting: (
                Putting::blend(&self.putting.0, &goal.putting.0, share),
                self.putting.1,
            ),
            ..self.clone()
        }
    }

    /// The golfer with those of short game, sand and putting that nobody measured taken from the level of a handicap.
    ///
    /// # Errors
    /// When the level tables are at fault.
    pub fn with_assumed_skills_of(&self, handicap: f64) -> Result<Self, LevelError> {
        let skills = ladder(self.sex)?.skills(handicap);
        let mut golfer = self.clone();
        if golfer.short_game.1 == Origin::Assumed {
            golfer.short_game.0 = skills.short_game;
        }
        if golfer.sand.1 == Origin::Assumed {
            golfer.sand.0 = skills.sand;
        }
        if golfer.putting.1 == Origin::Assumed {
            golfer.putting.0 = skills.putting;
        }
        Ok(golfer)
    }
}
