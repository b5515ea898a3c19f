//! The shot bank: every swing sampled once and flown once from every kind of lie, in one air.

use std::sync::OnceLock;

use crate::ball::Strike;
use crate::ball::air::{Air, Atmosphere};
use crate::ball::flight::{Flight, Landing, fly_all};
use crate::ball::turf::{Firmness, Run, Slope, Surface, Turf};
use crate::course::{Green, Hole, Lie};
use crate::player::pattern::{Five, strike_of};
use crate::units::Angle;

use super::draws::Draws;
use super::place::Xy;
use super::swing::Swing;

/// Wind directions a windy bank holds: one every 15°, so a shot flies in a wind at most 7.5° off.
const SECTORS: usize = 24;
/// In a wind up to this, mph, every other direction will do.
const LIGHT_WIND_MPH: f64 = 8.0;
/// Kinds of ground a full shot is played from.
const GROUNDS: usize = GROUND_LIES.len();

/// One flown shot, in the frame of its aim: x right of it, y along it.
#[derive(Debug, Clone, Copy)]
struct Flown {
    pitch: Xy,
    heading: Xy,
    descent_cotangent: f32,
    landing: Landing,
    run_fairway_yd: f32,
    run_rough_yd: f32,
}

/// One shot on one hole, in the frame of its aim.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HoleShot {
    /// Where it pitches.
    pub pitch: Xy,
    /// Unit vector of its travel at the pitch.
    pub heading: Xy,
    /// Run on fairway, yards; negative when it spins back.
    pub run_fairway_yd: f32,
    /// Run in rough, yards.
    pub run_rough_yd: f32,
    /// Run on this hole's green, a displacement.
    pub run_green: Xy,
}

/// All shots of one swing from one kind of ground, in one wind, on one hole.
#[derive(Debug, Clone, PartialEq)]
pub struct SwingShots {
    /// Normal strikes; all as likely as each other.
    pub normal: Vec<HoleShot>,
    /// Mishits; all as likely as each other.
    pub mishit: Vec<HoleShot>,
    /// Share of mishits.
    pub mishit_share: f32,
    /// Mean pitch of the normal strikes.
    pub centre: Xy,
    /// Their mean run on the green, yards along the line.
    pub run_green_yd: f32,
}

/// The flown shots of one golfer in one air, over ground of one firmness.
#[derive(Debug)]
pub struct Bank {
    swings: Vec<Swing>,
    atmosphere: Atmosphere,
    /// Sectors between two directions of the wind that are held; none in still air.
    sector_step: Option<usize>,
    turfs: [Turf; 2],
    draws: Draws,
    /// By degrees of freedom of a pattern: how far each draw is stretched.
    stretches: Vec<(f64, [Vec<f64>; 2])>,
    flown: Vec<OnceLock<[Vec<Flown>; 2]>>,
    /// The kinds of greens, and on each the runs of every list of shots.
    greens: Vec<Green>,
    green_runs: Vec<OnceLock<[Vec<Xy>; 2]>>,
}

impl Bank {
    /// A bank for these swings, in this air, on these greens. Nothing is flown before it is asked for.
    #[must_use]
    pub fn new(swings: Vec<Swing>, air: &Air, ground: Firmness, greens: Vec<Green>) -> Self {
        let turf = |surface| Turf::new(surface, ground, 0.0, Slope::LEVEL);
        let lists = swings.len() * GROUNDS * SECTORS;
        let draws = Draws::new();
        Self {
            atmosphere: Atmosphere::new(air),
            sector_step: match air.wind.mph() {
                calm if calm <= 0.0 => None,
                light if light <= LIGHT_WIND_MPH => Some(2),
                _ => Some(1),
            },
            turfs: [turf(Surface::Fairway), turf(Surface::Rough)],
            stretches: stretches(&swings, &draws),
            swings,
            draws,
            flown: (0..lists).map(|_| OnceLock::new()).collect(),
            green_runs: (0..lists * greens.len()).map(|_| OnceLock::new()).collect(),
            greens,
        }
    }

    /// The swings, longest club first.
    #[must_use]
    pub fn swings(&self) -> &[Swing] {
        &self.swings
    }

