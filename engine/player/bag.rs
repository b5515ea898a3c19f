//! Clubs between clubs: what a golfer would do with one nobody measured, and the bag filled up with such clubs.

use super::club::Club;
use super::delivery::Delivered;
use super::pattern::{Five, Mishit, Pattern};
use super::{BagClub, Golfer, Origin};

/// Clubs in a full bag: fourteen with the putter.
pub(super) const MOST_CLUBS: usize = 13;

/// Clubs nearer than this in loft (of an iron that goes as far) do the same job, degrees.
const SAME_JOB_DEG: f64 = 2.2;

/// Ball speed lost per degree of loft beyond the ends of a bag, share (common practice: about 1.5 mph in 110).
const SPEED_PER_DEG: f64 = 0.013;

/// The usual strikes of a shorter club hardly ever leave faster than those of a longer one, and by no more than this, mph:
/// a good fitting of few shots errs by as much.
const FASTER_MPH: f64 = 6.0;

/// Clubs whose usual ball is much faster than that of a longer club, each with the slowest of the longer ones: as no bag
/// is hit, but as a slip of the pen makes it.
#[must_use]
pub fn faster_than_longer(clubs: &[BagClub]) -> Vec<[Club; 2]> {
    let speed_mph = |entry: &BagClub| entry.pattern.mean[0];
    let pair = |entry: &BagClub| {
        let longer = clubs.iter().filter(|other| other.club < entry.club);
        let slowest = longer.min_by(|a, b| speed_mph(a).total_cmp(&speed_mph(b)))?;
        let is_faster = speed_mph(entry) > speed_mph(slowest) + FASTER_MPH;
        is_faster.then_some([entry.club, slowest.club])
    };
    clubs.iter().filter_map(pair).collect()
}

/// That clubs are hit so, for the notes of a player.
pub(super) fn faster_in_words(clubs: &[BagClub]) -> impl Iterator<Item = String> {
    let told = |[faster, longer]: [Club; 2]| {
        format!(
            "the usual ball of the {faster} is faster than that of the longer {longer}: look whether one of them is a slip"
        )
    };
    faster_than_longer(clubs).into_iter().map(told)
}

/// Linear interpolation; `t` outside 0 to 1 extrapolates.
pub(super) fn lerp(a: f64, b: f64, t: f64) -> f64 {
    a + (b - a) * t
}

fn lerp_five(a: &Five, b: &Five, t: f64) -> Five {
    std::array::from_fn(|i| lerp(a[i], b[i], t))
}

/// Every figure of two patterns interpolated. Beyond either, spreads stay over zero, shares within 0 to 1 and
/// correlations as they are.
pub(super) fn blend(a: &Pattern, b: &Pattern, t: f64) -> Pattern {
    let within = t.clamp(0.0, 1.0);
    let mishit = |read: fn(&Mishit) -> f64| lerp(read(&a.mishit), read(&b.mishit), t);
    Pattern {
        mean: lerp_five(&a.mean, &b.mean, t),
        sd: lerp_five(&a.sd, &b.sd, t).map(|sd| sd.max(0.0)),
        correlation: std::array::from_fn(|row| {
            lerp_five(&a.correlation[row], &b.correlation[row], within)
        }),
        tail_dof: lerp(a.tail_dof, b.tail_dof, within),
        mishit: Mishit {
            share: mishit(|m| m.share).clamp(0.0, 1.0),
            ball_speed_factor: mishit(|m| m.ball_speed_factor),
            launch_shift_deg: mishit(|m| m.launch_shift_deg),
            backspin_factor: mishit(|m| m.backspin_factor),
            spread_factor: mishit(|m| m.spread_factor).max(0.1),
        },
    }
}

/// A golfer's pattern with a club: his own, or that of the clubs on either side of it, weighed by loft.
pub(super) fn pattern_with(clubs: &[BagClub], club: Club) -> Option<Pattern> {
    let loft = club.iron_loft_deg();
    let longer = clubs
        .iter()
        .filter(|own| own.club <= club)
        .max_by_key(|own| own.club);
    let shorter = clubs
        .iter()
        .filter(|own| own.club >= club)
        .min_by_key(|own| own.club);
    match (longer, shorter) {
        (Some(own), _) if own.club == club => Some(own.pattern.clone()),
        (Some(a), Some(b)) => {
            let (from, to) = (a.club.iron_loft_deg(), b.club.iron_loft_deg());
            let t = if to > from {
                (loft - from) / (to - from)
            } else {
                0.5
            };
            Some(blend(&a.pattern, &b.pattern, t))
        }
        (Some(end), None) | (None, Some(end)) => {
            let beyond_deg = loft - end.club.iron_loft_deg();
            Some(
                end.pattern
                    .scaled((1.0 - SPEED_PER_DEG * beyond_deg).max(0.3)),
            )
        }
        (None, None) => None,
    }
}

