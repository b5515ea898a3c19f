//! A course set up for one or more golfers: banks flown, greens measured, holes ready to be solved.

use rayon::prelude::*;

use crate::ball::air::Air;
use crate::ball::putts::PuttTable;
use crate::ball::turf::Firmness;
use crate::course::{Course, Hole};
use crate::player::Golfer;
use crate::player::skill::Putting;

use super::bank::{Bank, HoleBank};
use super::choose::SwingId;
use super::part::Part;
use super::solve::{Side, Solved};
use super::swing::swings;
use super::touch::TouchShots;
use super::values::Meshes;

/// A course and the golfers' shots in its air.
#[derive(Debug)]
pub struct Stage<'a> {
    course: &'a Course,
    golfers: &'a [&'a Golfer],
    meshes: Vec<Meshes>,
    /// By golfer, then by kind of weather and ground.
    banks: Vec<Vec<Bank>>,
    /// For each hole, which weather and ground it has.
    weather: Vec<usize>,
}

impl<'a> Stage<'a> {
    /// Sets the course up for `golfers`.
    #[must_use]
    pub fn new(course: &'a Course, golfers: &'a [&'a Golfer]) -> Self {
        let (kinds, weather) = weathers(&course.holes);
        let banks = golfers
            .iter()
            .map(|golfer| {
                let swings = swings(golfer);
                kinds
                    .iter()
                    .map(|(air, ground)| Bank::new(swings.clone(), air, *ground))
                    .collect()
            })
            .collect();
        let meshes = course.holes.par_iter().map(Meshes::of).collect();
        Self {
            course,
            golfers,
            meshes,
            banks,
            weather,
        }
    }

    /// Every golfer's bank on every hole, by hole.
    #[must_use]
    pub fn hole_banks(&'a self) -> Vec<Vec<HoleBank<'a>>> {
        let on_hole = |(hole, &weather): (&'a Hole, &usize)| {
            self.banks
                .iter()
                .map(|banks| HoleBank::new(&banks[weather], hole))
                .collect()
        };
        self.course
            .holes
            .iter()
            .zip(&self.weather)
            .map(on_hole)
            .collect()
    }

    /// A side that plays each part as the golfer whose number `plays` gives for it.
    #[must_use]
    pub fn side(&self, plays: impl Fn(Part) -> usize) -> Side {
        let swings = |golfer: usize| self.banks[golfer][0].swings();
        let all = |golfer: usize| {
            swings(golfer).iter().enumerate().map(move |(swing, s)| {
                (
                    SwingId {
                        bank: golfer as u8,
                        swing: swing as u8,
                    },
                    s.part,
                )
            })
        };
        let field = (0..self.golfers.len())
            .flat_map(all)
            .filter(|(id, part)| plays(*part) == id.bank as usize)
            .map(|(id, _)| id)
            .collect();
        let grass = self.golfers[plays(Part::ShortGame)].short_game.0;
        let sand = self.golfers[plays(Part::Sand)].sand.0;
        Side {
            tee: all(plays(Part::TeeShots)).map(|(id, _)| id).collect(),
            field,
            touch: TouchShots::new(grass, sand),
            putts: putts_by_hole(
                self.golfers[plays(Part::Putting)].putting.0,
                &self.course.holes,
            ),
        }
    }

    /// Solves every hole for `side`, from another side's solution where there is one.
    #[must_use]
    pub fn solve(
        &'a self,
        banks: &'a [Vec<HoleBank<'a>>],
        side: &'a Side,
        start: Option<&[Solved<'a>]>,
    ) -> Vec<Solved<'a>> {
        (0..self.course.holes.len())
            .into_par_iter()
            .map(|index| {
                let start = start.map(|start| &start[index]);
                let (hole, meshes) = (&self.course.holes[index], &self.meshes[index]);
                Solved::new(hole, meshes, &banks[index], side, side.putts(index), start)
            })
            .collect()
    }
}

/// The different kinds of weather and ground of a course, and each hole's kind. The direction of the
/// wind is no difference: banks hold every direction.
fn weathers(holes: &[Hole]) -> (Vec<(Air, Firmness)>, Vec<usize>) {
    let mut kinds: Vec<(Air, Firmness)> = Vec::new();
    let index = holes
        .iter()
        .map(|hole| {
            let air = Air {
                wind_from: crate::units::Angle::ZERO,
                ..hole.air
            };
            let kind = (air, hole.firmness);
            kinds
                .iter()
                .position(|known| *known == kind)
                .unwrap_or_else(|| {
                    kinds.push(kind);
                    kinds.len() - 1
                })
        })
        .collect();
    (kinds, index)
}

/// A table per Stimpmeter reading, and which hole has which.
fn putts_by_hole(putting: Putting, holes: &[Hole]) -> (Vec<PuttTable>, Vec<usize>) {
    let mut readings: Vec<f64> = Vec::new();
    let index = holes
        .iter()
        .map(|hole| {
            let stimp_ft = hole.green.stimp_ft;
            readings
                .iter()
                .position(|known| *known == stimp_ft)
                .unwrap_or_else(|| {
                    readings.push(stimp_ft);
                    readings.len() - 1
                })
        })
        .collect();
    let tables = readings
        .into_iter()
        .map(|stimp_ft| PuttTable::new(&putting.stroke(), stimp_ft))
        .collect();
    (tables, index)
}