    fn flown(&self, slot: Slot) -> &[Vec<Flown>; 2] {
        self.flown[slot.index()].get_or_init(|| self.fly_all(slot))
    }

    fn fly_all(&self, slot: Slot) -> [Vec<Flown>; 2] {
        let pattern = self.swings[slot.swing].pattern_from(GROUND_LIES[slot.ground]);
        let atmosphere = self.atmosphere.turned(slot.wind_from());
        let stretches = self
            .stretches
            .iter()
            .find(|(dof, _)| *dof == pattern.tail_dof);
        let (Ok(sampler), Some((_, [normal, mishit]))) = (pattern.sampler(), stretches) else {
            // A golfer's patterns are checked when they are read; a broken one has no shots.
            return [Vec::new(), Vec::new()];
        };
        let normal = self.draws.normal.iter().zip(normal);
        let mishit = self.draws.mishit.iter().zip(mishit);
        let normal = normal.map(|(draw, &stretch)| sampler.normal_strike_at(draw, stretch));
        let mishit = mishit.map(|(draw, &stretch)| sampler.mishit_strike_at(draw, stretch));
        [normal.collect::<Vec<_>>(), mishit.collect()]
            .map(|strikes| self.fly_and_run(&strikes, &atmosphere))
    }

    /// Runs on one kind of green, in the frame of the aim.
    fn green_runs(&self, green: usize, slot: Slot) -> &[Vec<Xy>; 2] {
        self.green_runs[green * self.flown.len() + slot.index()].get_or_init(|| {
            let surface = &self.greens[green];
            let slope = Slope {
                along_pct: surface.slope_along_pct,
                across_pct: surface.slope_across_pct,
            };
            let turf = Turf::new(Surface::Green, surface.firmness, surface.stimp_ft, slope);
            self.flown(slot).each_ref().map(|list| {
                let landings: Vec<Landing> = list.iter().map(|flown| flown.landing).collect();
                let runs = turf.run_all(&landings);
                let turned = runs.iter().zip(list).map(|(run, flown)| {
                    Xy::new(run.across.yd() as f32, run.along.yd() as f32).turned(flown.heading)
                });
                turned.collect()
            })
        })
    }

    fn fly_and_run(&self, strikes: &[Five], atmosphere: &Atmosphere) -> Vec<Flown> {
        let strikes: Vec<Strike> = strikes.iter().map(strike_of).collect();
        let flights = fly_all(&strikes, atmosphere);
        let landings: Vec<Landing> = flights.iter().map(|flight| flight.landing).collect();
        let [fairway, rough] = self.turfs.each_ref().map(|turf| turf.run_all(&landings));
        let runs = fairway.iter().zip(&rough);
        let both = flights.iter().zip(runs);
        both.map(|(flight, runs)| flown(flight, runs)).collect()
    }

    fn slot(&self, swing: usize, lie: Lie, wind_from: Angle) -> Slot {
        let sector = self.sector_step.map_or(0, |step| {
            let degrees = 360.0 * step as f64 / SECTORS as f64;
            let sector = (wind_from.deg() / degrees)
                .round()
                .rem_euclid((SECTORS / step) as f64);
            sector as usize * step
        });
        Slot {
            swing,
            ground: ground(lie),
            sector,
        }
    }
}

fn flown(flight: &Flight, (run_fairway, run_rough): (&Run, &Run)) -> Flown {
    let velocity = flight.landing.velocity_mps;
    Flown {
        pitch: Xy::new(flight.side.yd() as f32, flight.carry.yd() as f32),
        heading: Xy::new(velocity.x as f32, velocity.y as f32).unit(),
        descent_cotangent: (1.0 / flight.descent.rad().tan().max(0.05)) as f32,
        landing: flight.landing,
        run_fairway_yd: run_fairway.along.yd() as f32,
        run_rough_yd: run_rough.along.yd() as f32,
    }
}

const GROUND_LIES: [Lie; 5] = [Lie::Tee, Lie::Fairway, Lie::Rough, Lie::Sand, Lie::Trees];

const fn ground(lie: Lie) -> usize {
    match lie {
        Lie::Tee => 0,
        Lie::Rough => 2,
        Lie::Sand => 3,
        Lie::Trees => 4,
        _ => 1,
    }
}

