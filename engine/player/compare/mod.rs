//! Before and after: what changed of each club, and whether the change is real or noise at this number of shots.
//!
//! Every quantity that both sides measured is compared by its mean without the highest and lowest tenth; carry and side
//! also by how widely they spread. With a dozen clubs and as many quantities chance alone makes some change look
//! large, so a change is called real only when it is greater than what chance makes of *any* of them: see
//! [`Deals`].

mod bags;
mod column;
mod permute;
mod trimmed;

use std::collections::HashSet;

use serde::Serialize;

pub use bags::{Bags, BagsFault, When};
pub use column::Measure;
pub use permute::Deals;

use super::batch::{Batch, Quantity, Shot};
use super::club::Club;
use column::{Column, columns};
use permute::{Table, judge};
use trimmed::{Contrast, Trimmed};

/// The chance with which chance alone may call any change of a comparison real. One in twenty is the custom; a little
/// less, so that counts over many comparisons stay under that too.
pub const LEVEL: f64 = 0.04;
/// The chance with which the interval of a change holds the true one.
pub const INTERVAL: f64 = 0.9;
/// Shots of a side below which nothing is tested.
pub const FEWEST: usize = 4;
/// Where the normal distribution has four in five below: how sure "would be enough shots" is to be.
const FOUR_IN_FIVE: f64 = 0.8416;
/// More shots than anybody hits in a lesson: no use to a coach.
const MOST_TO_DECIDE: usize = 500;

/// What changed between two sessions.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// The clubs hit in both, longest first.
    pub clubs: Vec<ClubChanges>,
    /// Clubs hit in one only, before and after.
    pub alone: [Vec<Club>; 2],
}

/// What changed of one club.
#[derive(Debug, Clone, PartialEq)]
pub struct ClubChanges {
    /// Which club.
    pub club: Club,
    /// Sound shots, before and after.
    pub shots: [usize; 2],
    /// What is compared.
    pub changes: Vec<Change>,
}

/// What changed of one measure, in the trade's unit of its quantity.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Change {
    /// What is compared.
    #[serde(rename = "quantity")]
    pub measure: Measure,
    /// Its mean before, the lowest and highest tenth left out.
    pub before: f64,
    /// The same after.
    pub after: f64,
    /// After less before.
    pub change: f64,
    /// Where the 90 % interval of the change begins; none where a side has a single shot.
    pub low: Option<f64>,
    /// Where it ends.
    pub high: Option<f64>,
    /// Whether the change is greater than what chance makes of any.
    pub real: bool,
    /// Whether there were shots enough to tell.
    pub tested: bool,
    /// Whether it was measured; otherwise the measured strikes were flown in standard air.
    pub measured: bool,
    /// Where the interval leaves out 0 but chance can still make such a change: about how many shots a side would
    /// show it in four of five comparisons, if it is as large as it looks.
    pub shots_to_tell: Option<usize>,
}

/// Why nothing can be compared.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum CompareFault {
    /// No club was hit on both sides.
    #[error("no club was hit both before and after")]
    NoCommonClub([Vec<Club>; 2]),
    /// The clubs hit on both sides have no figure in common.
    #[error("before and after have no measured quantity in common")]
    NoCommonQuantity([Vec<Quantity>; 2]),
    /// Shots after that are also before, to the last figure.
    #[error("{shared} of the {after} shots after are also before")]
    SharedShots {
        /// How many.
        shared: usize,
        /// Shots after.
        after: usize,
    },
}

impl Comparison {
    /// Compares two batches.
    ///
    /// # Errors
    /// When they have no club or quantity in common, or share shots.
    pub fn of(before: &Batch, after: &Batch, deals: Deals) -> Result<Self, CompareFault> {
        let batches = [before, after];
        let shared = shared_shots(batches);
        if shared > 0 {
            let after = after.shots.len();
            return Err(CompareFault::SharedShots { shared, after });
        }
        let hit = batches.map(clubs);
        let common: Vec<Club> = hit[0]
            .iter()
            .copied()
            .filter(|club| hit[1].contains(club))
            .collect();
        if common.is_empty() {
            return Err(CompareFault::NoCommonClub(hit));
        }
        let of_clubs: Vec<OfClub> = common
            .iter()
            .map(|club| OfClub::new(*club, batches))
            .collect();
        if of_clubs.iter().all(|club| club.columns.is_empty()) {
            return Err(CompareFault::NoCommonQuantity(
                batches.map(|batch| batch.columns.clone()),
            ));
        }
        Ok(Self {
            clubs: changes(&of_clubs, deals),
            alone: hit.map(|mut clubs| {
                clubs.retain(|club| !common.contains(club));
                clubs
            }),
        })
    }

    /// The changes that are real, club by club.
    pub fn real(&self) -> impl Iterator<Item = (Club, &Change)> {
        let of_club = |club: &'_ ClubChanges| club.club;
        let all = self.clubs.iter().flat_map(move |club| {
            club.changes
                .iter()
                .map(move |change| (of_club(club), change))
        });
        all.filter(|(_, change)| change.real)
    }
}

