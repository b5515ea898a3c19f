//! What changes are worth, as the desk shows it: a sentence, one club before and after, and figures of rounds.

use maud::{Markup, html};

use super::bare;
use crate::cost::card::NOTHING;
use crate::cost::changes::Tried;
use crate::player::club::Club;
use crate::round::clubs::beside::Beside;
use crate::show::card::strokes;
use crate::show::changes::{between, left_out, scores};
use crate::show::draw::{Under, flights_beside, holds_beside, patterns_over};
use crate::show::figures::beside_rows;
use crate::show::page::capital;
use crate::show::reading::{Reading, number};
use crate::show::report::clubs::figure_rows;
use crate::show::report::html::{figure, style, table};
use crate::show::sure::from_to;

/// How the club as it is today is called beside the changed one.
const TODAY: &str = "as it is today";

/// What is said of changes.
#[derive(Debug, Clone, Copy)]
pub struct Shown {
    /// Whether anything is changed at all.
    pub changed: bool,
    /// Strokes saved a round.
    pub saved: f64,
    /// Its 90 % interval, once it is known.
    pub interval: Option<[f64; 2]>,
    /// The expected score without the changes.
    pub before: f64,
}

/// What it comes to in a sentence or two.
#[must_use]
pub fn said(shown: &Shown) -> String {
    let Shown { saved, before, .. } = *shown;
    if !shown.changed {
        return format!("Nothing is changed yet: the expected score is {before:.1}.");
    }
    let scores = scores(before, saved);
    let verdict = match saved {
        saved if saved >= NOTHING => {
            format!("This would save {} a round: {scores}.", strokes(saved))
        }
        saved if saved <= -NOTHING => {
            format!("This would cost {} a round: {scores}.", strokes(-saved))
        }
        _ => format!(
            "This would change nothing to speak of: the expected score stays at {before:.1}."
        ),
    };
    let sure = shown.interval.map_or_else(String::new, |[low, high]| {
        format!(" Nine times in ten it would save {}.", from_to(low, high))
    });
    format!("{verdict}{sure}")
        .replace('\u{a0}', " ")
        .replace(" -", " −")
}

/// A club before and after, drawn: its pattern, its flight, greens held, and its figures.
#[must_use]
pub fn pictures(club: &Beside, changed: bool, reading: Reading) -> String {
    let all = [club];
    let (under, over) = if club.club == Club::Driver {
        (Under::Fairway, "Over a fairway, aimed down the middle")
    } else {
        (Under::Green, "Over a green, aimed at the middle")
    };
    let patterns = patterns_over(&all, under, TODAY, (reading, &["try-pattern".to_owned()]));
    let flights = flights_beside(&all, TODAY, (reading, &["try-flight".to_owned()]));
    let holds = holds_beside(club, TODAY, style(reading, "try-hold"));
    let drawn = html! {
        h3 {
            "The " (club.club)
            @if changed { ": solid and blue as changed, dotted as today" } @else { " today" }
        }
        div.three {
            @for picture in &patterns { (figure(picture, over)) }
            @for picture in &flights { (figure(picture, "From the side, heights drawn twice as large")) }
            @if club.club != Club::Driver { (figure(&holds, "Greens held, by firmness")) }
        }
        (club_table(club, reading))
    };
    bare(&drawn.into_string())
}

fn club_table(club: &Beside, reading: Reading) -> Markup {
    let caption = format!(
        "{}, in still air from a good lie",
        capital(&club.club.to_string())
    );
    // The club as it is today comes first.
    let rows = figure_rows(club, reading, [1, 0]);
    table(&caption, &["", "today", "changed"], &rows)
}

/// Each change by itself, where it is saved, and the rounds with and without.
#[must_use]
pub fn figures(tried: &Tried) -> String {
    let page = html! {
        div.pair {
            div {
                @if !tried.changes.is_empty() { (each(tried)) (by_part(tried)) }
            }
            div { (rounds(tried)) }
        }
    };
    page.into_string()
}

fn each(tried: &Tried) -> Markup {
    let mut rows: Vec<Vec<String>> = tried
        .changes
        .iter()
        .map(|one| {
            vec![
                one.change.to_string(),
                number(one.saved, 2),
                between(one.low, one.high),
            ]
        })
        .collect();
    if tried.changes.len() > 1 {
        let all = tried.together;
        rows.push(vec![
            "all together".to_owned(),
            number(all.saved, 2),
            between(all.low, all.high),
        ]);
    }
    let each = table(
        "Each change alone, strokes saved a round",
        &["change", "would save", "nine times in ten"],
        &rows,
    );
    html! {
        (each)
        @if let Some(note) = left_out(tried) { p.note { (note) } }
    }
}

fn by_part(tried: &Tried) -> Markup {
    let rows: Vec<Vec<String>> = tried
        .parts
        .iter()
        .map(|part| vec![part.part.to_owned(), number(part.saved, 2)])
        .collect();
    table(
        "Where it is saved, counted over the rounds, with their luck",
        &["part of the game", "saved"],
        &rows,
    )
}

fn rounds(tried: &Tried) -> Markup {
    let both = [&tried.before.figures, &tried.after.figures];
    let mut rows = vec![vec![
        "average score".to_owned(),
        number(both[0].score_mean, 1),
        number(both[1].score_mean, 1),
    ]];
    rows.extend(beside_rows(both).map(|row| row.to_vec()));
    let caption = format!("A round, counted over {} rounds", both[0].rounds);
    table(&caption, &["", "today", "changed"], &rows)
}
