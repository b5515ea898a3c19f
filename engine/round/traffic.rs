//! Where balls come by when a hole is played.

use super::choose::Choice;
use super::nodes::Nodes;
use super::part::Part;
use super::row::RowMaker;
use super::sweep::Sweep;
use super::tee::Tee;

/// The far nodes of a hole, nearest the hole first: how many balls come by each when the hole is played once. What is
/// played where hardly any does moves no score to speak of.
#[derive(Debug, Clone, PartialEq)]
pub struct Traffic {
    /// As it is played.
    balls: Vec<f32>,
    /// The most that came by in any of the ways it was thought of being played.
    most: Vec<f32>,
}

impl Traffic {
    /// No ball comes by anywhere.
    pub(super) fn none(nodes: usize) -> Self {
        Self::of(vec![0.0; nodes])
    }

    fn of(balls: Vec<f32>) -> Self {
        Self {
            most: balls.clone(),
            balls,
        }
    }

    /// For each far node, whether it is worth deciding anew what is played from it.
    #[must_use]
    pub(super) fn is_worth(&self) -> Vec<bool> {
        self.most.iter().map(|&balls| balls > WORTH_BALLS).collect()
    }

    /// This traffic, where balls might come by in another way or for another golfer counted too.
    #[must_use]
    pub fn or(&self, other: &Self) -> Self {
        let both = self.most.iter().zip(&other.most);
        Self {
            balls: self.balls.clone(),
            most: both.map(|(a, b)| a.max(*b)).collect(),
        }
    }

    /// By landmark of a hole's far nodes: how many balls come by it and the nodes that follow it.
    pub(super) fn of_landmarks(&self, nodes: &Nodes) -> Vec<f32> {
        let mut landmarks = vec![0.0; self.balls.len()];
        for (balls, leaders) in self.balls.iter().zip(&nodes.leaders) {
            for &leader in leaders {
                landmarks[leader as usize] += balls / leaders.len() as f32;
            }
        }
        landmarks
    }
}

/// Nodes that fewer balls than this come by are not worth deciding for anew.
const WORTH_BALLS: f32 = 0.0005;
/// Fewer balls than this are not followed any farther.
const FOLLOWED_BALLS: f32 = 0.0001;
/// Balls go from the farthest node to the nearest; some go back, so a few times.
const PASSES: usize = 6;

impl Sweep<'_> {
    /// Where balls come by that are played from the tee as is best now.
    pub(super) fn traffic_from(&mut self, tee: &Tee<'_>) -> Traffic {
        match tee.best(&self.values) {
            Some((choice, expected)) => {
                self.values.tee = expected;
                self.traffic_after(tee, choice)
            }
            None => Traffic::none(self.far.len()),
        }
    }

    /// Where balls come by after a choice from the tee. Where plays lead is worked out on the way.
    fn traffic_after(&mut self, tee: &Tee<'_>, choice: Choice) -> Traffic {
        let mut maker = RowMaker::default();
        let from_tee = tee.choosing.row(&self.values, tee.spot, choice, &mut maker);
        let mut waiting = vec![0.0_f32; self.values.count()];
        let mut balls = vec![0.0_f32; self.far.len()];
        from_tee.spread(1.0, &mut waiting);
        for _ in 0..PASSES {
            for index in (0..self.far.len()).rev() {
                let state = self.far[index];
                let number = self.values.number(state.mesh, state.layer, state.node);
                let here = std::mem::take(&mut waiting[number]);
                balls[index] += here;
                if here > FOLLOWED_BALLS {
                    self.spread(index, here, &mut waiting, &mut maker);
                }
            }
        }
        Traffic::of(balls)
    }

    /// Spreads the balls at a far node over the nodes its play leads to.
    fn spread(&mut self, far: usize, balls: f32, waiting: &mut [f32], maker: &mut RowMaker) {
        let leaders = self.leaders(far);
        let each = balls / leaders.len() as f32;
        for &leader in leaders {
            self.find_far_row(leader as usize, maker);
            if let Some(row) = &self.plan.far_rows[leader as usize] {
                row.spread(each, waiting);
            }
        }
    }

    /// Full shots of each part when a hole is played once after a choice from the tee, the tee shot aside.
    #[must_use]
    pub(super) fn shots(&mut self, tee: &Tee<'_>, choice: Choice) -> [f32; Part::ALL.len()] {
        let traffic = self.traffic_after(tee, choice);
        let mut shots = [0.0; Part::ALL.len()];
        for far in 0..self.far.len() {
            let leaders = self.leaders(far);
            let each = traffic.balls[far] / leaders.len() as f32;
            for &leader in leaders {
                let state = self.far[leader as usize];
                if let Some(choice) = self.plan.choices[state.mesh][state.layer][state.node] {
                    shots[self.field.part(choice) as usize] += each;
                }
            }
        }
        shots
    }
}
