//! What a handicap goal asks of a player: which parts fall short, whether one alone could reach it, and how far on the
//! way to the goal's golfers would do.

mod cast;
mod document;
mod figures;
mod steps;
mod table;

pub use document::GoalsDocument;
pub use figures::{Figure, FigureKind};
pub use steps::Step;

use rayon::prelude::*;

use crate::course::Course;
use crate::files::Faults;
use crate::player::Golfer;
use crate::player::levels::LevelError;
use crate::player::pattern::PatternFault;
use crate::round::part::Part;
use crate::round::solve::Solved;
use crate::round::tally::Tally;

use super::card::{NOTHING, measured};
use super::clubs_played::ClubsPlayed;
use super::effort::Effort;
use super::figures::{Figures, GivenUp, HoleFigures};
use super::infer::{self, Assume, Inference};
use super::rating::{self, CourseRating};
use super::venue::{Home, RatedCourse, with_homes};
use super::{ByRules, PlayError};
use cast::{Cast, PLAYER, TOUR};
use table::Table;

/// What goals ask of a player.
#[derive(Debug, Clone, PartialEq)]
pub struct Goals {
    /// The index of the player's rounds as he plays today, the mean over the courses.
    pub index: f64,
    /// What was inferred of the player's short game; none where nothing was.
    pub inference: Option<Inference>,
    /// The courses, and the player on them.
    pub courses: Vec<OnCourse>,
    /// The goals, as they were asked for.
    pub goals: Vec<Goal>,
}

/// The player on one course.
#[derive(Debug, Clone, PartialEq)]
pub struct OnCourse {
    /// The course's name.
    pub course: String,
    /// Its holes, 18 or 9.
    pub holes: usize,
    /// Its rating, of so many holes.
    pub rating: CourseRating,
    /// The player's mean score over eighteen holes.
    pub score_mean: f64,
    /// The index of the player's rounds there.
    pub index: f64,
    /// The scripts in force there.
    pub rules: Vec<String>,
    /// Holes that the player does not always finish.
    pub given_up: Vec<GivenUp>,
    /// Holes on which his rounds come to something else than what is expected.
    pub apart: Vec<HoleFigures>,
}

/// What one goal asks.
#[derive(Debug, Clone, PartialEq)]
pub struct Goal {
    /// The handicap index wanted.
    pub to: f64,
    /// Whether the player's rounds make it today.
    pub reached: bool,
    /// The index that the goal's golfers' own rounds make on these courses.
    pub golfers_index: f64,
    /// By course: the mean score of the goal's golfers over eighteen holes.
    pub golfers_score_means: Vec<f64>,
    /// By course: the holes that they do not always finish.
    pub golfers_given_up: Vec<Vec<GivenUp>>,
    /// By course: the holes on which their rounds come to something else than what is expected.
    pub golfers_apart: Vec<Vec<HoleFigures>>,
    /// Every part.
    pub parts: Vec<PartGoal>,
    /// The cheapest equal steps: sets of parts, and the share of the way that reaches the goal with them; none where
    /// it is reached already, or out of reach.
    pub steps: Vec<Step>,
    /// The player's figures beside those of the goal's golfers, means over the courses.
    pub figures: Vec<Figure>,
}

/// One part against one goal, means over the courses.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartGoal {
    /// The part.
    pub part: Part,
    /// Strokes lost a round to the goal's golfers; negative where the player is better.
    pub lost: f64,
    /// Fall of the expected score when the goal's golfers play this part and the player the rest.
    pub saved: f64,
    /// Whether the player's own shots stand behind it.
    pub measured: bool,
    /// The player's index with this part at tour standard and the rest as today.
    pub index_if_perfect: f64,
    /// Whether that reaches the goal.
    pub reaches_alone: bool,
}

