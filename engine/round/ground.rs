//! A hole's ground packed for the inner loops: lie and clearance of a cell side by side.

use crate::course::{Lie, LieGrid};

use super::place::Xy;

/// Lies of a hole in the form the rounds read.
#[derive(Debug, Clone, PartialEq)]
pub struct Ground {
    corner: Xy,
    columns: u32,
    rows: u32,
    cells: Vec<Cell>,
}

/// One square yard.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cell {
    /// What a ball lies on.
    pub lie: Lie,
    /// How far around the cell nothing changes, yards.
    pub clear_yd: u8,
}

impl Ground {
    /// The ground of a grid.
    #[must_use]
    pub fn new(grid: &LieGrid) -> Self {
        let cells = grid.lies.iter().zip(&grid.clearance_yd);
        Self {
            corner: Xy::new(grid.left_yd as f32, grid.near_yd as f32),
            columns: grid.columns as u32,
            rows: grid.rows as u32,
            cells: cells
                .map(|(&lie, &clear_yd)| Cell { lie, clear_yd })
                .collect(),
        }
    }

    /// The ground at a place; out of bounds outside the grid.
    #[inline]
    #[must_use]
    pub fn at(&self, at: Xy) -> Cell {
        let (right, along) = (at.x - self.corner.x, at.y - self.corner.y);
        // Conversion cuts off: it rounds down where nothing is negative, and negative places turn to 0,
        // which the first two comparisons catch.
        let (column, row) = (right as u32, along as u32);
        if right >= 0.0 && along >= 0.0 && column < self.columns && row < self.rows {
            self.cells[(row * self.columns + column) as usize]
        } else {
            Cell {
                lie: Lie::OutOfBounds,
                clear_yd: 0,
            }
        }
    }

    /// The lie at a place.
    #[inline]
    #[must_use]
    pub fn lie(&self, at: Xy) -> Lie {
        self.at(at).lie
    }
}
