//! What a batch lacks, filled by physics: from the club's delivery through the impact, from the flight turned round,
//! and, where both are silent, from the level's golfer of the same speed.
//!
//! A figure that even the flight leaves open is not set to the level's mean, for then nobody's shots would differ in
//! it: each shot takes a strike drawn from the level as the usual one, and the likeliest strike that flies as seen is
//! looked for from there. So flights come out as they were measured, and spreads as wide as they are. How far the mean
//! is left open is the spread of what such draws come to for one and the same flight.

use std::collections::BTreeMap;

use nalgebra::{Matrix5, Vector5};
use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;
use rayon::prelude::*;

use super::batch::{Figures, Quantity, Shot};
use super::club::Club;
use super::heads;
use super::pattern::{Five, Pattern, Sampler, strike_of};
use super::posterior::Open;
use crate::ball::Strike;
use crate::ball::air::{Air, Atmosphere};
use crate::ball::flight::fly;
use crate::ball::impact::Delivery;
use crate::ball::invert::{Known, Reading, Seen, invert};
use crate::units::{Angle, Length, Speed, Spin};

/// Shots of a club that are turned round at most, taken evenly: beyond, what deriving leaves open is all the error.
const MOST_TURNED: usize = 200;
/// Draws from the level for how far deriving leaves the mean open.
const DRAWS: u64 = 48;

/// How closely the impact tells a ball from its delivery: ball speed and backspin as shares, launch and direction in
/// degrees, sidespin in rpm. Assumptions: heads differ, strikes off the middle lose speed, and devices measure loft
/// and path at different points.
const IMPACT_SD: Five = [0.02, 1.0, 0.8, 0.1, 150.0];

/// The strikes of one club, whole.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Strikes {
    /// One for each shot that was used, in order.
    pub list: Vec<Five>,
    /// Which of the shots given each strike is of.
    pub of: Vec<usize>,
    /// Shots no strike can be found for, and why.
    pub unflown: Vec<(usize, String)>,
    /// Which of the five figures were derived for some shot.
    pub derived: [bool; 5],
    /// What deriving leaves open.
    pub open: Option<Open>,
}

/// How a shot's missing figures are found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Way {
    /// Nothing is missing.
    Measured,
    /// Through the impact.
    Impact,
    /// From the flight.
    Flight,
    /// From the level.
    Level,
}

impl Way {
    fn of(figures: &Figures) -> Self {
        let known = |quantity: &Quantity| figures.get(*quantity).is_some();
        if Quantity::STRIKE.iter().all(known) {
            Self::Measured
        } else if figures.delivered().whole().is_some() {
            Self::Impact
        } else if Quantity::FLIGHT.iter().any(known) {
            Self::Flight
        } else {
            Self::Level
        }
    }
}

/// The strikes of shots with one club, `level` being the pattern of the player's level with it. Delivered lofts read
/// `loft_shift` more than the face has: see [`Golfer::loft_shift`](super::Golfer::loft_shift).
pub(super) fn strikes(club: Club, shots: &[&Shot], level: &Pattern, loft_shift: Angle) -> Strikes {
    let figures: Vec<(usize, &Figures)> = thinned(shots);
    let filler = Filler::new(Impact { club, loft_shift }, &figures, level);
    let usual = filler.usual_strikes(&figures);
    let mut found: Vec<(usize, Result<Five, String>)> = figures
        .par_iter()
        .zip(usual)
        .map(|((index, figures), usual)| (*index, filler.strike(figures, &usual)))
        .collect();
    found.sort_by_key(|(index, _)| *index);
    let mut strikes = Strikes {
        list: Vec::new(),
        of: Vec::new(),
        unflown: Vec::new(),
        derived: derived(&figures),
        open: None,
    };
    for (index, found) in found {
        match found {
            Ok(strike) => {
                strikes.list.push(strike);
                strikes.of.push(index);
            }
            Err(why) => strikes.unflown.push((index, why)),
        }
    }
    if strikes.derived.contains(&true) {
        strikes.open = filler.open(&figures);
    }
    strikes
}

