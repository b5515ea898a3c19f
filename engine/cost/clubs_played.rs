//! Which clubs a golfer's full shots are played with, part by part.

use std::collections::BTreeMap;

use crate::player::club::Club;
use crate::player::{BagClub, Golfer, Origin};
use crate::round::part::Part;
use crate::round::solve::Solved;
use crate::round::tally::Tally;

use super::sure::moves::rounds_visited;

/// A part is measured where so much of its full shots is played with clubs that were.
const MEASURED_SHARE: f64 = 0.5;
/// A club that nobody measured matters to a part where so much of its shots is played with it.
const MATTERS_SHARE: f64 = 0.2;
/// A club is hardly played where this share of a part's shots is at most.
const HARDLY_SHARE: f64 = 0.1;

/// Full shots a round by part and club, over the rounds whose shots are kept
/// ([`ROUNDS_VISITED`](crate::round::visits::ROUNDS_VISITED)).
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ClubsPlayed(BTreeMap<(Part, Club), f64>);

impl ClubsPlayed {
    /// In the rounds of a solved golfer.
    #[must_use]
    pub fn of(solved: &[Solved<'_>], tally: &Tally) -> Self {
        let rounds = rounds_visited(tally);
        let mut shots = BTreeMap::new();
        for visit in &tally.visits {
            if let Some(hole) = solved.get(visit.hole) {
                let club = hole.choosing(visit.spot).club(visit.choice);
                *shots.entry((visit.part, club)).or_default() += 1.0 / rounds;
            }
        }
        Self(shots)
    }

    /// Those of another course as well.
    #[must_use]
    pub fn and(mut self, other: Self) -> Self {
        for (key, shots) in other.0 {
            *self.0.entry(key).or_default() += shots;
        }
        self
    }

    /// Shots a round with a club.
    #[must_use]
    pub fn with(&self, club: Club) -> f64 {
        let all = self.0.iter().filter(|((_, other), _)| *other == club);
        all.map(|(_, shots)| shots).sum()
    }

    /// The clubs of a part and each one's share of its shots, the most played first.
    #[must_use]
    pub fn clubs(&self, part: Part) -> Vec<(Club, f64)> {
        let of_part = self.0.iter().filter(|((other, _), _)| *other == part);
        let mut clubs: Vec<(Club, f64)> =
            of_part.map(|((_, club), shots)| (*club, *shots)).collect();
        let all: f64 = clubs.iter().map(|(_, shots)| shots).sum();
        clubs.iter_mut().for_each(|(_, shots)| *shots /= all);
        clubs.sort_by(|a, b| b.1.total_cmp(&a.1));
        clubs
    }

    /// Whether most of a part's shots are played with clubs that were measured, or stated by more than a ball speed; none
    /// where it has no shots.
    pub(super) fn is_measured(&self, player: &Golfer, part: Part) -> Option<bool> {
        let clubs = self.clubs(part);
        let known = clubs.iter().filter(|(club, _)| is_known(player, *club));
        let share: f64 = known.map(|(_, share)| share).sum();
        (!clubs.is_empty()).then_some(share >= MEASURED_SHARE)
    }

    /// The clubs a part is played with that nobody measured, the most played first.
    pub(super) fn open(&self, player: &Golfer, part: Part) -> Vec<Club> {
        let clubs = self.clubs(part).into_iter();
        let open =
            clubs.filter(|(club, share)| !is_known(player, *club) && *share >= MATTERS_SHARE);
        open.map(|(club, _)| club).collect()
    }

    /// Where the longest club of a bag is measured but hardly played from the tee, and nobody measured the one that is:
    /// both.
    #[must_use]
    pub fn left_in_the_bag(&self, player: &Golfer) -> Option<[Club; 2]> {
        let longest = player.clubs.first()?;
        let clubs = self.clubs(Part::TeeShots);
        let (most, _) = clubs.first()?;
        let own = clubs.iter().find(|(club, _)| *club == longest.club);
        let is_left = own.is_none_or(|(_, share)| *share <= HARDLY_SHARE);
        let is_open = is_known(player, longest.club) && !is_known(player, *most);
        (is_left && is_open).then_some([longest.club, *most])
    }
}

/// The clubs of a bag for a part of approaches. A driver is no club for the second shot: who hit it alone has measured no
/// approaches.
pub(super) fn clubs_of(bag: &[BagClub], part: Part) -> impl Iterator<Item = &BagClub> {
    let approaches = bag.iter().filter(|entry| entry.club != Club::Driver);
    approaches.filter(move |entry| Part::of_club(entry.club) == part)
}

/// The clubs of a goal's golfer that a player would have more: those he does not carry, in parts that he carries fewer clubs
/// for, but at least one. (A hybrid in place of an iron is no club fewer.)
#[must_use]
pub fn beyond_bag(player: &Golfer, goal: &Golfer) -> Vec<Club> {
    let of_part = |golfer: &Golfer, part: Part| -> Vec<Club> {
        let entries = clubs_of(&golfer.clubs, part);
        entries.map(|entry| entry.club).collect()
    };
    let more = |part: Part| {
        let [own, mut theirs] = [player, goal].map(|golfer| of_part(golfer, part));
        let is_fewer = !own.is_empty() && own.len() < theirs.len();
        theirs.retain(|club| is_fewer && !own.contains(club));
        theirs
    };
    let parts = Part::ALL.into_iter().filter(|part| part.is_full());
    parts.flat_map(more).collect()
}

fn is_known(player: &Golfer, club: Club) -> bool {
    let entry = player.clubs.iter().find(|entry| entry.club == club);
    entry.is_some_and(|entry| entry.told() != Origin::Assumed)
}
