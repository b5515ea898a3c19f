//! The holes that cost most, drawn, with the way the player plays them.

use maud::{Markup, html};

use super::html::{key, picture, style};
use super::{Report, Visited};
use crate::cost::card::NOTHING;
use crate::cost::costly::CostlyHole;
use crate::course::{Hole, Lie};
use crate::round::part::Part;
use crate::show::card::spoken;
use crate::show::draw::{Mark, Picture, Played, ground_seen, mark, shots_in_words, small_hole};
use crate::show::reading::{Reading, number};
use crate::units::Length;

pub fn holes(report: &Report<'_>, home: &Visited<'_>) -> Markup {
    if home.holes.is_empty() {
        return html! {};
    }
    let golfers = report.goal_golfers();
    let heading = match home.holes.len() {
        1 => "The hole that costs most",
        2 => "The two holes that cost most",
        _ => "The three holes that cost most",
    };
    html! {
        section.holes aria-labelledby="holes" {
            h2 #holes { (heading) }
            p { (intro(report, &golfers)) }
            (key(&marks(home, &golfers, report.reading)))
            div.three {
                @for hole in home.holes { (one(report, home, hole, &golfers)) }
            }
        }
    }
}

fn intro(report: &Report<'_>, golfers: &str) -> String {
    let unit = match report.reading {
        Reading::Yards => "yards",
        Reading::Metres => "metres",
    };
    format!(
        "Seen from above, played upwards, with the clubs and aims that cost you least; rings and dots as above. Numbers \
         along the line of play: {unit} to the middle of the green. Beside each shot, the strokes it loses to {golfers} on \
         average."
    )
}

fn one(report: &Report<'_>, home: &Visited<'_>, costly: &CostlyHole, golfers: &str) -> Markup {
    let Some(hole) = home.course.holes.get(costly.place) else {
        return html! {};
    };
    let played = Played {
        name: &report.player.name,
        beside: Some(golfers),
        on: &costly.on,
    };
    let id = format!("hole-{}", hole.number);
    let drawn = small_hole(&home.course.name, hole, &played, style(report.reading, &id));
    let length = report.reading.length(Length::from_yd(hole.length_yd));
    let below = format!(
        "par {}, {length:.0} {}",
        hole.par,
        report.reading.length_unit()
    );
    html! {
        article.hole {
            h3 { "Hole " (hole.number) ": " (below) }
            figure { (picture(&drawn)) }
            div {
                p { (said(costly, golfers)) }
                ol {
                    @for [name, to, below] in shots_in_words(&played, report.reading) {
                        li { strong { (name) } ", " (to) ", " (below) }
                    }
                }
            }
        }
    }
}

/// What the hole costs, and in which part most.
fn said(costly: &CostlyHole, golfers: &str) -> String {
    in_words((costly.lost, costly.on.expected), &costly.on.lost, golfers)
}

fn in_words((cost, own): (f64, f64), by_part: &[(Part, f64)], golfers: &str) -> String {
    let [expected, theirs] = [own, own - cost].map(|strokes| number(strokes, 2));
    let both = format!("you take {expected} here, {golfers} take {theirs}");
    let lost = number(cost.abs(), 2);
    if expected == theirs {
        return format!("Costs you nothing: {both}.");
    }
    if cost < 0.0 {
        return format!("You gain {lost} strokes: {both}.");
    }
    let most = by_part.iter().max_by(|a, b| a.1.total_cmp(&b.1));
    let most = most.filter(|_| cost >= NOTHING);
    let most = most.map_or_else(String::new, |(part, in_part)| {
        let (name, in_part_of) = (spoken(*part), number(*in_part, 2));
        if *in_part > cost + 0.005 {
            format!(" {in_part_of} are lost in {name}, some of it is won back elsewhere.")
        } else if *in_part >= cost / 2.0 {
            format!(" Most of it goes in {name}: {in_part_of}.")
        } else {
            format!(" More goes in no other part than in {name}: {in_part_of}.")
        }
    });
    format!("Costs you {lost} strokes: {both}.{most}")
}

/// What the marks mean, and the tints of the ground.
fn marks(home: &Visited<'_>, golfers: &str, reading: Reading) -> Vec<(Picture, String)> {
    let entry = |which: Mark, id: &str, words: String| (mark(which, style(reading, id)), words);
    let costly = format!("a shot that loses half a stroke or more to {golfers}");
    let mut entries = vec![
        entry(
            Mark::Aim,
            "key-aim",
            "aim: where the middle of the pattern is to land".into(),
        ),
        entry(Mark::Costly, "key-costly", costly),
    ];
    for (lie, name) in ground(home) {
        let id = format!("key-{}", name.replace(' ', "-"));
        entries.push(entry(Mark::Ground(lie), &id, name.to_owned()));
    }
    entries
}

/// The lies that are seen on any of the holes.
fn ground(home: &Visited<'_>) -> Vec<(Lie, &'static str)> {
    let holes = home.holes.iter();
    let holes: Vec<&Hole> = holes
        .filter_map(|costly| home.course.holes.get(costly.place))
        .collect();
    let mut seen: Vec<(Lie, &'static str)> = Vec::new();
    for entry in holes.into_iter().flat_map(ground_seen) {
        if !seen.contains(&entry) {
            seen.push(entry);
        }
    }
    seen
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_hole_costs_is_told_of_no_hole_that_costs_nothing() {
        let said = |lost: f64, in_putting: f64| {
            in_words((lost, 5.0), &[(Part::Putting, in_putting)], "golfers off 9")
        };
        assert_eq!(
            said(0.4, 0.3),
            "Costs you 0.40 strokes: you take 5.00 here, golfers off 9 take 4.60. Most of it goes in putting: 0.30."
        );
        assert!(said(0.4, 0.1).contains("More goes in no other part than in putting: 0.10."));
        assert!(
            said(0.4, 0.6).ends_with("0.60 are lost in putting, some of it is won back elsewhere.")
        );
        assert_eq!(
            said(-0.03, 0.08),
            "You gain 0.03 strokes: you take 5.00 here, golfers off 9 take 5.03."
        );
        assert!(said(0.001, 0.1).starts_with("Costs you nothing:"));
        assert!(said(0.02, 0.1).ends_with("take 4.98."));
    }
}
