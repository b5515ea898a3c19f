//! A hole as a grid of 1 yd cells, each with its lie.

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
    /// For each cell, a distance in yards within which every cell has the same lie (0 at an edge), at most 255.
    pub clearance_yd: Vec<u8>,
    /// For each cell, the distance in yards from its centre to the green's edge (0 on the green).
    pub to_green_yd: Vec<f32>,
}
