//! A golfer's figures on a course, for people.

use crate::cost::figures::{Figures, GivenUp, HoleFigures};
use crate::cost::rated::RatedFigures;
use crate::files::joined;
use crate::player::Golfer;
use crate::round::values::MOST_STROKES;
use crate::units::Length;

use super::card::{count_table, rules_in_force};
use super::inference::inference;
use super::page::Page;
use super::reading::made_index;
use super::table::{number, pct, table, text};

/// Narrower pages have no room for the column of strokes over par.
const ROOM_FOR_OVER_PAR: usize = 48;

/// The figures of `play`.
#[must_use]
pub fn figures(golfer: &Golfer, course: &str, rated: &RatedFigures, page: Page) -> String {
    let figures = &rated.figures;
    let par: u32 = figures.holes.iter().map(|hole| u32::from(hole.par)).sum();
    let rounds = match figures.rounds {
        1 => "1 round".to_owned(),
        many => format!("{many} rounds"),
    };
    let mut out = page.paragraph(&format!("{} at {course}, par {par}: {rounds}", golfer.name));
    out.push('\n');
    for (name, figure, remark) in totals(figures) {
        out += &page.figure(&name, &figure, &remark);
    }
    if let Some(index_shown) = rated.index.map(made_index) {
        let remark = "of such rounds, the best 8 of each 20";
        out += &page.figure("Handicap index", &format!(" {index_shown}"), remark);
    }
    if let Some(rating) = rating(rated) {
        out += &page.paragraph(&rating);
    }
    if let Some(rules) = rules_in_force(&rated.rules) {
        out += &page.paragraph(&rules);
    }
    if let Some(found) = &rated.inference {
        out.push('\n');
        out += &page.paragraph(&inference(found, golfer.handicap));
    }
    out.push('\n');
    out += &holes(figures, page);
    out.push('\n');
    if let Some(counts) = &rated.counts {
        out += &count_table(counts, page);
        out.push('\n');
    }
    out += &page.paragraph("Estimates from a model, not promises.");
    out
}

/// The course's rating in a sentence.
fn rating(rated: &RatedFigures) -> Option<String> {
    let how = if rated.is_stated {
        "as the course file states it"
    } else {
        "by play"
    };
    Some(format!(
        "Course rating {:.1}, bogey rating {:.1}, slope rating {}, {how}.",
        rated.course_rating?, rated.bogey_rating?, rated.slope_rating?
    ))
}

/// Name, figure and remark of a line.
type Line = (String, String, String);

/// Every line of the whole round.
fn totals(figures: &Figures) -> Vec<Line> {
    let spread = format!("two rounds in three within {:.1} of it", figures.score_sd);
    let plain = String::new;
    let mut lines = vec![("Score".to_owned(), number(figures.score_mean, 1), spread)];
    lines.extend(broken(figures));
    let rest = [
        ("Fairways hit", pct(figures.fairways_hit_pct), plain()),
        (
            "Greens hit",
            pct(Some(figures.greens_hit_pct)),
            "in regulation".into(),
        ),
        (
            "Greens held",
            pct(figures.greens_held_pct),
            "of the full shots that pitch on one".into(),
        ),
        (
            "Putts",
            number(figures.putts_mean, 1),
            format!("with {:.1} three-putts", figures.three_putts_mean),
        ),
        ("Penalties", number(figures.penalties_mean, 1), plain()),
    ];
    lines.extend(rest.map(|(name, figure, remark)| (name.to_owned(), figure, remark)));
    lines
}

/// How often the score is below a round number that players want to break: the one it is below about as often as not,
/// and in the remark those that are sometimes broken and sometimes not.
fn broken(figures: &Figures) -> Option<Line> {
    let tens = (1..=20).map(|ten| (10 * ten, figures.under_pct(10 * ten)));
    let sometimes: Vec<(u64, f64)> = tens.filter(|(_, pct)| (0.5..99.5).contains(pct)).collect();
    let even = |(_, pct): &(u64, f64)| (pct - 50.0).abs();
    let (score, share) = *sometimes
        .iter()
        .min_by(|a, b| even(a).total_cmp(&even(b)))?;
    let others = sometimes.iter().filter(|(other, _)| *other != score);
    let others: Vec<String> = others
        .map(|(other, share)| format!("under {other} in {}", pct(Some(*share))))
        .collect();
    let remark = ["of the rounds".to_owned()].into_iter().chain(others);
    let remark = remark.collect::<Vec<_>>().join(", ");
    Some((format!("Under {score}"), pct(Some(share)), remark))
}

