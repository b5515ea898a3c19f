//! Before and after, for people.

use crate::cost::infer::Inference;
use crate::cost::worth::Worth;
use crate::files::joined;
use crate::player::batch::quantity::Kind;
use crate::player::batch::{Batch, Quantity};
use crate::player::compare::{Change, ClubChanges, Comparison, FEWEST, Measure};
use crate::units::{Length, Speed};

use super::inference::inference;
use super::page::{Page, tied};
use super::table::{number, table, text};
use super::worth::{clubs, worth_words};

/// Shots left out that are told one by one; the JSON tells all.
const MOST_TOLD: usize = 20;

/// Sessions of a side that are named.
const MOST_NAMED: usize = 3;

/// What is shown.
#[derive(Debug)]
pub struct Shown<'a> {
    /// The shots before and after.
    pub sides: [&'a Batch; 2],
    /// What changed.
    pub compared: &'a Comparison,
    /// What it is worth where it is played.
    pub played: Option<Played<'a>>,
}

/// What a change is worth on a course.
#[derive(Debug)]
pub struct Played<'a> {
    /// Strokes; none where no club has shots enough.
    pub worth: Option<&'a Worth>,
    /// The course's name.
    pub course: &'a str,
    /// The player's handicap index.
    pub handicap: f64,
    /// What was inferred of the player's short game.
    pub inference: Option<&'a Inference>,
}

/// The changes, club by club, and what they are worth.
#[must_use]
pub fn compare(shown: &Shown<'_>, page: Page) -> String {
    let compared = shown.compared;
    let mut out = page.paragraph(&verdict(compared, page));
    out.push('\n');
    out += &page.paragraph(&which(shown.sides));
    if let Some(played) = &shown.played {
        let found = played.inference;
        let found = found.map(|found| inference(found, played.handicap));
        let worth = worth_words(played.worth, played.course, compared);
        for paragraph in found.into_iter().chain([worth]) {
            out.push('\n');
            out += &page.paragraph(&paragraph);
        }
    }
    for club in &compared.clubs {
        out.push('\n');
        out += &club_table(club, page);
        if let Some(words) = close(club, page) {
            out += &page.paragraph(&words);
        }
    }
    out.push('\n');
    for note in notes(compared) {
        out += &page.item(&note);
    }
    out + left_out(shown.sides, page).as_str()
}

/// Which shots are before and which after: a change told the wrong way round is worse than none.
fn which(sides: [&Batch; 2]) -> String {
    let [before, after] = sides.map(|batch| {
        let sessions = batch.sessions.iter();
        let names: Vec<String> = sessions.map(|session| tied(&session.name)).collect();
        match names.len() {
            many if many > MOST_NAMED => format!("{many} sessions"),
            _ => joined(&names, "and"),
        }
    });
    format!("Before: {before}. After: {after}.")
}

/// The sentence on top.
pub(super) fn verdict(compared: &Comparison, page: Page) -> String {
    let changed: Vec<String> = compared
        .clubs
        .iter()
        .filter_map(|club| {
            let real = club.changes.iter().filter(|change| change.real);
            let said: Vec<String> = real.map(|change| said(change, page)).collect();
            (!said.is_empty()).then(|| format!("the {} {}", club.club, joined(&said, "and")))
        })
        .collect();
    if changed.is_empty() && !is_tested(compared) {
        return "Nothing is compared: there are too few shots.".to_owned();
    }
    if changed.is_empty() {
        return "No change is real so far: with this many shots, all of it could be chance."
            .to_owned();
    }
    let all = compared.clubs.iter().flat_map(|club| &club.changes);
    let rest = match all.filter(|change| !change.real).count() {
        0 => "",
        _ => " All else could be chance with this many shots.",
    };
    format!("Real: {}.{rest}", changed.join("; "))
}

/// Whether any change was tested.
fn is_tested(compared: &Comparison) -> bool {
    let mut all = compared.clubs.iter().flat_map(|club| &club.changes);
    all.any(|change| change.tested)
}

/// Shots a side that show large changes in nearly every case.
const BETTER: usize = 15;

