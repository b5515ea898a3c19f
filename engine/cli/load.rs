//! From what was typed to players, courses, goals and parts.

use std::path::Path;

use costcard::course::{self, Course, PinSheet, Pins, Setup};
use costcard::files::{Faults, Source, listed, nearest};
use costcard::player::batch::Overrule;
use costcard::player::bay::FittedPlayer;
use costcard::player::club::Club;
use costcard::player::levels::{self, LevelError};
use costcard::player::{self, Golfer, Sex};
use costcard::round::part::Part;

use costcard::rules::Rulebook;

use super::args::{BayArgs, Rules, SetupArgs, SheetArgs};
use super::bay;
use super::kind::{Kind, whole_file};
use super::rules;
use super::usage::Usage;

/// What stands before the name of something the program carries inside it.
pub const DEMO: &str = "demo:";
/// What stands before the name of a level.
pub const LEVEL: &str = "level:";

/// A player, a course and the rules in force on it; the faults of the first two are told at once.
pub fn all(
    player: &str,
    bay: &BayArgs,
    course: &str,
    setup: &SetupArgs,
    scripts: &Rules,
) -> anyhow::Result<(Golfer, Course, Rulebook)> {
    let (player, course) = both(player, bay, course, &self::setup(setup)?)?;
    let rules = rules::of(&course, scripts)?;
    Ok((player, course, rules))
}

/// A player and a course; the faults of both are told at once.
fn both(
    player: &str,
    bay: &BayArgs,
    course: &str,
    setup: &Setup,
) -> anyhow::Result<(Golfer, Course)> {
    if is_swapped(player, course) {
        return Err(swapped(player, course).into());
    }
    let (player, course) = (self::player(player, bay)?, self::course(course, setup));
    match (player, course) {
        (Ok(player), Ok(course)) => Ok((player, course)),
        (Err(faults), Ok(_)) | (Ok(_), Err(faults)) => Err(faults.into()),
        (Err(mut faults), Err(more)) => {
            faults.extend(more);
            Err(faults.into())
        }
    }
}

/// A player and courses; the faults of all are told at once.
pub fn with_courses(
    player: &str,
    bay: &BayArgs,
    courses: &[String],
    setup: &SetupArgs,
) -> anyhow::Result<(Golfer, Vec<Course>)> {
    let setup = self::setup(setup)?;
    if let Some(course) = courses.iter().find(|course| is_swapped(player, course)) {
        return Err(swapped(player, course).into());
    }
    let mut faults = Faults::default();
    let player = match self::player(player, bay)? {
        Ok(player) => Some(player),
        Err(more) => {
            faults.extend(more);
            None
        }
    };
    let mut read = Vec::new();
    for text in courses {
        match course(text, &setup) {
            Ok(course) => read.push(course),
            Err(more) => faults.extend(more),
        }
    }
    match player {
        Some(player) if faults.list().is_empty() => Ok((player, read)),
        _ => Err(faults.into()),
    }
}

fn swapped(player: &str, course: &str) -> Usage {
    Usage {
        message: format!("`{player}` is a course and `{course}` a player"),
        hint: "the player comes first, then the course".to_owned(),
    }
}

/// A player alone.
pub fn golfer(text: &str, bay: &BayArgs) -> anyhow::Result<Golfer> {
    Ok(player(text, bay)??)
}

/// A player and a course of the demos typed in the wrong order.
fn is_swapped(player: &str, course: &str) -> bool {
    let named = |text: &str, names: &[&str]| {
        let name = text.strip_prefix(DEMO);
        name.is_some_and(|name| names.contains(&name))
    };
    named(player, &course::embedded::course_names())
        && (named(course, &player::embedded::player_names()) || course.starts_with(LEVEL))
}

/// A player: a level that does not exist is a fault of the command line, all else one of a file.
fn player(text: &str, bay: &BayArgs) -> anyhow::Result<Result<Golfer, Faults>> {
    if let Some(handicap) = &bay.handicap {
        return shots(text, handicap, &bay.sheet);
    }
    if bay.sheet.map.is_some() {
        return Err(Usage {
            message: "`--map` goes with a sheet of shots and its `--handicap`".to_owned(),
            hint: "add the handicap index of who hit them, as `--handicap 12.4`".to_owned(),
        }
        .into());
    }
    Ok(named_player(text)?)
}

