//! What of a golfer can change: figures of the strike, of the delivery, spreads and mishits.

use std::fmt;

use super::who::Who;
use crate::player::batch::Quantity;
use crate::player::batch::quantity::Kind;
use crate::player::pattern::LOWEST_DEG;

/// A figure that can change.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Figure {
    /// Mean of one of the five figures of the strike.
    Mean(Quantity),
    /// Mean of a figure of the delivery; it goes through the impact.
    Head(Quantity),
    /// Spread of one of the five figures of the strike.
    Spread(Quantity),
    /// How far a ball ends left and right: of a club the spreads of start direction and sidespin, of a chip, bunker
    /// shot or putt the errors across the line.
    DirectionSpread,
    /// How far a ball ends long and short: of a club the spreads of ball speed, launch and backspin, of a chip, bunker
    /// shot or putt the errors along the line.
    DistanceSpread,
    /// All spreads.
    AllSpread,
    /// Share of mishits, percent of the shots.
    Mishits,
}

/// The figures of the strike, in the order of [`crate::player::pattern::Five`].
pub const MEANS: [Quantity; 5] = Quantity::STRIKE;

/// Every figure and what it is called, the name it is written under first.
const NAMES: [(Figure, &[&str]); 19] = [
    (Figure::Mean(Quantity::BallSpeed), &["ball_speed", "speed"]),
    (Figure::Mean(Quantity::Launch), &["launch", "launch_angle"]),
    (
        Figure::Mean(Quantity::Direction),
        &["start_direction", "direction"],
    ),
    (Figure::Mean(Quantity::Backspin), &["backspin", "spin"]),
    (Figure::Mean(Quantity::Sidespin), &["sidespin"]),
    (Figure::Head(Quantity::ClubSpeed), &["club_speed"]),
    (
        Figure::Head(Quantity::Attack),
        &["attack_angle", "attack", "angle_of_attack"],
    ),
    (Figure::Head(Quantity::Path), &["club_path", "path"]),
    (Figure::Head(Quantity::Face), &["face_angle", "face"]),
    (
        Figure::Head(Quantity::DynamicLoft),
        &["dynamic_loft", "loft"],
    ),
    (
        Figure::Spread(Quantity::BallSpeed),
        &["speed_spread", "ball_speed_spread"],
    ),
    (Figure::Spread(Quantity::Launch), &["launch_spread"]),
    (
        Figure::Spread(Quantity::Direction),
        &["start_direction_spread"],
    ),
    (
        Figure::Spread(Quantity::Backspin),
        &["backspin_spread", "spin_spread"],
    ),
    (Figure::Spread(Quantity::Sidespin), &["sidespin_spread"]),
    (Figure::DirectionSpread, &["direction_spread"]),
    (Figure::DistanceSpread, &["distance_spread"]),
    (Figure::AllSpread, &["spread"]),
    (Figure::Mishits, &["mishits", "mishit"]),
];

/// The widest spreads a pattern may have, in the order of the five figures: as wide as a player file may state.
const WIDEST: [f64; 5] = [30.0, 15.0, 20.0, 4000.0, 4000.0];

impl Figure {
    /// The figure of that name, words joined by `_`; with its trade unit after it too, as `ball_speed_mph`.
    pub(super) fn named(name: &str) -> Option<Self> {
        let known = |(figure, names): &&(Self, &[&str])| {
            let bare = figure.kind().and_then(|kind| {
                let (_, suffix) = (kind, kind.trade().suffix);
                name.strip_suffix(suffix)?.strip_suffix('_')
            });
            names.contains(&name) || bare.is_some_and(|bare| names.contains(&bare))
        };
        NAMES.iter().find(known).map(|(figure, _)| *figure)
    }

    /// The names of the figures that somebody has.
    pub(super) fn names_of(who: &Who) -> Vec<&'static str> {
        let fit = NAMES.iter().filter(|(figure, _)| figure.fits(who));
        fit.filter_map(|(_, names)| names.first().copied())
            .collect()
    }

    /// Whether somebody has this figure: around the green there are spreads and mishits, in putting only spreads.
    pub(super) fn fits(self, who: &Who) -> bool {
        let is_spread = matches!(
            self,
            Self::DirectionSpread | Self::DistanceSpread | Self::AllSpread
        );
        match who {
            Who::Clubs(_) => true,
            Who::ShortGame | Who::Sand => is_spread || self == Self::Mishits,
            Who::Putting => is_spread,
        }
    }

    /// What kind of thing it is, and so which units fit it; none for shares and for what stands for several figures.
    pub(super) const fn kind(self) -> Option<Kind> {
        match self {
            Self::Mean(quantity) | Self::Head(quantity) | Self::Spread(quantity) => {
                Some(quantity.kind())
            }
            _ => None,
        }
    }

    /// Whether it stands for several figures, which can only grow and shrink by a share together.
    pub(super) const fn is_many(self) -> bool {
        matches!(
            self,
            Self::DirectionSpread | Self::DistanceSpread | Self::AllSpread
        )
    }

    /// The values it can have, in the trade's units.
    pub(super) fn range(self) -> [f64; 2] {
        match self {
            Self::Mean(Quantity::Launch) => [LOWEST_DEG, *Quantity::Launch.range().end()],
            Self::Mean(quantity) | Self::Head(quantity) => {
                let range = quantity.range();
                [*range.start(), *range.end()]
            }
            Self::Spread(quantity) => [0.0, widest(quantity)],
            Self::Mishits => [0.0, 100.0],
            Self::DirectionSpread | Self::DistanceSpread | Self::AllSpread => [0.0, f64::INFINITY],
        }
    }

    /// Its name in a sentence.
    pub(super) fn words(self) -> String {
        match self {
            Self::Mean(Quantity::Direction) => "start direction".to_owned(),
            Self::Mean(quantity) | Self::Head(quantity) => quantity.words().to_owned(),
            Self::Spread(quantity) => format!("spread of {}", quantity.words()),
            Self::DirectionSpread => "spread of direction".to_owned(),
            Self::DistanceSpread => "spread of distance".to_owned(),
            Self::AllSpread => "spread".to_owned(),
            Self::Mishits => "share of mishits".to_owned(),
        }
    }

    /// A value of it with its unit, as people read it.
    pub(super) fn told(self, value: f64) -> String {
        match self {
            Self::Mean(quantity) | Self::Head(quantity) | Self::Spread(quantity) => {
                quantity.told(value)
            }
            _ => format!("{value:.1} %"),
        }
    }
}

fn widest(quantity: Quantity) -> f64 {
    let index = MEANS.iter().position(|mean| *mean == quantity);
    index.map_or(f64::INFINITY, |index| WIDEST[index])
}

impl fmt::Display for Figure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let own = NAMES.iter().find(|(figure, _)| figure == self);
        f.write_str(own.and_then(|(_, names)| names.first()).unwrap_or(&""))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_name_is_of_one_figure_alone() {
        for (figure, names) in NAMES {
            for name in names {
                assert_eq!(Figure::named(name), Some(figure), "{name}");
            }
        }
        assert_eq!(
            Figure::named("ball_speed_mph"),
            Some(Figure::Mean(Quantity::BallSpeed))
        );
        assert_eq!(Figure::named("ball_speed_rpm"), None);
    }
}
