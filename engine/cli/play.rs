//! `play`: rounds on a course.

use costcard::cost::card::{Effort, play};
use costcard::show::figures::figures;

use super::args::{Common, PlayArgs};
use super::{load, output};

pub fn run(args: &PlayArgs, common: &Common) -> anyhow::Result<()> {
    let (golfer, course) = load::both(&args.player, &args.course)?;
    let effort = Effort { rounds: args.effort.rounds, seed: args.effort.seed };
    let bar = output::progress(effort.rounds);
    let played = play(&golfer, &course, effort, &|rounds| bar.inc(rounds));
    bar.finish_and_clear();
    if common.json {
        return output::print_json(&played);
    }
    output::print(&figures(&golfer.name, &course.name, &played, common.units.into()))
}
