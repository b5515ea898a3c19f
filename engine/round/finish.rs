//! From the pitch to where the next shot is played: the run over changing lies, water and out of bounds.

use crate::course::Lie;

use super::bank::HoleShot;
use super::ground::{Cell, Ground};
use super::place::Xy;
use super::ruled::{RuledRuns, Told};
use super::values::Values;

/// A run over a boundary into trees goes on for this share of what it would in rough (an assumption).
pub(super) const TREES_RUN: f32 = 0.4;

/// A run over changing lies is followed in steps of this size, yards: that of the grid, so that no creek is stepped over.
pub(super) const STEP_YD: f32 = 1.0;

/// A ball that is about to play: where, and on what.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// Place.
    pub at: Xy,
    /// Lie.
    pub lie: Lie,
}

/// What became of a shot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Finish {
    /// Where the next shot is played from; the old spot after stroke and distance.
    pub spot: Spot,
    /// Penalty strokes.
    pub penalty: u8,
    /// Stroke and distance: the next shot is played from where this one was.
    pub replay: bool,
    /// The lie the ball pitched on.
    pub pitched: Lie,
}

/// The line a shot is hit on: its direction, and how much of the swing's distance is used.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// Unit vector of the aim in the hole's frame.
    pub ahead: Xy,
    /// Share of the swing's distance, at most 1.
    pub eased: f32,
}

/// A shot to be played, and the rule for its runs on the green where one stands in for the built-in one.
#[derive(Debug, Clone, Copy)]
pub struct Struck<'a> {
    /// The shot.
    pub shot: &'a HoleShot,
    /// The rule.
    pub ruled: Option<&'a RuledRuns>,
    /// How finely the rule is told the place.
    pub told: Told,
}

/// Plays a shot from `from` along `line` to its end.
#[inline]
#[must_use]
pub fn finish(ground: &Ground, from: Spot, line: Line, struck: Struck<'_>) -> Finish {
    let shot = struck.shot;
    let pitch = from.at.moved(shot.pitch.turned(line.ahead), line.eased);
    let cell = ground.at(pitch);
    let pitched = cell.lie;
    match pitched {
        Lie::OutOfBounds => stroke_and_distance(from, pitched),
        Lie::Water => drop_behind(ground, from, pitch, from.at, pitched),
        Lie::Sand => at_rest(pitch, pitched, pitched),
        _ => {
            let run = struck.run_on(pitched, pitch).turned(line.ahead);
            // Most balls stop on what they pitched on: no need to walk.
            if run.length() <= f32::from(cell.clear_yd) {
                return at_rest(pitch.moved(run, 1.0), pitched, pitched);
            }
            roll_out(ground, from, struck, run, pitch, cell)
        }
    }
}

impl Finish {
    /// A ball to be dropped is played again from where it was instead, where that leaves fewer strokes than from the
    /// drop: both cost one penalty stroke, and the choice is the player's (Rules of Golf, Rule 17.1d). `again` is what
    /// is expected from there.
    #[must_use]
    pub fn or_again(self, from: Spot, values: &Values<'_>, again: impl FnOnce() -> f32) -> Self {
        let dropped = self.penalty > 0 && !self.replay;
        if dropped && values.at(self.spot) > again() {
            return stroke_and_distance(from, self.pitched);
        }
        self
    }
}

/// The ball lies where it is.
#[must_use]
pub fn at_rest(at: Xy, lie: Lie, pitched: Lie) -> Finish {
    Finish {
        spot: Spot { at, lie },
        penalty: 0,
        replay: false,
        pitched,
    }
}

/// One penalty stroke, and the shot again.
#[must_use]
pub fn stroke_and_distance(from: Spot, pitched: Lie) -> Finish {
    Finish {
        spot: from,
        penalty: 1,
        replay: true,
        pitched,
    }
}

/// The run: each surface uses up the ball's way at its own rate, so that a ball that runs 30 yd on
/// fairway and 10 in rough has, after 15 on the fairway, 5 left in the rough.
///
/// The places looked at on one surface are known beforehand, none waits for the one before: that is what makes it
/// quick. Up to `clear_yd` from the pitch nothing changes.
fn roll_out(
    ground: &Ground,
    from: Spot,
    struck: Struck<'_>,
    run: Xy,
    pitch: Xy,
    Cell {
        lie: pitched,
        clear_yd,
    }: Cell,
) -> Finish {
    let (direction, way) = (run.unit(), run.length());
    let first = f32::from(clear_yd).max(STEP_YD);
    match edge(ground, pitch, direction, pitched, first, way) {
        None => at_rest(pitch.moved(direction, way), pitched, pitched),
        Some(met) => {
            let rolling = Rolling {
                pitch,
                pitched,
                direction,
                way_yd: way,
            };
            roll_over(ground, from, struck, rolling, met)
        }
    }
}

