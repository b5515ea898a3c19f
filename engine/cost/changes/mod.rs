//! What changes of a player are worth on a course.
//!
//! Strokes saved are differences of solved expected scores: there is no luck of rounds in them, and both golfers' shots
//! are drawn with the same numbers, so that no change is worth exactly nothing. Rounds are played only for the figures
//! that stand beside them.

mod flights;
mod ready;
mod sure;

pub use flights::{ClubChange, ClubFigures};
pub use ready::{Accuracy, Ready, ready};

pub(super) use ready::ready_rated;

use serde::Serialize;

use super::clubs_played::ClubsPlayed;
use super::decisions::{HoleAnswers, answers};
use super::effort::Effort;
use super::figures::Figures;
use super::infer::{self, Assume, Inference};
use super::rated::RatedFigures;
use super::{ByRules, PlayError, rating};
use crate::course::Course;
use crate::player::change::{CannotChange, Change, clubs_too_many};
use crate::player::club::Club;
use crate::player::{Golfer, faster_than_longer};
use crate::round::part::Part;
use crate::round::tally::Tally;
use ready::Weighed;

/// What changes are worth.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Tried {
    /// Each by itself.
    pub changes: Vec<TriedChange>,
    /// All together, made one after the other.
    pub together: Together,
    /// Golfers drawn who could be the player as well: intervals stand on them.
    pub golfers_drawn: u64,
    /// Those of them the changes can be made of; the others are left out.
    pub golfers_counted: u64,
    /// In which part of the game all together save it, counted over the rounds, with their luck.
    pub parts: Vec<PartSaved>,
    /// The player as he is.
    pub before: RatedFigures,
    /// The player with all changes. The expected strokes are those before less what is saved.
    pub after: RatedFigures,
    /// The clubs they touch.
    pub clubs: Vec<ClubChange>,
    /// Clubs beyond the fourteen that the rules of golf allow, with all changes made.
    pub clubs_too_many: usize,
    /// Clubs whose usual ball the changes make much faster than that of a longer one, each with that one.
    pub faster_than_longer: Vec<[Club; 2]>,
    /// Answers for the holes that were asked about, for the player with all changes.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub holes: Vec<HoleAnswers>,
}

/// One change by itself.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TriedChange {
    /// The change.
    pub change: Change,
    /// Strokes saved a round; negative where the score rises.
    pub saved: f64,
    /// The 90 % interval of it, by what was measured and assumed: from here; none where the changes can be made of fewer
    /// than half of the golfers drawn.
    pub low: Option<f64>,
    /// To here.
    pub high: Option<f64>,
}

/// All changes together.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Together {
    /// Strokes saved a round; negative where the score rises.
    pub saved: f64,
    /// The 90 % interval of it, by what was measured and assumed: from here; none where the changes can be made of fewer
    /// than half of the golfers drawn.
    pub low: Option<f64>,
    /// To here.
    pub high: Option<f64>,
}

/// What changes save in one part of the game.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PartSaved {
    /// The part.
    pub part: &'static str,
    /// Strokes saved a round in it: what its shots lose less to the player as he is, who loses nothing to himself.
    pub saved: f64,
}

/// By part: what rounds with the changes lose less than those without.
fn parts_saved([before, after]: [&Tally; 2]) -> Vec<PartSaved> {
    let lost = |tally: &Tally, part: Part| tally.lost[part as usize] / tally.rounds.max(1) as f64;
    let saved = |part: Part| PartSaved {
        part: part.name(),
        saved: lost(before, part) - lost(after, part),
    };
    Part::ALL.into_iter().map(saved).collect()
}

/// Pairs of clubs that changes bring out of order.
fn faster_now(player: &Golfer, changed: &Golfer) -> Vec<[Club; 2]> {
    let before = faster_than_longer(&player.clubs);
    let mut now = faster_than_longer(&changed.clubs);
    now.retain(|pair| !before.contains(pair));
    now
}

/// Why changes could not be tried.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum TryError {
    /// A change cannot be made of this player.
    #[error("{fault}")]
    Change {
        /// Which, by its place in the list.
        index: usize,
        /// Why.
        fault: CannotChange,
    },
    /// The rounds could not be played.
    #[error(transparent)]
    Play(#[from] PlayError),
}

/// The player with each change by itself, and behind them, where there are several, with all of them.
///
/// # Errors
/// The first change that cannot be made.
pub fn changed(player: &Golfer, changes: &[Change]) -> Result<Vec<Golfer>, TryError> {
    let cannot = |(index, fault)| TryError::Change { index, fault };
    let alone = changes.iter().enumerate().map(|(index, change)| {
        let changed = change.apply(player);
        changed.map_err(|fault| cannot((index, fault)))
    });
    let mut golfers: Vec<Golfer> = alone.collect::<Result<_, _>>()?;
    if changes.len() > 1 {
        golfers.push(Change::apply_all(changes, player).map_err(cannot)?);
    }
    Ok(golfers)
}

/// Rounds that [`try_changes`] plays at most, those of a rating among them: what `done` hears of.
#[must_use]
pub fn rounds(player: &Golfer, course: &Course, effort: Effort, assume: Assume) -> u64 {
    let inference = infer::rounds_of_rated(player, &[course], assume);
    2 * effort.rounds + rating::rounds(course, player.sex) + inference
}

