//! Pictures of a player's clubs.

use costcard::player::Golfer;
use costcard::player::club::Club;
use costcard::round::clubs::arcs::arcs;
use costcard::round::clubs::curves::{Descending, GREENS};
use costcard::round::clubs::landings::landings;
use costcard::rules::Rulebook;
use costcard::show::draw::{self, HoldCurve, Own, Picture, Style};
use costcard::show::reading::golfers_off;

use super::super::args::{Against, Common, DrawArgs, What};
use super::super::{faults, load, notes, rules};
use super::{Drawn, called, odd};

/// Curves against firmness at most, so that each has a colour and dashes of its own.
const MOST_CURVES: usize = 4;

pub fn drawn(args: &DrawArgs, common: &Common) -> anyhow::Result<Drawn> {
    let what = args.what.unwrap_or(What::Patterns);
    check(args, what)?;
    let mut player = load::golfer(&args.file, &args.bay)?;
    notes::of_file(&player);
    player.name = called(&args.file, &player);
    let beside = args
        .level
        .as_ref()
        .map(|level| load::level(level, player.sex))
        .transpose()?;
    let clubs = clubs(&player, args)?;
    let id = format!("costcard-{}", super::name(what));
    let style = Style {
        reading: common.units.into(),
        id: &id,
    };
    let beside = beside.as_ref();
    let picture = match what {
        What::Flight => flight(&player, beside, &clubs, style),
        What::Hold => hold(&player, beside, args, style)?,
        _ => patterns(&player, beside, &clubs, style)?,
    };
    let mut kinds = match what {
        What::Flight => vec!["flight"],
        What::Hold => vec!["hold"],
        _ => vec!["patterns", "landings"],
    };
    kinds.extend(beside.map(|_| "level"));
    Ok(Drawn {
        picture,
        what,
        kinds,
    })
}

fn check(args: &DrawArgs, what: What) -> anyhow::Result<()> {
    if matches!(what, What::Course | What::Hole | What::Strokes) || args.hole.is_some() {
        let message = format!("`{}` is no course", args.file);
        let hint = "the course comes first, the player after `--player`: `costcard draw demo:parkland --hole 7 --player demo:rowan`";
        return Err(odd(&message, hint));
    }
    if args.player.is_some() {
        let hint = "name the course first, or the one player alone";
        return Err(odd("`--player` goes with a course", hint));
    }
    if what != What::Hold && (args.against.is_some() || !args.rules.scripts.is_empty()) {
        let hint = "add `--what hold`, or leave them out";
        return Err(odd("`--against` and `--rule` go with greens held", hint));
    }
    Ok(())
}

/// The clubs to draw: those named, or all.
fn clubs(player: &Golfer, args: &DrawArgs) -> anyhow::Result<Vec<Club>> {
    let all: Vec<Club> = player.clubs.iter().map(|entry| entry.club).collect();
    if args.clubs.is_empty() {
        return Ok(all);
    }
    if let Some(club) = args.clubs.iter().find(|club| !all.contains(club)) {
        let names: Vec<String> = all.iter().map(ToString::to_string).collect();
        let message = format!("the bag of {} holds no {club}", player.name);
        return Err(odd(
            &message,
            &format!("the clubs are {}", names.join(", ")),
        ));
    }
    let mut clubs = args.clubs.clone();
    clubs.sort();
    clubs.dedup();
    Ok(clubs)
}

fn patterns(
    player: &Golfer,
    beside: Option<&Golfer>,
    clubs: &[Club],
    style: Style<'_>,
) -> anyhow::Result<Picture> {
    let own = landings(player, clubs)?;
    let other = beside.map(|beside| {
        Ok::<_, anyhow::Error>((golfers_off(beside.handicap), landings(beside, clubs)?))
    });
    let other = other.transpose()?;
    let other = other
        .as_ref()
        .map(|(name, landings)| (name.as_str(), landings.as_slice()));
    Ok(draw::patterns(player, &own, other, style))
}

