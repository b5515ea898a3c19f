//! `rank`: the cost card.

use costcard::cost::card::{CardDocument, Effort, card};
use costcard::show::card::{Names, card as show};

use super::args::{Common, RankArgs};
use super::{load, output};

pub fn run(args: &RankArgs, common: &Common) -> anyhow::Result<()> {
    let asked = args.asked.as_deref().map(load::part).transpose()?;
    let (player, course) = load::both(&args.player, &args.course)?;
    let goal = load::goal(args.goal, player.sex)?;
    let effort = Effort { rounds: args.effort.rounds, seed: args.effort.seed };
    let bar = output::progress(2 * effort.rounds);
    let result = card(&player, &goal, &course, effort, &|rounds| bar.inc(rounds));
    bar.finish_and_clear();
    if common.json {
        return output::print_json(&CardDocument::from(&result));
    }
    let names = Names {
        player: &player.name,
        handicap: player.handicap,
        goal: args.goal,
        course: &course.name,
    };
    output::print(&show(names, &result, asked))
}
