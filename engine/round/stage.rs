//! A course set up for one or more golfers: banks flown, greens measured, holes ready to be solved.

mod conditions;

use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use rayon::prelude::*;

use crate::ball::putts::PuttTable;
use crate::course::{Course, Hole};
use crate::player::Golfer;
use crate::player::skill::Putting;
use crate::rules::Rulebook;

use super::bank::{Bank, Fineness, HoleBank};
use super::choose::SwingId;
use super::part::Part;
use super::side::Side;
use super::solve::{Asked, ReadyHole, Solved, Start, Thought, Variant};
use super::swing::Swing;
use super::touch::TouchShots;
use super::traffic::Traffic;
use super::values::Meshes;
use conditions::{Conditions, kinds};

/// A course and the golfers' shots in its air.
#[derive(Debug)]
pub struct Stage<'a> {
    course: &'a Course,
    golfers: &'a [&'a Golfer],
    rules: Rulebook,
    meshes: Arc<[Meshes]>,
    /// What shots are flown in and land on.
    conditions: Conditions,
    /// By golfer, then by kind of weather and ground; a golfer who is on other stages too has one bank for all.
    banks: Vec<Vec<Arc<Bank>>>,
    /// For each hole, which weather and ground it has.
    weather: Vec<usize>,
    /// Stimpmeter readings of the greens, feet.
    stimps_ft: Vec<f64>,
    /// For each hole, which reading it has.
    readings: Vec<usize>,
    /// The putts worked out so far, by reading.
    putts: Mutex<Vec<KnownPutts>>,
}

/// The banks of golfers on one hole, by golfer.
pub type HoleBanks<'a> = Vec<Arc<HoleBank<'a>>>;

/// The banks of golfers who come to a stage that stands already: see [`Stage::guests`].
#[derive(Debug)]
pub struct Guests {
    /// By golfer, then by kind of weather and ground.
    banks: Vec<Vec<Arc<Bank>>>,
}

/// A putting, and its putts by Stimpmeter reading.
type KnownPutts = (Putting, Arc<[PuttTable]>);

