//! What a fuzzer does with each input, reader by reader: it is read or told of, and what was read goes one cheap step
//! further. Anything else is a panic, and a finding.
//!
//! The ordinary tests do the same with the seeds and with all that was ever found (`mod.rs`).

use std::sync::{Arc, LazyLock};

use costcard::cost::handicap::record::Record;
use costcard::cost::handicap::sheet;
use costcard::course::import::{Map, Options, Survey, Turf};
use costcard::course::{Course, Lie, PinSheet, Pins, Setup, carry};
use costcard::files::{Faults, Source};
use costcard::player::batch::{ColumnMap, Input, Overrule};
use costcard::player::bay::{BayFault, FittedPlayer, Who};
use costcard::player::change::Change;
use costcard::player::written::player_file;
use costcard::player::{Golfer, Sex, levels};
use costcard::rules::script::{Print, Script, trial};
use costcard::study::Study;

/// A reader, driven with whatever bytes there are; whether it read them.
pub type Driven = fn(&[u8]) -> bool;

/// Every reader by the name of its target.
pub const READERS: [(&str, Driven); 12] = [
    ("player", player),
    ("level", level),
    ("course", course),
    ("pins", pins),
    ("column_map", column_map),
    ("batch", batch),
    ("scores", scores),
    ("map_xml", map_xml),
    ("map_json", map_json),
    ("change", change),
    ("study", study),
    ("script", script),
];

/// The longest message of a fault, bytes: what is quoted of an input must not grow with it.
const LONGEST_TOLD: usize = 4000;
/// More rows than this of a sheet are read but not fitted: fitting derives figures shot by shot.
const MOST_FITTED: usize = 60;
/// Courses imported of one map.
const MOST_COURSES: usize = 3;

/// What is wrong is said in words, of bearable length, at a place that there is.
fn told(faults: &Faults) {
    assert!(!faults.list().is_empty(), "refused without a word");
    for fault in faults.list() {
        assert!(!fault.message.trim().is_empty(), "a fault without a word");
        let hint = fault.hint.as_deref().unwrap_or_default();
        for said in [&fault.message, hint] {
            assert!(said.len() <= LONGEST_TOLD, "{} bytes told", said.len());
        }
        if let Some(span) = &fault.span {
            let place = fault.source.text.get(span.clone());
            assert!(place.is_some(), "{span:?} is no place: {}", fault.message);
        }
    }
    assert!(!faults.to_string().is_empty());
}

/// What was read, or nothing where it was told of.
fn read<T>(outcome: Result<T, Faults>) -> Option<T> {
    outcome.map_err(|faults| told(&faults)).ok()
}

/// The text of a file.
fn source(name: &str, bytes: &[u8]) -> Option<Source> {
    read(Source::of_bytes(name, bytes.to_vec()))
}

/// What must hold of every golfer.
fn sound(golfer: &Golfer) {
    assert!((-6.0..=54.0).contains(&golfer.handicap), "{golfer:?}");
    for entry in &golfer.clubs {
        if let Err(fault) = entry.pattern.validate() {
            panic!("the {}: {fault}", entry.club);
        }
    }
    let (touch, sand, putting) = (golfer.short_game.0, golfer.sand.0, golfer.putting.0);
    let figures = [touch, sand].map(|t| [t.along_pct, t.across_pct, t.base_ft, t.mishit_pct]);
    let putts = [
        putting.direction_sd_deg,
        putting.length_sd_pct,
        putting.past_ft,
    ];
    let all = figures.concat().into_iter().chain(putts);
    assert!(all.into_iter().all(f64::is_finite), "{golfer:?}");
    assert_eq!(&golfer.mirrored().mirrored(), golfer);
}

/// The sheet of shots that a player file names, whatever it calls it.
const SHOTS: &str = "club,ball_speed_mph,launch_deg,direction_deg,backspin_rpm,sidespin_rpm\n\
     7 iron,112,17.5,1.2,6100,-200\n7 iron,110,18.1,-2.0,5900,150\n7 iron,113,16.9,0.4,6300,80\n\
     driver,140,12.2,3.0,2900,400\ndriver,137,11.4,-1.0,3100,-150\n";

