//! The clubs behind the card: patterns over a green, flights from the side, greens held.

use maud::{Markup, html};

use super::html::{figure, key, style, table};
use super::{Report, Visited};
use crate::player::club::Club;
use crate::round::clubs::beside::Beside;
use crate::round::clubs::{GREEN_DEPTH_YD, GREEN_WIDTH_YD};
use crate::show::card::mark as star;
use crate::show::draw::{
    self, Mark, Picture, Under, flights_beside, holds_beside, mark, patterns_over,
};
use crate::show::page::capital;
use crate::show::reading::{Reading, number};
use crate::units::Length;

pub fn clubs(report: &Report<'_>, home: &Visited<'_>) -> Markup {
    if report.clubs.is_empty() {
        return html! {};
    }
    // A short game or putts to work on have no club that is drawn here.
    let heading = match home.card.work_on {
        Some(part) if !part.is_full() => "Clubs of your full shots",
        _ => "The clubs behind it",
    };
    let golfers = report.goal_golfers();
    let drawn = Drawn::of(report.clubs, &golfers, report.reading);
    html! {
        section.clubs aria-labelledby="clubs" {
            h2 #clubs { (heading) }
            p { (intro(report, &golfers)) }
            (key(&marks(&golfers, report.reading)))
            div.three {
                @for (index, club) in report.clubs.iter().enumerate() {
                    (one(report, club, &golfers, &drawn, index))
                }
            }
        }
    }
}

fn intro(report: &Report<'_>, golfers: &str) -> String {
    let reading = report.reading;
    let [deep, wide] =
        [GREEN_DEPTH_YD, GREEN_WIDTH_YD].map(|yd| number(reading.length(Length::from_yd(yd)), 0));
    format!(
        "Your shots beside those of {golfers}: where they land when aimed at the middle of a level green, {deep} by {wide} \
         {}; how they fly, heights drawn twice as large as distances; how many of 100 that pitch on the front half stay \
         on it. Still air, good lie.",
        reading.length_unit()
    )
}

/// Pictures by club.
struct Drawn {
    patterns: Vec<Picture>,
    flights: Vec<Picture>,
}

impl Drawn {
    /// Tee shots go over a fairway, to a scale of their own.
    fn of(clubs: &[Beside], golfers: &str, reading: Reading) -> Self {
        let all: Vec<&Beside> = clubs.iter().collect();
        let names = |what: &str| -> Vec<String> {
            (0..clubs.len())
                .map(|club| format!("{what}-{club}"))
                .collect()
        };
        let patterns = names("pattern");
        let teed = clubs
            .iter()
            .take_while(|club| club.club == Club::Driver)
            .count();
        let mut over = patterns_over(
            &all[..teed],
            Under::Fairway,
            golfers,
            (reading, &patterns[..teed]),
        );
        over.extend(patterns_over(
            &all[teed..],
            Under::Green,
            golfers,
            (reading, &patterns[teed..]),
        ));
        Self {
            patterns: over,
            flights: flights_beside(&all, golfers, (reading, &names("flight"))),
        }
    }
}

fn one(report: &Report<'_>, club: &Beside, golfers: &str, drawn: &Drawn, index: usize) -> Markup {
    let id = format!("hold-{index}");
    let holds = holds_beside(club, golfers, style(report.reading, &id));
    let over = if club.club == Club::Driver {
        "Over a fairway"
    } else {
        "Over a green"
    };
    html! {
        article {
            h3 { (capital(&club.club.to_string())) (star(club.measured)) }
            @if let Some(pattern) = drawn.patterns.get(index) { div.pattern { (figure(pattern, over)) } }
            @if let Some(flight) = drawn.flights.get(index) { (figure(flight, "From the side")) }
            @if club.club != Club::Driver { (figure(&holds, "Greens held, by firmness")) }
            (figures(report, club))
        }
    }
}

fn figures(report: &Report<'_>, club: &Beside) -> Markup {
    let golfers = report.goal_golfers();
    let off = golfers.trim_start_matches("golfers ");
    let caption = format!("The {}: you and {golfers}", club.club);
    let rows = figure_rows(club, report.reading, [0, 1]);
    table(&caption, &["", "you", off], &rows)
}

/// Figures of a club and of the one beside it, in the columns of `order`.
pub(in crate::show) fn figure_rows(
    club: &Beside,
    reading: Reading,
    order: [usize; 2],
) -> Vec<Vec<String>> {
    let unit = reading.length_unit();
    let shown = |yd: f64| number(reading.length(Length::from_yd(yd)), 0);
    let row = |name: String, figure: &dyn Fn(usize) -> String| {
        let [first, second] = order.map(figure);
        vec![name, first, second]
    };
    let arc = |whose: usize| &club.arcs[whose];
    let mishits = |whose: usize| 100.0 * club.landings[whose].mishit_share;
    let mut rows = vec![
        row(format!("carry of the mean strike, {unit}"), &|whose| {
            shown(arc(whose).carry_yd)
        }),
        row(format!("apex, {unit}"), &|whose| shown(arc(whose).apex_yd)),
        row("descent, °".into(), &|whose| {
            number(arc(whose).descent_deg, 0)
        }),
        row("mishits, of 100".into(), &|whose| number(mishits(whose), 0)),
    ];
    if club.club != Club::Driver {
        let landed = |whose: usize| number(club.landings[whose].on_green_pct, 0);
        rows.push(row("pitch on the green, of 100".into(), &landed));
        let held = |whose: usize| club.held_pct(whose);
        rows.push(row("held on medium, of 100".into(), &|whose| {
            held(whose).map_or_else(String::new, |held| number(held.medium, 0))
        }));
    }
    rows
}

/// What the marks mean.
fn marks(golfers: &str, reading: Reading) -> Vec<(Picture, String)> {
    let entry =
        |which: Mark, id: &str, words: String| (mark(which, draw::Style { reading, id }), words);
    vec![
        entry(
            Mark::Shot,
            "key-shot",
            "shots like yours, where they pitch".into(),
        ),
        entry(
            Mark::Costly,
            "key-mishit",
            "a mishit (the farthest are not shown)".into(),
        ),
        entry(
            Mark::Half,
            "key-half",
            "half of yours land inside, mishits aside".into(),
        ),
        entry(Mark::NineInTen, "key-nine", "nine in ten of yours".into()),
        entry(
            Mark::NineInTenBeside,
            "key-beside",
            format!("nine in ten of {golfers}"),
        ),
        entry(Mark::Own, "key-own", "your flight, your greens held".into()),
        entry(Mark::Beside, "key-theirs", format!("those of {golfers}")),
    ]
}
