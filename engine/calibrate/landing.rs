//! Flies many strikes of a pattern and measures where they end.

use costcard::ball::Strike;
use costcard::ball::air::{Air, Atmosphere};
use costcard::ball::flight::{Flight, fly, fly_all};
use costcard::ball::turf::{Firmness, Run, Slope, Surface, Turf};
use costcard::player::pattern::{Draw, Five, Pattern, PatternFault, strike_of};
use rayon::prelude::*;

/// Draws a pattern is flown with.
const DRAWS: u32 = 4096;

/// Still air of standard tests, a medium fairway, and one set of draws for every pattern.
pub struct Bench {
    atmosphere: Atmosphere,
    fairway: Turf,
    draws: Vec<Draw>,
}

/// Where two thirds of the strikes end, yards.
pub struct Landings {
    pub width: f64,
    pub depth: f64,
}

impl Bench {
    pub fn new() -> Self {
        let draws = (0..DRAWS / 2).flat_map(|i| {
            let point =
                std::array::from_fn(|axis| f64::from(sobol_burley::sample(i, axis as u32, 1)));
            let draw = Draw::at(point);
            [draw, draw.mirrored()]
        });
        Self {
            atmosphere: Atmosphere::new(&Air::standard()),
            fairway: Turf::new(Surface::Fairway, Firmness::MEDIUM, 10.0, Slope::LEVEL),
            draws: draws.collect(),
        }
    }

    pub fn flight(&self, strike: &Five) -> Flight {
        fly(&strike_of(strike), &self.atmosphere)
    }

    /// Where a strike ends, yards right of and along the target line: at its pitch, or at rest on the fairway.
    pub fn end(&self, strike: &Five, runs: bool) -> [f64; 2] {
        let flight = self.flight(strike);
        if runs {
            rest(&flight, &self.fairway.run(&flight.landing))
        } else {
            pitch(&flight)
        }
    }

    /// Flies the normal strikes of a pattern.
    pub fn fly(&self, pattern: &Pattern, runs: bool) -> Result<Landings, PatternFault> {
        let sampler = pattern.sampler()?;
        let ends = self.ends(&|draw| sampler.normal_strike(draw), runs);
        let (across, along): (Vec<f64>, Vec<f64>) = ends.into_iter().map(|[x, y]| (x, y)).unzip();
        Ok(Landings {
            width: two_thirds(across),
            depth: two_thirds(along),
        })
    }

    /// Mean length of all drives, mishits and run included, yards.
    pub fn mean_drive_yd(&self, pattern: &Pattern) -> Result<f64, PatternFault> {
        let sampler = pattern.sampler()?;
        let mean = |strike: &(dyn Fn(&Draw) -> Five + Sync)| {
            let ends = self.ends(strike, true);
            ends.iter().map(|end| end[1]).sum::<f64>() / ends.len() as f64
        };
        let normal = mean(&|draw| sampler.normal_strike(draw));
        let mishit = mean(&|draw| sampler.mishit_strike(draw));
        Ok(normal + (mishit - normal) * sampler.mishit_share())
    }

    /// Where the strike of every draw ends: see [`Self::end`].
    fn ends(&self, strike: &(dyn Fn(&Draw) -> Five + Sync), runs: bool) -> Vec<[f64; 2]> {
        let heaps = self.draws.par_chunks(256);
        heaps
            .flat_map_iter(|draws| self.ends_of(draws, strike, runs))
            .collect()
    }

    fn ends_of(&self, draws: &[Draw], strike: &dyn Fn(&Draw) -> Five, runs: bool) -> Vec<[f64; 2]> {
        let strikes: Vec<Strike> = draws.iter().map(|draw| strike_of(&strike(draw))).collect();
        let flights = fly_all(&strikes, &self.atmosphere);
        if !runs {
            return flights.iter().map(pitch).collect();
        }
        let landings: Vec<_> = flights.iter().map(|flight| flight.landing).collect();
        let rolled = self.fairway.run_all(&landings);
        flights
            .iter()
            .zip(&rolled)
            .map(|(flight, run)| rest(flight, run))
            .collect()
    }
}

/// Where a flight pitches, yards right of and along the target line.
fn pitch(flight: &Flight) -> [f64; 2] {
    [flight.side.yd(), flight.carry.yd()]
}

/// Where a ball comes to rest.
fn rest(flight: &Flight, run: &Run) -> [f64; 2] {
    let travel = flight.landing.velocity_mps;
    let (sin, cos) = travel.x.atan2(travel.y).sin_cos();
    let (along, across) = (run.along.yd(), run.across.yd());
    let [x, y] = pitch(flight);
    [
        x + along * sin + across * cos,
        y + along * cos - across * sin,
    ]
}

/// The span between the sixth and the last sixth of the values: it holds two thirds of them.
fn two_thirds(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    let at = |share: f64| {
        let place = share * values.len() as f64 - 0.5;
        let (below, part) = (place.floor() as usize, place.fract());
        values[below] + (values[below + 1] - values[below]) * part
    };
    at(5.0 / 6.0) - at(1.0 / 6.0)
}
