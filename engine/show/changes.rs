//! What changes are worth, for people.

use crate::cost::card::NOTHING;
use crate::cost::changes::{ClubChange, ClubFigures, Tried, TriedChange};
use crate::files::joined;
use crate::player::Golfer;
use crate::player::club::Club;
use crate::units::{Length, Speed};

use super::card::{count_table, rules_in_force, strokes};
use super::decisions::holes;
use super::figures::beside;
use super::inference::inference;
use super::page::{Page, tied};
use super::reading::{index, made_index};
use super::table::{number, table, text};

/// What the column of the player with the changes is called.
const CHANGED: &str = "changed";

/// What changes of `player` are worth on a course; they are called what was typed.
#[must_use]
pub fn changes(
    player: &Golfer,
    course: &str,
    (tried, typed): (&Tried, &[String]),
    page: Page,
) -> String {
    let mut paragraphs = vec![format!(
        "{}, off {}, at {course}.",
        player.name,
        index(player.handicap)
    )];
    let found = tried.before.inference.as_ref();
    paragraphs.extend(found.map(|found| inference(found, player.handicap)));
    paragraphs.push(verdict(tried, typed));
    paragraphs.extend(not_hit(&tried.clubs));
    paragraphs.extend(too_many(tried));
    paragraphs.extend(out_of_order(tried));
    paragraphs.extend(rules_in_force(&tried.before.rules));
    let mut out = String::new();
    for paragraph in paragraphs {
        out += &page.paragraph(&paragraph);
        out.push('\n');
    }
    out += &worth_table(tried, typed, page);
    out.push('\n');
    out += &figures(tried, page);
    out.push('\n');
    if !tried.clubs.is_empty() {
        out += &club_table(&tried.clubs, page);
        out.push('\n');
        out += &played_table(&tried.clubs, page);
        out.push('\n');
    }
    if let Some(counts) = &tried.after.counts {
        out += &page.paragraph("Counted with the changes made:");
        out += &count_table(counts, page);
        out.push('\n');
    }
    out += &holes(&tried.holes, page);
    for note in notes(tried) {
        out += &page.item(&note);
    }
    out
}

/// The expected score before and after, with as many digits as tell the two apart, two at most.
pub(super) fn scores(before: f64, saved: f64) -> String {
    let both = |digits: usize| [before, before - saved].map(|score| number(score, digits));
    let [from, to] = match both(1) {
        [from, to] if from == to => both(2),
        both => both,
    };
    format!("the expected score goes from {from} to {to}")
}

/// What it comes to in a sentence.
fn verdict(tried: &Tried, typed: &[String]) -> String {
    let saved = tried.together.saved;
    let before = tried.before.figures.expected_strokes;
    let who = match tried.changes.as_slice() {
        [only] => format!("`{}`", name(typed, 0, only)),
        all => format!("The {} changes together", all.len()),
    };
    let scores = scores(before, saved);
    match saved {
        saved if saved >= NOTHING => {
            format!("{who} would save {} a round: {scores}.", strokes(saved))
        }
        saved if saved <= -NOTHING => {
            format!("{who} would cost {} a round: {scores}.", strokes(-saved))
        }
        _ => format!(
            "{who} would change nothing to speak of: the expected score stays at {before:.1}."
        ),
    }
}

/// Why what the changed clubs do is worth nothing: none of them is hit, neither before nor after.
fn not_hit(clubs: &[ClubChange]) -> Option<String> {
    let is_hit = |club: &ClubChange| {
        let mut both = [&club.before, &club.after].into_iter().flatten();
        both.any(|figures| number(figures.shots_per_round, 1) != "0.0")
    };
    if clubs.is_empty() || clubs.iter().any(is_hit) {
        return None;
    }
    let names: Vec<String> = clubs
        .iter()
        .map(|club| tied(&club.club.to_string()))
        .collect();
    Some(format!(
        "No shot a round is hit with the {}, today or changed: other clubs leave fewer strokes wherever the ball lies \
         here, so that nothing hangs on it.",
        joined(&names, "or")
    ))
}

fn too_many(tried: &Tried) -> Option<String> {
    let more = match tried.clubs_too_many {
        0 => return None,
        1 => "one more than".to_owned(),
        more => format!("{more} more than"),
    };
    Some(format!(
        "With the putter the bag then holds {} clubs, {more} the rules of golf allow: take something out as well, as \
         --change '5 wood off'.",
        14 + tried.clubs_too_many
    ))
}

/// That a changed club would be hit faster than a longer one.
fn out_of_order(tried: &Tried) -> Option<String> {
    let told = |[faster, longer]: &[Club; 2]| {
        let [faster, longer] = [faster, longer].map(|club| tied(&club.to_string()));
        format!("the {faster} starts faster than the longer {longer}")
    };
    let all: Vec<String> = tried.faster_than_longer.iter().map(told).collect();
    (!all.is_empty()).then(|| {
        format!(
            "With it {}, as no bag is hit: look whether the figure is meant.",
            joined(&all, "and")
        )
    })
}

/// An interval of strokes; a dash where there is none.
pub(super) fn between(low: Option<f64>, high: Option<f64>) -> String {
    low.zip(high).map_or_else(
        || "–".to_owned(),
        |(low, high)| format!("{} to {}", number(low, 2), number(high, 2)),
    )
}

