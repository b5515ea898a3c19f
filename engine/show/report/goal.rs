//! What the goal asks: the player's figures beside those of its golfers, and whether one part alone would do.

use maud::{Markup, html};

use super::html::table;
use super::{Report, Visited};
use crate::cost::card::{Card, NOTHING};
use crate::round::part::Part;
use crate::show::card::{find, scores, spoken, strokes};
use crate::show::figures::beside_rows;

pub fn asks(report: &Report<'_>, home: &Visited<'_>) -> Markup {
    let golfers = report.goal_golfers();
    let rows = beside_rows([&home.card.player, &home.card.goal]).map(|row| row.to_vec());
    let caption = format!("A round at {}", home.course.name);
    let off = golfers.trim_start_matches("golfers ").to_owned();
    html! {
        section.goal aria-labelledby="goal" {
            h2 #goal { "What the goal asks" }
            div.pair {
                div {
                    p { (scores(report.names(home), home.card)) }
                    @for said in alone(home.card, &golfers) { p { (said) } }
                }
                (table(&caption, &["", "you", &off], &rows))
            }
        }
    }
}

/// Whether one part alone would close the gap.
fn alone(card: &Card, golfers: &str) -> Vec<String> {
    let gap = card.player.score_mean - card.goal.score_mean;
    let most = card.parts.iter().max_by(|a, b| a.saved.total_cmp(&b.saved));
    let Some(most) = most.filter(|most| gap > NOTHING && most.saved >= NOTHING) else {
        return vec![format!(
            "Your average score here is that of {golfers} already, or better."
        )];
    };
    let (name, gives) = (spoken(most.part), strokes(most.saved));
    let open = if most.measured {
        ""
    } else {
        ", if it is as assumed"
    };
    let mut said = if most.saved >= gap {
        format!(
            "Your {name} alone could close it: at the standard of {golfers} that would save {gives}{open}."
        )
    } else {
        format!(
            "No part alone closes the gap. Your {name} would come nearest: at the standard of {golfers} that would save \
             {gives}{open}."
        )
    };
    if most.part != Part::TeeShots
        && let Some(tee_shots) = find(card, Part::TeeShots)
    {
        said += &driving(tee_shots.saved, gap);
    }
    let together = card.detail.as_ref().map(|_| {
        "The share of the gap in the table above says how much each part has in closing it when all of them are \
         worked on."
            .to_owned()
    });
    std::iter::once(said).chain(together).collect()
}

/// What better driving alone would do, which is what most players ask.
fn driving(saved: f64, gap: f64) -> String {
    match saved {
        saved if saved < NOTHING => {
            " Better driving alone would save nothing to speak of.".to_owned()
        }
        saved if saved >= gap => format!(
            " Better driving alone could do it too: it would save {}.",
            strokes(saved)
        ),
        saved => format!(" Better driving alone would save {}.", strokes(saved)),
    }
}
