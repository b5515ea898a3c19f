//! The plan of a hole: a corridor along the line of play and shapes upon it, and how they are painted on the grid.
//!
//! What covers what, from the top: out of bounds; sand and water; the green; the tee; areas of trees, fairway and rough;
//! the corridor's fairway; its rough; what lies beyond. Among areas of one of these kinds the one listed first wins. A
//! cell takes the lie at its middle, and a point on an edge belongs to the area.

use super::{
    Lie, LieGrid, Point,
    line::{Line, Station},
    shape::{Shape, bounds_of},
};

/// Ground kept to the sides of the widest area, yards, so that only wild shots leave the grid.
const SIDE_MARGIN_YD: f64 = 60.0;
/// Ground kept beyond the green and the farthest area, yards.
const FAR_MARGIN_YD: f64 = 50.0;
/// Ground kept behind the tee, yards.
const NEAR_MARGIN_YD: f64 = 30.0;
/// Length of the corridor behind the tee, yards.
const BEHIND_TEE_YD: f64 = 20.0;
/// The most cells of one hole's grid: 1000 by 600.
pub(super) const MOST_CELLS: f64 = 600_000.0;

/// The plan of a hole.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// The line of play.
    pub line: Line,
    /// The mown fairway along it.
    pub fairway: Vec<Stretch>,
    /// Width of the rough on each side of the fairway, yards.
    pub rough_width_yd: f64,
    /// The lie beyond the rough.
    pub beyond: Lie,
    /// The green.
    pub green: Shape,
    /// The teeing area played from.
    pub tee: Shape,
    /// The teeing areas of all sets, whichever is played from: the ground around them belongs to the hole.
    pub tees: Vec<Shape>,
    /// Everything else, in the order of the file.
    pub areas: Vec<Area>,
}

/// A stretch of fairway of one width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// Where it begins along the line, yards.
    pub from_yd: f64,
    /// Where it ends.
    pub to_yd: f64,
    /// Half its width, yards.
    pub half_width_yd: f64,
}

/// An area of a lie.
#[derive(Debug, Clone, PartialEq)]
pub struct Area {
    /// Its lie.
    pub lie: Lie,
    /// Where it lies.
    pub ground: Ground,
}

/// The ground an area takes.
#[derive(Debug, Clone, PartialEq)]
pub enum Ground {
    /// A shape.
    Shape(Shape),
    /// A strip that follows the line of play: all places between two distances along it and two beside it.
    Strip {
        /// From and to along the line, yards; without end where infinite.
        along_yd: (f64, f64),
        /// From and to beside it, yards, right positive; without end where infinite.
        side_yd: (f64, f64),
    },
}

/// What covers what: an area of a higher layer hides those below.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Layer {
    Ground,
    Tee,
    Green,
    Hazard,
    OutOfBounds,
}

impl Layer {
    fn of(lie: Lie) -> Self {
        match lie {
            Lie::Trees | Lie::Fairway | Lie::Rough => Self::Ground,
            Lie::Tee => Self::Tee,
            Lie::Green => Self::Green,
            Lie::Sand | Lie::Water => Self::Hazard,
            Lie::OutOfBounds => Self::OutOfBounds,
        }
    }
}

impl Plan {
    /// Paints the grid of lies; none when it would have more than 600 000 cells.
    #[must_use]
    pub fn paint(&self) -> Option<LieGrid> {
        let mut canvas = Canvas::new(self.bounds())?;
        let stations = canvas.stations(&self.line);
        let reach_yd = self.green_reach_yd();
        let start_yd = self.start_yd();
        for (lie, station) in canvas.lies.iter_mut().zip(&stations) {
            *lie = self.corridor(*station, start_yd, reach_yd);
        }
        for layer in [
            Layer::Ground,
            Layer::Tee,
            Layer::Green,
            Layer::Hazard,
            Layer::OutOfBounds,
        ] {
            match layer {
                Layer::Tee => canvas.fill(Lie::Tee, &self.tee),
                Layer::Green => canvas.fill(Lie::Green, &self.green),
                _ => {}
            }
            // The area listed first is painted last, over the others of its kind.
            for area in self
                .areas
                .iter()
                .rev()
                .filter(|area| Layer::of(area.lie) == layer)
            {
                canvas.paint(area, &stations);
            }
        }
        Some(LieGrid::new(
            canvas.left_yd,
            canvas.near_yd,
            canvas.columns,
            canvas.lies,
        ))
    }

