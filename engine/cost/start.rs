//! Where a card says to start, and whether it can say so at all.

use crate::player::club::Club;
use crate::player::{BagClub, Origin};
use crate::round::part::Part;

use super::card::{Card, NOTHING, PartCost};
use super::clubs_played::clubs_of;
use super::sure::TOLD_APART;

/// Fewer measured strikes than this over all clubs name no part. An assumption: the level behind a fit weighs as much as
/// eight strikes with each club (`player/fit.rs`), so that with fewer than ten over the whole bag nearly every figure is
/// the level's.
pub const FEWEST_STRIKES: usize = 10;
/// A part is far more often the first than another when it is so many times as often. An assumption: what a lesson is
/// spent on should not be what is hardly ever the first, while something else is that twice as often and can be measured.
const FAR_MORE: f64 = 2.0;
/// What a part is likely to save is another figure than what it saves by the shots where they are so far apart, strokes a
/// round.
const ANOTHER: f64 = 0.3;
/// A part that saves less than this, strokes a round, does not cost much.
pub const MUCH: f64 = 0.5;
/// Shots that are asked for with each club where there are too few: as many as outweigh the level behind them.
pub const SHOTS_EACH: usize = 10;

/// Where to start.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Start<'a> {
    /// So few shots were measured, or none, that they name no part.
    TooFewShots(usize),
    /// A part that nobody measured is clearly ahead, while the measured one that saves most is hardly ever the first;
    /// none where nothing that was measured saves any strokes.
    NotMeasured(Option<&'a PartCost>, &'a PartCost),
    /// As a whole the player is better than the goal, and no part saves much.
    Beyond,
    /// As a whole the player is better than the goal, which his handicap does not explain, and no measured part is first.
    Misfit,
    /// A part to work on.
    At(&'a PartCost),
    /// No part saves any strokes.
    Nowhere,
}

impl Start<'_> {
    /// In a word or two, for other programs.
    #[must_use]
    pub fn word(&self) -> &'static str {
        match self {
            Self::TooFewShots(_) => "too few shots",
            Self::NotMeasured(..) => "measure",
            Self::Beyond => "beyond the goal",
            Self::Misfit => "check the handicap",
            Self::At(cost) if cost.saved >= NOTHING => "work on",
            Self::At(_) | Self::Nowhere => "nothing",
        }
    }

    /// The part that is to be measured before anything is said.
    #[must_use]
    pub fn to_measure(&self) -> Option<Part> {
        match self {
            Self::NotMeasured(_, ahead) => Some(ahead.part),
            _ => None,
        }
    }
}