/// A player file: every golfer read is one who can play.
pub fn player(bytes: &[u8]) -> bool {
    let Some(source) = source("player.toml", bytes) else {
        return false;
    };
    let open = |sheet: &str| Ok(Source::new(sheet, SHOTS));
    let golfer = read(Golfer::read(&source, &open));
    golfer.inspect(sound).is_some()
}

/// A level file.
pub fn level(bytes: &[u8]) -> bool {
    let Some(source) = source("level.toml", bytes) else {
        return false;
    };
    let golfer = read(levels::read(&source));
    golfer.inspect(sound).is_some()
}

/// A course file: every hole has a tee, a pin on its green, and a mirror.
pub fn course(bytes: &[u8]) -> bool {
    let Some(source) = source("course.toml", bytes) else {
        return false;
    };
    let Some(course) = read(Course::read(&source)) else {
        return false;
    };
    playable(&course);
    assert_eq!(course.mirrored().mirrored(), course);
    true
}

/// What must hold of every course.
fn playable(course: &Course) {
    for hole in &course.holes {
        let grid = &hole.grid;
        assert_eq!(grid.lies.len(), grid.columns * grid.rows);
        assert_eq!(grid.lie(hole.tee.x_yd, hole.tee.y_yd), Lie::Tee);
        assert_eq!(grid.lie(hole.pin.x_yd, hole.pin.y_yd), Lie::Green);
        assert!(hole.length_yd > 0.0 && hole.length_yd.is_finite());
        if let Some(carry) = carry::forced(hole) {
            assert!(carry.length_yd > 0.0 && carry.length_yd.is_finite());
        }
    }
}

/// A hole to set pins on.
const HOLE: &str = "name = 'One'\n[[holes]]\npar = 3\nlength_yd = 120\n\
                    green = { depth_yd = 30, width_yd = 24 }\n";

/// A sheet of pins: those that stand are on the green.
pub fn pins(bytes: &[u8]) -> bool {
    let Some(sheet) = source("pins.csv", bytes).and_then(|source| read(PinSheet::read(&source)))
    else {
        return false;
    };
    let setup = Setup {
        pins: Pins::Sheet(sheet),
        ..Setup::default()
    };
    let course = read(Course::read_as(&Source::new("one.toml", HOLE), &setup));
    course.inspect(playable).is_some()
}

/// A column map: written and read again it is the same.
pub fn column_map(bytes: &[u8]) -> bool {
    let Some(map) = source("map.toml", bytes).and_then(|source| read(ColumnMap::read(&source)))
    else {
        return false;
    };
    let text = map.to_toml("map");
    match ColumnMap::read(&Source::new("again.toml", &text)) {
        Ok(again) => assert_eq!(again, map, "{text}"),
        Err(faults) => panic!("{faults}\nof\n{text}"),
    }
    true
}

/// What stands between a column map and the sheet it is for.
const PARTED: &[u8] = b"\n=====\n";

/// A sheet of shots, with a column map before it or without: the player fitted to it is one who can play, and is read
/// back from the file that is written of him.
pub fn batch(bytes: &[u8]) -> bool {
    let parted = bytes
        .windows(PARTED.len())
        .position(|window| window == PARTED);
    let (map, sheet) = match parted {
        Some(at) => {
            let map = source("map.toml", &bytes[..at]);
            let Some(map) = map.and_then(|source| read(ColumnMap::read(&source))) else {
                return false;
            };
            (map, &bytes[at + PARTED.len()..])
        }
        None => (ColumnMap::default(), bytes),
    };
    let input = Input::Bytes("shots.csv".into(), sheet.into());
    let read = costcard::player::batch::Batch::read(vec![input], &map, &Overrule::default());
    let Some(batch) = self::read(read) else {
        return false;
    };
    assert!(batch.misread_count() <= batch.shot_count());
    if batch.shot_count() > MOST_FITTED {
        return true;
    }
    let who = Who {
        name: "Ann".to_owned(),
        handicap: 12.4,
        sex: Sex::Women,
        left_handed: false,
    };
    match FittedPlayer::of_batch(who, map, batch) {
        Ok(player) => reads_back(&player),
        Err(BayFault::Sheets(faults)) => told(&faults),
        Err(fault) => panic!("sound shots make no player: {fault}"),
    }
    true
}