/// Why a goal cannot be weighed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum GoalError {
    /// A course on which no index is made.
    #[error("{course} has {holes} holes: a handicap index needs 18 or 9")]
    NoIndex {
        /// The course.
        course: String,
        /// Its holes.
        holes: usize,
    },
    /// Fewer rounds than make an index.
    #[error("{rounds} rounds make no handicap index: it needs 20 of eighteen holes")]
    TooFewRounds {
        /// Rounds asked for.
        rounds: u64,
    },
    /// No course, or no goal.
    #[error("a goal needs a handicap index, and a course to play it on")]
    Nothing,
    /// A goal beyond the levels, or levels at fault.
    #[error(transparent)]
    Level(#[from] LevelError),
    /// A club's pattern is none.
    #[error(transparent)]
    Pattern(#[from] PatternFault),
    /// A rule failed.
    #[error(transparent)]
    Rule(#[from] Faults),
}

impl From<PlayError> for GoalError {
    fn from(error: PlayError) -> Self {
        match error {
            PlayError::Level(error) => Self::Level(error),
            PlayError::Pattern(fault) => Self::Pattern(fault),
            PlayError::Rule(faults) => Self::Rule(faults),
        }
    }
}

/// Rounds that [`goals`] plays at most, those of ratings among them: what `done` hears of.
#[must_use]
pub fn rounds(
    player: &Golfer,
    to: &[f64],
    courses: &[&Course],
    effort: Effort,
    assume: Assume,
) -> u64 {
    let ratings: u64 = courses.iter().map(|c| rating::rounds(c, player.sex)).sum();
    let each = Part::ALL.len() + 2 * to.len();
    let played = effort.rounds * (each * courses.len()) as u64;
    infer::rounds_of_rated(player, courses, assume) + ratings + played
}

/// Weighs the handicap goals `to` of a player on courses by their rules. What orders the parts of a cost card orders
/// nothing here, and nothing is counted under labels. `done` hears of rounds as they are finished.
///
/// # Errors
/// On a course of neither 18 nor 9 holes, with too few rounds for an index, for a goal beyond the levels, and when a
/// rule fails.
pub fn goals(
    player: &Golfer,
    to: &[f64],
    courses: &[ByRules<'_>],
    effort: Effort,
    assume: Assume,
    done: &(dyn Fn(u64) + Sync),
) -> Result<Goals, GoalError> {
    if to.is_empty() || courses.is_empty() {
        return Err(GoalError::Nothing);
    }
    let ratings = ratings(player, courses, done)?;
    let rated = courses.iter().zip(&ratings);
    let rated: Vec<RatedCourse> = rated
        .map(|(&(course, rules), found)| RatedCourse {
            course,
            rules,
            rating: found.rating,
        })
        .collect();
    let cast = Cast::new(player, to)?;
    let all: Vec<&Course> = courses.iter().map(|(course, _)| *course).collect();
    let found = with_homes(&cast.list(), &rated, |homes| -> Result<_, GoalError> {
        let inferred = if infer::is_wanted_of_rated(player, &all, assume) {
            infer::on(player, homes, done)?
        } else {
            infer::untouched(player)
        };
        let weighing = Weighing {
            cast: Cast::new(&inferred.golfer, to)?,
            effort,
            done,
        };
        Ok((weighing.on(homes, to), inferred.inference))
    });
    let (found, inference) = found?;
    for (_, rules) in courses {
        rules.outcome()?;
    }
    let mut goals = found.ok_or(GoalError::TooFewRounds {
        rounds: effort.rounds,
    })?;
    goals.inference = inference.map(|found| found.beside(Some(goals.index)));
    for (course, rating) in goals.courses.iter_mut().zip(ratings) {
        course.rating = rating;
    }
    Ok(goals)
}

/// The rating of every course, stated or by play.
fn ratings(
    player: &Golfer,
    courses: &[ByRules<'_>],
    done: &(dyn Fn(u64) + Sync),
) -> Result<Vec<CourseRating>, GoalError> {
    let rating = |&(course, rules): &ByRules<'_>| {
        let found = match rating::loops(course) {
            Some(_) => rating::of_by_rules(course, rules, player.sex, done)?,
            None => None,
        };
        rules.outcome()?;
        found.ok_or_else(|| GoalError::NoIndex {
            course: course.name.clone(),
            holes: course.holes.len(),
        })
    };
    courses.iter().map(rating).collect()
}

/// The golfers, and how they are played.
struct Weighing<'a> {
    cast: Cast,
    effort: Effort,
    done: &'a (dyn Fn(u64) + Sync),
}

impl Weighing<'_> {
    /// Weighs every goal; none where the rounds are too few for an index.
    fn on(&self, homes: &[Home<'_>], to: &[f64]) -> Option<Goals> {
        let golfers = self.cast.list();
        let side = |home: &Home| home.venue.stage.side_of(&golfers, |_| PLAYER);
        let sides: Vec<_> = homes.iter().map(side).collect();
        let solved: Vec<Vec<Solved>> = homes
            .iter()
            .zip(&sides)
            .map(|(home, side)| home.venue.solve(side, Some(home.own)))
            .collect();
        let now = homes.iter().zip(&solved);
        let homes: Vec<Home> = now.map(|(home, own)| Home { own, ..*home }).collect();
        let table = Table {
            homes: &homes,
            golfers: &golfers,
            effort: self.effort,
            done: self.done,
        };
        let perfect: Vec<Option<f64>> = Part::ALL
            .into_par_iter()
            .map(|part| table.index(|other| if other == part { TOUR } else { PLAYER }))
            .collect();
        let perfect: Vec<f64> = perfect.into_iter().collect::<Option<_>>()?;
        let mut goals: Option<Goals> = None;
        for (number, &to) in to.iter().enumerate() {
            let played = self.played(&table, number)?;
            let goals = goals.get_or_insert_with(|| self.today(&played, &homes));
            let goal = self.weighed(&table, number, to, &played, &perfect, goals.index);
            goals.goals.push(goal);
        }
        goals
    }

    /// The player against one goal's golfers on every course.
    fn played(&self, table: &Table<'_>, number: usize) -> Option<Vec<Played>> {
        table
            .homes
            .iter()
            .map(|home| {
                let venue = home.venue;
                let goal = Cast::goal(number);
                table.fresh(home, goal, |target| {
                    let own = venue.play(home.own, Some(target), self.effort, self.done);
                    let goal = venue.play(target, None, self.effort, self.done);
                    let figures =
                        |solved, tally| Figures::new(venue.course, solved, tally, self.effort.seed);
                    Some(Played {
                        own_index: home.index(&own, self.cast.player.handicap)?,
                        goal_index: home.index(&goal, self.cast.player.handicap)?,
                        own_figures: figures(home.own, &own),
                        goal_figures: figures(target, &goal),
                        loops: rating::loops(venue.course)? as f64,
                        own,
                        goal,
                    })
                })
            })
            .collect()
    }

    fn today(&self, played: &[Played], homes: &[Home<'_>]) -> Goals {
        let on_course = |(played, home): (&Played, &Home)| OnCourse {
            course: home.venue.course.name.clone(),
            holes: home.venue.course.holes.len(),
            rating: CourseRating {
                rating: home.rating,
                stated: false,
            },
            score_mean: played.loops * played.own.score_mean(),
            index: played.own_index,
            rules: home.venue.rules.files().to_vec(),
            given_up: played.own_figures.given_up(),
            apart: apart(&played.own_figures),
        };
        Goals {
            index: mean(played.iter().map(|played| played.own_index)),
            inference: None,
            courses: played.iter().zip(homes).map(on_course).collect(),
            goals: Vec::new(),
        }
    }

    fn weighed(
        &self,
        table: &Table<'_>,
        number: usize,
        to: f64,
        played: &[Played],
        perfect: &[f64],
        index: f64,
    ) -> Goal {
        let goal = Cast::goal(number);
        let expected: Vec<Vec<f64>> = Part::ALL
            .into_par_iter()
            .map(|part| table.expected(|other| if other == part { goal } else { PLAYER }))
            .collect();
        let own = table.own_expected();
        let of_all = of_all(played, table.homes);
        let part = |part: Part| PartGoal {
            part,
            lost: mean(played.iter().map(|on| on.lost(part))),
            saved: saved(played, &own, &expected[part as usize]),
            measured: measured(&self.cast.player, part, &of_all),
            index_if_perfect: perfect[part as usize],
            reaches_alone: perfect[part as usize] <= to,
        };
        let parts: Vec<PartGoal> = Part::ALL.into_iter().map(part).collect();
        let reckoner = steps::Reckoner::new(index, &own, played, table.homes);
        let putting = [PLAYER, goal].map(|golfer| table.golfers[golfer].putting.0);
        let theirs = played.iter().map(|on| on.loops * on.goal.score_mean());
        Goal {
            to,
            reached: index <= to,
            golfers_index: mean(played.iter().map(|on| on.goal_index)),
            golfers_score_means: theirs.collect(),
            golfers_given_up: played.iter().map(|on| on.goal_figures.given_up()).collect(),
            golfers_apart: played.iter().map(|on| apart(&on.goal_figures)).collect(),
            steps: steps::steps(table, &reckoner, number, to, &parts),
            figures: figures::figures(played, &putting),
            parts,
        }
    }
}

/// Strokes saved over eighteen holes, the mean over the courses, from the player's expected scores and those with a
/// part in other hands.
fn saved(played: &[Played], own: &[f64], with: &[f64]) -> f64 {
    let courses = played.iter().zip(own.iter().zip(with));
    mean(courses.map(|(on, (own, with))| on.loops * (own - with)))
}

/// Rounds of the player and of a goal's golfers on one course.
struct Played {
    own: Tally,
    goal: Tally,
    own_index: f64,
    goal_index: f64,
    own_figures: Figures,
    goal_figures: Figures,
    /// How often a round of eighteen holes goes round the course.
    loops: f64,
}

impl Played {
    /// Strokes lost by a part over eighteen holes.
    fn lost(&self, part: Part) -> f64 {
        self.loops * self.own.lost[part as usize] / self.own.rounds.max(1) as f64
    }
}

fn mean(values: impl Iterator<Item = f64>) -> f64 {
    let (sum, count) = values.fold((0.0, 0_u32), |(sum, count), value| (sum + value, count + 1));
    sum / f64::from(count.max(1))
}

fn apart(figures: &Figures) -> Vec<HoleFigures> {
    figures.apart().into_iter().cloned().collect()
}

/// Which clubs the player's shots are played with on all courses.
fn of_all(played: &[Played], homes: &[Home<'_>]) -> ClubsPlayed {
    let each = played.iter().zip(homes);
    let each = each.map(|(on, home)| ClubsPlayed::of(home.own, &on.own));
    each.reduce(ClubsPlayed::and).unwrap_or_default()
}
