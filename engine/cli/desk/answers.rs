//! What a player with some figures changed would score: a quick look while something is dragged, and everything there is
//! to tell once it is let go.

use serde::{Deserialize, Serialize};

use costcard::cost::changes::{Accuracy, Ready, TryError};
use costcard::course::Day;
use costcard::files::Source;
use costcard::player::change::Change;
use costcard::player::club::Club;
use costcard::player::pattern::Pattern;
use costcard::player::{Golfer, Origin};
use costcard::round::clubs::beside::{Beside, beside};
use costcard::show::desk::answer::{self as show, Shown};

use super::lesson::{Desk, Standing};
use super::told::told_of_page;
use crate::cli::faults::{of_clubs, of_play};
use crate::cli::{changes as command, usage::Usage};

/// Changes at once; more than the page has fields for.
const MOST_CHANGES: usize = 64;

/// What the page asks.
#[derive(Debug, Clone, Deserialize)]
pub struct Question {
    /// Which tab asks.
    pub tab: String,
    /// How manieth question of it this is.
    pub number: u64,
    /// How much is asked.
    pub depth: Depth,
    /// Changes in the words of `try`.
    pub changes: Vec<String>,
    /// The club to be drawn; by default one that changes.
    #[serde(default)]
    pub club: Option<String>,
}

/// How much is asked, from what is there at once to what takes seconds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Depth {
    /// A quick look, while something is dragged.
    Quick,
    /// The score, as `try` works it out.
    Score,
    /// Everything `try` tells.
    All,
}

/// What it is answered.
#[derive(Debug, Clone, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Answer {
    /// What the changes are worth.
    Worth(Box<Worth>),
    /// Why they cannot be made, in the words of the command line.
    Trouble(String),
}

/// What changes are worth.
#[derive(Debug, Clone, Serialize)]
pub struct Worth {
    /// The question's number.
    pub number: u64,
    /// How much was asked.
    pub depth: Depth,
    /// Strokes saved a round.
    pub saved: f64,
    /// Its 90 % interval, once it is known.
    pub interval: Option<[f64; 2]>,
    /// The expected score without the changes.
    pub before: f64,
    /// And with them.
    pub after: f64,
    /// The club that is drawn.
    pub club: Option<String>,
    /// What it comes to in a sentence.
    pub said: String,
    /// Pictures of the club, before and after.
    pub pictures: String,
    /// Figures of rounds; none of a quick look.
    pub figures: Option<String>,
}

/// What changes are worth and nothing more, quickly or in full.
pub fn score(desk: &Desk, standing: &Standing, ready: &Ready<'_>, question: &Question) -> Answer {
    let accuracy = match question.depth {
        Depth::Quick => Accuracy::Quick,
        Depth::Score | Depth::All => Accuracy::Full,
    };
    let answer = || {
        let changes = read(&question.changes)?;
        let after = all_made(ready.golfer(), &changes, &question.changes)?;
        let saved = if changes.is_empty() {
            0.0
        } else {
            ready
                .saved(&[&after], accuracy)
                .first()
                .copied()
                .unwrap_or(0.0)
        };
        standing.cast.rules.outcome()?;
        worth(
            desk,
            standing,
            question,
            &after,
            Known {
                saved,
                interval: None,
                figures: None,
            },
        )
    };
    told_or(answer())
}

/// Everything there is to tell.
pub fn all(desk: &Desk, standing: &Standing, ready: &Ready<'_>, question: &Question) -> Answer {
    let answer = || {
        let changes = read(&question.changes)?;
        let after = all_made(ready.golfer(), &changes, &question.changes)?;
        let tried = ready.tried(&changes, &[], desk.effort, &|_| ());
        let tried = tried.map_err(|error| at_fault(error, &question.changes))?;
        let ends = tried.together.low.zip(tried.together.high);
        let together = ends.map(|(low, high)| [low, high]);
        let known = Known {
            saved: tried.together.saved,
            interval: together.filter(|_| !changes.is_empty()),
            figures: Some(show::figures(&tried)),
        };
        worth(desk, standing, question, &after, known)
    };
    told_or(answer())
}

fn told_or(answer: anyhow::Result<Worth>) -> Answer {
    match answer {
        Ok(worth) => Answer::Worth(Box::new(worth)),
        Err(error) => Answer::Trouble(told_of_page(&error)),
    }
}

/// What is known of changes.
struct Known {
    saved: f64,
    interval: Option<[f64; 2]>,
    figures: Option<String>,
}

