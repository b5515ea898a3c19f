//! Batches of measured shots: read from sheets of any layout, screened for misreads, filled by physics.
//!
//! A sheet is read as a stream and screened as it is read, so that memory grows with the clubs and not with the rows:
//! of a club's sound shots at most [`MOST_KEPT`] are kept, drawn evenly from all of them, and of its misreads at most
//! [`MOST_LISTED`] are listed, the rest counted.
//!
//! ```
//! use costcard::files::Source;
//! use costcard::player::batch::{Batch, ColumnMap, Input, Overrule};
//! let sheet = Source::new(
//!     "bay.csv",
//!     "club;ball_speed_kmh;launch_deg;direction_deg;backspin_rpm;sidespin_rpm\n\
//!      7 iron;170,3;16,1;0,8 L;5 880;-120\n\
//!      7 iron;166,9;15,2;1,9 R;6 020;240\n",
//! );
//! let batch = Batch::read(vec![Input::Text(sheet)], &ColumnMap::default(), &Overrule::default())?;
//! assert_eq!(batch.shots.len(), 2);
//! assert!(batch.shots.iter().all(|shot| shot.misread.is_none()));
//! # Ok::<(), costcard::files::Faults>(())
//! ```

mod cells;
mod column_map;
mod day;
mod figures;
mod golfers;
mod header;
mod input;
mod intake;
mod lacking;
mod layout;
mod misread;
mod number;
mod plain;
pub mod quantity;
mod read;
mod reference;
mod repeats;
mod screen;
mod side_check;
mod told;
mod totals;
mod unit_check;

use std::collections::BTreeMap;
use std::sync::Arc;

pub use column_map::ColumnMap;
pub(in crate::player) use column_map::{KEYS as MAP_KEYS, quoted};
pub use day::order_of_days;
pub use figures::Figures;
pub use input::{Input, Overrule, RowName};
pub use misread::Misread;
pub use quantity::Quantity;

use super::club::Club;
use super::pattern::Five;
use crate::files::Faults;

/// Sound shots kept of one club.
pub const MOST_KEPT: usize = 4000;
/// Misreads listed of one club.
pub const MOST_LISTED: usize = 1000;

/// Measured shots, screened.
#[derive(Debug, Clone, PartialEq)]
pub struct Batch {
    /// The sheets, as the user named them.
    pub files: Vec<Arc<str>>,
    /// The sessions, in the order they were first met.
    pub sessions: Vec<Session>,
    /// The shots in order of file and row: sound ones as far as they are kept, misreads as far as they are listed.
    pub shots: Vec<Shot>,
    /// How many there were of each club.
    pub counts: BTreeMap<Club, Count>,
    /// Rows that are no shots, by what they are.
    pub passed: BTreeMap<PassedKind, Passed>,
    /// Columns that were not read, each header once.
    pub unread: Vec<Unread>,
    /// Carries that could be in another unit of length than was said, one a sheet.
    pub unit_doubts: Vec<UnitDoubt>,
    /// Columns whose sign may be the other one.
    pub side_doubts: Vec<SideDoubt>,
    /// Columns some sheet had.
    pub columns: Vec<Quantity>,
}

/// A session of practice.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Session {
    /// Its name: from the column `session`, otherwise its day, otherwise the sheet's name.
    pub name: Arc<str>,
    /// The day of its first shot, as it is written in the sheet.
    pub date: Option<Arc<str>>,
    /// Shots, misreads included.
    pub shots: usize,
}

/// One measured shot.
#[derive(Debug, Clone, PartialEq)]
pub struct Shot {
    /// Which of the batch's files.
    pub file: usize,
    /// Line of the file, from 1.
    pub row: usize,
    /// The club.
    pub club: Club,
    /// Which of the batch's sessions.
    pub session: usize,
    /// What is known of it, as an onlooker sees it: left-handers' figures are not turned.
    pub figures: Figures,
    /// Why it is left out, when it is.
    pub misread: Option<Misread>,
}

impl Shot {
    /// What it is known again by, wherever it stands: its club and its measured figures.
    pub(in crate::player) fn mark(&self) -> (Club, Vec<u64>) {
        let figures = Quantity::ALL.into_iter();
        let measured = figures.filter_map(|quantity| self.figures.measured(quantity));
        // Adding nothing turns a negative zero into a plain one.
        let bits = measured.map(|value| (value + 0.0).to_bits());
        (self.club, bits.collect())
    }
}

/// How many shots there were of a club.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Count {
    /// All of them.
    pub shots: usize,
    /// Left out as misreads.
    pub misreads: usize,
}

impl Count {
    /// Those not left out.
    #[must_use]
    pub fn sound(self) -> usize {
        self.shots - self.misreads
    }
}

/// Rows of one kind that are no shots.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Passed {
    /// How many.
    pub rows: usize,
    /// Which of the batch's files the first stands in.
    pub file: usize,
    /// Line of that file, from 1.
    pub row: usize,
}

