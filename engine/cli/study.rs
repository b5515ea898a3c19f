//! `study`: many players on many courses by many rules.

use std::process::ExitCode;
use std::time::Instant;

use anyhow::Context as _;
use indicatif::ProgressBar;
use serde::Serialize;

use costcard::files::Source;
use costcard::show::study::pages;
use costcard::study::{
    Failed, Order, Outcome, PartError, Plan, Progress, Study, StudyError, StudyPart, build_of,
    merge, run,
};

use super::args::{Common, StudyArgs};
use super::load::DEMO;
use super::usage::Usage;
use super::{INPUT_AT_FAULT, output, rules};

/// What came of it, for other programs.
#[derive(Debug, Serialize)]
struct Document<'a> {
    cells: u64,
    done: u64,
    failed: &'a [Failed],
    seconds: f64,
}

pub fn run_study(args: &StudyArgs, common: &Common) -> anyhow::Result<ExitCode> {
    let start = Instant::now();
    let found = match &args.study {
        Some(file) => worked_out(args, &file.display().to_string())?,
        None => merge(&args.merge, &args.out, &pages).map_err(told)?,
    };
    let summary = &found.summary;
    let failed = summary.without_figures;
    if common.json {
        output::print_json(&Document {
            cells: summary.cells,
            done: summary.cells - failed,
            failed: &summary.failed,
            seconds: start.elapsed().as_secs_f64(),
        })?;
    } else {
        output::print(&output::page(common).paragraph(&in_words(args, &found)))?;
    }
    if failed == 0 {
        return Ok(ExitCode::SUCCESS);
    }
    for (first, more) in by_error(&summary.failed) {
        let Failed {
            cell,
            player,
            course,
            error,
        } = first;
        let others = match more {
            0 => String::new(),
            1 => ", and 1 more cell".to_owned(),
            more => format!(", and {more} more cells"),
        };
        output::complaint(&format!(
            "cell {cell}, {player} at {course}{others}: {error}"
        ));
    }
    match failed - summary.failed.len() as u64 {
        0 => {}
        1 => output::complaint("1 more cell is without figures: cells.csv says why"),
        more => output::complaint(&format!(
            "{more} more cells are without figures: cells.csv says why"
        )),
    }
    Ok(ExitCode::from(INPUT_AT_FAULT))
}

/// The first cell of each error, in their order, and how many more have the same.
fn by_error(failed: &[Failed]) -> Vec<(&Failed, usize)> {
    let mut found: Vec<(&Failed, usize)> = Vec::new();
    for cell in failed {
        match found
            .iter_mut()
            .find(|(first, _)| first.error == cell.error)
        {
            Some((_, more)) => *more += 1,
            None => found.push((cell, 0)),
        }
    }
    found
}

fn worked_out(args: &StudyArgs, file: &str) -> anyhow::Result<Outcome> {
    let source = match file.strip_prefix(DEMO) {
        Some("squad") => Source::new(file, include_str!("../../profiles/studies/squad.toml")),
        Some(_) => return Err(no_demo(file).into()),
        None => Source::read(std::path::Path::new(file))?,
    };
    let part = part(args)?;
    let program = std::env::current_exe().context("the program does not know where it stands")?;
    let build = build_of(&program).map_err(told)?;
    let plan = Plan::new(Study::read(&source)?, &build)?;
    let bar = output::cells();
    let order = Order {
        part,
        print: rules::to_stderr(),
        progress: &|progress| advance(&bar, progress),
        pages: &pages,
    };
    let found = run(&plan, &args.out, &order);
    bar.finish_and_clear();
    found.map_err(told)
}

fn no_demo(file: &str) -> Usage {
    Usage {
        message: format!("there is no demo study `{file}`"),
        hint: "the demo study is `demo:squad`".to_owned(),
    }
}

/// The part that is asked for, or that a job array gives.
fn part(args: &StudyArgs) -> anyhow::Result<StudyPart> {
    if let Some(text) = &args.part {
        return text.parse().map_err(of_part);
    }
    let found = StudyPart::of_job(|name| std::env::var(name).ok()).map_err(of_part)?;
    Ok(match found {
        Some((part, from)) => {
            output::note(&format!("part {part} of the study, from {from}"));
            part
        }
        None => StudyPart::WHOLE,
    })
}

fn of_part(error: PartError) -> anyhow::Error {
    Usage {
        message: error.message,
        hint: error.hint,
    }
    .into()
}

fn advance(bar: &ProgressBar, progress: Progress) {
    match progress {
        Progress::Begun {
            cells,
            kept,
            damaged,
        } => {
            bar.set_length(cells);
            bar.set_position(kept);
            bar.reset_eta();
            if damaged > 0 {
                let lines = match damaged {
                    1 => "1 line of the journal was".to_owned(),
                    more => format!("{more} lines of the journal were"),
                };
                output::note(&format!(
                    "{lines} damaged: what stood there is worked out again"
                ));
            }
            if kept > 0 {
                output::note(&format!(
                    "{kept} of {cells} cells are there already, from before"
                ));
            }
        }
        Progress::Done(cells) => bar.inc(cells),
    }
}

/// A folder that cannot be used is the user's to mend, a disk that cannot is not in his input.
fn told(error: StudyError) -> anyhow::Error {
    match error {
        StudyError::File(faults) => faults.into(),
        StudyError::Folder { message, hint } => Usage { message, hint }.into(),
        disk => disk.into(),
    }
}

fn in_words(args: &StudyArgs, found: &Outcome) -> String {
    let summary = &found.summary;
    let folder = args.out.display();
    let count = |cells: u64| match cells {
        1 => "1 cell".to_owned(),
        cells => format!("{cells} cells"),
    };
    let mut words = format!("{} in {folder}.", count(summary.cells));
    match summary.without_figures {
        0 => {}
        failed => words += &format!(" {} without figures.", count(failed)),
    }
    let often = summary.most_often_first();
    if let [(_, cells, _), ..] = often[..] {
        let saving = |(part, cells, sum): &(costcard::round::part::Part, u64, f64)| {
            format!(
                "{} (saving {:.1} strokes a round in the mean there)",
                part.name(),
                sum / *cells as f64
            )
        };
        let parts: Vec<String> = often.iter().map(saving).collect();
        words += &format!(
            " To be worked on first most often, in {cells} of {}: {}.",
            count(summary.named()),
            parts.join(", and as often ")
        );
    }
    if summary.too_few_shots > 0 {
        words += &format!(
            " In {} too few shots were measured to name a part.",
            count(summary.too_few_shots)
        );
    }
    if summary.to_measure > 0 {
        words += &format!(
            " In {} a part that nobody measured is to be measured first.",
            count(summary.to_measure)
        );
    }
    words
        + " Begin with overview.html; cells.csv and parts.csv are for other programs, columns.csv says what stands in them."
}