/// A player that is no sheet of shots.
pub fn player_file(text: &str) -> anyhow::Result<Golfer> {
    Ok(named_player(text)??)
}

/// A level, a demo player or a player file.
pub fn named_player(text: &str) -> Result<Result<Golfer, Faults>, Usage> {
    if text.starts_with(LEVEL) {
        let level = levels::parse_spec(text).map_err(|error| no_level(text, error))?;
        return Ok(Ok(level));
    }
    if let Some(name) = text.strip_prefix(DEMO) {
        return Ok(player::embedded::player(name));
    }
    Ok(read_as(Path::new(text), Kind::Player).and_then(|_| Golfer::from_path(Path::new(text))))
}

/// A player fitted to a sheet of shots on the fly, under the sheet's name.
fn shots(text: &str, handicap: &str, how: &SheetArgs) -> anyhow::Result<Result<Golfer, Faults>> {
    match sheet(text, handicap, how) {
        Ok(fitted) => Ok(Ok(fitted.golfer)),
        Err(error) => error.downcast::<Faults>().map(Err),
    }
}

/// A sheet of shots and the player fitted to it, under the sheet's name.
pub fn sheet(text: &str, handicap: &str, how: &SheetArgs) -> anyhow::Result<FittedPlayer> {
    let is_toml = Path::new(text).extension().is_some_and(|end| end == "toml");
    if text.starts_with(LEVEL) || is_toml {
        return Err(Usage {
            message: format!("`--handicap` goes with a sheet of shots, and `{text}` is none"),
            hint: "leave it out: a player file says its own handicap".to_owned(),
        }
        .into());
    }
    let bare = text.strip_prefix(DEMO).unwrap_or(text);
    let name = Path::new(bare).file_stem().and_then(|stem| stem.to_str());
    let sheets = [text.to_owned()];
    let overrule = Overrule::default();
    bay::fitted(&sheets, name.unwrap_or(bare), handicap, how, &overrule)
}

fn no_level(text: &str, error: LevelError) -> Usage {
    match error {
        LevelError::OutOfRange(_) => Usage {
            message: format!("`{text}` is beyond the levels"),
            hint: format!("levels reach from {REACH}"),
        },
        LevelError::Unknown(_) => Usage {
            message: format!("`{text}` is no level"),
            hint: "write `level:tour`, `level:scratch` or a handicap as `level:5`; for women `level:20:women`".to_owned(),
        },
        LevelError::Broken(faults) => broken(&faults),
    }
}

/// The tables the program carries are at fault.
fn broken(faults: &Faults) -> Usage {
    Usage {
        message: format!("the level tables are at fault: {faults}"),
        hint: "this is a mistake of the program: please report it".to_owned(),
    }
}

/// A course, set up for play.
pub fn course(text: &str, setup: &Setup) -> Result<Course, Faults> {
    match text.strip_prefix(DEMO) {
        Some(name) => course::embedded::course_as(name, setup),
        None => Course::read_as(&read_as(Path::new(text), Kind::Course)?, setup),
    }
}

/// How courses are to be set up: tees by name, pins by a word or a sheet.
pub fn setup(args: &SetupArgs) -> anyhow::Result<Setup> {
    let pins = args.pins.as_deref().map(pins).transpose()?;
    Ok(Setup {
        tees: args.tees.clone(),
        pins: pins.unwrap_or_default(),
        ..Setup::default()
    })
}

fn pins(text: &str) -> anyhow::Result<Pins> {
    if let Some(pins) = Pins::from_word(text) {
        return Ok(pins);
    }
    if !Path::new(text).exists() {
        let meant = nearest(text, Pins::WORDS);
        let meant = meant.map_or(String::new(), |word| format!("did you mean `{word}`? "));
        return Err(Usage {
            message: format!("`--pins` names neither a place on the greens nor a sheet: `{text}`"),
            hint: format!("{meant}Write front, middle or back, or a CSV file with the columns `hole`, `on_paces`, `left_paces` and `right_paces`"),
        }
        .into());
    }
    Ok(Pins::Sheet(PinSheet::read(&Source::read(Path::new(
        text,
    ))?)?))
}

/// Reads a file that should be of a kind. One of another kind would be a heap of faults; it is told as one.
fn read_as(path: &Path, wanted: Kind) -> Result<Source, Faults> {
    let source = Source::read(path).map_err(|faults| meant_demo(path, wanted).unwrap_or(faults))?;
    of_kind(source, wanted)
}

