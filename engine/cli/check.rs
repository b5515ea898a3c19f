//! `check`: reads files of any kind and names every fault.

use std::path::Path;
use std::process::ExitCode;

use costcard::cost::handicap::record::Record;
use costcard::cost::handicap::{embedded as scores, sheet};
use costcard::course::{self, Course, PinSheet, Setup};
use costcard::files::{Fault, Faults, Source, listed, nearest};
use costcard::player::batch::{Batch, ColumnMap, Input, Overrule};
use costcard::player::{self, Golfer, Origin, levels};
use costcard::rules::{Rulebook, script};
use costcard::show::course::course as show;
use costcard::show::handicap::signed;
use costcard::show::page::{Page, tied};
use costcard::show::reading::holes;
use costcard::study::{Plan, Study};
use costcard::units::Length;

use super::args::{CheckArgs, Common};
use super::check_document::CheckDocument;
use super::kind::{self, Kind, whole_file};
use super::try_script::{LandingDocument, Tryout, tryout};
use super::{INPUT_AT_FAULT, cards, load, notes, output, rules, samples};

/// What one file turned out to be: what is in it, or its faults.
pub struct Checked<'a> {
    pub file: &'a str,
    pub kind: Option<&'static str>,
    pub result: Result<Sound, Faults>,
}

impl Checked<'_> {
    /// The course in it and its rules.
    pub fn course(&self) -> Option<&(Course, Rulebook)> {
        self.result.as_ref().ok()?.course.as_ref()
    }

    pub fn landings(&self) -> Option<Vec<LandingDocument>> {
        self.result.as_ref().ok()?.tryout.as_ref()?.landings()
    }
}

/// What is in a sound file.
pub struct Sound {
    /// A line that says it.
    line: String,
    /// The course, to be rated by its rules.
    course: Option<(Course, Rulebook)>,
    /// What a script does.
    tryout: Option<Tryout>,
}

impl From<String> for Sound {
    fn from(line: String) -> Self {
        Self {
            line,
            course: None,
            tryout: None,
        }
    }
}

pub fn run(args: &CheckArgs, common: &Common) -> anyhow::Result<ExitCode> {
    if let Some(kind) = args.template {
        return samples::template(kind, common);
    }
    if let Some(kind) = args.schema {
        return samples::schema(kind);
    }
    let page = output::page(common);
    let on_the_day = load::setup(&args.setup)?;
    let checked: Vec<Checked<'_>> = (args.files.iter())
        .map(|file| check(file, &on_the_day, page))
        .collect();
    let sound = checked.iter().all(|one| one.result.is_ok());
    // Reading is quick and rating is not, so that people see what was read first; faults are to be mended before.
    if !common.json {
        tell(&checked, page)?;
    }
    let cards = if sound {
        let courses = checked.iter().map(Checked::course);
        cards::of_all(courses, args.sex.into(), args.no_rating)?
    } else {
        checked.iter().map(|_| None).collect()
    };
    if common.json {
        output::print_json(&CheckDocument::new(&checked, &cards))?;
    } else if !args.no_rating {
        for (one, card) in checked.iter().zip(&cards) {
            if let Some(((course, _), card)) = one.course().zip(card.as_ref()) {
                output::print("\n")?;
                output::print(&show(course, &card.ratings, &card.design, page))?;
            }
        }
    }
    Ok(if sound {
        ExitCode::SUCCESS
    } else {
        ExitCode::from(INPUT_AT_FAULT)
    })
}

