//! Figures of the player beside those of a goal's golfers.

use crate::cost::figures::Figures;
use crate::player::skill::Putting;
use crate::round::nearness::BANDS_YD;
use crate::round::tally::Tally;
use crate::units::Length;

use super::Played;

/// Distances from which putts holed are told, feet.
const PUTTS_FT: [u8; 3] = [5, 8, 20];

/// What a figure is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FigureKind {
    /// Fairways hit, percent.
    FairwaysHit,
    /// Greens hit in regulation, percent.
    GreensHit,
    /// Full shots that pitch on a green and stay on it, percent.
    GreensHeld,
    /// Median of the distance that shots meant for the green leave to the hole, feet, by band of distance.
    Left {
        /// Which of [`BANDS_YD`].
        band: usize,
    },
    /// Holes with a missed green that are holed out in two strokes from grass near it, percent.
    UpAndDowns,
    /// The same from sand.
    SandSaves,
    /// Putts a round.
    Putts,
    /// Greens with three putts or more a round.
    ThreePutts,
    /// Putts holed from a distance on a level green, percent.
    Holed {
        /// The distance, feet.
        from_ft: u8,
    },
    /// Penalty strokes a round.
    Penalties,
}

/// One figure, means over the courses; none where there was nothing to count.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure {
    /// What it is of.
    pub kind: FigureKind,
    /// The player's.
    pub player: Option<f64>,
    /// That of the goal's golfers.
    pub goal: Option<f64>,
}

impl FigureKind {
    /// Every figure, in the order of a hole.
    #[must_use]
    pub fn all() -> Vec<Self> {
        let mut all = vec![Self::FairwaysHit, Self::GreensHit, Self::GreensHeld];
        all.extend((0..BANDS_YD.len()).rev().map(|band| Self::Left { band }));
        all.extend([Self::UpAndDowns, Self::SandSaves]);
        all.extend(PUTTS_FT.map(|from_ft| Self::Holed { from_ft }));
        all.extend([Self::Putts, Self::ThreePutts, Self::Penalties]);
        all
    }

    /// The name for other programs, with its unit.
    #[must_use]
    pub fn name(self) -> String {
        match self {
            Self::FairwaysHit => "fairways_hit_pct".to_owned(),
            Self::GreensHit => "greens_hit_pct".to_owned(),
            Self::GreensHeld => "greens_held_pct".to_owned(),
            Self::Left { band } => {
                let [from, to] = BANDS_YD[band];
                format!("left_from_{from:.0}_to_{to:.0}_yd_median_ft")
            }
            Self::UpAndDowns => "up_and_downs_pct".to_owned(),
            Self::SandSaves => "sand_saves_pct".to_owned(),
            Self::Putts => "putts_mean".to_owned(),
            Self::ThreePutts => "three_putts_mean".to_owned(),
            Self::Holed { from_ft } => format!("holed_from_{from_ft}_ft_pct"),
            Self::Penalties => "penalties_mean".to_owned(),
        }
    }

    /// The figure of one golfer on one course; counts are those of eighteen holes.
    fn of(self, figures: &Figures, tally: &Tally, putting: &Putting, loops: f64) -> Option<f64> {
        match self {
            Self::FairwaysHit => figures.fairways_hit_pct,
            Self::GreensHit => Some(figures.greens_hit_pct),
            Self::GreensHeld => figures.greens_held_pct,
            Self::Left { band } => tally.near[band].median_ft(),
            Self::UpAndDowns => tally.up_and_downs.made_pct(),
            Self::SandSaves => tally.sand_saves.made_pct(),
            Self::Putts => Some(loops * figures.putts_mean),
            Self::ThreePutts => Some(loops * figures.three_putts_mean),
            Self::Holed { from_ft } => {
                Some(100.0 * putting.holed(Length::from_ft(f64::from(from_ft))))
            }
            Self::Penalties => Some(loops * figures.penalties_mean),
        }
    }
}

/// Every figure of the player and of a goal's golfers, whose puttings are given in this order.
pub fn figures(played: &[Played], putting: &[Putting; 2]) -> Vec<Figure> {
    let figure = |kind: FigureKind| Figure {
        kind,
        player: mean_of(
            played
                .iter()
                .map(|on| kind.of(&on.own_figures, &on.own, &putting[0], on.loops)),
        ),
        goal: mean_of(
            played
                .iter()
                .map(|on| kind.of(&on.goal_figures, &on.goal, &putting[1], on.loops)),
        ),
    };
    FigureKind::all().into_iter().map(figure).collect()
}

/// The mean of the figures there are.
fn mean_of(figures: impl Iterator<Item = Option<f64>>) -> Option<f64> {
    let known: Vec<f64> = figures.flatten().collect();
    (!known.is_empty()).then(|| known.iter().sum::<f64>() / known.len() as f64)
}
