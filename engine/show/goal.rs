//! What handicap goals ask of a player, in words.

use crate::cost::card::NOTHING;
use crate::cost::goal::{FigureKind, Goal, Goals, OnCourse, PartGoal, Step};
use crate::cost::infer::Inference;
use crate::files::joined;
use crate::player::Golfer;
use crate::round::nearness::BANDS_YD;
use crate::round::part::Part;
use crate::units::Length;

use super::card::{mark, rules_in_force, spoken, strokes};
use super::inference::inference;
use super::page::{Page, capital, tied};
use super::reading::{Reading, index, made_index};
use super::table::{number, pct, table, text};

/// The whole page.
#[must_use]
pub fn goals(player: &Golfer, goals: &Goals, page: Page) -> String {
    let mut out = page.paragraph(&title(player, goals));
    out.push('\n');
    if let Some(found) = &goals.inference {
        out += &page.paragraph(&inference(found, player.handicap));
        out.push('\n');
    }
    for said in rules(&goals.courses) {
        out += &page.paragraph(&said);
        out.push('\n');
    }
    if goals.courses.len() > 1 {
        out += &page.paragraph(&extra(goals));
        out.push('\n');
        out += &course_table(goals, page);
        out.push('\n');
        out += &page.paragraph("What follows is the mean over these courses.");
        out.push('\n');
    }
    for goal in &goals.goals {
        out += &page.paragraph(&heading(goals, goal));
        out.push('\n');
        if !goal.reached {
            out += &page.paragraph(&format!("{} {}", alone(goal), together(goal)));
            out.push('\n');
        }
        out += &part_table(goal, page);
        out.push('\n');
        out += &figure_table(goal, page);
        out.push('\n');
    }
    for note in notes(player, goals) {
        out += &page.item(&note);
    }
    out
}

fn title(player: &Golfer, goals: &Goals) -> String {
    let names: Vec<&str> = goals.courses.iter().map(|on| on.course.as_str()).collect();
    format!(
        "{}, off {}, at {}. Rounds as they are today make an index of {}.",
        player.name,
        index(player.handicap),
        joined(&names, "and"),
        made_index(goals.index)
    )
}

/// The scripts in force: once where they are the same on every course, otherwise course by course.
fn rules(courses: &[OnCourse]) -> Vec<String> {
    let are_same = courses.windows(2).all(|two| two[0].rules == two[1].rules);
    if are_same {
        let first = courses.first().and_then(|on| rules_in_force(&on.rules));
        return first.into_iter().collect();
    }
    let has_rules = |on: &&OnCourse| !on.rules.is_empty();
    let said = |on: &OnCourse| format!("Rules in force at {}: {}.", on.course, on.rules.join(", "));
    courses.iter().filter(has_rules).map(said).collect()
}

/// What the other courses cost beside the first.
fn extra(goals: &Goals) -> String {
    let Some((home, away)) = goals.courses.split_first() else {
        return String::new();
    };
    let said = away.iter().enumerate().map(|(number, on)| {
        let theirs = goals.goals.first().map(|goal| {
            let extra = goal.golfers_score_means[number + 1] - goal.golfers_score_means[0];
            format!("; golfers off {} {}", index(goal.to), more(extra))
        });
        format!(
            "{} costs you {} than {}{}.",
            on.course,
            more(on.score_mean - home.score_mean),
            home.course,
            theirs.unwrap_or_default()
        )
    });
    said.collect::<Vec<_>>().join(" ")
}

/// So many strokes more or fewer.
fn more(strokes_more: f64) -> String {
    if strokes_more < 0.0 {
        tied(&format!("{} fewer", strokes(-strokes_more)))
    } else {
        tied(&format!("{} more", strokes(strokes_more)))
    }
}

fn course_table(goals: &Goals, page: Page) -> String {
    let offs = goals
        .goals
        .iter()
        .map(|goal| format!("off {}\naverage", index(goal.to)));
    let offs: Vec<String> = offs.collect();
    let mut headings = vec![
        "course",
        "course\nrating",
        "slope\nrating",
        "your\naverage",
        "your\nindex",
    ];
    headings.extend(offs.iter().map(String::as_str));
    let mut rows = table(headings, 1);
    for (number_of, on) in goals.courses.iter().enumerate() {
        let OnCourse {
            course,
            holes: _,
            rating,
            score_mean,
            index: own,
            rules: _,
            given_up: _,
            apart: _,
        } = on;
        let mut row = vec![
            course.clone(),
            number(rating.rating.course_rating, 1),
            rating.rating.slope_rating.to_string(),
            number(*score_mean, 1),
            made_index(*own),
        ];
        let theirs = goals
            .goals
            .iter()
            .map(|goal| number(goal.golfers_score_means[number_of], 1));
        row.extend(theirs);
        rows.add_row(row);
    }
    text(&rows, page)
}