/// What is told of a club with too few shots on a side.
fn too_few(club: &ClubChanges) -> Option<String> {
    let sides = ["before", "after"].into_iter().zip(club.shots);
    let short = sides.filter(|(_, shots)| *shots < FEWEST);
    let short: Vec<String> = short
        .map(|(when, shots)| match shots {
            1 => format!("one shot {when}"),
            _ => format!("{shots} shots {when}"),
        })
        .collect();
    (!short.is_empty()).then(|| {
        format!(
            "{}: {}, so not compared: hit at least {FEWEST} a side, better {BETTER}.",
            club.club,
            short.join(" and ")
        )
    })
}

/// A change as it is said of a club: `launches 2.1° higher`.
fn said(change: &Change, page: Page) -> String {
    let quantity = change.measure.quantity();
    let amount = tied(&told(quantity, change.change.abs(), page));
    let pick =
        |more: &'static str, less: &'static str| if change.change > 0.0 { more } else { less };
    if let Measure::Spread(_) = change.measure {
        let which = if quantity == Quantity::Carry {
            "in distance"
        } else {
            "to the sides"
        };
        return format!("spreads {amount} {} {which}", pick("more", "less"));
    }
    let side = pick("right", "left");
    match quantity {
        Quantity::BallSpeed => format!("sends the ball off {amount} {}", pick("faster", "slower")),
        Quantity::Launch => format!("launches {amount} {}", pick("higher", "lower")),
        Quantity::Direction => format!("starts the ball {amount} further {side}"),
        Quantity::Backspin | Quantity::Spin => format!("spins {amount} {}", pick("more", "less")),
        Quantity::Sidespin if change.before * change.after < 0.0 => format!(
            "has {amount} more sidespin to the {side}, {} to the {} before",
            told(quantity, change.before.abs(), page),
            pick("left", "right")
        ),
        Quantity::Sidespin if change.before * change.change < 0.0 => {
            let from = pick("left", "right");
            format!("has {amount} less sidespin to the {from}")
        }
        Quantity::Sidespin => format!("has {amount} more sidespin to the {side}"),
        Quantity::SpinAxis => format!("tilts the spin axis {amount} further {side}"),
        Quantity::Carry => format!("carries {amount} {}", pick("further", "shorter")),
        Quantity::Side => format!("pitches {amount} further {side}"),
        Quantity::Apex => format!("flies {amount} {}", pick("higher", "lower")),
        Quantity::Descent => format!("comes down {amount} {}", pick("steeper", "flatter")),
        Quantity::ClubSpeed => format!("is swung {amount} {}", pick("faster", "slower")),
        Quantity::Attack => format!(
            "meets the ball {amount} {}",
            pick("more upwards", "more downwards")
        ),
        Quantity::Path => format!("is swung {amount} further to the {side}"),
        Quantity::Face => format!("points its face {amount} further {side}"),
        Quantity::DynamicLoft => {
            format!("is delivered with {amount} {} loft", pick("more", "less"))
        }
        Quantity::Lie => format!("turns the face {amount} further {side} by its lie"),
    }
}

/// A value in the units people read.
fn read(quantity: Quantity, value: f64, page: Page) -> f64 {
    match quantity.kind() {
        Kind::Length => page.reading.length(Length::from_yd(value)),
        Kind::Speed => page.reading.speed(Speed::from_mph(value)),
        Kind::Angle | Kind::Spin => value,
    }
}

/// The unit people read, as it stands in a table.
const fn unit(quantity: Quantity, page: Page) -> &'static str {
    match quantity.kind() {
        Kind::Length => page.reading.length_unit(),
        Kind::Speed => page.reading.speed_unit(),
        Kind::Angle => "°",
        Kind::Spin => "rpm",
    }
}

/// A figure to the digit that means something.
fn figure(quantity: Quantity, value: f64, page: Page) -> String {
    let decimals = usize::from(quantity.kind() != Kind::Spin);
    number(read(quantity, value, page), decimals)
}

/// A figure with its unit.
fn told(quantity: Quantity, value: f64, page: Page) -> String {
    let blank = if quantity.kind() == Kind::Angle {
        ""
    } else {
        " "
    };
    format!(
        "{}{blank}{}",
        figure(quantity, value, page),
        unit(quantity, page)
    )
}

fn club_table(club: &ClubChanges, page: Page) -> String {
    let title = format!(
        "{}: {} shots before, {} after",
        club.club, club.shots[0], club.shots[1]
    );
    let mut rows = table(
        ["", "before", "after", "change", "90 % interval", "verdict"],
        1,
    );
    for change in &club.changes {
        rows.add_row(cells(change, page));
    }
    page.paragraph(&title) + text(&rows, page).as_str()
}

