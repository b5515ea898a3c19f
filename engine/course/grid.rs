//! A hole as a grid of 1 yd cells, each with its lie.
//!
//! Cells are bounded by whole yards and their middles lie on half yards, so that the line of play is an edge between
//! cells and a hole mirrors exactly.

use super::distance;

/// What a ball lies on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[repr(u8)]
pub enum Lie {
    /// The teeing area.
    Tee,
    /// Fairway.
    Fairway,
    /// Rough.
    Rough,
    /// A bunker.
    Sand,
    /// Trees, scrub or heath: playable, at a price.
    Trees,
    /// The putting green.
    Green,
    /// A penalty area.
    Water,
    /// Out of bounds.
    OutOfBounds,
}

impl Lie {
    /// Every lie.
    pub const ALL: [Self; 8] = [
        Self::Tee,
        Self::Fairway,
        Self::Rough,
        Self::Sand,
        Self::Trees,
        Self::Green,
        Self::Water,
        Self::OutOfBounds,
    ];
}

/// The lies of a hole.
#[derive(Debug, Clone, PartialEq)]
pub struct LieGrid {
    /// x of the left edge of the leftmost cells, yards.
    pub left_yd: f64,
    /// y of the near edge of the nearest cells, yards.
    pub near_yd: f64,
    /// Cells across.
    pub columns: usize,
    /// Cells along.
    pub rows: usize,
    /// Lies, row by row from the nearest, each row from left to right.
    pub lies: Vec<Lie>,
    /// For each cell, a distance in yards within which every cell has the same lie (0 at an edge), at most 255:
    /// from any point of the cell, whatever lies nearer than this has the cell's lie.
    pub clearance_yd: Vec<u8>,
    /// For each cell, the distance in yards from its centre to the green's edge (0 on the green).
    pub to_green_yd: Vec<f32>,
}

impl LieGrid {
    /// A grid from its lies, with the distances worked out.
    #[must_use]
    pub(crate) fn new(left_yd: f64, near_yd: f64, columns: usize, lies: Vec<Lie>) -> Self {
        let rows = lies.len() / columns;
        let clearance_yd = distance::clearance_yd(&lies, columns);
        let to_green_yd = distance::to_green_yd(&lies, columns);
        Self {
            left_yd,
            near_yd,
            columns,
            rows,
            lies,
            clearance_yd,
            to_green_yd,
        }
    }

    /// The cell at a point, if the point is on the grid.
    #[inline]
    #[must_use]
    pub fn cell(&self, x_yd: f64, y_yd: f64) -> Option<usize> {
        let (right, along) = (x_yd - self.left_yd, y_yd - self.near_yd);
        // Cutting off the fraction rounds down where nothing is negative, and is far faster than `floor`.
        let (column, row) = (right as i32 as usize, along as i32 as usize);
        let inside = right >= 0.0 && along >= 0.0 && column < self.columns && row < self.rows;
        inside.then(|| row * self.columns + column)
    }

    /// The lie at a point; out of bounds beyond the grid.
    #[inline]
    #[must_use]
    pub fn lie(&self, x_yd: f64, y_yd: f64) -> Lie {
        self.cell(x_yd, y_yd)
            .map_or(Lie::OutOfBounds, |cell| self.lies[cell])
    }

    /// A distance in yards within which all lies are the same as at a point; 0 beyond the grid.
    #[inline]
    #[must_use]
    pub fn clearance_yd(&self, x_yd: f64, y_yd: f64) -> f64 {
        self.cell(x_yd, y_yd)
            .map_or(0.0, |cell| f64::from(self.clearance_yd[cell]))
    }

    /// The distance in yards from the middle of a point's cell to the green's edge, 0 on the green; infinite beyond the
    /// grid.
    #[inline]
    #[must_use]
    pub fn to_green_yd(&self, x_yd: f64, y_yd: f64) -> f64 {
        self.cell(x_yd, y_yd)
            .map_or(f64::INFINITY, |cell| f64::from(self.to_green_yd[cell]))
    }

    /// The middle of a cell, x and y in yards.
    #[must_use]
    pub fn centre_yd(&self, cell: usize) -> (f64, f64) {
        let (row, column) = (cell / self.columns, cell % self.columns);
        (
            self.left_yd + column as f64 + 0.5,
            self.near_yd + row as f64 + 0.5,
        )
    }

    /// The grid with left and right exchanged, cell for cell.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        Self {
            left_yd: -(self.left_yd + self.columns as f64),
            lies: reversed_rows(&self.lies, self.columns),
            clearance_yd: reversed_rows(&self.clearance_yd, self.columns),
            to_green_yd: reversed_rows(&self.to_green_yd, self.columns),
            ..*self
        }
    }
}

/// Each row from its other end.
fn reversed_rows<T: Copy>(cells: &[T], columns: usize) -> Vec<T> {
    cells
        .chunks(columns)
        .flat_map(|row| row.iter().rev().copied())
        .collect()
}
