//! Goals as other programs read them.

use serde::Serialize;

use crate::cost::figures::GivenUp;
use crate::cost::infer::InferenceDocument;
use crate::cost::rating::CourseRating;
use crate::round::part::Part;

use super::{Goal, Goals, OnCourse, PartGoal, Step};

/// What `goal --json` prints.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GoalsDocument {
    index: f64,
    #[serde(flatten)]
    inference: InferenceDocument,
    courses: Vec<CourseDocument>,
    goals: Vec<GoalDocument>,
}

#[derive(Debug, Clone, PartialEq, Serialize)]
struct CourseDocument {
    course: String,
    holes: usize,
    #[serde(flatten)]
    rating: CourseRating,
    score_mean: f64,
    index: f64,
    extra_strokes: f64,
    rules: Vec<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    given_up: Vec<GivenUp>,
}

#[derive(Debug, Clone, PartialEq, Serialize)]
struct GoalDocument {
    to: f64,
    reached: bool,
    goal_index: f64,
    parts: Vec<PartDocument>,
    steps: Vec<StepDocument>,
    figures: Vec<FigureDocument>,
    courses: Vec<GoalOnCourseDocument>,
}

#[derive(Debug, Clone, PartialEq, Serialize)]
struct PartDocument {
    part: &'static str,
    lost: f64,
    saved: f64,
    measured: bool,
    index_if_perfect: f64,
    reaches_alone: bool,
}

#[derive(Debug, Clone, PartialEq, Serialize)]
struct StepDocument {
    parts: Vec<&'static str>,
    toward: &'static str,
    way_pct: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize)]
struct FigureDocument {
    name: String,
    player: Option<f64>,
    goal: Option<f64>,
}

#[derive(Debug, Clone, PartialEq, Serialize)]
struct GoalOnCourseDocument {
    course: String,
    goal_score_mean: f64,
    gap: f64,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    given_up: Vec<GivenUp>,
}

impl From<&Goals> for GoalsDocument {
    fn from(goals: &Goals) -> Self {
        let home = goals.courses.first().map_or(0.0, |home| home.score_mean);
        let course = |on: &OnCourse| CourseDocument {
            course: on.course.clone(),
            holes: on.holes,
            rating: on.rating,
            score_mean: on.score_mean,
            index: on.index,
            extra_strokes: on.score_mean - home,
            rules: on.rules.clone(),
            given_up: on.given_up.clone(),
        };
        Self {
            index: goals.index,
            inference: goals.inference.as_ref().into(),
            courses: goals.courses.iter().map(course).collect(),
            goals: goals
                .goals
                .iter()
                .map(|goal| of(goal, &goals.courses))
                .collect(),
        }
    }
}

fn of(goal: &Goal, courses: &[OnCourse]) -> GoalDocument {
    let theirs = goal.golfers_score_means.iter().zip(&goal.golfers_given_up);
    let on_course =
        |(on, (goals, given_up)): (&OnCourse, (&f64, &Vec<GivenUp>))| GoalOnCourseDocument {
            course: on.course.clone(),
            goal_score_mean: *goals,
            gap: on.score_mean - goals,
            given_up: given_up.clone(),
        };
    let figure = |figure: &super::Figure| FigureDocument {
        name: figure.kind.name(),
        player: figure.player,
        goal: figure.goal,
    };
    GoalDocument {
        to: goal.to,
        reached: goal.reached,
        goal_index: goal.golfers_index,
        parts: goal.parts.iter().map(PartDocument::from).collect(),
        steps: goal.steps.iter().map(StepDocument::from).collect(),
        figures: goal.figures.iter().map(figure).collect(),
        courses: courses.iter().zip(theirs).map(on_course).collect(),
    }
}

impl From<&PartGoal> for PartDocument {
    fn from(part: &PartGoal) -> Self {
        Self {
            part: part.part.name(),
            lost: part.lost,
            saved: part.saved,
            measured: part.measured,
            index_if_perfect: part.index_if_perfect,
            reaches_alone: part.reaches_alone,
        }
    }
}

impl From<&Step> for StepDocument {
    fn from(step: &Step) -> Self {
        Self {
            parts: step.parts.iter().copied().map(Part::name).collect(),
            toward: if step.to_tour { "tour" } else { "goal" },
            way_pct: 100.0 * step.share,
        }
    }
}
