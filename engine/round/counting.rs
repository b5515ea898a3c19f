//! Shots counted under the labels of a user's rule.

use std::collections::HashMap;
use std::sync::{Arc, PoisonError, RwLock};

use crate::course::{Hole, Lie};
use crate::rules::count::{Count, Label, ShotFacts};
use crate::rules::{HoleRules, Stop};

use super::bank::HoleShot;
use super::finish::{Finish, Line, Spot};
use super::ground::Ground;
use super::place::Xy;

/// Steps in which the way of a shot is looked over for water, yards.
const STEP_YD: f32 = 1.0;

/// The rule of one hole, and what it has answered: like shots are asked about once.
pub struct Counter {
    rule: Arc<dyn Count>,
    stop: Arc<Stop>,
    known: RwLock<HashMap<ShotFacts, Option<Label>>>,
}

impl Counter {
    /// A counter for a hole; none where nothing is counted on it.
    #[must_use]
    pub fn of(rules: &HoleRules, stop: &Arc<Stop>) -> Option<Self> {
        Some(Self {
            rule: rules.count.clone()?,
            stop: Arc::clone(stop),
            known: RwLock::default(),
        })
    }

    /// The label a shot is counted under.
    #[must_use]
    pub fn label(&self, shot: &ShotFacts) -> Option<Label> {
        // Every entry is whole, whatever became of the thread that wrote it.
        let known = self.known.read().unwrap_or_else(PoisonError::into_inner);
        if let Some(label) = known.get(shot) {
            return label.clone();
        }
        drop(known);
        if self.stop.is_stopped() {
            return None;
        }
        let label = self.rule.label(shot).unwrap_or_else(|faults| {
            self.stop.fail(faults);
            None
        });
        let mut known = self.known.write().unwrap_or_else(PoisonError::into_inner);
        known.insert(*shot, label.clone());
        label
    }
}

impl std::fmt::Debug for Counter {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Counter").finish_non_exhaustive()
    }
}

/// Whole yards from a place to the hole.
#[must_use]
pub fn to_pin_yd(hole: &Hole, at: Xy) -> u32 {
    // Conversion holds to what a number has room for: distances are never below zero.
    Xy::from(hole.pin).seen_from(at).length().round() as u32
}

/// Whether water lies under the way of a full shot, from the ball to its pitch, both aside.
#[must_use]
pub fn over_water(ground: &Ground, from: Spot, line: Line, shot: &HoleShot) -> bool {
    let way = shot.pitch.turned(line.ahead);
    let length = way.length() * line.eased;
    let step = way.unit();
    let mut gone = STEP_YD;
    while gone < length - STEP_YD {
        if ground.lie(from.at.moved(step, gone)) == Lie::Water {
            return true;
        }
        gone += STEP_YD;
    }
    false
}

/// The lie the next shot is played from.
#[must_use]
pub const fn ended(end: Option<&Finish>) -> Option<Lie> {
    match end {
        Some(end) => Some(end.spot.lie),
        None => None,
    }
}
