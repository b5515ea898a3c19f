//! The cost card: what each part would save, drawn with its interval and as a table.

use maud::{Markup, html};

use super::html::{figure, style, table};
use super::{Report, Visited};
use crate::cost::card::{Card, PartCost};
use crate::show::card::{mark, part_rows};
use crate::show::draw::{Saving, savings};

pub fn card(report: &Report<'_>, home: &Visited<'_>) -> Markup {
    let (headings, rows) = part_rows(home.card);
    let golfers = report.goal_golfers();
    let drawn = savings(
        &saved(home.card),
        &golfers,
        style(report.reading, "savings"),
    );
    let caption = format!(
        "Dot: what the part would save a round if you alone played it as {golfers} do. Bar: where that lies nine times in \
         ten. Hollow dot and *: assumed, nobody measured it."
    );
    let title = "The cost card, the costliest part first, strokes a round";
    html! {
        section aria-labelledby="card" {
            h2 #card { "The cost card" }
            div.pair.broad {
                (figure(&drawn, &caption))
                (table(title, &headings, &rows))
            }
        }
    }
}

/// The parts in the order of the table.
fn saved(card: &Card) -> Vec<Saving> {
    let mut parts: Vec<&PartCost> = card.parts.iter().collect();
    parts.sort_by(|a, b| b.order().total_cmp(&a.order()));
    let detail = card.detail.as_ref();
    let saving = |cost: &PartCost| Saving {
        name: format!("{}{}", cost.part.name(), mark(cost.measured)),
        measured: cost.measured,
        saved: cost.saved,
        interval: detail.map(|detail| detail.sure.intervals[cost.part as usize]),
    };
    parts.into_iter().map(saving).collect()
}
