//! One hole of the file.

use std::ops::Range;

use super::{
    area,
    conditions::Conditions,
    corridor::{self, Corridor},
    green::{self, GreenKeys},
    line, rules,
    tees::{self, Sets, Spot},
};
use crate::{
    ball::{air::Air, turf::Firmness},
    course::{
        Green, Hole, Lie, LieGrid, Pins, Point, RuleFile,
        line::Line,
        pins::{can_be_cut, reach_yd},
        plan::{Area, Plan},
        shape::Shape,
    },
    files::{
        Fault,
        toml::{Entry, Table},
    },
    units::Length,
};

/// Keys of a hole.
pub(super) const KEYS: [&str; 18] = [
    "number",
    "par",
    "stroke_index",
    "length_yd",
    "dogleg",
    "line_yd",
    "tees",
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
    "rules",
];

/// Half the width and half the depth of the teeing area, yards.
const HALF_TEE_YD: (f64, f64) = (4.0, 5.0);
/// The share of a green that other areas must leave open.
const LEAST_OPEN_GREEN: f64 = 0.75;
/// Most areas of one hole.
const MOST_AREAS: usize = 200;

/// What the file says for all holes.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Defaults {
    corridor: Corridor,
    green: GreenKeys,
}

impl Defaults {
    /// Reads `defaults`; nothing when it is left out.
    pub(super) fn read(entry: &Entry<'_>) -> Self {
        let Some(table) = entry.table(&["fairway_width_yd", "rough_width_yd", "beyond", "green"])
        else {
            return Self::default();
        };
        let green = green::open_defaults(&table.may("green", "{ stimp_ft = 9.5 }"));
        Self {
            corridor: Corridor::read(&table),
            green: green
                .map(|green| GreenKeys::read(&green))
                .unwrap_or_default(),
        }
    }
}

/// What a hole is given beside its own table.
pub(super) struct Given<'a> {
    pub(super) conditions: Conditions,
    /// What holds of the day, whatever course and hole say.
    pub(super) day: Conditions,
    pub(super) defaults: Defaults,
    /// The sets of tees; none where they are at fault.
    pub(super) tees: Option<&'a Sets>,
    pub(super) pins: &'a Pins,
}

/// A hole as it was read, before its grid is painted.
#[derive(Debug)]
pub(super) struct Draft {
    card: Card,
    pub(super) plan: Plan,
    span: Range<usize>,
    green_span: Range<usize>,
    tees_span: Range<usize>,
    /// The hole from each set of tees, and from the one played from.
    tees: Vec<Spot>,
    tee: Spot,
    pin: Point,
    green: Green,
    grade: f64,
    firmness: Firmness,
    air: Air,
    rules: Vec<RuleFile>,
}

/// What a hole's card says.
#[derive(Debug)]
struct Card {
    number: u32,
    label: String,
    par: u8,
    stroke_index: Option<u8>,
    rise_yd: f64,
}

/// Reads the hole of a number.
pub(super) fn read(
    table: Table<'_>,
    number: Option<u32>,
    given: &Given<'_>,
    of_sheet: &mut Vec<Fault>,
) -> Option<Draft> {
    let table = match number {
        Some(number) => table.called(&format!("hole {number}")),
        None => table,
    };
    let card = read_card(&table, number);
    let rules = rules::read(&table.may("rules", rules::EXAMPLE));
    let bearing_deg = table
        .may("bearing_deg", "140")
        .number(0.0..=360.0, "degrees");
    let own = Conditions::read(&table.may("conditions", "{ wind_mph = 8 }"));
    let conditions = given.day.or(own.or(given.conditions));
    let line = line::read(&table);
    let par = card.as_ref().map(|card| card.par);
    let tees = read_tees(&table, line.as_ref(), par, given.tees);
    let (line, length_yd) = line.unzip();
    let (shape, green) = read_green(&table, given, &conditions, line.as_ref()).unzip();
    let plan = read_plan(&table, line, shape, par, given.defaults.corridor)?;
    let pin = green::read_pin(&table.may("pin", "\"back\""), &plan.green, &plan.line)?;
    let (tee, tees) = tees?;
    let card = card?;
    Some(Draft {
        grade: card.rise_yd / length_yd?,
        card,
        span: table.span(),
        green_span: table.place("green"),
        tees_span: table.place("tees"),
        pin: pin_of_day(given.pins, number, pin, &plan, of_sheet),
        green: green?,
        firmness: conditions.firmness(),
        air: conditions.air(bearing_deg),
        rules,
        plan: Plan {
            tee: teeing_area(tee.point),
            tees: tees.iter().map(|spot| teeing_area(spot.point)).collect(),
            ..plan
        },
        tees,
        tee,
    })
}

