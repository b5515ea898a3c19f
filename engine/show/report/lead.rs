//! What stands on top: who, and what to work on first.

use maud::{Markup, html};

use super::{Report, Visited};
use crate::show::card::{answer, rules_in_force, title, told};
use crate::show::page::capital;
use crate::show::reading::number;
use crate::show::start::advice as advised;
use crate::show::sure::sureness;

pub fn header(report: &Report<'_>, home: &Visited<'_>, heading: &str) -> Markup {
    html! {
        header {
            h1 { (heading) }
            p.who { (title(report.names(home))) }
        }
    }
}

pub fn advice(report: &Report<'_>, home: &Visited<'_>) -> Markup {
    let (names, card) = (report.names(home), home.card);
    let [first, because] = advised(names, card);
    let more = [
        sureness(card),
        report.asked.and_then(|asked| answer(card, asked)),
    ];
    html! {
        section.lead aria-labelledby="first" {
            div {
                h2 #first { "In short" }
                p.first { (first) }
                @if !because.is_empty() { p { (because) } }
                @for said in more.iter().flatten() { p { (said) } }
                @if let Some(said) = told(names, card) { p.note { (said) } }
                @if let Some(said) = rules_in_force(home.rules) { p.note { (said) } }
            }
            (scoreboard(report, home))
        }
    }
}

/// The scores and the gap between them, large.
fn scoreboard(report: &Report<'_>, home: &Visited<'_>) -> Markup {
    let (own, theirs) = (home.card.player.score_mean, home.card.goal.score_mean);
    let rows = [
        ("Your average score here".to_owned(), number(own, 1)),
        (
            format!("{} average", capital(&report.goal_golfers())),
            number(theirs, 1),
        ),
        (
            "The gap, strokes a round".to_owned(),
            number(own - theirs, 1).replace('-', "−"),
        ),
    ];
    html! {
        dl.scores {
            @for (name, figure) in rows {
                div { dt { (name) } dd { (figure) } }
            }
        }
    }
}
