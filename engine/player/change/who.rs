//! Who a change is about: clubs, or a part of the game around the green.

use std::fmt;

use crate::player::club::{Class, Club};

/// Clubs, or a part of the game around the green.
#[derive(Debug, Clone, PartialEq)]
pub enum Who {
    /// Clubs.
    Clubs(Clubs),
    /// Chips and pitches from grass.
    ShortGame,
    /// Greenside bunker shots.
    Sand,
    /// Putts.
    Putting,
}

/// Some of the clubs of a bag: one group or more.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Clubs(Vec<Group>);

/// Clubs that are named together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Group {
    /// One club.
    One(Club),
    /// From a longer club to a shorter one, both with it, and whatever stands between them in the bag.
    Span(Club, Club),
    /// Clubs of one kind by number, as `5-7 iron`: the first and the last.
    Numbered(Club, Club),
    /// A family of clubs.
    Family(Family),
}

/// A family of clubs with a name of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Family {
    /// Every club.
    All,
    /// Driver and fairway woods.
    Woods,
    /// Woods other than the driver.
    FairwayWoods,
    /// Hybrids.
    Hybrids,
    /// Numbered irons.
    Irons,
    /// Pitching wedge to lob wedge.
    Wedges,
    /// What long approach shots are hit with: all down to the 4 iron but the driver, which is hit off a tee.
    LongApproach,
    /// Irons 5 to 7.
    MidIrons,
    /// Irons 8 and 9 and the wedges.
    ShortIrons,
}

impl Family {
    const ALL: [Self; 9] = [
        Self::All,
        Self::Woods,
        Self::FairwayWoods,
        Self::Hybrids,
        Self::Irons,
        Self::Wedges,
        Self::LongApproach,
        Self::MidIrons,
        Self::ShortIrons,
    ];

    const fn name(self) -> &'static str {
        match self {
            Self::All => "all clubs",
            Self::Woods => "woods",
            Self::FairwayWoods => "fairway woods",
            Self::Hybrids => "hybrids",
            Self::Irons => "irons",
            Self::Wedges => "wedges",
            Self::LongApproach => "long approach",
            Self::MidIrons => "mid irons",
            Self::ShortIrons => "short irons",
        }
    }

    fn holds(self, club: Club) -> bool {
        match self {
            Self::All => true,
            Self::Woods => club.class() == Class::Wood,
            Self::FairwayWoods => club.class() == Class::Wood && club != Club::Driver,
            Self::Hybrids => club.class() == Class::Hybrid,
            Self::Irons => club.class() == Class::Iron,
            Self::Wedges => club.class() == Class::Wedge,
            Self::LongApproach => club.is_long() && club != Club::Driver,
            Self::MidIrons => club.is_mid(),
            Self::ShortIrons => club.is_short(),
        }
    }
}

/// The words that stand for a part of the game around the green.
const NEAR_GREEN: [(&str, Who); 3] = [
    ("short game", Who::ShortGame),
    ("sand", Who::Sand),
    ("putting", Who::Putting),
];

/// What else they are called on the range. `Pitches` are not among them: full wedges are called so too.
const ALSO_CALLED: [(&str, Who); 13] = [
    ("chipping", Who::ShortGame),
    ("chips", Who::ShortGame),
    ("chip", Who::ShortGame),
    ("chip shots", Who::ShortGame),
    ("bunker", Who::Sand),
    ("bunkers", Who::Sand),
    ("bunker play", Who::Sand),
    ("bunker shots", Who::Sand),
    ("sand play", Who::Sand),
    ("sand shots", Who::Sand),
    ("putts", Who::Putting),
    ("putt", Who::Putting),
    ("putter", Who::Putting),
];

impl Who {
    /// Reads a name, in any case and spacing; none where it is nobody's.
    pub(super) fn named(text: &str) -> Option<Self> {
        let plain = plain(text);
        let mut near = NEAR_GREEN.into_iter().chain(ALSO_CALLED);
        let near = near.find(|(name, _)| *name == plain);
        near.map(|(_, who)| who)
            .or_else(|| Clubs::named(&plain).map(Self::Clubs))
    }

    /// The names of all groups and parts, for "did you mean".
    pub(super) fn names() -> Vec<String> {
        let families = Family::ALL
            .into_iter()
            .map(|family| family.name().to_owned());
        let near = NEAR_GREEN.into_iter().map(|(name, _)| name.to_owned());
        let clubs = Club::all().into_iter().map(|club| club.to_string());
        families.chain(near).chain(clubs).collect()
    }

    /// What it is, in a sentence.
    pub(super) const fn kind(&self) -> &'static str {
        match self {
            Self::Clubs(_) => "a club",
            Self::ShortGame => "the short game",
            Self::Sand => "bunker shots",
            Self::Putting => "putting",
        }
    }
}

impl fmt::Display for Who {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let near = NEAR_GREEN.iter().find(|(_, who)| who == self);
        match (self, near) {
            (Self::Clubs(clubs), _) => clubs.fmt(f),
            (_, Some((name, _))) => f.write_str(name),
            (_, None) => Ok(()),
        }
    }
}

