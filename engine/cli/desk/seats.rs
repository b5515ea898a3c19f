//! The player and the course that sit at the desk: where they come from, and how they are read anew when shots are
//! added or the day changes.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use costcard::course::{self, Course, Day, Setup};
use costcard::files::{Faults, Source};
use costcard::player::batch::{ColumnMap, Input, Overrule};
use costcard::player::bay::{BayFault, FittedPlayer, Who};
use costcard::player::{Golfer, embedded};
use costcard::rules::Rulebook;

use super::folder::Folder;
use super::told::whole;
use crate::cli::args::{BayArgs, Rules, SheetArgs};
use crate::cli::kind::Kind;
use crate::cli::load::{self, DEMO, LEVEL};
use crate::cli::{bay, rules};

/// A player at the desk.
#[derive(Debug, Clone)]
pub struct PlayerSeat {
    /// The player.
    pub golfer: Golfer,
    /// What the page calls where he comes from.
    pub from: String,
    /// What was made of his shots; none where no sheet stands behind him but that of his own file.
    pub fitted: Option<Arc<FittedPlayer>>,
    /// Sheets that were added at the desk, by name.
    pub added: Vec<Arc<str>>,
    how: How,
}

#[derive(Debug, Clone)]
enum How {
    /// A level.
    Level,
    /// A demo player, and shots added.
    Demo(String, Vec<Input>),
    /// A player file, and shots added.
    File(Source, Base, Vec<Input>),
    /// Sheets of shots.
    Sheets(Who, ColumnMap, Vec<Input>),
}

/// Where the sheets that a player file names are looked for.
#[derive(Debug, Clone)]
enum Base {
    /// Beside a file that was named on the command line, and wherever it points.
    Typed(PathBuf),
    /// From a folder within the desk's, and never out of that.
    Inside(PathBuf),
}

impl Base {
    fn open(&self, folder: &Folder, sheet: &str) -> Result<Source, Faults> {
        if let Some(name) = sheet.strip_prefix(DEMO) {
            return embedded::sheet(name);
        }
        match self {
            Self::Typed(beside) => Source::read(&beside.join(sheet)),
            Self::Inside(beside) => folder.open(beside, sheet),
        }
    }
}

impl PlayerSeat {
    /// A player as typed on the command line.
    pub fn typed(text: &str, args: &BayArgs, folder: &Folder) -> anyhow::Result<Self> {
        if let Some(handicap) = &args.handicap {
            // Read as every command reads it, then once more as it can be added to.
            let fitted = load::sheet(text, handicap, &args.sheet)?;
            let map = map(&args.sheet)?;
            return Self::of_sheets(fitted.who, map, vec![bay::input(text)?], Vec::new());
        }
        load::golfer(text, args)?;
        if text.starts_with(LEVEL) || text.starts_with(DEMO) {
            return Self::named(text);
        }
        let source = Source::read(Path::new(text))?;
        let beside = Path::new(text).parent().unwrap_or(Path::new(""));
        Self::of_file(source, Base::Typed(beside.to_owned()), folder)
    }

    /// A level or a demo player.
    pub fn named(text: &str) -> anyhow::Result<Self> {
        let golfer = load::named_player(text)??;
        let how = match text.strip_prefix(DEMO) {
            Some(name) => How::Demo(name.to_owned(), Vec::new()),
            None => How::Level,
        };
        Ok(Self::new(golfer, text, how))
    }

    /// A player file: chosen from the folder, or dropped on the page, which counts as lying in the folder itself.
    pub fn file(name: &str, bytes: Vec<u8>, folder: &Folder) -> anyhow::Result<Self> {
        let source = load::of_kind(Source::of_bytes(name, bytes)?, Kind::Player)?;
        let beside = Path::new(name).parent().unwrap_or(Path::new(""));
        Self::of_file(source, Base::Inside(beside.to_owned()), folder)
    }

    fn of_file(source: Source, base: Base, folder: &Folder) -> anyhow::Result<Self> {
        let golfer = Golfer::read(&source, &|sheet| base.open(folder, sheet))?;
        let from = source.name.to_string();
        Ok(Self::new(
            golfer,
            &from,
            How::File(source, base, Vec::new()),
        ))
    }

    /// A player fitted to a sheet of shots.
    pub fn sheet(who: Who, map: ColumnMap, input: Input) -> anyhow::Result<Self> {
        Self::of_sheets(who, map, vec![input], Vec::new())
    }

    fn of_sheets(
        who: Who,
        map: ColumnMap,
        inputs: Vec<Input>,
        added: Vec<Arc<str>>,
    ) -> anyhow::Result<Self> {
        let fitted = FittedPlayer::fit(who, inputs.clone(), map, &Overrule::default());
        let fitted = fitted.map_err(of_bay)?;
        let names: Vec<String> = fitted.batch.files.iter().map(ToString::to_string).collect();
        Ok(Self {
            golfer: fitted.golfer.clone(),
            from: names.join(", "),
            added,
            how: How::Sheets(fitted.who.clone(), fitted.map.clone(), inputs),
            fitted: Some(Arc::new(fitted)),
        })
    }

