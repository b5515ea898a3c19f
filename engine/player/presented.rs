//! How a club is presented to the ball: measured where it was, derived from the ball where not, beside what golfers of
//! a standard deliver with it.

use super::bag::delivered_with;
use super::club::{Class, Club};
use super::heads::head;
use super::pattern::strike_of;
use super::{BagClub, Golfer};
use crate::ball::impact::Delivery;
use crate::units::{Angle, Speed};

/// One club's delivery. Lofts are as the player's device reads them: see [`Golfer::loft_shift`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Presented {
    /// The delivery: means of the club's strikes.
    pub delivery: Delivery,
    /// Which of it was measured; the rest comes from the ball.
    pub measured: Measured,
    /// What golfers of the standard deliver with the club; nothing where they carry no club like it.
    pub usual: Option<Usual>,
    /// The club of the standard's golfers whose loft is presented: the club itself when all is as usual. A driver's is
    /// not asked for: it is hit from a tee.
    pub plays_like: Option<Club>,
}

/// Which figures of a delivery were measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Measured {
    /// Club speed.
    pub club_speed: bool,
    /// Attack angle.
    pub attack: bool,
    /// Both face and path.
    pub face_to_path: bool,
    /// Dynamic loft.
    pub dynamic_loft: bool,
}

impl Measured {
    /// Whether nothing had to be derived.
    #[must_use]
    pub const fn all(self) -> bool {
        self.club_speed && self.attack && self.face_to_path && self.dynamic_loft
    }
}

/// What golfers of a standard deliver with a club.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Usual {
    /// Attack angle.
    pub attack: Angle,
    /// Dynamic loft, as the player's device would read it.
    pub dynamic_loft: Angle,
    /// Spin loft, likewise.
    pub spin_loft: Angle,
}

/// How a club of `player` is presented, beside golfers of the standard of `goal`; nothing when no head gives such balls.
///
/// The loft follows from the ball alone; so does where the face points. Attack and path follow from the spin, at the
/// measured club speed or at the one the ball needs.
#[must_use]
pub fn presented(entry: &BagClub, player: &Golfer, goal: &Golfer) -> Option<Presented> {
    let shift = player.loft_shift;
    let delivery = delivery(entry, shift)?;
    let given = &entry.delivered;
    let usual = usual(goal, entry.club, shift);
    Some(Presented {
        delivery,
        measured: Measured {
            club_speed: given.club_speed_mph.is_some(),
            attack: given.attack_deg.is_some(),
            face_to_path: given.face_deg.is_some() && given.path_deg.is_some(),
            dynamic_loft: given.dynamic_loft_deg.is_some(),
        },
        usual,
        plays_like: usual.and_then(|_| plays_like(entry.club, delivery.dynamic_loft, goal, shift)),
    })
}

/// Measured figures over those derived from the mean strike. A lie is taken as level unless it was measured; the face
/// found from the ball has its turn in it.
pub(super) fn delivery(entry: &BagClub, shift: Angle) -> Option<Delivery> {
    let given = &entry.delivered;
    let strike = strike_of(&entry.pattern.mean);
    let head = head(entry.club);
    let speed = given.club_speed_mph.map(Speed::from_mph);
    // A club speed that contradicts the ball says nothing of attack and path.
    let derived = head
        .delivery(&strike, speed)
        .or_else(|_| head.delivery(&strike, None))
        .ok()?;
    let or = |given: Option<f64>, derived: Angle| given.map_or(derived, Angle::from_deg);
    Some(Delivery {
        club_speed: speed.unwrap_or(derived.club_speed),
        attack: or(given.attack_deg, derived.attack),
        path: or(given.path_deg, derived.path),
        face: or(given.face_deg, derived.face),
        dynamic_loft: or(given.dynamic_loft_deg, derived.dynamic_loft + shift),
        lie_tilt: match given.face_deg {
            Some(_) => or(given.lie_deg, Angle::ZERO),
            None => Angle::ZERO,
        },
    })
}

fn usual(goal: &Golfer, club: Club, shift: Angle) -> Option<Usual> {
    let given = delivered_with(&goal.clubs, club)?;
    let attack = Angle::from_deg(given.attack_deg?);
    let dynamic_loft = Angle::from_deg(given.dynamic_loft_deg?) + shift;
    Some(Usual {
        attack,
        dynamic_loft,
        spin_loft: dynamic_loft - attack,
    })
}

/// The club of the same kind whose usual loft is nearest.
fn plays_like(club: Club, loft: Angle, goal: &Golfer, shift: Angle) -> Option<Club> {
    let off = |other: &Club| {
        usual(goal, *other, shift).map(|usual| (usual.dynamic_loft - loft).deg().abs())
    };
    candidates(club, goal)
        .into_iter()
        .filter_map(|other| Some((other, off(&other)?)))
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(other, _)| other)
}

/// What a club can play like: clubs of its kind that golfers of the standard carry. Irons are told by the number of
/// the hybrids that stand in their place.
fn candidates(club: Club, goal: &Golfer) -> Vec<Club> {
    let carried = goal.clubs.iter().map(|entry| entry.club);
    let mut all: Vec<Club> = match club {
        Club::Driver => Vec::new(),
        Club::Wood(_) => carried
            .filter(|other| other.class() == Class::Wood && *other != Club::Driver)
            .collect(),
        Club::Hybrid(_) => carried
            .filter_map(|other| match other {
                Club::Hybrid(number) | Club::Iron(number @ 1..=8) => Some(Club::Hybrid(number)),
                _ => None,
            })
            .collect(),
        _ => carried
            .filter_map(|other| match other {
                Club::Hybrid(number) => Some(Club::Iron(number)),
                other => (other.class() >= Class::Iron).then_some(other),
            })
            .collect(),
    };
    if club != Club::Driver {
        all.push(club);
    }
    all
}
