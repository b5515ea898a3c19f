//! Values swept until they settle: where the chosen plays lead, as sums that are swept again and again.

use std::sync::Arc;

use super::Sweep;
use crate::round::finish::Spot;
use crate::round::nodes::State;
use crate::round::place::Xy;
use crate::round::row::{Row, RowMaker};
use crate::round::values::Values;

/// Sweeps stop when no value moved by more than this many strokes. A sweep goes from the hole outwards, so
/// what it leaves is only what flows backwards, by shots that end farther from the hole: about a
/// thousandth of the last movement on the demo courses.
const SETTLED: f32 = 0.002;
/// They stop in any case after this many.
const MOST_SWEEPS: usize = 40;
/// Nodes this near each other in their distance from the hole gain alike, yards.
const BAND_YD: f32 = 12.0;

impl Sweep<'_> {
    pub(super) fn settle_near(&mut self) {
        let unsettled = self.find_near_rows();
        self.settle_near_rows();
        if unsettled.is_empty() {
            return;
        }
        // Whether a ball from water is dropped or played again was judged by values that were not known yet.
        for index in unsettled {
            self.plan.near_rows[index] = None;
        }
        self.find_near_rows();
        self.settle_near_rows();
    }

    fn settle_near_rows(&mut self) {
        let near = known(self.near, &self.plan.near_rows);
        settle(&mut self.values, near);
    }

    pub(super) fn settle_far(&mut self) {
        self.find_far_rows();
        match self.led_from {
            None => settle(&mut self.values, known(self.far, &self.plan.far_rows)),
            Some(before) => self.settle_led(before),
        }
    }

    /// Moves the values of far nodes that were not worked out by what those as far from the hole gained over `before`.
    pub fn gain_elsewhere(&mut self, before: &Values<'_>) {
        let pin = Xy::from(self.hole.pin);
        let band = |state: &State| (state.spot.at.seen_from(pin).length() / BAND_YD) as usize;
        let node = |values: &Values<'_>, state: &State| {
            f64::from(values.node(state.mesh, state.layer, state.node))
        };
        let mut gains: Vec<(f64, f64)> = Vec::new();
        for state in self.far_of(true) {
            let band = band(&state);
            if gains.len() <= band {
                gains.resize(band + 1, (0.0, 0.0));
            }
            gains[band].0 += node(&self.values, &state) - node(before, &state);
            gains[band].1 += 1.0;
        }
        let known: Vec<(usize, f64)> = (0..)
            .zip(&gains)
            .filter(|(_, (_, count))| *count > 0.0)
            .map(|(band, (sum, count))| (band, sum / count))
            .collect();
        for state in self.far_of(false) {
            let away = |(other, _): &&(usize, f64)| other.abs_diff(band(&state));
            if let Some((_, gain)) = known.iter().min_by_key(away) {
                let value = node(before, &state) + gain;
                self.values
                    .set_node(state.mesh, state.layer, state.node, value as f32);
            }
        }
    }

    /// Whether the value of a far node comes from its play, or from its leaders, and is not left as it was.
    fn is_worked_out(&self, place: usize) -> bool {
        match self.is_led(place) {
            true => self.worth.as_ref().is_none_or(|worth| worth[place]),
            false => self.plan.far_rows[place].is_some(),
        }
    }

    /// The far nodes whose values were worked out, or the others.
    fn far_of(&self, worked_out: bool) -> Vec<State> {
        let places = 0..self.far.len();
        places
            .filter(|place| self.is_worked_out(*place) == worked_out)
            .map(|place| self.far[place])
            .collect()
    }

    /// Landmarks by their rows; the nodes between them move from what they were `before` as the landmarks around do.
    fn settle_led(&mut self, before: &Values<'_>) {
        let far = self.far.iter().zip(&self.plan.far_rows).enumerate();
        let all: Vec<(&State, Value<'_>)> = far
            .filter(|(place, _)| self.is_worked_out(*place))
            .filter_map(|(place, (state, row))| {
                let value = match self.is_led(place) {
                    true => Value::Led(self.leaders(place)),
                    false => Value::Row(row.as_deref()?),
                };
                Some((state, value))
            })
            .collect();
        let far = self.far;
        let gain = |values: &Values, state: &State| {
            let of = |values: &Values| values.node(state.mesh, state.layer, state.node);
            of(values) - of(before)
        };
        let mean_gain = |values: &Values, leaders: &[u32]| {
            let gains = leaders
                .iter()
                .map(|&leader| gain(values, &far[leader as usize]));
            gains.sum::<f32>() / leaders.len() as f32
        };
        sweep_values(
            &mut self.values,
            || all.iter().map(|(state, value)| (*state, value)),
            |values, state, value| match value {
                Value::Row(row) => row.expected(values),
                Value::Led(leaders) => {
                    before.node(state.mesh, state.layer, state.node) + mean_gain(values, leaders)
                }
            },
        );
    }

    /// Works out where chips, pitches and greenside bunker shots lead where that is not known; says for which of these
    /// it hangs on values.
    fn find_near_rows(&mut self) -> Vec<usize> {
        let mut maker = RowMaker::default();
        let mut unsettled = Vec::new();
        for (index, state) in self.near.iter().enumerate() {
            if self.plan.near_rows[index].is_none() {
                let (found, is_settled) = self.touch_row(state.spot, &mut maker);
                self.plan.near_rows[index] = Some(Arc::new(found));
                if !is_settled {
                    unsettled.push(index);
                }
            }
        }
        unsettled
    }

    fn find_far_rows(&mut self) {
        let mut maker = RowMaker::default();
        for index in 0..self.far.len() {
            if self.is_worth(index) {
                self.find_far_row(index, &mut maker);
            }
        }
    }

    /// Where the choice at a far node leads; worked out where it is not yet known.
    pub(in crate::round) fn find_far_row(&mut self, index: usize, maker: &mut RowMaker) {
        let state = self.far[index];
        let choice = self.plan.choices[state.mesh][state.layer][state.node];
        let choice = choice.filter(|choice| !self.is_gone(choice));
        if let (None, Some(choice)) = (&self.plan.far_rows[index], choice) {
            let found = self.field.row(&self.values, state.spot, choice, maker);
            self.plan.far_rows[index] = Some(Arc::new(found));
        }
    }

    /// Where a chip, pitch or greenside bunker shot leads; and whether that hangs on no value.
    fn touch_row(&self, from: Spot, maker: &mut RowMaker) -> (Row, bool) {
        let shot = self.touch.shot(from, Xy::from(self.hole.pin));
        let ground = &self.meshes.ground;
        let (normal, mishits) = shot.counts();
        let struck = 1.0 - shot.mishit_share;
        maker.settle(struck * shot.holed);
        let share = struck * (1.0 - shot.holed) / normal as f32;
        let normal = (0..normal).map(|index| (shot.normal(ground, index), share));
        let share = shot.mishit_share / mishits as f32;
        let mishits = (0..mishits).map(|index| (shot.mishit(ground, index), share));
        let mut is_settled = true;
        for (end, share) in normal.chain(mishits) {
            is_settled &= end.penalty == 0 || end.replay;
            let end = end.or_again(from, &self.values, || self.values.at(from));
            maker.add(&self.values, &end, share);
        }
        (maker.take(), is_settled)
    }
}

