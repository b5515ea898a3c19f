//! A golfer with a change made.

use super::amount::{Amount, Standard};
use super::deliver::redelivered;
use super::figure::{Figure, MEANS};
use super::who::{Clubs, Who};
use super::{Change, add};
use crate::player::bag::{delivered_with, pattern_with};
use crate::player::batch::Quantity;
use crate::player::club::Club;
use crate::player::levels::{self, HIGHEST, LOWEST, LevelError};
use crate::player::likely::unlikely;
use crate::player::pattern::Pattern;
use crate::player::skill::{Putting, Touch};
use crate::player::{BagClub, Golfer};

/// Why a change cannot be made of this golfer.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{message}\nhint: {hint}")]
pub struct CannotChange {
    /// What stands against it.
    pub message: String,
    /// What to write instead.
    pub hint: String,
}

impl CannotChange {
    pub(super) fn of_level(error: LevelError) -> Self {
        Self {
            message: error.to_string(),
            hint: format!("write a handicap index from {LOWEST} to {HIGHEST}"),
        }
    }
}

impl Change {
    /// The golfer with the change made. Where patterns come from, and how sure they are, stays as it was, so that a
    /// change can be made of any golfer who could as well be the player.
    ///
    /// ```
    /// use costcard::player::{Sex, change::Change, levels};
    /// let golfer = levels::level(12.0, Sex::Men)?;
    /// let change: Change = "driver ball_speed +4".parse()?;
    /// let after = change.apply(&golfer)?;
    /// assert_eq!(after.clubs[0].pattern.mean[0], golfer.clubs[0].pattern.mean[0] + 4.0);
    /// assert_eq!(after.clubs[1], golfer.clubs[1]);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// When the bag holds none of the clubs, or already holds the one to be added; when a figure would leave the
    /// values it can have; when no delivery gives the club's strikes, so that none can be changed.
    pub fn apply(&self, golfer: &Golfer) -> Result<Golfer, CannotChange> {
        match self {
            Self::Add(new) => add::added(new, golfer),
            Self::Off(clubs) => without(clubs, golfer),
            Self::Level(who, standard) => at_level(who, *standard, golfer),
            Self::Figure(who, figure, amount) => changed(who, *figure, *amount, golfer),
        }
    }

    /// The golfer with changes made one after the other.
    ///
    /// # Errors
    /// The first that cannot be made, by its place in the list, and why.
    pub fn apply_all(changes: &[Self], golfer: &Golfer) -> Result<Golfer, (usize, CannotChange)> {
        let mut numbered = changes.iter().enumerate();
        numbered.try_fold(golfer.clone(), |golfer, (index, change)| {
            change.apply(&golfer).map_err(|fault| (index, fault))
        })
    }
}

/// The clubs of a bag, by name.
pub(super) fn bag_of(golfer: &Golfer) -> String {
    let names = golfer.clubs.iter().map(|entry| entry.club.to_string());
    names.collect::<Vec<_>>().join(", ")
}

/// That the bag holds some of the clubs.
fn found(clubs: &Clubs, golfer: &Golfer) -> Result<(), CannotChange> {
    if golfer.clubs.iter().any(|entry| clubs.holds(entry.club)) {
        return Ok(());
    }
    Err(CannotChange {
        message: format!("the bag of {} holds no {clubs}", golfer.name),
        hint: format!(
            "the bag: {}; a new club is added as `add club 7 wood`",
            bag_of(golfer)
        ),
    })
}

/// That a figure keeps to the values it can have.
pub(super) fn in_range(figure: Figure, value: f64, whose: &str) -> Result<(), CannotChange> {
    let [low, high] = figure.range();
    if (low..=high).contains(&value) {
        return Ok(());
    }
    Err(CannotChange {
        message: format!(
            "the {} of {whose} would be {}",
            figure.words(),
            figure.told(value)
        ),
        hint: format!(
            "keep it between {} and {}",
            figure.told(low),
            figure.told(high)
        ),
    })
}

/// That a stated ball speed is one that golfers have. A step from their own is left alone: it is made of golfers who could
/// as well be the player too, and must not fail for some of them.
pub(super) fn is_likely(club: Club, mph: f64) -> Result<(), CannotChange> {
    match unlikely(club, mph) {
        None => Ok(()),
        Some((message, hint)) => Err(CannotChange { message, hint }),
    }
}

