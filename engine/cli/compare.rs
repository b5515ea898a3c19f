//! `compare`: before and after, real or noise, and what it is worth.

use serde::Serialize;

use costcard::cost::infer::{self, Inferred};
use costcard::cost::worth::{Worth, worth_by_rules};
use costcard::course::Course;
use costcard::files::listed;
use costcard::player::Golfer;
use costcard::player::batch::{Batch, ColumnMap, Quantity};
use costcard::player::bay::FittedPlayer;
use costcard::player::club::Club;
use costcard::player::compare::{Bags, Change, CompareFault, Comparison, Deals, When};
use costcard::rules::Rulebook;
use costcard::show::compare::{Played, Shown, compare as show};

use super::args::{Common, CompareArgs, Hand};
use super::sides::{backwards, session_names, sides};
use super::usage::Usage;
use super::{bay, faults, load, notes, output, rules};

/// The comparison as other programs read it.
#[derive(Debug, Serialize)]
struct CompareDocument<'a> {
    before: SideDocument<'a>,
    after: SideDocument<'a>,
    clubs: Vec<ClubDocument<'a>>,
    only_before: &'a [Club],
    only_after: &'a [Club],
    #[serde(skip_serializing_if = "Option::is_none")]
    worth: Option<&'a Worth>,
}

#[derive(Debug, Serialize)]
struct SideDocument<'a> {
    sessions: Vec<&'a str>,
    shots: usize,
    misreads: Vec<MisreadDocument<'a>>,
}

#[derive(Debug, Serialize)]
struct MisreadDocument<'a> {
    file: &'a str,
    row: usize,
    reason: String,
}

#[derive(Debug, Serialize)]
struct ClubDocument<'a> {
    club: Club,
    used_before: usize,
    used_after: usize,
    changes: &'a [Change],
}

pub fn run(args: &CompareArgs, common: &Common) -> anyhow::Result<()> {
    let setup = load::setup(&args.worth.setup)?;
    let course = args.worth.course.as_deref();
    let course = course
        .map(|course| load::course(course, &setup))
        .transpose()?;
    let sides = sides(args)?;
    let [before, after] = &sides;
    if let Some(told) = backwards([before, after]) {
        output::note(&told);
    }
    let played = match &course {
        Some(course) => Some((player(args, before)?, course, rules::of_course(course)?)),
        None => None,
    };
    let compared =
        Comparison::of(before, after, Deals::default()).map_err(|fault| cannot_compare(&fault))?;
    let found = match &played {
        Some((player, course, rules)) => {
            Some(worth_on(args, player, &sides, &compared, (course, rules))?)
        }
        None => None,
    };
    let worth = found.as_ref().and_then(|(worth, _)| worth.as_ref());
    if common.json {
        if let Some(((player, ..), (_, inferred))) = played.as_ref().zip(found.as_ref()) {
            // The page that people read says it itself.
            notes::inferred(player, inferred.inference.as_ref());
        }
        return output::print_json(&document(&sides, &compared, worth));
    }
    let shown = Shown {
        sides: [before, after],
        compared: &compared,
        played: played.as_ref().zip(found.as_ref()).map(
            |((player, course, _), (worth, inferred))| Played {
                worth: worth.as_ref(),
                course: &course.name,
                handicap: player.handicap,
                inference: inferred.inference.as_ref(),
            },
        ),
    };
    output::print(&show(&shown, output::page(common)))
}

/// What is told where two sides cannot be compared.
pub fn cannot_compare(fault: &CompareFault) -> Usage {
    let hint = match fault {
        CompareFault::NoCommonClub([before, after]) => format!(
            "before: {}; after: {}",
            clubs(before),
            clubs(after)
        ),
        CompareFault::NoCommonQuantity([before, after]) => format!(
            "before has {}; after has {}",
            columns(before),
            columns(after)
        ),
        CompareFault::SharedShots { .. } => {
            "name the sheet of another session; or, where one sheet holds both, name it alone, and its sessions with \
             `--before` and `--after`"
                .to_owned()
        }
    };
    Usage {
        message: fault.to_string(),
        hint,
    }
}

fn clubs(clubs: &[Club]) -> String {
    let names: Vec<String> = clubs.iter().map(ToString::to_string).collect();
    match names.is_empty() {
        true => "none".to_owned(),
        false => names.join(", "),
    }
}

fn columns(quantities: &[Quantity]) -> String {
    let names: Vec<String> = quantities.iter().map(|quantity| quantity.name()).collect();
    listed(&names.iter().map(String::as_str).collect::<Vec<_>>(), "and")
}

/// Plays the bags on the course, with the short game that `rank` infers of the player; no worth where no club has shots
/// enough.
fn worth_on(
    args: &CompareArgs,
    player: &Golfer,
    sides: &[Batch; 2],
    compared: &Comparison,
    on: (&Course, &Rulebook),
) -> anyhow::Result<(Option<Worth>, Inferred)> {
    let left_handed = args.sheet.hand == Hand::Left;
    let assume = args.worth.assume.into();
    let bar = output::progress(infer::rounds(player, &[on.0], assume) + 1);
    let done = |rounds| output::advance(&bar, rounds);
    let inferred = infer::inferred(player, &[on], assume, &done).map_err(faults::of_play)?;
    let bags = Bags::of(
        &inferred.golfer,
        left_handed,
        [&sides[0], &sides[1]],
        (compared, When::Before),
    )?;
    let worth = bags.map(|bags| worth_by_rules(&bags, on)).transpose()?;
    bar.finish_and_clear();
    Ok((worth, inferred))
}

/// Who plays: a player that is named, or one fitted to the shots before.
fn player(args: &CompareArgs, before: &Batch) -> anyhow::Result<Golfer> {
    if let Some(player) = &args.worth.player {
        let player = load::player_file(player)?;
        notes::of_file(&player);
        return Ok(player);
    }
    let Some(handicap) = &args.worth.handicap else {
        return Err(Usage {
            message: "`--course` needs to know who plays it".to_owned(),
            hint: "add the player's file as `--player sam.toml`, or a handicap index as `--handicap 12.4`".to_owned(),
        }
        .into());
    };
    let who = bay::who("the player", handicap, &args.sheet)?;
    Ok(FittedPlayer::of_batch(who, ColumnMap::default(), before.clone())?.golfer)
}

fn document<'a>(
    sides: &'a [Batch; 2],
    compared: &'a Comparison,
    worth: Option<&'a Worth>,
) -> CompareDocument<'a> {
    CompareDocument {
        before: side(&sides[0]),
        after: side(&sides[1]),
        clubs: compared
            .clubs
            .iter()
            .map(|club| ClubDocument {
                club: club.club,
                used_before: club.shots[0],
                used_after: club.shots[1],
                changes: &club.changes,
            })
            .collect(),
        only_before: &compared.alone[0],
        only_after: &compared.alone[1],
        worth,
    }
}

fn side(batch: &Batch) -> SideDocument<'_> {
    let misreads = batch.misreads().map(|(shot, why)| MisreadDocument {
        file: &batch.files[shot.file],
        row: shot.row,
        reason: why.to_string(),
    });
    SideDocument {
        sessions: session_names(batch),
        shots: batch.shot_count(),
        misreads: misreads.collect(),
    }
}
