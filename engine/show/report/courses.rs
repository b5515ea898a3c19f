//! The other courses, beside home.

use maud::{Markup, html};

use super::html::table;
use super::{Report, Visited};
use crate::cost::card::PartCost;
use crate::show::card::{find, mark, scores, told};
use crate::show::reading::{holes, number};
use crate::show::start::advice;
use crate::show::sure::sureness;

pub fn others(report: &Report<'_>, home: &Visited<'_>, others: &[Visited<'_>]) -> Markup {
    if others.is_empty() {
        return html! {};
    }
    html! {
        section aria-labelledby="others" {
            h2 #others { "On other courses" }
            @for at in others { (one(report, at)) }
            (beside(home, others))
        }
    }
}

fn one(report: &Report<'_>, at: &Visited<'_>) -> Markup {
    let names = report.names(at);
    let [first, because] = advice(names, at.card);
    html! {
        h3 { (at.course.name) }
        p { (scores(names, at.card)) }
        p { strong { (first) } " " (because) }
        @if let Some(said) = sureness(at.card) { p { (said) } }
        @if let Some(said) = told(names, at.card) { p.note { (said) } }
    }
}

/// What each part would save, course by course.
fn beside(home: &Visited<'_>, others: &[Visited<'_>]) -> Markup {
    let all = || std::iter::once(home).chain(others);
    let mut parts: Vec<&PartCost> = home.card.parts.iter().collect();
    parts.sort_by(|a, b| b.order().total_cmp(&a.order()));
    let row = |cost: &PartCost| {
        let saved = all().map(|at| {
            find(at.card, cost.part).map_or_else(String::new, |cost| number(cost.saved, 1))
        });
        let name = format!("{}{}", cost.part.name(), mark(cost.measured));
        std::iter::once(name).chain(saved).collect()
    };
    let rows: Vec<Vec<String>> = parts.into_iter().map(row).collect();
    // Strokes of nine holes beside those of eighteen would else be taken for less.
    let is_alike = all().all(|at| at.course.holes.len() == home.course.holes.len());
    let names = all().map(|at| match is_alike {
        true => at.course.name.clone(),
        false => format!("{}, {}", at.course.name, holes(at.course.holes.len())),
    });
    let names: Vec<String> = names.collect();
    let headings = std::iter::once("part of the game").chain(names.iter().map(String::as_str));
    let headings: Vec<&str> = headings.collect();
    table(
        "What each part would save, strokes a round",
        &headings,
        &rows,
    )
}
