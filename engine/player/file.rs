//! The player file: measured strikes or stated patterns by club, short game, sand and putting; what is left out
//! comes from the level of the player's handicap.
//!
//! Figures are as an onlooker sees them, for left-handers too: right of the target is positive, and sidespin that
//! curves the ball to the right is positive. A device that turns a left-hander's figures into a right-hander's
//! needs `figures = "mirrored"`: every direction and sidespin of the file and its sheet is then turned back.

use std::cell::RefCell;
use std::path::Path;

use super::added;
use super::bag::{Contents, faster_in_words, fill, pattern_with};
use super::batch::{Batch, ColumnMap, Input, MAP_KEYS, Overrule};
use super::club::Club;
use super::club_table::{self, Stated};
use super::levels::{self, Ladder};
use super::likely;
use super::measured::{fit_batch, sides_assumed};
use super::pattern::LOWEST_DEG;
use super::posterior::{Evidence, Given};
use super::skill_table::{self, Behind, Kind};
use super::{BagClub, Golfer, Origin, Sex};
use crate::files::toml::{self, Entry, Outline, Table};
use crate::files::{Faults, Source};
use crate::units::Angle;

pub(super) const KEYS: [&str; 16] = [
    "name",
    "description",
    "handicap_index",
    "sex",
    "hand",
    "figures",
    "strikes",
    "map",
    "fitted_to",
    "assumed_clubs",
    "not_carried",
    "loft_shift_deg",
    "clubs",
    "short_game",
    "sand",
    "putting",
];

/// Opens the sheet a player file names.
pub type Open<'a> = &'a dyn Fn(&str) -> Result<Source, Faults>;

impl Golfer {
    /// Reads a player file; `open` opens the sheet of strikes it names.
    ///
    /// # Errors
    /// Every fault of the file and of its sheet.
    pub fn read(source: &Source, open: Open<'_>) -> Result<Self, Faults> {
        Self::read_with(source, open, &[])
    }

    /// The same with more shots, just hit, beside those of the file: its clubs are fitted to all of them. A club the file
    /// states by hand comes from the shots, if it was hit.
    ///
    /// # Errors
    /// Every fault of the file and of the sheets; a club that was fitted to sheets which `open` does not find.
    pub fn read_with(source: &Source, open: Open<'_>, more: &[Input]) -> Result<Self, Faults> {
        let mut of_sheet = Faults::default();
        let golfer = toml::read(source, &KEYS, |file| {
            player(file, (open, more), &mut of_sheet)
        });
        match golfer {
            Ok(golfer) if of_sheet.list().is_empty() => Ok(golfer),
            Ok(_) => Err(of_sheet),
            Err(mut faults) => {
                faults.extend(of_sheet);
                Err(faults)
            }
        }
    }

    /// What such a file may say, shown by a sound sample.
    ///
    /// # Errors
    /// Every fault of the sample.
    pub fn outline(sample: &Source, open: Open<'_>) -> Result<Outline, Faults> {
        toml::outline(sample, &KEYS, |file| {
            player(file, (open, &[]), &mut Faults::default())
        })
    }

    /// Reads a player file from disk; the sheet's path counts from the file's folder.
    ///
    /// # Errors
    /// When it cannot be read, and every fault of the file and of its sheet.
    pub fn from_path(path: &Path) -> Result<Self, Faults> {
        let folder = path.parent().unwrap_or_else(|| Path::new(""));
        Self::read(&Source::read(path)?, &|sheet| {
            Source::read(&folder.join(sheet))
        })
    }

    /// The golfer as a mirror shows him.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        let mut mirrored = self.clone();
        for entry in &mut mirrored.clubs {
            entry.pattern = entry.pattern.mirrored();
            entry.delivered = entry.delivered.mirrored();
            entry.evidence = entry.evidence.as_ref().map(Evidence::mirrored);
        }
        mirrored
    }
}

/// What the file says of who the player is.
struct Identity {
    name: String,
    handicap: f64,
    sex: Sex,
    /// The level, its shots turned for a left-hander.
    level: Golfer,
    ladder: &'static Ladder,
    /// Whether the figures of the file are mirrored.
    mirrored: bool,
}

