//! The command line: one file per command; each reads, calls one library function, and shows.

pub mod args;
mod check;
mod flight;
mod load;
mod output;
mod play;
mod rank;

use std::process::ExitCode;

use clap::Parser;

use args::{Command, Line};
use costcard::files::Faults;

/// Reads the command line and runs the command.
///
/// Exit codes: 0 done, 2 the user's input is at fault, 1 anything else.
pub fn run() -> ExitCode {
    let line = Line::parse();
    match dispatch(&line) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => fail(&error),
    }
}

fn dispatch(line: &Line) -> anyhow::Result<()> {
    if let Some(threads) = line.common.threads {
        rayon::ThreadPoolBuilder::new().num_threads(threads.get()).build_global()?;
    }
    match &line.command {
        Command::Rank(args) => rank::run(args, &line.common),
        Command::Play(args) => play::run(args, &line.common),
        Command::Flight(args) => flight::run(args, &line.common),
        Command::Check(args) => check::run(args, &line.common),
    }
}

fn fail(error: &anyhow::Error) -> ExitCode {
    if output::is_closed_pipe(error) {
        return ExitCode::SUCCESS;
    }
    if let Some(faults) = error.downcast_ref::<Faults>() {
        output::print_faults(faults);
        return ExitCode::from(2);
    }
    output::print_error(error);
    ExitCode::FAILURE
}
