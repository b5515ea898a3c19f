//! The card together with the holes that cost a player most, from one solution of the course.

use rayon::prelude::*;
use serde::Serialize;

use crate::course::Course;
use crate::player::club::Club;
use crate::player::{Golfer, Origin};
use crate::round::part::Part;
use crate::round::solve::Solved;

use super::card::{Card, card_and};
use super::effort::Effort;
use super::infer::Assume;
use super::on_hole::{OnHole, on_hole};
use super::{ByRules, PlayError};

/// Rounds of a hole behind the strokes lost on it by part: enough that a part is good to about 0.02 strokes.
const ROUNDS: u64 = 4000;
/// Clubs shown of a player at most.
const CLUBS: usize = 3;

/// A hole and what it costs.
#[derive(Debug, Clone, PartialEq)]
pub struct CostlyHole {
    /// Its place on the course, from 0.
    pub place: usize,
    /// The player's expected strokes from the tee less those of the goal's golfer.
    pub lost: f64,
    /// How the player plays it.
    pub on: OnHole,
}

/// A costly hole as other programs read it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct CostlyHoleDocument {
    hole: u32,
    expected_strokes: f64,
    goal_expected_strokes: f64,
    lost: f64,
}

impl CostlyHole {
    /// For other programs, with the number it has on its course.
    #[must_use]
    pub fn document(&self, course: &Course) -> CostlyHoleDocument {
        CostlyHoleDocument {
            hole: course.holes[self.place].number,
            expected_strokes: self.on.expected,
            goal_expected_strokes: self.on.expected - self.lost,
            lost: self.lost,
        }
    }
}

/// The cost card as [`card_assuming`](super::card::card_assuming) gives it, and the holes that cost most against the
/// goal's golfer, `most` of them, the costliest first. `done` hears of the rounds of the card as they are finished.
///
/// # Errors
/// When the level tables are at fault, or a rule fails.
pub fn card_with_holes(
    player: &Golfer,
    goal: &Golfer,
    (course, rules): ByRules<'_>,
    effort: Effort,
    assume: Assume,
    most: usize,
    done: &(dyn Fn(u64) + Sync),
) -> Result<(Card, Vec<CostlyHole>), PlayError> {
    let on = (course, rules);
    let found = card_and(player, goal, on, effort, assume, done, |_, solved| {
        costliest(course, solved, effort, most)
    })?;
    rules.outcome()?;
    Ok(found)
}

fn costliest(
    course: &Course,
    [own, goal]: [&[Solved<'_>]; 2],
    effort: Effort,
    most: usize,
) -> Vec<CostlyHole> {
    let lost = |place: usize| f64::from(own[place].values.tee) - f64::from(goal[place].values.tee);
    let mut places: Vec<usize> = (0..course.holes.len()).collect();
    places.sort_by(|a, b| lost(*b).total_cmp(&lost(*a)));
    places.truncate(most);
    let effort = Effort {
        rounds: effort.rounds.min(ROUNDS),
        ..effort
    };
    let seen = |&place: &usize| CostlyHole {
        place,
        lost: lost(place),
        on: on_hole(
            &course.holes[place],
            &own[place],
            Some(&goal[place]),
            effort,
        ),
    };
    places.par_iter().map(seen).collect()
}

/// The clubs behind what a card says, longest first: those the player hits at greens, of the part that costs most
/// before the others, and two of a part at most where there are other parts; before them the club of most tee shots, where
/// these are to be worked on. Clubs that nobody measured are left out if any was measured.
#[must_use]
pub fn clubs_behind(card: &Card, player: &Golfer) -> Vec<Club> {
    let mut parts: Vec<_> = card
        .parts
        .iter()
        .filter(|cost| is_approach(cost.part))
        .collect();
    parts.sort_by(|a, b| {
        let by_cost = b.order().total_cmp(&a.order());
        b.measured.cmp(&a.measured).then(by_cost)
    });
    let bag = bag(player);
    let mut clubs: Vec<Club> = Vec::new();
    if card.work_on == Some(Part::TeeShots) {
        let most = card
            .played
            .clubs(Part::TeeShots)
            .first()
            .map(|(club, _)| *club);
        clubs.extend(most.or_else(|| player.clubs.first().map(|longest| longest.club)));
    }
    for most in [2, CLUBS] {
        for cost in &parts {
            let of_part = |club: &Club| Part::of_club(*club) == cost.part;
            let taken = clubs
                .iter()
                .filter(|club| bag.contains(club))
                .filter(|club| of_part(club));
            let room = (most - taken.count().min(most)).min(CLUBS - clubs.len());
            let open = bag.iter().copied().filter(of_part);
            let open: Vec<Club> = open.filter(|club| !clubs.contains(club)).collect();
            clubs.extend(spread_over(&open, room));
        }
    }
    clubs.sort();
    clubs
}

/// The clubs that are hit at greens: the measured ones, or all where none was measured.
fn bag(player: &Golfer) -> Vec<Club> {
    let of = |is_wanted: fn(Origin) -> bool| -> Vec<Club> {
        let all = player.clubs.iter();
        let wanted = all.filter(|entry| entry.club != Club::Driver && is_wanted(entry.origin));
        wanted.map(|entry| entry.club).collect()
    };
    let measured = of(|origin| origin != Origin::Assumed);
    if measured.is_empty() {
        of(|_| true)
    } else {
        measured
    }
}

/// Parts that are played to greens with full shots.
const fn is_approach(part: Part) -> bool {
    matches!(part, Part::LongApproach | Part::MidIrons | Part::ShortIrons)
}

/// So many of some clubs at most, evenly from the longest to the shortest.
fn spread_over(clubs: &[Club], most: usize) -> Vec<Club> {
    if clubs.len() <= most {
        return clubs.to_vec();
    }
    let place = |number: usize| (2 * number + 1) * clubs.len() / (2 * most);
    (0..most)
        .filter_map(|number| clubs.get(place(number)).copied())
        .collect()
}
