//! One hole of the file.

use std::ops::Range;

use super::{
    area,
    conditions::Conditions,
    green::{self, GreenKeys},
};
use crate::{
    ball::{air::Air, turf::Firmness},
    course::{
        Green, Hole, Lie, LieGrid, Point,
        line::Line,
        plan::{Area, Plan, Stretch},
        shape::Shape,
    },
    files::toml::{Entry, Table},
    units::Length,
};

/// Keys of a hole.
pub(super) const KEYS: [&str; 16] = [
    "number",
    "par",
    "stroke_index",
    "length_yd",
    "dogleg",
    "line_yd",
    "bearing_deg",
    "rise_ft",
    "conditions",
    "fairway_width_yd",
    "fairway",
    "rough_width_yd",
    "beyond",
    "green",
    "pin",
    "areas",
];

/// Where a fairway begins when the file gives only its width, yards.
const FAIRWAY_FROM_YD: f64 = 100.0;
/// Half the width and half the depth of the teeing area, yards.
const HALF_TEE_YD: (f64, f64) = (4.0, 5.0);
/// How far a stated length and the length of a stated line may differ, as a share.
const LENGTH_SHARE: f64 = 0.03;
/// Most areas of one hole.
const MOST_AREAS: usize = 200;

/// What the file says for all holes.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Defaults {
    corridor: Corridor,
    green: GreenKeys,
}

/// Widths and what lies beyond.
#[derive(Debug, Clone, Copy, Default)]
struct Corridor {
    fairway_width_yd: Option<f64>,
    rough_width_yd: Option<f64>,
    beyond: Option<Lie>,
}

impl Defaults {
    /// Reads `defaults`; nothing when it is left out.
    pub(super) fn read(entry: &Entry<'_>) -> Self {
        let Some(table) = entry.table(&["fairway_width_yd", "rough_width_yd", "beyond", "green"])
        else {
            return Self::default();
        };
        let green = green::open(&table.may("green", "{ stimp_ft = 9.5 }"));
        Self {
            corridor: Corridor::read(&table),
            green: green
                .map(|green| GreenKeys::read(&green))
                .unwrap_or_default(),
        }
    }
}

impl Corridor {
    fn read(table: &Table<'_>) -> Self {
        let beyond = [
            ("rough", Lie::Rough),
            ("trees", Lie::Trees),
            ("out of bounds", Lie::OutOfBounds),
        ];
        Self {
            fairway_width_yd: table
                .may("fairway_width_yd", "36")
                .number(5.0..=150.0, "yards"),
            rough_width_yd: table
                .may("rough_width_yd", "24")
                .number(2.0..=150.0, "yards"),
            beyond: table.may("beyond", "\"trees\"").word(&beyond),
        }
    }
}

/// A hole as it was read, before its grid is painted.
#[derive(Debug)]
pub(super) struct Draft {
    pub(super) number: u32,
    pub(super) number_span: Range<usize>,
    pub(super) plan: Plan,
    label: String,
    span: Range<usize>,
    green_span: Range<usize>,
    par: u8,
    stroke_index: Option<u8>,
    pin: Point,
    green: Green,
    firmness: Firmness,
    rise_yd: f64,
    air: Air,
}

/// Reads the hole at a place of the file.
pub(super) fn read(
    table: Table<'_>,
    place: u32,
    course: &Conditions,
    defaults: &Defaults,
) -> Option<Draft> {
    let number = if table.has("number") {
        table.may("number", "1").whole(1..=99)
    } else {
        Some(place)
    };
    let table = match number {
        Some(number) => table.called(&format!("hole {number}")),
        None => table,
    };
    let par = table
        .need("par", "4")
        .whole(3..=6)
        .and_then(|par| u8::try_from(par).ok());
    let stroke_index = table
        .may("stroke_index", "7")
        .whole(1..=36)
        .and_then(|index| u8::try_from(index).ok());
    let rise_ft = table.may("rise_ft", "-12").number(-500.0..=500.0, "feet");
    let bearing_deg = table
        .may("bearing_deg", "140")
        .number(0.0..=360.0, "degrees");
    let conditions = Conditions::read(&table.may("conditions", "{ wind_mph = 8 }")).or(*course);
    let line = read_line(&table);
    let green_table = green::open(&table.need("green", "{ depth_yd = 30, width_yd = 24 }"));
    let green = green_table.and_then(|green_table| {
        let called = green_table.called(&format!("the green of {}", table.label()));
        green::read(
            &called,
            defaults.green,
            conditions.firmness(),
            line.as_ref(),
        )
    });
    let areas = read_areas(&table, line.as_ref());
    let corridor = Corridor::read(&table);
    let fairway = read_fairway(
        &table,
        par,
        corridor,
        defaults.corridor,
        line.as_ref().zip(green.as_ref()),
    );
    let (line, (shape, green)) = (line?, green?);
    let pin = green::read_pin(&table.may("pin", "\"back\""), &shape, &line)?;
    let plan = Plan {
        line,
        fairway: fairway?,
        rough_width_yd: corridor
            .rough_width_yd
            .or(defaults.corridor.rough_width_yd)
            .unwrap_or(20.0),
        beyond: corridor
            .beyond
            .or(defaults.corridor.beyond)
            .unwrap_or(Lie::Rough),
        green: shape,
        tee: tee(),
        areas: areas?,
    };
    Some(Draft {
        number: number?,
        number_span: table.place("number"),
        label: table.label().to_owned(),
        span: table.span(),
        green_span: table.place("green"),
        par: par?,
        stroke_index,
        pin,
        green,
        firmness: conditions.firmness(),
        rise_yd: Length::from_ft(rise_ft.unwrap_or(0.0)).yd(),
        air: conditions.air(bearing_deg),
        plan,
    })
}

