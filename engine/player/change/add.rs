//! A club that is not in the bag yet: `add club 7 wood speed 128mph launch 13 backspin 4200`.
//!
//! What is not said of it comes from the level of the golfer's handicap, at the speed that his other clubs let expect.

use std::fmt;

use super::amount::{factor, number};
use super::apply::{CannotChange, bag_of, in_range, is_likely};
use super::figure::{Figure, MEANS};
use super::parse::{ChangeFault, Words, figure_named};
use crate::files::{as_key, nearest};
use crate::player::bag::{Contents, fill};
use crate::player::batch::Quantity;
use crate::player::club::Club;
use crate::player::levels;
use crate::player::{Golfer, Origin};

/// A club, and what is said of its mean strike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NewClub {
    /// Which club.
    pub club: Club,
    /// Ball speed (mph), launch (°), start direction (°), backspin (rpm), sidespin (rpm), where they are said.
    pub mean: [Option<f64>; 5],
}

impl fmt::Display for NewClub {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.club.fmt(f)?;
        for (quantity, value) in MEANS.into_iter().zip(self.mean) {
            if let Some(value) = value {
                write!(f, " {} {value}", Figure::Mean(quantity))?;
            }
        }
        Ok(())
    }
}

/// The names of the figures a new club can be given.
fn names() -> Vec<String> {
    let figures = MEANS.into_iter().map(Figure::Mean);
    figures.map(|figure| figure.to_string()).collect()
}

/// Reads what stands after `add`; the word `club` may be left out.
pub(super) fn read(words: &Words<'_>) -> Result<NewClub, ChangeFault> {
    let from = 1 + usize::from(words.word(1).eq_ignore_ascii_case("club"));
    let club = words.longest(from, |text| text.parse::<Club>().ok());
    let Some((club, used)) = club else {
        return Err(no_club(words, from));
    };
    let mut new = NewClub {
        club,
        mean: [None; 5],
    };
    let mut at = from + used;
    while at < words.len() {
        at += figure(words, at, &mut new)?;
    }
    Ok(new)
}

/// Reads one figure and its value; says how many words they are.
fn figure(words: &Words<'_>, from: usize, new: &mut NewClub) -> Result<usize, ChangeFault> {
    let known = words.longest(from, figure_named);
    let found = known.and_then(|(figure, used)| {
        let index = MEANS
            .iter()
            .position(|mean| figure == Figure::Mean(*mean))?;
        Some((figure, index, used))
    });
    let Some((figure, index, named)) = found else {
        return Err(no_figure(words, from));
    };
    // A unit may stand by itself after its number.
    let at = from + named;
    let is_unit = |word: &str| !word.is_empty() && figure_named(word).is_none();
    let parted = at + 1 < words.len()
        && is_unit(words.word(at + 1))
        && words.longest(at + 1, figure_named).is_none();
    let used = 1 + usize::from(parted);
    let (text, span) = words.slice(at..at + used);
    let (name, name_span) = words.slice(from..at);
    if text.is_empty() {
        return Err(ChangeFault::new(
            name_span,
            format!("`{name}` has no value"),
            &format!("write one after it, as `{name} {}`", example(MEANS[index])),
        ));
    }
    let (value, unit) = number(text.trim_start_matches('=').trim(), &span)?;
    let value = value * factor(unit, figure, true, &span)?;
    if new.mean[index].replace(value).is_some() {
        return Err(ChangeFault::new(
            name_span,
            format!("`{name}` is said twice"),
            "keep one of them",
        ));
    }
    Ok(named + used)
}

const fn example(quantity: Quantity) -> &'static str {
    match quantity {
        Quantity::BallSpeed => "128",
        Quantity::Launch => "13",
        Quantity::Backspin => "4200",
        _ => "0",
    }
}

fn no_club(words: &Words<'_>, from: usize) -> ChangeFault {
    let length = words.name_length(from).max(1);
    let (text, span) = words.slice(from..(from + length).min(words.len()));
    if text.is_empty() {
        return ChangeFault::new(
            words.slice(0..words.len()).1,
            "which club is to be added?".to_owned(),
            "write `add club 7 wood`",
        );
    }
    let hint = match text.parse::<Club>() {
        Err(unknown) => unknown.hint().replace('"', "`"),
        Ok(_) => "write `add club 7 wood`".to_owned(),
    };
    ChangeFault::new(span, format!("`{text}` is no club"), &hint)
}

fn no_figure(words: &Words<'_>, from: usize) -> ChangeFault {
    let (text, span) = words.slice(from..from + words.name_length(from));
    let names = names();
    let names = || names.iter().map(String::as_str);
    let joined = as_key(text);
    let hint = match nearest(&joined, names()) {
        Some(meant) => format!("did you mean `{meant}`?"),
        None => format!(
            "say ball_speed, launch, backspin, start_direction or sidespin, each with its value: `launch {}`",
            example(Quantity::Launch)
        ),
    };
    ChangeFault::new(span, format!("`{text}` says nothing of a new club"), &hint)
}

/// The golfer with the club in his bag.
pub(super) fn added(new: &NewClub, golfer: &Golfer) -> Result<Golfer, CannotChange> {
    let club = new.club;
    if golfer.clubs.iter().any(|entry| entry.club == club) {
        return Err(CannotChange {
            message: format!("there is a {club} in the bag of {} already", golfer.name),
            hint: format!("change it, as `{club} launch +1`"),
        });
    }
    let level = levels::level(golfer.handicap, golfer.sex).map_err(CannotChange::of_level)?;
    let contents = Contents {
        wanted: vec![club],
        whole: true,
        ..Contents::default()
    };
    let mut clubs = fill(&golfer.clubs, &contents, &level);
    let entry = clubs.iter_mut().find(|entry| entry.club == club);
    let entry = entry.ok_or_else(|| CannotChange {
        message: format!("nothing is known of how {} would hit a {club}", golfer.name),
        hint: format!("the bag: {}", bag_of(golfer)),
    })?;
    if let Some(mph) = new.mean[0] {
        in_range(Figure::Mean(MEANS[0]), mph, &format!("the {club}"))?;
        is_likely(club, mph)?;
        entry.pattern = entry.pattern.scaled(mph / entry.pattern.mean[0]);
    }
    for (index, value) in new.mean.into_iter().enumerate() {
        if let Some(value) = value {
            in_range(Figure::Mean(MEANS[index]), value, &format!("the {club}"))?;
            entry.pattern.mean[index] = value;
            entry.origin = Origin::Stated;
            entry.given.mean[index] = true;
        }
    }
    Ok(Golfer {
        clubs,
        ..golfer.clone()
    })
}