impl Card {
    /// Where to start.
    #[must_use]
    pub fn start(&self) -> Start<'_> {
        let first = self.work_on.and_then(|part| self.part(part));
        let is_counted = first.is_some_and(|cost| cost.measured && !cost.part.is_full());
        let strikes = self.strikes();
        let is_stated = self.bag.iter().any(|own| own.told() == Origin::Stated);
        let is_any_known = self.parts.iter().any(|cost| cost.measured);
        // Who hit no shots but counted something has that to start from.
        let is_told = strikes >= FEWEST_STRIKES || (strikes == 0 && is_any_known);
        if !is_told && !is_counted && !is_stated {
            return Start::TooFewShots(strikes);
        }
        let Some(first) = first else {
            return Start::Nowhere;
        };
        let ahead = self.ahead_of(first);
        if (ahead.is_some() || !first.measured) && self.is_beyond() && !self.fits() {
            return Start::Misfit;
        }
        match ahead {
            Some(ahead) => Start::NotMeasured(self.costliest_measured(), ahead),
            None if self.is_beyond() && first.saved < MUCH => Start::Beyond,
            None if !first.measured && self.parts.iter().any(|cost| cost.measured) => {
                Start::NotMeasured(None, first)
            }
            None => Start::At(first),
        }
    }

    /// Whether the player scores clearly better than the goal's golfers.
    fn is_beyond(&self) -> bool {
        self.goal.score_mean - self.player.score_mean >= MUCH
    }

    /// Whether shots and handicap fit, as far as anybody asked.
    fn fits(&self) -> bool {
        self.inference.as_ref().is_none_or(|found| found.fits)
    }

    /// The part to work on first, where so few shots were measured that they name none, or the handicap is to be checked
    /// before: none.
    #[must_use]
    pub fn named(&self) -> Option<Part> {
        let names_none = matches!(self.start(), Start::TooFewShots(_) | Start::Misfit);
        self.work_on.filter(|_| !names_none)
    }

    /// Whether so few shots were measured that they name no part.
    #[must_use]
    pub fn has_too_few_shots(&self) -> bool {
        matches!(self.start(), Start::TooFewShots(_))
    }

    /// Where a measured part is hardly ever the first, one that nobody measured and that is it far more often, or that is
    /// clearly ahead of it.
    fn ahead_of(&self, first: &PartCost) -> Option<&PartCost> {
        let sure = &self.detail.as_ref()?.sure;
        let chance = |part: Part| sure.first_chances[part as usize];
        // Whoever orders the parts by a rule does not ask which is ahead of which.
        let by_rule = first.worth.is_some();
        if by_rule || !first.measured || chance(first.part) >= 1.0 - TOLD_APART {
            return None;
        }
        let clear = sure.ahead.and_then(|part| self.part(part));
        let open = self.parts.iter().filter(|cost| cost.is_open());
        let often = open.max_by(|a, b| chance(a.part).total_cmp(&chance(b.part)));
        let is_far_more = |cost: &&PartCost| chance(cost.part) > FAR_MORE * chance(first.part);
        let often = often.filter(is_far_more);
        clear.filter(|cost| cost.is_open()).or(often)
    }

    /// Of the parts that were measured, the one that would save most by the shots alone.
    fn costliest_measured(&self) -> Option<&PartCost> {
        let measured = self.parts.iter().filter(|cost| cost.measured);
        measured.max_by(|a, b| a.order().total_cmp(&b.order()))
    }

    /// A part of it.
    #[must_use]
    pub fn part(&self, part: Part) -> Option<&PartCost> {
        self.parts.iter().find(|cost| cost.part == part)
    }

    /// What a part is likely to save ([`Sure::likely`](super::sure::Sure::likely)); what it saves where nobody asked how
    /// sure that is.
    #[must_use]
    pub fn likely(&self, cost: &PartCost) -> f64 {
        let detail = self.detail.as_ref();
        detail.map_or(cost.saved, |detail| detail.sure.likely[cost.part as usize])
    }

    /// Whether that is another figure than the one by the shots alone.
    #[must_use]
    pub fn is_another_likely(&self, cost: &PartCost) -> bool {
        (self.likely(cost) - cost.saved).abs() >= ANOTHER
    }

    /// Strikes that were measured, over all clubs.
    #[must_use]
    pub fn strikes(&self) -> usize {
        let strikes = |own: &BagClub| match own.origin {
            Origin::Measured { strikes } => strikes,
            Origin::Stated | Origin::Assumed => 0,
        };
        self.bag.iter().map(strikes).sum()
    }

    /// The clubs to hit in the bay for a part of full shots that nobody measured: those it is played with, the most played
    /// first, or else those it could be, longest first; none for other parts.
    #[must_use]
    pub fn clubs_to_hit(&self, part: Part) -> Vec<Club> {
        let open = self.part(part).map(|cost| cost.open_clubs.clone());
        open.filter(|open| !open.is_empty())
            .unwrap_or_else(|| self.clubs_of(part))
    }

    /// Whether clubs of a part of full shots are measured, though most of its shots are played with others.
    #[must_use]
    pub fn is_partly_measured(&self, part: Part) -> bool {
        let clubs = self.clubs_of(part);
        let mut of_part = self.bag.iter().filter(|own| clubs.contains(&own.club));
        of_part.any(|own| own.told() != Origin::Assumed)
    }

    /// The clubs of a part of full shots, longest first; none for other parts.
    fn clubs_of(&self, part: Part) -> Vec<Club> {
        let own = match part {
            Part::TeeShots => self.bag.iter().take(1).collect(),
            _ => clubs_of(&self.bag, part).collect::<Vec<_>>(),
        };
        own.iter().map(|own| own.club).collect()
    }

    /// A club of each part of full shots: those that tell most with few shots.
    #[must_use]
    pub fn clubs_to_begin_with(&self) -> Vec<Club> {
        let middle = |part: Part| {
            let clubs = self.clubs_of(part);
            clubs.get(clubs.len() / 2).copied()
        };
        let mut clubs: Vec<Club> = Part::ALL.into_iter().filter_map(middle).collect();
        clubs.dedup();
        clubs
    }
}
