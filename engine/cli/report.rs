//! `report`: the page a player takes home.

use std::path::Path;

use serde::Serialize;

use costcard::cost::ByRules;
use costcard::cost::before::{as_before, worth_between};
use costcard::cost::card::{Card, CardDocument, rounds};
use costcard::cost::costly::{CostlyHole, CostlyHoleDocument, card_with_holes, clubs_behind};
use costcard::cost::worth::{Worth, worth_by_rules};
use costcard::player::Golfer;
use costcard::player::bay::FittedPlayer;
use costcard::player::club::Club;
use costcard::player::compare::{Bags, Comparison, Deals, When};
use costcard::round::clubs::beside::beside;
use costcard::round::clubs::{ClubRow, rows};
use costcard::show::report::{Earlier, Report, Visited, report as page};

use super::args::{Common, Hand, ReportArgs};
use super::sides::backwards;
use super::usage::Usage;
use super::{compare, faults, load, notes, output, rules, written};

/// Holes that are drawn.
pub const HOLES: usize = 3;

/// The same player on an earlier day.
enum Before {
    /// Two sheets of shots, and what changed between them.
    Sheets(Box<[FittedPlayer; 2]>, Comparison),
    /// A player file.
    File(Box<Golfer>),
}

/// What lies between then and now.
struct Change {
    /// None where no club has shots enough.
    worth: Option<Worth>,
    clubs: [Vec<ClubRow>; 2],
}

/// What was written, for other programs.
#[derive(Debug, Serialize)]
struct Document<'a> {
    path: String,
    bytes: usize,
    player: &'a str,
    handicap: f64,
    goal_handicap: f64,
    clubs: &'a [Club],
    courses: Vec<CourseDocument<'a>>,
    change: Option<&'a Worth>,
}

#[derive(Debug, Serialize)]
struct CourseDocument<'a> {
    course: &'a str,
    #[serde(flatten)]
    card: CardDocument,
    costly_holes: Vec<CostlyHoleDocument>,
}

pub fn run(args: &ReportArgs, common: &Common) -> anyhow::Result<()> {
    check_name(&args.out)?;
    written::check_free(&args.out, args.force)?;
    let asked = args.asked.as_deref().map(load::part).transpose()?;
    let (mut player, courses) = load::with_courses(
        &args.player,
        &args.played.bay,
        &args.courses,
        &args.played.setup,
    )?;
    if let Some(name) = &args.name {
        player.name.clone_from(name);
    }
    let goal = load::goal(&args.goal, player.sex)?;
    let goal = match args.keep_speed {
        true => goal.at_speed_of(&player),
        false => goal,
    };
    let before = args
        .before
        .as_deref()
        .map(|text| before(args, text))
        .transpose()?;
    let rules = courses
        .iter()
        .map(|course| rules::of(course, &args.played.rules));
    let rules = rules.collect::<Result<Vec<_>, _>>()?;
    notes::of_file(&player);
    let on: Vec<ByRules> = courses.iter().zip(&rules).collect();
    let cards = cards(args, &player, &goal, &on)?;
    for (card, _) in &cards {
        notes::of_holes(&player.name, &card.player);
        notes::of_holes(&goal.name, &card.goal);
    }
    let clubs = clubs_behind(&cards[0].0, &player);
    let seen = beside(&player, &goal, &clubs, &rules[0]).map_err(faults::of_clubs)?;
    let change = match &before {
        Some(before) => {
            // The golfer of the card at home, with the short game inferred there.
            let today = match &cards[0].0.inference {
                Some(found) => player.with_assumed_skills_of(found.handicap)?,
                None => player.clone(),
            };
            Some(change(args, before, (&today, &goal), &clubs, on[0])?)
        }
        None => None,
    };
    let visited: Vec<Visited> = on
        .iter()
        .zip(&cards)
        .map(|(&(course, rules), (card, holes))| Visited {
            course,
            rules: rules.files(),
            card,
            holes,
        })
        .collect();
    let html = page(&Report {
        player: &player,
        goal: &goal,
        keep_speed: args.keep_speed,
        asked,
        courses: &visited,
        clubs: &seen,
        earlier: change.as_ref().map(|change| Earlier {
            worth: change.worth.as_ref(),
            compared: match &before {
                Some(Before::Sheets(_, compared)) => Some(compared),
                _ => None,
            },
            clubs: [&change.clubs[0], &change.clubs[1]],
        }),
        reading: common.units.into(),
    });
    written::write(&args.out, &html, args.force)?;
    if common.json {
        return output::print_json(&Document {
            path: args.out.display().to_string(),
            bytes: html.len(),
            player: &player.name,
            handicap: player.handicap,
            goal_handicap: goal.handicap,
            clubs: &clubs,
            courses: documents(&on, &cards),
            change: change.as_ref().and_then(|change| change.worth.as_ref()),
        });
    }
    output::print(&format!("{}\n", args.out.display()))
}

