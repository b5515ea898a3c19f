//! What a result was worked out from, so that two that were saved can be told apart.

use std::path::Path;

use serde::Serialize;

use super::args::{Assume, BayArgs, Hand, PlayedArgs, Sex};

/// What was typed, and the program it was typed to.
#[derive(Debug, Serialize)]
struct Inputs<'a> {
    player: &'a str,
    course: &'a str,
    #[serde(flatten)]
    against: Option<Against<'a>>,
    tees: Option<&'a str>,
    pins: Option<&'a str>,
    scripts: &'a [String],
    rounds: u64,
    seed: u64,
    assume: &'static str,
    #[serde(flatten)]
    sheet: Option<Sheet<'a>>,
    version: &'static str,
}

/// The goal a player is measured against.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct Against<'a> {
    pub goal: &'a str,
    pub keep_speed: bool,
}

/// How a sheet that was given in place of a player was read, and whose shots it holds.
#[derive(Debug, Serialize)]
struct Sheet<'a> {
    handicap: &'a str,
    map: Option<&'a Path>,
    hand: &'static str,
    sex: &'static str,
}

impl<'a> Sheet<'a> {
    fn of(bay: &'a BayArgs) -> Option<Self> {
        let handicap = bay.handicap.as_deref()?;
        Some(Self {
            handicap,
            map: bay.sheet.map.as_deref(),
            hand: match bay.sheet.hand {
                Hand::Right => "right",
                Hand::Left => "left",
            },
            sex: match bay.sheet.sex {
                Sex::Men => "men",
                Sex::Women => "women",
            },
        })
    }
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
    (player, course, against): (&'a str, &'a str, Option<Against<'a>>),
    played: &'a PlayedArgs,
    result: &'a T,
) -> Traced<'a, T> {
    Traced {
        inputs: Inputs {
            player,
            course,
            against,
            tees: played.setup.tees.as_deref(),
            pins: played.setup.pins.as_deref(),
            scripts: &played.rules.scripts,
            rounds: played.effort.rounds,
            seed: played.effort.seed,
            assume: match played.assume.assume {
                Assume::Index => "index",
                Assume::Level => "level",
            },
            sheet: Sheet::of(&played.bay),
            version: env!("CARGO_PKG_VERSION"),
        },
        result,
    }
}
