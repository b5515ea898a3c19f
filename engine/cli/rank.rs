//! `rank`: the cost card.

use costcard::cost::card::{CardDocument, card_by_rules};
use costcard::show::card::{Names, card as show};

use super::args::{Common, RankArgs};
use super::{load, notes, output};

pub fn run(args: &RankArgs, common: &Common) -> anyhow::Result<()> {
    let asked = args.asked.as_deref().map(load::part).transpose()?;
    let (player, course, rules) = load::all(&args.player, &args.bay, &args.course, &args.rules)?;
    let goal = load::goal(&args.goal, player.sex)?;
    notes::of_file(&player);
    let bar = output::progress(2 * args.effort.rounds);
    let effort = args.effort.into();
    let result = card_by_rules(&player, &goal, (&course, &rules), effort, &|rounds| {
        output::advance(&bar, rounds);
    });
    bar.finish_and_clear();
    let result = result?;
    if common.json {
        // The card that people read says it itself.
        notes::assumed(&player);
        return output::print_json(&CardDocument::new(&result, &rules));
    }
    let names = Names {
        player: &player.name,
        handicap: player.handicap,
        goal: goal.handicap,
        course: &course.name,
    };
    let page = output::page(common);
    output::print(&show(names, &result, rules.files(), asked, page))
}