impl Draft {
    /// The hole with its grid; notes a tee or a green that other areas cover.
    pub(super) fn finish(self, file: &Table<'_>, grid: Option<LieGrid>) -> Option<Hole> {
        let Some(grid) = grid else {
            let message = format!("{} takes more ground than 1000 by 600 yards", self.label);
            file.fault(
                self.span,
                message,
                "bring its farthest areas and corners nearer to the line of play",
            );
            return None;
        };
        let tee = Point {
            x_yd: 0.0,
            y_yd: 0.0,
        };
        if grid.lie(tee.x_yd, tee.y_yd) != Lie::Tee {
            let message = format!("the tee of {} is covered by another area", self.label);
            file.fault(
                self.span,
                message,
                "the tee is at [0, 0]; keep water, sand and out of bounds off it",
            );
            return None;
        }
        let cells = grid.lies.iter().filter(|lie| **lie == Lie::Green).count();
        let mostly_there = cells as f64 >= 0.75 * self.plan.green.area_sq_yd();
        if grid.lie(self.pin.x_yd, self.pin.y_yd) != Lie::Green || !mostly_there {
            let message = format!("the green of {} is covered by another area", self.label);
            file.fault(
                self.green_span,
                message,
                "keep water, sand and out of bounds off the green",
            );
            return None;
        }
        Some(Hole {
            number: self.number,
            par: self.par,
            stroke_index: self.stroke_index,
            length_yd: self.plan.line.length_yd(),
            line: self.plan.line.points(),
            tee,
            pin: self.pin,
            grid,
            green: self.green,
            firmness: self.firmness,
            rise_yd: self.rise_yd,
            air: self.air,
        })
    }
}

/// The teeing area round (0, 0).
fn tee() -> Shape {
    let (x, y) = HALF_TEE_YD;
    Shape::Outline(
        [(-x, -y), (x, -y), (x, y), (-x, y)]
            .map(|(x_yd, y_yd)| Point { x_yd, y_yd })
            .to_vec(),
    )
}

/// Reads the line of play, from its length and turns or from its points.
fn read_line(table: &Table<'_>) -> Option<Line> {
    if table.has("line_yd") {
        return read_free_line(table);
    }
    let length_yd = table.need("length_yd", "402").number(40.0..=800.0, "yards");
    let mut turns = Vec::new();
    let mut last_yd = 0.0;
    for turn in table
        .may("dogleg", "[{ at_yd = 230, turn_deg = 25 }]")
        .tables(&["at_yd", "turn_deg"])
    {
        let most = length_yd.unwrap_or(800.0);
        let at_yd = turn.need("at_yd", "230").number(1.0..=most - 1.0, "yards");
        let turn_deg = turn
            .need("turn_deg", "25")
            .number(-120.0..=120.0, "degrees");
        if let Some(at_yd) = at_yd {
            if at_yd <= last_yd {
                let message = "a turn must come after the one before it".to_owned();
                turn.fault(
                    turn.place("at_yd"),
                    message,
                    "list the turns from the tee to the green",
                );
            }
            last_yd = at_yd;
        }
        turns.push((at_yd, turn_deg));
    }
    let turns: Option<Vec<(f64, f64)>> = turns.into_iter().map(|(at, turn)| at.zip(turn)).collect();
    Line::with_turns(length_yd?, &turns?)
}