/// The handicap index. One with a plus sign, which players write for less than nothing, and TOML reads as more, is told.
fn read_handicap(entry: &Entry<'_>) -> Option<f64> {
    let written = entry.span().and_then(|span| entry.source().text.get(span));
    let written = written.unwrap_or_default().trim_matches(['"', '\'']);
    if let Some(plus) = written
        .strip_prefix('+')
        .filter(|plus| plus.parse::<f64>().is_ok())
    {
        return entry.note(
            format!("`+{plus}` can be read in two ways"),
            format!("a plus handicap is negative here: write `-{plus}` for plus {plus}, `{plus}` for {plus}"),
        );
    }
    entry.number(
        levels::LOWEST..=levels::HIGHEST,
        "(a plus handicap is negative)",
    )
}

fn identity(file: &Table<'_>, mirrored: bool) -> Option<Identity> {
    let name = file.need("name", "\"Ann Player\"").text();
    let _ = file.may("description", "\"Slices the driver.\"").text();
    let handicap = read_handicap(&file.need("handicap_index", "12.4"));
    let sex = levels::sex(file);
    let left = file
        .may("hand", "\"left\"")
        .word(&[("right", false), ("left", true)]);
    let (name, handicap, sex) = (name?, handicap?, sex?);
    let ladder = match levels::ladder(sex) {
        Ok(ladder) => ladder,
        Err(error) => {
            file.fault(0..0, error.to_string(), "");
            return None;
        }
    };
    let level = ladder.golfer(handicap);
    Some(Identity {
        name,
        handicap,
        sex,
        level: if left == Some(true) {
            level.mirrored()
        } else {
            level
        },
        ladder,
        mirrored,
    })
}