fn heading(goals: &Goals, goal: &Goal) -> String {
    let to = index(goal.to);
    let gaps = goals.courses.iter().zip(&goal.golfers_score_means);
    let gaps: f64 = gaps.map(|(on, theirs)| on.score_mean - theirs).sum();
    let gap = gaps / goals.courses.len().max(1) as f64;
    let gap = match gap {
        gap if gap > NOTHING => format!(
            "golfers off {to} average {} a round less here",
            strokes(gap)
        ),
        gap if gap < -NOTHING => format!(
            "golfers off {to} average {} a round more here",
            strokes(-gap)
        ),
        _ => format!("golfers off {to} average as much here"),
    };
    if goal.reached {
        format!("Off {to}: reached today; {gap}.")
    } else {
        format!("Off {to}: {gap}.")
    }
}

/// Whether one part alone would do.
fn alone(goal: &Goal) -> String {
    let to = index(goal.to);
    let mut parts: Vec<&PartGoal> = goal.parts.iter().collect();
    parts.sort_by(|a, b| a.index_if_perfect.total_cmp(&b.index_if_perfect));
    let able: Vec<&str> = parts
        .iter()
        .filter(|part| part.reaches_alone)
        .map(|part| spoken(part.part))
        .collect();
    let mut said = match (able.as_slice(), parts.first()) {
        ([], Some(best)) => format!(
            "No part alone can get you to {to}, even at tour standard: your {} at tour standard would bring you to {}, \
             and that is the most.",
            spoken(best.part),
            made_index(best.index_if_perfect)
        ),
        ([], None) => String::new(),
        ([only], _) => {
            let were = if only.ends_with('s') {
                "they were"
            } else {
                "it were"
            };
            format!("Your {only} alone could get you to {to}, if {were} at tour standard.")
        }
        (able, _) => format!(
            "Alone, at tour standard, each of these could get you to {to}: {}.",
            joined(able, "and")
        ),
    };
    let tee_shots = parts.iter().find(|part| part.part == Part::TeeShots);
    if let Some(tee_shots) = tee_shots.filter(|part| !part.reaches_alone) {
        said += &format!(
            " Better driving alone cannot: tee shots at tour standard would bring you to {}.",
            made_index(tee_shots.index_if_perfect)
        );
    }
    said
}

/// The cheapest equal steps.
fn together(goal: &Goal) -> String {
    let to = index(goal.to);
    let Some((first, others)) = goal.steps.split_first() else {
        return format!("Not even every part at tour standard reaches {to}.");
    };
    let set = |step: &Step| {
        let names: Vec<&str> = step.parts.iter().map(|part| part.name()).collect();
        joined(&names, "and")
    };
    let whom = if first.to_tour {
        "tour professionals".to_owned()
    } else {
        format!("golfers off {to}")
    };
    let mut said = format!(
        "{} of the way to {whom} in {} reaches {to}",
        capital(way(first.share)),
        set(first)
    );
    let mut last = way(first.share);
    for step in others {
        // A larger set that asks as much of each part is no news.
        if way(step.share) != last {
            last = way(step.share);
            said += &format!("; {last} in {}", set(step));
        }
    }
    said + "."
}

/// A fraction that is short of a share by no more than this stands for it.
const SLACK: f64 = 0.015;

/// A share of the way as it is said: the least of the usual fractions that is as long.
fn way(share: f64) -> &'static str {
    const WAYS: [(f64, &str); 11] = [
        (0.1, "a tenth"),
        (0.2, "a fifth"),
        (0.25, "a quarter"),
        (1.0 / 3.0, "a third"),
        (0.4, "two fifths"),
        (0.5, "half"),
        (0.6, "three fifths"),
        (2.0 / 3.0, "two thirds"),
        (0.75, "three quarters"),
        (0.8, "four fifths"),
        (0.9, "nine tenths"),
    ];
    WAYS.iter()
        .find(|(least, _)| share <= least + SLACK)
        .map_or("all", |(_, said)| said)
}