/// The shots, thinned evenly where their flights would have to be turned round. They come in an order that is theirs,
/// wherever they stand in the sheet: what is drawn for one must not hang on that.
fn thinned<'a>(shots: &[&'a Shot]) -> Vec<(usize, &'a Figures)> {
    let mut ordered: Vec<(usize, &Shot)> = shots.iter().copied().enumerate().collect();
    ordered.sort_by_cached_key(|(_, shot)| shot.mark());
    let all = ordered
        .into_iter()
        .map(|(index, shot)| (index, &shot.figures));
    let turned = |figures: &Figures| Way::of(figures) == Way::Flight;
    let count = shots.iter().filter(|shot| turned(&shot.figures)).count();
    let step = count.div_ceil(MOST_TURNED).max(1);
    let mut met = 0;
    all.filter(|(_, figures)| {
        if !turned(figures) {
            return true;
        }
        met += 1;
        (met - 1) % step == 0
    })
    .collect()
}

fn derived(figures: &[(usize, &Figures)]) -> [bool; 5] {
    Quantity::STRIKE.map(|quantity| {
        figures
            .iter()
            .any(|(_, figures)| figures.measured(quantity).is_none())
    })
}

/// The impact of one club's head, as a device reads it.
#[derive(Debug, Clone, Copy)]
struct Impact {
    club: Club,
    loft_shift: Angle,
}

impl Impact {
    /// The ball of what was measured of the head, where all of it was. The impact knows the loft of a plane face, not
    /// what the device reads.
    fn strike(self, figures: &Figures) -> Option<Strike> {
        let delivery = figures.delivered().whole()?;
        Some(heads::head(self.club).strike(&Delivery {
            dynamic_loft: delivery.dynamic_loft - self.loft_shift,
            ..delivery
        }))
    }
}

/// Finds what is missing of one club's shots.
struct Filler {
    impact: Impact,
    /// The level at the player's own speed.
    usual: Pattern,
    /// Draws the level's normal strikes.
    sampler: Option<Sampler>,
    air: Atmosphere,
}

impl Filler {
    fn new(impact: Impact, figures: &[(usize, &Figures)], level: &Pattern) -> Self {
        let air = Atmosphere::new(&Air::standard());
        let mut usual = level.scaled(speed_ratio(impact, figures, level, &air));
        usual.mishit.share = 0.0;
        let sampler = usual.sampler().ok();
        Self {
            impact,
            usual,
            sampler,
            air,
        }
    }

    /// A strike of the level's golfer at the player's speed; other clubs have other draws.
    fn drawn(&self, stream: u64) -> Five {
        let club = self.impact.club.to_string();
        let own = club.bytes().fold(2_u64, |sum, byte| {
            sum.wrapping_mul(31).wrapping_add(u64::from(byte))
        });
        let mut rng = ChaCha8Rng::seed_from_u64(own);
        rng.set_stream(stream);
        self.sampler
            .as_ref()
            .map_or(self.usual.mean, |sampler| sampler.random(&mut rng))
    }

    /// For each shot the level's strike that stands for what the shot does not tell.
    fn usual_strikes(&self, figures: &[(usize, &Figures)]) -> Vec<Five> {
        let is_drawn = |figures: &Figures| matches!(Way::of(figures), Way::Flight | Way::Level);
        let count = figures.iter().filter(|(_, one)| is_drawn(one)).count();
        let mut drawn = self.evenly_drawn(count).into_iter();
        let mut usual = |figures: &Figures| match is_drawn(figures) {
            true => drawn.next().unwrap_or(self.usual.mean),
            false => self.usual.mean,
        };
        figures.iter().map(|(_, figures)| usual(figures)).collect()
    }