/// Nodes of which it is known where their plays lead.
fn known<'r>(
    states: &'r [State],
    rows: &'r [Option<Arc<Row>>],
) -> impl Iterator<Item = (&'r State, &'r Row)> + Clone {
    let both = states.iter().zip(rows);
    both.filter_map(|(state, row)| row.as_deref().map(|row| (state, row)))
}

/// Where a node's value comes from.
enum Value<'r> {
    /// From where its play leads.
    Row(&'r Row),
    /// It moves as those of its leaders do.
    Led(&'r [u32]),
}

/// Sweeps the values of rows until none moves any more.
fn settle<'r>(values: &mut Values, rows: impl Iterator<Item = (&'r State, &'r Row)> + Clone) {
    sweep_values(
        values,
        || rows.clone(),
        |values, _, row| row.expected(values),
    );
}

/// Sweeps values until none moves any more.
fn sweep_values<'r, T, I: Iterator<Item = (&'r State, T)>>(
    values: &mut Values,
    all: impl Fn() -> I,
    value: impl Fn(&Values, &State, T) -> f32,
) {
    for _ in 0..MOST_SWEEPS {
        let mut moved = 0.0_f32;
        for (state, from) in all() {
            let before = values.node(state.mesh, state.layer, state.node);
            let after = value(values, state, from);
            values.set_node(state.mesh, state.layer, state.node, after);
            moved = moved.max((after - before).abs());
        }
        if moved < SETTLED {
            break;
        }
    }
}
