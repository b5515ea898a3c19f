//! A cell as rows of the tables: texts, ready to be written.

use std::path::Path;

use serde::{Deserialize, Serialize};

use super::columns;
use super::hash::shown;
use super::plan::{Cell, Plan, VERSION};
use crate::cost::card::{Card, PartCost};
use crate::cost::detail::Detail;
use crate::cost::figures::{Figures, LabelCount};
use crate::cost::infer::Inference;
use crate::cost::rated::RatedFigures;
use crate::course::Course;
use crate::player::Golfer;
use crate::player::traits::Trait;
use crate::round::part::Part;
use crate::round::tally::Holds;

/// What came of a cell: its texts behind those of the inputs, and the same of each part.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Texts {
    /// In the order of [`columns::FIGURES`].
    pub figures: Vec<String>,
    /// In the order of [`columns::PARTS`].
    pub parts: Vec<Vec<String>>,
}

/// Everything worked out of a cell.
pub(super) struct Worked<'a> {
    pub golfer: &'a Golfer,
    pub course: &'a Course,
    pub figures: &'a RatedFigures,
    pub change_saved: Option<f64>,
    pub card: Option<&'a Card>,
}

impl Texts {
    /// Of a cell whose input is at fault.
    pub fn failed(message: &str) -> Self {
        let mut figures = vec![String::new(); columns::FIGURES.len()];
        if let Some(last) = figures.last_mut() {
            message.clone_into(last);
        }
        Self {
            figures,
            parts: Vec::new(),
        }
    }

    pub fn of(worked: &Worked<'_>) -> Self {
        let mut figures = of_player(worked);
        figures.extend(of_goal(worked.figures, worked.card));
        figures.push(labels(worked));
        figures.push(notes(worked));
        figures.push(String::new());
        let card = worked.card.into_iter();
        let parts = card.flat_map(|card| {
            let detail = card.detail.as_ref();
            card.parts.iter().map(move |cost| of_part(cost, detail))
        });
        Self {
            figures,
            parts: parts.collect(),
        }
    }
}

fn of_player(worked: &Worked<'_>) -> Vec<String> {
    let Worked {
        golfer,
        course,
        figures: rated,
        ..
    } = worked;
    let figures = &rated.figures;
    let inference = rated.inference.as_ref();
    vec![
        golfer.name.clone(),
        golfer.handicap.to_string(),
        course.name.clone(),
        course.holes.len().to_string(),
        course.par().to_string(),
        course.length_yd().to_string(),
        figures.score_mean.to_string(),
        figures.score_sd.to_string(),
        figures.expected_strokes.to_string(),
        or_empty(figures.fairways_hit_pct),
        figures.greens_hit_pct.to_string(),
        or_empty(figures.greens_held_pct),
        figures.putts_mean.to_string(),
        figures.three_putts_mean.to_string(),
        figures.penalties_mean.to_string(),
        holes_given_up(figures).to_string(),
        or_empty(rated.index),
        or_empty(rated.course_rating),
        or_empty(rated.bogey_rating),
        or_empty(rated.slope_rating),
        or_empty(inference.and_then(Inference::level)),
        inference.is_none_or(|found| found.fits).to_string(),
        or_empty(worked.change_saved),
    ]
}

/// Holes given up a round.
fn holes_given_up(figures: &Figures) -> f64 {
    let holes = figures.given_up();
    // An empty sum of fractions is minus zero.
    holes
        .iter()
        .fold(0.0, |sum, hole| sum + hole.given_up_pct / 100.0)
}

