//! The detail of a card: why each part costs what it does, its share of the whole gap, and how sure it all is.

use rayon::prelude::*;
use serde::Serialize;

use crate::player::Golfer;
use crate::player::levels::LevelError;
use crate::round::part::Part;
use crate::round::solve::Solved;
use crate::round::tally::Tally;

use super::figures::expected_score;
use super::infer::Inferred;
use super::shares::shares;
use super::sure::{MoreShots, Sure, sure};
use super::traits::{TraitCost, Weighing, as_he_is, rounds_visited, traits};
use super::venue::Venue;

/// Why the parts cost what they do.
#[derive(Debug, Clone, PartialEq)]
pub struct Detail {
    /// By part, in the order of [`Part::ALL`]: its traits, the costliest first.
    pub traits: Vec<Vec<TraitCost>>,
    /// By part: its share of the gap. They add up to [`Self::gap`].
    pub shares: Vec<f64>,
    /// The player's expected score less that of the goal's golfer.
    pub gap: f64,
    /// How sure the parts' savings are.
    pub sure: Sure,
}

/// The short game, sand shots and putts of golfers of one handicap differ like those of golfers so many strokes of
/// handicap apart (standard deviation; an assumption, no published source).
const SKILL_SD: f64 = 4.0;

/// What is known of the player's short game, sand shots and putts where nobody measured them.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Known {
    /// The player with assumed skills one standard deviation better, and worse.
    pub(super) better_and_worse: [Golfer; 2],
    /// Whether they were settled by the player's own handicap: then a player whose long game is worse than it seems is
    /// better near the hole.
    pub(super) by_handicap: bool,
}

impl Known {
    /// Nothing was inferred: the skills are those of his handicap.
    pub fn as_he_stands(player: &Golfer) -> Result<Self, LevelError> {
        Self::around(player, player.handicap, false)
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
        })
    }
}

/// The player and the goal's golfer on a course, both solved.
#[derive(Clone, Copy)]
pub(super) struct Both<'a> {
    pub golfers: [&'a Golfer; 2],
    pub venue: Venue<'a>,
    pub own: &'a [Solved<'a>],
    pub target: &'a [Solved<'a>],
}

impl Both<'_> {
    /// The detail of the parts that save so much each.
    pub fn detail(
        &self,
        tally: &Tally,
        saved: &[f64],
        work_on: Option<Part>,
        known: &Known,
    ) -> Detail {
        let now = as_he_is(&self.venue, self.own, &tally.visits);
        let weighing = Weighing {
            venue: self.venue,
            own: self.own,
            visits: &tally.visits,
            now: &now,
            rounds: rounds_visited(tally.rounds),
        };
        let gap = expected_score(self.own) - expected_score(self.target);
        Detail {
            traits: traits(&weighing, &self.golfers),
            shares: shares(saved, &self.saved_last(), gap),
            gap,
            sure: sure(&weighing, self.golfers[0], known, saved, work_on),
        }
    }

    /// What each part saves when every other is at the goal's standard already.
    fn saved_last(&self) -> Vec<f64> {
        let with_all = expected_score(self.target);
        let saving = |kept: Part| {
            let plays = |part| usize::from(part != kept);
            let side = self.venue.stage.side_of(&self.golfers, plays);
            expected_score(&self.venue.solve(&side, Some(self.target))) - with_all
        };
        Part::ALL.into_par_iter().map(saving).collect()
    }
}

/// What the detail says of the whole card, as other programs read it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct DetailDocument {
    told_apart: bool,
    more_shots: Vec<MoreShots>,
    shapley_sum: f64,
}

/// What it says of one part.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct PartDetailDocument {
    low: f64,
    high: f64,
    first_chance: f64,
    share: f64,
    traits: Vec<TraitDocument>,
}

#[derive(Debug, Clone, PartialEq, Serialize)]
struct TraitDocument {
    #[serde(rename = "trait")]
    name: &'static str,
    saved: f64,
}

impl From<&Detail> for DetailDocument {
    fn from(detail: &Detail) -> Self {
        Self {
            told_apart: detail.sure.told_apart,
            more_shots: detail.sure.more_shots.clone(),
            shapley_sum: detail.shares.iter().sum(),
        }
    }
}

impl Detail {
    pub(super) fn of_part(&self, part: Part) -> PartDetailDocument {
        let part = part as usize;
        let [low, high] = self.sure.intervals[part];
        let document = |found: &TraitCost| TraitDocument {
            name: found.which.name(),
            saved: found.saved,
        };
        PartDetailDocument {
            low,
            high,
            first_chance: self.sure.first_chances[part],
            share: self.shares[part],
            traits: self.traits[part].iter().map(document).collect(),
        }
    }
}
