//! Some clubs of a golfer beside the same clubs of other golfers: landings, flights and hold curves.

use super::arcs::{Arc, arcs};
use super::curves::{Curve, Descending};
use super::landings::{Landings, landings};
use super::{ClubsError, HeldPct};
use crate::player::club::Club;
use crate::player::{Golfer, Origin};
use crate::rules::Rulebook;

/// One club, the golfer's own first, then that of the golfers beside him.
#[derive(Debug, Clone, PartialEq)]
pub struct Beside {
    /// Which club.
    pub club: Club,
    /// Whether the golfer's own strikes stand behind it; otherwise it is assumed from the handicap.
    pub measured: bool,
    /// Where the shots land.
    pub landings: [Landings; 2],
    /// The flights of the mean strikes.
    pub arcs: [Arc; 2],
    /// Share held against the firmness of the green, from 0 soft to 1 firm.
    pub holds: [Curve; 2],
}

impl Beside {
    /// Shares held of one of the two, by the firmness of the green.
    #[must_use]
    pub fn held_pct(&self, whose: usize) -> Option<HeldPct> {
        let points = &self.holds.get(whose)?.points;
        let at = |share: f64| {
            let last = points.len().checked_sub(1)?;
            let place = (share * last as f64).round() as usize;
            points.get(place).map(|(_, held)| *held)
        };
        Some(HeldPct {
            soft: at(0.0)?,
            medium: at(0.5)?,
            firm: at(1.0)?,
        })
    }
}

/// Clubs of `player` beside those of `goal`, in the order they are named; greens hold by the rules of a rulebook that
/// stand for every hole. A club someone does not carry is that of the clubs on either side of it.
///
/// # Errors
/// When a pattern is none, or a rule fails.
pub fn beside(
    player: &Golfer,
    goal: &Golfer,
    clubs: &[Club],
    rules: &Rulebook,
) -> Result<Vec<Beside>, ClubsError> {
    let mut found = Vec::new();
    for &club in clubs {
        let golfers = [player, goal];
        let [own, theirs] = golfers.map(|golfer| seen(golfer, club, rules));
        let (Some(own), Some(theirs)) = (own?, theirs?) else {
            continue;
        };
        let entry = player.clubs.iter().find(|entry| entry.club == club);
        found.push(Beside {
            club,
            measured: entry.is_some_and(|entry| entry.origin != Origin::Assumed),
            landings: [own.0, theirs.0],
            arcs: [own.1, theirs.1],
            holds: [own.2, theirs.2],
        });
    }
    Ok(found)
}

type Seen = (Landings, Arc, Curve);

/// What is seen of a golfer's club; none for an empty bag.
fn seen(golfer: &Golfer, club: Club, rules: &Rulebook) -> Result<Option<Seen>, ClubsError> {
    let landed = landings(golfer, &[club])?.into_iter().next();
    let arc = arcs(golfer, &[club]).into_iter().next();
    let curve = match Descending::of(golfer, club)? {
        Some(shots) => Some(shots.by_firmness(rules)?),
        None => None,
    };
    Ok(landed
        .zip(arc)
        .zip(curve)
        .map(|((landed, arc), curve)| (landed, arc, curve)))
}