/// What `rank` tells beside; empty without a goal.
fn of_goal(rated: &RatedFigures, card: Option<&Card>) -> Vec<String> {
    let Some(card) = card else {
        return vec![String::new(); 13];
    };
    let goal = &card.goal;
    let first = card
        .parts
        .iter()
        .find(|cost| Some(cost.part) == card.named());
    let detail = card.detail.as_ref();
    vec![
        goal.score_mean.to_string(),
        (rated.figures.score_mean - goal.score_mean).to_string(),
        or_empty(goal.fairways_hit_pct),
        goal.greens_hit_pct.to_string(),
        or_empty(goal.greens_held_pct),
        card.named().map_or("", Part::name).to_owned(),
        or_empty(first.map(|cost| cost.saved)),
        or_empty(first.map(|cost| cost.measured)),
        card.start().word().to_owned(),
        card.start().to_measure().map_or("", Part::name).to_owned(),
        card.has_too_few_shots().to_string(),
        or_empty(detail.map(|detail| detail.sure.told_apart)),
        or_empty(detail.map(|detail| detail.shares.iter().sum::<f64>())),
    ]
}

/// What the player's file gives to know, and holes whose rounds do not bear out what is expected of them.
fn notes(worked: &Worked<'_>) -> String {
    let apart = worked.figures.figures.apart().into_iter().map(|hole| {
        format!(
            "hole {}: {:.1} strokes are expected, the rounds come to {:.1}",
            hole.number, hole.expected_strokes, hole.score_mean
        )
    });
    let of_file = worked.golfer.notes.iter().cloned();
    of_file.chain(apart).collect::<Vec<_>>().join("; ")
}

fn labels(worked: &Worked<'_>) -> String {
    let counts = worked
        .card
        .map_or(&worked.figures.counts, |card| &card.counts);
    let text = |count: &LabelCount| format!("{}={}", count.label, count.per_round);
    let counts = counts.iter().flatten().map(text);
    counts.collect::<Vec<_>>().join("; ")
}

fn of_part(cost: &PartCost, detail: Option<&Detail>) -> Vec<String> {
    let place = cost.part as usize;
    let held = |holds: &Holds| or_empty(holds.held_pct());
    let interval = detail.map(|detail| detail.sure.intervals[place]);
    let mut texts = vec![
        cost.part.name().to_owned(),
        cost.saved.to_string(),
        cost.lost.to_string(),
        cost.measured.to_string(),
        cost.shots.to_string(),
        held(&cost.holds),
        held(&cost.goal_holds),
        or_empty(cost.worth),
        or_empty(interval.map(|[low, _]| low)),
        or_empty(interval.map(|[_, high]| high)),
        or_empty(detail.map(|detail| detail.sure.likely[place])),
        or_empty(detail.map(|detail| detail.sure.first_chances[place])),
        or_empty(detail.map(|detail| detail.shares[place])),
    ];
    texts.extend(Trait::ALL.map(|which| {
        let mut traits = detail.iter().flat_map(|detail| &detail.traits[place]);
        let found = traits.find(|found| found.which == which);
        or_empty(found.map(|found| found.saved))
    }));
    texts
}

fn or_empty(value: Option<impl ToString>) -> String {
    value.map_or_else(String::new, |value| value.to_string())
}

/// The texts of a cell's inputs, in the order of [`columns::INPUTS`].
pub(super) fn inputs(plan: &Plan, cell: &Cell, folder: &Path) -> Vec<String> {
    let (crossing, course) = (plan.crossing(cell), plan.course(cell));
    let rules = &crossing.rules[cell.rules];
    let effort = plan.study.effort;
    vec![
        (cell.number + 1).to_string(),
        crossing.name.clone(),
        plan.player(cell).name.clone(),
        course.name.clone(),
        course.tees.clone().unwrap_or_default(),
        course.pins.clone().unwrap_or_default(),
        crossing.days[cell.day].name.clone(),
        rules.label(),
        plan.change(cell),
        or_empty(crossing.goals[cell.goal]),
        shown(plan.player(cell).hash(folder)).to_owned(),
        shown(course.hash(folder)).to_owned(),
        shown(rules.hash(folder)).to_owned(),
        effort.rounds.to_string(),
        effort.seed.to_string(),
        VERSION.to_owned(),
    ]
}
