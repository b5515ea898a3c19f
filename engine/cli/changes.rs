//! `try`: what changes are worth, and decisions on holes.

use costcard::cost::changes::{TryError, ask_holes, rounds, try_changes};
use costcard::cost::decisions::HoleAnswers;
use costcard::course::Course;
use costcard::files::{Fault, Faults, Source};
use costcard::player::Golfer;
use costcard::player::change::Change;
use costcard::rules::Rulebook;
use costcard::show::{changes::changes as show, decisions::holes as show_holes};

use super::args::{Common, TryArgs};
use super::inputs::traced;
use super::usage::Usage;
use super::{faults, load, notes, output};

/// What the texts of changes are called in messages.
const CHANGE: &str = "--change";

pub fn run(args: &TryArgs, common: &Common) -> anyhow::Result<()> {
    let changes = read(&args.changes)?;
    let (player, course, rules) = load::all(
        &args.player,
        &args.played.bay,
        &args.course,
        &args.played.setup,
        &args.played.rules,
    )?;
    known_holes(&args.holes, &course)?;
    notes::of_file(&player);
    if changes.is_empty() {
        return holes_alone(args, common, &player, &course, &rules);
    }
    let (effort, assume) = (args.played.effort.into(), args.played.assume.into());
    let bar = output::progress(rounds(&player, &course, effort, assume));
    let on = (&course, &rules);
    let asked = (effort, assume);
    let tried = try_changes(&player, on, &changes, &args.holes, asked, &|rounds| {
        output::advance(&bar, rounds);
    });
    bar.finish_and_clear();
    let tried = tried.map_err(|error| at_fault(error, &args.changes))?;
    notes::assumed(&player, tried.before.inference.as_ref());
    notes::of_holes(&player.name, &tried.before.figures);
    let changed = format!("{} with the changes", player.name);
    notes::of_holes(&changed, &tried.after.figures);
    if common.json {
        // The page that people read says it itself.
        notes::inferred(&player, tried.before.inference.as_ref());
        let asked = (args.player.as_str(), args.course.as_str(), None);
        return output::print_json(&traced(asked, &args.played, &tried));
    }
    let told = (&tried, args.changes.as_slice());
    output::print(&show(&player, &course.name, told, output::page(common)))
}

/// Answers for holes with nothing changed.
fn holes_alone(
    args: &TryArgs,
    common: &Common,
    player: &Golfer,
    course: &Course,
    rules: &Rulebook,
) -> anyhow::Result<()> {
    #[derive(serde::Serialize)]
    struct Holes {
        holes: Vec<HoleAnswers>,
    }
    let assume = args.played.assume.into();
    let bar = output::progress(rounds(player, course, args.played.effort.into(), assume));
    let holes = ask_holes(player, (course, rules), &args.holes, assume, &|rounds| {
        output::advance(&bar, rounds);
    });
    bar.finish_and_clear();
    let (holes, inference) = holes.map_err(faults::of_play)?;
    notes::assumed(player, inference.as_ref());
    notes::inferred(player, inference.as_ref());
    if common.json {
        let asked = (args.player.as_str(), args.course.as_str(), None);
        return output::print_json(&traced(asked, &args.played, &Holes { holes }));
    }
    let page = output::page(common);
    let title = page.paragraph(&format!("{} at {}.", player.name, course.name));
    output::print(&format!("{title}\n{}", show_holes(&holes, page)))
}

/// Every change; the faults of all are told at once.
pub fn read(texts: &[String]) -> Result<Vec<Change>, Faults> {
    let mut faults = Faults::default();
    let mut changes = Vec::new();
    for text in texts {
        match text.parse::<Change>() {
            Ok(change) => changes.push(change),
            Err(fault) => faults.extend(fault.within(&Source::new(CHANGE, text), 0).into()),
        }
    }
    if faults.list().is_empty() {
        Ok(changes)
    } else {
        Err(faults)
    }
}

/// That the course has the holes asked about.
fn known_holes(asked: &[u32], course: &Course) -> Result<(), Usage> {
    let numbers: Vec<u32> = course.holes.iter().map(|hole| hole.number).collect();
    let Some(unknown) = asked.iter().find(|number| !numbers.contains(number)) else {
        return Ok(());
    };
    let numbers: Vec<String> = numbers.iter().map(u32::to_string).collect();
    Err(Usage {
        message: format!(
            "`--hole` names hole {unknown}, which {} does not have",
            course.name
        ),
        hint: format!("its holes are {}", numbers.join(", ")),
    })
}

/// A change that cannot be made is the user's to mend: the whole of it is pointed at.
pub fn at_fault(error: TryError, texts: &[String]) -> anyhow::Error {
    match error {
        TryError::Play(error) => faults::of_play(error),
        TryError::Change { index, fault } => {
            let text = texts.get(index).map_or("", String::as_str);
            Faults::from(Fault {
                source: Source::new(CHANGE, text),
                span: Some(0..text.len()),
                message: fault.message,
                hint: Some(fault.hint),
            })
            .into()
        }
    }
}
