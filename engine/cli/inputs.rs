//! What a result was worked out from, so that two that were saved can be told apart.

use serde::Serialize;

use super::args::PlayedArgs;

/// What was typed, and the program it was typed to.
#[derive(Debug, Serialize)]
struct Inputs<'a> {
    player: &'a str,
    course: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    goal: Option<&'a str>,
    tees: Option<&'a str>,
    pins: Option<&'a str>,
    scripts: &'a [String],
    rounds: u64,
    seed: u64,
    version: &'static str,
}

/// A result and what it was worked out from.
#[derive(Debug, Serialize)]
pub struct Traced<'a, T> {
    inputs: Inputs<'a>,
    #[serde(flatten)]
    result: &'a T,
}

/// A result of a player on a course, perhaps against a goal, all as they were named.
pub fn traced<'a, T: Serialize>(
    (player, course, goal): (&'a str, &'a str, Option<&'a str>),
    played: &'a PlayedArgs,
    result: &'a T,
) -> Traced<'a, T> {
    Traced {
        inputs: Inputs {
            player,
            course,
            goal,
            tees: played.setup.tees.as_deref(),
            pins: played.setup.pins.as_deref(),
            scripts: &played.rules.scripts,
            rounds: played.effort.rounds,
            seed: played.effort.seed,
            version: env!("CARGO_PKG_VERSION"),
        },
        result,
    }
}
