//! `play`: rounds on a course.

use costcard::cost::rated::{PlayError, play, rounds};
use costcard::show::figures::figures;

use super::args::{Common, PlayArgs};
use super::{load, notes, output};

pub fn run(args: &PlayArgs, common: &Common) -> anyhow::Result<()> {
    let (golfer, course, rules) = load::all(&args.player, &args.bay, &args.course, &args.rules)?;
    notes::of_file(&golfer);
    notes::assumed(&golfer);
    let effort = args.effort.into();
    let bar = output::progress(rounds(&golfer, &course, effort));
    let played = play(&golfer, (&course, &rules), effort, &|rounds| {
        output::advance(&bar, rounds);
    });
    bar.finish_and_clear();
    let played = played.map_err(told)?;
    if common.json {
        return output::print_json(&played);
    }
    output::print(&figures(
        &golfer.name,
        &course.name,
        &played,
        output::page(common),
    ))
}

/// A failed rule is the user's to mend, and is told as such.
fn told(error: PlayError) -> anyhow::Error {
    match error {
        PlayError::Rule(faults) => faults.into(),
        PlayError::Level(error) => error.into(),
    }
}
