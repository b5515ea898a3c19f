//! `clubs`: every club of a player.

use costcard::round::clubs::{ClubsError, clubs_by_rules};
use costcard::show::clubs::clubs as show;

use super::args::{ClubsArgs, Common};
use super::{load, notes, output, rules};

pub fn run(args: &ClubsArgs, common: &Common) -> anyhow::Result<()> {
    let golfer = load::golfer(&args.player, &args.bay)?;
    let goal = match &args.goal {
        Some(goal) => load::goal(goal, golfer.sex)?,
        None => load::goal(&golfer.handicap.to_string(), golfer.sex)?,
    };
    notes::of_file(&golfer);
    let rules = rules::named(&args.rules)?;
    let clubs = clubs_by_rules(&golfer, &goal, &rules).map_err(told)?;
    if common.json {
        return output::print_json(&clubs);
    }
    output::print(&show(&clubs, output::page(common)))
}

/// A failed rule is the user's to mend, and is told as such.
fn told(error: ClubsError) -> anyhow::Error {
    match error {
        ClubsError::Rule(faults) => faults.into(),
        ClubsError::Pattern(fault) => fault.into(),
    }
}