/// Which list of the bank.
#[derive(Debug, Clone, Copy)]
struct Slot {
    swing: usize,
    ground: usize,
    sector: usize,
}

impl Slot {
    const fn index(self) -> usize {
        (self.swing * GROUNDS + self.ground) * SECTORS + self.sector
    }

    fn wind_from(self) -> Angle {
        Angle::from_deg(self.sector as f64 * 360.0 / SECTORS as f64)
    }
}

/// A bank as it plays on one hole: over its green, up or down its slope.
#[derive(Debug)]
pub struct HoleBank<'a> {
    bank: &'a Bank,
    /// Which of the bank's greens.
    green: usize,
    wind_from: Angle,
    /// Rise of the ground over its length.
    grade: f32,
    shots: Vec<OnceLock<SwingShots>>,
}

impl<'a> HoleBank<'a> {
    /// The bank on `hole`.
    #[must_use]
    pub fn new(bank: &'a Bank, hole: &Hole) -> Self {
        Self {
            bank,
            green: bank
                .greens
                .iter()
                .position(|green| *green == hole.green)
                .unwrap_or(0),
            wind_from: hole.air.wind_from,
            grade: (hole.rise_yd / hole.length_yd) as f32,
            shots: (0..bank.flown.len()).map(|_| OnceLock::new()).collect(),
        }
    }

    /// The swings, longest club first.
    #[must_use]
    pub fn swings(&self) -> &'a [Swing] {
        self.bank.swings()
    }

    /// The shots of a swing from a lie, aimed along `ahead`.
    #[must_use]
    pub fn shots(&self, swing: usize, lie: Lie, ahead: Xy) -> &SwingShots {
        let aim = Angle::from_rad(f64::from(ahead.x.atan2(ahead.y)));
        let slot = self.bank.slot(swing, lie, self.wind_from - aim);
        self.shots[slot.index()].get_or_init(|| self.on_hole(slot))
    }

    fn on_hole(&self, slot: Slot) -> SwingShots {
        let flown = self.bank.flown(slot);
        let runs = self.bank.green_runs(self.green, slot);
        let placed = |list: usize| -> Vec<HoleShot> {
            let shots = flown[list].iter().zip(&runs[list]);
            shots
                .map(|(flown, &run_green)| self.place(flown, run_green))
                .collect()
        };
        let (normal, mishit) = (placed(0), placed(1));
        let mean = |figure: fn(&HoleShot) -> f32| {
            normal.iter().map(figure).sum::<f32>() / normal.len().max(1) as f32
        };
        let pattern = self.bank.swings[slot.swing].pattern_from(GROUND_LIES[slot.ground]);
        SwingShots {
            centre: Xy::new(mean(|shot| shot.pitch.x), mean(|shot| shot.pitch.y)),
            run_green_yd: mean(|shot| shot.run_green.y),
            mishit_share: pattern.mishit.share as f32,
            normal,
            mishit,
        }
    }

    /// On ground that rises by a share g of the distance, a ball that comes down at an angle d pitches
    /// at carry/(1 + g·cot d): exact for a straight last part of the flight.
    fn place(&self, flown: &Flown, run_green: Xy) -> HoleShot {
        let shortened = 1.0 / (1.0 + self.grade * flown.descent_cotangent).max(0.2);
        HoleShot {
            pitch: Xy::new(flown.pitch.x * shortened, flown.pitch.y * shortened),
            heading: flown.heading,
            run_fairway_yd: flown.run_fairway_yd,
            run_rough_yd: flown.run_rough_yd,
            run_green,
        }
    }
}

/// Chi-square quantiles are slow, and the same for every pattern of the same degrees of freedom.
fn stretches(swings: &[Swing], draws: &Draws) -> Vec<(f64, [Vec<f64>; 2])> {
    let mut known: Vec<(f64, [Vec<f64>; 2])> = Vec::new();
    for swing in swings {
        let Ok(sampler) = swing.pattern.sampler() else {
            continue;
        };
        if known.iter().all(|(dof, _)| *dof != swing.pattern.tail_dof) {
            let lists = [&draws.normal, &draws.mishit].map(|list| sampler.stretches(list));
            known.push((swing.pattern.tail_dof, lists));
        }
    }
    known
}