fn read_free_line(table: &Table<'_>) -> Option<Line> {
    let stated_yd = table.may("length_yd", "402").number(40.0..=800.0, "yards");
    if table.has("dogleg") {
        let message = format!("{} has both `dogleg` and `line_yd`", table.label());
        table.fault(table.place("dogleg"), message, "keep one of them");
    }
    let entry = table.may("line_yd", "[[0, 0], [10, 230], [90, 400]]");
    let points: Vec<Point> = entry
        .points(area::FARTHEST_YD)?
        .into_iter()
        .map(|[x_yd, y_yd]| Point { x_yd, y_yd })
        .collect();
    let place = table.place("line_yd");
    if points.first()
        != Some(&Point {
            x_yd: 0.0,
            y_yd: 0.0,
        })
    {
        table.fault(
            place,
            "the line of play begins at the tee, [0, 0]".to_owned(),
            "write [0, 0] first",
        );
        return None;
    }
    let Some(line) = Line::through(&points) else {
        let message = "a line of play has at least two points, no two in a row the same".to_owned();
        table.fault(
            place,
            message,
            "write the tee, each turn, and the middle of the green",
        );
        return None;
    };
    let length_yd = line.length_yd();
    if !(40.0..=800.0).contains(&length_yd) {
        let message = format!(
            "the line of play of {} is {length_yd:.0} yards long",
            table.label()
        );
        table.fault(place, message, "a hole is from 40 to 800 yards long");
        return None;
    }
    if let Some(stated) =
        stated_yd.filter(|stated| (stated - length_yd).abs() > LENGTH_SHARE * length_yd)
    {
        let message =
            format!("`length_yd` is {stated}, but the line of play is {length_yd:.0} yards long");
        table.fault(
            table.place("length_yd"),
            message,
            "correct one of them, or leave `length_yd` out",
        );
    }
    Some(line)
}

/// Reads the fairway: one width, or stretches; none on a par 3 that does not speak of it.
fn read_fairway(
    table: &Table<'_>,
    par: Option<u8>,
    own: Corridor,
    defaults: Corridor,
    hole: Option<(&Line, &(Shape, Green))>,
) -> Option<Vec<Stretch>> {
    let front_yd =
        hole.map(|(line, (shape, _))| line.length_yd() - green::reach_yd(shape, line, -1.0));
    if table.has("fairway") {
        if table.has("fairway_width_yd") {
            let message = format!(
                "{} has both `fairway` and `fairway_width_yd`",
                table.label()
            );
            table.fault(table.place("fairway_width_yd"), message, "keep one of them");
        }
        let stretches = table
            .may("fairway", "[{ from_yd = 120, width_yd = 34 }]")
            .tables(&["from_yd", "to_yd", "width_yd"]);
        let read: Vec<_> = stretches
            .iter()
            .map(|stretch| read_stretch(stretch, front_yd))
            .collect();
        return read.into_iter().collect();
    }
    let width_yd = match own.fairway_width_yd {
        Some(width_yd) => Some(width_yd),
        None if par? == 3 => None,
        None => Some(defaults.fairway_width_yd.unwrap_or(36.0)),
    };
    let stretch = |width_yd: f64| {
        let to_yd = front_yd?;
        Some(Stretch {
            from_yd: FAIRWAY_FROM_YD.min(to_yd),
            to_yd,
            half_width_yd: width_yd / 2.0,
        })
    };
    Some(width_yd.and_then(stretch).into_iter().collect())
}

fn read_stretch(table: &Table<'_>, front_yd: Option<f64>) -> Option<Stretch> {
    let from_yd = table.need("from_yd", "120").number(0.0..=800.0, "yards");
    let width_yd = table.need("width_yd", "34").number(5.0..=150.0, "yards");
    let to_yd = if table.has("to_yd") {
        table.may("to_yd", "260").number(0.0..=800.0, "yards")
    } else {
        front_yd
    };
    let (from_yd, to_yd) = (from_yd?, to_yd?);
    if from_yd >= to_yd {
        let message =
            format!("this stretch of fairway begins at {from_yd} yards and ends at {to_yd}");
        table.fault(
            table.place("to_yd"),
            message,
            "let it end farther than it begins",
        );
        return None;
    }
    Some(Stretch {
        from_yd,
        to_yd,
        half_width_yd: width_yd? / 2.0,
    })
}

/// Reads the areas.
fn read_areas(table: &Table<'_>, line: Option<&Line>) -> Option<Vec<Area>> {
    let tables = table
        .may(
            "areas",
            "[{ lie = \"sand\", outline_yd = [[20, 230], [32, 230], [26, 244]] }]",
        )
        .tables(&area::KEYS);
    if tables.len() > MOST_AREAS {
        let message = format!(
            "{} has {} areas, more than {MOST_AREAS}",
            table.label(),
            tables.len()
        );
        table.fault(
            table.place("areas"),
            message,
            "join areas of the same lie that touch",
        );
        return None;
    }
    let areas: Vec<_> = tables
        .into_iter()
        .map(|entry| {
            area::read(
                &entry.called(&format!("this area of {}", table.label())),
                line,
            )
        })
        .collect();
    areas.into_iter().collect()
}
