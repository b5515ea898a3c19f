//! Where a card says to start, and whether it can say so at all.

use crate::player::Origin;
use crate::player::club::Club;
use crate::round::part::Part;

use super::card::{Card, PartCost};
use super::sure::TOLD_APART;

/// Fewer measured strikes than this over all clubs name no part. An assumption: the level behind a fit weighs as much as
/// eight strikes with each club (`player/fit.rs`), so that with fewer than ten over the whole bag nearly every figure is
/// the level's.
pub const FEWEST_STRIKES: usize = 10;
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
    /// A part to work on.
    At(&'a PartCost),
    /// No part saves any strokes.
    Nowhere,
}

impl Card {
    /// Where to start.
    #[must_use]
    pub fn start(&self) -> Start<'_> {
        let first = self.work_on.and_then(|part| self.part(part));
        let is_counted = first.is_some_and(|cost| cost.measured && !cost.part.is_full());
        let strikes = self.strikes();
        let is_stated = self.bag.iter().any(|(_, origin)| *origin == Origin::Stated);
        let is_any_known = self.parts.iter().any(|cost| cost.measured);
        // Who hit no shots but counted something has that to start from.
        let is_told = strikes >= FEWEST_STRIKES || (strikes == 0 && is_any_known);
        if !is_told && !is_counted && !is_stated {
            return Start::TooFewShots(strikes);
        }
        let Some(first) = first else {
            return Start::Nowhere;
        };
        match self.ahead_of(first) {
            Some(ahead) => Start::NotMeasured(Some(first), ahead),
            None if !first.measured && self.parts.iter().any(|cost| cost.measured) => {
                Start::NotMeasured(None, first)
            }
            None => Start::At(first),
        }
    }

    /// The part that nobody measured and that is clearly ahead of the first, where the first is hardly ever the first.
    fn ahead_of(&self, first: &PartCost) -> Option<&PartCost> {
        let sure = &self.detail.as_ref()?.sure;
        let is_hardly_first = sure.first_chances[first.part as usize] < 1.0 - TOLD_APART;
        let ahead = self.part(sure.ahead?)?;
        (first.measured && !ahead.measured && is_hardly_first).then_some(ahead)
    }

    /// A part of it.
    #[must_use]
    pub fn part(&self, part: Part) -> Option<&PartCost> {
        self.parts.iter().find(|cost| cost.part == part)
    }

    /// Strikes that were measured, over all clubs.
    #[must_use]
    pub fn strikes(&self) -> usize {
        let strikes = |(_, origin): &(Club, Origin)| match origin {
            Origin::Measured { strikes } => *strikes,
            Origin::Stated | Origin::Assumed => 0,
        };
        self.bag.iter().map(strikes).sum()
    }

    /// The clubs to hit in the bay for a part of full shots that nobody measured, longest first; none for other parts.
    #[must_use]
    pub fn clubs_of(&self, part: Part) -> Vec<Club> {
        let mut bag = self.bag.iter().map(|(club, _)| *club);
        if part == Part::TeeShots {
            return bag.next().into_iter().collect();
        }
        bag.filter(|club| *club != Club::Driver && part.is_full() && Part::of_club(*club) == part)
            .collect()
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
