//! Where eight running balls first find themselves on another lie.

use wide::i32x8;

use crate::course::Lie;

use super::finish::{Edge, STEP_YD};
use super::ground::Ground;
use super::places::{Cells, Eight, LANES, Places, lies};

/// Eight balls that run.
pub(super) struct Runs {
    /// Where they pitched.
    pub pitch: Places,
    /// What they pitched on.
    pub kinds: i32x8,
    /// Unit vectors.
    pub direction: Places,
    /// How far each runs on such ground.
    pub way: Eight,
    /// Which of them may come over an edge.
    pub looking: i32x8,
}

/// The first edges on eight ways.
pub(super) struct Edges {
    /// Whose way has one, bit by bit.
    pub met: u32,
    gone: [f32; LANES],
    lies: [Lie; LANES],
}

impl Runs {
    /// Where each is, so far on.
    pub fn at(&self, gone: Eight) -> Places {
        self.pitch.moved(self.direction, gone)
    }

    /// What `edge` of [`super::finish`] finds on each way, looking from `first` on: the same, to the last bit.
    pub fn edges(&self, ground: &Ground, first: Eight) -> Edges {
        let (mut looking, mut gone) = (self.looking, first);
        let (mut met, mut edges, mut beyond) = (i32x8::ZERO, Eight::ZERO, self.kinds);
        while looking.any() {
            let here = gone.fast_min(self.way);
            let Cells {
                lies: next,
                clear_yd: clear,
            } = ground.at_eight(self.at(here));
            let other = looking & !next.simd_eq(self.kinds);
            edges = other.select(here, edges);
            beyond = other.select(next, beyond);
            met |= other;
            let to_the_end: i32x8 = bytemuck::must_cast((gone + clear).simd_ge(self.way));
            looking &= !(other | to_the_end);
            // Places within what is clear round this one are of the same lie.
            let steps = ((clear + 0.5) * (1.0 / STEP_YD)).floor() + 1.0;
            gone += steps * STEP_YD;
        }
        Edges {
            met: met.to_bitmask(),
            gone: edges.to_array(),
            lies: lies(beyond),
        }
    }
}

impl Edges {
    /// The edge of one that met one.
    pub fn edge(&self, lane: usize) -> Edge {
        (self.gone[lane], self.lies[lane])
    }
}

/// The lanes of a number's bits.
pub(super) fn mask(bits: u32) -> i32x8 {
    i32x8::new(std::array::from_fn(|lane| -((bits >> lane & 1) as i32)))
}
