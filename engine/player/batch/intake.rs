//! From rows to a screened batch: what is kept of each club while sheets stream by.

use std::collections::{BTreeMap, HashMap};
use std::sync::Arc;

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use rayon::prelude::*;

use super::column_map::ColumnMap;
use super::day::day_of;
use super::input::{Input, Overrule};
use super::misread::Misread;
use super::quantity::{COUNT, Quantity};
use super::read::{self, RawShot};
use super::reference::Reference;
use super::repeats::Earlier;
use super::screen::{self, Expected};
use super::side_check;
use super::unit_check::{self, Said};
use super::{Batch, Count, MOST_KEPT, MOST_LISTED, Passed, Session, Shot, Unread, plain};
use crate::ball::air::Atmosphere;
use crate::files::{Fault, Faults, Source};
use crate::player::club::Club;

/// Shots of a club gathered before any is judged: what is usual is taken from the first so many. The rest of a long
/// batch is judged against them in heaps of this size.
const HEAP: usize = 500;
/// Columns of a sheet that are remembered though nothing reads them: far more than any device writes.
const MOST_UNREAD: usize = 1000;
/// Sessions told apart.
const MOST_SESSIONS: usize = 10_000;

/// Reads and screens sheets: see [`Batch::read`].
pub(super) fn read(
    inputs: Vec<Input>,
    map: &ColumnMap,
    overrule: &Overrule,
) -> Result<Batch, Faults> {
    let mut intake = Intake::new(map, overrule);
    let mut faults = Faults::default();
    for input in &inputs {
        if let Err(more) = intake.sheet(input) {
            faults.extend(more);
        }
    }
    if faults.list().is_empty() {
        intake.finish(&inputs)
    } else {
        Err(faults)
    }
}

struct Intake<'a> {
    map: &'a ColumnMap,
    overrule: &'a Overrule,
    air: Atmosphere,
    clubs: BTreeMap<Club, OfClub>,
    sessions: Sessions,
    earlier: Earlier,
    /// Which rows the user named were met, keep before drop.
    met: Vec<bool>,
    batch: Batch,
    columns: [bool; COUNT],
    /// What each sheet says its columns are in.
    units: Vec<read::Units>,
}

impl<'a> Intake<'a> {
    fn new(map: &'a ColumnMap, overrule: &'a Overrule) -> Self {
        Self {
            map,
            overrule,
            air: screen::checking_air(),
            clubs: BTreeMap::new(),
            sessions: Sessions::default(),
            earlier: Earlier::default(),
            met: vec![false; overrule.keep.len() + overrule.drop.len()],
            batch: Batch {
                files: Vec::new(),
                sessions: Vec::new(),
                shots: Vec::new(),
                counts: BTreeMap::new(),
                passed: BTreeMap::new(),
                unread: Vec::new(),
                unit_doubts: Vec::new(),
                side_doubts: Vec::new(),
                columns: Vec::new(),
            },
            columns: [false; COUNT],
            units: Vec::new(),
        }
    }

    fn sheet(&mut self, input: &Input) -> Result<(), Faults> {
        let file = self.batch.files.len();
        let name = input.name();
        self.batch.files.push(name.clone());
        let mut lines = input.open(self.map.encoding())?;
        let read = read::read(&mut lines, self.map, &mut |raw, has| {
            self.shot(file, &name, raw, has)
        })?;
        for (kind, passed) in read.passed {
            let of_kind = self.batch.passed.entry(kind).or_insert(Passed {
                rows: 0,
                file,
                row: passed.row,
            });
            of_kind.rows += passed.rows;
        }
        self.units.push(read.units);
        for header in read.unread.into_iter().take(MOST_UNREAD) {
            if self.batch.unread.iter().all(|one| one.header != header) {
                let like = plain::like(&header).filter(|_| plain::quantity(&header).is_none());
                self.batch.unread.push(Unread { header, like });
            }
        }
        for (known, has) in self.columns.iter_mut().zip(read.has) {
            *known |= has;
        }
        if self.sessions.list.len() > MOST_SESSIONS {
            let message = format!("there are more than {MOST_SESSIONS} sessions");
            let hint = "see that the column map names the right columns for `session` and `date`";
            return Err(input.fault(self.map.encoding(), 1, message, hint).into());
        }
        Ok(())
    }

    fn shot(&mut self, file: usize, name: &str, raw: RawShot<'_>, has: &[bool; COUNT]) {
        let mut figures = raw.figures;
        screen::clean(&mut figures);
        if self.map.mirrored {
            figures = figures.mirrored();
        }
        let session = self.sessions.of(raw.session, raw.date, name);
        let misread = screen::alone(&figures, has)
            .or_else(|| self.earlier.repeated(raw.club, &figures, file, raw.row));
        let shot = Shot {
            file,
            row: raw.row,
            club: raw.club,
            session,
            figures,
            misread,
        };
        let ruling = self.ruling(name, raw.row);
        self.clubs
            .entry(raw.club)
            .or_insert_with(|| OfClub::new(raw.club))
            .take(shot, ruling, &self.air);
    }

