//! What a change does to the clubs it touches: the strike, the flight, and what a green keeps.

use serde::Serialize;

use crate::cost::PlayError;
use crate::cost::clubs_played::ClubsPlayed;
use crate::player::club::Club;
use crate::player::{BagClub, Golfer};
use crate::round::clubs::{ClubRow, ClubsError, HeldPct, rows};
use crate::rules::Rulebook;

/// A club before and after.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ClubChange {
    /// The club.
    pub club: Club,
    /// Before; none where it was not in the bag.
    pub before: Option<ClubFigures>,
    /// After; none where it is not in the bag any more.
    pub after: Option<ClubFigures>,
}

/// Figures of a club: means of its normal strikes, flown in still air from a good lie.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ClubFigures {
    /// Ball speed.
    pub ball_speed_mph: f64,
    /// Launch.
    pub launch_deg: f64,
    /// Backspin.
    pub backspin_rpm: f64,
    /// Carry.
    pub carry_yd: f64,
    /// Its standard deviation.
    pub carry_sd_yd: f64,
    /// Where it pitches, positive right of the target line.
    pub side_yd: f64,
    /// Its standard deviation.
    pub side_sd_yd: f64,
    /// Apex.
    pub apex_yd: f64,
    /// Angle of descent.
    pub descent_deg: f64,
    /// Share of the shots on target that stay on the green, by its firmness.
    pub held_pct: HeldPct,
    /// Share of mishits.
    pub mishits_pct: f64,
    /// Full and part swings with it in a round, over the rounds whose shots are kept
    /// ([`ROUNDS_VISITED`](crate::round::visits::ROUNDS_VISITED)).
    pub shots_per_round: f64,
}

impl ClubFigures {
    fn new(entry: &BagClub, row: &ClubRow, played: &ClubsPlayed) -> Self {
        let [ball_speed_mph, launch_deg, _, backspin_rpm, _] = entry.pattern.mean;
        Self {
            ball_speed_mph,
            launch_deg,
            backspin_rpm,
            carry_yd: row.carry_yd,
            carry_sd_yd: row.carry_sd_yd,
            side_yd: row.side_yd,
            side_sd_yd: row.side_sd_yd,
            apex_yd: row.apex_yd,
            descent_deg: row.descent_deg,
            held_pct: row.held_pct,
            mishits_pct: 100.0 * entry.pattern.mishit.share,
            shots_per_round: played.with(entry.club),
        }
    }
}

/// The clubs that a change touches, longest first.
///
/// # Errors
/// When a rule fails.
pub(super) fn touched(
    [(before, own), (after, then)]: [(&Golfer, &ClubsPlayed); 2],
    rules: &Rulebook,
) -> Result<Vec<ClubChange>, PlayError> {
    let pattern = |golfer: &Golfer, club: Club| {
        let entry = golfer.clubs.iter().find(|entry| entry.club == club);
        entry.map(|entry| entry.pattern.clone())
    };
    let mut clubs: Vec<Club> = [before, after]
        .iter()
        .flat_map(|golfer| golfer.clubs.iter().map(|entry| entry.club))
        .filter(|club| pattern(before, *club) != pattern(after, *club))
        .collect();
    clubs.sort();
    clubs.dedup();
    let [before, after] = [
        figures(before, &clubs, own, rules)?,
        figures(after, &clubs, then, rules)?,
    ];
    let of = |list: &[(Club, ClubFigures)], club| {
        let found = list.iter().find(|(other, _)| *other == club);
        found.map(|(_, figures)| *figures)
    };
    let change = |club| ClubChange {
        club,
        before: of(&before, club),
        after: of(&after, club),
    };
    Ok(clubs.into_iter().map(change).collect())
}

fn figures(
    golfer: &Golfer,
    clubs: &[Club],
    played: &ClubsPlayed,
    rules: &Rulebook,
) -> Result<Vec<(Club, ClubFigures)>, PlayError> {
    let rows =
        rows(golfer, golfer, rules, |club| clubs.contains(&club)).map_err(|error| match error {
            ClubsError::Rule(faults) => PlayError::Rule(faults),
            ClubsError::Pattern(fault) => PlayError::Pattern(fault),
        })?;
    let entries = golfer
        .clubs
        .iter()
        .filter(|entry| clubs.contains(&entry.club));
    Ok(entries
        .zip(&rows)
        .map(|(entry, row)| (entry.club, ClubFigures::new(entry, row, played)))
        .collect())
}
