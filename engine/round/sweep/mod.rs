//! The sweeps: node by node from the hole back to the tee, until values and choices settle.

mod settle;

use std::sync::Arc;

use crate::course::{Hole, Lie};
use crate::rules::Stop;

use crate::round::choose::{Care, Choice, Choosing, SwingId};
use crate::round::nodes::{Nodes, State, to_green_yd};
use crate::round::part::SHORT_GAME_YD;
use crate::round::row::Row;
use crate::round::side::Side;
use crate::round::tee::Tee;
use crate::round::touch::TouchShots;
use crate::round::traffic::Traffic;
use crate::round::values::{LAYERS, Meshes, Values};

/// Balls are followed at most so often.
const MOST_FOLLOWED: usize = 12;

/// Nodes this near the short game's edge, inside it, also hold a full shot for the balls just outside.
const EDGE_YD: f32 = 4.0;

/// The chosen full shot of every node, by mesh, layer and node.
pub type Choices = [[Vec<Option<Choice>>; LAYERS]; 2];

/// Where what is played at every node leads, in the order of the nodes; none where it is not yet known.
type Rows = Vec<Option<Arc<Row>>>;

/// What a golfer plays everywhere, and where that leads: a start for a golfer who plays much of it alike.
#[derive(Debug, Clone, Default)]
pub struct Plan {
    /// The chosen full shots.
    pub choices: Choices,
    pub(super) far_rows: Rows,
    near_rows: Rows,
}

impl Plan {
    /// Forgets where chips, pitches or greenside bunker shots lead that a golfer with another touch plays otherwise.
    fn forget_touch(&mut self, near: &[State], is_other: impl Fn(Lie) -> bool) {
        for (row, state) in self.near_rows.iter_mut().zip(near) {
            if is_other(state.spot.lie) {
                *row = None;
            }
        }
    }
}

/// A hole being solved for one golfer.
#[derive(Debug)]
pub struct Sweep<'a> {
    /// Values so far.
    pub values: Values<'a>,
    /// Choices so far, and where they lead.
    pub plan: Plan,
    hole: &'a Hole,
    meshes: &'a Meshes,
    pub(super) field: Choosing<'a>,
    touch: &'a TouchShots,
    /// Nodes of the short game, and the others, nearest the hole first.
    near: &'a [State],
    pub(super) far: &'a [State],
    /// The far nodes at which anything is decided anew, and whose values are settled; all where there is none.
    worth: Option<Vec<bool>>,
    /// The values that nodes follow their leaders from, where they do: see [`Self::led`].
    led_from: Option<&'a Values<'a>>,
    /// Once a rule has failed there is nothing more to choose.
    stop: &'a Stop,
}

impl<'a> Sweep<'a> {
    /// Nothing chosen yet, values guessed.
    #[must_use]
    pub fn new(
        (hole, meshes): (&'a Hole, &'a Meshes),
        field: Choosing<'a>,
        side: &'a Side,
        values: Values<'a>,
        stop: &'a Stop,
    ) -> Self {
        let none = |mesh: usize| vec![None; meshes.meshes[mesh].len()];
        let Nodes { near, far, .. } = &meshes.nodes;
        Self {
            values,
            plan: Plan {
                choices: [0, 1].map(|mesh| [(); LAYERS].map(|()| none(mesh))),
                far_rows: vec![None; far.len()],
                near_rows: vec![None; near.len()],
            },
            hole,
            meshes,
            field,
            touch: &side.touch,
            near,
            far,
            worth: None,
            led_from: None,
            stop,
        }
    }

    /// Takes over the values of another golfer, and what he plays: with the same clubs of one's own where a swing of his is
    /// gone. Where the `new` swings lead, and those that are gone, is not known.
    pub fn start_from(
        &mut self,
        values: &Values<'_>,
        plan: &Plan,
        touch: &TouchShots,
        new: &[SwingId],
    ) {
        self.values.copy_nodes(values);
        self.plan = plan.clone();
        let is_other = |lie| !self.touch.is_like(touch, lie);
        self.plan.forget_touch(self.near, is_other);
        for index in 0..self.far.len() {
            let own = self.hand_over(self.far[index]);
            if own.is_some_and(|own| self.is_gone(&own) || new.contains(&own.swing)) {
                self.plan.far_rows[index] = None;
            }
        }
        for state in self.near {
            self.hand_over(*state);
        }
    }

