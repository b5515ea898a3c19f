//! What a designer would say of a course: how hard each hole plays for scratch and bogey golfers, what makes it so, and
//! what is odd about it. Every word rests on play or on the ground, none on a guess.

mod document;
mod ground;
mod hard;
mod warning;
mod watched;

use crate::course::par::lengths_yd;
use crate::course::{Course, Hole};
use crate::player::club::Club;
use crate::player::levels::{self, LevelError};
use crate::player::{Golfer, Sex};
use crate::round::clubs::{ClubsError, clubs};
use crate::round::stage::Stage;
use crate::rules::Rulebook;

use super::ByRules;
use super::rating;
use watched::Watched;

pub use document::CourseDocument;
pub use hard::{Cause, What};
pub use warning::Warning;

/// The scratch golfer's handicap.
const SCRATCH: f64 = 0.0;
/// A green that keeps less than this share of the full shots that pitch on it is told of, percent (chosen).
const LEAST_HELD_PCT: f64 = 50.0;
/// So many shots must have pitched on a green before anything is said of it.
const LEAST_PITCHED: u64 = 30;

/// What there is to say of a course.
#[derive(Debug, Clone, PartialEq)]
pub struct Design {
    /// Whose golfers played it.
    pub sex: Sex,
    /// The bogey golfer's handicap.
    pub bogey_handicap: f64,
    /// Hole by hole.
    pub holes: Vec<HoleDesign>,
}

/// What there is to say of a hole.
#[derive(Debug, Clone, PartialEq)]
pub struct HoleDesign {
    /// What play tells; none where nothing was played.
    pub played: Option<Played>,
    /// What a designer would raise.
    pub warnings: Vec<Warning>,
}

/// How hard a hole plays.
#[derive(Debug, Clone, PartialEq)]
pub struct Played {
    /// Expected strokes of a scratch golfer over par.
    pub scratch_over_par: f64,
    /// Those of a bogey golfer.
    pub bogey_over_par: f64,
    /// What makes it hard for the bogey golfer, the costliest first.
    pub hard: Vec<Cause>,
}

/// Why there is nothing to say.
#[derive(Debug, thiserror::Error)]
pub enum DesignError {
    /// The level tables are at fault.
    #[error(transparent)]
    Level(#[from] LevelError),
    /// The clubs of a level are.
    #[error(transparent)]
    Clubs(#[from] ClubsError),
    /// A rule failed.
    #[error(transparent)]
    Rule(#[from] crate::files::Faults),
}

/// How far a golfer carries the ball, yards.
#[derive(Debug, Clone, Copy)]
struct Reach {
    /// From a tee.
    tee_yd: f64,
    /// From the fairway: the driver is left out.
    fairway_yd: f64,
}

impl Reach {
    fn of(golfer: &Golfer) -> Result<Self, ClubsError> {
        let clubs = clubs(golfer, golfer)?.clubs;
        let most = |of: &dyn Fn(&str) -> bool| {
            let those = clubs.iter().filter(|row| of(&row.club));
            those.map(|row| row.carry_yd).fold(0.0, f64::max)
        };
        let driver = Club::Driver.to_string();
        Ok(Self {
            tee_yd: most(&|_| true),
            fairway_yd: most(&|club| club != driver),
        })
    }
}

/// Looks a course over without playing it: lengths and carries only.
///
/// # Errors
/// When the level tables are at fault.
pub fn at_a_glance(course: &Course, sex: Sex) -> Result<Design, DesignError> {
    let bogey_handicap = rating::bogey(sex);
    let reach = Reach::of(&levels::level(bogey_handicap, sex)?)?;
    let hole = |hole: &Hole| HoleDesign {
        played: None,
        warnings: plain_warnings(hole, sex, reach),
    };
    Ok(Design {
        sex,
        bogey_handicap,
        holes: course.holes.iter().map(hole).collect(),
    })
}

/// Looks a course over as the scratch and the bogey golfer of `sex` play it.
///
/// # Errors
/// When the level tables are at fault, or a rule fails.
pub fn design(on: ByRules<'_>, sex: Sex) -> Result<Design, DesignError> {
    let (course, rules) = on;
    let mut design = at_a_glance(course, sex)?;
    let scratch = levels::level(SCRATCH, sex)?;
    let bogey = levels::level(design.bogey_handicap, sex)?;
    let by_scratch = Watched::of(&scratch, on);
    let by_bogey = Watched::of(&bogey, on);
    rules.outcome()?;
    let hard = hard::causes(on, &bogey, &by_bogey.expected);
    rules.outcome()?;
    let by_tour = held_by_tour(on, sex, &by_scratch)?;
    let said = design.holes.iter_mut().zip(&course.holes).zip(hard);
    for (index, ((said, hole), hard)) in said.enumerate() {
        let par = f64::from(hole.par);
        said.played = Some(Played {
            scratch_over_par: by_scratch.expected[index] - par,
            bogey_over_par: by_bogey.expected[index] - par,
            hard,
        });
        said.warnings
            .extend(hold_warning(&by_scratch, by_tour.as_ref(), index));
        let seen = [&by_scratch, &by_bogey];
        said.warnings
            .extend(ground::bunker_warnings(hole, seen, index));
    }
    Ok(design)
}

/// What lengths and carries tell.
fn plain_warnings(hole: &Hole, sex: Sex, reach: Reach) -> Vec<Warning> {
    [par_warning(hole, sex), ground::carry_warning(hole, reach)]
        .into_iter()
        .flatten()
        .collect()
}

/// Expected strokes from each tee.
fn expected(course: &Course, golfer: &Golfer, rules: &Rulebook) -> Vec<f64> {
    let golfers = [golfer];
    let stage = Stage::by_rules(course, &golfers, rules);
    let banks = stage.hole_banks();
    let side = stage.side(|_| 0);
    let solved = stage.solve(&banks, &side, None);
    solved
        .iter()
        .map(|hole| f64::from(hole.values.tee))
        .collect()
}

/// What is odd about a par and a length.
fn par_warning(hole: &Hole, sex: Sex) -> Option<Warning> {
    let lengths = lengths_yd(hole.par, sex)?;
    (!lengths.contains(&hole.length_yd)).then(|| Warning::Par {
        length_yd: hole.length_yd,
        par: hole.par,
        usual_yd: (*lengths.start(), *lengths.end()),
        sex,
    })
}

/// A tour professional's rounds, where a green keeps too few of a scratch golfer's shots.
fn held_by_tour(
    on: ByRules<'_>,
    sex: Sex,
    by_scratch: &Watched,
) -> Result<Option<Watched>, DesignError> {
    let is_low = |index| {
        by_scratch
            .held_pct(index)
            .is_some_and(|pct| pct < LEAST_HELD_PCT)
    };
    if !(0..on.0.holes.len()).any(is_low) {
        return Ok(None);
    }
    let tour = levels::level(levels::TOUR_HANDICAP, sex)?;
    let watched = Watched::of(&tour, on);
    on.1.outcome()?;
    Ok(Some(watched))
}

/// What is to be said of a green that throws shots off.
fn hold_warning(by_scratch: &Watched, by_tour: Option<&Watched>, index: usize) -> Option<Warning> {
    let low = |watched: &Watched| watched.held_pct(index).filter(|pct| *pct < LEAST_HELD_PCT);
    Some(Warning::Hold {
        scratch_pct: low(by_scratch)?,
        tour_pct: by_tour.and_then(low),
    })
}
