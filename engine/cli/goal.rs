//! `goal`: what handicap goals ask of a player.

use costcard::cost::ByRules;
use costcard::cost::card::Effort;
use costcard::cost::goal::{GoalError, Goals, GoalsDocument, goals, rounds};
use costcard::course::Course;
use costcard::player::Golfer;
use costcard::show::goal::goals as show;
use costcard::show::reading::golfers_off;

use super::args::{Common, GoalArgs};
use super::usage::Usage;
use super::{load, notes, output, rules};

pub fn run(args: &GoalArgs, common: &Common) -> anyhow::Result<()> {
    let (player, courses) =
        load::with_courses(&args.player, &args.bay, &args.courses, &args.setup)?;
    let to = load::goals(&args.to, player.sex)?;
    let rules = courses.iter().map(|course| rules::of(course, &args.rules));
    let rules = rules.collect::<Result<Vec<_>, _>>()?;
    notes::of_file(&player);
    let on: Vec<ByRules> = courses.iter().zip(&rules).collect();
    let found = weighed(args, &player, &to, &on)?;
    notes::assumed(&player, found.inference.as_ref());
    tell_of_holes(&player.name, &found);
    if common.json {
        // The page that people read says it itself.
        notes::inferred(&player, found.inference.as_ref());
        return output::print_json(&GoalsDocument::from(&found));
    }
    output::print(&show(&player, &found, output::page(common)))
}

/// Holes that the player or a goal's golfers give up, or whose figures their rounds do not bear out.
fn tell_of_holes(player: &str, found: &Goals) {
    for on in &found.courses {
        let player = format!("{player} at {}", on.course);
        notes::given_up(&player, &on.given_up);
        notes::apart(&player, &on.apart);
    }
    for goal in &found.goals {
        let holes = goal.golfers_given_up.iter().zip(&goal.golfers_apart);
        for (on, (given_up, apart)) in found.courses.iter().zip(holes) {
            let golfers = format!("{} at {}", golfers_off(goal.to), on.course);
            notes::given_up(&golfers, given_up);
            notes::apart(&golfers, apart);
        }
    }
}

fn weighed(
    args: &GoalArgs,
    player: &Golfer,
    to: &[f64],
    courses: &[ByRules<'_>],
) -> anyhow::Result<Goals> {
    let effort = Effort {
        rounds: args.rounds,
        seed: args.seed,
    };
    let assume = args.assume.into();
    let all: Vec<&Course> = courses.iter().map(|(course, _)| *course).collect();
    let bar = output::progress(rounds(player, to, &all, effort, assume));
    let done = |rounds| output::advance(&bar, rounds);
    let found = goals(player, to, courses, effort, assume, &done).map_err(at_fault);
    bar.finish_and_clear();
    found
}

/// A course on which no index is made is a fault of what was typed, a rule that failed one of its script.
fn at_fault(error: GoalError) -> anyhow::Error {
    match error {
        GoalError::NoIndex { .. } => Usage {
            message: error.to_string(),
            hint: "name courses of 18 or 9 holes".to_owned(),
        }
        .into(),
        GoalError::Rule(faults) => faults.into(),
        other => other.into(),
    }
}
