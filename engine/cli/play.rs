//! `play`: rounds on a course.

use costcard::cost::rated::{play, rounds};
use costcard::show::figures::figures;

use super::args::{Common, PlayArgs};
use super::inputs::traced;
use super::{faults, load, notes, output};

pub fn run(args: &PlayArgs, common: &Common) -> anyhow::Result<()> {
    let (golfer, course, rules) = load::all(
        &args.player,
        &args.played.bay,
        &args.course,
        &args.played.setup,
        &args.played.rules,
    )?;
    notes::of_file(&golfer);
    let (effort, assume) = (args.played.effort.into(), args.played.assume.into());
    let bar = output::progress(rounds(&golfer, &course, effort, assume));
    let on = (&course, &rules);
    let played = play(&golfer, on, effort, assume, &|rounds| {
        output::advance(&bar, rounds);
    });
    bar.finish_and_clear();
    let played = played.map_err(faults::of_play)?;
    notes::assumed(&golfer, played.inference.as_ref());
    notes::of_holes(&golfer.name, &played.figures);
    if common.json {
        // The figures that people read say it themselves.
        notes::inferred(&golfer, played.inference.as_ref());
        let asked = (args.player.as_str(), args.course.as_str(), None);
        return output::print_json(&traced(asked, &args.played, &played));
    }
    output::print(&figures(
        &golfer,
        &course.name,
        &played,
        output::page(common),
    ))
}