/// Carries that would fit their launches in another unit, which the ball or the air may explain too.
#[derive(Debug, Clone, PartialEq)]
pub struct UnitDoubt {
    /// Which of the batch's files.
    pub file: usize,
    /// The usual carry over what its launch flies.
    pub share: f64,
    /// The unit that would fit.
    pub unit: &'static str,
    /// What the column would then be called.
    pub column: String,
    /// Whether spin was measured too; it is worked out from the carries otherwise.
    pub spin_measured: bool,
}

/// A column that says of balls the other side than they were measured to end on, by most of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SideDoubt {
    /// Which of the batch's files.
    pub file: usize,
    /// The column that would fit with its sign turned round.
    pub column: Quantity,
}

/// A column that is not read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unread {
    /// Its header.
    pub header: String,
    /// The quantity its header is like, where no column with it was read.
    pub like: Option<Quantity>,
}

/// What a row is that is no shot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum PassedKind {
    /// Before the column names.
    Preamble,
    /// The units of the columns.
    Units,
    /// The column names once more.
    Header,
    /// Nothing in any cell.
    Blank,
    /// One cell that is no figure.
    Title,
    /// An average, a total or the like.
    Totals,
    /// Of something the map calls no club.
    NoClub,
    /// Of a putter.
    Putter,
}

impl Batch {
    /// Reads and screens sheets.
    ///
    /// # Errors
    /// Every fault of the sheets; columns that contradict each other; a club of which every shot is a misread; an
    /// overruled row that is none.
    pub fn read(inputs: Vec<Input>, map: &ColumnMap, overrule: &Overrule) -> Result<Self, Faults> {
        intake::read(inputs, map, overrule)
    }

    /// The sound shots kept of a club.
    pub fn sound(&self, club: Club) -> impl Iterator<Item = &Shot> {
        let of_club = self.shots.iter().filter(move |shot| shot.club == club);
        of_club.filter(|shot| shot.misread.is_none())
    }

    /// The session of this name or day.
    #[must_use]
    pub fn session_named(&self, name: &str) -> Option<usize> {
        let is = |text: &str| text.eq_ignore_ascii_case(name.trim());
        let by = |named: &dyn Fn(&Session) -> bool| self.sessions.iter().position(named);
        by(&|session| is(&session.name))
            .or_else(|| by(&|session| session.date.as_deref().is_some_and(is)))
    }

    /// The shots of this batch and another together; their sessions and files are those of this one.
    #[must_use]
    pub(in crate::player) fn and(&self, other: &Self) -> Self {
        let mut both = self.clone();
        both.shots.extend(other.shots.iter().cloned());
        for (club, count) in &other.counts {
            let sum = both.counts.entry(*club).or_default();
            sum.shots += count.shots;
            sum.misreads += count.misreads;
        }
        both
    }

    /// The shots of one session. Counted are those kept and listed.
    #[must_use]
    pub fn of_session(&self, session: usize) -> Self {
        let of_it = self.shots.iter().filter(|shot| shot.session == session);
        let shots: Vec<Shot> = of_it
            .map(|shot| Shot {
                session: 0,
                ..shot.clone()
            })
            .collect();
        let mut counts: BTreeMap<Club, Count> = BTreeMap::new();
        for shot in &shots {
            let count = counts.entry(shot.club).or_default();
            count.shots += 1;
            count.misreads += usize::from(shot.misread.is_some());
        }
        Self {
            sessions: self.sessions.get(session).cloned().into_iter().collect(),
            shots,
            counts,
            files: self.files.clone(),
            passed: BTreeMap::new(),
            unread: self.unread.clone(),
            unit_doubts: self.unit_doubts.clone(),
            side_doubts: self.side_doubts.clone(),
            columns: self.columns.clone(),
        }
    }

    /// All shots, misreads included.
    #[must_use]
    pub fn shot_count(&self) -> usize {
        self.counts.values().map(|count| count.shots).sum()
    }

    /// Shots left out as misreads, listed or not.
    #[must_use]
    pub fn misread_count(&self) -> usize {
        self.counts.values().map(|count| count.misreads).sum()
    }

    /// The misreads listed.
    pub fn misreads(&self) -> impl Iterator<Item = (&Shot, &Misread)> {
        let with_reason = |shot: &'_ Shot| shot.misread.is_some();
        let listed = self.shots.iter().filter(move |shot| with_reason(shot));
        listed.filter_map(|shot| Some((shot, shot.misread.as_ref()?)))
    }
}

impl Shot {
    /// The five figures of the strike, once all are known.
    #[must_use]
    pub fn strike(&self) -> Option<Five> {
        let [a, b, c, d, e] = Quantity::STRIKE.map(|quantity| self.figures.get(quantity));
        Some([a?, b?, c?, d?, e?])
    }
}
