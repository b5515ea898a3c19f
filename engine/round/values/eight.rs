//! Expected strokes read off at eight places side by side, the same to the last bit as one by one.

use wide::i32x8;

use crate::course::Lie;

use super::{BEYOND_STROKES_PER_YD, LAYERS, Mesh, PUTT_STEPS, PUTT_STEPS_PER_YD, Values, layer_of};
use crate::round::places::{Eight, LANES, Places, codes};

/// A bit for each of eight places.
const ALL_LANES: u32 = (1 << LANES) - 1;

impl Values<'_> {
    /// What [`Self::at`] says of eight spots.
    pub(in crate::round) fn at_eight(&self, at: Places, lies: &[Lie; LANES]) -> [f32; LANES] {
        let kinds = codes(lies);
        let green = kinds.simd_eq(i32x8::splat(Lie::Green as i32));
        match green.to_bitmask() {
            0 => self.off_greens(at, kinds),
            ALL_LANES => self.on_greens(at),
            _ => green.select(self.on_greens(at), self.off_greens(at, kinds)),
        }
        .to_array()
    }

    fn on_greens(&self, at: Places) -> Eight {
        let at = at.seen_from(self.pin).length() * PUTT_STEPS_PER_YD;
        let step = at
            .fast_min(Eight::splat((PUTT_STEPS - 2) as f32))
            .fast_trunc_int();
        let share = (at - step.round_float()).fast_min(Eight::ONE);
        let steps = step.to_array();
        let putts = |more| taken(&self.putts_by_distance, steps, more);
        (Eight::ONE - share) * putts(0) + share * putts(1)
    }

    fn off_greens(&self, at: Places, kinds: i32x8) -> Eight {
        let [far, near] = &self.meshes.meshes;
        let on_near = near.contains_eight(at);
        let either = |figure: fn(&Mesh) -> f32| {
            on_near.select(Eight::splat(figure(near)), Eight::splat(figure(far)))
        };
        let either_whole = |far: usize, near: usize| {
            on_near.select(i32x8::splat(near as i32), i32x8::splat(far as i32))
        };
        let one = i32x8::ONE;
        let columns = either_whole(far.columns, near.columns);
        let rows = either_whole(far.rows, near.rows);
        let per_yd = either(|mesh| mesh.per_yd);
        let share = |from_corner: Eight, cells: i32x8| {
            let scaled = (from_corner * per_yd)
                .fast_max(Eight::ZERO)
                .fast_min((cells - one).round_float());
            let whole = scaled
                .fast_trunc_int()
                .min((cells - one - one).max(i32x8::ZERO));
            (whole, scaled - whole.round_float())
        };
        let (from_left, from_near) = (
            at.x - either(|mesh| mesh.corner.x),
            at.y - either(|mesh| mesh.corner.y),
        );
        let (column, right) = share(from_left, columns);
        let (row, along) = share(from_near, rows);
        let first = either_whole(0, LAYERS * far.len())
            + layers(kinds) * either_whole(far.len(), near.len());
        let node = (first + row * columns + column).to_array();
        let above = (first + (row + one) * columns + column).to_array();
        let mix = |nodes: [i32; LANES]| {
            let (left, next) = (taken(&self.nodes, nodes, 0), taken(&self.nodes, nodes, 1));
            left + (next - left) * right
        };
        let (low, high) = (mix(node), mix(above));
        let step_yd = either(|mesh| mesh.step_yd);
        let outside = |from_corner: Eight, cells: i32x8| {
            let span = (cells - one).round_float() * step_yd;
            (from_corner - span)
                .fast_max(-from_corner)
                .fast_max(Eight::ZERO)
        };
        let beyond = outside(from_left, columns) + outside(from_near, rows);
        low + (high - low) * along + BEYOND_STROKES_PER_YD * beyond
    }
}

impl Mesh {
    /// What [`Self::contains`] says of eight places.
    fn contains_eight(&self, at: Places) -> Eight {
        let span = |cells: usize| Eight::splat((cells - 1) as f32 * self.step_yd);
        let Places { x, y } = at.seen_from(self.corner);
        let zero = Eight::ZERO;
        x.simd_ge(zero)
            & y.simd_ge(zero)
            & x.simd_le(span(self.columns))
            & y.simd_le(span(self.rows))
    }
}

/// The values at eight numbers, or so many further on.
#[inline]
fn taken(values: &[f32], numbers: [i32; LANES], more: usize) -> Eight {
    let mut taken = [0.0; LANES];
    for (taken, number) in taken.iter_mut().zip(numbers) {
        *taken = values[number as usize + more];
    }
    Eight::new(taken)
}

/// The layers of eight lies.
fn layers(kinds: i32x8) -> i32x8 {
    let of = |lie: Lie| {
        let layer = i32x8::splat(layer_of(lie) as i32);
        kinds.simd_eq(i32x8::splat(lie as i32)) & layer
    };
    of(Lie::Rough) | of(Lie::Sand) | of(Lie::Trees)
}