/// The figures of two golfers, or of one before and after, beside each other; `first` are rows that come before them.
pub(super) fn beside(
    names: [&str; 2],
    first: &[(&str, [String; 2])],
    figures: [&Figures; 2],
    page: Page,
) -> String {
    let mut rows = table(["", names[0], names[1]], 1);
    for (name, [own, other]) in first {
        rows.add_row([*name, own, other]);
    }
    for row in beside_rows(figures) {
        rows.add_row(row);
    }
    text(&rows, page)
}

/// Name and figures of each row.
pub(super) fn beside_rows(figures: [&Figures; 2]) -> [[String; 3]; 5] {
    let row = |name: &str, figure: fn(&Figures) -> String| {
        [name.to_owned(), figure(figures[0]), figure(figures[1])]
    };
    [
        row("fairways hit", |f| pct(f.fairways_hit_pct)),
        row("greens hit in regulation", |f| pct(Some(f.greens_hit_pct))),
        row("greens held", |f| pct(f.greens_held_pct)),
        row("putts", |f| number(f.putts_mean, 1)),
        row("penalty strokes", |f| number(f.penalties_mean, 1)),
    ]
}

fn holes(figures: &Figures, page: Page) -> String {
    let over_par = page.width >= ROOM_FOR_OVER_PAR;
    let length = format!("length\n({})", page.reading.length_unit());
    let mut headings = vec!["hole", "par", &length, "score"];
    headings.extend(over_par.then_some("over\npar"));
    headings.extend(["fairway\nhit", "green\nhit"]);
    let mut rows = table(headings, 0);
    for hole in &figures.holes {
        rows.add_row(row(hole, over_par, page));
    }
    text(&rows, page)
}

fn row(hole: &HoleFigures, over_par: bool, page: Page) -> Vec<String> {
    let length = page.reading.length(Length::from_yd(hole.length_yd));
    let mut cells = vec![
        hole.number.to_string(),
        hole.par.to_string(),
        format!("{length:.0}"),
        format!("{:.2}", hole.score_mean),
    ];
    let over = hole.score_mean - f64::from(hole.par);
    cells.extend(over_par.then(|| signed(over)));
    cells.extend([pct(hole.fairway_hit_pct), pct(Some(hole.green_hit_pct))]);
    cells
}

/// Strokes over par with their sign, a level par without one.
fn signed(over: f64) -> String {
    match number(over, 2) {
        shown if shown.starts_with('-') || shown == "0.00" => shown,
        shown => format!("+{shown}"),
    }
}

/// What to know of holes on which a golfer's rounds come to something else than what is expected of him. Nothing where
/// there are none.
#[must_use]
pub fn apart(golfer: &str, holes: &[&HoleFigures]) -> Option<String> {
    let told = |hole: &&HoleFigures| {
        format!(
            "hole {} ({:.1} and {:.1} strokes)",
            hole.number, hole.expected_strokes, hole.score_mean
        )
    };
    let told: Vec<String> = holes.iter().map(told).collect();
    (!told.is_empty()).then(|| {
        format!(
            "what is expected of {golfer} and what the rounds come to are apart on {}: what parts and changes are said to \
             save there is no surer than that",
            joined(&told, "and")
        )
    })
}

/// Holes given up in fewer rounds than this, percent, change no figure that is shown.
const LEAST_GIVEN_UP_PCT: f64 = 0.1;

/// What to know of holes that a golfer's ball often does not get into: their scores are no scores. Nothing where there
/// are none.
#[must_use]
pub fn given_up(golfer: &str, holes: &[GivenUp]) -> Option<String> {
    let often = |hole: &&GivenUp| hole.given_up_pct >= LEAST_GIVEN_UP_PCT;
    let told = |hole: &GivenUp| {
        let share = match hole.given_up_pct {
            rare if rare < 1.0 => "less than 1 %".to_owned(),
            share => pct(Some(share)),
        };
        format!("hole {} in {share} of the rounds", hole.hole)
    };
    let holes: Vec<String> = holes.iter().filter(often).map(told).collect();
    (!holes.is_empty()).then(|| {
        format!(
            "{golfer} gave up {} after {MOST_STROKES} strokes, the ball not in the hole: the score counts these, and tells \
             no more than that the hole is too hard",
            holes.join(", ")
        )
    })
}
