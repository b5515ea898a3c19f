//! The distances of a grid against their definition, cell by cell.

use costcard::course::{Lie, LieGrid};

use super::hole;

/// A small hole with every lie.
fn crowded() -> LieGrid {
    hole(
        "par = 3
length_yd = 90
rough_width_yd = 6
beyond = 'trees'
fairway = [{ from_yd = 40, width_yd = 16 }]
green = { depth_yd = 18, width_yd = 14, turn_deg = 30 }
areas = [
  { lie = 'sand', at_green_yd = -8, side_yd = 12, length_yd = 10, width_yd = 6, turn_deg = 20 },
  { lie = 'water', outline_yd = [[-20, 20], [15, 24], [12, 40], [-25, 36]] },
  { lie = 'out of bounds', side_from_yd = -30 },
]",
    )
    .grid
}

/// The gap in steps between two cells of a line: 0 for the same and neighbouring cells.
fn gap(a: usize, b: usize) -> f64 {
    (a.abs_diff(b) as f64 - 1.0).max(0.0)
}

#[test]
fn clearance_is_the_distance_to_the_nearest_other_lie() {
    let grid = crowded();
    for cell in (0..grid.lies.len()).step_by(37) {
        let (row, column) = (cell / grid.columns, cell % grid.columns);
        let others = (0..grid.lies.len()).filter(|other| grid.lies[*other] != grid.lies[cell]);
        let nearest = others
            .map(|other| gap(row, other / grid.columns).hypot(gap(column, other % grid.columns)))
            .fold(255.0, f64::min);
        // Beyond the grid is out of bounds.
        let rim = [row, column, grid.rows - 1 - row, grid.columns - 1 - column];
        let rim = rim.into_iter().min().unwrap_or(0) as f64;
        let expected = if grid.lies[cell] == Lie::OutOfBounds {
            nearest
        } else {
            nearest.min(rim)
        };
        assert_eq!(
            f64::from(grid.clearance_yd[cell]),
            expected.floor(),
            "cell {cell}"
        );
    }
}

#[test]
fn the_distance_to_the_green_is_exact() {
    let grid = crowded();
    let greens: Vec<usize> = (0..grid.lies.len())
        .filter(|cell| grid.lies[*cell] == Lie::Green)
        .collect();
    for cell in (0..grid.lies.len()).step_by(11) {
        let away = |a: usize, b: usize| (a.abs_diff(b) as f64 - 0.5).max(0.0);
        let expected = greens
            .iter()
            .map(|green| {
                away(cell / grid.columns, green / grid.columns)
                    .hypot(away(cell % grid.columns, green % grid.columns))
            })
            .fold(f64::INFINITY, f64::min);
        assert!(
            (f64::from(grid.to_green_yd[cell]) - expected).abs() < 1e-4,
            "cell {cell}"
        );
    }
}

#[test]
fn beyond_the_grid_is_out_of_bounds() {
    let grid = crowded();
    let right = grid.left_yd + grid.columns as f64;
    let far = grid.near_yd + grid.rows as f64;
    for (x, y) in [
        (grid.left_yd - 0.01, 50.0),
        (right, 50.0),
        (0.0, grid.near_yd - 0.01),
        (0.0, far),
        (f64::NAN, 0.0),
        (0.0, f64::INFINITY),
        (-1e300, 0.0),
    ] {
        assert_eq!(grid.lie(x, y), Lie::OutOfBounds);
        assert_eq!(grid.clearance_yd(x, y), 0.0);
        assert_eq!(grid.to_green_yd(x, y), f64::INFINITY);
    }
    assert_ne!(grid.lie(right - 0.01, 50.0), Lie::OutOfBounds);
    assert_eq!(
        grid.lie(grid.left_yd, 50.0),
        Lie::OutOfBounds,
        "the strip left of the hole"
    );
}

#[test]
fn the_middle_of_a_cell_is_in_the_cell() {
    let grid = crowded();
    for cell in 0..grid.lies.len() {
        let (x, y) = grid.centre_yd(cell);
        assert_eq!(grid.cell(x, y), Some(cell));
    }
}
