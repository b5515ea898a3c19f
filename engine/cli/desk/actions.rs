//! What the page has done to the lesson: another player, another course, more shots, another goal, another day. What is
//! at fault is told, and the lesson stays as it was.

use std::path::Path;
use std::sync::Arc;

use serde::Serialize;

use costcard::ball::turf::Firmness;
use costcard::course::Day;
use costcard::files::{Faults, Source};
use costcard::player::batch::{ColumnMap, Input};
use costcard::player::bay::Who;
use costcard::player::embedded;

use super::lanes::lock;
use super::lesson::Desk;
use super::routes::Fields;
use super::seats::{CourseSeat, PlayerSeat};
use super::work;
use crate::cli::args::{Hand, Sex, SheetArgs};
use crate::cli::kind::{self, Kind};
use crate::cli::load::{self, DEMO, LEVEL};
use crate::cli::usage::Usage;
use crate::cli::{bay, output};

/// What became of an action.
#[derive(Debug, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Done {
    /// It is done; the lesson tells the rest.
    Done,
    /// It is a sheet of shots: who hit them is still to be told.
    Who,
}

/// What a file is to be at the desk.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum As {
    /// A player, or a course, whichever it is.
    Seat,
    /// Shots just hit by the player who is there.
    Shots,
}

/// A file of the folder, or something the program carries.
pub fn choose(desk: &Arc<Desk>, fields: &Fields) -> anyhow::Result<Done> {
    let name = field(fields, "file");
    let is_seat = wanted(fields) == As::Seat;
    if is_seat && is_demo_course(name) {
        let setup = Default::default();
        return seat_course(desk, CourseSeat::typed(name, setup, &desk.scripts)?);
    }
    let is_sheet = name
        .strip_prefix(DEMO)
        .is_some_and(|name| name.ends_with(".csv"));
    if is_seat && !is_sheet && (name.starts_with(DEMO) || name.starts_with(LEVEL)) {
        return seat_player(desk, PlayerSeat::named(name)?);
    }
    if is_sheet {
        return sheet(desk, fields, bay::input(name)?);
    }
    let bytes = desk.folder.read(name)?;
    taken(desk, fields, name, bytes)
}

/// A file that was dropped on the page.
pub fn dropped(desk: &Arc<Desk>, fields: &Fields, bytes: &[u8]) -> anyhow::Result<Done> {
    // A name and nothing of where it lay.
    let name = field(fields, "name");
    let name = name.rsplit(['/', '\\']).next().unwrap_or_default();
    let name = if name.is_empty() {
        "dropped file"
    } else {
        name
    };
    taken(desk, fields, name, bytes.to_vec())
}

fn taken(desk: &Arc<Desk>, fields: &Fields, name: &str, bytes: Vec<u8>) -> anyhow::Result<Done> {
    let head = Source::new(name, &String::from_utf8_lossy(&bytes));
    let what = Kind::of(&head);
    let input = |bytes: Vec<u8>| Input::Bytes(name.into(), bytes.into());
    match (wanted(fields), what) {
        (As::Shots, None) | (_, Some(Kind::Strikes)) => sheet(desk, fields, input(bytes)),
        (As::Shots, Some(kind)) => Err(no_shots(&head, kind).into()),
        (As::Seat, Some(Kind::Course)) => {
            seat_course(desk, CourseSeat::file(name, bytes, &desk.scripts)?)
        }
        (As::Seat, Some(Kind::Player)) => {
            seat_player(desk, PlayerSeat::file(name, bytes, &desk.folder)?)
        }
        (As::Seat, Some(kind)) => Err(no_seat(&head, kind).into()),
        (As::Seat, None) => {
            // Bytes that are no text are told as such.
            Source::of_bytes(name, bytes)?;
            Err(kind::unknown(&head).into())
        }
    }
}

fn no_shots(head: &Source, what: Kind) -> Faults {
    let message = format!("this is a {what} file, not shots");
    kind::whole_file(
        head,
        message,
        "drop a sheet of measured shots (CSV)".to_owned(),
    )
}

fn no_seat(head: &Source, what: Kind) -> Faults {
    let message = format!("this is a {what} file, neither a player nor a course");
    kind::whole_file(
        head,
        message,
        "drop a player, a sheet of shots or a course".to_owned(),
    )
}

/// A sheet of shots: more of the player who is there, or a new player, once it is told who hit them.
fn sheet(desk: &Arc<Desk>, fields: &Fields, input: Input) -> anyhow::Result<Done> {
    let map = map(desk, field(fields, "map"))?;
    if wanted(fields) == As::Shots {
        return shots(desk, input, map);
    }
    if field(fields, "handicap").is_empty() {
        return Ok(Done::Who);
    }
    let seat = PlayerSeat::sheet(who(fields, &input)?, map.unwrap_or_default(), input)?;
    seat_player(desk, seat)
}

