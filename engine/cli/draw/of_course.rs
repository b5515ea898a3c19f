//! Pictures of courses and holes.

use costcard::cost::card::Effort;
use costcard::cost::infer;
use costcard::cost::on_hole::{OnHole, on_holes};
use costcard::course::Course;
use costcard::player::Golfer;
use costcard::rules::Rulebook;
use costcard::show::draw::{self, Played, Style};
use costcard::show::reading::golfers_off;

use super::super::args::{Common, DrawArgs, What};
use super::super::{faults, load, notes, output, rules};
use super::{Drawn, called, odd};

pub fn drawn(args: &DrawArgs, common: &Common) -> anyhow::Result<Drawn> {
    check(args)?;
    let (player, course, rules) = match &args.player {
        Some(player) => {
            let (player, course, rules) =
                load::all(player, &args.bay, &args.file, &args.setup, &args.rules)?;
            (Some(player), course, rules)
        }
        None => {
            let course = load::course(&args.file, &load::setup(&args.setup)?)?;
            let rules = rules::of(&course, &args.rules)?;
            (None, course, rules)
        }
    };
    let places = match args.hole {
        Some(number) => vec![place(&course, number)?],
        None => (0..course.holes.len()).collect(),
    };
    let goal = match (&args.level, &player) {
        (Some(level), Some(player)) => Some(load::level(level, player.sex)?),
        _ => None,
    };
    let on = match &player {
        Some(player) => played(player, goal.as_ref(), &course, &rules, &places, args)?,
        None => Vec::new(),
    };
    let beside = goal.as_ref().map(|goal| golfers_off(goal.handicap));
    let name = player
        .as_ref()
        .zip(args.player.as_ref())
        .map(|(player, text)| called(text, player));
    let played = played_by(name.as_deref(), beside.as_deref(), &on);
    Ok(picture(args, common, &course, &places, &played))
}

fn played_by<'a>(
    name: Option<&'a str>,
    beside: Option<&'a str>,
    on: &'a [OnHole],
) -> Vec<Played<'a>> {
    let each = |on| {
        Some(Played {
            name: name?,
            beside,
            on,
        })
    };
    on.iter().filter_map(each).collect()
}

fn picture(
    args: &DrawArgs,
    common: &Common,
    course: &Course,
    places: &[usize],
    played: &[Played<'_>],
) -> Drawn {
    let what = what(args);
    let id = match args.hole {
        Some(hole) => format!("costcard-{}-{hole}", super::name(what)),
        None => format!("costcard-{}", super::name(what)),
    };
    let style = Style {
        reading: common.units.into(),
        id: &id,
    };
    let mut kinds = vec!["ground"];
    if !played.is_empty() {
        kinds.push("aims");
    }
    let first = played.first();
    let picture = match (places, first) {
        (&[place], Some(played)) if what == What::Strokes => {
            kinds = vec!["expected strokes"];
            draw::strokes(&course.name, &course.holes[place], played, style)
        }
        (&[place], _) if what == What::Hole => {
            kinds.extend(first.iter().flat_map(|_| ["patterns", "landings"]));
            kinds.extend(
                first
                    .and_then(|played| played.beside)
                    .map(|_| "strokes lost"),
            );
            draw::hole(&course.name, &course.holes[place], first, style)
        }
        _ => draw::course(course, played, style),
    };
    Drawn {
        picture,
        what,
        kinds,
    }
}

fn what(args: &DrawArgs) -> What {
    match (args.what, args.hole) {
        (Some(what), _) => what,
        (None, Some(_)) => What::Hole,
        (None, None) => What::Course,
    }
}

/// Flags that do not go together.
fn check(args: &DrawArgs) -> anyhow::Result<()> {
    let what = what(args);
    match what {
        What::Patterns | What::Flight | What::Hold => {
            let message = format!(
                "`--what {}` is drawn of a player, and `{}` is a course",
                super::name(what),
                args.file
            );
            return Err(odd(
                &message,
                "name the player in place of the course, as `costcard draw demo:rowan`",
            ));
        }
        What::Hole | What::Strokes if args.hole.is_none() => {
            let message = format!("`--what {}` needs a hole", super::name(what));
            return Err(odd(&message, "say which with `--hole`, as `--hole 7`"));
        }
        What::Strokes if args.player.is_none() => {
            let hint = "say whose with `--player`, as `--player demo:rowan` or `--player level:10`";
            return Err(odd("`--what strokes` needs a player", hint));
        }
        What::Course if args.hole.is_some() => {
            return Err(odd(
                "`--what course` draws every hole, and `--hole` names one",
                "leave one of the two out",
            ));
        }
        _ => {}
    }
    let is_compared = what == What::Hole && args.player.is_some();
    if args.level.is_some() && what != What::Hole && args.hole.is_some() && args.player.is_some() {
        let message = format!("`--level` does not go with `--what {}`", super::name(what));
        return Err(odd(&message, "leave one of the two out"));
    }
    if args.level.is_some() && !is_compared {
        let hint = "add `--hole` and `--player`, or leave `--level` out";
        return Err(odd("`--level` goes with a hole and a player", hint));
    }
    if !args.clubs.is_empty() || args.against.is_some() {
        let hint = "leave it out: on a hole the clubs are the player's choice";
        return Err(odd(
            "`--club` and `--against` go with a player, not a course",
            hint,
        ));
    }
    if args.player.is_none() && (args.bay.handicap.is_some() || !args.rules.scripts.is_empty()) {
        let hint = "say whose shots to draw with `--player`";
        return Err(odd(
            "`--handicap` and `--rule` change nothing where nobody plays",
            hint,
        ));
    }
    Ok(())
}

/// The place of a hole on its course.
fn place(course: &Course, number: u32) -> anyhow::Result<usize> {
    let found = course.holes.iter().position(|hole| hole.number == number);
    found.ok_or_else(|| {
        let numbers: Vec<String> = course
            .holes
            .iter()
            .map(|hole| hole.number.to_string())
            .collect();
        let message = format!("{} has no hole {number}", course.name);
        odd(&message, &format!("its holes are {}", numbers.join(", ")))
    })
}

/// The holes as a player plays them.
fn played(
    player: &Golfer,
    goal: Option<&Golfer>,
    course: &Course,
    rules: &Rulebook,
    places: &[usize],
    args: &DrawArgs,
) -> anyhow::Result<Vec<OnHole>> {
    notes::of_file(player);
    let assume = args.assume.into();
    let bar = output::progress(infer::rounds(player, &[course], assume));
    let inferred = infer::inferred(player, &[(course, rules)], assume, &|rounds| {
        output::advance(&bar, rounds)
    });
    bar.finish_and_clear();
    let inferred = inferred.map_err(faults::of_play)?;
    notes::assumed(player, inferred.inference.as_ref());
    notes::inferred(player, inferred.inference.as_ref());
    let effort = Effort {
        rounds: args.rounds,
        seed: args.seed,
    };
    Ok(on_holes(
        &inferred.golfer,
        goal,
        (course, rules),
        places,
        effort,
    )?)
}