fn without(clubs: &Clubs, golfer: &Golfer) -> Result<Golfer, CannotChange> {
    found(clubs, golfer)?;
    let left = golfer.clubs.iter().filter(|entry| !clubs.holds(entry.club));
    let left: Vec<BagClub> = left.cloned().collect();
    if left.is_empty() {
        return Err(CannotChange {
            message: format!("`{clubs} off` leaves no club in the bag"),
            hint: "keep one at least".to_owned(),
        });
    }
    if !left.iter().any(|entry| entry.club.is_for_every_lie()) {
        return Err(CannotChange {
            message: format!("`{clubs} off` leaves no club for a ball in a bunker"),
            hint: "keep an iron or a wedge".to_owned(),
        });
    }
    Ok(Golfer {
        clubs: left,
        ..golfer.clone()
    })
}

/// The golfer with some of his clubs made anew.
fn with_clubs(
    clubs: &Clubs,
    golfer: &Golfer,
    make: impl Fn(&BagClub) -> Result<BagClub, CannotChange>,
) -> Result<Golfer, CannotChange> {
    found(clubs, golfer)?;
    let one = |entry: &BagClub| {
        if clubs.holds(entry.club) {
            make(entry)
        } else {
            Ok(entry.clone())
        }
    };
    Ok(Golfer {
        clubs: golfer.clubs.iter().map(one).collect::<Result<_, _>>()?,
        ..golfer.clone()
    })
}

fn at_level(who: &Who, standard: Standard, golfer: &Golfer) -> Result<Golfer, CannotChange> {
    let level = levels::level(standard.0, golfer.sex).map_err(CannotChange::of_level)?;
    let mut after = golfer.clone();
    match who {
        Who::Clubs(clubs) => {
            return with_clubs(clubs, golfer, |entry| Ok(club_at(&level, entry, golfer)));
        }
        Who::ShortGame => after.short_game.0 = level.short_game.0,
        Who::Sand => after.sand.0 = level.sand.0,
        Who::Putting => after.putting.0 = level.putting.0,
    }
    Ok(after)
}

/// A club as golfers of a level hit it. Their loft is told as the player's device would read it.
fn club_at(level: &Golfer, entry: &BagClub, golfer: &Golfer) -> BagClub {
    let Some(pattern) = pattern_with(&level.clubs, entry.club) else {
        return entry.clone();
    };
    let mut delivered = delivered_with(&level.clubs, entry.club).unwrap_or_default();
    if let Some(loft) = &mut delivered.dynamic_loft_deg {
        *loft += golfer.loft_shift.deg();
    }
    BagClub {
        pattern,
        delivered,
        evidence: None,
        ..entry.clone()
    }
}

fn changed(
    who: &Who,
    figure: Figure,
    amount: Amount,
    golfer: &Golfer,
) -> Result<Golfer, CannotChange> {
    let level = match amount.standard() {
        None => golfer.clone(),
        Some(Standard(handicap)) => {
            levels::level(handicap, golfer.sex).map_err(CannotChange::of_level)?
        }
    };
    let mut after = golfer.clone();
    match who {
        Who::Clubs(clubs) => {
            return with_clubs(clubs, golfer, |entry| {
                club(entry, figure, amount, [golfer, &level])
            });
        }
        Who::ShortGame => {
            touch(&mut after.short_game.0, &level.short_game.0, figure, amount);
            in_range(
                Figure::Mishits,
                after.short_game.0.mishit_pct,
                "the short game",
            )?;
        }
        Who::Sand => {
            touch(&mut after.sand.0, &level.sand.0, figure, amount);
            in_range(Figure::Mishits, after.sand.0.mishit_pct, "bunker shots")?;
        }
        Who::Putting => putting(&mut after.putting.0, &level.putting.0, figure, amount),
    }
    Ok(after)
}