fn who(fields: &Fields, input: &Input) -> Result<Who, Usage> {
    let how = SheetArgs {
        map: None,
        hand: match field(fields, "hand") {
            "left" => Hand::Left,
            _ => Hand::Right,
        },
        sex: match field(fields, "sex") {
            "women" => Sex::Women,
            _ => Sex::Men,
        },
    };
    let sheet = input.name();
    let stem = Path::new(&*sheet)
        .file_stem()
        .and_then(|stem| stem.to_str());
    let name = match field(fields, "player").trim() {
        "" => stem.unwrap_or(&sheet),
        name => name,
    };
    bay::who(name, field(fields, "handicap"), &how)
}

/// A column map of the folder or the program, or that of a player file.
fn map(desk: &Desk, name: &str) -> anyhow::Result<Option<ColumnMap>> {
    if name.is_empty() {
        return Ok(None);
    }
    let source = match name.strip_prefix(DEMO) {
        Some(name) => embedded::sheet(name)?,
        None => Source::of_bytes(name, desk.folder.read(name)?)?,
    };
    Ok(Some(ColumnMap::read(&source)?))
}

fn shots(desk: &Arc<Desk>, input: Input, map: Option<ColumnMap>) -> anyhow::Result<Done> {
    let _alone = lock(&desk.seating);
    let seat = desk.lesson().player.clone();
    let Some(seat) = seat else {
        return Err(Usage {
            message: "there is nobody at the desk these shots could be of".to_owned(),
            hint: "choose a player first".to_owned(),
        }
        .into());
    };
    let seat = seat.with_shots(input, map, &desk.folder)?;
    desk.change(|lesson| {
        lesson.before_shots = lesson.card.clone();
        lesson.player = Some(seat);
        lesson.usual = None;
    });
    work::set_up(desk);
    Ok(Done::Done)
}

/// Sets a player down at the desk.
pub fn seat_player(desk: &Arc<Desk>, seat: PlayerSeat) -> anyhow::Result<Done> {
    let _alone = lock(&desk.seating);
    desk.change(|lesson| {
        lesson.player = Some(seat);
        lesson.usual = None;
        lesson.before_shots = None;
    });
    work::set_up(desk);
    Ok(Done::Done)
}

/// Sets a course up.
pub fn seat_course(desk: &Arc<Desk>, seat: CourseSeat) -> anyhow::Result<Done> {
    // Read before it takes the place of the one that stands.
    seat.on(&Day::default(), &desk.folder)?;
    desk.change(|lesson| {
        lesson.course = Some(seat);
        lesson.usual = None;
        lesson.before_shots = None;
        lesson.day = Day::default();
    });
    work::set_up(desk);
    Ok(Done::Done)
}

/// Another goal: the card alone is worked out anew.
pub fn goal(desk: &Arc<Desk>, fields: &Fields) -> anyhow::Result<Done> {
    let text = field(fields, "handicap");
    let sex = desk.lesson().player.as_ref().map(|seat| seat.golfer.sex);
    let sex = sex.unwrap_or(costcard::player::Sex::Men);
    let handicap = load::goal(text, sex)?.handicap;
    desk.change(|lesson| {
        lesson.goal = Some(handicap);
        lesson.before_shots = None;
    });
    work::begin_card(desk);
    Ok(Done::Done)
}

/// Another day: the course is set up anew.
pub fn day(desk: &Arc<Desk>, fields: &Fields) -> anyhow::Result<Done> {
    let day = Day {
        firmness: number(fields, "firmness", [0.0, 1.0])?.and_then(Firmness::new),
        wind_mph: number(fields, "wind_mph", [0.0, 60.0])?,
        wind_from_deg: number(fields, "wind_from_deg", [0.0, 360.0])?,
    };
    let is_new = desk.change(|lesson| {
        let before = std::mem::replace(&mut lesson.day, day);
        lesson.before_shots = None;
        before != day
    });
    if is_new {
        work::set_up(desk);
    }
    Ok(Done::Done)
}

fn number(fields: &Fields, name: &str, [low, high]: [f64; 2]) -> Result<Option<f64>, Usage> {
    let text = field(fields, name);
    if text.is_empty() {
        return Ok(None);
    }
    let number = text.parse::<f64>().ok();
    let number = number.filter(|number| (low..=high).contains(number));
    number.map(Some).ok_or_else(|| Usage {
        message: format!("`{name}` is `{text}`"),
        hint: format!("write a number from {low} to {high}, or leave it as the course file says"),
    })
}

fn wanted(fields: &Fields) -> As {
    match field(fields, "as") {
        "shots" => As::Shots,
        _ => As::Seat,
    }
}

fn is_demo_course(name: &str) -> bool {
    let name = name.strip_prefix(DEMO);
    name.is_some_and(|name| costcard::course::embedded::course_names().contains(&name))
}

fn field<'a>(fields: &'a Fields, name: &str) -> &'a str {
    fields.get(name).map_or("", String::as_str)
}

/// Tells on the terminal what the player's file says of itself, as every command does.
pub fn note(seat: &PlayerSeat) {
    for note in &seat.golfer.notes {
        output::note(&format!("{}: {note}", seat.golfer.name));
    }
}
