//! The shot bank: every swing sampled once and flown once from every kind of lie, in one air.

mod kin;
mod reckoned;
mod sectors;

use std::sync::{Arc, OnceLock};

use crate::ball::Strike;
use crate::ball::air::{Air, Atmosphere};
use crate::ball::flight::{Flight, Landing, fly_all};
use crate::ball::turf::{Firmness, Run, Slope, Surface, Turf};
use crate::course::{Green, Hole, Lie};
use crate::player::pattern::{Five, Pattern, strike_of};
use crate::rules::hold;
use crate::rules::lies::{LieEffect, LieRule, lie_effect};
use crate::rules::{HoleRules, Stop};
use crate::units::Angle;

use reckoned::{KinLists, Like};
use sectors::{SECTORS, Sectors};

use super::draws::Draws;
use super::finish::Struck;
use super::place::Xy;
use super::ruled::{RuledGreen, RuledRuns, Told, in_yards};
use super::swing::Swing;

/// In a wind up to this, mph, every other direction will do: a shot flies in a wind at most 15° off.
const LIGHT_WIND_MPH: f64 = 8.0;
/// A guest has four directions.
const GUEST_STEP: usize = 6;
/// Kinds of ground a full shot is played from.
const GROUNDS: usize = GROUND_LIES.len();

/// One flown shot, in the frame of its aim: x right of it, y along it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Flown {
    pub(super) pitch: Xy,
    /// Unit vector of its travel at the pitch.
    pub(super) heading: Xy,
    descent_cotangent: f32,
    /// As it pitches. A shot that was reckoned, not flown, has that of the shot it was reckoned from, which nobody
    /// asks for: its runs are reckoned too, and no rule is asked about such shots.
    pub(super) landing: Landing,
    run_fairway_yd: f32,
    run_rough_yd: f32,
}

/// Normal strikes and mishits, flown.
pub(super) type FlownLists = Arc<[Vec<Flown>; 2]>;
/// Their runs on one kind of green, each in the frame of its travel, yards.
pub(super) type RunLists = Arc<[Vec<Xy>; 2]>;

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
    /// Run on this hole's green by the built-in rule, a displacement.
    pub run_green: Xy,
    /// Its place among the shots of its swing, mishits after normal strikes.
    pub number: u16,
}

/// All shots of one swing from one kind of ground, in one wind, on one hole.
#[derive(Debug)]
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
    /// Runs on the green where a rule stands in for the built-in one.
    pub ruled: Option<RuledRuns>,
}

impl SwingShots {
    /// One of the shots, to be played by the rules in force.
    #[inline]
    #[must_use]
    pub fn struck<'a>(&'a self, shot: &'a HoleShot, told: Told) -> Struck<'a> {
        Struck {
            shot,
            ruled: self.ruled.as_ref(),
            told,
        }
    }
}

/// The flown shots of one golfer in one air, over ground of one firmness.
#[derive(Debug)]
pub struct Bank {
    swings: Vec<Swing>,
    /// By swing and kind of ground: what the lie does.
    effects: Vec<[LieEffect; GROUNDS]>,
    atmosphere: Atmosphere,
    /// Sectors between two directions of the wind that are held; none in still air.
    sector_step: Option<usize>,
    turfs: [Turf; 2],
    draws: Draws,
    /// By degrees of freedom of a pattern: how far each draw is stretched.
    stretches: Vec<(f64, [Vec<f64>; 2])>,
    flown: Vec<OnceLock<FlownLists>>,
    /// The kinds of greens, and on each the runs of every list of shots.
    greens: Vec<Green>,
    green_runs: Vec<OnceLock<RunLists>>,
    /// By list of shots, once another bank's shots are reckoned from them.
    kin: Vec<OnceLock<Option<KinLists>>>,
    /// The bank that shots are reckoned from where they can be.
    like: Option<Like>,
}

/// How many shots and directions of the wind a bank holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fineness {
    /// Enough for figures that are shown.
    Stage,
    /// Half the draws, the first ones, and four directions of the wind: enough to compare two golfers who have as many.
    Guest,
}

/// What lies do to shots: a user's rule, and where its faults are noted; the built-in table without one.
#[derive(Clone, Copy)]
pub struct LiesBy<'a> {
    /// The rule.
    pub rule: Option<&'a dyn LieRule>,
    /// Where a fault of it is noted.
    pub stop: &'a Stop,
}

impl LiesBy<'_> {
    fn effects(self, swing: &Swing) -> [LieEffect; GROUNDS] {
        GROUND_LIES.map(|lie| {
            let rule = self.rule.filter(|_| !self.stop.is_stopped());
            match rule.map(|rule| rule.effect(lie, swing.club)) {
                Some(Ok(effect)) => effect,
                Some(Err(faults)) => {
                    self.stop.fail(faults);
                    LieEffect::NONE
                }
                None => lie_effect(lie, swing.club),
            }
        })
    }
}

