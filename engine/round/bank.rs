//! The shot bank: every swing sampled once and flown once from every kind of lie, in one air.

use std::sync::OnceLock;

use crate::ball::air::{Air, Atmosphere};
use crate::ball::flight::{Landing, fly};
use crate::ball::turf::{Firmness, Slope, Surface, Turf};
use crate::course::{Hole, Lie};
use crate::player::pattern::{Five, Pattern, strike_of};
use crate::units::Angle;

use super::draws::Draws;
use super::place::Xy;
use super::swing::Swing;

/// Wind directions a windy bank holds: one every 15°, so a shot flies in a wind at most 7.5° off.
const SECTORS: usize = 24;
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
    /// Their mean run on fairway, yards.
    pub run_fairway_yd: f32,
}

/// The flown shots of one golfer in one air, over ground of one firmness.
#[derive(Debug)]
pub struct Bank {
    swings: Vec<Swing>,
    atmosphere: Atmosphere,
    windy: bool,
    turfs: [Turf; 2],
    draws: Draws,
    flown: Vec<OnceLock<[Vec<Flown>; 2]>>,
}

impl Bank {
    /// A bank for these swings. Nothing is flown before it is asked for.
    #[must_use]
    pub fn new(swings: Vec<Swing>, air: &Air, ground: Firmness) -> Self {
        let turf = |surface| Turf::new(surface, ground, 0.0, Slope::LEVEL);
        let flown = (0..swings.len() * GROUNDS * SECTORS)
            .map(|_| OnceLock::new())
            .collect();
        Self {
            atmosphere: Atmosphere::new(air),
            windy: air.wind.mps() > 0.0,
            turfs: [turf(Surface::Fairway), turf(Surface::Rough)],
            swings,
            draws: Draws::new(),
            flown,
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
        let Ok(sampler) = pattern.sampler() else {
            // A golfer's patterns are checked when they are read; a broken one has no shots.
            return [Vec::new(), Vec::new()];
        };
        let fly_one = |five| self.fly_one(&five, &atmosphere);
        let Draws { normal, mishit } = &self.draws;
        [
            normal
                .iter()
                .map(|draw| fly_one(sampler.normal_strike(draw)))
                .collect(),
            mishit
                .iter()
                .map(|draw| fly_one(sampler.mishit_strike(draw)))
                .collect(),
        ]
    }

    fn fly_one(&self, five: &Five, atmosphere: &Atmosphere) -> Flown {
        let flight = fly(&strike_of(five), atmosphere);
        let velocity = flight.landing.velocity_mps;
        let run = |turf: &Turf| turf.run(&flight.landing).along.yd() as f32;
        Flown {
            pitch: Xy::new(flight.side.yd() as f32, flight.carry.yd() as f32),
            heading: Xy::new(velocity.x as f32, velocity.y as f32).unit(),
            descent_cotangent: (1.0 / flight.descent.rad().tan().max(0.05)) as f32,
            landing: flight.landing,
            run_fairway_yd: run(&self.turfs[0]),
            run_rough_yd: run(&self.turfs[1]),
        }
    }

    fn slot(&self, swing: usize, lie: Lie, wind_from: Angle) -> Slot {
        let sector = if self.windy {
            let step = 360.0 / SECTORS as f64;
            (wind_from.deg() / step).round().rem_euclid(SECTORS as f64) as usize
        } else {
            0
        };
        Slot {
            swing,
            ground: ground(lie),
            sector,
        }
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
    green: Turf,
    wind_from: Angle,
    /// Rise of the ground over its length.
    grade: f32,
    shots: Vec<OnceLock<SwingShots>>,
}

impl<'a> HoleBank<'a> {
    /// The bank on `hole`.
    #[must_use]
    pub fn new(bank: &'a Bank, hole: &Hole) -> Self {
        let slope = Slope {
            along_pct: hole.green.slope_along_pct,
            across_pct: hole.green.slope_across_pct,
        };
        Self {
            bank,
            green: Turf::new(
                Surface::Green,
                hole.green.firmness,
                hole.green.stimp_ft,
                slope,
            ),
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
        let [normal, mishit] = self.bank.flown(slot);
        let normal: Vec<_> = normal.iter().map(|flown| self.place(flown)).collect();
        let mishit: Vec<_> = mishit.iter().map(|flown| self.place(flown)).collect();
        let mean = |figure: fn(&HoleShot) -> f32| {
            normal.iter().map(figure).sum::<f32>() / normal.len().max(1) as f32
        };
        let pattern = self.bank.swings[slot.swing].pattern_from(GROUND_LIES[slot.ground]);
        SwingShots {
            centre: Xy::new(mean(|shot| shot.pitch.x), mean(|shot| shot.pitch.y)),
            run_green_yd: mean(|shot| shot.run_green.y),
            run_fairway_yd: mean(|shot| shot.run_fairway_yd),
            mishit_share: mishit_share(&pattern),
            normal,
            mishit,
        }
    }

    /// On ground that rises by a share g of the distance, a ball that comes down at an angle d pitches
    /// at carry/(1 + g·cot d): exact for a straight last part of the flight.
    fn place(&self, flown: &Flown) -> HoleShot {
        let shortened = 1.0 / (1.0 + self.grade * flown.descent_cotangent).max(0.2);
        let run = self.green.run(&flown.landing);
        let (along, across) = (run.along.yd() as f32, run.across.yd() as f32);
        HoleShot {
            pitch: Xy::new(flown.pitch.x * shortened, flown.pitch.y * shortened),
            heading: flown.heading,
            run_fairway_yd: flown.run_fairway_yd,
            run_rough_yd: flown.run_rough_yd,
            run_green: Xy::new(across, along).turned(flown.heading),
        }
    }
}

fn mishit_share(pattern: &Pattern) -> f32 {
    pattern.mishit.share as f32
}
