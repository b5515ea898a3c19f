//! The golfer: measured strikes, the pattern fitted to them, the levels of the handicaps, the player file.
//! This room knows no course.
//!
//! ```
//! use costcard::player::{Sex, levels};
//!
//! let ball_speed = |level| -> Result<f64, levels::LevelError> {
//!     let driver = &levels::named(level, Sex::Men)?.clubs[0];
//!     Ok(driver.pattern.mean[0])
//! };
//! assert!(ball_speed("20")? < ball_speed("scratch")?);
//! # Ok::<(), levels::LevelError>(())
//! ```

mod added;
mod bag;
pub mod batch;
pub mod bay;
pub mod change;
pub mod club;
mod club_table;
pub mod compare;
pub mod delivery;
pub mod embedded;
mod file;
mod fill;
pub mod fit;
pub mod heads;
pub mod levels;
mod likely;
pub mod measured;
pub mod pattern;
pub mod posterior;
pub mod presented;
mod quantile;
pub mod skill;
mod skill_table;
mod toward;
pub mod traits;
pub mod written;

pub use bag::faster_than_longer;
pub use quantile::half_width_in_sd;

use crate::units::Angle;
use club::Club;
use delivery::Delivered;
use pattern::Pattern;
use posterior::{Evidence, Given};
use skill::{Putting, Touch};

/// Men's or women's level tables.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Sex {
    /// Men.
    Men,
    /// Women.
    Women,
}

/// Where a figure comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Origin {
    /// Fitted to this many measured strikes.
    Measured {
        /// Strikes used.
        strikes: usize,
    },
    /// Written in the player's file.
    Stated,
    /// Taken from the level of the player's handicap.
    Assumed,
}

/// One club of a golfer.
#[derive(Debug, Clone, PartialEq)]
pub struct BagClub {
    /// Which club.
    pub club: Club,
    /// How the golfer strikes it.
    pub pattern: Pattern,
    /// Where the pattern comes from.
    pub origin: Origin,
    /// How sure a measured pattern is.
    pub evidence: Option<Evidence>,
    /// Which figures of a stated pattern the player gave.
    pub given: Given,
    /// What was measured or stated of the head: means of the club's strikes. Of a level, its golfers' usual delivery.
    pub delivered: Delivered,
}

impl BagClub {
    /// Where what tells how well the club is hit comes from: where the player's file states its ball speed and nothing
    /// else, that is assumed.
    #[must_use]
    pub fn told(&self) -> Origin {
        match self.is_speed_alone() {
            true => Origin::Assumed,
            false => self.origin,
        }
    }

    /// Whether the player's file states the club's ball speed, and nobody says anything else of it.
    #[must_use]
    pub fn is_speed_alone(&self) -> bool {
        self.origin == Origin::Stated && self.given.is_speed_alone()
    }

    /// A club whose strikes nobody measured.
    pub(crate) fn unmeasured(club: Club, pattern: Pattern, origin: Origin) -> Self {
        Self {
            club,
            pattern,
            origin,
            evidence: None,
            given: Given::default(),
            delivered: Delivered::default(),
        }
    }
}

/// A golfer: a player read from a file, or a level.
#[derive(Debug, Clone, PartialEq)]
pub struct Golfer {
    /// Name as it is shown.
    pub name: String,
    /// Handicap index; plus handicaps are negative.
    pub handicap: f64,
    /// Which level tables stand behind the player.
    pub sex: Sex,
    /// The bag, longest club first.
    pub clubs: Vec<BagClub>,
    /// Chips and pitches from grass within 30 yd of the green's edge.
    pub short_game: (Touch, Origin),
    /// Bunker shots within 30 yd of the green's edge.
    pub sand: (Touch, Origin),
    /// On the green.
    pub putting: (Putting, Origin),
    /// How much more dynamic loft the player's device reads than a plane face meeting a rigid ball would have. The
    /// levels' lofts are shifted by it before they are shown beside the player's.
    pub loft_shift: Angle,
    /// What the reader of the player's file should know: figures that were not used, and why.
    pub notes: Vec<String>,
}

impl Golfer {
    /// Whether nobody measured or stated a club, while that was done with some other: then its pattern is assumed from
    /// the handicap.
    #[must_use]
    pub fn is_assumed(&self, club: Club) -> bool {
        let is_known = |entry: &BagClub| entry.origin != Origin::Assumed;
        let own = self.clubs.iter().find(|entry| entry.club == club);
        self.clubs.iter().any(is_known) && !own.is_some_and(is_known)
    }

    /// Whether nobody measured, stated or counted anything of the golfer: all is assumed from the handicap.
    #[must_use]
    pub fn is_as_his_handicap(&self) -> bool {
        let clubs = self.clubs.iter().map(|entry| entry.origin);
        let near = [self.short_game.1, self.sand.1, self.putting.1];
        clubs.chain(near).all(|origin| origin == Origin::Assumed)
    }

    /// The golfer's pattern with a club: his own, or that of the clubs on either side of it, weighed by loft; nothing
    /// for an empty bag.
    #[must_use]
    pub fn pattern_with(&self, club: Club) -> Option<Pattern> {
        bag::pattern_with(&self.clubs, club)
    }
}
