//! Where a club's shots land beside the target line: a sample of them, and the ellipses that hold a share.

use super::{GREEN_DEPTH_YD, GREEN_WIDTH_YD};
use crate::ball::air::{Air, Atmosphere};
use crate::ball::flight::{Flight, fly_all};
use crate::course::Point;
use crate::player::Golfer;
use crate::player::club::Club;
use crate::player::pattern::{Five, Pattern, PatternFault, strike_of};
use crate::round::draws::Draws;
use crate::round::spread::{Held, ellipses};

/// Strikes behind the ellipses of a club.
const NORMAL: usize = 1024;
/// Landings shown of a club, mishits among them in their share.
const SHOWN: usize = 80;

/// Where a club's shots land, in still air from a good lie.
#[derive(Debug, Clone, PartialEq)]
pub struct Landings {
    /// Which club.
    pub club: Club,
    /// Mean carry of shots that are no mishits, yards.
    pub carry_yd: f64,
    /// Share of mishits, 0 to 1.
    pub mishit_share: f64,
    /// Share of all shots, mishits included, that pitch on a round green [`GREEN_DEPTH_YD`] deep and [`GREEN_WIDTH_YD`]
    /// wide whose middle lies on the target line at the mean carry, percent.
    pub on_green_pct: f64,
    /// A sample of all shots: x is side, right positive, y is carry, yards.
    pub sample: Vec<Landed>,
    /// Ellipses that hold a share of the shots that are no mishits.
    pub ellipses: Vec<Held>,
}

/// One landing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Landed {
    /// Where.
    pub at: Point,
    /// Whether it was a mishit.
    pub mishit: bool,
}

/// Where the shots of some clubs land, in the order they are named. A club the golfer does not carry is that of the
/// clubs on either side of it.
///
/// # Errors
/// When a pattern is none.
pub fn landings(golfer: &Golfer, clubs: &[Club]) -> Result<Vec<Landings>, PatternFault> {
    let (draws, atmosphere) = (Draws::of(NORMAL, SHOWN), Atmosphere::new(&Air::standard()));
    let of = |&club: &Club| {
        let pattern = golfer.pattern_with(club)?;
        Some(landings_of(club, &pattern, &draws, &atmosphere))
    };
    clubs.iter().filter_map(of).collect()
}

fn landings_of(
    club: Club,
    pattern: &Pattern,
    draws: &Draws,
    atmosphere: &Atmosphere,
) -> Result<Landings, PatternFault> {
    let sampler = pattern.sampler()?;
    let normal: Vec<Five> = draws
        .normal
        .iter()
        .map(|draw| sampler.normal_strike(draw))
        .collect();
    let mishits: Vec<Five> = draws
        .mishit
        .iter()
        .map(|draw| sampler.mishit_strike(draw))
        .collect();
    let landed = |strikes: &[Five]| -> Vec<Point> {
        let strikes: Vec<_> = strikes.iter().map(strike_of).collect();
        fly_all(&strikes, atmosphere).iter().map(point).collect()
    };
    let (normal, mishits) = (landed(&normal), landed(&mishits));
    let share = sampler.mishit_share();
    let carry_yd = normal.iter().map(|point| point.y_yd).sum::<f64>() / normal.len() as f64;
    let on_green = |points: &[Point]| {
        let on = points.iter().filter(|point| is_on_green(point, carry_yd));
        on.count() as f64 / points.len().max(1) as f64
    };
    let shown_mishits = (share * SHOWN as f64).round() as usize;
    let sample = |points: &[Point], count: usize, mishit: bool| {
        let shown = points.iter().take(count);
        shown.map(|&at| Landed { at, mishit }).collect::<Vec<_>>()
    };
    let mut shown = sample(&normal, SHOWN - shown_mishits, false);
    shown.extend(sample(&mishits, shown_mishits, true));
    Ok(Landings {
        club,
        carry_yd,
        mishit_share: share,
        on_green_pct: 100.0 * ((1.0 - share) * on_green(&normal) + share * on_green(&mishits)),
        sample: shown,
        ellipses: ellipses(&normal),
    })
}

fn is_on_green(point: &Point, middle_yd: f64) -> bool {
    let across = point.x_yd / (GREEN_WIDTH_YD / 2.0);
    let along = (point.y_yd - middle_yd) / (GREEN_DEPTH_YD / 2.0);
    across.hypot(along) <= 1.0
}

fn point(flight: &Flight) -> Point {
    Point {
        x_yd: flight.side.yd(),
        y_yd: flight.carry.yd(),
    }
}
