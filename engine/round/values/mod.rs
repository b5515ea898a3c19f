//! Expected strokes over a hole: a coarse mesh of nodes, one layer per lie, read by interpolation.
//!
//! Expected strokes change smoothly with place and sharply with lie, so each node holds a value for every
//! lie found near it, and a ball's value is interpolated between the four nodes around it in the layer of
//! its own lie. Around the green a finer mesh takes over.

mod eight;

use crate::ball::putts::PuttTable;
use crate::course::{Hole, Lie};

use super::finish::Spot;
use super::ground::Ground;
use super::nodes::Nodes;
use super::part::SHORT_GAME_YD;
use super::place::{FEET, Xy};

/// A hole is given up after this many strokes, as it would be on a course: no more are expected from anywhere.
pub const MOST_STROKES: u32 = 40;

/// Spacing of the nodes away from the green, yards.
const FAR_STEP_YD: f32 = 12.0;
/// Size of the squares for which it is decided what is played, yards.
const SQUARE_YD: f32 = 4.0;
/// The coarse mesh reaches this far to both sides of the line of play and beyond its end, yards.
const FAR_REACH_YD: f32 = 65.0;
/// A ball still wider costs so many strokes a yard more than at the mesh's edge: enough that nobody aims
/// there for want of a price.
const BEYOND_STROKES_PER_YD: f32 = 1.0 / 60.0;
/// Spacing around the green, yards.
const NEAR_STEP_YD: f32 = 4.0;
/// The fine mesh reaches this far past the short game's edge, yards.
const NEAR_MARGIN_YD: f32 = 6.0;

/// Layers: fairway (and tee), rough, sand, trees.
pub const LAYERS: usize = 4;
/// The lie of each layer.
pub const LAYER_LIES: [Lie; LAYERS] = [Lie::Fairway, Lie::Rough, Lie::Sand, Lie::Trees];

/// The layer a lie belongs to; the green has none (its values are putts).
#[must_use]
pub const fn layer_of(lie: Lie) -> usize {
    match lie {
        Lie::Rough => 1,
        Lie::Sand => 2,
        Lie::Trees => 3,
        _ => 0,
    }
}

/// A rectangle of nodes.
#[derive(Debug, Clone, PartialEq)]
pub struct Mesh {
    corner: Xy,
    step_yd: f32,
    /// 1/step: dividing is slow.
    per_yd: f32,
    columns: usize,
    rows: usize,
}

impl Mesh {
    /// A mesh over a rectangle, the same to both sides of its middle, so that a mirrored hole has the
    /// mirrored mesh.
    fn covering(low: Xy, high: Xy, step_yd: f32) -> Self {
        let steps = |from: f32, to: f32| ((to - from) / step_yd).ceil().max(1.0) as usize;
        let half = steps(0.0, (high.x - low.x) / 2.0);
        let middle = (low.x + high.x) / 2.0;
        Self {
            corner: Xy::new(middle - half as f32 * step_yd, low.y),
            step_yd,
            per_yd: 1.0 / step_yd,
            columns: 2 * half + 1,
            rows: steps(low.y, high.y) + 1,
        }
    }

    /// Nodes in all.
    #[must_use]
    pub const fn len(&self) -> usize {
        self.columns * self.rows
    }

    /// Whether there are none.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// Place of a node.
    #[must_use]
    pub fn place(&self, node: usize) -> Xy {
        let (column, row) = (node % self.columns, node / self.columns);
        Xy::new(
            self.corner.x + column as f32 * self.step_yd,
            self.corner.y + row as f32 * self.step_yd,
        )
    }

    /// Whether a node lies on every other row and column, counted from the middle column.
    #[must_use]
    pub const fn is_landmark(&self, node: usize) -> bool {
        let from_middle = (node % self.columns).abs_diff(self.columns / 2);
        from_middle.is_multiple_of(2) && (node / self.columns).is_multiple_of(2)
    }

