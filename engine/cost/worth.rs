//! What a change of clubs is worth on a course.

use rayon::prelude::*;
use serde::Serialize;

use crate::course::Course;
use crate::files::Faults;
use crate::player::compare::{Bags, When};
use crate::player::{Golfer, club::Club};
use crate::round::side::Side;
use crate::round::solve::Solved;
use crate::round::stage::Stage;
use crate::round::visits::ROUNDS_VISITED;
use crate::rules::Rulebook;

use super::ByRules;
use super::effort::Effort;
use super::figures::expected_score;
use super::sure::moves::{drawn, outlooks, rounds_visited};
use super::venue::Venue;

/// Golfers drawn of each side who could have hit its shots as well.
const DRAWS: u64 = 24;
/// Standard normal quantile of the 90 % interval.
const QUANTILE: f64 = 1.645;
/// The rounds whose shots are looked at: always of one seed, for how sure a change is does not change with it.
const LOOKED_AT: Effort = Effort {
    rounds: ROUNDS_VISITED,
    seed: 1,
};

/// What a change is worth in strokes a round. Expected scores are worked out from the holes backwards, without rounds,
/// and so without their luck; both bags are sampled with the same draws.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Worth {
    /// Fall of the expected score: before less after. Negative where the score rises.
    pub strokes: f64,
    /// The 90 % interval of it, by the shots of both sides: from here. None where there are no shots to tell.
    pub low: Option<f64>,
    /// To here.
    pub high: Option<f64>,
    /// Expected score with the compared clubs as before.
    pub before: f64,
    /// The same less what is saved. One of the two is that of a card made of the shots of its side: see [`Bags::card`].
    pub after: f64,
    /// What the clubs alone are worth of which some change is real; none where there is no such club.
    pub real: Option<RealWorth>,
}

/// What the clubs are worth of which some change is real.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RealWorth {
    /// The clubs.
    pub clubs: Vec<Club>,
    /// Fall of the expected score.
    pub strokes: f64,
    /// The 90 % interval of it: from here.
    pub low: f64,
    /// To here.
    pub high: f64,
    /// Expected score with these clubs as after, the others as before: that before less what is saved.
    pub after: f64,
}

/// What the change from one bag to the other is worth on a course, by the built-in rules.
#[must_use]
pub fn worth(bags: &Bags, course: &Course) -> Worth {
    unchecked(bags, (course, &Rulebook::default()))
}

/// The same by the rules of a rulebook.
///
/// # Errors
/// When a rule fails.
pub fn worth_by_rules(bags: &Bags, (course, rules): ByRules<'_>) -> Result<Worth, Faults> {
    let worth = unchecked(bags, (course, rules));
    rules.outcome()?;
    Ok(worth)
}

fn unchecked(bags: &Bags, (course, rules): ByRules<'_>) -> Worth {
    let golfers: Vec<&Golfer> = [&bags.before, &bags.after, &bags.alone[bags.card as usize]]
        .into_iter()
        .chain(&bags.real)
        .collect();
    let stage = Stage::by_rules(course, &golfers, rules);
    let banks = stage.hole_banks();
    let venue = Venue {
        course,
        rules,
        stage: &stage,
        banks: &banks,
    };
    let sides: Vec<Side> = (0..golfers.len())
        .map(|golfer| stage.side(|_| golfer))
        .collect();
    let solved: Vec<Vec<Solved<'_>>> = sides
        .par_iter()
        .map(|side| venue.solve(side, None))
        .collect();
    let expected: Vec<f64> = solved.iter().map(|holes| expected_score(holes)).collect();
    let saved = |after: usize| expected[0] - expected[after];
    let before = match bags.card {
        When::Before => expected[2],
        When::After => expected[2] + saved(1),
    };
    let doubt = Doubt::of(bags, &venue, [&solved[0], &solved[1]]);
    let real = (!bags.real_clubs.is_empty()).then(|| {
        // Where every club is among them, the bag is the one after.
        let strokes = saved(if bags.real.is_some() { 3 } else { 1 });
        let wide = doubt.wide(&bags.real_clubs);
        RealWorth {
            clubs: bags.real_clubs.clone(),
            strokes,
            low: strokes - wide,
            high: strokes + wide,
            after: before - strokes,
        }
    });
    let strokes = saved(1);
    let wide = doubt.wide(&bags.clubs);
    Worth {
        strokes,
        low: Some(strokes - wide),
        high: Some(strokes + wide),
        before,
        after: before - strokes,
        real,
    }
}