/// Reads the tees: the one played from, and those of every set.
fn read_tees(
    table: &Table<'_>,
    line: Option<&(Line, f64)>,
    par: Option<u8>,
    sets: Option<&Sets>,
) -> Option<(Spot, Vec<Spot>)> {
    let base = line.zip(par);
    let base = base.map(|((line, length_yd), par)| Spot::base(line, *length_yd, par));
    let all = tees::read_spots(table, base.as_ref(), sets)?;
    let played = sets.and_then(|sets| all.get(sets.played_from?));
    Some((played.cloned().or(base)?, all))
}

/// Reads the green.
fn read_green(
    table: &Table<'_>,
    given: &Given<'_>,
    conditions: &Conditions,
    line: Option<&Line>,
) -> Option<(Shape, Green)> {
    let by_default = given.defaults.green;
    if !table.has("green") && by_default.has_size() {
        let found = green::by_default(by_default, conditions.firmness(), line)?;
        return Some(on_the_day(found, given));
    }
    let green = green::open(&table.need("green", "{ depth_yd = 30, width_yd = 24 }"))?;
    let called = green.called(&format!("the green of {}", table.label()));
    let found = green::read(&called, given.defaults.green, conditions.firmness(), line)?;
    Some(on_the_day(found, given))
}

/// A green as firm as the day makes it.
fn on_the_day((shape, green): (Shape, Green), given: &Given<'_>) -> (Shape, Green) {
    let firmness = given.day.stated_firmness().unwrap_or(green.firmness);
    (shape, Green { firmness, ..green })
}

fn read_card(table: &Table<'_>, number: Option<u32>) -> Option<Card> {
    let par = table.need("par", "4").whole(3..=6);
    let stroke_index = table.may("stroke_index", "7").whole(1..=36);
    let rise_ft = table.may("rise_ft", "-12").number(-500.0..=500.0, "feet");
    Some(Card {
        number: number?,
        label: table.label().to_owned(),
        par: u8::try_from(par?).ok()?,
        stroke_index: stroke_index.and_then(|index| u8::try_from(index).ok()),
        rise_yd: Length::from_ft(rise_ft.unwrap_or(0.0)).yd(),
    })
}

/// Reads everything that lies on the ground, given the line of play and the green.
fn read_plan(
    table: &Table<'_>,
    line: Option<Line>,
    green: Option<Shape>,
    par: Option<u8>,
    defaults: Corridor,
) -> Option<Plan> {
    let areas = read_areas(table, line.as_ref());
    let corridor = Corridor::read(table);
    let front_yd = line
        .as_ref()
        .zip(green.as_ref())
        .map(|(line, green)| line.length_yd() - reach_yd(green, line, -1.0));
    let fairway = corridor::read_fairway(table, par, corridor, defaults, front_yd);
    let corridor = corridor.or(defaults);
    let tee = teeing_area(Point {
        x_yd: 0.0,
        y_yd: 0.0,
    });
    Some(Plan {
        line: line?,
        fairway: fairway?,
        rough_width_yd: corridor.rough_width_yd.unwrap_or(20.0),
        beyond: corridor.beyond.unwrap_or(Lie::Rough),
        green: green?,
        tee,
        tees: Vec::new(),
        areas: areas?,
    })
}

impl Draft {
    /// The hole with its grid; notes a grid that is too large and a tee or a green that other areas cover.
    pub(super) fn finish(self, file: &Table<'_>, grid: Option<LieGrid>) -> Option<Hole> {
        if let Some((span, message, hint)) = self.fault(grid.as_ref()) {
            file.fault(span, message, hint);
            return None;
        }
        Some(Hole {
            number: self.card.number,
            par: self.tee.par,
            stroke_index: self.card.stroke_index,
            length_yd: self.tee.length_yd,
            tees: self.tees.iter().map(Spot::told).collect(),
            line: self.tee.line.points(),
            tee: self.tee.point,
            pin: self.pin,
            grid: grid?,
            green: self.green,
            firmness: self.firmness,
            grade: self.grade,
            air: self.air,
            rules: self.rules,
        })
    }

