//! Runs on a green by a user's rule: asked when a ball first needs one, and kept.
//!
//! A rule says itself, by what it looks at, what its answer depends on. One that never asks where the ball pitched
//! gives one run a shot; one that asks is asked again for each step ([`PLACE_STEP_YD`]) of what it asks about. So a rule
//! is asked as seldom as its own words allow, and what it answers never depends on the order of the questions.

use std::collections::HashMap;
use std::sync::atomic::{AtomicU8, Ordering};
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use crate::ball::turf::Run;
use crate::course::{Hole, Lie, LieGrid, Point};
use crate::player::club::Club;
use crate::rules::hold::{GreenAt, GreenFacts, Hold, LandingFacts, Place, reads};
use crate::rules::{HoleRules, Stop};
use crate::units::Length;

use super::bank::{FlownLists, HoleShot, RunLists};
use super::place::Xy;

/// Places on a green are told to so many yards: one more place is one more question for every shot.
pub const PLACE_STEP_YD: f32 = 2.0;

/// How finely a rule is told where on a green a ball comes down.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Told {
    /// As the middle of a square of three steps: for a first glance at many choices, of which most are poor.
    Roughly,
    /// To one step: for everything that a value or a score rests on.
    Finely,
}

/// Steps of a rough square.
const ROUGH_STEPS: u8 = 3;

/// Shots whose runs stand for those of the whole list, as in the first glance of a choice.
const GLANCE: usize = 16;

/// A green with a rule of its own.
pub struct RuledGreen {
    hold: Arc<dyn Hold>,
    stop: Arc<Stop>,
    facts: Arc<GreenFacts>,
    frame: Frame,
    grid: LieGrid,
    /// The end of the line of play.
    middle: Xy,
    /// What the rule has looked at of the places of pitches, so far.
    looks_at: AtomicU8,
}

/// The green's own directions: along the last leg of the hole, and across it.
#[derive(Debug, Clone, Copy)]
struct Frame {
    ahead: Xy,
    front_yd: f32,
    left_yd: f32,
    depth_yd: f32,
    width_yd: f32,
}

impl RuledGreen {
    /// The green of a hole, where its rules say how a ball runs on it.
    #[must_use]
    pub fn of(hole: &Hole, rules: &HoleRules, stop: &Arc<Stop>) -> Option<Self> {
        let hold = rules.hold.clone()?;
        let frame = Frame::of(hole);
        Some(Self {
            hold,
            stop: Arc::clone(stop),
            facts: Arc::new(green_facts(hole)),
            frame,
            grid: hole.grid.clone(),
            middle: hole.line.last().map_or(Xy::default(), |&end| Xy::from(end)),
            looks_at: AtomicU8::new(0),
        })
    }

    /// The square of the green a pitch is in: whole steps from the front, the left and the nearest edge.
    fn steps(&self, at: Xy, told: Told) -> [u8; 3] {
        let frame = &self.frame;
        let (along, across) = frame.seen(at);
        // Conversion cuts off and holds to what a byte has room for: a ball rolls on at an edge, never beyond it.
        let step = |yards: f32, most: f32| {
            let last = (most - 0.5).max(0.0);
            let of = |yards: f32| (yards.clamp(0.0, last) / PLACE_STEP_YD) as u8;
            match told {
                Told::Finely => of(yards),
                // The middle step of a rough square, or the last on the green, is a fine one too: both kinds of
                // questions share their answers.
                Told::Roughly => {
                    (of(yards) / ROUGH_STEPS * ROUGH_STEPS + ROUGH_STEPS / 2).min(of(last))
                }
            }
        };
        let edge_yd = self.grid.clearance_yd(f64::from(at.x), f64::from(at.y)) as f32;
        [
            step(along - frame.front_yd, frame.depth_yd),
            step(across - frame.left_yd, frame.width_yd),
            // Nowhere on a green is its edge farther off than half its size.
            step(
                edge_yd,
                f32::midpoint(frame.depth_yd.min(frame.width_yd), 1.0),
            ),
        ]
    }
}

