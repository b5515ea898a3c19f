//! Solving a hole: sweeps over its nodes until expected strokes and choices settle.

use crate::ball::putts::PuttTable;
use crate::course::{Hole, Lie};

use super::bank::HoleBank;
use super::choose::{Care, Choice, Choosing, Mean, SwingId};
use super::finish::{Finish, Spot, lie_at};
use super::part::SHORT_GAME_YD;
use super::place::Xy;
use super::touch::{TouchShot, TouchShots};
use super::values::{LAYER_LIES, LAYERS, Meshes, Values, layer_of};

/// Sweeps stop when no value moves by more than this many strokes.
const SETTLED: f32 = 5e-4;
/// They stop in any case after this many.
const MOST_SWEEPS: usize = 40;
/// Nodes this near the short game's edge, inside it, also hold a full shot for the balls just outside.
const EDGE_YD: f32 = 3.0;

/// What one golfer brings to a hole: swings from the tee of a par 4 or 5, swings otherwise, touch, putts.
#[derive(Debug, Clone)]
pub struct Side {
    /// Swings for tee shots on par 4s and 5s.
    pub tee: Vec<SwingId>,
    /// Swings for every other full shot.
    pub field: Vec<SwingId>,
    /// Short game and sand.
    pub touch: TouchShots,
    /// Putting: a table per Stimpmeter reading, and which hole has which.
    pub putts: (Vec<PuttTable>, Vec<usize>),
}

impl Side {
    /// Whether everything but tee shots is played alike.
    fn plays_field_like(&self, other: &Self) -> bool {
        self.field == other.field && self.touch == other.touch && self.putts == other.putts
    }

    /// The putts on a hole.
    #[must_use]
    pub fn putts(&self, hole: usize) -> &PuttTable {
        &self.putts.0[self.putts.1[hole]]
    }
}

/// A hole solved for one golfer.
#[derive(Debug)]
pub struct Solved<'a> {
    /// Expected strokes everywhere.
    pub values: Values<'a>,
    hole: &'a Hole,
    meshes: &'a Meshes,
    side: &'a Side,
    field: Choosing<'a>,
    tee: Choosing<'a>,
    tee_choice: Option<Choice>,
    choices: [[Vec<Option<Choice>>; LAYERS]; 2],
}

/// One node of one layer.
#[derive(Debug, Clone, Copy)]
struct State {
    mesh: usize,
    layer: usize,
    node: usize,
    spot: Spot,
    /// Played as a chip, pitch or greenside bunker shot.
    near: bool,
}

/// What a golfer plays from a spot.
#[derive(Debug, Clone, Copy)]
pub enum Play<'a> {
    /// A full shot.
    Full(Choice),
    /// A chip, pitch or greenside bunker shot.
    Touch(TouchShot<'a>),
}