impl<'a> Stage<'a> {
    /// Sets the course up for `golfers`, by the built-in rules.
    #[must_use]
    pub fn new(course: &'a Course, golfers: &'a [&'a Golfer]) -> Self {
        Self::by_rules(course, golfers, &Rulebook::default())
    }

    /// Sets the course up for `golfers`. Whoever shows a figure asks [`Rulebook::outcome`] first.
    #[must_use]
    pub fn by_rules(course: &'a Course, golfers: &'a [&'a Golfer], rules: &Rulebook) -> Self {
        let (conditions, weather) = Conditions::of(course, rules);
        let (stimps_ft, readings) = kinds(&course.holes, |hole: &Hole| hole.green.stimp_ft);
        let banks = |golfer: &&Golfer| shared(conditions.banks(golfer, rules, Fineness::Stage));
        Self {
            course,
            golfers,
            rules: rules.clone(),
            meshes: course
                .holes
                .par_iter()
                .map(Meshes::of)
                .collect::<Vec<_>>()
                .into(),
            banks: golfers.iter().map(banks).collect(),
            conditions,
            weather,
            stimps_ft,
            readings,
            putts: Mutex::default(),
        }
    }

    /// The course of the first of some stages, by its rules, set up for other golfers. The first of them stand on those
    /// stages already, each under his number there: what was flown and worked out of them is theirs here too.
    ///
    /// # Panics
    /// Where no stage is given, or a number is none of its golfers.
    #[must_use]
    pub fn joined(golfers: &'a [&'a Golfer], known: &[(&Stage<'a>, usize)]) -> Self {
        let first = known[0].0;
        let shared = known
            .iter()
            .map(|(stage, number)| stage.banks[*number].clone());
        let new = golfers
            .iter()
            .skip(known.len())
            .map(|golfer| first.banks(golfer));
        let putts = known
            .iter()
            .flat_map(|(stage, _)| stage.known_putts().clone());
        Self {
            course: first.course,
            golfers,
            rules: first.rules.clone(),
            meshes: Arc::clone(&first.meshes),
            conditions: first.conditions.clone(),
            banks: shared.chain(new).collect(),
            weather: first.weather.clone(),
            stimps_ft: first.stimps_ft.clone(),
            readings: first.readings.clone(),
            putts: Mutex::new(putts.collect()),
        }
    }

    /// Every golfer's bank on every hole, those of `known` golfers as they stand on other stages of the same course: by
    /// hole, in the order of the stage's golfers.
    #[must_use]
    pub fn joined_banks(&'a self, known: &[(&[HoleBanks<'a>], usize)]) -> Vec<HoleBanks<'a>> {
        let on_hole = |index: usize| {
            let shared = known
                .iter()
                .map(|(banks, number)| Arc::clone(&banks[index][*number]));
            let new = self.on_hole(&self.banks[known.len()..], index);
            shared.chain(new).collect()
        };
        (0..self.course.holes.len()).map(on_hole).collect()
    }

    /// A golfer's banks, one for each kind of weather and ground. Nothing is flown yet.
    fn banks(&self, golfer: &Golfer) -> Vec<Arc<Bank>> {
        shared(self.conditions.banks(golfer, &self.rules, Fineness::Stage))
    }

    /// Every golfer's bank on every hole, by hole.
    #[must_use]
    pub fn hole_banks(&'a self) -> Vec<HoleBanks<'a>> {
        let holes = 0..self.course.holes.len();
        holes
            .map(|index| self.on_hole(&self.banks, index))
            .collect()
    }

    /// Golfers' banks on one hole.
    fn on_hole<'b>(&self, banks: &'b [Vec<Arc<Bank>>], index: usize) -> HoleBanks<'b> {
        let (hole, weather) = (&self.course.holes[index], self.weather[index]);
        let (rules, stop) = (self.rules.hole(index), self.rules.stop());
        let banks = banks.iter();
        banks
            .map(|banks| Arc::new(HoleBank::new(&banks[weather], hole, rules, stop)))
            .collect()
    }

    /// The banks of golfers who come to a stage that stands already.
    #[must_use]
    pub fn guests(&self, golfers: &[&Golfer]) -> Guests {
        Guests {
            banks: golfers.iter().map(|golfer| self.banks(golfer)).collect(),
        }
    }

    /// Banks whose shots are reckoned from the first golfer's, where no rule stands in for the built-in run on greens.
    fn like_first(&self, banks: Vec<Bank>) -> Vec<Arc<Bank>> {
        let mut holes = 0..self.course.holes.len();
        let is_ruled = holes.any(|hole| self.rules.hole(hole).hold.is_some());
        match self.banks.first() {
            Some(first) if !is_ruled => {
                let like = banks.into_iter().zip(first);
                shared(like.map(|(bank, first)| bank.like(first)).collect())
            }
            _ => shared(banks),
        }
    }

    /// The banks of the stage's golfers on every hole, and behind them those of its guests.
    #[must_use]
    pub fn with_guests(
        &'a self,
        banks: &[HoleBanks<'a>],
        guests: &'a Guests,
    ) -> Vec<HoleBanks<'a>> {
        let on_hole = |(index, own): (usize, &HoleBanks<'a>)| {
            let guests = self.on_hole(&guests.banks, index);
            own.iter().cloned().chain(guests).collect()
        };
        banks.iter().enumerate().map(on_hole).collect()
    }

    /// The side of a guest by number. Swings that the stage's first golfer or a guest before this one has too are taken
    /// from him, so that only what is new must be flown.
    #[must_use]
    pub fn side_of_guest(&self, guests: &Guests, number: usize, golfer: &Golfer) -> Side {
        let first = self.banks.iter().take(1).map(|banks| (0, banks));
        let before = guests.banks[..=number].iter().zip(self.golfers.len()..);
        let known: Vec<(usize, &[Swing])> = first
            .chain(before.map(|(banks, bank)| (bank, banks)))
            .map(|(bank, banks)| (bank, banks[0].swings()))
            .collect();
        let id = |swing: &Swing| {
            let found = |(bank, swings): &(usize, &[Swing])| {
                let place = swings.iter().position(|other| other == swing)?;
                swing_id(*bank, place)
            };
            known.iter().find_map(found)
        };
        let swings = guests.banks[number][0].swings();
        let swings: Vec<SwingId> = swings.iter().filter_map(id).collect();
        Side {
            tee: swings.clone(),
            field: swings,
            touch: TouchShots::new(golfer.short_game.0, golfer.sand.0),
            putting: golfer.putting.0,
            putts: self.putts(golfer.putting.0),
        }
    }

    /// The bank of a golfer who is not on the stage, on every hole, for as long as `then` takes: fewer shots of every
    /// swing, and fewer directions of the wind, than those on the stage have; to be compared with another guest. Where
    /// no rule for greens is in force, what becomes of his shots is reckoned from the first golfer's.
    pub fn with_guest<R>(&self, guest: &Golfer, then: impl FnOnce(&[Arc<HoleBank<'_>>]) -> R) -> R {
        let banks = self.conditions.banks(guest, &self.rules, Fineness::Guest);
        let banks = [self.like_first(banks)];
        let holes = 0..self.course.holes.len();
        let all: HoleBanks<'_> = holes
            .flat_map(|index| self.on_hole(&banks, index))
            .collect();
        then(&all)
    }

    /// The full swings of a part that one of the stage's golfers has.
    #[must_use]
    pub fn swings_of(&self, golfer: usize, part: Part) -> Vec<SwingId> {
        let all = numbered(&self.banks[golfer], golfer);
        let of_part = all.filter(|(_, of)| *of == part);
        of_part.map(|(id, _)| id).collect()
    }

    /// A side that plays each part as the golfer whose number `plays` gives for it.
    #[must_use]
    pub fn side(&self, plays: impl Fn(Part) -> usize) -> Side {
        self.side_of(self.golfers, plays)
    }

    /// A side that plays each part as the golfer whose number `plays` gives for it, where `golfers` have the clubs of
    /// the stage's, one by one, but may chip, pitch and putt otherwise.
    #[must_use]
    pub fn side_of(&self, golfers: &[&Golfer], plays: impl Fn(Part) -> usize) -> Side {
        let banks = &self.banks;
        let all = |golfer: usize| numbered(&banks[golfer], golfer);
        let field = (0..banks.len())
            .flat_map(all)
            .filter(|(id, part)| plays(*part) == id.bank as usize)
            .map(|(id, _)| id)
            .collect();
        let grass = golfers[plays(Part::ShortGame)].short_game.0;
        let sand = golfers[plays(Part::Sand)].sand.0;
        let putting = golfers[plays(Part::Putting)].putting.0;
        Side {
            tee: all(plays(Part::TeeShots)).map(|(id, _)| id).collect(),
            field,
            touch: TouchShots::new(grass, sand),
            putting,
            putts: self.putts(putting),
        }
    }

    /// The putts of a putting, worked out when they are first asked for.
    fn putts(&self, putting: Putting) -> Arc<[PuttTable]> {
        let known = || self.known_putts();
        let found = |(other, putts): &KnownPutts| (*other == putting).then(|| Arc::clone(putts));
        if let Some(putts) = known().iter().find_map(found) {
            return putts;
        }
        // Not while the list is locked: a thread that waits for its share of this work may take up other work, which
        // asks for putts too.
        let table = |&stimp_ft: &f64| PuttTable::new(&putting.stroke(), stimp_ft);
        let putts: Arc<[PuttTable]> = self.stimps_ft.par_iter().map(table).collect();
        known().push((putting, Arc::clone(&putts)));
        putts
    }

    fn known_putts(&self) -> MutexGuard<'_, Vec<KnownPutts>> {
        self.putts.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Solves every hole for `side`, from another side's solution where there is one.
    #[must_use]
    pub fn solve(
        &'a self,
        banks: &'a [HoleBanks<'a>],
        side: &'a Side,
        start: Option<&'a [Solved<'a>]>,
    ) -> Vec<Solved<'a>> {
        match start {
            Some(start) => self.solve_after(banks, side, start, Thought::Whole),
            None => self.solve_each(banks, side, |_| Start::Afresh),
        }
    }

    /// Solves every hole for `side` from another side's solution, with so much thought about its choices.
    #[must_use]
    pub fn solve_after(
        &'a self,
        banks: &'a [HoleBanks<'a>],
        side: &'a Side,
        start: &'a [Solved<'a>],
        thought: Thought,
    ) -> Vec<Solved<'a>> {
        self.solve_each(banks, side, |index| Start::From(&start[index], thought))
    }

    fn solve_each(
        &'a self,
        banks: &'a [HoleBanks<'a>],
        side: &'a Side,
        start: impl Fn(usize) -> Start<'a> + Sync,
    ) -> Vec<Solved<'a>> {
        (0..self.course.holes.len())
            .into_par_iter()
            .map(|index| self.solve_one(index, banks, side, start(index)))
            .collect()
    }

    /// What is to be expected, hole by hole, of a side that plays much like one whose holes are solved; decided anew
    /// where balls come by.
    #[must_use]
    pub fn variant<'b>(
        &self,
        banks: &'b [HoleBanks<'b>],
        side: &'b Side,
        start: &'b [Solved<'b>],
        worth: &[Traffic],
        asked: Asked<'_>,
    ) -> Vec<Variant> {
        let holes = start.par_iter().zip(worth).enumerate();
        holes
            .map(|(index, (start, worth))| {
                let putts = &side.putts[self.readings[index]];
                start.variant((side, putts), &banks[index], worth, asked)
            })
            .collect()
    }

    /// Solves one hole afresh, by its place on the course.
    #[must_use]
    pub fn solve_hole(
        &'a self,
        index: usize,
        banks: &'a [HoleBanks<'a>],
        side: &'a Side,
    ) -> Solved<'a> {
        self.solve_one(index, banks, side, Start::Afresh)
    }

    fn solve_one(
        &'a self,
        index: usize,
        banks: &'a [HoleBanks<'a>],
        side: &'a Side,
        start: Start<'a>,
    ) -> Solved<'a> {
        let putts = &side.putts[self.readings[index]];
        Solved::new(self.ready_hole(index, banks), side, putts, start)
    }

    fn ready_hole(&'a self, index: usize, banks: &'a [HoleBanks<'a>]) -> ReadyHole<'a> {
        ReadyHole {
            hole: &self.course.holes[index],
            meshes: &self.meshes[index],
            banks: &banks[index],
            stop: self.rules.stop(),
        }
    }
}

/// The swings of a golfer, by his banks, and the part each belongs to.
fn numbered(banks: &[Arc<Bank>], golfer: usize) -> impl Iterator<Item = (SwingId, Part)> {
    let swings = banks[0].swings().iter().enumerate();
    swings.filter_map(move |(number, swing)| Some((swing_id(golfer, number)?, swing.part)))
}

/// The name of a swing by the numbers of its golfer and of itself; none beyond what a name has room for, rather than that
/// of another swing.
fn swing_id(golfer: usize, swing: usize) -> Option<SwingId> {
    Some(SwingId {
        bank: u8::try_from(golfer).ok()?,
        swing: u8::try_from(swing).ok()?,
    })
}

fn shared(banks: Vec<Bank>) -> Vec<Arc<Bank>> {
    banks.into_iter().map(Arc::new).collect()
}