    /// What the user says of a row.
    fn ruling(&mut self, name: &str, row: usize) -> Ruling {
        let mut ruling = Ruling::None;
        let keep = self.overrule.keep.iter().map(|row| (row, Ruling::Keep));
        let drop = self.overrule.drop.iter().map(|row| (row, Ruling::Drop));
        for ((named, what), met) in keep.chain(drop).zip(&mut self.met) {
            if named.names(name, row) {
                *met = true;
                ruling = what;
            }
        }
        ruling
    }

    fn finish(mut self, inputs: &[Input]) -> Result<Batch, Faults> {
        let mut faults = Faults::default();
        for (named, met) in self
            .overrule
            .keep
            .iter()
            .chain(&self.overrule.drop)
            .zip(&self.met)
        {
            if !met {
                faults.extend(no_row(inputs, named));
            }
        }
        for of_club in self.clubs.values_mut() {
            of_club.judge(&self.air);
        }
        // In a wrong unit sound shots look like misreads, which would be told of in vain.
        let wrong = self.wrong_units();
        if !wrong.list().is_empty() {
            faults.extend(wrong);
            return Err(faults);
        }
        for of_club in self.clubs.into_values() {
            if let Err(fault) = of_club.check(inputs, self.map) {
                faults.extend(fault.into());
            }
            self.batch.counts.insert(of_club.club, of_club.count);
            self.batch.shots.extend(of_club.kept);
            self.batch.shots.extend(of_club.misreads);
        }
        self.batch.shots.sort_by_key(|shot| (shot.file, shot.row));
        self.batch.sessions = self.sessions.list;
        let columns = Quantity::ALL.into_iter();
        self.batch.columns = columns.filter(|q| self.columns[*q as usize]).collect();
        for unread in &mut self.batch.unread {
            unread.like = unread.like.filter(|q| !self.columns[*q as usize]);
        }
        if faults.list().is_empty() {
            Ok(self.batch)
        } else {
            Err(faults)
        }
    }
}

impl Intake<'_> {
    /// Looks at every sheet for columns in another unit than was said; notes those that are in doubt.
    fn wrong_units(&mut self) -> Faults {
        let mut faults = Faults::default();
        for (file, sheet) in self.units.iter().enumerate() {
            let all = self.clubs.values();
            let all = all.flat_map(|of_club| of_club.kept.iter().chain(&of_club.misreads));
            let shots: Vec<&Shot> = all.filter(|shot| shot.file == file).collect();
            let said = Said {
                units: &sheet.units,
                map: self.map,
            };
            for suspect in unit_check::suspects(&shots, &said) {
                let column = sheet.units.iter().position(|one| one.0 == suspect.quantity);
                faults.extend(
                    Fault {
                        source: Source::excerpt(&self.batch.files[file], &sheet.text, sheet.row),
                        span: column.map(|column| sheet.places[column].clone()),
                        message: suspect.message,
                        hint: Some(suspect.hint),
                    }
                    .into(),
                );
            }
            let doubt = unit_check::doubt(file, &shots, &said);
            self.batch.unit_doubts.extend(doubt);
            let doubt = side_check::doubt(file, &shots);
            self.batch.side_doubts.extend(doubt);
        }
        faults
    }
}