impl<'a> Solved<'a> {
    /// Solves `hole` for `side`; `start` warms the sweeps up with another golfer's choices and values.
    #[must_use]
    pub fn new(
        hole: &'a Hole,
        meshes: &'a Meshes,
        banks: &'a [HoleBank<'a>],
        side: &'a Side,
        putts: &'a PuttTable,
        start: Option<&Solved<'a>>,
    ) -> Self {
        let choosing = |swings: &'a [SwingId]| Choosing {
            hole,
            banks,
            swings,
        };
        let empty = || {
            [0, 1].map(|mesh: usize| [(); LAYERS].map(|()| vec![None; meshes.meshes[mesh].len()]))
        };
        let mut solved = Self {
            values: Values::guessed(hole, meshes, putts),
            hole,
            meshes,
            field: choosing(&side.field),
            side,
            tee: choosing(if hole.par >= 4 {
                &side.tee
            } else {
                &side.field
            }),
            tee_choice: None,
            choices: empty(),
        };
        match start {
            Some(start) if side.plays_field_like(start.side) => solved.copy_field(start),
            Some(start) if side.field == start.side.field => {
                solved.copy_field(start);
                solved.resettle();
            }
            _ => solved.sweep_until_settled(),
        }
        solved.choose_from_tee();
        solved
    }

    /// Takes over a golfer's values and choices of the same hole, the tee's aside.
    fn copy_field(&mut self, start: &Self) {
        self.values.copy_layers(&start.values);
        self.choices.clone_from(&start.choices);
    }

    /// The short game first, for everything leads there; then choices; then all values together; then
    /// each choice once more, now that the values behind it are known.
    fn sweep_until_settled(&mut self) {
        let (near, far) = self.states();
        self.settle(&near);
        for state in &far {
            self.choose(*state);
        }
        for state in &near {
            if self.to_green_yd(state.spot.at) > SHORT_GAME_YD - EDGE_YD {
                self.choose(*state);
            }
        }
        self.settle(&near);
        self.settle(&far);
        self.resettle();
    }

    /// From known choices: settles, looks at each choice again, and settles.
    fn resettle(&mut self) {
        let (near, far) = self.states();
        self.settle(&near);
        self.settle(&far);
        for state in &far {
            self.rethink(*state);
        }
        self.settle(&near);
        self.settle(&far);
    }

    /// Every needed node, those of the short game and the others, nearest the hole first, so that values
    /// flow back from it.
    fn states(&self) -> (Vec<State>, Vec<State>) {
        let pin = Xy::from(self.hole.pin);
        let mut states = Vec::new();
        for mesh in 0..2 {
            for layer in 0..LAYERS {
                for &node in &self.meshes.needed[mesh][layer] {
                    let node = node as usize;
                    let at = self.meshes.meshes[mesh].place(node);
                    let spot = Spot {
                        at,
                        lie: LAYER_LIES[layer],
                    };
                    states.push(State {
                        mesh,
                        layer,
                        node,
                        spot,
                        near: self.is_near(at),
                    });
                }
            }
        }
        let away = |state: &State| pin.seen_from(state.spot.at).length();
        states.sort_by(|a, b| away(a).total_cmp(&away(b)));
        states.into_iter().partition(|state| state.near)
    }

    fn to_green_yd(&self, at: Xy) -> f32 {
        self.hole.grid.to_green_yd(f64::from(at.x), f64::from(at.y)) as f32
    }

    /// Whether a ball off the green is within the short game.
    #[must_use]
    pub fn is_near(&self, at: Xy) -> bool {
        self.to_green_yd(at) <= SHORT_GAME_YD
    }

    fn settle(&mut self, states: &[State]) {
        for _ in 0..MOST_SWEEPS {
            let mut moved = 0.0_f32;
            for state in states {
                let before = self.values.node(state.mesh, state.layer, state.node);
                let after = self.evaluated(*state);
                self.values
                    .set_node(state.mesh, state.layer, state.node, after);
                moved = moved.max((after - before).abs());
            }
            if moved < SETTLED {
                break;
            }
        }
    }

    fn evaluated(&self, state: State) -> f32 {
        if state.near {
            let pin = Xy::from(self.hole.pin);
            return self.expected_touch(&self.side.touch.shot(state.spot, pin));
        }
        match self.choices[state.mesh][state.layer][state.node] {
            Some(choice) => self.field.expected(&self.values, state.spot, choice),
            None => self.values.node(state.mesh, state.layer, state.node),
        }
    }

    /// Chooses afresh: from all candidates at every other node each way, from the neighbours' choices
    /// between them.
    fn choose(&mut self, state: State) {
        let mesh = &self.meshes.meshes[state.mesh];
        let known = &self.choices[state.mesh][state.layer];
        let mut candidates: Vec<Choice> = Vec::new();
        if !mesh.is_landmark(state.node) {
            candidates.extend(mesh.around(state.node).filter_map(|node| known[node]));
            candidates
                .iter_mut()
                .for_each(|choice| *choice = self.field.fitted(state.spot, *choice));
        }
        if candidates.is_empty() {
            candidates = self.field.candidates(state.spot);
        }
        self.take_best(state, &candidates, Care::FIELD);
    }

    /// Looks about a choice already made.
    fn rethink(&mut self, state: State) {
        if let Some(choice) = self.choices[state.mesh][state.layer][state.node] {
            self.take_best(state, &[choice], Care::AGAIN);
        }
    }

    fn take_best(&mut self, state: State, candidates: &[Choice], care: Care) {
        let best = self.field.best(&self.values, state.spot, candidates, care);
        if let Some((choice, expected)) = best {
            self.choices[state.mesh][state.layer][state.node] = Some(choice);
            if !state.near {
                self.values
                    .set_node(state.mesh, state.layer, state.node, expected);
            }
        }
    }

    fn choose_from_tee(&mut self) {
        let spot = self.tee_spot();
        let candidates = self.tee.candidates(spot);
        if let Some((choice, expected)) = self.tee.best(&self.values, spot, &candidates, Care::TEE)
        {
            self.tee_choice = Some(choice);
            self.values.tee = expected;
        }
    }

    /// The tee.
    #[must_use]
    pub fn tee_spot(&self) -> Spot {
        Spot {
            at: Xy::from(self.hole.tee),
            lie: Lie::Tee,
        }
    }

    /// Expected strokes from a spot; a ball on its tee lies on the hole's own tee.
    #[must_use]
    pub fn expected(&self, spot: Spot) -> f32 {
        if self.on_tee(spot) {
            self.values.tee
        } else {
            self.values.at(spot)
        }
    }

    /// Whether a spot is the hole's own tee, with the ball to be teed up.
    #[must_use]
    pub fn on_tee(&self, spot: Spot) -> bool {
        spot == self.tee_spot()
    }

    /// What is played from a spot off the green.
    #[must_use]
    pub fn play(&self, spot: Spot) -> Option<Play<'_>> {
        if self.on_tee(spot) {
            return self.tee_choice.map(Play::Full);
        }
        if self.is_near(spot.at) {
            return Some(Play::Touch(
                self.side.touch.shot(spot, Xy::from(self.hole.pin)),
            ));
        }
        let mesh = self.meshes.mesh_at(spot.at);
        let node = self.meshes.meshes[mesh].nearest(spot.at);
        self.choices[mesh][layer_of(spot.lie)][node].map(Play::Full)
    }

    /// The choosing that stands behind a full shot from a spot.
    #[must_use]
    pub fn choosing(&self, spot: Spot) -> &Choosing<'a> {
        if self.on_tee(spot) {
            &self.tee
        } else {
            &self.field
        }
    }

    fn expected_touch(&self, shot: &TouchShot<'_>) -> f32 {
        let grid = &self.hole.grid;
        let (normal, mishits) = shot.counts();
        let normal = self.mean((0..normal).map(|index| shot.normal(grid, index)));
        let mishit = self.mean((0..mishits).map(|index| shot.mishit(grid, index)));
        let share = shot.mishit_share;
        let missed = (1.0 - share) * (1.0 - shot.holed);
        let settled = (1.0 - share) * shot.holed + missed * normal.strokes + share * mishit.strokes;
        let replayed = missed * normal.replayed + share * mishit.replayed;
        settled / (1.0 - replayed).max(0.02)
    }

    fn mean(&self, ends: impl ExactSizeIterator<Item = Finish>) -> Mean {
        let count = ends.len().max(1) as f32;
        let mut mean = Mean::default();
        for end in ends {
            mean.strokes += 1.0 + f32::from(end.penalty);
            if end.replay {
                mean.replayed += 1.0;
            } else {
                mean.strokes += self.values.at(end.spot);
            }
        }
        mean.divided_by(count)
    }

    /// Lie at a place of the hole.
    #[must_use]
    pub fn lie_at(&self, at: Xy) -> Lie {
        lie_at(&self.hole.grid, at)
    }
}