    /// The area of sand, water or out of bounds that covers a point, whatever else lies there, by its number.
    pub(super) fn covering(&self, at: Point) -> Option<usize> {
        let layer = |area: &Area| Layer::of(area.lie);
        let areas = self.areas.iter().enumerate();
        let over = areas.filter(|(_, area)| layer(area) > Layer::Green && self.is_on(area, at));
        // Of one kind the first wins, and of those that are alike `max_by_key` takes the last.
        over.rev()
            .max_by_key(|(_, area)| layer(area))
            .map(|(number, _)| number)
    }

    fn is_on(&self, area: &Area, at: Point) -> bool {
        match &area.ground {
            Ground::Shape(shape) => shape.contains(at),
            Ground::Strip { along_yd, side_yd } => {
                let station = self.line.station(at.x_yd, at.y_yd);
                (along_yd.0..=along_yd.1).contains(&station.along_yd)
                    && (side_yd.0..=side_yd.1).contains(&station.side_yd)
            }
        }
    }

    /// The area without which the grid would be smaller than without any other, by its number; none where none makes it
    /// larger.
    pub(super) fn widest_area(&self) -> Option<usize> {
        let cells = |plan: &Self| {
            let (near, far) = plan.bounds();
            (far.x_yd - near.x_yd) * (far.y_yd - near.y_yd)
        };
        let without = |area: usize| {
            let mut plan = self.clone();
            plan.areas.remove(area);
            cells(&plan)
        };
        let each = (0..self.areas.len()).map(|area| (area, without(area)));
        let (area, left) = each.min_by(|a, b| a.1.total_cmp(&b.1))?;
        (left < cells(self)).then_some(area)
    }

    /// Where the corridor begins along the line: behind the tee that stands farthest back.
    fn start_yd(&self) -> f64 {
        let along = self.tees.iter().map(|tee| {
            let (low, high) = tee.bounds();
            let x_yd = f64::midpoint(low.x_yd, high.x_yd);
            let middle = self.line.station(x_yd, f64::midpoint(low.y_yd, high.y_yd));
            middle.along_yd
        });
        along.fold(0.0, f64::min) - BEHIND_TEE_YD
    }

    /// The lie of the bare corridor from `start_yd` on; the green reaches `reach_yd` from the end of the line.
    fn corridor(&self, station: Station, start_yd: f64, reach_yd: f64) -> Lie {
        let Station { along_yd, side_yd } = station;
        let on = |stretch: &&Stretch| (stretch.from_yd..=stretch.to_yd).contains(&along_yd);
        if self
            .fairway
            .iter()
            .filter(on)
            .any(|stretch| side_yd.abs() <= stretch.half_width_yd)
        {
            return Lie::Fairway;
        }
        let end_yd = self.line.length_yd() + reach_yd + self.rough_width_yd;
        let rough = (start_yd..=end_yd).contains(&along_yd)
            && side_yd.abs() <= self.half_width_yd(along_yd).max(reach_yd) + self.rough_width_yd;
        if rough { Lie::Rough } else { self.beyond }
    }

    /// Half the width of the nearest stretch of fairway.
    fn half_width_yd(&self, along_yd: f64) -> f64 {
        let away = |stretch: &&Stretch| {
            (stretch.from_yd - along_yd)
                .max(along_yd - stretch.to_yd)
                .max(0.0)
        };
        let nearest = self
            .fairway
            .iter()
            .min_by(|a, b| away(a).total_cmp(&away(b)));
        nearest.map_or(0.0, |stretch| stretch.half_width_yd)
    }