/// What changes of a player are worth on a course, each alone and all together, with the figures of rounds before and
/// after, and answers for the holes whose numbers are `asked`. `done` hears of rounds as they are finished.
///
/// # Errors
/// When a change cannot be made, the level tables are at fault, or a rule fails.
pub fn try_changes(
    player: &Golfer,
    on: ByRules<'_>,
    changes: &[Change],
    asked: &[u32],
    (effort, assume): (Effort, Assume),
    done: &(dyn Fn(u64) + Sync),
) -> Result<Tried, TryError> {
    // A change that cannot be made is told before anything is worked out.
    changed(player, changes)?;
    ready(player, on, assume, done, |ready| {
        ready.tried(changes, asked, effort, done)
    })?
}

/// Answers for holes alone, for the player as he is, and what was inferred of him.
///
/// # Errors
/// When the level tables are at fault, or a rule fails.
pub fn ask_holes(
    player: &Golfer,
    on: ByRules<'_>,
    asked: &[u32],
    assume: Assume,
    done: &(dyn Fn(u64) + Sync),
) -> Result<(Vec<HoleAnswers>, Option<Inference>), PlayError> {
    ready(player, on, assume, done, |ready| {
        let holes = answers(ready.venue.course, ready.own, asked);
        (holes, ready.inference.clone())
    })
}

impl Ready<'_> {
    /// Everything there is to tell of some changes, with answers for the holes whose numbers are `asked`. `done` hears of
    /// rounds as they are finished.
    ///
    /// # Errors
    /// The first change that cannot be made of the player; a rule that fails.
    pub fn tried(
        &self,
        changes: &[Change],
        asked: &[u32],
        effort: Effort,
        done: &(dyn Fn(u64) + Sync),
    ) -> Result<Tried, TryError> {
        let golfers = changed(self.golfer, changes)?;
        let all = golfers.last().unwrap_or(self.golfer);
        let every: Vec<&Golfer> = golfers.iter().collect();
        let found = self.weigh_all(&every, Accuracy::Full, |number, weighed| {
            let is_all = number + 1 == golfers.len();
            let after = is_all.then(|| {
                let holes = answers(self.venue.course, weighed.solved, asked);
                let after = self.after(weighed, effort, done);
                let played = ClubsPlayed::of(weighed.solved, &after.1);
                (after, holes, played)
            });
            (weighed.saved(), after)
        });
        // Measured against himself, so that each part tells what it saves.
        let own = Some(self.own);
        let tally = self.venue.play_and_count(self.own, own, effort, done);
        let before = self.before(&tally, effort);
        self.venue.rules.outcome().map_err(PlayError::Rule)?;
        let saved: Vec<f64> = found.iter().map(|(saved, _)| *saved).collect();
        let last = found.into_iter().next_back().and_then(|(_, after)| after);
        let parts = last.as_ref().map(|((_, after), ..)| [&tally, after]);
        let parts = parts_saved(parts.unwrap_or([&tally; 2]));
        let own = ClubsPlayed::of(self.own, &tally);
        let (after, holes, then) = match last {
            Some(((after, _), holes, then)) => (after, holes, then),
            None => (before.clone(), Vec::new(), own.clone()),
        };
        let sure = self.sure(changes, &golfers, &saved, &tally)?;
        let ends = |interval: Option<[f64; 2]>| {
            (interval.map(|[low, _]| low), interval.map(|[_, high]| high))
        };
        let each = changes
            .iter()
            .cloned()
            .zip(saved.iter().zip(&sure.intervals));
        // No change is worth nothing for sure.
        let together = sure.intervals.last().copied();
        let (low, high) = ends(together.unwrap_or(Some([0.0; 2])));
        Ok(Tried {
            together: Together {
                saved: saved.last().copied().unwrap_or(0.0),
                low,
                high,
            },
            changes: each
                .map(|(change, (&saved, &interval))| {
                    let (low, high) = ends(interval);
                    TriedChange {
                        change,
                        saved,
                        low,
                        high,
                    }
                })
                .collect(),
            golfers_drawn: sure.drawn,
            golfers_counted: sure.counted,
            parts,
            before,
            after,
            clubs: flights::touched([(self.golfer, &own), (all, &then)], self.venue.rules)?,
            clubs_too_many: clubs_too_many(all),
            faster_than_longer: faster_now(self.golfer, all),
            holes,
        })
    }

    /// Rounds of the player as he is.
    pub(in crate::cost) fn rounds(&self, effort: Effort, done: &(dyn Fn(u64) + Sync)) -> Tally {
        self.venue.play_and_count(self.own, None, effort, done)
    }

    /// The figures of them.
    pub(in crate::cost) fn before(&self, tally: &Tally, effort: Effort) -> RatedFigures {
        let figures = Figures::new(self.venue.course, self.own, tally, effort.seed);
        self.rated(figures, tally)
    }

    /// Expected strokes are those before less what is saved, hole by hole, so that the two say the same.
    fn after(
        &self,
        weighed: &Weighed<'_>,
        effort: Effort,
        done: &(dyn Fn(u64) + Sync),
    ) -> (RatedFigures, Tally) {
        let own = Some(self.own);
        let tally = self.venue.play_and_count(weighed.solved, own, effort, done);
        let mut figures = Figures::new(self.venue.course, self.own, &tally, effort.seed);
        figures.expected_strokes -= weighed.saved();
        for (hole, saved) in figures.holes.iter_mut().zip(&weighed.saved) {
            hole.expected_strokes -= saved;
        }
        (self.rated(figures, &tally), tally)
    }
}
