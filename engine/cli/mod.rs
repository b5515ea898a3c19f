//! The command line: one file per command; each reads, calls one library function, and shows.

mod args;
mod bay;
mod cards;
mod changes;
mod check;
mod check_document;
mod clubs;
mod compare;
mod completions;
mod desk;
mod draw;
mod faults;
mod fit;
mod flight;
mod goal;
mod handicap;
mod import;
mod inputs;
mod kind;
mod load;
mod manual;
mod notes;
mod output;
mod play;
mod rank;
mod report;
mod rules;
mod samples;
mod sides;
mod study;
mod try_script;
mod usage;
mod written;

use std::process::ExitCode;

use clap::Parser;

use args::{Command, Line};
use costcard::files::Faults;
use usage::Usage;

/// The user's input is at fault.
const INPUT_AT_FAULT: u8 = 2;

/// Reads the command line and runs the command.
///
/// Exit codes: 0 done, 2 the user's input is at fault, 1 anything else.
pub fn run() -> ExitCode {
    let line = Line::parse();
    dispatch(&line).unwrap_or_else(|error| fail(&error))
}

fn dispatch(line: &Line) -> anyhow::Result<ExitCode> {
    if let Some(threads) = line.common.threads {
        rayon::ThreadPoolBuilder::new()
            .num_threads(usize::from(threads))
            .build_global()?;
    }
    match &line.command {
        Command::Rank(args) => rank::run(args, &line.common)?,
        Command::Goal(args) => goal::run(args, &line.common)?,
        Command::Try(args) => changes::run(args, &line.common)?,
        Command::Play(args) => play::run(args, &line.common)?,
        Command::Flight(args) => flight::run(args, &line.common)?,
        Command::Clubs(args) => clubs::run(args, &line.common)?,
        Command::Fit(args) => fit::run(args, &line.common)?,
        Command::Compare(args) => compare::run(args, &line.common)?,
        Command::Handicap(args) => handicap::run(args, &line.common)?,
        Command::Draw(args) => draw::run(args, &line.common)?,
        Command::Report(args) => report::run(args, &line.common)?,
        Command::Desk(args) => desk::run(args, &line.common)?,
        Command::Completions(args) => completions::run(args, &line.common)?,
        Command::Manual(args) => manual::run(args, &line.common)?,
        Command::Check(args) => return check::run(args, &line.common),
        Command::Import(args) => return import::run(args, &line.common),
        Command::Study(args) => return study::run_study(args, &line.common),
    }
    Ok(ExitCode::SUCCESS)
}

fn fail(error: &anyhow::Error) -> ExitCode {
    if output::is_closed_pipe(error) {
        return ExitCode::SUCCESS;
    }
    if let Some(faults) = error.downcast_ref::<Faults>() {
        output::print_faults(faults);
        return ExitCode::from(INPUT_AT_FAULT);
    }
    if let Some(usage) = error.downcast_ref::<Usage>() {
        output::print_usage(usage);
        return ExitCode::from(INPUT_AT_FAULT);
    }
    output::print_error(error);
    ExitCode::FAILURE
}