impl Bank {
    /// A bank for these swings, in this air, on these greens. Nothing is flown before it is asked for.
    #[must_use]
    pub fn new(
        swings: Vec<Swing>,
        (air, ground): (&Air, Firmness),
        greens: Vec<Green>,
        lies: LiesBy<'_>,
        fineness: Fineness,
    ) -> Self {
        let turf = |surface| Turf::new(surface, ground, 0.0, Slope::LEVEL);
        let lists = swings.len() * GROUNDS * SECTORS;
        let draws = match fineness {
            Fineness::Stage => Draws::new(),
            Fineness::Guest => Draws::few(),
        };
        Self {
            atmosphere: Atmosphere::new(air),
            sector_step: match air.wind.mph() {
                calm if calm <= 0.0 => None,
                _ if fineness == Fineness::Guest => Some(GUEST_STEP),
                light if light <= LIGHT_WIND_MPH => Some(2),
                _ => Some(1),
            },
            turfs: [turf(Surface::Fairway), turf(Surface::Rough)],
            stretches: stretches(&swings, &draws),
            effects: swings.iter().map(|swing| lies.effects(swing)).collect(),
            swings,
            draws,
            flown: (0..lists).map(|_| OnceLock::new()).collect(),
            green_runs: (0..lists * greens.len()).map(|_| OnceLock::new()).collect(),
            greens,
            kin: (0..lists).map(|_| OnceLock::new()).collect(),
            like: None,
        }
    }

    /// The swings, longest club first.
    #[must_use]
    pub fn swings(&self) -> &[Swing] {
        &self.swings
    }

    fn flown(&self, slot: Slot) -> &FlownLists {
        self.flown[slot.index()].get_or_init(|| Arc::new(self.fly_all(slot)))
    }

    fn pattern(&self, slot: Slot) -> Pattern {
        self.swings[slot.swing].pattern_under(&self.effects[slot.swing][slot.ground])
    }

    fn fly_all(&self, slot: Slot) -> [Vec<Flown>; 2] {
        if let Some(reckoned) = self.reckoned(slot) {
            return reckoned;
        }
        let atmosphere = self.atmosphere.turned(slot.wind_from());
        self.strikes(slot)
            .map(|strikes| self.fly_and_run(&strikes, &atmosphere))
    }

    fn strikes(&self, slot: Slot) -> [Vec<Five>; 2] {
        let pattern = self.pattern(slot);
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
        [normal.collect(), mishit.collect()]
    }

    /// Runs on one kind of green, each in the frame of its travel.
    fn green_runs(&self, green: usize, slot: Slot) -> &RunLists {
        self.green_runs[green * self.flown.len() + slot.index()].get_or_init(|| {
            if let Some(reckoned) = self.reckoned_runs(green, slot) {
                return Arc::new(reckoned);
            }
            let runs = self
                .flown(slot)
                .each_ref()
                .map(|list| self.runs_on(green, list));
            Arc::new(runs)
        })
    }

    fn runs_on(&self, green: usize, shots: &[Flown]) -> Vec<Xy> {
        let turf = hold::turf(&self.greens[green]);
        let landings: Vec<Landing> = shots.iter().map(|shot| shot.landing).collect();
        turf.run_all(&landings).into_iter().map(in_yards).collect()
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
    sectors: Sectors,
    /// The green where a rule stands in for the built-in one.
    ruled: Option<Arc<RuledGreen>>,
    /// Rise of the ground over its length.
    grade: f32,
    shots: Vec<OnceLock<SwingShots>>,
}

impl<'a> HoleBank<'a> {
    /// The bank on `hole`, by its rules.
    #[must_use]
    pub fn new(bank: &'a Bank, hole: &Hole, rules: &HoleRules, stop: &Arc<Stop>) -> Self {
        Self {
            bank,
            ruled: RuledGreen::of(hole, rules, stop).map(Arc::new),
            green: bank
                .greens
                .iter()
                .position(|green| *green == hole.green)
                .unwrap_or(0),
            sectors: Sectors::new(bank.sector_step, hole.air.wind_from),
            grade: hole.grade as f32,
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
        let slot = Slot {
            swing,
            ground: ground(lie),
            sector: self.sectors.of(ahead),
        };
        self.shots[slot.index()].get_or_init(|| self.on_hole(slot))
    }

    fn on_hole(&self, slot: Slot) -> SwingShots {
        let flown = self.bank.flown(slot);
        let runs = self.bank.green_runs(self.green, slot);
        let placed = |list: usize, before: usize| -> Vec<HoleShot> {
            let shots = flown[list].iter().zip(&runs[list]).zip(before..);
            shots
                .map(|((flown, &run), number)| self.place(flown, run, number as u16))
                .collect()
        };
        let normal = placed(0, 0);
        let mishit = placed(1, normal.len());
        let mean = |figure: fn(&HoleShot) -> f32| {
            normal.iter().map(figure).sum::<f32>() / normal.len().max(1) as f32
        };
        let ruled = self.ruled.as_ref().map(|green| {
            let club = self.bank.swings[slot.swing].club;
            let lie = GROUND_LIES[slot.ground];
            RuledRuns::new(Arc::clone(green), flown.clone(), runs.clone(), club, lie)
        });
        SwingShots {
            centre: Xy::new(mean(|shot| shot.pitch.x), mean(|shot| shot.pitch.y)),
            run_green_yd: mean(|shot| shot.run_green.y)
                + ruled.as_ref().map_or(0.0, |ruled| ruled.gain_yd(&normal)),
            mishit_share: self.bank.pattern(slot).mishit.share as f32,
            normal,
            mishit,
            ruled,
        }
    }

    /// On ground that rises by a share g of the distance, a ball that comes down at an angle d pitches
    /// at carry/(1 + g·cot d): exact for a straight last part of the flight.
    fn place(&self, flown: &Flown, run: Xy, number: u16) -> HoleShot {
        let shortened = 1.0 / (1.0 + self.grade * flown.descent_cotangent).max(0.2);
        HoleShot {
            pitch: Xy::new(flown.pitch.x * shortened, flown.pitch.y * shortened),
            heading: flown.heading,
            run_fairway_yd: flown.run_fairway_yd,
            run_rough_yd: flown.run_rough_yd,
            run_green: run.turned(flown.heading),
            number,
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
