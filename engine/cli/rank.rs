//! `rank`: the cost card.

use costcard::cost::card::{CardDocument, card_assuming, rounds};
use costcard::show::card::{Names, card as show};

use super::args::{Common, RankArgs};
use super::inputs::{Against, traced};
use super::{faults, load, notes, output};

pub fn run(args: &RankArgs, common: &Common) -> anyhow::Result<()> {
    let asked = args.asked.as_deref().map(load::part).transpose()?;
    let (player, course, rules) = load::all(
        &args.player,
        &args.played.bay,
        &args.course,
        &args.played.setup,
        &args.played.rules,
    )?;
    let goal = load::goal(&args.goal, player.sex)?;
    let goal = match args.keep_speed {
        true => goal.at_speed_of(&player),
        false => goal,
    };
    notes::of_file(&player);
    let (effort, assume) = (args.played.effort.into(), args.played.assume.into());
    let bar = output::progress(rounds(&player, &course, effort, assume));
    let on = (&course, &rules);
    let result = card_assuming(&player, &goal, on, effort, assume, &|rounds| {
        output::advance(&bar, rounds);
    });
    bar.finish_and_clear();
    let result = result.map_err(faults::of_play)?;
    notes::of_holes(&player.name, &result.player);
    notes::of_holes(&goal.name, &result.goal);
    if common.json {
        // The card that people read says it itself.
        notes::assumed(&player, result.inference.as_ref());
        notes::inferred(&player, result.inference.as_ref());
        let asked = (
            args.player.as_str(),
            args.course.as_str(),
            Some(Against {
                goal: &args.goal,
                keep_speed: args.keep_speed,
            }),
        );
        let document = CardDocument::new(&result, &rules);
        return output::print_json(&traced(asked, &args.played, &document));
    }
    let names = Names {
        player: &player.name,
        handicap: player.handicap,
        goal: goal.handicap,
        keep_speed: args.keep_speed,
        course: &course.name,
    };
    let page = output::page(common);
    output::print(&show(names, &result, rules.files(), asked, page))
}