fn flight(player: &Golfer, beside: Option<&Golfer>, clubs: &[Club], style: Style<'_>) -> Picture {
    let own = arcs(player, clubs);
    let other = beside.map(|beside| (golfers_off(beside.handicap), arcs(beside, clubs)));
    let other = other
        .as_ref()
        .map(|(name, arcs)| (name.as_str(), arcs.as_slice()));
    draw::flight(player, &own, other, style)
}

fn hold(
    player: &Golfer,
    beside: Option<&Golfer>,
    args: &DrawArgs,
    style: Style<'_>,
) -> anyhow::Result<Picture> {
    let rules = rules::named(&args.rules)?;
    let is_by_descent = args.against == Some(Against::Descent);
    if is_by_descent && beside.is_some() {
        let hint = "leave `--level` out, or draw against firmness";
        return Err(odd(
            "against descent only the player's own club is drawn",
            hint,
        ));
    }
    let most = if is_by_descent {
        1
    } else {
        MOST_CURVES / if beside.is_some() { 2 } else { 1 }
    };
    let clubs = if args.clubs.is_empty() {
        usual(player, most)
    } else {
        clubs(player, args)?
    };
    if clubs.len() > most {
        let message = format!(
            "{} clubs are too many for one picture of greens held",
            clubs.len()
        );
        let hint = match most {
            1 => "name one with `--club`, as `--club '6 iron'`".to_owned(),
            most => format!("name {most} at most with `--club`, as `--club '6 iron'`"),
        };
        return Err(odd(&message, &hint));
    }
    match clubs.as_slice() {
        &[club] if is_by_descent => by_descent(player, club, &rules, style),
        clubs => by_firmness(player, beside, clubs, &rules, style),
    }
}

/// The clubs drawn where none is named: so many of those that are hit at greens, evenly from long to short; measured ones
/// alone, where any was measured.
fn usual(player: &Golfer, most: usize) -> Vec<Club> {
    let clubs = player.clubs.iter().map(|entry| entry.club);
    let clubs = clubs.filter(|club| *club != Club::Driver);
    let (assumed, measured): (Vec<Club>, Vec<Club>) =
        clubs.partition(|club| player.is_assumed(*club));
    let approach = if measured.is_empty() {
        assumed
    } else {
        measured
    };
    let mut clubs: Vec<Club> = (0..most)
        .filter_map(|place| approach.get((2 * place + 1) * approach.len() / (2 * most)))
        .copied()
        .collect();
    clubs.dedup();
    clubs
}

fn by_descent(
    player: &Golfer,
    club: Club,
    rules: &Rulebook,
    style: Style<'_>,
) -> anyhow::Result<Picture> {
    let shots = Descending::of(player, club).map_err(faults::of_clubs)?;
    let mut curves = Vec::new();
    for (name, firmness) in GREENS {
        let Some(shots) = &shots else { break };
        curves.push(HoldCurve {
            name: format!("{name} green"),
            curve: shots.by_descent(firmness, rules)?,
            own: Some(Own {
                descent_deg: shots.descent_deg,
                held_pct: shots.held_pct(firmness, rules)?,
            }),
        });
    }
    Ok(draw::against_descent(
        &player.name,
        &club.to_string(),
        &curves,
        style,
    ))
}

fn by_firmness(
    player: &Golfer,
    beside: Option<&Golfer>,
    clubs: &[Club],
    rules: &Rulebook,
    style: Style<'_>,
) -> anyhow::Result<Picture> {
    let mut curves = Vec::new();
    for &club in clubs {
        for golfer in std::iter::once(player).chain(beside) {
            let name = match beside {
                Some(beside) if std::ptr::eq(golfer, beside) => {
                    format!("{club}, {}", golfers_off(beside.handicap))
                }
                _ if player.is_assumed(club) => format!("{club}, not measured"),
                _ => club.to_string(),
            };
            let Some(shots) = Descending::of(golfer, club).map_err(faults::of_clubs)? else {
                continue;
            };
            curves.push(HoldCurve {
                name,
                curve: shots.by_firmness(rules)?,
                own: None,
            });
        }
    }
    Ok(draw::against_firmness(&player.name, &curves, style))
}