    /// How far the green reaches from the end of the line, yards.
    fn green_reach_yd(&self) -> f64 {
        let (low, high) = self.green.bounds();
        let end = self.line.end();
        [
            end.x_yd - low.x_yd,
            high.x_yd - end.x_yd,
            end.y_yd - low.y_yd,
            high.y_yd - end.y_yd,
        ]
        .into_iter()
        .fold(0.0, f64::max)
    }

    /// The ground the grid covers: its near left and far right corner, in whole yards.
    fn bounds(&self) -> (Point, Point) {
        let widest = self
            .fairway
            .iter()
            .map(|stretch| stretch.half_width_yd)
            .fold(self.green_reach_yd(), f64::max);
        let strips = self.areas.iter().filter_map(|area| match area.ground {
            Ground::Strip {
                side_yd: (from, to),
                ..
            } => Some([from.abs(), to.abs()]),
            Ground::Shape(_) => None,
        });
        let half_width_yd = strips
            .flatten()
            .filter(|side| side.is_finite())
            .fold(widest + self.rough_width_yd, f64::max);
        let mut points = self.line.corners(half_width_yd, self.green_reach_yd());
        let areas = self.areas.iter().filter_map(|area| match &area.ground {
            Ground::Shape(shape) => Some(shape),
            Ground::Strip { .. } => None,
        });
        for shape in areas.chain([&self.green, &self.tee]).chain(&self.tees) {
            let (low, high) = shape.bounds();
            points.extend([low, high]);
        }
        let (low, high) = bounds_of(&points);
        let near = Point {
            x_yd: (low.x_yd - SIDE_MARGIN_YD).floor(),
            y_yd: (low.y_yd - NEAR_MARGIN_YD).floor(),
        };
        let far = Point {
            x_yd: (high.x_yd + SIDE_MARGIN_YD).ceil(),
            y_yd: (high.y_yd + FAR_MARGIN_YD).ceil(),
        };
        (near, far)
    }
}

/// A grid being painted.
struct Canvas {
    left_yd: f64,
    near_yd: f64,
    columns: usize,
    rows: usize,
    lies: Vec<Lie>,
}

impl Canvas {
    fn new((near, far): (Point, Point)) -> Option<Self> {
        let (across, along) = (far.x_yd - near.x_yd, far.y_yd - near.y_yd);
        if across * along > MOST_CELLS {
            return None;
        }
        let (columns, rows) = (across as usize, along as usize);
        let lies = vec![Lie::Rough; columns * rows];
        Some(Self {
            left_yd: near.x_yd,
            near_yd: near.y_yd,
            columns,
            rows,
            lies,
        })
    }

    /// The station of each cell's middle.
    fn stations(&self, line: &Line) -> Vec<Station> {
        let row = |row: usize| {
            let y_yd = self.near_yd + row as f64 + 0.5;
            (0..self.columns)
                .map(move |column| line.station(self.left_yd + column as f64 + 0.5, y_yd))
        };
        (0..self.rows).flat_map(row).collect()
    }

    fn paint(&mut self, area: &Area, stations: &[Station]) {
        match &area.ground {
            Ground::Shape(shape) => self.fill(area.lie, shape),
            Ground::Strip {
                along_yd: (from, to),
                side_yd: (left, right),
            } => {
                for (lie, station) in self.lies.iter_mut().zip(stations) {
                    if (*from..=*to).contains(&station.along_yd)
                        && (*left..=*right).contains(&station.side_yd)
                    {
                        *lie = area.lie;
                    }
                }
            }
        }
    }

    /// Gives a lie to all cells whose middle is in a shape or on its edge.
    fn fill(&mut self, lie: Lie, shape: &Shape) {
        for row in 0..self.rows {
            let cells = &mut self.lies[row * self.columns..][..self.columns];
            for (from, to) in shape.stretches(self.near_yd + row as f64 + 0.5) {
                let first = (from - self.left_yd - 0.5).ceil().max(0.0) as usize;
                let end = (to - self.left_yd + 0.5).floor().max(0.0) as usize;
                if first < end.min(cells.len()) {
                    cells[first..end.min(self.columns)].fill(lie);
                }
            }
        }
    }
}
