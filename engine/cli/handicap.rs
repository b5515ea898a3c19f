//! `handicap`: the index of a sheet of scores.

use std::path::Path;

use costcard::cost::handicap::document::{HandicapDocument, OnCourse};
use costcard::cost::handicap::record::Record;
use costcard::cost::handicap::sheet::{self, Sheet};
use costcard::cost::handicap::{Rated, Tenths, allowance, embedded};
use costcard::files::{Faults, Source};
use costcard::show::handicap::handicap as show;

use super::args::{Common, HandicapArgs};
use super::kind::{Kind, whole_file};
use super::usage::Usage;
use super::{load, output};

pub fn run(args: &HandicapArgs, common: &Common) -> anyhow::Result<()> {
    let sheet = read(&args.scores)?;
    let record = Record::of(&sheet.scores);
    notes(&sheet, &record);
    let on_course = on_course(args, &record)?;
    if common.json {
        return output::print_json(&HandicapDocument::new(&record, on_course));
    }
    output::print(&show(&record, on_course, output::page(common)))
}

fn read(scores: &str) -> Result<Sheet, Faults> {
    let source = match scores.strip_prefix(load::DEMO) {
        Some(name) => embedded::scores(name)?,
        None => of_file(scores)?,
    };
    sheet::read(&source)
}

/// Reads a file that should be a sheet of scores. A file of another kind would be a heap of faults; it is told as one.
fn of_file(scores: &str) -> Result<Source, Faults> {
    let path = Path::new(scores);
    let source = Source::read(path).map_err(|faults| meant_demo(scores).unwrap_or(faults))?;
    let is_sheet = scores.to_lowercase().ends_with(".csv");
    match Kind::of(&source) {
        Some(Kind::Player | Kind::Course) if !is_sheet => Err(whole_file(
            &source,
            "this is no sheet of scores".to_owned(),
            "scores stand in a CSV file, one a line: see `costcard handicap --help`".to_owned(),
        )),
        _ => Ok(source),
    }
}

fn meant_demo(scores: &str) -> Option<Faults> {
    let is_demo = embedded::score_names().contains(&scores) && !Path::new(scores).exists();
    let hint = format!("did you mean `{}{scores}`?", load::DEMO);
    let message = "there is no such file".to_owned();
    is_demo.then(|| whole_file(&Source::new(scores, ""), message, hint))
}

/// What the reader should know beside the figures.
fn notes(sheet: &Sheet, record: &Record) {
    match sheet.unadjusted {
        0 => {}
        1 => output::note(
            "one gross score is taken as it stands, as if no hole were above net double bogey",
        ),
        many => output::note(&format!(
            "{many} gross scores are taken as they stand, as if no hole were above net double bogey"
        )),
    }
    if let Some(date) = record.waiting_nine {
        output::note(&match record.index {
            None => format!(
                "the nine holes of {date} wait for nine more: there is no index yet to expect them from"
            ),
            // Later nines are made up by what is expected of the other nine, and pair with none.
            Some(_) => format!(
                "the nine holes of {date} are left out: no other nine came before there was an index to expect them from"
            ),
        });
    }
}

fn on_course(args: &HandicapArgs, record: &Record) -> Result<Option<OnCourse>, Usage> {
    let (Some(rating), Some(slope_rating), Some(par)) =
        (args.course_rating, args.slope_rating, args.par)
    else {
        return Ok(None);
    };
    check_holes(rating, par, args.holes)?;
    let rated = Rated {
        course_rating: Tenths::rounded(rating),
        slope_rating,
    };
    let of = match args.holes {
        9 => allowance::of_nine,
        _ => allowance::of_eighteen,
    };
    Ok(record.index.map(|index| {
        let course_handicap = of(index, rated, i32::from(par));
        OnCourse {
            course_handicap: course_handicap.to_whole(),
            playing_handicap: allowance::playing(course_handicap, args.allowance),
            allowance_pct: args.allowance,
        }
    }))
}

/// A rating and a par that are not of so many holes would make a handicap that is none.
fn check_holes(rating: f64, par: u8, holes: u8) -> Result<(), Usage> {
    let (ratings, pars) = match holes {
        9 => (22.0..=45.0, 25..=40),
        _ => (45.0..=90.0, 50..=80),
    };
    if ratings.contains(&rating) && pars.contains(&par) {
        return Ok(());
    }
    Err(Usage {
        message: format!(
            "a course rating of {rating} and a par of {par} are not those of {holes} holes"
        ),
        hint: match holes {
            9 => "leave `--holes 9` out, or write the rating and the par of the nine".to_owned(),
            _ => "for nine holes say `--holes 9`; or write the rating and the par of all eighteen"
                .to_owned(),
        },
    })
}
