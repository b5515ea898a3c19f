//! The cost card, in words a player understands.

use std::fmt::Write;

use crate::cost::card::{Card, PartCost};
use crate::cost::figures::Figures;
use crate::round::part::Part;

use super::table::{pct, table, text};

/// Below this many strokes a round two figures are the same to a player.
const NOTHING: f64 = 0.05;

/// Who is on the card.
#[derive(Debug, Clone, Copy)]
pub struct Names<'a> {
    /// The player.
    pub player: &'a str,
    /// The player's handicap index.
    pub handicap: f64,
    /// The goal's handicap index.
    pub goal: f64,
    /// The course.
    pub course: &'a str,
}

/// The whole card. `asked` is the part the player came to work on.
#[must_use]
pub fn card(names: Names<'_>, card: &Card, asked: Option<Part>) -> String {
    let mut out = heading(names, card);
    out += &advice(names, card);
    if let Some(asked) = asked {
        out += &answer(card, asked);
    }
    let _ = write!(
        out,
        "\n{}\n{}\n{}",
        part_table(card),
        figure_table(names, card),
        notes(names, card)
    );
    out
}

fn heading(names: Names<'_>, card: &Card) -> String {
    let gap = card.player.score_mean - card.goal.score_mean;
    let gap = match gap {
        gap if gap > NOTHING => format!("The gap is {gap:.1}."),
        gap if gap < -NOTHING => format!("That is {:.1} better than the goal.", -gap),
        _ => "There is no gap.".into(),
    };
    format!(
        "{} ({}) at {}, goal {}\n\nAverage score {:.1}; golfers off {} average {:.1} here. {gap}\n",
        names.player,
        index(names.handicap),
        names.course,
        index(names.goal),
        card.player.score_mean,
        index(names.goal),
        card.goal.score_mean,
    )
}

/// A handicap index as golfers write it: plus handicaps with a plus sign.
fn index(handicap: f64) -> String {
    let shown = (handicap * 10.0).round() / 10.0;
    match shown {
        plus if plus < 0.0 => format!("+{}", -plus),
        shown => format!("{}", shown.abs()),
    }
}

fn advice(names: Names<'_>, card: &Card) -> String {
    let Some(cost) = card.work_on.and_then(|part| find(card, part)) else {
        return "\nNo single part would lower this score: the player is at the goal's standard or beyond.\n".into();
    };
    if cost.saved < NOTHING {
        return "\nNo single part would lower this score by more than a few hundredths of a stroke.\n".into();
    }
    format!(
        "\nWork on first: {} – it would save {:.1} strokes a round.\n{}",
        cost.part.name(),
        cost.saved,
        reason(names, card, cost)
    )
}

fn find(card: &Card, part: Part) -> Option<&PartCost> {
    card.parts.iter().find(|cost| cost.part == part)
}

/// Why a part costs: what it does to fairways, greens and holds.
fn reason(names: Names<'_>, card: &Card, cost: &PartCost) -> String {
    let goal = index(names.goal);
    let (player, target) = (&card.player, &card.goal);
    match cost.part {
        Part::TeeShots => format!(
            "  You hit {} of fairways with {:.1} penalty strokes a round; golfers off {goal} hit {} with {:.1}.\n",
            pct(player.fairways_hit_pct),
            player.penalties_mean,
            pct(target.fairways_hit_pct),
            target.penalties_mean,
        ),
        Part::LongApproach | Part::MidIrons | Part::ShortIrons => format!(
            "{}  You hit {} of greens in regulation; golfers off {goal} hit {}.\n",
            holds(cost, &goal),
            pct(Some(player.greens_hit_pct)),
            pct(Some(target.greens_hit_pct)),
        ),
        Part::ShortGame | Part::Sand => format!(
            "  You play {:.1} of these shots a round, and each costs {:.2} more than it costs golfers off {goal}.\n",
            cost.shots,
            cost.lost / cost.shots.max(0.01),
        ),
        Part::Putting => format!(
            "  You take {:.1} putts and {:.1} three-putts a round; golfers off {goal} take {:.1} and {:.1}.\n",
            player.putts_mean, player.three_putts_mean, target.putts_mean, target.three_putts_mean,
        ),
    }
}

