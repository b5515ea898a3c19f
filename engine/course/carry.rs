//! The carries a hole forces on whoever plays it: ground that cannot be walked or played round between tee and green.

use super::grid::{Lie, LieGrid};
use super::line::{Line, Station};
use super::{Hole, Point};

/// Ground this far beside the line of play is a way round; farther out nobody aims, yards.
const WAY_ROUND_YD: f64 = 65.0;
/// Dry ground smaller than this is no place to aim for, square yards.
const LEAST_ISLE: usize = 60;
/// So many cells of a shore are looked at.
const SHORE: usize = 400;

/// A carry that no way leads round.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Carry {
    /// From the last dry ground before it.
    pub from: Point,
    /// To the first beyond it.
    pub to: Point,
    /// How far that is, yards.
    pub length_yd: f64,
    /// Whether it begins on the ground the tee stands on, and that ground is no more than the tee.
    pub is_from_tee: bool,
}

/// The longest carry over water or out of bounds on the way of the shortest carries from tee to pin; none where a ball
/// can be played round everything.
#[must_use]
pub fn forced(hole: &Hole) -> Option<Carry> {
    let line = Line::through(&hole.line)?;
    let isles = Isles::of(hole, &line);
    let (start, goal) = (isles.at(hole.tee)?, isles.at(hole.pin)?);
    if start == goal {
        return None;
    }
    let worst = isles.worst_jump(start, goal)?;
    Some(Carry {
        is_from_tee: worst.isle == start && isles.sizes[start] < TEE_ISLE,
        from: worst.from,
        to: worst.to,
        length_yd: worst.length_yd,
    })
}

/// Ground no larger than this around a tee leaves nowhere else to play from, square yards.
const TEE_ISLE: usize = 1200;

/// Dry ground in bounds, parted by what is not.
struct Isles<'a> {
    grid: &'a LieGrid,
    /// By cell: the number of its isle.
    of: Vec<Option<usize>>,
    /// By isle: its cells.
    sizes: Vec<usize>,
    /// By isle: cells of its shore.
    shores: Vec<Vec<Point>>,
}

#[derive(Debug, Clone, Copy)]
struct Jump {
    isle: usize,
    from: Point,
    to: Point,
    length_yd: f64,
}

/// How an isle is reached: by the last jump, and the longest of those before.
#[derive(Debug, Clone, Copy)]
struct Reached {
    jump: Jump,
    worst: Option<Jump>,
}

impl<'a> Isles<'a> {
    fn of(hole: &'a Hole, line: &Line) -> Self {
        let grid = &hole.grid;
        let dry: Vec<bool> = (0..grid.lies.len())
            .map(|cell| {
                let Point { x_yd, y_yd } = middle(grid, cell);
                let Station { side_yd, .. } = line.station(x_yd, y_yd);
                let is_dry = !matches!(grid.lies[cell], Lie::Water | Lie::OutOfBounds);
                is_dry && side_yd.abs() <= WAY_ROUND_YD
            })
            .collect();
        let (of, sizes) = labelled(&dry, grid.columns);
        let mut shores = vec![Vec::new(); sizes.len()];
        for (cell, isle) in of.iter().enumerate() {
            let is_shore =
                || neighbours(cell, grid.columns, of.len()).any(|next| of[next].is_none());
            if let Some(isle) = isle.filter(|_| is_shore()) {
                shores[isle].push(middle(grid, cell));
            }
        }
        for shore in &mut shores {
            let step = shore.len().div_ceil(SHORE).max(1);
            *shore = shore.iter().copied().step_by(step).collect();
        }
        Self {
            grid,
            of,
            sizes,
            shores,
        }
    }

    fn at(&self, point: Point) -> Option<usize> {
        let column = (point.x_yd - self.grid.left_yd).floor();
        let row = (point.y_yd - self.grid.near_yd).floor();
        let is_there = column >= 0.0 && row >= 0.0 && column < self.grid.columns as f64;
        let cell = is_there.then(|| row as usize * self.grid.columns + column as usize)?;
        *self.of.get(cell)?
    }

