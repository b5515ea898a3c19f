//! `clubs`: every club of a player.

use costcard::round::clubs::clubs_by_rules;
use costcard::show::clubs::clubs as show;

use super::args::{ClubsArgs, Common};
use super::{faults, load, notes, output, rules};

pub fn run(args: &ClubsArgs, common: &Common) -> anyhow::Result<()> {
    let golfer = load::golfer(&args.player, &args.bay)?;
    let goal = match &args.goal {
        Some(goal) => load::goal(goal, golfer.sex)?,
        None => load::goal(&golfer.handicap.to_string(), golfer.sex)?,
    };
    notes::of_file(&golfer);
    let rules = rules::named(&args.rules)?;
    let clubs = clubs_by_rules(&golfer, &goal, &rules).map_err(faults::of_clubs)?;
    if common.json {
        return output::print_json(&clubs);
    }
    output::print(&show(&clubs, output::page(common)))
}
