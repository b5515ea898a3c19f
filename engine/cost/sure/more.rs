//! Which shots to hit to tell two parts apart.

use crate::player::Golfer;
use crate::player::club::Club;
use crate::player::fit::UNMEASURED_STRIKES;
use crate::round::part::Part;

use super::{Cloud, Off, mean_of};

/// Shots are asked for in fives.
const STEP: usize = 5;
/// More than this nobody hits in a lesson and the next.
const MOST: usize = 120;
/// Standard normal quantile of the chance at which parts are told apart, 0.8.
const TOLD_APART_SD: f64 = 0.8416;

/// So many more shots with one club.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
pub struct MoreShots {
    /// The club.
    pub club: Club,
    /// Shots.
    pub shots: usize,
}

/// One club's part in the doubt which of two parts costs more.
struct Doubt {
    club: Club,
    variance: f64,
    /// What is known of its mean is worth so many strikes.
    strikes: f64,
    more: usize,
}

impl Doubt {
    /// Its variance after `extra` more shots than asked for so far: it falls with the strikes that tell of the mean.
    fn after(&self, extra: usize) -> f64 {
        self.variance * self.strikes / (self.strikes + (self.more + extra) as f64)
    }
}

/// The fewest shots, by fives, each with the club that clears up most, after which the first part would be told apart
/// from the other if the figures stay where they are; none where no number that anyone hits would do.
pub fn more_shots(
    cloud: &Cloud,
    player: &Golfer,
    likely: &[f64],
    [first, rival]: [Part; 2],
) -> Vec<MoreShots> {
    let apart = likely[first as usize] - likely[rival as usize];
    let enough = (apart.max(0.0) / TOLD_APART_SD).powi(2);
    let difference = |off: &Off| off.saved[first as usize] - off.saved[rival as usize];
    let skill = |off: &Off| difference(off).powi(2);
    let skills: f64 = cloud.skills.iter().map(skill).sum();
    let mut doubts: Vec<Doubt> = cloud
        .clubs
        .iter()
        .map(|(club, draws)| doubt(*club, draws.iter().map(difference), player))
        .collect();
    let left = |doubts: &[Doubt]| skills + doubts.iter().map(|d| d.after(0)).sum::<f64>();
    let mut asked = 0;
    while left(&doubts) > enough {
        asked += STEP;
        let gain = |doubt: &Doubt| doubt.after(0) - doubt.after(STEP);
        let best = doubts.iter_mut().max_by(|a, b| gain(a).total_cmp(&gain(b)));
        match best {
            Some(best) if asked <= MOST => best.more += STEP,
            _ => return Vec::new(),
        }
    }
    let asked = doubts.iter().filter(|doubt| doubt.more > 0);
    asked
        .map(|doubt| MoreShots {
            club: doubt.club,
            shots: doubt.more,
        })
        .collect()
}

fn doubt(club: Club, apart: impl ExactSizeIterator<Item = f64> + Clone, player: &Golfer) -> Doubt {
    let mean = mean_of(apart.clone());
    let known = player.clubs.iter().find(|entry| entry.club == club);
    let evidence = known.and_then(|entry| entry.evidence.as_ref());
    Doubt {
        club,
        variance: mean_of(apart.map(|apart| (apart - mean).powi(2))),
        strikes: evidence.map_or(UNMEASURED_STRIKES, |evidence| evidence.mean_strikes),
        more: 0,
    }
}