/// One club with one figure changed.
fn club(
    entry: &BagClub,
    figure: Figure,
    amount: Amount,
    [golfer, level]: [&Golfer; 2],
) -> Result<BagClub, CannotChange> {
    let club = entry.club;
    let whose = format!("the {club}");
    if let Figure::Head(quantity) = figure {
        return redelivered(entry, quantity, amount, [golfer, level]);
    }
    // Without a standard it is never asked for.
    let theirs = match amount.standard() {
        Some(_) => pattern_with(&level.clubs, club),
        None => None,
    };
    let theirs = theirs.as_ref().unwrap_or(&entry.pattern);
    let mut after = entry.clone();
    for read in places(figure) {
        let [old, level] = [&entry.pattern, theirs].map(|pattern| read.of(pattern));
        let value = amount.after(old, level);
        in_range(read.figure(), value, &whose)?;
        if let (Place::Mean(0), Amount::To(mph)) = (read, amount) {
            is_likely(club, mph)?;
        }
        read.set(&mut after.pattern, value);
    }
    Ok(after)
}

/// Where a figure stands in a pattern.
#[derive(Clone, Copy)]
enum Place {
    Mean(usize),
    Spread(usize),
    Mishits,
}

/// Where what a figure stands for stands.
fn places(figure: Figure) -> Vec<Place> {
    let index = |quantity: Quantity| MEANS.iter().position(|mean| *mean == quantity);
    let spreads = |of: &[Quantity]| {
        of.iter()
            .copied()
            .filter_map(index)
            .map(Place::Spread)
            .collect()
    };
    match figure {
        Figure::Mean(quantity) => index(quantity).map(Place::Mean).into_iter().collect(),
        Figure::Spread(quantity) => spreads(&[quantity]),
        Figure::DirectionSpread => spreads(&[Quantity::Direction, Quantity::Sidespin]),
        Figure::DistanceSpread => {
            spreads(&[Quantity::BallSpeed, Quantity::Launch, Quantity::Backspin])
        }
        Figure::AllSpread => spreads(&MEANS),
        Figure::Mishits => vec![Place::Mishits],
        Figure::Head(_) => Vec::new(),
    }
}

impl Place {
    fn of(self, pattern: &Pattern) -> f64 {
        match self {
            Self::Mean(index) => pattern.mean[index],
            Self::Spread(index) => pattern.sd[index],
            Self::Mishits => 100.0 * pattern.mishit.share,
        }
    }

    fn set(self, pattern: &mut Pattern, value: f64) {
        match self {
            Self::Mean(index) => pattern.mean[index] = value,
            Self::Spread(index) => pattern.sd[index] = value,
            // A share that is as it was stays so to the last bit, which percent would not keep.
            Self::Mishits if value == self.of(pattern) => {}
            Self::Mishits => pattern.mishit.share = value / 100.0,
        }
    }

    fn figure(self) -> Figure {
        match self {
            Self::Mean(index) => Figure::Mean(MEANS[index]),
            Self::Spread(index) => Figure::Spread(MEANS[index]),
            Self::Mishits => Figure::Mishits,
        }
    }
}

fn touch(touch: &mut Touch, level: &Touch, figure: Figure, amount: Amount) {
    let change = |own: &mut f64, theirs: f64| *own = amount.after(*own, theirs);
    if matches!(figure, Figure::DistanceSpread | Figure::AllSpread) {
        change(&mut touch.along_pct, level.along_pct);
    }
    if matches!(figure, Figure::DirectionSpread | Figure::AllSpread) {
        change(&mut touch.across_pct, level.across_pct);
    }
    if figure == Figure::AllSpread {
        change(&mut touch.base_ft, level.base_ft);
    }
    if figure == Figure::Mishits {
        change(&mut touch.mishit_pct, level.mishit_pct);
    }
}

fn putting(putting: &mut Putting, level: &Putting, figure: Figure, amount: Amount) {
    let change = |own: &mut f64, theirs: f64| *own = amount.after(*own, theirs);
    if matches!(figure, Figure::DirectionSpread | Figure::AllSpread) {
        change(&mut putting.direction_sd_deg, level.direction_sd_deg);
    }
    if matches!(figure, Figure::DistanceSpread | Figure::AllSpread) {
        change(&mut putting.length_sd_pct, level.length_sd_pct);
    }
}