/// What is to be said where the changes cannot be made of every golfer the intervals stand on.
pub(super) fn left_out(tried: &Tried) -> Option<String> {
    let (drawn, counted) = (tried.golfers_drawn, tried.golfers_counted);
    if counted == drawn {
        return None;
    }
    let then = match tried.together.low {
        Some(_) => "they stand on these alone",
        None => "too few to say more",
    };
    Some(format!(
        "The nine times in ten are of golfers whose shots could as well be these. {counted} of {drawn} of them could make \
         the changes; for the others a figure would leave the values it can have: {then}."
    ))
}

/// A change as it was typed.
fn name(typed: &[String], index: usize, tried: &TriedChange) -> String {
    match typed.get(index) {
        Some(text) => text.split_whitespace().collect::<Vec<_>>().join(" "),
        None => tried.change.to_string(),
    }
}

fn worth_table(tried: &Tried, typed: &[String], page: Page) -> String {
    let mut rows = table(["change", "would\nsave", "nine times\nin ten"], 1);
    for (index, tried) in tried.changes.iter().enumerate() {
        rows.add_row([
            name(typed, index, tried),
            number(tried.saved, 2),
            between(tried.low, tried.high),
        ]);
    }
    if tried.changes.len() > 1 {
        let all = tried.together;
        rows.add_row([
            "all together".to_owned(),
            number(all.saved, 2),
            between(all.low, all.high),
        ]);
    }
    text(&rows, page)
}

fn figures(tried: &Tried, page: Page) -> String {
    let both = [&tried.before, &tried.after];
    let scores = both.map(|rated| number(rated.figures.score_mean, 1));
    let mut first = vec![("average score", scores)];
    if let [Some(before), Some(after)] = both.map(|rated| rated.index) {
        first.push(("handicap index", [made_index(before), made_index(after)]));
    }
    beside(
        ["today", CHANGED],
        &first,
        both.map(|rated| &rated.figures),
        page,
    )
}

fn club_table(clubs: &[ClubChange], page: Page) -> String {
    let reading = page.reading;
    let ball = format!("ball\n({})", reading.speed_unit());
    let carry = format!("carry\n({})", reading.length_unit());
    let headings = [
        "club",
        &ball,
        "launch\n(°)",
        "spin\n(rpm)",
        &carry,
        "±",
        "side",
        "±",
        "apex",
        "falls\n(°)",
        "kept\n(%)",
        "miss\n(%)",
    ];
    let mut rows = table(headings, 1);
    for change in clubs {
        let name = change.club.to_string();
        let then = match (&change.before, &change.after) {
            (None, _) => "  added",
            (_, None) => "  left out",
            _ => "  changed",
        };
        rows.add_row(club_row(name, change.before.as_ref(), page));
        rows.add_row(club_row(then.to_owned(), change.after.as_ref(), page));
    }
    text(&rows, page)
}

/// How often the clubs are played before and after.
fn played_table(clubs: &[ClubChange], page: Page) -> String {
    let mut rows = table(["shots a round with", "today", CHANGED], 1);
    let shots = |club: Option<&ClubFigures>| {
        club.map_or_else(String::new, |club| number(club.shots_per_round, 1))
    };
    for change in clubs {
        rows.add_row([
            change.club.to_string(),
            shots(change.before.as_ref()),
            shots(change.after.as_ref()),
        ]);
    }
    text(&rows, page)
}

fn club_row(name: String, club: Option<&ClubFigures>, page: Page) -> Vec<String> {
    let Some(club) = club else {
        return vec![name];
    };
    let length = |yd| number(page.reading.length(Length::from_yd(yd)), 0);
    vec![
        name,
        number(page.reading.speed(Speed::from_mph(club.ball_speed_mph)), 0),
        number(club.launch_deg, 1),
        number(club.backspin_rpm, 0),
        length(club.carry_yd),
        length(club.carry_sd_yd),
        side(club.side_yd, page),
        length(club.side_sd_yd),
        length(club.apex_yd),
        number(club.descent_deg, 0),
        number(club.held_pct.medium, 0),
        number(club.mishits_pct, 0),
    ]
}

/// A distance to the side with the side it is on.
fn side(yd: f64, page: Page) -> String {
    let away = number(page.reading.length(Length::from_yd(yd.abs())), 0);
    match away.as_str() {
        "0" => away,
        _ if yd > 0.0 => format!("{away} R"),
        _ => format!("{away} L"),
    }
}

fn notes(tried: &Tried) -> Vec<String> {
    let mut notes = vec![
        "Would save: how much lower the expected score is, clubs and targets chosen anew; below zero the change costs \
         strokes. No luck of rounds is in it."
            .to_owned(),
        "Nine times in ten: what the changes would save golfers whose shots could as well be these, or whose assumed \
         skills differ as golfers of one handicap do."
            .to_owned(),
        "Average score and what stands below it are counted over the rounds played, with their luck.".to_owned(),
    ];
    notes.extend(left_out(tried));
    if !tried.clubs.is_empty() {
        notes.push(
            "Of the clubs: means of normal strikes in still air. ±: one standard deviation. Falls: angle of descent. \
             Kept: of the shots on target, mishits too, those that a medium green keeps. Miss: share of mishits. Shots a \
             round: how often the club is chosen, over 32 rounds; a club that is hit better is hit in place of others."
                .to_owned(),
        );
    }
    notes.push("Estimates from a model, not promises.".to_owned());
    notes
}
