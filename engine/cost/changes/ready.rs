//! A player on a course, solved, ready to be asked again and again what changes are worth.

use rayon::prelude::*;

use crate::cost::effort::Effort;
use crate::cost::figures::{Figures, expected_score};
use crate::cost::infer::{self, Assume, Inference, Inferred};
use crate::cost::rated::RatedFigures;
use crate::cost::rating::{self, CourseRating};
use crate::cost::venue::{Home, Venue};
use crate::cost::{ByRules, PlayError};
use crate::player::Golfer;
use crate::player::levels::LevelError;
use crate::round::choose::SwingId;
use crate::round::side::Side;
use crate::round::solve::{Solved, Thought};
use crate::round::stage::{HoleBanks, Stage};
use crate::round::tally::Tally;

/// So many golfers come to a stage at once: a swing has room for the number of 256 golfers, and all their shots are kept
/// meanwhile.
const MOST_GUESTS: usize = 64;

/// A change that costs more than this, strokes a round, is solved from nothing: from the player's solution one that costs
/// fifteen came out up to a stroke too cheap, since places where the player never is keep some of what he makes there.
const MUCH_WORSE: f64 = 1.0;

/// A player on a course: shots flown, holes solved. Only what a change touches is flown and solved anew.
#[derive(Debug, Clone)]
pub struct Ready<'a> {
    pub(super) venue: Venue<'a>,
    pub(super) golfer: &'a Golfer,
    pub(super) own: &'a [Solved<'a>],
    /// Where the course has a rating: what an index is made with.
    pub(super) home: Option<Home<'a>>,
    /// Whether the course file states it.
    pub(super) is_stated: bool,
    /// What was inferred of the player's short game.
    pub(super) inference: Option<Inference>,
}

/// Sets a course up for a player and hands it over, what nobody measured of the short game inferred where that is
/// asked for and can be done. `done` hears of rounds as they are finished.
///
/// ```
/// use costcard::cost::{changes::{Accuracy, ready}, infer::Assume};
/// use costcard::{course::embedded, player::{Sex, levels}, rules::Rulebook};
/// let golfer = levels::level(12.0, Sex::Men)?;
/// let (mut course, rules) = (embedded::course("parkland")?, Rulebook::default());
/// course.holes.truncate(1);
/// let better = "putting level 5".parse::<costcard::player::change::Change>()?.apply(&golfer)?;
/// let saved = ready(&golfer, (&course, &rules), Assume::Level, &|_| (), |ready| {
///     ready.saved(&[&golfer, &better], Accuracy::Full)
/// })?;
/// assert_eq!(saved[0], 0.0);
/// assert!(saved[1] > 0.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// When the level tables are at fault, or a rule fails.
pub fn ready<R>(
    player: &Golfer,
    (course, rules): ByRules<'_>,
    assume: Assume,
    done: &(dyn Fn(u64) + Sync),
    then: impl FnOnce(&Ready<'_>) -> R,
) -> Result<R, PlayError> {
    let rated = || rating::of_by_rules(course, rules, player.sex, done);
    ready_rated(player, (course, rules), &rated, assume, done, then)
}

/// The same with the rating of the course from whoever has it already.
pub(in crate::cost) fn ready_rated<R>(
    player: &Golfer,
    (course, rules): ByRules<'_>,
    rated: &dyn Fn() -> Result<Option<CourseRating>, LevelError>,
    assume: Assume,
    done: &(dyn Fn(u64) + Sync),
    then: impl FnOnce(&Ready<'_>) -> R,
) -> Result<R, PlayError> {
    let golfers = [player];
    let stage = Stage::by_rules(course, &golfers, rules);
    let banks = stage.hole_banks();
    let side = stage.side(|_| 0);
    let venue = Venue {
        course,
        rules,
        stage: &stage,
        banks: &banks,
    };
    let first = venue.solve(&side, None);
    let found = rated()?;
    rules.outcome()?;
    let home = found.as_ref().map(|found| Home {
        venue,
        rating: found.rating,
        own: &first,
    });
    let inferred = match home {
        Some(home) if infer::is_wanted_of_rated(player, &[course], assume) => {
            infer::on(player, &[home], done)?
        }
        _ => infer::untouched(player),
    };
    let Inferred { golfer, inference } = inferred;
    let side = stage.side_of(&[&golfer], |_| 0);
    let own = venue.solve(&side, Some(&first));
    let ready = Ready {
        venue,
        golfer: &golfer,
        own: &own,
        home,
        is_stated: found.is_some_and(|found| found.stated),
        inference,
    };
    let result = then(&ready);
    rules.outcome()?;
    Ok(result)
}

/// How closely changes are weighed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Accuracy {
    /// Every club and target is thought about again.
    #[default]
    Full,
    /// Tee shots are; everywhere else the changed clubs are looked at, and taken where clearly better, but not aimed
    /// anew yard by yard.
    Quick,
}

/// A changed player beside the player as he is.
pub(super) struct Weighed<'a> {
    /// Strokes saved, by hole.
    pub saved: Vec<f64>,
    /// The holes as the changed player plays them.
    pub solved: &'a [Solved<'a>],
}

impl Weighed<'_> {
    /// Strokes saved a round.
    pub fn saved(&self) -> f64 {
        self.saved.iter().sum()
    }
}