    /// The up to eight nodes around one.
    pub fn around(&self, node: usize) -> impl Iterator<Item = usize> + '_ {
        let (column, row) = (node % self.columns, node / self.columns);
        let rows = row.saturating_sub(1)..(row + 2).min(self.rows);
        rows.flat_map(move |row| {
            let columns = column.saturating_sub(1)..(column + 2).min(self.columns);
            columns.map(move |column| row * self.columns + column)
        })
        .filter(move |&other| other != node)
    }

    #[inline]
    fn contains(&self, at: Xy) -> bool {
        let span = |cells: usize| (cells - 1) as f32 * self.step_yd;
        let (right, along) = (at.x - self.corner.x, at.y - self.corner.y);
        right >= 0.0 && along >= 0.0 && right <= span(self.columns) && along <= span(self.rows)
    }

    /// The lower left of the four nodes around a place, and the place's shares between them.
    #[inline]
    fn cell(&self, at: Xy) -> (usize, f32, f32) {
        let share = |value: f32, cells: usize| {
            let scaled = (value * self.per_yd).clamp(0.0, (cells - 1) as f32);
            // Through 32 bits: that is one step, and 64 are several.
            let whole = (scaled as u32 as usize).min(cells.saturating_sub(2));
            (whole, scaled - whole as f32)
        };
        let (column, right) = share(at.x - self.corner.x, self.columns);
        let (row, along) = share(at.y - self.corner.y, self.rows);
        (row * self.columns + column, right, along)
    }

    /// The nodes around a place and their weights, and the strokes for lying outside the mesh.
    fn reading(&self, base: usize, at: Xy) -> Reading {
        let (node, right, along) = self.cell(at);
        let node = base + node;
        let weight = |node: usize, across: f32, along: f32| (node as u32, across * along);
        let above = node + self.columns;
        Reading::Nodes {
            nodes: [
                weight(node, 1.0 - right, 1.0 - along),
                weight(node + 1, right, 1.0 - along),
                weight(above, 1.0 - right, along),
                weight(above + 1, right, along),
            ],
            extra: BEYOND_STROKES_PER_YD * self.beyond_yd(at),
        }
    }

    /// The four nodes around a place.
    #[must_use]
    pub fn corners(&self, at: Xy) -> [usize; 4] {
        let (node, ..) = self.cell(at);
        [node, node + 1, node + self.columns, node + self.columns + 1]
    }

    /// The node nearest to a place.
    #[must_use]
    pub fn nearest(&self, at: Xy) -> usize {
        let (node, right, along) = self.cell(at);
        node + usize::from(right >= 0.5) + if along >= 0.5 { self.columns } else { 0 }
    }

    #[inline]
    fn interpolate(&self, layer: &[f32], at: Xy) -> f32 {
        let (node, right, along) = self.cell(at);
        let mix = |from: usize| layer[from] + (layer[from + 1] - layer[from]) * right;
        let (near, far) = (mix(node), mix(node + self.columns));
        near + (far - near) * along + BEYOND_STROKES_PER_YD * self.beyond_yd(at)
    }

    /// How far a place lies outside the mesh, yards.
    #[inline]
    fn beyond_yd(&self, at: Xy) -> f32 {
        let outside = |value: f32, cells: usize| {
            let span = (cells - 1) as f32 * self.step_yd;
            (value - span).max(-value).max(0.0)
        };
        outside(at.x - self.corner.x, self.columns) + outside(at.y - self.corner.y, self.rows)
    }
}

/// A hole made ready to be solved: its ground, its two meshes, and which nodes are needed in which layer.
#[derive(Debug, Clone, PartialEq)]
pub struct Meshes {
    /// The ground.
    pub ground: Ground,
    /// The coarse mesh and the fine one.
    pub meshes: [Mesh; 2],
    /// The small squares, by their middles, for which it is decided what is played.
    pub squares: Mesh,
    /// For each mesh and layer, the nodes a ball could need.
    pub needed: [[Vec<u32>; LAYERS]; 2],
    /// The same, in the order in which values flow back from the hole.
    pub(super) nodes: Nodes,
}

impl Meshes {
    /// The meshes of a hole.
    #[must_use]
    pub fn of(hole: &Hole) -> Self {
        let (far_corner, far_opposite) = far_box(hole);
        let (near_corner, near_opposite) = near_box(hole);
        let meshes = [
            Mesh::covering(far_corner, far_opposite, FAR_STEP_YD),
            Mesh::covering(near_corner, near_opposite, NEAR_STEP_YD),
        ];
        let mut wanted = meshes
            .each_ref()
            .map(|mesh| vec![[false; LAYERS]; mesh.len()]);
        for (at, lie) in cells(hole) {
            if matches!(lie, Lie::Green | Lie::Water | Lie::OutOfBounds) {
                continue;
            }
            // A line of a mesh may run through a cell: what its corners need, any ball in it may need.
            for corner in CELL_CORNERS {
                let at = at.moved(corner, 1.0);
                let mesh = usize::from(meshes[1].contains(at));
                for node in meshes[mesh].corners(at) {
                    wanted[mesh][node][layer_of(lie)] = true;
                }
            }
        }
        let needed = wanted.map(|mesh| {
            std::array::from_fn(|layer| {
                (0..mesh.len())
                    .filter(|&node| mesh[node][layer])
                    .map(|node| node as u32)
                    .collect()
            })
        });
        let mut found = Self {
            ground: Ground::new(&hole.grid),
            squares: Mesh::covering(far_corner, far_opposite, SQUARE_YD),
            meshes,
            needed,
            nodes: Nodes::default(),
        };
        found.nodes = Nodes::of(hole, &found);
        found
    }

