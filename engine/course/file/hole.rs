//! One hole of the file.

use std::ops::Range;

use super::{
    area,
    conditions::{self, Conditions},
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
        pins::reach_yd,
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
    pub(super) card: Card,
    pub(super) plan: Plan,
    pub(super) span: Range<usize>,
    pub(super) green_span: Range<usize>,
    pub(super) tees_span: Range<usize>,
    /// Where each of the plan's areas stands in the file.
    pub(super) area_spans: Vec<Range<usize>>,
    /// The hole from each set of tees, and from the one played from.
    pub(super) tees: Vec<Spot>,
    pub(super) tee: Spot,
    pub(super) pin: Point,
    green: Green,
    grade: f64,
    firmness: Firmness,
    air: Air,
    rules: Vec<RuleFile>,
}

/// What a hole's card says.
#[derive(Debug)]
pub(super) struct Card {
    number: u32,
    pub(super) label: String,
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
    let own = Conditions::read(
        &table.may("conditions", conditions::EXAMPLE),
        given.conditions,
    );
    let conditions = given.day.or(own.or(given.conditions));
    let line = line::read(&table);
    let par = card.as_ref().map(|card| card.par);
    let tees = read_tees(&table, line.as_ref(), par, given.tees);
    let (line, length_yd) = line.unzip();
    let (shape, green) = read_green(&table, given, &conditions, line.as_ref()).unzip();
    let (plan, area_spans) = read_plan(&table, line, shape, par, given.defaults.corridor)?;
    let pin = green::read_pin(&table.may("pin", "\"back\""), &plan.green, &plan.line)?;
    let (tee, tees) = tees?;
    let card = card?;
    Some(Draft {
        grade: card.rise_yd / length_yd?,
        card,
        span: table.span(),
        green_span: table.place("green"),
        tees_span: table.place("tees"),
        area_spans,
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

/// Reads everything that lies on the ground, given the line of play and the green; and where each area stands.
fn read_plan(
    table: &Table<'_>,
    line: Option<Line>,
    green: Option<Shape>,
    par: Option<u8>,
    defaults: Corridor,
) -> Option<(Plan, Vec<Range<usize>>)> {
    let areas = read_areas(table, line.as_ref());
    let corridor = Corridor::read(table);
    let front_yd = line
        .as_ref()
        .zip(green.as_ref())
        .map(|(line, green)| line.length_yd() - reach_yd(green, line, -1.0));
    let ends = line.as_ref().map(Line::length_yd).zip(front_yd);
    let fairway = corridor::read_fairway(table, par, corridor, defaults, ends);
    let corridor = corridor.or(defaults);
    let tee = teeing_area(Point {
        x_yd: 0.0,
        y_yd: 0.0,
    });
    let (areas, spans) = areas?.into_iter().unzip();
    let plan = Plan {
        line: line?,
        fairway: fairway?,
        rough_width_yd: corridor.rough_width_yd.unwrap_or(20.0),
        beyond: corridor.beyond.unwrap_or(Lie::Rough),
        green: green?,
        tee,
        tees: Vec::new(),
        areas,
    };
    Some((plan, spans))
}

impl Draft {
    /// The hole with its grid; notes a grid that is too large and a tee or a green that other areas cover.
    pub(super) fn finish(self, file: &Table<'_>, grid: Option<LieGrid>) -> Option<Hole> {
        if let Some((span, message, hint)) = self.wrong(grid.as_ref()) {
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

/// Reads the areas, each with where it stands.
fn read_areas(table: &Table<'_>, line: Option<&Line>) -> Option<Vec<(Area, Range<usize>)>> {
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
            let entry = entry.called(&format!("this area of {}", table.label()));
            Some((area::read(&entry, line)?, entry.span()))
        })
        .collect();
    areas.into_iter().collect()
}