    /// So many strikes of the level, with its mean and its spreads: in pairs, one on either side of the mean and equally far
    /// from it, and every figure stretched to the level's standard deviation. A dozen plain draws have a mean and spreads
    /// of their own, which would be every player's pull, and his spread.
    fn evenly_drawn(&self, count: usize) -> Vec<Five> {
        let mean = self.usual.mean;
        let off = |pair: usize| -> Five {
            let drawn = self.drawn(pair as u64);
            std::array::from_fn(|i| drawn[i] - mean[i])
        };
        let pairs: Vec<Five> = (0..count / 2).map(off).collect();
        let stretch: Five = std::array::from_fn(|i| {
            let squares: f64 = pairs.iter().map(|off| off[i].powi(2)).sum();
            let sd = (squares / pairs.len() as f64).sqrt();
            if sd > 0.0 { self.usual.sd[i] / sd } else { 1.0 }
        });
        let strike = |off: &Five, side: f64| -> Five {
            std::array::from_fn(|i| mean[i] + side * stretch[i] * off[i])
        };
        let both = pairs
            .iter()
            .flat_map(|off| [strike(off, 1.0), strike(off, -1.0)]);
        both.chain((count % 2 == 1).then_some(mean)).collect()
    }

    fn strike(&self, figures: &Figures, usual: &Five) -> Result<Five, String> {
        let found = match Way::of(figures) {
            Way::Measured => [0.0; 5],
            Way::Impact => self
                .impact
                .strike(figures)
                .map_or(self.usual.mean, |strike| five_of(&strike)),
            Way::Flight => self.by_flight(figures, usual)?,
            Way::Level => *usual,
        };
        Ok(measured_over(figures, found))
    }

    fn by_flight(&self, figures: &Figures, usual: &Five) -> Result<Five, String> {
        let length = |quantity| figures.get(quantity).map(Length::from_yd);
        let angle = |quantity| figures.get(quantity).map(Angle::from_deg);
        let spin = |quantity| figures.get(quantity).map(Spin::from_rpm);
        let seen = Seen {
            carry: length(Quantity::Carry),
            side: length(Quantity::Side),
            apex: length(Quantity::Apex),
            descent: angle(Quantity::Descent),
        };
        let known = Known {
            ball_speed: figures.get(Quantity::BallSpeed).map(Speed::from_mph),
            launch: angle(Quantity::Launch),
            direction: angle(Quantity::Direction),
            backspin: spin(Quantity::Backspin),
            sidespin: spin(Quantity::Sidespin),
        };
        let usual_strike = strike_of(usual);
        // Where nobody saw the ball end to the side, a short carry must not be laid to a curve.
        let known = match seen.side {
            Some(_) => known,
            None => Known {
                direction: known.direction.or(Some(usual_strike.direction)),
                sidespin: known.sidespin.or(Some(usual_strike.sidespin)),
                ..known
            },
        };
        if !known.open().contains(&true) {
            return Ok(measured_over(figures, *usual));
        }
        invert(&seen, &known, &usual_strike, &Reading::DEVICE, &self.air)
            .map(|found| five_of(&found.strike))
            .map_err(|why| why.to_string())
    }

    /// What deriving leaves open of the mean: for each way by itself, and of all by their shares.
    fn open(&self, figures: &[(usize, &Figures)]) -> Option<Open> {
        let mut by_way: BTreeMap<(Way, [bool; 5]), Vec<&Figures>> = BTreeMap::new();
        for (_, figures) in figures {
            let missing = Quantity::STRIKE.map(|quantity| figures.get(quantity).is_none());
            by_way
                .entry((Way::of(figures), missing))
                .or_default()
                .push(figures);
        }
        let mut covariance = Matrix5::zeros();
        for ((way, missing), of_way) in by_way {
            let share = of_way.len() as f64 / figures.len() as f64;
            covariance += self.open_of(way, missing, &of_way) * share;
        }
        open_from(&covariance)
    }

