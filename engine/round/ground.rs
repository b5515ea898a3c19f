//! A hole's ground packed for the inner loops: lie and clearance of a cell side by side.

use fixedbitset::FixedBitSet;

use crate::course::{Lie, LieGrid};

use super::part::SHORT_GAME_YD;
use super::place::Xy;

/// Lies of a hole in the form the rounds read.
#[derive(Debug, Clone, PartialEq)]
pub struct Ground {
    corner: Xy,
    columns: u32,
    rows: u32,
    /// Row by row, and behind them one that stands for all outside.
    cells: Vec<Cell>,
    /// The cells from which the short game is played: so few bytes that they stay at hand while balls are followed.
    short_game: FixedBitSet,
}

/// One square yard.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cell {
    /// What a ball lies on.
    pub lie: Lie,
    /// How far around the cell nothing changes, yards.
    pub clear_yd: u8,
}

impl Cell {
    /// A cell outside the grid.
    const OUTSIDE: Self = Self {
        lie: Lie::OutOfBounds,
        clear_yd: 0,
    };
}

impl Ground {
    /// The ground of a grid.
    #[must_use]
    pub fn new(grid: &LieGrid) -> Self {
        let cells = grid.lies.iter().zip(&grid.clearance_yd);
        let to_green = (0..).zip(&grid.to_green_yd);
        Self {
            corner: Xy::new(grid.left_yd as f32, grid.near_yd as f32),
            columns: grid.columns as u32,
            rows: grid.rows as u32,
            cells: cells
                .map(|(&lie, &clear_yd)| Cell { lie, clear_yd })
                .chain([Cell::OUTSIDE])
                .collect(),
            short_game: to_green
                .filter(|(_, yd)| **yd <= SHORT_GAME_YD)
                .map(|(cell, _)| cell)
                .collect(),
        }
    }

    /// The ground at a place; out of bounds outside the grid.
    #[inline]
    #[must_use]
    pub fn at(&self, at: Xy) -> Cell {
        self.cells[self.number(at)]
    }

    /// Whether a ball off the green is chipped, pitched or played out of a bunker from a place: no full shot is.
    #[inline]
    #[must_use]
    pub fn is_short_game(&self, at: Xy) -> bool {
        self.short_game.contains(self.number(at))
    }

    /// The number of the cell at a place.
    #[inline]
    fn number(&self, at: Xy) -> usize {
        let (right, along) = (at.x - self.corner.x, at.y - self.corner.y);
        // Conversion cuts off: it rounds down where nothing is negative, and negative places turn to 0,
        // which the first two comparisons catch.
        let (column, row) = (right as u32, along as u32);
        if right >= 0.0 && along >= 0.0 && column < self.columns && row < self.rows {
            (row * self.columns + column) as usize
        } else {
            self.outside() as usize
        }
    }

    /// The corner of the grid that all its places lie to the right of, and beyond.
    pub(super) const fn corner(&self) -> Xy {
        self.corner
    }

    /// Columns and rows.
    pub(super) const fn size(&self) -> (u32, u32) {
        (self.columns, self.rows)
    }

    /// The number of the cell that stands for all outside.
    pub(super) const fn outside(&self) -> u32 {
        self.columns * self.rows
    }

    /// A cell by its number, row by row.
    #[inline]
    pub(super) fn cell(&self, number: usize) -> Cell {
        self.cells[number]
    }

    /// The lie at a place.
    #[inline]
    #[must_use]
    pub fn lie(&self, at: Xy) -> Lie {
        self.at(at).lie
    }
}
