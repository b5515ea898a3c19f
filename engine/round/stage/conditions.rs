//! What shots of a course are flown in and land on: the kinds of weather and ground, and which of them each hole has.

use std::sync::Arc;

use crate::ball::air::Air;
use crate::ball::turf::Firmness;
use crate::course::{Course, Green, Hole};
use crate::player::Golfer;
use crate::round::bank::{Bank, Fineness, LiesBy};
use crate::round::swing::swings;
use crate::rules::Rulebook;
use crate::units::Angle;

/// Every kind of weather and ground that full shots of a course are flown in and pitch on.
#[derive(Debug, Clone)]
pub(super) struct Conditions {
    /// Air, ground, and a hole whose rule for lies it is. The direction of the wind makes no other kind: banks hold
    /// every direction.
    kinds: Vec<(Air, Firmness, usize)>,
    greens: Vec<Green>,
}

impl Conditions {
    /// Those of a course, and which of them each hole has.
    pub(super) fn of(course: &Course, rules: &Rulebook) -> (Self, Vec<usize>) {
        let numbered: Vec<(usize, &Hole)> = course.holes.iter().enumerate().collect();
        let (_, lies_of) = kinds(&numbered, |(index, _)| lies_key(rules, *index));
        let first = |lies: usize| lies_of.iter().position(|of| *of == lies).unwrap_or(0);
        let calm = |(index, hole): &(usize, &Hole)| {
            let air = Air {
                wind_from: Angle::ZERO,
                ..hole.air
            };
            (air, hole.firmness, first(lies_of[*index]))
        };
        let (found, weather) = kinds(&numbered, calm);
        let (greens, _) = kinds(&course.holes, |hole: &Hole| hole.green);
        let conditions = Self {
            kinds: found,
            greens,
        };
        (conditions, weather)
    }

    /// A golfer's banks, one for each kind.
    pub(super) fn banks(&self, golfer: &Golfer, rules: &Rulebook, fineness: Fineness) -> Vec<Bank> {
        let swings = swings(golfer);
        let bank = |(air, ground, hole): &(Air, Firmness, usize)| {
            let lies = LiesBy {
                rule: rules.hole(*hole).lies.as_deref(),
                stop: rules.stop(),
            };
            Bank::new(
                swings.clone(),
                (air, *ground),
                self.greens.clone(),
                lies,
                fineness,
            )
        };
        self.kinds.iter().map(bank).collect()
    }
}

/// Tells the rules for lies of two holes apart.
fn lies_key(rules: &Rulebook, hole: usize) -> Option<*const ()> {
    let rule = rules.hole(hole).lies.as_ref();
    rule.map(|rule| Arc::as_ptr(rule).cast())
}

/// The different values of a figure over the holes, and which of them each hole has.
pub(super) fn kinds<H, T: PartialEq>(holes: &[H], of: impl Fn(&H) -> T) -> (Vec<T>, Vec<usize>) {
    let mut kinds: Vec<T> = Vec::new();
    let index = holes
        .iter()
        .map(|hole| {
            let kind = of(hole);
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