/// By compared club: the variance of what its change is worth, by how many shots stand behind it on either side. To the
/// first order a score moves by what the golfer's own shots cost with other patterns (`round/visits.rs`), before by those
/// he plays then, after by those he plays then: he may hit a club on one side only. And the shots of one side, or with one
/// club, have nothing to do with those of another.
struct Doubt(Vec<(Club, f64)>);

impl Doubt {
    fn of(bags: &Bags, venue: &Venue<'_>, [before, after]: [&[Solved<'_>]; 2]) -> Self {
        let side = |(golfer, solved): (&Golfer, &[Solved<'_>]), first: u64| -> Vec<Vec<f64>> {
            let tally = venue.play(solved, None, LOOKED_AT, &|_| {});
            let club_of: Vec<Club> = tally
                .visits
                .iter()
                .map(|visit| solved[visit.hole].choosing(visit.spot).club(visit.choice))
                .collect();
            let rounds = rounds_visited(&tally);
            let by_club = |number: u64| -> Vec<f64> {
                let guest = with_drawn(golfer, &bags.clubs, number);
                let all = outlooks(venue, solved, &tally.visits, &guest);
                let of = |club: &Club| {
                    let shots = all
                        .iter()
                        .zip(&club_of)
                        .filter(|(_, played)| *played == club);
                    shots.map(|(shot, _)| f64::from(shot.strokes)).sum::<f64>() / rounds
                };
                bags.clubs.iter().map(of).collect()
            };
            let numbers: Vec<u64> = (first..first + DRAWS).collect();
            numbers.par_iter().map(|number| by_club(*number)).collect()
        };
        let sides = [
            side((&bags.before, before), 0),
            side((&bags.after, after), DRAWS),
        ];
        let doubt = |(place, club): (usize, &Club)| {
            let of_side = |draws: &Vec<Vec<f64>>| {
                variance(&draws.iter().map(|draw| draw[place]).collect::<Vec<f64>>())
            };
            (*club, sides.iter().map(of_side).sum())
        };
        Self(bags.clubs.iter().enumerate().map(doubt).collect())
    }

    /// Half of the 90 % interval for some of the clubs together.
    fn wide(&self, clubs: &[Club]) -> f64 {
        let of_clubs = self.0.iter().filter(|(club, _)| clubs.contains(club));
        QUANTILE * of_clubs.map(|(_, variance)| variance).sum::<f64>().sqrt()
    }
}

/// A golfer with some of his clubs drawn as they could be as well.
fn with_drawn(golfer: &Golfer, clubs: &[Club], number: u64) -> Golfer {
    let drawn = drawn(golfer, number);
    let mut with = golfer.clone();
    for (entry, other) in with.clubs.iter_mut().zip(drawn.clubs) {
        if clubs.contains(&entry.club) {
            *entry = other;
        }
    }
    with
}

fn variance(values: &[f64]) -> f64 {
    let count = values.len().max(2) as f64;
    let mean = values.iter().sum::<f64>() / count;
    let squares: f64 = values.iter().map(|value| (value - mean).powi(2)).sum();
    squares / (count - 1.0)
}

/// Expected scores. Every golfer's holes are solved afresh: one solved from another's would lean towards it.
pub(super) fn scores(golfers: &[&Golfer], (course, rules): ByRules<'_>) -> Vec<f64> {
    let stage = Stage::by_rules(course, golfers, rules);
    let banks = stage.hole_banks();
    (0..golfers.len())
        .into_par_iter()
        .map(|golfer| {
            let side = stage.side(|_| golfer);
            expected_score(&stage.solve(&banks, &side, None))
        })
        .collect()
}