    /// Which mesh answers for a place.
    #[inline]
    #[must_use]
    pub fn mesh_at(&self, at: Xy) -> usize {
        usize::from(self.meshes[1].contains(at))
    }
}

/// From the middle of a cell to just inside its corners, yards.
const CELL_CORNERS: [Xy; 4] = [
    Xy::new(-0.499, -0.499),
    Xy::new(0.499, -0.499),
    Xy::new(-0.499, 0.499),
    Xy::new(0.499, 0.499),
];

/// Centres and lies of every cell.
fn cells(hole: &Hole) -> impl Iterator<Item = (Xy, Lie)> + '_ {
    let grid = &hole.grid;
    grid.lies.iter().enumerate().map(move |(index, &lie)| {
        let (column, row) = (index % grid.columns, index / grid.columns);
        let at = Xy::new(
            grid.left_yd as f32 + column as f32 + 0.5,
            grid.near_yd as f32 + row as f32 + 0.5,
        );
        (at, lie)
    })
}

/// Two corners of the ground around the line of play.
fn far_box(hole: &Hole) -> (Xy, Xy) {
    let tee = Xy::from(hole.tee);
    let (mut low, mut high) = (tee, tee);
    for &point in &hole.line {
        let point = Xy::from(point);
        low = Xy::new(low.x.min(point.x - FAR_REACH_YD), low.y.min(point.y));
        high = Xy::new(
            high.x.max(point.x + FAR_REACH_YD),
            high.y.max(point.y + FAR_REACH_YD),
        );
    }
    (low, high)
}

/// Two corners of the short game's ground.
fn near_box(hole: &Hole) -> (Xy, Xy) {
    let reach = SHORT_GAME_YD + NEAR_MARGIN_YD;
    let pin = Xy::from(hole.pin);
    let (mut low, mut high) = (pin, pin);
    for (at, lie) in cells(hole) {
        if lie == Lie::Green {
            low = Xy::new(low.x.min(at.x), low.y.min(at.y));
            high = Xy::new(high.x.max(at.x), high.y.max(at.y));
        }
    }
    (
        Xy::new(low.x - reach, low.y - reach),
        Xy::new(high.x + reach, high.y + reach),
    )
}

/// Steps of the table of putts, and how far it reaches: 100 yd, farther than any green. Beyond, the last is held.
const PUTT_STEPS_PER_YD: f32 = 10.0;
const PUTT_STEPS: usize = 1001;

/// Where a spot's expected strokes are read off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reading {
    /// Between two steps of the table of putts: the steps and their weights.
    Putts([(u32, f32); 2]),
    /// Between nodes: their numbers and weights, and strokes on top.
    Nodes {
        /// Numbers as [`Values::sum_nodes`] takes them.
        nodes: [(u32, f32); 4],
        /// Strokes for lying outside the mesh.
        extra: f32,
    },
}

/// Expected strokes of one golfer everywhere on one hole.
#[derive(Debug, Clone)]
pub struct Values<'a> {
    meshes: &'a Meshes,
    putts: &'a PuttTable,
    /// Expected putts from every tenth of a yard.
    putts_by_distance: Vec<f32>,
    pin: Xy,
    /// Nodes of both meshes, layer by layer.
    nodes: Vec<f32>,
    /// From the tee.
    pub tee: f32,
}

impl<'a> Values<'a> {
    /// First guesses: two and a half strokes at the green, and one more for so many yards.
    ///
    /// They should be no better than what the golfer will make of it. A place that looks better than it is draws shots,
    /// backwards too; and what was chosen for its sake is not all thought about again.
    #[must_use]
    pub fn guessed(
        hole: &Hole,
        meshes: &'a Meshes,
        putts: &'a PuttTable,
        a_stroke_yd: f32,
    ) -> Self {
        let pin = Xy::from(hole.pin);
        let guess = |at: Xy, layer: usize| {
            2.5 + pin.seen_from(at).length() / a_stroke_yd + 0.2 * layer as f32
        };
        let nodes = meshes.meshes.iter().flat_map(|mesh| {
            (0..LAYERS).flat_map(move |layer| {
                (0..mesh.len()).map(move |node| guess(mesh.place(node), layer))
            })
        });
        let distance_ft = |step: usize| f64::from(step as f32 / PUTT_STEPS_PER_YD * FEET);
        Self {
            meshes,
            putts,
            putts_by_distance: (0..PUTT_STEPS)
                .map(|step| putts.expected(distance_ft(step)) as f32)
                .collect(),
            pin,
            nodes: nodes.collect(),
            tee: 4.0,
        }
    }

