//! Exact distances over a grid in time linear in its cells.
//!
//! Each transform goes first along the rows, then down the columns, where the distance is the lower envelope of
//! parabolas. Source: P. F. Felzenszwalb and D. P. Huttenlocher, Distance Transforms of Sampled Functions, Theory of
//! Computing 8 (2012) 415–428.

use super::Lie;

/// A parabola `height + (x − at)²` of a lower envelope, and where it takes over from the one before.
#[derive(Debug, Clone, Copy)]
struct Parabola {
    at: f64,
    height: f64,
    from: f64,
}

impl Parabola {
    fn value(self, x: f64) -> f64 {
        self.height + (x - self.at).powi(2)
    }

    /// Where a parabola further right takes over from this one.
    fn gives_way(self, at: f64, height: f64) -> f64 {
        let rise = (height + at.powi(2)) - (self.height + self.at.powi(2));
        rise / (2.0 * (at - self.at))
    }
}

/// For each cell, the distance in whole yards (rounded down, at most 255) within which all cells have its lie.
///
/// Cells that touch another lie, also by a corner, are edge cells. From any point of a cell to any point of the nearest
/// other lie it is at least as far as from the cell's middle to the nearest edge cell's. Beyond the grid is out of bounds.
pub(super) fn clearance_yd(lies: &[Lie], columns: usize) -> Vec<u8> {
    let rows = lies.len() / columns;
    let edge: Vec<bool> = (0..lies.len())
        .map(|cell| is_edge(lies, columns, cell))
        .collect();
    let across = across_rows(&edge, columns, |steps| steps);
    let squares = down_columns(columns, rows, |column, seeds| {
        for row in 0..rows {
            push(seeds, row as f64, across[row * columns + column]);
        }
    });
    squares
        .into_iter()
        .map(|square| square.sqrt().min(255.0) as u8)
        .collect()
}

/// For each cell, the distance in yards from its middle to the nearest green cell's square, 0 on the green.
pub(super) fn to_green_yd(lies: &[Lie], columns: usize) -> Vec<f32> {
    let rows = lies.len() / columns;
    let green: Vec<bool> = lies.iter().map(|lie| *lie == Lie::Green).collect();
    let across = across_rows(&green, columns, |steps| (steps - 0.5).max(0.0));
    let squares = down_columns(columns, rows, |column, seeds| {
        for row in 0..rows {
            // A square is as near as the nearest of its two edges, or its middle for cells of its own row.
            for offset in [-0.5, 0.0, 0.5] {
                push(seeds, row as f64 + offset, across[row * columns + column]);
            }
        }
    });
    squares
        .into_iter()
        .map(|square| square.sqrt() as f32)
        .collect()
}

/// Whether a cell touches another lie.
fn is_edge(lies: &[Lie], columns: usize, cell: usize) -> bool {
    let (row, column) = (cell / columns, cell % columns);
    let rows = lies.len() / columns;
    if row == 0 || column == 0 || row + 1 == rows || column + 1 == columns {
        return lies[cell] != Lie::OutOfBounds || touches(lies, columns, row, column);
    }
    touches(lies, columns, row, column)
}

/// Whether a cell of the grid within one step has another lie.
fn touches(lies: &[Lie], columns: usize, row: usize, column: usize) -> bool {
    let lie = lies[row * columns + column];
    let last_row = (row + 1).min(lies.len() / columns - 1);
    let last_column = (column + 1).min(columns - 1);
    (row.saturating_sub(1)..=last_row).any(|row| {
        lies[row * columns + column.saturating_sub(1)..=row * columns + last_column]
            .iter()
            .any(|l| *l != lie)
    })
}

/// For each cell, the square of the distance along its row to the nearest marked cell; infinite in rows without one.
fn across_rows(marked: &[bool], columns: usize, distance: impl Fn(f64) -> f64) -> Vec<f64> {
    let mut squares = vec![f64::INFINITY; marked.len()];
    for (row, squares) in marked.chunks(columns).zip(squares.chunks_mut(columns)) {
        let mut last = None;
        for column in 0..columns {
            last = if row[column] { Some(column) } else { last };
            if let Some(at) = last {
                squares[column] = distance((column - at) as f64).powi(2);
            }
        }
        last = None;
        for column in (0..columns).rev() {
            last = if row[column] { Some(column) } else { last };
            if let Some(at) = last {
                squares[column] = squares[column].min(distance((at - column) as f64).powi(2));
            }
        }
    }
    squares
}

/// Adds a parabola to a lower envelope, whose parabolas come from left to right.
fn push(envelope: &mut Vec<Parabola>, at: f64, height: f64) {
    if height.is_infinite() {
        return;
    }
    if let Some(last) = envelope.last().filter(|last| last.at == at) {
        if last.height <= height {
            return;
        }
        envelope.pop();
    }
    let mut from = f64::NEG_INFINITY;
    while let Some(last) = envelope.last() {
        from = last.gives_way(at, height);
        if from > last.from {
            break;
        }
        envelope.pop();
    }
    envelope.push(Parabola { at, height, from });
}

/// For each cell, the lower envelope of its column's parabolas; infinite in columns without one.
fn down_columns(columns: usize, rows: usize, fill: impl Fn(usize, &mut Vec<Parabola>)) -> Vec<f64> {
    let mut squares = vec![f64::INFINITY; columns * rows];
    let mut envelope = Vec::new();
    for column in 0..columns {
        envelope.clear();
        fill(column, &mut envelope);
        let mut here = 0;
        for row in 0..rows {
            let x = row as f64;
            while envelope.get(here + 1).is_some_and(|next| next.from <= x) {
                here += 1;
            }
            if let Some(parabola) = envelope.get(here) {
                squares[row * columns + column] = parabola.value(x);
            }
        }
    }
    squares
}