/// A line for each sound file, then every fault once: two players may share a sheet.
fn tell(checked: &[Checked<'_>], page: Page) -> anyhow::Result<()> {
    let mut faults: Vec<&Fault> = Vec::new();
    let mut more = 0;
    for one in checked {
        match &one.result {
            Ok(sound) => {
                output::print(&page.item(&format!("{}: {}", one.file, sound.line)))?;
                if let Some(tryout) = &sound.tryout {
                    output::print(&tryout.tables(page))?;
                }
            }
            Err(found) => {
                more += found.more();
                for fault in found.list() {
                    if !faults.iter().any(|known| same(known, fault)) {
                        faults.push(fault);
                    }
                }
            }
        }
    }
    output::print_fault_list(&faults, more);
    Ok(())
}

/// Whether two faults are one, though their file was named in two ways.
fn same(a: &Fault, b: &Fault) -> bool {
    let place = |fault: &Fault| Path::new(&*fault.source.name).canonicalize().ok();
    a.span == b.span
        && a.message == b.message
        && (a.source.name == b.source.name || place(a) == place(b) && place(a).is_some())
}

fn check<'a>(file: &'a str, setup: &Setup, page: Page) -> Checked<'a> {
    let (kind, result) = match file.strip_prefix(load::DEMO) {
        Some(name) => check_demo(file, name, setup, page),
        None => match Source::read(Path::new(file)) {
            Ok(source) => check_source(&source, setup, page),
            Err(faults) => (None, Err(faults)),
        },
    };
    Checked { file, kind, result }
}