    /// Expected strokes from a spot. On the tee lie that is the hole's own tee.
    #[inline]
    #[must_use]
    pub fn at(&self, spot: Spot) -> f32 {
        match spot.lie {
            Lie::Green => {
                let [(step, near), (next, far)] = self.putt_steps(spot.at);
                near * self.putts_by_distance[step as usize]
                    + far * self.putts_by_distance[next as usize]
            }
            lie => {
                let mesh = self.meshes.mesh_at(spot.at);
                let first = self.first(mesh, layer_of(lie));
                let layer = &self.nodes[first..first + self.meshes.meshes[mesh].len()];
                self.meshes.meshes[mesh].interpolate(layer, spot.at)
            }
        }
    }

    /// Where [`Self::at`] reads a spot's expected strokes off.
    #[must_use]
    pub fn reading(&self, spot: Spot) -> Reading {
        match spot.lie {
            Lie::Green => Reading::Putts(self.putt_steps(spot.at)),
            lie => {
                let mesh = self.meshes.mesh_at(spot.at);
                let first = self.first(mesh, layer_of(lie));
                self.meshes.meshes[mesh].reading(first, spot.at)
            }
        }
    }

    /// The steps of the table of putts around a place, and their weights.
    #[inline]
    fn putt_steps(&self, at: Xy) -> [(u32, f32); 2] {
        let at = self.pin.seen_from(at).length() * PUTT_STEPS_PER_YD;
        let step = (at as u32).min(PUTT_STEPS as u32 - 2);
        let share = (at - step as f32).min(1.0);
        [(step, 1.0 - share), (step + 1, share)]
    }

    /// Weighted sum of nodes.
    #[inline]
    #[must_use]
    pub fn sum_nodes(&self, weights: &[(u32, f32)]) -> f32 {
        weighted(&self.nodes, weights)
    }

    /// Weighted sum of steps of the table of putts.
    #[inline]
    #[must_use]
    pub fn sum_putts(&self, weights: &[(u32, f32)]) -> f32 {
        weighted(&self.putts_by_distance, weights)
    }

    /// The golfer's putts on this green.
    #[must_use]
    pub const fn putts(&self) -> &'a PuttTable {
        self.putts
    }

    /// Takes over another golfer's values of the same hole, as a better first guess.
    pub fn copy_nodes(&mut self, other: &Values<'_>) {
        self.nodes.clone_from(&other.nodes);
        self.tee = other.tee;
    }

    /// The first node of a layer.
    #[inline]
    fn first(&self, mesh: usize, layer: usize) -> usize {
        let [far, near] = &self.meshes.meshes;
        if mesh == 0 {
            layer * far.len()
        } else {
            LAYERS * far.len() + layer * near.len()
        }
    }

    /// How many nodes there are, over both meshes and all layers.
    #[must_use]
    pub const fn count(&self) -> usize {
        self.nodes.len()
    }

    /// A node's number among them all.
    #[must_use]
    pub fn number(&self, mesh: usize, layer: usize, node: usize) -> usize {
        self.first(mesh, layer) + node
    }

    /// A node's value.
    #[must_use]
    pub fn node(&self, mesh: usize, layer: usize, node: usize) -> f32 {
        self.nodes[self.first(mesh, layer) + node]
    }

    /// Sets a node's value: never more than the strokes after which a hole is given up, and never less than one.
    pub fn set_node(&mut self, mesh: usize, layer: usize, node: usize, value: f32) {
        let first = self.first(mesh, layer);
        self.nodes[first + node] = value.clamp(1.0, MOST_STROKES as f32);
    }
}

/// Σ weight·value. In four sums side by side, since one would wait for itself.
#[inline]
fn weighted(values: &[f32], weights: &[(u32, f32)]) -> f32 {
    let term = |&(index, weight): &(u32, f32)| weight * values[index as usize];
    let mut sums = [0.0_f32; 4];
    let fours = weights.chunks_exact(4);
    let rest: f32 = fours.remainder().iter().map(term).sum();
    for four in fours {
        for (sum, weight) in sums.iter_mut().zip(four) {
            *sum += term(weight);
        }
    }
    (sums[0] + sums[1]) + (sums[2] + sums[3]) + rest
}
