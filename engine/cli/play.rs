//! `play`: rounds on a course.

use costcard::cost::rated::{play, rounds};
use costcard::show::figures::figures;

use super::args::{Common, PlayArgs};
use super::{load, notes, output};

pub fn run(args: &PlayArgs, common: &Common) -> anyhow::Result<()> {
    let (golfer, course) = load::both(&args.player, &args.bay, &args.course)?;
    notes::of_file(&golfer);
    notes::assumed(&golfer);
    let effort = args.effort.into();
    let bar = output::progress(rounds(&golfer, &course, effort));
    let played = play(&golfer, &course, effort, &|rounds| {
        output::advance(&bar, rounds);
    })?;
    bar.finish_and_clear();
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