impl Ready<'_> {
    /// The player as he is played: with what was inferred of him.
    #[must_use]
    pub fn golfer(&self) -> &Golfer {
        self.golfer
    }

    /// The course with his shots on it.
    pub(in crate::cost) const fn venue(&self) -> Venue<'_> {
        self.venue
    }

    /// His holes, solved.
    pub(in crate::cost) const fn own(&self) -> &[Solved<'_>] {
        self.own
    }

    /// What was inferred of his short game; none where nothing was.
    #[must_use]
    pub const fn inference(&self) -> Option<&Inference> {
        self.inference.as_ref()
    }

    /// The figures of his rounds, as `play` tells them. Whoever shows them asks [`outcome`](crate::rules::Rulebook::outcome)
    /// first.
    #[must_use]
    pub fn played(&self, effort: Effort, done: &(dyn Fn(u64) + Sync)) -> RatedFigures {
        let tally = self.rounds(effort, done);
        self.before(&tally, effort)
    }

    /// His expected score.
    #[must_use]
    pub fn expected_strokes(&self) -> f64 {
        expected_score(self.own)
    }

    /// Strokes saved a round by each of some golfers in place of the player: the fall of the expected score. Their
    /// shots are drawn with the same numbers as his; a golfer who is the player saves exactly nothing.
    #[must_use]
    pub fn saved(&self, golfers: &[&Golfer], accuracy: Accuracy) -> Vec<f64> {
        self.weigh_all(golfers, accuracy, |_, weighed| weighed.saved())
    }

    /// Weighs golfers beside the player, and hands each result over with its number.
    pub(super) fn weigh_all<R: Send>(
        &self,
        golfers: &[&Golfer],
        accuracy: Accuracy,
        then: impl Fn(usize, &Weighed<'_>) -> R + Sync,
    ) -> Vec<R> {
        let stage = self.venue.stage;
        let mut all = Vec::new();
        for few in golfers.chunks(MOST_GUESTS) {
            let before = all.len();
            let guests = stage.guests(few);
            let banks = stage.with_guests(self.venue.banks, &guests);
            let weigh = |(number, golfer): (usize, &&Golfer)| {
                let side = stage.side_of_guest(&guests, number, golfer);
                let then = |weighed: &Weighed<'_>| then(before + number, weighed);
                self.weigh(golfer, (&banks, &side), accuracy, then)
            };
            all.par_extend(few.par_iter().enumerate().map(weigh));
        }
        all
    }

    /// The figures of rounds with what the course's rating makes of them.
    pub(super) fn rated(&self, figures: Figures, tally: &Tally) -> RatedFigures {
        RatedFigures::new(
            figures,
            tally,
            self.venue.rules,
            self.golfer.handicap,
            (self.home, self.is_stated),
            self.inference.clone(),
        )
    }

    /// Weighs a changed golfer's side beside the player's own, hole by hole, and hands the result over with the solved holes.
    ///
    /// A golfer whose play was thought about once more has the edge over one who was not, be he no better. So the
    /// player is valued with the other's choices too, the other with the player's, and each is taken at his best. With a
    /// club more he can play whatever he played without it.
    fn weigh<R>(
        &self,
        golfer: &Golfer,
        (banks, side): (&[HoleBanks<'_>], &Side),
        accuracy: Accuracy,
        then: impl FnOnce(&Weighed<'_>) -> R,
    ) -> R {
        let stage = self.venue.stage;
        let after = |thought| stage.solve_after(banks, side, self.own, thought);
        if accuracy == Accuracy::Quick || side.field == self.own_field() {
            let solved = after(Thought::Brisk);
            let pairs = self.own.iter().zip(&solved);
            let saved = pairs.map(|(own, other)| tee(own) - tee(other)).collect();
            return then(&Weighed {
                saved,
                solved: &solved,
            });
        }
        let (solved, kept) = (after(Thought::Whole), after(Thought::Kept));
        let own_side = stage.side_of(&[self.golfer], |_| 0);
        let swapped = stage.solve_after(banks, &own_side, &solved, Thought::Kept);
        let (adds, removes) = (
            only_adds(self.golfer, golfer),
            only_adds(golfer, self.golfer),
        );
        let bounded = |saved: f64| match (adds, removes) {
            (true, _) => saved.max(0.0),
            (_, true) => saved.min(0.0),
            _ => saved,
        };
        let holes = 0..self.own.len();
        let saved: Vec<f64> = holes
            .map(|hole| {
                let before = tee(&self.own[hole]).min(tee(&swapped[hole]));
                let after = tee(&solved[hole]).min(tee(&kept[hole]));
                bounded(before - after)
            })
            .collect();
        if saved.iter().sum::<f64>() > -MUCH_WORSE {
            return then(&Weighed {
                saved,
                solved: &solved,
            });
        }
        // He plays from places where the player never is, and is at home in none of the choices handed on to him.
        let afresh = stage.solve(banks, side, None);
        let pairs = self.own.iter().zip(&afresh);
        let saved = pairs.map(|(own, other)| bounded(tee(own) - tee(other)));
        then(&Weighed {
            saved: saved.collect(),
            solved: &afresh,
        })
    }

    fn own_field(&self) -> Vec<SwingId> {
        self.venue.stage.side_of(&[self.golfer], |_| 0).field
    }
}

/// Whether a changed player is the player with clubs more, and nothing else.
pub(super) fn only_adds(player: &Golfer, changed: &Golfer) -> bool {
    let has_all = player.clubs.iter().all(|club| changed.clubs.contains(club));
    has_all && changed.clubs.len() > player.clubs.len() && is_same_near(player, changed)
}

/// Whether a changed player chips, plays from sand and putts as the player does.
pub(super) fn is_same_near(player: &Golfer, changed: &Golfer) -> bool {
    (player.short_game, player.sand, player.putting)
        == (changed.short_game, changed.sand, changed.putting)
}

/// Expected strokes from the tee.
fn tee(solved: &Solved<'_>) -> f64 {
    f64::from(solved.values.tee)
}
