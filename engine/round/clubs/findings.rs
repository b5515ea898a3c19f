//! What stands out among the clubs of a bag.

use serde::Serialize;

use super::ClubRow;
use crate::player::Golfer;
use crate::player::club::Club;

/// Carries nearer than this are the same shot twice, yards. Common practice, no published source.
const OVERLAP_YD: f64 = 5.0;
/// Carries farther apart than this leave a distance no full swing reaches, yards. Common practice, no published source.
/// The driver is hit from tees and leaves none.
const WIDE_GAP_YD: f64 = 18.0;
/// A club holds a green when at least this share of its on-target shots stay on it, percent.
const HOLDS_PCT: f64 = 50.0;
/// Loft that differs by less than this is the measuring device's and not the player's, degrees.
const LOFT_TOLD_DEG: f64 = 2.0;

/// One finding.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "finding", rename_all = "snake_case")]
pub enum Finding {
    /// Two clubs carry the same distance, or the shorter one carries farther.
    Overlap {
        /// The longer and the shorter club.
        clubs: [String; 2],
        /// The longer one's carry beyond the shorter one's.
        gap_yd: f64,
    },
    /// Two clubs leave a gap between them.
    WideGap {
        /// The longer and the shorter club.
        clubs: [String; 2],
        /// The longer one's carry beyond the shorter one's.
        gap_yd: f64,
    },
    /// The longest club that holds a medium green, as every shorter one does.
    LongestToHold {
        /// The club.
        club: String,
        /// Share of its on-target shots that stay on a medium green.
        held_pct: f64,
    },
    /// No club holds a medium green.
    NothingHolds,
    /// A club that is delivered with less loft than golfers of the goal's standard deliver.
    LoftMissing(Loft),
    /// A club that is delivered with more.
    LoftAdded(Loft),
}

/// A loft that is not as usual.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Loft {
    /// The club.
    pub club: String,
    /// What it is delivered with.
    pub dynamic_loft_deg: f64,
    /// What golfers of the goal's standard deliver it with.
    pub usual_dynamic_loft_deg: f64,
    /// The club whose loft that is; the club itself when no other is nearer.
    pub plays_like: String,
}

/// Everything that stands out. What is assumed from the handicap is the level's and not the player's: gaps beside such
/// clubs and their lofts are not told.
#[must_use]
pub fn findings(player: &Golfer, rows: &[ClubRow]) -> Vec<Finding> {
    let clubs: Vec<Club> = player.clubs.iter().map(|entry| entry.club).collect();
    let mut all: Vec<Finding> = Vec::new();
    for (pair, club) in rows.windows(2).zip(&clubs) {
        all.extend(gap(&pair[0], &pair[1], *club));
    }
    all.push(longest_to_hold(rows, &clubs));
    all.extend(rows.iter().filter_map(loft));
    all
}

fn gap(longer: &ClubRow, shorter: &ClubRow, club: Club) -> Option<Finding> {
    let gap_yd = longer.carry_yd - shorter.carry_yd;
    let clubs = || [longer.club.clone(), shorter.club.clone()];
    if longer.assumed || shorter.assumed {
        None
    } else if gap_yd < OVERLAP_YD {
        Some(Finding::Overlap {
            clubs: clubs(),
            gap_yd,
        })
    } else if gap_yd > WIDE_GAP_YD && club != Club::Driver {
        Some(Finding::WideGap {
            clubs: clubs(),
            gap_yd,
        })
    } else {
        None
    }
}

/// The longest club from which on every shorter one holds too: a steep wood above a flat iron holds by itself, but
/// says nothing of the irons. The driver is never hit at a green from the ground. Clubs nobody measured are the level's, and
/// looked at only where there are no others.
fn longest_to_hold(rows: &[ClubRow], clubs: &[Club]) -> Finding {
    let irons = || {
        let all = rows.iter().zip(clubs).rev();
        all.filter(|(_, club)| **club != Club::Driver)
    };
    let is_any_known = irons().any(|(row, _)| !row.assumed);
    let holding = irons()
        .filter(|(row, _)| !is_any_known || !row.assumed)
        .take_while(|(row, _)| row.held_pct.medium >= HOLDS_PCT);
    holding
        .last()
        .map_or(Finding::NothingHolds, |(row, _)| Finding::LongestToHold {
            club: row.club.clone(),
            held_pct: row.held_pct.medium,
        })
}

fn loft(row: &ClubRow) -> Option<Finding> {
    let delivery = &row.delivery;
    let loft = Loft {
        club: row.club.clone(),
        dynamic_loft_deg: delivery.dynamic_loft_deg?,
        usual_dynamic_loft_deg: delivery.usual_dynamic_loft_deg?,
        plays_like: delivery.plays_like.clone()?,
    };
    let more = loft.dynamic_loft_deg - loft.usual_dynamic_loft_deg;
    if row.assumed || more.abs() < LOFT_TOLD_DEG {
        None
    } else if more < 0.0 {
        Some(Finding::LoftMissing(loft))
    } else {
        Some(Finding::LoftAdded(loft))
    }
}