    /// Where the swing that was played at a node is gone, the same club takes its place if there is one. Gives what is
    /// played there now.
    fn hand_over(&mut self, state: State) -> Option<Choice> {
        let choice = &mut self.plan.choices[state.mesh][state.layer][state.node];
        if let Some(own) = choice.and_then(|choice| self.field.own(choice)) {
            *choice = Some(own);
        }
        *choice
    }

    /// Decides anew only where it is worth it.
    #[must_use]
    pub fn only(mut self, worth: &Traffic) -> Self {
        self.worth = Some(worth.is_worth());
        self
    }

    /// Decides and works out only at every other node each way, from another golfer's solution. What that changes there
    /// is a smooth figure: in between it is taken from the nodes around.
    #[must_use]
    pub fn led(mut self, values: &'a Values<'a>) -> Self {
        self.led_from = Some(values);
        self.worth = self.worth.take().map(|worth| self.with_leaders(worth));
        self
    }

    /// Whether nodes follow others from another golfer's solution.
    pub const fn is_led_at_all(&self) -> bool {
        self.led_from.is_some()
    }

    /// Some far nodes, and the landmarks around them.
    fn with_leaders(&self, mut nodes: Vec<bool>) -> Vec<bool> {
        let leaders = &self.meshes.nodes.leaders;
        for far in 0..nodes.len() {
            if nodes[far] {
                for &leader in &leaders[far] {
                    nodes[leader as usize] = true;
                }
            }
        }
        nodes
    }

    fn is_worth(&self, far: usize) -> bool {
        self.worth.as_ref().is_none_or(|worth| worth[far]) && !self.is_led(far)
    }

    fn is_led(&self, far: usize) -> bool {
        self.leaders(far) != [far as u32]
    }