pub(super) fn cells(change: &Change, page: Page) -> [String; 6] {
    let quantity = change.measure.quantity();
    let figure = |value: f64| figure(quantity, value, page);
    let interval = change.low.zip(change.high);
    let interval = interval
        .map(|(low, high)| format!("{} to {}", signed(&figure(low)), signed(&figure(high))));
    [
        name(change, page),
        figure(change.before),
        figure(change.after),
        signed(&figure(change.change)),
        interval.unwrap_or_else(|| "–".to_owned()),
        word(change).to_owned(),
    ]
}

/// What the mark behind a figure says.
pub(super) const FLOWN: &str = "† Not measured: flown from the measured strikes in standard air.";

fn name(change: &Change, page: Page) -> String {
    let quantity = change.measure.quantity();
    let spread = if matches!(change.measure, Measure::Spread(_)) {
        "spread of "
    } else {
        ""
    };
    let mark = if change.measured { "" } else { " †" };
    format!(
        "{spread}{} ({}){mark}",
        quantity.words(),
        unit(quantity, page)
    )
}

const fn word(change: &Change) -> &'static str {
    match (change.real, change.tested) {
        (true, _) => "real",
        (false, true) => "noise so far",
        (false, false) => "too few shots",
    }
}

/// A change with its sign, no change without one.
fn signed(figure: &str) -> String {
    let is_zero = figure.chars().all(|c| matches!(c, '0' | '.'));
    match figure.starts_with('-') || is_zero {
        true => figure.to_owned(),
        false => format!("+{figure}"),
    }
}

/// What comes nearest to a real change, and how many shots would tell.
fn close(club: &ClubChanges, page: Page) -> Option<String> {
    let open = club
        .changes
        .iter()
        .filter_map(|change| Some((change, change.shots_to_tell?)));
    let (change, shots) = open.min_by_key(|(_, shots)| *shots)?;
    let measure = match change.measure {
        Measure::Mean(quantity) => quantity.words().to_owned(),
        Measure::Spread(quantity) => format!("spread of {}", quantity.words()),
    };
    Some(format!(
        "Close: {measure}. If it has changed by the {} it looks like, about {shots} shots a side would show it.",
        tied(&told(change.measure.quantity(), change.change.abs(), page))
    ))
}

fn notes(compared: &Comparison) -> Vec<String> {
    let mut notes = Vec::new();
    for (when, alone) in ["before", "after"].into_iter().zip(&compared.alone) {
        if !alone.is_empty() {
            notes.push(format!(
                "Hit only {when}, so not compared: {}.",
                clubs(alone)
            ));
        }
    }
    let all = || compared.clubs.iter().flat_map(|club| &club.changes);
    notes.push(
        "Before and after are means without the highest and lowest tenth, so that one mishit counts for little; right \
         is positive."
            .to_owned(),
    );
    notes.extend(compared.clubs.iter().filter_map(too_few));
    if is_tested(compared) {
        notes.push(format!(
            "Real: where nothing has changed, 96 of 100 comparisons like this one, of {} figures, call nothing real. Of \
             the intervals, one in ten leaves out 0 by chance alone.",
            all().filter(|change| change.tested).count()
        ));
    }
    if all().any(|change| !change.measured) {
        notes.push(FLOWN.to_owned());
    }
    notes.push("Estimates from a model and from few shots, not promises.".to_owned());
    notes
}

fn left_out(sides: [&Batch; 2], page: Page) -> String {
    let count: usize = sides.iter().map(|side| side.misread_count()).sum();
    if count == 0 {
        return format!("\n{}", page.paragraph("No shot was left out."));
    }
    let mut out = "\n".to_owned();
    out += &page.paragraph("Left out as misreads (--keep ROW takes one back in):");
    let listed = sides
        .iter()
        .flat_map(|side| side.misreads().map(|listed| (*side, listed)));
    let many = sides[0].files != sides[1].files;
    let mut told = 0;
    for (side, (shot, why)) in listed.take(MOST_TOLD) {
        told += 1;
        let row = match many {
            true => format!("{}:{}", side.files[shot.file], shot.row),
            false => format!("row {}", shot.row),
        };
        out += &page.item(&format!(
            "{}, {}: {why}",
            tied(&row),
            tied(&shot.club.to_string())
        ));
    }
    if count > told {
        out += &page.item(&format!("and {} more", count - told));
    }
    out
}