    /// What is wrong with a tee on the painted hole: the one played from is not seen, or another is covered.
    fn tee_fault(&self, grid: &LieGrid) -> Option<(Range<usize>, String, &'static str)> {
        let label = &self.card.label;
        let Point { x_yd, y_yd } = self.tee.point;
        let hint = "keep water, sand, the green and out of bounds off it";
        if grid.lie(x_yd, y_yd) != Lie::Tee {
            let (place, hint) = if self.tee.set.is_none() {
                let hint = "the tee is at [0, 0]; keep water, sand and out of bounds off it";
                (&self.span, hint)
            } else {
                (&self.tees_span, hint)
            };
            let message = format!("the tee of {label} is covered by another area");
            return Some((place.clone(), message, hint));
        }
        let covers = [Lie::Water, Lie::Sand, Lie::OutOfBounds, Lie::Green];
        let is_covered =
            |spot: &&Spot| covers.contains(&grid.lie(spot.point.x_yd, spot.point.y_yd));
        let spot = self.tees.iter().find(is_covered)?;
        let set = spot.set.as_deref().unwrap_or_default();
        let message = format!("the {set} tee of {label} is covered by another area");
        Some((self.tees_span.clone(), message, hint))
    }

    /// What is wrong with the painted hole: its place, a message and a hint.
    fn fault(&self, grid: Option<&LieGrid>) -> Option<(Range<usize>, String, &'static str)> {
        let label = &self.card.label;
        let Some(grid) = grid else {
            let message = format!("{label} takes more ground than 1000 by 600 yards");
            let hint = "bring its farthest areas and corners nearer to the line of play";
            return Some((self.span.clone(), message, hint));
        };
        if let Some(fault) = self.tee_fault(grid) {
            return Some(fault);
        }
        let cells = grid.lies.iter().filter(|lie| **lie == Lie::Green).count() as f64;
        let Point { x_yd, y_yd } = self.pin;
        let open = grid.lie(x_yd, y_yd) == Lie::Green
            && cells >= LEAST_OPEN_GREEN * self.plan.green.area_sq_yd();
        if !open && !can_be_cut(&self.plan.green, self.pin) {
            let message = format!(
                "the pin of {label} is too near the edge of its green, or the green is too narrow there"
            );
            let hint =
                "keep the pin a yard or more from every edge; a green is two yards across at least";
            return Some((self.green_span.clone(), message, hint));
        }
        (!open).then(|| {
            let message = format!("the green of {label} is covered by another area");
            let hint = "keep water, sand and out of bounds off the green; water all round it has an outline with `islands_yd`";
            (self.green_span.clone(), message, hint)
        })
    }
}

/// The teeing area round a tee.
fn teeing_area(tee: Point) -> Shape {
    let (x, y) = HALF_TEE_YD;
    let corner = |(right, forward): (f64, f64)| Point {
        x_yd: tee.x_yd + right,
        y_yd: tee.y_yd + forward,
    };
    Shape::Outline([(-x, -y), (x, -y), (x, y), (-x, y)].map(corner).to_vec())
}

/// Where the hole is cut: as the file says, or as the pins of the day say. A pin of a sheet that is not on its green is
/// a fault of the sheet.
fn pin_of_day(
    pins: &Pins,
    hole: Option<u32>,
    of_file: Point,
    plan: &Plan,
    of_sheet: &mut Vec<Fault>,
) -> Point {
    let toward = |direction| green::pin_toward(direction, &plan.green, &plan.line);
    match pins {
        Pins::File => of_file,
        Pins::Front => toward(-1.0),
        Pins::Middle => toward(0.0),
        Pins::Back => toward(1.0),
        Pins::Sheet(sheet) => {
            let row = hole.and_then(|hole| sheet.row(hole));
            let pin = row.map(|row| row.on(&plan.green, &plan.line));
            pin.transpose()
                .unwrap_or_else(|fault| {
                    of_sheet.push(fault);
                    None
                })
                .unwrap_or(of_file)
        }
    }
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
