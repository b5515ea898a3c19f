//! Where one play leads, as a sum: the expected strokes of a spot in terms of the values around it.
//!
//! As long as a golfer plays the same shot from a spot, the shot ends in the same places, whatever these are worth.
//! So its ends are worked out once, and its expected strokes can be swept again and again for the price of a sum.

use fixedbitset::FixedBitSet;

use super::finish::Finish;
use super::values::{Reading, Values};

/// Strokes of a spot under one play: settled + Σ weight·value, over the share that is not played again.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Strokes and penalties of the shot itself.
    settled: f32,
    /// Share of shots that are played again from the same spot.
    replayed: f32,
    /// Nodes and their weights.
    nodes: Box<[(u32, f32)]>,
    /// Steps of the table of putts and their weights.
    putts: Box<[(u32, f32)]>,
}

impl Row {
    /// Expected strokes, the others' values as they are.
    ///
    /// A replay comes back to this spot and this play: x = settled + replayed·x, solved for x.
    #[must_use]
    pub fn expected(&self, values: &Values) -> f32 {
        let sum = self.settled + values.sum_nodes(&self.nodes) + values.sum_putts(&self.putts);
        sum / (1.0 - self.replayed).max(0.02)
    }
}

impl Row {
    /// Adds the share of so many balls that each node gets, replays played to their end.
    pub fn spread(&self, balls: f32, nodes: &mut [f32]) {
        let balls = balls / (1.0 - self.replayed).max(0.02);
        for &(node, weight) in &self.nodes {
            nodes[node as usize] += balls * weight;
        }
    }
}

/// Adds ends up to a row. It is used for one row after another, so that its room is asked for only once.
#[derive(Debug, Default)]
pub struct RowMaker {
    settled: f32,
    replayed: f32,
    nodes: Weights,
    putts: Weights,
}

impl RowMaker {
    /// Counts strokes that lead nowhere: a shot that is holed.
    pub fn settle(&mut self, strokes: f32) {
        self.settled += strokes;
    }

    /// Counts an end with its share of all shots.
    pub fn add(&mut self, values: &Values, end: &Finish, share: f32) {
        self.settled += share * (1.0 + f32::from(end.penalty));
        if end.replay {
            self.replayed += share;
            return;
        }
        match values.reading(end.spot) {
            Reading::Putts(steps) => {
                for (step, part) in steps {
                    self.putts.add(step, share * part);
                }
            }
            Reading::Nodes { nodes, extra } => {
                self.settled += share * extra;
                for (node, part) in nodes {
                    self.nodes.add(node, share * part);
                }
            }
        }
    }

    /// The row, and room for the next.
    pub fn take(&mut self) -> Row {
        Row {
            settled: std::mem::take(&mut self.settled),
            replayed: std::mem::take(&mut self.replayed),
            nodes: self.nodes.take(),
            putts: self.putts.take(),
        }
    }
}

/// Weights by index, those of one index added up.
#[derive(Debug, Default)]
struct Weights {
    /// One place for each index; 0 where nothing was added.
    sums: Vec<f32>,
    /// The indices that were met.
    met: FixedBitSet,
}

impl Weights {
    fn add(&mut self, index: u32, weight: f32) {
        if weight == 0.0 {
            return;
        }
        let at = index as usize;
        if at >= self.sums.len() {
            self.sums.resize(at + 1, 0.0);
            self.met.grow(at + 1);
        }
        self.met.insert(at);
        self.sums[at] += weight;
    }

    fn take(&mut self) -> Box<[(u32, f32)]> {
        // In the order of the values themselves: reading them is most of the work later.
        let sums = &mut self.sums;
        let taken = self.met.ones();
        let taken = taken
            .map(|index| (index as u32, std::mem::take(&mut sums[index])))
            .collect();
        self.met.clear();
        taken
    }
}