fn part_table(goal: &Goal, page: Page) -> String {
    let mut parts: Vec<&PartGoal> = goal.parts.iter().collect();
    parts.sort_by(|a, b| b.saved.total_cmp(&a.saved));
    let enough = format!("off {}\nreached", index(goal.to));
    let mut rows = table(
        [
            "part of\nthe game",
            "would\nsave",
            "lost\nnow",
            "index at\ntour standard",
            &enough,
        ],
        1,
    );
    for part in parts {
        rows.add_row([
            format!("{}{}", part.part.name(), mark(part.measured)),
            number(part.saved, 1),
            number(part.lost, 1),
            made_index(part.index_if_perfect),
            if part.reaches_alone { "yes" } else { "no" }.to_owned(),
        ]);
    }
    text(&rows, page)
}

fn figure_table(goal: &Goal, page: Page) -> String {
    let off = format!("off {}", index(goal.to));
    let mut rows = table(["", "player", &off], 1);
    for figure in &goal.figures {
        let shown = |value| shown(figure.kind, value, page.reading);
        rows.add_row([
            label(figure.kind, page.reading),
            shown(figure.player),
            shown(figure.goal),
        ]);
    }
    text(&rows, page)
}

fn label(kind: FigureKind, reading: Reading) -> String {
    match kind {
        FigureKind::FairwaysHit => "fairways hit".into(),
        FigureKind::GreensHit => "greens hit in regulation".into(),
        FigureKind::GreensHeld => "greens held".into(),
        FigureKind::Left { band } => {
            let [from, to] =
                BANDS_YD[band].map(|yd| reading.length(Length::from_yd(f64::from(yd))));
            format!("left from {from:.0} to {to:.0} {}", reading.length_unit())
        }
        FigureKind::UpAndDowns => "up-and-downs".into(),
        FigureKind::SandSaves => "up-and-downs from sand".into(),
        FigureKind::Putts => "putts".into(),
        FigureKind::ThreePutts => "three-putts".into(),
        FigureKind::Holed { from_ft } => match reading {
            Reading::Yards => format!("putts holed from {from_ft} ft"),
            Reading::Metres => {
                let distance = Length::from_ft(f64::from(from_ft));
                format!("putts holed from {:.1} m", distance.m())
            }
        },
        FigureKind::Penalties => "penalty strokes".into(),
    }
}

fn shown(kind: FigureKind, value: Option<f64>, reading: Reading) -> String {
    let Some(known) = value else {
        return pct(None);
    };
    match kind {
        FigureKind::FairwaysHit
        | FigureKind::GreensHit
        | FigureKind::GreensHeld
        | FigureKind::UpAndDowns
        | FigureKind::SandSaves
        | FigureKind::Holed { .. } => pct(value),
        FigureKind::Left { .. } => match reading {
            Reading::Yards => format!("{known:.0} ft"),
            Reading::Metres => format!("{:.1} m", Length::from_ft(known).m()),
        },
        FigureKind::Putts | FigureKind::ThreePutts | FigureKind::Penalties => number(known, 1),
    }
}

fn notes(player: &Golfer, goals: &Goals) -> Vec<String> {
    let mut notes = Vec::new();
    if goals.courses.iter().any(|on| on.holes == 9) {
        notes.push("Strokes and averages are of eighteen holes, nine played twice; the rating of nine holes is of nine.".to_owned());
    }
    notes.extend([
        "Would save: how much lower the average score is when this part alone is played as the goal's golfers play it."
            .to_owned(),
        "Lost now: what the part gives away to them, shot by shot (below zero: gains on them).".to_owned(),
        "Index at tour standard: the index with this part alone as tour professionals play it, the rest as today."
            .to_owned(),
        "Of the way: from how the player plays a part to how those golfers do, in speed, spread and misses alike."
            .to_owned(),
        "Left: half of the full shots meant for the green finish nearer the hole than this.".to_owned(),
        "Up-and-downs: greens missed from near by, and holed out from there in two strokes at most.".to_owned(),
    ]);
    if goals
        .goals
        .iter()
        .flat_map(|goal| &goal.parts)
        .any(|part| !part.measured)
    {
        let whose = match goals.inference.as_ref().and_then(Inference::level) {
            Some(level) => format!(
                "that of a golfer off {}, or where it was inferred off {}",
                index(player.handicap),
                index(level)
            ),
            None => format!("that of a golfer off {}", index(player.handicap)),
        };
        notes.push(format!("* Assumed: nobody measured it, so it is {whose}."));
    }
    notes.push("Estimates from a model, not promises.".to_owned());
    notes
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_of_the_way_is_said_as_a_fraction_that_is_enough() {
        assert_eq!(
            [0.05, 0.24, 0.34, 0.36, 0.5, 0.97].map(way),
            [
                "a tenth",
                "a quarter",
                "a third",
                "two fifths",
                "half",
                "all"
            ]
        );
    }
}