/// The middle of a step.
fn middle_yd(step: u8) -> f64 {
    (f64::from(step) + 0.5) * f64::from(PLACE_STEP_YD)
}

/// What a rule is told of a hole's green.
#[must_use]
pub fn green_facts(hole: &Hole) -> GreenFacts {
    let frame = Frame::of(hole);
    GreenFacts {
        hole: hole.number,
        depth_yd: f64::from(frame.depth_yd),
        width_yd: f64::from(frame.width_yd),
        surface: hole.green,
    }
}

impl Frame {
    fn of(hole: &Hole) -> Self {
        let ahead = last_leg(&hole.line);
        let mut frame = Self {
            ahead,
            front_yd: 0.0,
            left_yd: 0.0,
            depth_yd: 1.0,
            width_yd: 1.0,
        };
        let cells = hole.grid.lies.iter().enumerate();
        let on_green = cells.filter(|(_, lie)| **lie == Lie::Green);
        let (mut near, mut far) = ([f32::MAX; 2], [f32::MIN; 2]);
        for (cell, _) in on_green {
            let (x, y) = hole.grid.centre_yd(cell);
            let (along, across) = frame.seen(Xy::new(x as f32, y as f32));
            near = [near[0].min(along), near[1].min(across)];
            far = [far[0].max(along), far[1].max(across)];
        }
        if near[0] <= far[0] {
            // Middles of cells: half a yard more on either side.
            (frame.front_yd, frame.left_yd) = (near[0] - 0.5, near[1] - 0.5);
            frame.depth_yd = (far[0] - near[0] + 1.0).round();
            frame.width_yd = (far[1] - near[1] + 1.0).round();
        }
        frame
    }

    /// A place along and across these directions.
    fn seen(&self, at: Xy) -> (f32, f32) {
        (
            at.x * self.ahead.x + at.y * self.ahead.y,
            at.x * self.ahead.y - at.y * self.ahead.x,
        )
    }
}

fn last_leg(line: &[Point]) -> Xy {
    match line {
        [.., from, to] => Xy::from(*to).seen_from(Xy::from(*from)).unit(),
        _ => Xy::new(0.0, 1.0),
    }
}

/// The runs of one list of shots on a green with a rule of its own.
pub struct RuledRuns {
    green: Arc<RuledGreen>,
    flown: FlownLists,
    usual: RunLists,
    club: Club,
    lie: Lie,
    /// By shot: the run that holds for every place; none where it depends on the place.
    anywhere: Vec<OnceLock<Option<Xy>>>,
    /// Runs that depend on the place.
    placed: Mutex<HashMap<Asked, Xy>>,
}

/// What a run was asked for: the shot, what of the place counts, and that.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
struct Asked {
    shot: u16,
    looked_at: u8,
    steps: [u8; 3],
}

impl RuledRuns {
    /// Nothing is asked yet.
    #[must_use]
    pub(super) fn new(
        green: Arc<RuledGreen>,
        flown: FlownLists,
        usual: RunLists,
        club: Club,
        lie: Lie,
    ) -> Self {
        let shots = flown.iter().map(Vec::len).sum();
        Self {
            green,
            flown,
            usual,
            club,
            lie,
            anywhere: (0..shots).map(|_| OnceLock::new()).collect(),
            placed: Mutex::default(),
        }
    }

    /// How much farther than by the built-in rule the shots run along their line on the middle of the green: the mean
    /// over the first, which stand for all. It only says where to begin to look for a target.
    #[must_use]
    pub fn gain_yd(&self, shots: &[HoleShot]) -> f32 {
        let first = &shots[..shots.len().min(GLANCE)];
        let gain =
            |shot: &HoleShot| self.run(shot, self.green.middle, Told::Roughly).y - shot.run_green.y;
        first.iter().map(gain).sum::<f32>() / first.len().max(1) as f32
    }