    /// The longest jump on the way on which that is shortest: isles are joined by the shortest jump from those reached.
    fn worst_jump(&self, start: usize, goal: usize) -> Option<Jump> {
        let is_aim = |isle: &usize| *isle == goal || self.sizes[*isle] >= LEAST_ISLE;
        // Those not reached, each with the shortest jump to it and the longest one before that.
        let mut open: Vec<(usize, Option<Reached>)> = (0..self.sizes.len())
            .filter(|isle| *isle != start && is_aim(isle))
            .map(|isle| (isle, None))
            .collect();
        let (mut from, mut worst) = (start, None);
        while from != goal {
            for (to, shortest) in &mut open {
                let jump = self.jump(from, *to);
                let is_shorter = |jump: &Jump| {
                    shortest.is_none_or(|known: Reached| jump.length_yd < known.jump.length_yd)
                };
                if let Some(jump) = jump.filter(is_shorter) {
                    *shortest = Some(Reached { jump, worst });
                }
            }
            let length = |(_, reached): &(usize, Option<Reached>)| {
                reached.map_or(f64::INFINITY, |reached| reached.jump.length_yd)
            };
            let next =
                (0..open.len()).min_by(|a, b| length(&open[*a]).total_cmp(&length(&open[*b])));
            let (to, reached) = open.swap_remove(next?);
            let Reached {
                jump,
                worst: before,
            } = reached?;
            worst = before
                .filter(|before| before.length_yd >= jump.length_yd)
                .or(Some(jump));
            from = to;
        }
        worst
    }

    /// The shortest way from one isle to another.
    fn jump(&self, from: usize, to: usize) -> Option<Jump> {
        let pairs = self.shores[from]
            .iter()
            .flat_map(|a| self.shores[to].iter().map(move |b| (*a, *b)));
        let away = |(a, b): &(Point, Point)| (a.x_yd - b.x_yd).hypot(a.y_yd - b.y_yd);
        let (a, b) = pairs.min_by(|one, other| away(one).total_cmp(&away(other)))?;
        Some(Jump {
            isle: from,
            from: a,
            to: b,
            // From edge to edge, not from middle to middle.
            length_yd: (away(&(a, b)) - 1.0).max(0.0),
        })
    }
}

/// The middle of a cell.
pub(crate) fn middle(grid: &LieGrid, cell: usize) -> Point {
    Point {
        x_yd: grid.left_yd + (cell % grid.columns) as f64 + 0.5,
        y_yd: grid.near_yd + (cell / grid.columns) as f64 + 0.5,
    }
}

/// Numbers the connected pieces of some cells, corners counted as touching: by cell the number of its piece, and how
/// many cells each has.
pub(crate) fn labelled(wanted: &[bool], columns: usize) -> (Vec<Option<usize>>, Vec<usize>) {
    let mut of = vec![None; wanted.len()];
    let mut sizes = Vec::new();
    for first in 0..wanted.len() {
        if !wanted[first] || of[first].is_some() {
            continue;
        }
        let piece = sizes.len();
        let mut size = 0;
        let mut open = vec![first];
        of[first] = Some(piece);
        while let Some(cell) = open.pop() {
            size += 1;
            for next in neighbours(cell, columns, wanted.len()) {
                if wanted[next] && of[next].is_none() {
                    of[next] = Some(piece);
                    open.push(next);
                }
            }
        }
        sizes.push(size);
    }
    (of, sizes)
}

/// The up to eight cells around one.
fn neighbours(cell: usize, columns: usize, cells: usize) -> impl Iterator<Item = usize> {
    let (row, column) = (cell / columns, cell % columns);
    let rows = row.saturating_sub(1)..=(row + 1).min(cells / columns - 1);
    let across = column.saturating_sub(1)..=(column + 1).min(columns - 1);
    rows.flat_map(move |row| across.clone().map(move |column| row * columns + column))
        .filter(move |next| *next != cell)
}