    /// The far nodes whose plays stand for that at a far node: those its value follows, or itself.
    pub(super) fn leaders(&self, far: usize) -> &'a [u32] {
        let Nodes {
            leaders, places, ..
        } = &self.meshes.nodes;
        match self.led_from {
            Some(_) => &leaders[far],
            None => &places[far..=far],
        }
    }

    /// The short game first, for everything leads there; then a choice everywhere; then, where balls come by, each
    /// choice twice more, now that the values behind it are known: once beside those around it and moved about, once,
    /// looked at more closely, as they stand.
    ///
    /// Tells where balls come by.
    pub fn start_afresh(&mut self, tee: &Tee<'_>) -> Traffic {
        self.settle_near();
        for index in 0..self.far.len() {
            let state = self.far[index];
            let found = self.afresh(state);
            let landmark = self.meshes.meshes[state.mesh].is_landmark(state.node);
            let care = if landmark { Care::FIELD } else { Care::FIRST };
            self.take_best_far(index, &found, care);
        }
        self.choose_at_edge(Care::FIELD, |sweep, state| sweep.afresh(state));
        self.worth = Some(vec![false; self.far.len()]);
        self.follow(tee, Traffic::none(self.far.len()))
    }

    /// Thinks again where balls come by, or came by before, and nobody thought yet, and settles all; and so on until
    /// balls come by nowhere anew. For where nobody thought again a value is too low, and draws balls there.
    ///
    /// Tells where balls come by or came by.
    pub fn follow(&mut self, tee: &Tee<'_>, mut traffic: Traffic) -> Traffic {
        for _ in 0..MOST_FOLLOWED {
            traffic = self.traffic_from(tee).or(&traffic);
            let found = self.with_leaders(traffic.is_worth());
            let known = self.worth.take().unwrap_or_default();
            let both = || found.iter().zip(&known);
            let new: Vec<bool> = both().map(|(found, known)| *found && !known).collect();
            let all = both().map(|(found, known)| *found || *known).collect();
            let any_new = new.contains(&true);
            if any_new {
                self.worth = Some(new);
                self.again(Care::AGAIN);
                self.again(Care::LAST);
            }
            self.worth = Some(all);
            if !any_new {
                break;
            }
            self.settle_near();
            self.settle_far();
        }
        traffic
    }

    /// From the settled values and choices of a golfer who has other swings: what he chose, if it is
    /// still to be had, or one of the `new` swings. Where those lead is worked out anew, even if he had them too.
    pub fn with_new_swings(&mut self, new: &[SwingId]) {
        self.settle_near();
        for index in 0..self.far.len() {
            if self.is_worth(index) {
                let state = self.far[index];
                let found = self.old_or_new(state, new);
                self.take_best_far(index, &found, Care::AGAIN);
                let taken = self.plan.choices[state.mesh][state.layer][state.node];
                if taken.is_some_and(|choice| new.contains(&choice.swing)) {
                    self.plan.far_rows[index] = None;
                }
            }
        }
        if !self.is_led_at_all() {
            self.choose_at_edge(Care::AGAIN, |sweep, state| sweep.old_or_new(state, new));
        }
        self.settle_near();
        self.settle_far();
    }

    /// Weighs every choice once more beside those around it, now that values are settled.
    pub fn once_more(&mut self) {
        self.again(Care::LAST);
        self.settle_near();
        self.settle_far();
    }

    /// From the settled values and choices of a golfer who hits some clubs otherwise: the same clubs at the same
    /// targets, other values. Where he played a club that there is none of, the best of what is around.
    pub fn with_counterparts(&mut self) {
        self.rethink(|sweep, state, own| {
            if sweep.is_gone(&own) {
                sweep.in_place_of(state)
            } else {
                Some(own)
            }
        });
    }

    /// The same, but the `new` swings and what is chosen around are looked at too, and taken where clearly better.
    pub fn with_new_swings_briskly(&mut self, new: &[SwingId]) {
        self.rethink(|sweep, state, own| {
            let mut found = sweep.own_and_neighbours(state);
            let own = if sweep.is_gone(&own) {
                sweep.in_place_of(state)?
            } else {
                if !new.contains(&own.swing) {
                    found.retain(|choice| new.contains(&choice.swing));
                }
                own
            };
            if sweep.meshes.meshes[state.mesh].is_landmark(state.node) {
                found.extend(sweep.field.alike(state.spot, own, new));
            }
            let (field, values) = (&sweep.field, &sweep.values);
            Some(field.unless_better(values, state.spot, own, &found))
        });
    }

    /// Chooses anew at every node from what was chosen there, nearest the hole first, and settles the values.
    fn rethink(&mut self, choose: impl Fn(&Self, State, Choice) -> Option<Choice>) {
        self.settle_near();
        for index in 0..self.far.len() {
            if self.is_worth(index) && self.take(self.far[index], &choose) {
                self.plan.far_rows[index] = None;
            }
        }
        for index in 0..self.near.len() {
            self.take(self.near[index], &choose);
        }
        self.settle_near();
        self.settle_far();
    }

    /// Takes another choice at a node that has one; says whether it is another.
    fn take(
        &mut self,
        state: State,
        choose: impl Fn(&Self, State, Choice) -> Option<Choice>,
    ) -> bool {
        let own = self.plan.choices[state.mesh][state.layer][state.node];
        let Some(own) = own.filter(|_| !self.stop.is_stopped()) else {
            return false;
        };
        match choose(self, state, own) {
            Some(choice) if choice != own => {
                self.plan.choices[state.mesh][state.layer][state.node] = Some(choice);
                true
            }
            _ => false,
        }
    }

    /// Whether there is no such swing any more.
    pub(super) fn is_gone(&self, choice: &Choice) -> bool {
        !self.field.swings.contains(&choice.swing)
    }

    /// The best of what is around, where a swing is gone and there is no such club.
    fn in_place_of(&self, state: State) -> Option<Choice> {
        let found = self.old_or_new(state, &[]);
        let (field, values) = (&self.field, &self.values);
        let best = field.best(values, state.spot, &found, Care::AGAIN);
        best.map(|(choice, _)| choice)
    }

    /// From the settled values and choices of a golfer with the same swings and another touch or putter:
    /// the same choices, other values. (What a better putter would choose otherwise is worth a few
    /// thousandths of a stroke: a choice is flat around its best.)
    pub fn with_other_touch(&mut self) {
        self.settle_near();
        self.settle_far();
    }

    /// Looks at each choice again, beside those of its neighbours.
    fn again(&mut self, care: Care) {
        self.settle_near();
        for index in 0..self.far.len() {
            if self.is_worth(index) {
                let state = self.far[index];
                let mut known = self.own_and_neighbours(state);
                if known.is_empty() {
                    known = self.field.any(state.spot, self.field.swings);
                }
                self.take_best_far(index, &known, care);
            }
        }
    }

    /// The full shots from just inside the short game's edge: for balls that are played, not for values.
    fn choose_at_edge(&mut self, care: Care, candidates: impl Fn(&Self, State) -> Vec<Choice>) {
        for index in 0..self.near.len() {
            let state = self.near[index];
            if to_green_yd(self.hole, state.spot.at) > SHORT_GAME_YD - EDGE_YD {
                let found = candidates(self, state);
                self.take_best(state, &found, care);
            }
        }
    }

    /// All candidates at every other node each way; between them, what the neighbours chose.
    fn afresh(&self, state: State) -> Vec<Choice> {
        let landmark = self.meshes.meshes[state.mesh].is_landmark(state.node);
        let known = if landmark {
            Vec::new()
        } else {
            self.own_and_neighbours(state)
        };
        if known.is_empty() {
            return self.field.any(state.spot, self.field.swings);
        }
        known
    }

    /// What was chosen here and around of what there still is, this node's own first.
    fn own_and_neighbours(&self, state: State) -> Vec<Choice> {
        let mut known = self.known_around(state);
        known.retain(|choice| !self.is_gone(choice));
        known
    }

    /// The same, and what is gone: this node's own, and of each swing what is played at the best placed of the others.
    fn known_around(&self, state: State) -> Vec<Choice> {
        let known = &self.plan.choices[state.mesh][state.layer];
        let own = known[state.node];
        let mut different: Vec<(f32, Choice)> = Vec::new();
        for node in self.meshes.meshes[state.mesh].around(state.node) {
            let Some(choice) = known[node].filter(|choice| own != Some(*choice)) else {
                continue;
            };
            let value = self.values.node(state.mesh, state.layer, node);
            // The better placed one, not the first: a mirrored mesh meets them in another order.
            let swing = choice.swing;
            match different.iter().position(|(_, other)| other.swing == swing) {
                Some(at) if value < different[at].0 => different[at] = (value, choice),
                Some(at) if value > different[at].0 => {}
                _ => different.push((value, choice)),
            }
        }
        let others = different.into_iter().map(|(_, choice)| choice);
        own.into_iter()
            .chain(others)
            .map(|choice| self.field.fitted(state.spot, choice))
            .collect()
    }

    /// What is still to be had of the choices here and around, and the new swings; nothing where no choice here or
    /// around is gone or new, for there all stays as it is.
    fn old_or_new(&self, state: State, new: &[SwingId]) -> Vec<Choice> {
        let mut known = self.known_around(state);
        let own = self.plan.choices[state.mesh][state.layer][state.node];
        let is_gone = |choice: &Choice| self.is_gone(choice);
        let touched = |choice: &Choice| is_gone(choice) || new.contains(&choice.swing);
        let mut affected = known.iter().any(touched);
        known.retain(|choice| !is_gone(choice));
        let landmark = self.meshes.meshes[state.mesh].is_landmark(state.node);
        if landmark || own.as_ref().is_none_or(touched) {
            let found = self.field.candidates(state.spot, new);
            affected |= !found.is_empty();
            known.extend(found);
        }
        if !affected {
            return Vec::new();
        }
        if known.is_empty() {
            return self.field.any(state.spot, self.field.swings);
        }
        known
    }

    fn take_best_far(&mut self, index: usize, candidates: &[Choice], care: Care) {
        let state = self.far[index];
        let before = self.plan.choices[state.mesh][state.layer][state.node];
        if let Some((choice, expected)) = self.take_best(state, candidates, care) {
            self.values
                .set_node(state.mesh, state.layer, state.node, expected);
            if before != Some(choice) {
                self.plan.far_rows[index] = None;
            }
        }
    }

    fn take_best(
        &mut self,
        state: State,
        candidates: &[Choice],
        care: Care,
    ) -> Option<(Choice, f32)> {
        if self.stop.is_stopped() {
            return None;
        }
        let best = self.field.best(&self.values, state.spot, candidates, care);
        if let Some((choice, _)) = best {
            self.plan.choices[state.mesh][state.layer][state.node] = Some(choice);
        }
        best
    }
}