/// What is known of a golfer's delivery of a club: as for [`pattern_with`], figure by figure; beyond the ends of the
/// bag nothing is.
pub(super) fn delivered_with(clubs: &[BagClub], club: Club) -> Option<Delivered> {
    let longer = clubs
        .iter()
        .filter(|own| own.club <= club)
        .max_by_key(|own| own.club)?;
    let shorter = clubs
        .iter()
        .filter(|own| own.club >= club)
        .min_by_key(|own| own.club)?;
    let from = longer.club.iron_loft_deg();
    let span = shorter.club.iron_loft_deg() - from;
    let t = if span > 0.0 {
        (club.iron_loft_deg() - from) / span
    } else {
        0.0
    };
    Some(longer.delivered.blend(&shorter.delivered, t))
}

/// What is known of a bag beside the clubs that were measured or stated.
#[derive(Debug, Default)]
pub(super) struct Contents {
    /// Clubs that come in whatever stands beside them.
    pub wanted: Vec<Club>,
    /// Whether there are no others.
    pub whole: bool,
    /// Clubs that are not in it, whatever is known of how they are hit.
    pub not_carried: Vec<Club>,
}

/// Fills a player's own clubs up to a usual bag with those of the level, at the player's own speed: first the clubs that
/// are wanted, then, unless the bag is whole with them, the clubs of the level that fill the widest gaps.
pub(super) fn fill(own: &[BagClub], contents: &Contents, level: &Golfer) -> Vec<BagClub> {
    let is_carried = |club: &Club| !contents.not_carried.contains(club);
    let mut names: Vec<Club> = own.iter().map(|entry| entry.club).collect();
    names.extend(&contents.wanted);
    names.sort();
    names.dedup();
    names.retain(is_carried);
    while !contents.whole && names.len() < MOST_CLUBS {
        let gap = |club: &Club| {
            names
                .iter()
                .map(|have| (have.iron_loft_deg() - club.iron_loft_deg()).abs())
                .fold(f64::INFINITY, f64::min)
        };
        let widest = level
            .clubs
            .iter()
            .map(|entry| entry.club)
            .filter(is_carried)
            .max_by(|a, b| gap(a).total_cmp(&gap(b)).then(b.cmp(a)));
        match widest {
            Some(club) if gap(&club) >= SAME_JOB_DEG => names.push(club),
            _ => break,
        }
    }
    names.sort();
    names
        .into_iter()
        .filter_map(|club| {
            let measured = own.iter().find(|entry| entry.club == club).cloned();
            measured.or_else(|| {
                let pattern = assumed(own, club, level)?;
                Some(BagClub::unmeasured(club, pattern, Origin::Assumed))
            })
        })
        .collect()
}

/// The level's pattern at the speed the player's neighbouring clubs let expect.
fn assumed(own: &[BagClub], club: Club, level: &Golfer) -> Option<Pattern> {
    let pattern = pattern_with(&level.clubs, club)?;
    let ratio_of = |entry: &BagClub| {
        pattern_with(&level.clubs, entry.club)
            .map(|of_level| entry.pattern.mean[0] / of_level.mean[0])
    };
    let longer = own
        .iter()
        .filter(|entry| entry.club < club)
        .max_by_key(|entry| entry.club);
    let shorter = own
        .iter()
        .filter(|entry| entry.club > club)
        .min_by_key(|entry| entry.club);
    let ratio = match (longer, shorter) {
        (Some(a), Some(b)) => {
            let (from, to) = (a.club.iron_loft_deg(), b.club.iron_loft_deg());
            let t = (club.iron_loft_deg() - from) / (to - from).max(0.1);
            lerp(ratio_of(a)?, ratio_of(b)?, t)
        }
        (Some(end), None) | (None, Some(end)) => ratio_of(end)?,
        (None, None) => 1.0,
    };
    // Never faster than the next longer club the player hit, nor slower than the next shorter one.
    let mut speed = pattern.mean[0] * ratio;
    if let Some(entry) = shorter {
        speed = speed.max(entry.pattern.mean[0]);
    }
    if let Some(entry) = longer {
        speed = speed.min(entry.pattern.mean[0]);
    }
    Some(pattern.scaled(speed / pattern.mean[0]))
}
