//! Traits: what about a golfer's clubs and touch costs him strokes, one at a time at another golfer's standard.

use super::bag::pattern_with;
use super::pattern::Pattern;
use super::skill::{Putting, Touch};
use super::{BagClub, Golfer};

/// What about a part of the game costs strokes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Trait {
    /// Ball speed: how far the ball goes.
    Speed,
    /// Where the normal strikes start and curve in the mean.
    Bias,
    /// How far they scatter to the sides.
    Direction,
    /// How far they scatter in distance.
    Distance,
    /// Launch and backspin: what holds a green, and what carries a hazard.
    HeightAndSpin,
    /// How often a strike is a mishit, and how bad it is then.
    Mishits,
}

impl Trait {
    /// Every trait of a full shot.
    pub const ALL: [Self; 6] = [
        Self::Speed,
        Self::Bias,
        Self::Direction,
        Self::Distance,
        Self::HeightAndSpin,
        Self::Mishits,
    ];

    /// The name used everywhere: on the card and in JSON.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Speed => "speed",
            Self::Bias => "direction bias",
            Self::Direction => "direction spread",
            Self::Distance => "distance control",
            Self::HeightAndSpin => "height and spin",
            Self::Mishits => "mishits",
        }
    }
}

/// Indices of a pattern's five figures.
const SPEED: usize = 0;
const LAUNCH: usize = 1;
const DIRECTION: usize = 2;
const BACKSPIN: usize = 3;
const SIDESPIN: usize = 4;

impl Golfer {
    /// The golfer with one trait of every club, of the short game, the sand shots and the putts at another's standard.
    ///
    /// All but speed is taken at the golfer's own ball speed: spin and the spread of speed grow with it.
    #[must_use]
    pub fn with_trait_of(&self, goal: &Self, which: Trait) -> Self {
        let club = |entry: &BagClub| {
            let theirs = pattern_with(&goal.clubs, entry.club);
            let pattern = theirs.map(|theirs| with_trait(&entry.pattern, &theirs, which));
            BagClub {
                pattern: pattern.unwrap_or_else(|| entry.pattern.clone()),
                ..entry.clone()
            }
        };
        Self {
            clubs: self.clubs.iter().map(club).collect(),
            short_game: (
                touch(self.short_game.0, goal.short_game.0, which),
                self.short_game.1,
            ),
            sand: (touch(self.sand.0, goal.sand.0, which), self.sand.1),
            putting: (
                putting(self.putting.0, goal.putting.0, which),
                self.putting.1,
            ),
            ..self.clone()
        }
    }

    /// The golfer at the ball speeds of another, club by club; the rest of his patterns grows with them.
    #[must_use]
    pub fn at_speed_of(&self, other: &Self) -> Self {
        let club = |entry: &BagClub| {
            let theirs = pattern_with(&other.clubs, entry.club);
            let speed = theirs.map_or(entry.pattern.mean[SPEED], |theirs| theirs.mean[SPEED]);
            BagClub {
                pattern: at_speed(&entry.pattern, speed),
                ..entry.clone()
            }
        };
        Self {
            clubs: self.clubs.iter().map(club).collect(),
            ..self.clone()
        }
    }
}

fn at_speed(pattern: &Pattern, speed_mph: f64) -> Pattern {
    if pattern.mean[SPEED] > 0.0 {
        pattern.scaled(speed_mph / pattern.mean[SPEED])
    } else {
        pattern.clone()
    }
}

fn with_trait(own: &Pattern, goal: &Pattern, which: Trait) -> Pattern {
    if which == Trait::Speed {
        return at_speed(own, goal.mean[SPEED]);
    }
    let goal = at_speed(goal, own.mean[SPEED]);
    let mut mixed = own.clone();
    let (means, spreads): (&[usize], &[usize]) = match which {
        Trait::Speed => (&[], &[]),
        Trait::Bias => (&[DIRECTION, SIDESPIN], &[]),
        Trait::Direction => (&[], &[DIRECTION, SIDESPIN]),
        Trait::Distance => (&[], &[SPEED, LAUNCH, BACKSPIN]),
        Trait::HeightAndSpin => (&[LAUNCH, BACKSPIN], &[]),
        Trait::Mishits => {
            mixed.mishit = goal.mishit;
            (&[], &[])
        }
    };
    for &index in means {
        mixed.mean[index] = goal.mean[index];
    }
    for &index in spreads {
        mixed.sd[index] = goal.sd[index];
    }
    mixed
}

fn touch(own: Touch, goal: Touch, which: Trait) -> Touch {
    match which {
        Trait::Direction => Touch {
            across_pct: goal.across_pct,
            ..own
        },
        Trait::Distance => Touch {
            along_pct: goal.along_pct,
            base_ft: goal.base_ft,
            ..own
        },
        Trait::Mishits => Touch {
            mishit_pct: goal.mishit_pct,
            ..own
        },
        Trait::Speed | Trait::Bias | Trait::HeightAndSpin => own,
    }
}

fn putting(own: Putting, goal: Putting, which: Trait) -> Putting {
    match which {
        Trait::Direction => Putting {
            direction_sd_deg: goal.direction_sd_deg,
            ..own
        },
        Trait::Distance => Putting {
            length_sd_pct: goal.length_sd_pct,
            past_ft: goal.past_ft,
            ..own
        },
        _ => own,
    }
}