    fn open_of(&self, way: Way, missing: [bool; 5], figures: &[&Figures]) -> Matrix5<f64> {
        match way {
            Way::Measured => Matrix5::zeros(),
            Way::Impact => {
                let [ball_speed, launch, direction, backspin, sidespin] = IMPACT_SD;
                let mean = self.usual.mean;
                let sd = [
                    ball_speed * mean[0],
                    launch,
                    direction,
                    backspin * mean[3],
                    sidespin,
                ];
                let variance = |i: usize| if missing[i] { sd[i].powi(2) } else { 0.0 };
                Matrix5::from_diagonal(&Vector5::from_fn(|i, _| variance(i)))
            }
            Way::Flight => {
                let middle = middle_of(figures);
                let found: Vec<Five> = (0..DRAWS)
                    .into_par_iter()
                    .filter_map(|draw| self.strike(&middle, &self.drawn(u64::MAX - draw)).ok())
                    .collect();
                covariance_of(&found)
            }
            Way::Level => {
                let of_level = self.usual.covariance();
                Matrix5::from_fn(|row, column| {
                    let open = missing[row] && missing[column];
                    if open { of_level[row][column] } else { 0.0 }
                })
            }
        }
    }
}

/// The player's speed over the level's, from the middle of whatever tells it.
fn speed_ratio(
    impact: Impact,
    figures: &[(usize, &Figures)],
    level: &Pattern,
    air: &Atmosphere,
) -> f64 {
    let all = |quantity: Quantity| -> Vec<f64> {
        let values = figures
            .iter()
            .filter_map(|(_, figures)| figures.get(quantity));
        values.collect()
    };
    if let Some(speed) = middle(all(Quantity::BallSpeed)) {
        return speed / level.mean[0];
    }
    let struck = figures
        .iter()
        .filter_map(|(_, figures)| Some(impact.strike(figures)?.ball_speed.mph()));
    if let Some(speed) = middle(struck.collect()) {
        return speed / level.mean[0];
    }
    let Some(carry) = middle(all(Quantity::Carry)) else {
        return 1.0;
    };
    let flown = |ratio: f64| {
        let strike = strike_of(&level.scaled(ratio).mean);
        fly(&strike, air).carry.yd()
    };
    // Carry grows with speed throughout.
    let (mut low, mut high) = (0.2, 2.0);
    for _ in 0..30 {
        let ratio = f64::midpoint(low, high);
        if flown(ratio) < carry {
            low = ratio;
        } else {
            high = ratio;
        }
    }
    f64::midpoint(low, high)
}

fn middle(mut values: Vec<f64>) -> Option<f64> {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied()
}

/// The middle shot: the median of each quantity that was measured.
fn middle_of(figures: &[&Figures]) -> Figures {
    let mut middle_shot = Figures::default();
    for quantity in Quantity::ALL {
        let values = figures.iter().filter_map(|figures| figures.get(quantity));
        if let Some(value) = middle(values.collect()) {
            middle_shot.measure(quantity, value);
        }
    }
    middle_shot
}

fn measured_over(figures: &Figures, found: Five) -> Five {
    std::array::from_fn(|i| figures.get(Quantity::STRIKE[i]).unwrap_or(found[i]))
}

fn five_of(strike: &Strike) -> Five {
    [
        strike.ball_speed.mph(),
        strike.launch.deg(),
        strike.direction.deg(),
        strike.backspin.rpm(),
        strike.sidespin.rpm(),
    ]
}

fn covariance_of(strikes: &[Five]) -> Matrix5<f64> {
    let count = strikes.len() as f64;
    if count < 2.0 {
        return Matrix5::zeros();
    }
    let vectors = || strikes.iter().map(|strike| Vector5::from(*strike));
    let mean: Vector5<f64> = vectors().sum::<Vector5<f64>>() / count;
    let scatter: Matrix5<f64> = vectors()
        .map(|strike| (strike - mean) * (strike - mean).transpose())
        .sum();
    scatter / (count - 1.0)
}

/// Standard deviations and correlations of a covariance; none when it is nothing.
fn open_from(covariance: &Matrix5<f64>) -> Option<Open> {
    let sd: Five = std::array::from_fn(|i| covariance[(i, i)].max(0.0).sqrt());
    if sd.iter().all(|sd| *sd == 0.0) {
        return None;
    }
    let correlation = std::array::from_fn(|row| {
        std::array::from_fn(|column| {
            let both = sd[row] * sd[column];
            match row == column {
                true => 1.0,
                false if both > 0.0 => covariance[(row, column)] / both,
                false => 0.0,
            }
        })
    });
    Some(Open { sd, correlation })
}
