//! The parts of the game, and which part a shot belongs to.

use crate::course::Lie;
use crate::player::club::Club;

/// Shots from within this many yards of the green's edge belong to the short game or to sand.
/// Source: the usual groups of strokes gained, M. Broadie (2012), Interfaces 42(2), 146–165.
pub const SHORT_GAME_YD: f32 = 30.0;

/// A part of the game.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Part {
    /// Tee shots on par 4s and 5s.
    TeeShots,
    /// Woods, hybrids and long irons at any other time.
    LongApproach,
    /// 5, 6 and 7 irons.
    MidIrons,
    /// 8 and 9 irons and wedges, outside the short game.
    ShortIrons,
    /// Chips and pitches from within 30 yd of the green's edge.
    ShortGame,
    /// Bunker shots from within 30 yd of the green's edge.
    Sand,
    /// Putts on the green.
    Putting,
}

impl Part {
    /// Every part, in the order of a hole.
    pub const ALL: [Self; 7] = [
        Self::TeeShots,
        Self::LongApproach,
        Self::MidIrons,
        Self::ShortIrons,
        Self::ShortGame,
        Self::Sand,
        Self::Putting,
    ];

    /// The name used everywhere: on the card, in flags and in JSON.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::TeeShots => "tee shots",
            Self::LongApproach => "long approach",
            Self::MidIrons => "mid irons",
            Self::ShortIrons => "short irons",
            Self::ShortGame => "short game",
            Self::Sand => "sand",
            Self::Putting => "putting",
        }
    }

    /// The part of that name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|part| part.name() == name)
    }

    /// The part of a full shot with `club`, tee shots of par 4s and 5s aside.
    #[must_use]
    pub fn of_club(club: Club) -> Self {
        if club.is_long() {
            Self::LongApproach
        } else if club.is_mid() {
            Self::MidIrons
        } else {
            Self::ShortIrons
        }
    }

    /// Whether it is one of full shots, which can be hit in the bay.
    #[must_use]
    pub const fn is_full(self) -> bool {
        !matches!(self, Self::ShortGame | Self::Sand | Self::Putting)
    }

    /// The part of a shot from within [`SHORT_GAME_YD`] of the green's edge.
    #[must_use]
    pub const fn near_green(lie: Lie) -> Self {
        match lie {
            Lie::Sand => Self::Sand,
            _ => Self::ShortGame,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::worth::PARTS;

    #[test]
    fn rules_know_the_words_of_all_parts() {
        assert_eq!(Part::ALL.map(Part::name), PARTS);
    }
}