fn worth(
    desk: &Desk,
    standing: &Standing,
    question: &Question,
    after: &Golfer,
    known: Known,
) -> anyhow::Result<Worth> {
    let club = club_shown(&standing.golfer, after, question.club.as_deref());
    let drawn = club.map(|club| drawn(standing, after, club)).transpose()?;
    let before = standing.expected;
    let shown = Shown {
        changed: !question.changes.is_empty(),
        saved: known.saved,
        interval: known.interval,
        before,
    };
    Ok(Worth {
        number: question.number,
        depth: question.depth,
        saved: known.saved,
        interval: known.interval,
        before,
        after: before - known.saved,
        club: club.map(|club| club.to_string()),
        said: show::said(&shown),
        pictures: drawn.flatten().map_or_else(String::new, |drawn| {
            show::pictures(&drawn, !question.changes.is_empty(), desk.reading)
        }),
        figures: known.figures,
    })
}

/// A club with the changes beside the same club without.
fn drawn(standing: &Standing, after: &Golfer, club: Club) -> anyhow::Result<Option<Beside>> {
    let rules = &standing.cast.rules;
    let found = beside(after, &standing.golfer, &[club], rules).map_err(of_clubs)?;
    Ok(found.into_iter().next())
}

/// The club that was asked for; else the first that changes, a measured one before others; else the middle one of those
/// that were measured.
fn club_shown(before: &Golfer, after: &Golfer, asked: Option<&str>) -> Option<Club> {
    let bag = || after.clubs.iter();
    let asked = asked.and_then(|name| name.parse::<Club>().ok());
    if let Some(club) = asked.filter(|club| bag().any(|entry| entry.club == *club)) {
        return Some(club);
    }
    let is_new = |club: Club, pattern: &Pattern| {
        let old = before.clubs.iter().find(|entry| entry.club == club);
        old.is_none_or(|old| old.pattern != *pattern)
    };
    let changed: Vec<_> = bag()
        .filter(|entry| is_new(entry.club, &entry.pattern))
        .collect();
    let of_all: Vec<_> = bag().filter(|entry| entry.club != Club::Driver).collect();
    let open = if changed.is_empty() { of_all } else { changed };
    let measured: Vec<_> = open
        .iter()
        .filter(|entry| entry.origin != Origin::Assumed)
        .collect();
    let middle = measured.get(measured.len() / 2).copied();
    let middle = middle.or_else(|| open.get(open.len() / 2));
    middle.map(|entry| entry.club)
}

fn read(texts: &[String]) -> anyhow::Result<Vec<Change>> {
    if texts.len() > MOST_CHANGES {
        return Err(Usage {
            message: format!("these are {} changes at once", texts.len()),
            hint: format!("make {MOST_CHANGES} at most"),
        }
        .into());
    }
    Ok(command::read(texts)?)
}

/// The player with all changes made, one after the other.
fn all_made(player: &Golfer, changes: &[Change], texts: &[String]) -> anyhow::Result<Golfer> {
    let mut after = player.clone();
    for (index, change) in changes.iter().enumerate() {
        after = change
            .apply(&after)
            .map_err(|fault| at_fault(TryError::Change { index, fault }, texts))?;
    }
    Ok(after)
}

fn at_fault(error: TryError, texts: &[String]) -> anyhow::Error {
    match error {
        TryError::Play(error) => of_play(error),
        error @ TryError::Change { .. } => command::at_fault(error, texts),
    }
}

/// A day that is not as the course file says, in words; none for one that is.
pub fn day_in_words(day: &Day) -> Option<String> {
    let firmness = day.firmness.map(|firmness| match firmness.value() {
        0.0 => "soft".to_owned(),
        0.5 => "medium".to_owned(),
        1.0 => "firm".to_owned(),
        other => format!("firmness {other}"),
    });
    let wind = match (day.wind_mph, day.wind_from_deg) {
        (Some(0.0), _) => Some("no wind".to_owned()),
        (Some(mph), Some(from)) => Some(format!("wind {mph} mph from {from}°")),
        (Some(mph), None) => Some(format!("wind {mph} mph")),
        (None, Some(from)) => Some(format!("wind from {from}°")),
        (None, None) => None,
    };
    let words: Vec<String> = firmness.into_iter().chain(wind).collect();
    (!words.is_empty()).then(|| words.join(", "))
}

/// A fault on a question itself.
pub fn no_question(text: &str) -> anyhow::Error {
    let source = Source::new("the question", text);
    super::told::whole(
        &source.name,
        "this is no question of the page",
        "load the page anew",
    )
    .into()
}