    /// The run of a shot that comes upon the green at a place, a displacement in the frame of its aim.
    #[must_use]
    pub fn run(&self, shot: &HoleShot, at: Xy, told: Told) -> Xy {
        let number = usize::from(shot.number);
        let mut first = None;
        let anywhere = self.anywhere[number].get_or_init(|| {
            let steps = self.green.steps(at, told);
            let (run, looked_at) = self.ask(number, steps);
            if looked_at == 0 {
                return Some(run);
            }
            first = Some((run, looked_at, steps));
            None
        });
        match (anywhere, first) {
            (Some(run), _) => *run,
            (None, Some((run, looked_at, steps))) => {
                self.keep(shot.number, looked_at, steps, run);
                run
            }
            (None, None) => self.placed(shot.number, self.green.steps(at, told)),
        }
    }

    fn placed(&self, shot: u16, steps: [u8; 3]) -> Xy {
        let looks_at = self.green.looks_at.load(Ordering::Relaxed);
        let known = self.lock().get(&asked(shot, looks_at, steps)).copied();
        known.unwrap_or_else(|| {
            let (run, looked_at) = self.ask(usize::from(shot), steps);
            self.keep(shot, looked_at | looks_at, steps, run);
            run
        })
    }

    /// Keeps a run under all that rules on this green have looked at: a key that tells more apart than need be costs
    /// another question, one that tells less apart would be wrong.
    fn keep(&self, shot: u16, looked_at: u8, steps: [u8; 3], run: Xy) {
        let before = self.green.looks_at.fetch_or(looked_at, Ordering::Relaxed);
        let asked = asked(shot, before | looked_at, steps);
        self.lock().insert(asked, run);
    }

    fn lock(&self) -> std::sync::MutexGuard<'_, HashMap<Asked, Xy>> {
        // Every entry is whole, whatever became of the thread that wrote it.
        self.placed.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Asks the rule; says what it looked at of the place. After a fault nothing is asked any more.
    fn ask(&self, number: usize, steps: [u8; 3]) -> (Xy, u8) {
        let normal = self.flown[0].len();
        let (list, index) = match number.checked_sub(normal) {
            Some(mishit) => (1, mishit),
            None => (0, number),
        };
        let (flown, usual) = (&self.flown[list][index], self.usual[list][index]);
        if self.green.stop.is_stopped() {
            return (usual.turned(flown.heading), 0);
        }
        let landing = LandingFacts {
            ball: flown.landing,
            carry_yd: f64::from(flown.pitch.y),
            club: Some(self.club),
            lie: self.lie,
        };
        let place = Place {
            from_front_yd: middle_yd(steps[0]),
            from_left_yd: middle_yd(steps[1]),
            from_edge_yd: middle_yd(steps[2]),
        };
        let green = GreenAt::new(Arc::clone(&self.green.facts), place, as_run(usual));
        match self.green.hold.run(&landing, &green) {
            Ok(run) => (in_yards(run).turned(flown.heading), green.read()),
            Err(faults) => {
                self.green.stop.fail(faults);
                (usual.turned(flown.heading), 0)
            }
        }
    }
}

/// The steps that count, the others set to nothing.
fn asked(shot: u16, looked_at: u8, [front, left, edge]: [u8; 3]) -> Asked {
    let kept = |bit: u8, step: u8| if looked_at & bit == 0 { 0 } else { step };
    Asked {
        shot,
        looked_at,
        steps: [
            kept(reads::FRONT, front),
            kept(reads::LEFT, left),
            kept(reads::EDGE, edge),
        ],
    }
}

/// A run kept in yards, single precision: what a rule is given and, unchanged, gives back comes out the same to the
/// last bit.
fn as_run(yards: Xy) -> Run {
    Run {
        along: Length::from_yd(f64::from(yards.y)),
        across: Length::from_yd(f64::from(yards.x)),
    }
}

/// A run in yards: across and along.
#[must_use]
pub fn in_yards(run: Run) -> Xy {
    Xy::new(run.across.yd() as f32, run.along.yd() as f32)
}

impl std::fmt::Debug for RuledRuns {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("RuledRuns").finish_non_exhaustive()
    }
}

impl std::fmt::Debug for RuledGreen {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("RuledGreen").finish_non_exhaustive()
    }
}
