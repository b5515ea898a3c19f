//! Eight places side by side in one register, and the ground at them.

use wide::{f32x8, i32x8};

use crate::course::Lie;

use super::ground::{Cell, Ground};
use super::place::Xy;

/// How many balls go side by side.
pub(super) const LANES: usize = 8;

/// Eight numbers.
pub(super) type Eight = f32x8;

/// Eight places or displacements, yards.
#[derive(Debug, Clone, Copy)]
pub(super) struct Places {
    /// To the right.
    pub x: Eight,
    /// Along.
    pub y: Eight,
}

impl Places {
    /// The same place eight times.
    pub fn splat(at: Xy) -> Self {
        Self {
            x: Eight::splat(at.x),
            y: Eight::splat(at.y),
        }
    }

    /// Of the coordinates of each.
    pub fn of(x: [f32; LANES], y: [f32; LANES]) -> Self {
        Self {
            x: Eight::new(x),
            y: Eight::new(y),
        }
    }

    /// See [`Xy::seen_from`].
    pub fn seen_from(self, origin: Xy) -> Self {
        let origin = Self::splat(origin);
        Self {
            x: self.x - origin.x,
            y: self.y - origin.y,
        }
    }

    /// See [`Xy::moved`]; each by a share of its own.
    pub fn moved(self, step: Self, share: Eight) -> Self {
        Self {
            x: self.x + step.x * share,
            y: self.y + step.y * share,
        }
    }

    /// See [`Xy::turned`]; each by a direction of its own.
    pub fn turned(self, ahead: Self) -> Self {
        Self {
            x: self.y * ahead.x + self.x * ahead.y,
            y: self.y * ahead.y - self.x * ahead.x,
        }
    }

    /// See [`Xy::length`].
    pub fn length(self) -> Eight {
        (self.x * self.x + self.y * self.y).sqrt()
    }

    /// One of the eight.
    pub fn lane(&self, lane: usize) -> Xy {
        Xy::new(self.x.as_array()[lane], self.y.as_array()[lane])
    }
}

/// Eight cells.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cells {
    /// What a ball lies on there, as [`codes`] has it.
    pub lies: i32x8,
    /// How far around nothing changes, yards.
    pub clear_yd: Eight,
}

/// The lies of whole numbers.
pub(super) fn lies(codes: i32x8) -> [Lie; LANES] {
    let mut lies = [Lie::Tee; LANES];
    for (lie, code) in lies.iter_mut().zip(codes.to_array()) {
        *lie = Lie::ALL[code as usize];
    }
    lies
}

/// Lies as whole numbers.
pub(super) fn codes(lies: &[Lie; LANES]) -> i32x8 {
    i32x8::new(lies.map(|lie| lie as i32))
}

impl Ground {
    /// What [`Self::at`] says of eight places.
    #[inline]
    pub(super) fn at_eight(&self, at: Places) -> Cells {
        let numbers = self.numbers(at);
        // A loop: an array that is mapped is not always worked out in place.
        let mut packed = [0; LANES];
        for (packed, number) in packed.iter_mut().zip(numbers) {
            let Cell { lie, clear_yd } = self.cell(number as usize);
            *packed = lie as i32 | (i32::from(clear_yd) << 8);
        }
        let packed = i32x8::new(packed);
        // Not shifted: how far would pass through memory, and be waited for.
        Cells {
            lies: packed & 0xff,
            clear_yd: (packed & 0xff00).round_float() * (1.0 / 256.0),
        }
    }

    /// The numbers of the cells at eight places.
    #[inline]
    fn numbers(&self, at: Places) -> [i32; LANES] {
        let Places { x, y } = at.seen_from(self.corner());
        let (columns, rows) = self.size();
        let within = x.simd_ge(Eight::ZERO)
            & y.simd_ge(Eight::ZERO)
            & x.simd_lt(Eight::splat(columns as f32))
            & y.simd_lt(Eight::splat(rows as f32));
        // Beyond the grid the numbers mean nothing, and are not taken.
        let number = y.fast_trunc_int() * i32x8::splat(columns as i32) + x.fast_trunc_int();
        let number = within.select(number, i32x8::splat(self.outside() as i32));
        number.to_array()
    }
}