impl Clubs {
    /// One club.
    #[must_use]
    pub fn one(club: Club) -> Self {
        Self(vec![Group::One(club)])
    }

    /// Reads clubs and groups, several with commas or `and` between them.
    fn named(plain: &str) -> Option<Self> {
        let parts = plain.replace(" and ", ",");
        let groups: Option<Vec<Group>> = parts.split(',').map(|part| group(part.trim())).collect();
        groups.map(Self)
    }

    /// Whether a club is one of them.
    #[must_use]
    pub fn holds(&self, club: Club) -> bool {
        self.0.iter().any(|group| group.holds(club))
    }
}

impl fmt::Display for Clubs {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, group) in self.0.iter().enumerate() {
            if index > 0 {
                f.write_str(", ")?;
            }
            group.fmt(f)?;
        }
        Ok(())
    }
}

impl Group {
    fn holds(self, club: Club) -> bool {
        match self {
            Self::One(one) => club == one,
            Self::Span(from, to) => (from..=to).contains(&club),
            Self::Numbered(from, to) => {
                club.class() == from.class() && (from..=to).contains(&club) && club != Club::Driver
            }
            Self::Family(family) => family.holds(club),
        }
    }
}

impl fmt::Display for Group {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::One(club) => club.fmt(f),
            Self::Span(from, to) => write!(f, "{from} to {to}"),
            Self::Numbered(from, to) => {
                let from = from.to_string();
                let number = from.split(' ').next().unwrap_or_default();
                write!(f, "{number}-{to}")
            }
            Self::Family(family) => f.write_str(family.name()),
        }
    }
}

/// Small letters with one blank between words.
fn plain(text: &str) -> String {
    let words: Vec<String> = text.split_whitespace().map(str::to_lowercase).collect();
    words.join(" ")
}

fn group(plain: &str) -> Option<Group> {
    let family = Family::ALL
        .into_iter()
        .find(|family| family.name() == plain || (*family == Family::All && plain == "clubs"));
    if let Some(family) = family {
        return Some(Group::Family(family));
    }
    if let Ok(club) = plain.parse() {
        return Some(Group::One(club));
    }
    numbered(plain).or_else(|| {
        let (from, to) = plain.split_once(" to ")?;
        let (from, to): (Club, Club) = (from.parse().ok()?, to.parse().ok()?);
        Some(Group::Span(from.min(to), from.max(to)))
    })
}

/// `5-7 iron`, `5 to 7 irons`, `3–5 wood`.
fn numbered(plain: &str) -> Option<Group> {
    let kind_at = plain.find(|c: char| c.is_alphabetic() && c != 't' && c != 'o')?;
    let (numbers, kind) = plain.split_at(kind_at);
    let kind = kind.strip_suffix('s').unwrap_or(kind);
    let (from, to) = numbers
        .split_once(" to ")
        .or_else(|| numbers.split_once(['-', '–']))?;
    let club = |number: &str| -> Option<Club> { format!("{} {kind}", number.trim()).parse().ok() };
    let (from, to) = (club(from)?, club(to)?);
    let both = from != Club::Driver && to != Club::Driver && from.class() == to.class();
    both.then(|| Group::Numbered(from.min(to), from.max(to)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn named(text: &str) -> Vec<String> {
        let Some(Who::Clubs(clubs)) = Who::named(text) else {
            return Vec::new();
        };
        let held = Club::all().into_iter().filter(|club| clubs.holds(*club));
        held.map(|club| club.to_string()).collect()
    }

    #[test]
    fn groups_hold_the_clubs_of_their_name() {
        assert_eq!(named("5-7 iron"), ["5 iron", "6 iron", "7 iron"]);
        assert_eq!(named("7 to 5 irons"), named("5-7 iron"));
        assert_eq!(named("Mid  Irons"), named("5-7 iron"));
        assert_eq!(named("6 iron, 8 iron and PW").len(), 3);
        assert!(named("3 wood to 5 iron").contains(&"4 hybrid".to_owned()));
        assert!(!named("long approach").contains(&"driver".to_owned()));
        assert!(named("woods").contains(&"driver".to_owned()));
        assert_eq!(named("all clubs").len(), Club::all().len());
        assert_eq!(named("irons").len(), 9);
    }

    #[test]
    fn every_name_is_read_back() {
        for name in Who::names().iter().map(String::as_str).chain([
            "5-7 iron",
            "3 wood to 5 iron",
            "6 iron, wedges",
        ]) {
            assert_eq!(
                Who::named(name).map(|who| who.to_string()).as_deref(),
                Some(name)
            );
        }
        for (name, who) in ALSO_CALLED {
            assert_eq!(Who::named(name), Some(who), "{name}");
        }
        assert_eq!(Who::named("tee shots"), None);
        assert_eq!(Who::named(""), None);
    }
}