/// Clubs with a sound shot.
fn clubs(batch: &Batch) -> Vec<Club> {
    let counts = batch.counts.iter();
    counts
        .filter(|(club, _)| batch.sound(**club).next().is_some())
        .map(|(club, _)| *club)
        .collect()
}

/// Figures a shot must have to be known again.
const TELLING: usize = 4;

/// How many shots after are also before. Shots of few figures may be alike by chance, so they count only when all are.
fn shared_shots([before, after]: [&Batch; 2]) -> usize {
    let known: HashSet<(Club, Vec<u64>)> = before.shots.iter().map(Shot::mark).collect();
    let shared = |shot: &&Shot| known.contains(&shot.mark());
    let sound = |batch: &Batch| {
        batch
            .shots
            .iter()
            .filter(|shot| shot.misread.is_none())
            .count()
    };
    let count = after
        .shots
        .iter()
        .filter(|shot| shot.misread.is_none() && shared(shot));
    let (telling, few): (Vec<&Shot>, Vec<&Shot>) =
        count.partition(|shot| shot.mark().1.len() >= TELLING);
    let all = telling.len() + few.len();
    if all == sound(after) {
        all
    } else {
        telling.len()
    }
}

/// One club, before and after.
struct OfClub {
    club: Club,
    shots: [usize; 2],
    columns: Vec<Column>,
}

impl OfClub {
    fn new(club: Club, batches: [&Batch; 2]) -> Self {
        // Whatever order they stand in, the same shots are dealt alike.
        let shots = batches.map(|batch| {
            let mut shots: Vec<&Shot> = batch.sound(club).collect();
            shots.sort_by_cached_key(|shot| shot.mark());
            shots
        });
        Self {
            club,
            shots: [shots[0].len(), shots[1].len()],
            columns: columns([&shots[0], &shots[1]]),
        }
    }

    /// The figures of a column before and after, each in rising order.
    fn sides(&self, column: &Column) -> [Vec<f64>; 2] {
        [false, true].map(|after| {
            let figures = column.rising.iter();
            let of_side = figures.filter(|(shot, _)| (*shot >= self.shots[0]) == after);
            of_side.map(|(_, value)| *value).collect()
        })
    }

    fn is_tested(&self, column: &Column) -> bool {
        self.sides(column).iter().all(|side| side.len() >= FEWEST)
    }

    fn tested(&self) -> Table<'_> {
        let columns = self.columns.iter();
        Table {
            shots: self.shots,
            columns: columns.filter(|column| self.is_tested(column)).collect(),
        }
    }
}

fn changes(clubs: &[OfClub], deals: Deals) -> Vec<ClubChanges> {
    let tables: Vec<Table<'_>> = clubs.iter().map(OfClub::tested).collect();
    let ruling = judge(&tables, deals, LEVEL);
    let mut chances = ruling.chances.into_iter();
    let of_club = |club: &OfClub| ClubChanges {
        club: club.club,
        shots: club.shots,
        changes: club
            .columns
            .iter()
            .map(|column| {
                let chance = club.is_tested(column).then(|| chances.next()).flatten();
                change(column, &club.sides(column), chance, ruling.critical)
            })
            .collect(),
    };
    clubs.iter().map(of_club).collect()
}

/// One change. `chance`: that chance alone makes as great a change of any; none where it was not tested.
fn change(column: &Column, sides: &[Vec<f64>; 2], chance: Option<f64>, critical: f64) -> Change {
    let [before, after] = sides.each_ref().map(|side| Trimmed::of(side));
    let contrast = before
        .zip(after)
        .map(|(before, after)| Contrast::of(&before, &after));
    let interval = contrast.map(|contrast| contrast.interval(INTERVAL));
    let mean = |trimmed: Option<Trimmed>, side: &[f64]| {
        trimmed.map_or_else(|| side.first().copied().unwrap_or_default(), |one| one.mean)
    };
    let (from, to) = (mean(before, &sides[0]), mean(after, &sides[1]));
    let real = chance.is_some_and(|chance| chance <= LEVEL);
    let looks_changed = interval.is_some_and(|(low, high)| low > 0.0 || high < 0.0);
    let open = contrast.filter(|_| chance.is_some() && looks_changed && !real);
    Change {
        measure: column.measure,
        before: from,
        after: to,
        change: to - from,
        low: interval.map(|(low, _)| low),
        high: interval.map(|(_, high)| high),
        real,
        tested: chance.is_some(),
        measured: column.measured,
        shots_to_tell: open.and_then(|contrast| {
            shots_to_tell(contrast.size(), critical, [sides[0].len(), sides[1].len()])
        }),
    }
}

/// The size of a change grows with the root of the shots: how many lift it so far over the critical one that four of
/// five comparisons show it.
fn shots_to_tell(size: f64, critical: f64, shots: [usize; 2]) -> Option<usize> {
    // What counts of uneven sides is the mean of 1/n.
    let [before, after] = shots.map(|count| count as f64);
    let now = 2.0 / (1.0 / before + 1.0 / after);
    let needed = (now * ((critical + FOUR_IN_FIVE) / size).powi(2)).ceil();
    (needed <= MOST_TO_DECIDE as f64).then_some(needed as usize)
}