fn player(
    file: &Table<'_>,
    (open, more): (Open<'_>, &[Input]),
    of_sheet: &mut Faults,
) -> Option<Golfer> {
    // Every part is read before a fault ends the reading, so that each is told.
    let mirrored = file
        .may("figures", "\"mirrored\"")
        .word(&[("as seen", false), ("mirrored", true)])
        .unwrap_or(false);
    let identity = identity(file, mirrored);
    let more = added::with_fitted(file, open, more, of_sheet);
    let strikes = strikes(file, (open, &more), mirrored, of_sheet);
    let stated = stated_clubs(file, strikes.as_ref(), !more.is_empty());
    let assumed = clubs_in(file, "assumed_clubs");
    let not_carried = not_carried(file, assumed.as_deref().unwrap_or_default());
    let loft_shift = file
        .may("loft_shift_deg", "6")
        .number(-15.0..=15.0, "degrees")
        .map_or(Angle::ZERO, Angle::from_deg);
    let (Some(identity), Some(stated)) = (identity, stated) else {
        check_skills(file);
        return None;
    };
    let mut notes = Vec::new();
    // The lofts of its sheets are read by the same device.
    let identity = Identity {
        level: Golfer {
            loft_shift,
            ..identity.level
        },
        ..identity
    };
    let (own, mut wanted) = own_clubs(file, &identity, strikes.as_ref(), &stated, &mut notes)?;
    notes.extend(left_out(&own, &not_carried));
    notes.extend(raised(&own));
    notes.extend(faster_in_words(&own));
    let untold = stated.iter().filter(|club| !club.tells_sides);
    notes.extend(sides_assumed(untold.map(|club| club.club)));
    let whole = assumed.is_some();
    wanted.extend(assumed.unwrap_or_default());
    let contents = Contents {
        wanted,
        whole,
        not_carried,
    };
    let clubs = fill(&own, &contents, &identity.level);
    check_bag(file, &clubs, &contents);
    let behind = Behind {
        ladder: identity.ladder,
        handicap: identity.handicap,
        notes: RefCell::default(),
    };
    let putting = skill_table::putting(file, &behind);
    let putts = putting.map_or_else(|| identity.level.putting.0, |(putting, _)| putting);
    let short_game = skill_table::touch(file, Kind::ShortGame, &behind, &putts);
    let sand = skill_table::touch(file, Kind::Sand, &behind, &putts);
    notes.extend(behind.notes.take());
    Some(Golfer {
        name: identity.name,
        handicap: identity.handicap,
        sex: identity.sex,
        clubs,
        short_game: short_game?,
        sand: sand?,
        putting: putting?,
        loft_shift,
        notes,
    })
}

/// Notes a bag that holds nothing but woods: from a bunker none of them is played.
fn check_bag(file: &Table<'_>, clubs: &[BagClub], contents: &Contents) {
    if clubs.iter().any(|entry| entry.club.is_for_every_lie()) {
        return;
    }
    let (key, hint) = if contents.whole {
        (
            "assumed_clubs",
            "name an iron or a wedge here too, or leave `assumed_clubs` out: the usual bag is assumed then",
        )
    } else {
        ("not_carried", "leave an iron or a wedge in the bag")
    };
    let message = "there is no club in the bag for a ball in a bunker".to_owned();
    let _: Option<()> = file.may(key, "[\"3 wood\"]").note(message, hint.to_owned());
}

/// Notes faults of the skill tables of a player whose level or clubs are at fault: the tables are read over scratch.
fn check_skills(file: &Table<'_>) {
    let Ok(ladder) = levels::ladder(Sex::Men) else {
        return;
    };
    let behind = Behind {
        ladder,
        handicap: 0.0,
        notes: RefCell::default(),
    };
    let putting = skill_table::putting(file, &behind);
    let putts = putting.map_or_else(|| ladder.skills(0.0).putting, |(putting, _)| putting);
    for kind in [Kind::ShortGame, Kind::Sand] {
        let _ = skill_table::touch(file, kind, &behind, &putts);
    }
}

/// The shots of the sheet the file names; none when it names none or the sheet is at fault.
fn strikes(
    file: &Table<'_>,
    (open, more): (Open<'_>, &[Input]),
    mirrored: bool,
    of_sheet: &mut Faults,
) -> Option<Batch> {
    let map = match file.may("map", "{ columns = {} }").table(&MAP_KEYS) {
        Some(table) => ColumnMap::of_table(&table),
        None => Some(ColumnMap::default()),
    };
    let entry = file.may("strikes", "\"shots/ann.csv\"");
    let (path, mut map) = (entry.text(), map?);
    map.mirrored |= mirrored;
    let mut inputs = Vec::new();
    if let Some(path) = &path {
        match open(path) {
            Ok(source) => inputs.push(Input::Text(source)),
            Err(faults) => {
                tell_sheet(&entry, path, faults, of_sheet);
                return None;
            }
        }
    }
    inputs.extend_from_slice(more);
    if inputs.is_empty() {
        return None;
    }
    match Batch::read(inputs, &map, &Overrule::default()) {
        Ok(batch) => Some(batch),
        Err(faults) if more.is_empty() => {
            tell_sheet(&entry, &path.unwrap_or_default(), faults, of_sheet);
            None
        }
        Err(faults) => {
            of_sheet.extend(faults);
            None
        }
    }
}

/// A sheet that cannot be opened is a fault of the file that names it; what is in it is told of the sheet.
fn tell_sheet(entry: &Entry<'_>, path: &str, faults: Faults, of_sheet: &mut Faults) {
    match faults.list() {
        [only] if only.span.is_none() => {
            let hint = only
                .hint
                .clone()
                .unwrap_or_else(|| "its path counts from the folder of this file".to_owned());
            let message = format!("the strikes in \"{path}\" cannot be read: {}", only.message);
            let _: Option<()> = entry.note(message, hint);
        }
        _ => of_sheet.extend(faults),
    }
}

/// The `[[clubs]]` tables; a club that stands twice, or also in the sheet, is a fault.
///
/// Where shots were `added`, those that were hit are left to the shots.
fn stated_clubs(file: &Table<'_>, batch: Option<&Batch>, added: bool) -> Option<Vec<Stated>> {
    let tables = file
        .may("clubs", "[{ club = \"7 iron\", ball_speed_mph = 112 }]")
        .tables(&club_table::KEYS);
    let mut clubs: Vec<Stated> = Vec::new();
    let mut sound = true;
    for table in &tables {
        let Some(stated) = club_table::read(table) else {
            sound = false;
            continue;
        };
        // What was fitted to shots was screened with them.
        let unlikely = match stated.shots {
            None => likely::unlikely(stated.club, stated.ball_speed_mph),
            Some(_) => None,
        };
        if let Some((message, hint)) = unlikely {
            table.fault(table.place("ball_speed_mph"), message, &hint);
            sound = false;
            continue;
        }
        let twice = clubs.iter().any(|other| other.club == stated.club);
        let measured = batch.is_some_and(|batch| batch.counts.contains_key(&stated.club));
        if added && measured && !twice {
            continue;
        }
        if twice || measured {
            let (message, hint) = if twice {
                ("stands twice under `clubs`", "remove one of the two")
            } else {
                (
                    "is both stated here and measured in the strikes",
                    "remove one of the two",
                )
            };
            let place = stated.name_place.clone();
            table.fault(place, format!("the {} {message}", stated.club), hint);
            sound = false;
        }
        clubs.push(stated);
    }
    sound.then_some(clubs)
}

/// The clubs the player hit or stated, and those he hit too seldom for a pattern.
fn own_clubs(
    file: &Table<'_>,
    identity: &Identity,
    batch: Option<&Batch>,
    stated: &[Stated],
    notes: &mut Vec<String>,
) -> Option<(Vec<BagClub>, Vec<Club>)> {
    let (mut clubs, mut wanted) = (Vec::new(), Vec::new());
    if let Some(batch) = batch {
        match fit_batch(batch, &identity.level) {
            Ok(fitted) => {
                clubs.extend(fitted.clubs.iter().map(BagClub::from));
                notes.extend(fitted.notes(batch));
                wanted = fitted.too_few;
            }
            Err(fault) => {
                let message = format!("no pattern can be made of the strikes: {fault}");
                file.fault(file.place("strikes"), message, "");
                return None;
            }
        }
    }
    for stated in stated {
        clubs.extend(stated_club(file, identity, stated));
    }
    clubs.sort_by_key(|entry| entry.club);
    Some((clubs, wanted))
}

/// The clubs a list of the file names; none when there is no such list.
fn clubs_in(file: &Table<'_>, key: &str) -> Option<Vec<Club>> {
    let names = file.may(key, "[\"3 wood\"]").list()?;
    let club = |entry: &Entry<'_>| {
        entry.text()?.parse::<Club>().map_or_else(
            |unknown| {
                entry.note(
                    format!("unknown club \"{}\"", unknown.given),
                    unknown.hint(),
                )
            },
            Some,
        )
    };
    Some(names.iter().filter_map(club).collect())
}

/// The clubs that are not in the bag; one that is said to be assumed in it too is a fault.
fn not_carried(file: &Table<'_>, assumed: &[Club]) -> Vec<Club> {
    let clubs = clubs_in(file, "not_carried").unwrap_or_default();
    if let Some(both) = clubs.iter().find(|club| assumed.contains(club)) {
        let message = format!("the {both} stands under `assumed_clubs` and under `not_carried`");
        file.fault(
            file.place("not_carried"),
            message,
            "remove one of the two: assumed clubs are in the bag",
        );
    }
    clubs
}

/// The names of some clubs; none where there is no such club.
fn names_of(own: &[BagClub], which: impl Fn(&BagClub) -> bool) -> Option<String> {
    let found = own.iter().filter(|entry| which(entry));
    let names: Vec<String> = found.map(|entry| entry.club.to_string()).collect();
    (!names.is_empty()).then(|| names.join(", "))
}

/// That clubs are known and yet not in the bag.
fn left_out(own: &[BagClub], not_carried: &[Club]) -> Option<String> {
    let names = names_of(own, |entry| not_carried.contains(&entry.club))?;
    Some(format!("not carried, so left out of the bag: {names}"))
}

/// That clubs are stated to send the ball into the ground.
fn raised(own: &[BagClub]) -> Option<String> {
    let names = names_of(own, |entry| entry.pattern.mean[1] < LOWEST_DEG)?;
    Some(format!(
        "shots that start lower than {LOWEST_DEG}° are played at {LOWEST_DEG}°, among them the usual ones of: {names}"
    ))
}

fn stated_club(file: &Table<'_>, identity: &Identity, stated: &Stated) -> Option<BagClub> {
    let level = pattern_with(&identity.level.clubs, stated.club)?;
    let turn = identity.mirrored;
    let pattern = if turn {
        stated.over(&level.mirrored()).mirrored()
    } else {
        stated.over(&level)
    };
    if let Err(fault) = pattern.validate() {
        let hint = "make the correlations smaller, or leave them out";
        file.fault(stated.correlation_place.clone(), fault.to_string(), hint);
        return None;
    }
    let mut evidence = stated.evidence.clone();
    let mut delivered = stated.delivered;
    if turn {
        evidence = evidence.map(|evidence| evidence.mirrored());
        delivered = delivered.mirrored();
    }
    Some(BagClub {
        club: stated.club,
        pattern,
        origin: stated
            .shots
            .map_or(Origin::Stated, |strikes| Origin::Measured { strikes }),
        evidence,
        given: match stated.shots {
            None => stated.given(),
            Some(_) => Given::default(),
        },
        delivered,
    })
}