fn no_row(inputs: &[Input], named: &super::RowName) -> Faults {
    let name = inputs.first().map_or_else(|| "".into(), Input::name);
    let of = named.file.clone().unwrap_or_else(|| name.to_string());
    Fault {
        source: Source::new(&of, ""),
        span: None,
        message: format!("there is no shot in row {}", named.row),
        hint: Some(
            "a row is named by its line in the sheet, counted from the first line of the file"
                .to_owned(),
        ),
    }
    .into()
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Ruling {
    None,
    Keep,
    Drop,
}

/// A shot that is sound by itself, waiting to be judged against the others.
struct Waiting {
    shot: Shot,
    expected: Expected,
    keep: bool,
}

/// What is kept of one club.
struct OfClub {
    club: Club,
    waiting: Vec<Waiting>,
    reference: Option<Reference>,
    kept: Vec<Shot>,
    /// Sound shots met, kept or not.
    sound: usize,
    misreads: Vec<Shot>,
    count: Count,
    /// A row the user would keep that cannot be used.
    unusable: Option<Shot>,
    rng: ChaCha8Rng,
}

impl OfClub {
    fn new(club: Club) -> Self {
        Self {
            club,
            waiting: Vec::new(),
            reference: None,
            kept: Vec::new(),
            sound: 0,
            misreads: Vec::new(),
            count: Count::default(),
            unusable: None,
            rng: ChaCha8Rng::seed_from_u64(1),
        }
    }

    fn take(&mut self, mut shot: Shot, ruling: Ruling, air: &Atmosphere) {
        self.count.shots += 1;
        let keep = ruling == Ruling::Keep;
        match (ruling, shot.misread) {
            (Ruling::Drop, _) => {
                shot.misread = Some(Misread::Dropped);
                return self.misread(shot);
            }
            (Ruling::Keep, Some(Misread::Missing(_))) => {
                self.unusable = Some(shot.clone());
                return self.misread(shot);
            }
            (Ruling::None, Some(_)) => return self.misread(shot),
            _ => {}
        }
        self.waiting.push(Waiting {
            shot,
            expected: Expected::default(),
            keep,
        });
        if self.waiting.len() >= HEAP {
            self.judge(air);
        }
    }

    /// Judges the shots that wait; the first heap says what is usual.
    fn judge(&mut self, air: &Atmosphere) {
        let club = self.club;
        self.waiting
            .par_iter_mut()
            .with_min_len(64)
            .for_each(|waiting| {
                waiting.expected = Expected::of(club, &waiting.shot.figures, air);
            });
        let reference = self.reference.get_or_insert_with(|| {
            let shots: Vec<_> = self
                .waiting
                .iter()
                .map(|waiting| (&waiting.shot.figures, &waiting.expected))
                .collect();
            Reference::of(&shots)
        });
        for waiting in &mut self.waiting {
            let shot = &mut waiting.shot;
            shot.misread = if waiting.keep {
                None
            } else {
                screen::against(&shot.figures, &waiting.expected, reference)
            };
        }
        for waiting in std::mem::take(&mut self.waiting) {
            if waiting.shot.misread.is_some() {
                self.misread(waiting.shot);
            } else {
                self.keep(waiting.shot);
            }
        }
    }

    fn misread(&mut self, shot: Shot) {
        self.count.misreads += 1;
        if self.misreads.len() < MOST_LISTED {
            self.misreads.push(shot);
        }
    }

    /// Keeps a shot so that each sound one of the club is kept with the same chance (J.S. Vitter 1985, ACM Trans.
    /// Math. Softw. 11, 37: algorithm R).
    fn keep(&mut self, shot: Shot) {
        self.sound += 1;
        if self.kept.len() < MOST_KEPT {
            self.kept.push(shot);
            return;
        }
        let place = self.rng.random_range(0..self.sound);
        if let Some(kept) = self.kept.get_mut(place) {
            *kept = shot;
        }
    }

    /// A row the user would keep but nobody can use, and a club with nothing but misreads, are faults of the sheet.
    fn check(&self, inputs: &[Input], map: &ColumnMap) -> Result<(), Fault> {
        let told = |shot: &Shot, message: String, hint: &str| {
            inputs[shot.file].fault(map.encoding(), shot.row, message, hint)
        };
        if let Some(shot) = &self.unusable {
            let why = shot.misread.map(|misread| misread.to_string());
            let message = format!("this row cannot be kept: {}", why.unwrap_or_default());
            return Err(told(
                shot,
                message,
                "write the figure into the sheet, or leave the row out",
            ));
        }
        let dropped = |shot: &Shot| shot.misread == Some(Misread::Dropped);
        let Some(first) = self.misreads.iter().find(|shot| !dropped(shot)) else {
            return Ok(());
        };
        if self.sound > 0 {
            return Ok(());
        }
        let why = first.misread.map(|misread| misread.to_string());
        let message = format!(
            "every shot with the {} is a misread, this one for instance: {}",
            self.club,
            why.unwrap_or_default()
        );
        let hint = "see that columns and units are right; leave the club's rows out with `--drop`, or keep sound ones with `--keep`";
        Err(told(first, message, hint))
    }
}

/// Sessions by name.
#[derive(Default)]
struct Sessions {
    list: Vec<Session>,
    by_name: HashMap<Arc<str>, usize>,
}

impl Sessions {
    /// The session of a shot, by its column, its day or its file.
    fn of(&mut self, session: &str, date: &str, file: &str) -> usize {
        let day = day_of(date);
        let name = [session, day, file]
            .into_iter()
            .find(|name| !name.is_empty())
            .unwrap_or_default();
        let index = match self.by_name.get(name) {
            Some(index) => *index,
            None => {
                let index = self.list.len();
                // One more than is allowed is enough to tell that there are too many.
                if index > MOST_SESSIONS {
                    return index - 1;
                }
                let name: Arc<str> = name.into();
                self.by_name.insert(name.clone(), index);
                self.list.push(Session {
                    name,
                    date: Some(day).filter(|day| !day.is_empty()).map(Arc::from),
                    shots: 0,
                });
                index
            }
        };
        self.list[index].shots += 1;
        index
    }
}