type Outcome = (Option<&'static str>, Result<Sound, Faults>);

fn check_demo(file: &str, name: &str, setup: &Setup, page: Page) -> Outcome {
    let (players, courses) = (
        player::embedded::player_names(),
        course::embedded::course_names(),
    );
    if courses.contains(&name) {
        let course = course::embedded::course_as(name, setup);
        return (
            Some(Kind::Course.name()),
            course.and_then(|course| of_course(course, page)),
        );
    }
    let stem = name.strip_suffix(".rhai").unwrap_or(name);
    if script::script_names().contains(&stem) {
        let source = script::script(stem);
        return (
            Some(Kind::Script.name()),
            source.and_then(|source| of_script(&source)),
        );
    }
    if players.contains(&name) {
        let player = player::embedded::player(name);
        return (
            Some(Kind::Player.name()),
            player.map(|player| of_player(&player).into()),
        );
    }
    if scores::score_names().contains(&name) {
        let sheet = scores::scores(name).and_then(|source| sheet::read(&source));
        let line = sheet.map(|sheet| of_scores(&Record::of(&sheet.scores)).into());
        return (Some(Kind::Scores.name()), line);
    }
    let names = players.into_iter().chain(courses);
    let names: Vec<&str> = names.chain(scores::score_names()).collect();
    let meant = names.iter().copied().chain(script::script_names());
    let hint = match nearest(name, meant) {
        Some(meant) => format!("did you mean `demo:{meant}`?"),
        None => format!("the demos that are checked are {}", listed(&names, "and")),
    };
    let message = "there is no such demo".to_owned();
    (None, Err(whole_file(&Source::new(file, ""), message, hint)))
}

/// A player file in which everything is stated.
const LEVEL: &str = "level";

fn check_source(source: &Source, setup: &Setup, page: Page) -> Outcome {
    let Some(kind) = Kind::of(source) else {
        return (None, Err(kind::unknown(source)));
    };
    let result = match kind {
        Kind::Course => Course::read_as(source, setup).and_then(|course| of_course(course, page)),
        Kind::Script => of_script(source),
        Kind::Study => of_study(source).map(Sound::from),
        Kind::Strikes => strikes(source).map(Sound::from),
        Kind::ColumnMap => ColumnMap::read(source).map(|map| of_map(&map).into()),
        Kind::Pins => {
            PinSheet::read(source).map(|pins| format!("pins of {}", holes(pins.count())).into())
        }
        Kind::Scores => {
            sheet::read(source).map(|sheet| of_scores(&Record::of(&sheet.scores)).into())
        }
        Kind::Player => match levels::read(source) {
            Ok(level) => return (Some(LEVEL), Ok(of_level(&level).into())),
            Err(_) => player(source).map(|player| of_player(&player).into()),
        },
    };
    (Some(kind.name()), result)
}

fn player(source: &Source) -> Result<Golfer, Faults> {
    let folder = Path::new(&*source.name).parent().unwrap_or(Path::new(""));
    Golfer::read(source, &|sheet| Source::read(&folder.join(sheet)))
}

/// The columns a map names.
fn of_map(map: &ColumnMap) -> String {
    match map.named() {
        names if names.is_empty() => "column map that names no column".to_owned(),
        names => format!("column map of {}", tied_list(&names)),
    }
}

/// The shots of each club, and what is left out.
fn strikes(sheet: &Source) -> Result<String, Faults> {
    let input = vec![Input::Text(sheet.clone())];
    let batch = Batch::read(input, &ColumnMap::default(), &Overrule::default())?;
    let counts = batch.counts.iter();
    let counts: Vec<String> = counts
        .map(|(club, count)| format!("{club} {}", count.sound()))
        .collect();
    let misreads: String = batch
        .misreads()
        .map(|(shot, misread)| format!("; row {} ({}) left out: {misread}", shot.row, shot.club))
        .collect();
    Ok(format!("strikes: {}{misreads}", tied_list(&counts)))
}

fn of_player(golfer: &Golfer) -> String {
    let mut line = format!("player {}, off {}", golfer.name, golfer.handicap);
    let stated = notes::from(golfer, |origin| origin == Origin::Stated);
    let assumed = notes::from(golfer, |origin| origin == Origin::Assumed);
    for (what, names) in [
        ("strikes", counts(golfer)),
        ("stated", stated),
        ("assumed", assumed),
    ] {
        if !names.is_empty() {
            line += &format!("; {what}: {}", tied_list(&names));
        }
    }
    line += &remarks(golfer);
    line
}

/// Names with commas between them, none broken at the end of a line.
fn tied_list(names: &[String]) -> String {
    let names: Vec<String> = names.iter().map(|name| tied(name)).collect();
    names.join(", ")
}

fn remarks(golfer: &Golfer) -> String {
    golfer
        .notes
        .iter()
        .map(|note| format!("; {note}"))
        .collect()
}

/// Each club that was measured, with the strikes behind it.
fn counts(golfer: &Golfer) -> Vec<String> {
    let club = |entry: &player::BagClub| match entry.origin {
        Origin::Measured { strikes } => Some(format!("{} {strikes}", entry.club)),
        _ => None,
    };
    golfer.clubs.iter().filter_map(club).collect()
}

fn of_level(golfer: &Golfer) -> String {
    format!("level {}, {} clubs", golfer.name, golfer.clubs.len())
}

/// A course and its scripts.
fn of_course(course: Course, page: Page) -> Result<Sound, Faults> {
    let rules = rules::of_course(&course)?;
    let length = page.reading.length(Length::from_yd(course.length_yd()));
    let mut line = format!(
        "course {}, {}, par {}, {length:.0} {}",
        course.name,
        holes(course.holes.len()),
        course.par(),
        page.reading.length_unit()
    );
    if !rules.files().is_empty() {
        line += &format!("; rules: {}", rules.files().join(", "));
    }
    Ok(Sound {
        line,
        course: Some((course, rules)),
        tryout: None,
    })
}

fn of_script(source: &Source) -> Result<Sound, Faults> {
    let tryout = tryout(source)?;
    Ok(Sound {
        line: tryout.line(),
        course: None,
        tryout: Some(tryout),
    })
}

/// A study and the files it names.
fn of_study(source: &Source) -> Result<String, Faults> {
    let plan = Plan::new(Study::read(source)?, "")?;
    plan.read_inputs(&rules::to_stderr())?;
    let [players, courses] = plan.inputs();
    Ok(format!(
        "study, {} cells; players: {players}, courses: {courses}",
        plan.cells()
    ))
}

fn of_scores(record: &Record) -> String {
    let index = record.index.map(signed).unwrap_or_default();
    format!(
        "scores, {} differentials, handicap index {index}",
        record.entries.len()
    )
}