    fn new(golfer: Golfer, from: &str, how: How) -> Self {
        Self {
            golfer,
            from: from.to_owned(),
            fitted: None,
            added: Vec::new(),
            how,
        }
    }

    /// The same player with shots just hit beside those that stand. A map of its own is for a player who has no sheet yet.
    pub fn with_shots(
        &self,
        input: Input,
        map: Option<ColumnMap>,
        folder: &Folder,
    ) -> anyhow::Result<Self> {
        let mut added = self.added.clone();
        added.push(input.name());
        let joined = |before: &[Input]| [before, std::slice::from_ref(&input)].concat();
        match &self.how {
            How::Level => Self::of_sheets(self.who(), map.unwrap_or_default(), vec![input], added),
            How::Sheets(who, own, before) => {
                Self::of_sheets(who.clone(), own.clone(), joined(before), added)
            }
            How::Demo(name, before) => {
                let more = joined(before);
                let golfer = embedded::player_with(name, &more)?;
                Ok(self.fitted_anew(golfer, How::Demo(name.clone(), more), added))
            }
            How::File(source, base, before) => {
                let more = joined(before);
                let golfer = Golfer::read_with(source, &|sheet| base.open(folder, sheet), &more)?;
                let how = How::File(source.clone(), base.clone(), more);
                Ok(self.fitted_anew(golfer, how, added))
            }
        }
    }

    fn fitted_anew(&self, golfer: Golfer, how: How, added: Vec<Arc<str>>) -> Self {
        Self {
            golfer,
            how,
            added,
            ..self.clone()
        }
    }

    fn who(&self) -> Who {
        Who {
            name: self.golfer.name.clone(),
            handicap: self.golfer.handicap,
            sex: self.golfer.sex,
            left_handed: false,
        }
    }
}

/// A column map as it was typed.
fn map(how: &SheetArgs) -> Result<ColumnMap, Faults> {
    let map = how.map.as_ref().map(|path| bay::column_map(path));
    Ok(map.transpose()?.unwrap_or_default())
}

fn of_bay(fault: BayFault) -> anyhow::Error {
    match fault {
        BayFault::Sheets(faults) => faults.into(),
        other => other.into(),
    }
}

/// A course at the desk.
#[derive(Debug, Clone)]
pub struct CourseSeat {
    /// The course's name.
    pub name: String,
    /// What the page calls where it comes from.
    pub from: String,
    place: Place,
    setup: Setup,
    scripts: Rules,
}

#[derive(Debug, Clone)]
enum Place {
    Demo(String),
    /// A file that was named on the command line.
    Typed(Source),
    /// One that was chosen or dropped: the scripts it names must lie in the folder.
    Inside(Source),
}

impl CourseSeat {
    /// A course as typed on the command line, or a demo course.
    pub fn typed(text: &str, setup: Setup, scripts: &Rules) -> anyhow::Result<Self> {
        let name = load::course(text, &setup)?.name;
        let place = match text.strip_prefix(DEMO) {
            Some(name) => Place::Demo(name.to_owned()),
            None => Place::Typed(Source::read(Path::new(text))?),
        };
        Ok(Self {
            name,
            from: text.to_owned(),
            place,
            setup,
            scripts: scripts.clone(),
        })
    }

    /// A course file that was chosen from the folder or dropped on the page.
    pub fn file(name: &str, bytes: Vec<u8>, scripts: &Rules) -> anyhow::Result<Self> {
        let source = load::of_kind(Source::of_bytes(name, bytes)?, Kind::Course)?;
        Ok(Self {
            name: Course::read(&source)?.name,
            from: name.to_owned(),
            place: Place::Inside(source),
            setup: Setup::default(),
            scripts: scripts.clone(),
        })
    }

    /// The course on a day, and the rules in force on it.
    pub fn on(&self, day: &Day, folder: &Folder) -> anyhow::Result<(Course, Rulebook)> {
        let setup = Setup {
            day: day.into(),
            ..self.setup.clone()
        };
        let course = match &self.place {
            Place::Demo(name) => course::embedded::course_as(name, &setup)?,
            Place::Typed(source) | Place::Inside(source) => Course::read_as(source, &setup)?,
        };
        if matches!(self.place, Place::Inside(_)) {
            scripts_inside(&course, folder)?;
        }
        let rules = rules::of(&course, &self.scripts)?;
        Ok((course, rules))
    }
}

/// That every script a course names lies in the folder.
fn scripts_inside(course: &Course, folder: &Folder) -> Result<(), Faults> {
    let of_holes = course.holes.iter().flat_map(|hole| &hole.rules);
    for rule in course.rules.iter().chain(of_holes) {
        let beside = Path::new(&*rule.source.name).parent();
        let path = beside.unwrap_or(Path::new("")).join(&rule.name);
        if !rule.name.starts_with(DEMO) && !folder.holds(&path) {
            return Err(whole(
                &rule.source.name,
                &format!(
                    "it names the script `{}`, which is not in the folder the desk was started in",
                    rule.name
                ),
                "put the script beside the course, or name the course on the command line",
            ));
        }
    }
    Ok(())
}
