//! Changes of a golfer, in the trade's words: `irons dynamic_loft +4`, `driver off`, `putting level 5`.
//!
//! A change says who (clubs, or a part of the game around the green), what of them, and how much:
//!
//! ```text
//! CLUBS FIGURE AMOUNT       6 iron backspin +500     driver direction_spread -20%
//! CLUBS off                 3 wood off
//! WHO level HANDICAP        putting level 5          mid irons level scratch
//! add club CLUB [FIGURES]   add club 7 wood          add club 7 wood speed 128mph launch 13 backspin 4200
//! ```
//!
//! Nothing but the figure that is named changes, save for the delivery: a change of how the head meets the ball goes
//! through the impact, and changes all five figures of the strike.

mod add;
mod amount;
mod apply;
mod deliver;
mod figure;
mod parse;
mod who;

use std::fmt;
use std::str::FromStr;

pub use add::NewClub;
pub use amount::{Amount, Standard};
pub use apply::CannotChange;
pub use figure::{Figure, MEANS};
pub use parse::ChangeFault;
pub use who::{Clubs, Group, Who};

use super::Golfer;
use super::bag::MOST_CLUBS;

/// One change of a golfer.
///
/// It is read from text, and written as text that is read back the same:
///
/// ```
/// use costcard::player::change::Change;
/// let change: Change = "6 Iron  spin + 500 rpm".parse().unwrap();
/// assert_eq!(change.to_string(), "6 iron backspin +500");
/// let fault = "6 iron bakspin +500".parse::<Change>().unwrap_err();
/// assert_eq!(fault.message, "`bakspin` is nothing of a club that can change");
/// assert_eq!(&"6 iron bakspin +500"[fault.span.clone()], "bakspin");
/// ```
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// A club that is not in the bag yet.
    Add(NewClub),
    /// Clubs left at home.
    Off(Clubs),
    /// Everything as golfers of a standard play it.
    Level(Who, Standard),
    /// One figure.
    Figure(Who, Figure, Amount),
}

impl FromStr for Change {
    type Err = ChangeFault;

    fn from_str(text: &str) -> Result<Self, ChangeFault> {
        parse::change(text)
    }
}

impl fmt::Display for Change {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Add(club) => write!(f, "add club {club}"),
            Self::Off(clubs) => write!(f, "{clubs} off"),
            Self::Level(who, standard) => write!(f, "{who} level {standard}"),
            Self::Figure(who, figure, amount) => write!(f, "{who} {figure} {amount}"),
        }
    }
}

impl serde::Serialize for Change {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// How many clubs a golfer carries beyond what the rules of golf allow: fourteen with the putter.
#[must_use]
pub fn clubs_too_many(golfer: &Golfer) -> usize {
    golfer.clubs.len().saturating_sub(MOST_CLUBS)
}
