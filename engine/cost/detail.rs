//! The detail of a card: why each part costs what it does, its share of the whole gap, and how sure it all is.

use serde::Serialize;

use crate::round::part::Part;
use crate::round::tally::Tally;

use super::known::Known;
use super::pair::{Pair, Saving};
use super::shares::shares;
use super::sure::{MoreShots, Sure, sure};
use super::traits::TraitCost;

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

impl Pair<'_> {
    /// The detail of the parts that save so much each. `work_on` names the one to work on by what each is likely to save.
    pub fn detail(
        &self,
        tally: &Tally,
        saved: &[Saving],
        work_on: impl FnOnce(&[f64]) -> Option<Part>,
        known: &Known,
    ) -> Detail {
        let first: Vec<f64> = saved.iter().map(|part| part.saved).collect();
        let last = self.saved_last();
        Detail {
            traits: self.traits(),
            shares: shares(&first, &last.saved, last.gap),
            gap: last.gap,
            sure: sure(self, tally, known, saved, work_on),
        }
    }
}

/// What the detail says of the whole card, as other programs read it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct DetailDocument {
    told_apart: bool,
    ahead: Option<&'static str>,
    more_shots: Vec<MoreShots>,
    shapley_sum: f64,
}

/// What it says of one part.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct PartDetailDocument {
    low: f64,
    high: f64,
    likely: f64,
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
            ahead: detail.sure.ahead.map(Part::name),
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
            likely: self.sure.likely[part],
            first_chance: self.sure.first_chances[part],
            share: self.shares[part],
            traits: self.traits[part].iter().map(document).collect(),
        }
    }
}
