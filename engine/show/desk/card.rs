//! The cost card on the desk, what new shots moved of it, and what was made of the shots.

use maud::html;

use super::bare;
use crate::cost::card::{Card, PartCost};
use crate::show::card::{find, mark};
use crate::show::reading::number;
use crate::show::report::html::table;
use crate::show::report::{Report, goal, lead, parts, trust};

/// A card before shots were added, and with them.
#[derive(Debug, Clone, Copy)]
pub struct Moved<'a> {
    /// Before.
    pub before: &'a Card,
    /// With them.
    pub now: &'a Card,
}

/// The card, as the report has it; empty where no course is visited.
#[must_use]
pub fn card(report: &Report<'_>, moved: Option<Moved<'_>>) -> String {
    let Some(home) = report.courses.first() else {
        return String::new();
    };
    let page = html! {
        (lead::advice(report, home))
        @if let Some(moved) = moved {
            section aria-labelledby="moved" {
                h2 #moved { "What the new shots moved" }
                (moved_table(moved))
            }
        }
        (parts::card(report, home))
        (goal::asks(report, home))
        (trust::trust(report, home))
    };
    bare(&page.into_string())
}

fn moved_table(moved: Moved<'_>) -> maud::Markup {
    let mut all: Vec<&PartCost> = moved.now.parts.iter().collect();
    all.sort_by(|a, b| b.order().total_cmp(&a.order()));
    let row = |now: &&PartCost| {
        let before = find(moved.before, now.part);
        let saved = |cost: &PartCost| number(cost.saved, 1);
        vec![
            format!("{}{}", now.part.name(), mark(now.measured)),
            before.map_or_else(String::new, saved),
            interval(moved.before, now),
            saved(now),
            interval(moved.now, now),
        ]
    };
    let rows: Vec<Vec<String>> = all.iter().map(row).collect();
    let headings = [
        "part of the game",
        "would save, before",
        "nine times in ten",
        "would save, now",
        "nine times in ten",
    ];
    table(
        "Strokes a round, without the shots that were added and with them",
        &headings,
        &rows,
    )
}

fn interval(card: &Card, cost: &PartCost) -> String {
    card.detail.as_ref().map_or_else(String::new, |detail| {
        let [low, high] = detail.sure.intervals[cost.part as usize];
        format!("{} to {}", number(low, 1), number(high, 1))
    })
}

/// What was made of a player's shots, as `fit` tells it, or the notes of his file; empty where there is nothing to tell.
#[must_use]
pub fn shots(told: Option<&str>, notes: &[String]) -> String {
    let page = html! {
        @if let Some(told) = told {
            pre.told role="region" aria-label="What was made of the shots" tabindex="0" { (told.trim_end()) }
        } @else if !notes.is_empty() {
            ul { @for note in notes { li { (note) } } }
        }
    };
    page.into_string()
}