fn check_name(out: &Path) -> Result<(), Usage> {
    let end = out
        .extension()
        .and_then(|end| end.to_str())
        .map(str::to_lowercase);
    if matches!(end.as_deref(), Some("html" | "htm")) {
        return Ok(());
    }
    Err(Usage {
        message: format!("`{}` is no name of a page", out.display()),
        hint: "end it with .html".to_owned(),
    })
}

/// The earlier day: of the same kind as the player.
fn before(args: &ReportArgs, text: &str) -> anyhow::Result<Before> {
    let Some(handicap) = &args.played.bay.handicap else {
        return Ok(Before::File(Box::new(load::player_file(text)?)));
    };
    let sheets = [
        load::sheet(text, handicap, &args.played.bay.sheet)?,
        load::sheet(&args.player, handicap, &args.played.bay.sheet)?,
    ];
    let [earlier, today] = &sheets;
    if let Some(told) = backwards([&earlier.batch, &today.batch]) {
        output::note(&told);
    }
    let compared = Comparison::of(&earlier.batch, &today.batch, Deals::default())
        .map_err(|fault| compare::cannot_compare(&fault))?;
    Ok(Before::Sheets(Box::new(sheets), compared))
}

/// The card of every course; the holes of the first.
fn cards(
    args: &ReportArgs,
    player: &Golfer,
    goal: &Golfer,
    on: &[ByRules<'_>],
) -> anyhow::Result<Vec<(Card, Vec<CostlyHole>)>> {
    let (effort, assume) = (args.played.effort.into(), args.played.assume.into());
    let all = on
        .iter()
        .map(|(course, _)| rounds(player, course, effort, assume));
    let bar = output::progress(all.sum());
    let done = |rounds| output::advance(&bar, rounds);
    let card = |(place, on): (usize, &ByRules<'_>)| {
        let holes = if place == 0 { HOLES } else { 0 };
        card_with_holes(player, goal, *on, effort, assume, holes, &done)
    };
    let cards: Result<_, _> = on.iter().enumerate().map(card).collect();
    bar.finish_and_clear();
    cards.map_err(faults::of_play)
}

/// What lies between then and now at home.
fn change(
    args: &ReportArgs,
    before: &Before,
    (today, goal): (&Golfer, &Golfer),
    clubs: &[Club],
    on: ByRules<'_>,
) -> anyhow::Result<Change> {
    let seen = |golfer: &Golfer| {
        rows(golfer, goal, on.1, |club| clubs.contains(&club)).map_err(faults::of_clubs)
    };
    let (worth, earlier) = match before {
        Before::Sheets(sheets, compared) => {
            let [then, now] = sheets.as_ref();
            let left_handed = args.played.bay.sheet.hand == Hand::Left;
            // The page is the card of the shots after.
            let sides = [&then.batch, &now.batch];
            let bags = Bags::of(today, left_handed, sides, (compared, When::After))?;
            match bags {
                Some(bags) => {
                    let worth = worth_by_rules(&bags, on)?;
                    let [earlier, _] = bags.alone;
                    (Some(worth), earlier)
                }
                None => (None, today.clone()),
            }
        }
        Before::File(earlier) => {
            let earlier = as_before(earlier, today);
            (Some(worth_between(&earlier, today, on)?), earlier)
        }
    };
    Ok(Change {
        worth,
        clubs: [seen(&earlier)?, seen(today)?],
    })
}

fn documents<'a>(on: &[ByRules<'a>], cards: &[(Card, Vec<CostlyHole>)]) -> Vec<CourseDocument<'a>> {
    let document = |(&(course, rules), (card, holes)): (&ByRules<'a>, &(Card, Vec<CostlyHole>))| {
        CourseDocument {
            course: &course.name,
            card: CardDocument::new(card, rules),
            costly_holes: holes.iter().map(|hole| hole.document(course)).collect(),
        }
    };
    on.iter().zip(cards).map(document).collect()
}
