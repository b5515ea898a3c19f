//! Where balls come by when a hole is played.

use crate::course::Hole;

use super::nodes::{State, states};
use super::part::Part;
use super::row::Row;
use super::sweep::{Plan, Sweep};
use super::values::{Meshes, Values};

/// The far nodes of a hole, nearest the hole first: how many balls come by each when the hole is played once. What is
/// played where hardly any does moves no score to speak of.
#[derive(Debug, Clone, PartialEq)]
pub struct Traffic(Vec<f32>);

impl Traffic {
    /// Whether it is worth deciding anew what is played from a far node.
    #[must_use]
    pub(super) fn is_worth(&self, far: usize) -> bool {
        self.0[far] > WORTH_BALLS
    }

    /// The greater of two golfers' traffic at each node.
    #[must_use]
    pub fn or(&self, other: &Self) -> Self {
        let both = self.0.iter().zip(&other.0);
        Self(both.map(|(a, b)| a.max(*b)).collect())
    }
}

/// Nodes that fewer balls than this come by are not worth deciding for anew.
const WORTH_BALLS: f32 = 0.0005;

impl Plan {
    /// Where balls come by that start where `from_tee` leads.
    #[must_use]
    pub fn traffic(
        &self,
        from_tee: &Row,
        values: &Values<'_>,
        hole: &Hole,
        meshes: &Meshes,
    ) -> Traffic {
        const PASSES: usize = 6;
        let (_, far) = states(hole, meshes);
        let number = |state: &State| values.number(state.mesh, state.layer, state.node);
        let mut waiting = vec![0.0_f32; values.count()];
        let mut balls = vec![0.0_f32; far.len()];
        from_tee.spread(1.0, &mut waiting);
        // Farthest first, as balls go; some go back, so a few times.
        for _ in 0..PASSES {
            for (index, state) in far.iter().enumerate().rev() {
                let here = std::mem::take(&mut waiting[number(state)]);
                if here > 0.0 {
                    balls[index] += here;
                    if let Some(row) = &self.far_rows[index] {
                        row.spread(here, &mut waiting);
                    }
                }
            }
        }
        Traffic(balls)
    }
}

impl Sweep<'_> {
    /// Full shots of each part when a hole is played once, the tee shot aside, under a traffic.
    #[must_use]
    pub fn shots(&self, traffic: &Traffic) -> [f32; Part::ALL.len()] {
        let mut shots = [0.0; Part::ALL.len()];
        for (state, balls) in self.far.iter().zip(&traffic.0) {
            if let Some(choice) = self.plan.choices[state.mesh][state.layer][state.node] {
                shots[self.field.part(choice) as usize] += balls;
            }
        }
        shots
    }
}