fn holds(cost: &PartCost, goal: &str) -> String {
    match (cost.holds.held_pct(), cost.goal_holds.held_pct()) {
        (Some(own), Some(theirs)) => format!(
            "  Of 100 {} that pitch on a green, {own:.0} of yours stay on it; golfers off {goal} keep {theirs:.0}.\n",
            shots_of(cost.part)
        ),
        _ => String::new(),
    }
}

const fn shots_of(part: Part) -> &'static str {
    match part {
        Part::LongApproach => "long approach shots",
        Part::MidIrons => "mid irons",
        _ => "short irons and wedges",
    }
}

fn answer(card: &Card, asked: Part) -> String {
    let Some(cost) = find(card, asked) else {
        return String::new();
    };
    if card.work_on == Some(asked) {
        return format!(
            "\nYou came for {}: that is the right place to start.\n",
            asked.name()
        );
    }
    let saved = if cost.saved.abs() < NOTHING {
        "nothing to speak of".into()
    } else {
        format!("{:.1} strokes a round", cost.saved)
    };
    format!(
        "\nYou came for {}: that would save {saved}.\n",
        asked.name()
    )
}

fn part_table(card: &Card) -> String {
    let mut parts: Vec<&PartCost> = card.parts.iter().collect();
    parts.sort_by(|a, b| b.saved.total_cmp(&a.saved));
    let mut rows = table(
        [
            "part of the game",
            "known from",
            "would save",
            "lost now",
            "shots a round",
        ],
        2,
    );
    for cost in parts {
        rows.add_row([
            cost.part.name().to_owned(),
            if cost.measured {
                "your shots"
            } else {
                "assumed"
            }
            .to_owned(),
            signed(cost.saved),
            signed(cost.lost),
            format!("{:.1}", cost.shots),
        ]);
    }
    let lost: f64 = card.parts.iter().map(|cost| cost.lost).sum();
    rows.add_row(["all together", "", "", &signed(lost), ""]);
    text(&rows)
}

/// One decimal, and no minus before a zero.
fn signed(strokes: f64) -> String {
    let text = format!("{strokes:.1}");
    if text == "-0.0" { "0.0".into() } else { text }
}

fn figure_table(names: Names<'_>, card: &Card) -> String {
    let goal = format!("off {}", index(names.goal));
    let mut rows = table(["", "player", &goal], 1);
    let mut row = |name: &str, figure: fn(&Figures) -> String| {
        rows.add_row([name.to_owned(), figure(&card.player), figure(&card.goal)]);
    };
    row("fairways hit", |f| pct(f.fairways_hit_pct));
    row("greens hit in regulation", |f| pct(Some(f.greens_hit_pct)));
    row("pitched on a green and stayed", |f| pct(f.greens_held_pct));
    row("putts", |f| format!("{:.1}", f.putts_mean));
    row("penalty strokes", |f| format!("{:.1}", f.penalties_mean));
    text(&rows)
}

fn notes(names: Names<'_>, card: &Card) -> String {
    let goal = index(names.goal);
    let mut out = format!(
        "Would save: how much lower the average score is if this part alone is played as golfers off {goal} play it.\n\
         Lost now: what this part gives away to them, shot by shot; the parts add up to the gap.\n"
    );
    let assumed: Vec<&str> = card
        .parts
        .iter()
        .filter(|cost| !cost.measured)
        .map(|cost| cost.part.name())
        .collect();
    if !assumed.is_empty() {
        let _ = writeln!(
            out,
            "Assumed: {} – nobody measured these, so they are those of a golfer off {}.",
            assumed.join(", "),
            index(names.handicap)
        );
    }
    out + "Estimates from a model, not promises.\n"
}