fn reads_back(player: &FittedPlayer) {
    sound(&player.golfer);
    let text = player_file(player);
    let none = |sheet: &str| panic!("a written player names a sheet: {sheet}");
    match Golfer::read(&Source::new("written.toml", &text), &none) {
        // What was left out stands in the file and needs telling no more.
        Ok(again) => assert_eq!(
            again,
            Golfer {
                notes: Vec::new(),
                ..player.golfer.clone()
            }
        ),
        Err(faults) => panic!("{faults}\nof\n{text}"),
    }
}

/// A sheet of scores: the index that follows from them is one.
pub fn scores(bytes: &[u8]) -> bool {
    let Some(sheet) = source("scores.csv", bytes).and_then(|source| read(sheet::read(&source)))
    else {
        return false;
    };
    let record = Record::of(&sheet.scores);
    let Some(index) = record.index else {
        panic!("a sheet without an index was not told of");
    };
    assert!(index.strokes() <= 54.0, "{record:?}");
    true
}

/// A map as XML.
pub fn map_xml(bytes: &[u8]) -> bool {
    map(bytes)
}

/// A map as JSON: Overpass or GeoJSON.
pub fn map_json(bytes: &[u8]) -> bool {
    map(bytes)
}

/// A map of any form: the courses on it are written as files that can be read and played.
fn map(bytes: &[u8]) -> bool {
    let Some(map) = source("map", bytes).and_then(|source| read(Map::of_text(&source))) else {
        return false;
    };
    let survey = Survey::of(&map);
    for at in 0..survey.courses().len().min(MOST_COURSES) {
        let options = Options {
            make_greens: true,
            ..Options::default()
        };
        let Ok(imported) = survey.import(at, options) else {
            continue;
        };
        let text = imported.to_toml(&Turf::default());
        match Course::read(&Source::new("imported.toml", &text)) {
            Ok(course) => playable(&course),
            Err(faults) => panic!("{faults}\nof\n{text}"),
        }
    }
    !survey.courses().is_empty()
}

static GOLFER: LazyLock<Golfer> =
    LazyLock::new(|| levels::level(14.0, Sex::Women).unwrap_or_else(|error| panic!("{error}")));

/// The language of changes: what was read is written as it is read, and a golfer it changes is one who can play.
pub fn change(bytes: &[u8]) -> bool {
    let Ok(text) = std::str::from_utf8(bytes) else {
        return false;
    };
    match text.parse::<Change>() {
        Ok(change) => {
            assert_eq!(change.to_string().parse::<Change>(), Ok(change.clone()));
            if let Ok(golfer) = change.apply(&GOLFER) {
                sound(&golfer);
            }
            true
        }
        Err(fault) => {
            assert!(!fault.hint.is_empty());
            told(&fault.within(&Source::new("change", text), 0).into());
            false
        }
    }
}

/// A study file: there is somebody on some course, and it plays rounds. Files it names are not looked at.
pub fn study(bytes: &[u8]) -> bool {
    let Some(study) = source("study.toml", bytes).and_then(|source| read(Study::read(&source)))
    else {
        return false;
    };
    assert!(!study.combinations.is_empty() && study.effort.rounds > 0);
    for combination in &study.combinations {
        assert!(!combination.players.is_empty() && !combination.courses.is_empty());
        assert!(!combination.rules.is_empty() && !combination.changes.is_empty());
        assert!(!combination.goals.is_empty() && !combination.conditions.is_empty());
    }
    true
}

/// A script: what it gives over the trial is something that can be, or is told.
pub fn script(bytes: &[u8]) -> bool {
    let silent: Print = Arc::new(|_| {});
    let Some(script) =
        source("rule.rhai", bytes).and_then(|source| read(Script::read(&source, &silent)))
    else {
        return false;
    };
    read(trial::sound(&script)).is_some()
}
