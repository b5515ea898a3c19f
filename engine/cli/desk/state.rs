//! The lesson as the page reads it.

use std::sync::Arc;

use serde::Serialize;

use costcard::course::embedded as courses;
use costcard::player::embedded as players;
use costcard::show::desk::card::{self as show, Moved};
use costcard::show::fit::fit as show_fit;
use costcard::show::page::{Page, WIDEST};
use costcard::show::report::{Report, Visited};

use super::answers::day_in_words;
use super::folder::Listed;
use super::lesson::{Carded, Desk, Progress};
use super::seats::PlayerSeat;
use crate::cli::load::DEMO;

/// The lesson.
#[derive(Debug, Serialize)]
pub struct State {
    version: u64,
    busy: Vec<Progress>,
    player: Option<Seat>,
    course: Option<Seat>,
    goal: f64,
    day: DayState,
    standing: Option<StandingState>,
    /// Whether the card shown is of what is set up now.
    card_is_new: bool,
    trouble: Option<String>,
    /// Parts of the page; none where the page knows them already.
    html: Option<Html>,
}

#[derive(Debug, Serialize)]
struct Seat {
    name: String,
    from: String,
    handicap: Option<f64>,
    added: Vec<String>,
}

#[derive(Debug, Serialize)]
struct DayState {
    words: Option<String>,
    firmness: Option<f64>,
    wind_mph: Option<f64>,
    wind_from_deg: Option<f64>,
}

#[derive(Debug, Serialize)]
struct StandingState {
    number: u64,
    expected: f64,
    usual_expected: Option<f64>,
    clubs: Vec<String>,
}

#[derive(Debug, Serialize)]
struct Html {
    card: String,
    shots: String,
}

/// Whether any work runs.
pub fn is_busy(desk: &Desk) -> bool {
    let lesson = desk.lesson();
    lesson.setting_up.is_some() || lesson.carding.is_some()
}

/// The lesson, with the parts of the page where it has changed since `known`.
pub fn state(desk: &Desk, known: u64) -> State {
    // Asked for first: what changes meanwhile is told once more.
    let version = desk.version();
    let lesson = desk.lesson();
    let busy = [&lesson.setting_up, &lesson.carding];
    let busy = busy.into_iter().flatten().map(|work| work.progress());
    let shown = (version > known).then(|| Shown {
        card: lesson.card.clone(),
        before: lesson.before_shots.clone(),
        seat: lesson.player.clone(),
    });
    let standing = lesson.standing.as_ref().map(|standing| StandingState {
        number: standing.cast.number,
        expected: standing.expected,
        usual_expected: lesson.usual.as_ref().and_then(|usual| usual.expected),
        clubs: lesson.clubs().iter().map(ToString::to_string).collect(),
    });
    let card_is_new = lesson
        .card
        .as_ref()
        .is_some_and(|card| card.cast.number == lesson.set_ups && lesson.carding.is_none());
    let mut state = State {
        version,
        busy: busy.collect(),
        player: lesson.player.as_ref().map(|seat| Seat {
            name: seat.golfer.name.clone(),
            from: seat.from.clone(),
            handicap: Some(seat.golfer.handicap),
            added: seat.added.iter().map(ToString::to_string).collect(),
        }),
        course: lesson.course.as_ref().map(|seat| Seat {
            name: seat.name.clone(),
            from: seat.from.clone(),
            handicap: None,
            added: Vec::new(),
        }),
        goal: lesson.goal_handicap(),
        day: DayState {
            words: day_in_words(&lesson.day),
            firmness: lesson.day.firmness.map(|firmness| firmness.value()),
            wind_mph: lesson.day.wind_mph,
            wind_from_deg: lesson.day.wind_from_deg,
        },
        standing,
        card_is_new,
        trouble: lesson.trouble.clone(),
        html: None,
    };
    // Pages take their time, and others want the lesson.
    drop(lesson);
    state.html = shown.map(|shown| html(desk, &shown));
    state
}

/// What parts of the page are made of.
struct Shown {
    card: Option<Arc<Carded>>,
    before: Option<Arc<Carded>>,
    seat: Option<PlayerSeat>,
}

fn html(desk: &Desk, shown: &Shown) -> Html {
    let card = shown.card.as_ref().map_or_else(String::new, |carded| {
        let visited = visited(carded);
        let report = Report {
            player: &carded.cast.player,
            goal: &carded.goal,
            keep_speed: false,
            asked: None,
            courses: std::slice::from_ref(&visited),
            clubs: &[],
            earlier: None,
            reading: desk.reading,
        };
        let before = shown.before.as_ref();
        let before = before.filter(|before| !Arc::ptr_eq(before, carded));
        let moved = before.map(|before| Moved {
            before: &before.card,
            now: &carded.card,
        });
        show::card(&report, moved)
    });
    let seat = shown.seat.as_ref();
    let shots = seat.map_or_else(String::new, |seat| {
        let page = Page::new(desk.reading, WIDEST);
        let told = seat.fitted.as_ref().map(|fitted| show_fit(fitted, page));
        show::shots(told.as_deref(), &seat.golfer.notes)
    });
    Html { card, shots }
}

fn visited(carded: &Carded) -> Visited<'_> {
    Visited {
        course: &carded.cast.course,
        rules: carded.cast.rules.files(),
        card: &carded.card,
        holes: &[],
    }
}

/// What can be chosen.
#[derive(Debug, Serialize)]
pub struct Files {
    players: Vec<String>,
    courses: Vec<String>,
    sheets: Vec<String>,
    maps: Vec<String>,
}

/// Files of the folder, and behind them what the program carries.
pub fn files(desk: &Desk) -> Files {
    let list = desk.folder.list();
    let of = |kind: &str| -> Vec<String> {
        let of_kind = list.iter().filter(|file: &&Listed| file.kind == kind);
        of_kind.map(|file| file.name.clone()).collect()
    };
    let demo = |names: Vec<&'static str>| names.into_iter().map(|name| format!("{DEMO}{name}"));
    let sheets = of("strikes");
    let mut found = Files {
        players: of("player"),
        courses: of("course"),
        sheets,
        maps: of("map"),
    };
    // A player file that `fit` wrote holds its map.
    found.maps.extend(found.players.clone());
    found.players.extend(demo(players::player_names()));
    found.courses.extend(demo(courses::course_names()));
    found.sheets.extend(demo(vec!["bay.csv", "bay-after.csv"]));
    found.maps.extend(demo(vec!["bay-map.toml"]));
    found
}