/// A file that was read, if it is of a kind.
pub fn of_kind(source: Source, wanted: Kind) -> Result<Source, Faults> {
    let (message, hint) = match (wanted, Kind::of(&source)) {
        (Kind::Player, Some(Kind::Strikes)) => (
            "these are strikes, not a player".to_owned(),
            "add the handicap index of who hit them, as `--handicap 12.4`; or make a player file of them with `costcard fit`".to_owned(),
        ),
        (wanted, Some(kind)) if kind != wanted => (
            format!("this is a {kind} file, not a {wanted}"),
            format!("name a {wanted} file here; of a player and a course, the player comes first"),
        ),
        _ => return Ok(source),
    };
    Err(whole_file(&source, message, hint))
}

/// The fault of a missing file that has the name of a demo.
fn meant_demo(path: &Path, wanted: Kind) -> Option<Faults> {
    let name = path.to_str().filter(|_| !path.exists())?;
    let demos = match wanted {
        Kind::Course => course::embedded::course_names(),
        _ => player::embedded::player_names(),
    };
    let message = "there is no such file".to_owned();
    let hint = format!("did you mean `{DEMO}{name}`?");
    demos
        .contains(&name)
        .then(|| whole_file(&Source::new(name, ""), message, hint))
}

/// How far the levels reach, in words.
const REACH: &str = "-6 (a plus handicap is written negative) to 54";

/// The golfer of a goal: a handicap index, or the name of a level, of the player's sex.
pub fn goal(text: &str, sex: Sex) -> Result<Golfer, Usage> {
    levels::named(text, sex).map_err(|error| no_handicap("--goal", text, error))
}

/// The golfer of a level that stands beside a player, of the player's sex.
pub fn level(text: &str, sex: Sex) -> Result<Golfer, Usage> {
    levels::named(text, sex).map_err(|error| no_handicap("--level", text, error))
}

/// The most goals weighed at once.
const MOST_GOALS: usize = 8;

/// The handicap indexes of several goals, as `5.4,3,scratch`.
pub fn goals(text: &str, sex: Sex) -> Result<Vec<f64>, Usage> {
    let goals: Vec<&str> = text.split(',').map(str::trim).collect();
    if goals.len() > MOST_GOALS {
        return Err(Usage {
            message: format!("`--to` names {} goals", goals.len()),
            hint: format!("name {MOST_GOALS} at most"),
        });
    }
    let goal = |goal: &&str| levels::named(goal, sex).map(|level| level.handicap);
    let read = |text: &&str| goal(text).map_err(|error| no_handicap("--to", text, error));
    goals.iter().map(read).collect()
}

/// What is wrong with a handicap index on the command line.
pub fn no_handicap(flag: &str, text: &str, error: LevelError) -> Usage {
    match error {
        LevelError::OutOfRange(_) => Usage {
            message: format!("`{flag}` is {text}, but handicaps reach from {REACH}"),
            hint: "write a handicap index such as 9 or 5.4".to_owned(),
        },
        LevelError::Unknown(_) => Usage {
            message: format!("`{flag}` must be a handicap index, not `{text}`"),
            hint: "write a number such as 9 or 5.4, or `scratch` or `tour`".to_owned(),
        },
        LevelError::Broken(faults) => broken(&faults),
    }
}

/// A part of the game by its name.
pub fn part(text: &str) -> Result<Part, Usage> {
    let names = Part::ALL.map(Part::name);
    // In quotes as the shell needs them, since most have a blank in them.
    let quoted_names = listed(&names, "and").replace('`', "'");
    let plain = text.to_lowercase();
    let meant = match plain.as_str() {
        "driver" | "driving" | "drives" | "tee" | "tee shot" => Some(Part::TeeShots),
        "chipping" | "chips" => Some(Part::ShortGame),
        "bunker" | "bunkers" | "bunker shots" | "bunker play" => Some(Part::Sand),
        "putter" | "putts" => Some(Part::Putting),
        other => Part::named(other).or_else(|| other.parse::<Club>().ok().map(Part::of_club)),
    };
    meant.ok_or_else(|| Usage {
        message: format!("`--asked` names no part of the game: `{text}`"),
        hint: match nearest(text, names) {
            Some(meant) => format!("did you mean '{meant}'? The parts are {}", quoted_names),
            None => format!("the parts are {}", quoted_names),
        },
    })
}