/// A ball on its run.
#[derive(Debug, Clone, Copy)]
pub(super) struct Rolling {
    /// Where it pitched.
    pub pitch: Xy,
    /// On what.
    pub pitched: Lie,
    /// Unit vector of its run.
    pub direction: Xy,
    /// How far it would run there, were all ground like that it pitched on.
    pub way_yd: f32,
}

/// An edge on a ball's way: how far on, yards, and the lie beyond.
pub(super) type Edge = (f32, Lie);

/// The rest of a run, from the first edge on.
pub(super) fn roll_over(
    ground: &Ground,
    from: Spot,
    struck: Struck<'_>,
    rolling: Rolling,
    (mut gone, mut lie): Edge,
) -> Finish {
    let Rolling {
        pitched, direction, ..
    } = rolling;
    let (mut at, mut reach, mut left) = (rolling.pitch, rolling.way_yd, 1.0_f32);
    loop {
        let before = at.moved(direction, (gone - STEP_YD).max(0.0));
        at = at.moved(direction, gone);
        match lie {
            Lie::OutOfBounds => return stroke_and_distance(from, pitched),
            Lie::Water => return drop_behind(ground, from, at, before, pitched),
            Lie::Sand => return at_rest(at, Lie::Sand, pitched),
            _ => {}
        }
        left -= gone / reach;
        reach = struck.run_on(lie, at).length();
        if !(left > 1e-4 && reach > 0.0) {
            return at_rest(at, lie, pitched);
        }
        let way = reach * left;
        match edge(ground, at, direction, lie, STEP_YD, way) {
            None => return at_rest(at.moved(direction, way), lie, pitched),
            Some(met) => (gone, lie) = met,
        }
    }
}

/// Where on its way a ball first finds itself on another lie, looking from `first` on in even steps and at the end.
fn edge(ground: &Ground, at: Xy, direction: Xy, lie: Lie, first: f32, way: f32) -> Option<Edge> {
    let mut gone = first;
    loop {
        let here = gone.min(way);
        let next = ground.lie(at.moved(direction, here));
        if next != lie {
            return Some((here, next));
        }
        if gone >= way {
            return None;
        }
        gone += STEP_YD;
    }
}

/// A drop on the near side of the water: back along the ball's way to the first ground that is not
/// water, and 1 yd more. Where the way back is all water, the shot is played again.
#[must_use]
pub fn drop_behind(ground: &Ground, from: Spot, wet: Xy, back_to: Xy, pitched: Lie) -> Finish {
    let way = back_to.seen_from(wet);
    let length = way.length();
    let back = way.unit();
    let mut gone = 0.5;
    while gone < length {
        let at = wet.moved(back, gone);
        let Cell { lie, clear_yd } = ground.at(at);
        if lie != Lie::Water {
            let behind = wet.moved(back, (gone + 1.0).min(length));
            return match ground.lie(behind) {
                Lie::OutOfBounds => stroke_and_distance(from, pitched),
                Lie::Water => Finish {
                    penalty: 1,
                    ..at_rest(at, lie, pitched)
                },
                lie => Finish {
                    penalty: 1,
                    ..at_rest(behind, lie, pitched)
                },
            };
        }
        gone += f32::from(clear_yd).max(0.5);
    }
    if back_to == from.at {
        stroke_and_distance(from, pitched)
    } else {
        Finish {
            penalty: 1,
            ..at_rest(back_to, ground.lie(back_to), pitched)
        }
    }
}

impl Struck<'_> {
    /// Where the ball would come to rest on endless ground of one lie, from its pitch. A rule is told where on the
    /// green the ball comes upon it.
    #[inline]
    fn run_on(&self, lie: Lie, at: Xy) -> Xy {
        let shot = self.shot;
        match lie {
            Lie::Fairway | Lie::Tee => shot.heading.scaled(shot.run_fairway_yd),
            Lie::Rough => shot.heading.scaled(shot.run_rough_yd),
            Lie::Trees => shot.heading.scaled(shot.run_rough_yd * TREES_RUN),
            Lie::Green => match self.ruled {
                None => shot.run_green,
                Some(ruled) => ruled.run(shot, at, self.told),
            },
            Lie::Sand | Lie::Water | Lie::OutOfBounds => Xy::default(),
        }
    }
}

impl Xy {
    fn scaled(self, factor: f32) -> Self {
        Self::new(self.x * factor, self.y * factor)
    }
}
