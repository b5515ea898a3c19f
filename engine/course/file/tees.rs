//! Sets of tees: their names and ratings, and where each stands on a hole.

use super::area::FARTHEST_YD;
use super::rating;
use crate::course::line::{Line, Station};
use crate::course::{HoleTee, Point, Ratings, TeeSet};
use crate::files::toml::{Entry, Kind, Table};
use crate::files::{listed, nearest};

/// Most sets of tees of a course.
const MOST_SETS: usize = 12;
/// Corners of the line no farther than this past a tee are left out when play starts there, yards.
const PAST_TEE_YD: f64 = 10.0;
/// The shortest and the longest hole, yards.
const LENGTHS_YD: (f64, f64) = (40.0, 800.0);

/// The sets of tees of a course.
#[derive(Debug)]
pub(super) struct Sets {
    pub(super) sets: Vec<TeeSet>,
    /// The one played from.
    pub(super) played_from: Option<usize>,
}

impl Sets {
    /// The ratings from the tees played from; none where the course names no tees.
    pub(super) fn ratings(&self) -> Option<Ratings> {
        Some(self.sets.get(self.played_from?)?.ratings)
    }

    fn names(&self) -> Vec<&str> {
        self.sets.iter().map(|set| set.name.as_str()).collect()
    }
}

/// Reads the sets of tees, and which is played from: the one asked for, the marked one, or the first.
pub(super) fn read_sets(file: &Table<'_>, asked: Option<&str>, holes: usize) -> Option<Sets> {
    let tables = file
        .may("tees", "[{ name = \"white\" }, { name = \"red\" }]")
        .tables(&["name", "rating", "default"]);
    if tables.len() > MOST_SETS {
        let message = format!(
            "{} sets of tees are named, more than {MOST_SETS}",
            tables.len()
        );
        file.fault(
            file.place("tees"),
            message,
            "leave out those nobody plays from",
        );
        return None;
    }
    if file.has("rating") && !tables.is_empty() {
        let message = "a course that names its tees is rated from each of them".to_owned();
        let hint = "move `rating` into the `[[tees]]` it belongs to";
        file.fault(file.place("rating"), message, hint);
    }
    let (sets, marked) = read_list(tables, holes)?;
    let first = (!sets.is_empty()).then_some(0);
    let mut sets = Sets {
        sets,
        played_from: marked.or(first),
    };
    if let Some(asked) = asked {
        sets.played_from = Some(chosen(file, &sets, asked)?);
    }
    Some(sets)
}

/// Reads each set, and which is marked; none where one has no name.
fn read_list(tables: Vec<Table<'_>>, holes: usize) -> Option<(Vec<TeeSet>, Option<usize>)> {
    let (mut sets, mut marked) = (Vec::<TeeSet>::new(), None);
    let mut is_sound = true;
    for table in tables {
        let ratings = rating::read(&table.may("rating", rating::EXAMPLE), holes);
        let is_default = table.may("default", "true").yes_no().unwrap_or(false);
        let Some(name) = table.need("name", "\"white\"").text() else {
            is_sound = false;
            continue;
        };
        if sets.iter().any(|set| set.name.eq_ignore_ascii_case(&name)) {
            let message = format!("there are two sets of `{name}` tees");
            table.fault(table.place("name"), message, "give each its own name");
        }
        if is_default && marked.replace(sets.len()).is_some() {
            let message = "two sets of tees are the default".to_owned();
            table.fault(table.place("default"), message, "mark one of them");
        }
        sets.push(TeeSet { name, ratings });
    }
    is_sound.then_some((sets, marked))
}

/// The place of the tees asked for.
fn chosen(file: &Table<'_>, sets: &Sets, asked: &str) -> Option<usize> {
    let wanted = asked.trim();
    let is_it = |name: &&str| name.eq_ignore_ascii_case(wanted);
    let names = sets.names();
    let found = names.iter().position(is_it);
    if found.is_none() {
        let message = format!("there are no `{wanted}` tees on this course");
        let hint = match nearest(wanted, names.iter().copied()) {
            Some(meant) => format!("did you mean `{meant}`?"),
            None if names.is_empty() => "the file names no tees: write `[[tees]]` with `name = \"white\"`, or leave the choice out".to_owned(),
            None => format!("the tees here are {}", listed(&names, "and")),
        };
        file.fault(file.place("tees"), message, &hint);
    }
    found
}

/// A hole from one set of tees.
#[derive(Debug, Clone)]
pub(super) struct Spot {
    /// The name of the set where the hole places it; none for the hole's own tee.
    pub(super) set: Option<String>,
    pub(super) point: Point,
    /// The line of play from there.
    pub(super) line: Line,
    pub(super) length_yd: f64,
    pub(super) par: u8,
}

impl Spot {
    /// The hole's own tee.
    pub(super) fn base(line: &Line, length_yd: f64, par: u8) -> Self {
        Self {
            set: None,
            point: Point {
                x_yd: 0.0,
                y_yd: 0.0,
            },
            line: line.clone(),
            length_yd,
            par,
        }
    }

    /// What is told of it.
    pub(super) fn told(&self) -> HoleTee {
        HoleTee {
            length_yd: self.length_yd,
            par: self.par,
        }
    }
}

/// Reads where each set of tees stands on a hole, in the order of the sets.
pub(super) fn read_spots(
    table: &Table<'_>,
    base: Option<&Spot>,
    sets: Option<&Sets>,
) -> Option<Vec<Spot>> {
    let entry = table.may("tees", "{ red = 351 }");
    let own = entry.free_table();
    if entry.kind().is_some() && own.is_none() {
        return None;
    }
    let Some(own) = own else {
        return Some(vec![base?.clone(); sets?.sets.len()]);
    };
    let sets = sets?;
    note_strangers(&own, sets);
    let spot = |set: &TeeSet| {
        if own.has(&set.name) {
            read_spot(&own.may(&set.name, "351"), &set.name, base)
        } else {
            base.cloned()
        }
    };
    let spots: Vec<Option<Spot>> = sets.sets.iter().map(spot).collect();
    spots.into_iter().collect()
}

/// Notes tees of a hole that are of no set.
fn note_strangers(own: &Table<'_>, sets: &Sets) {
    let names = sets.names();
    for (key, place) in own.keys() {
        if names.contains(&key) {
            continue;
        }
        let hint = match nearest(key, names.iter().copied()) {
            Some(meant) => format!("did you mean `{meant}`?"),
            None if names.is_empty() => {
                format!("name it before the holes: `[[tees]]` with `name = \"{key}\"`")
            }
            None => format!("the tees of this course are {}", listed(&names, "and")),
        };
        own.fault(place, format!("there are no `{key}` tees"), &hint);
    }
}

/// What a hole says of one tee.
struct Said {
    place: Place,
    /// A par of its own.
    par: Option<u8>,
}

/// Where a tee stands.
enum Place {
    /// So long is the hole from there, yards.
    Length(f64),
    Point(Point),
}

fn read_spot(entry: &Entry<'_>, set: &str, base: Option<&Spot>) -> Option<Spot> {
    let said = match entry.kind()? {
        Kind::Table => read_said(&entry.table(&["length_yd", "point_yd", "par"])?, set)?,
        Kind::List => Said {
            place: Place::Point(point(entry)?),
            par: None,
        },
        _ => Said {
            place: Place::Length(length(entry)?),
            par: None,
        },
    };
    let base = base?;
    let (point, line, length_yd) = match said.place {
        Place::Point(point) => {
            let station = base.line.station(point.x_yd, point.y_yd);
            if station.along_yd >= base.length_yd {
                let message = format!("the {set} tee stands past the hole");
                let hint = "`point_yd` is [right, forward] of the hole's own tee, yards";
                return entry.note(message, hint.to_owned());
            }
            let line = base.line.started_at(point, PAST_TEE_YD)?;
            let length_yd = line.length_yd();
            (point, line, length_yd)
        }
        Place::Length(length_yd) => {
            let point = base.line.point(Station {
                along_yd: base.length_yd - length_yd,
                side_yd: 0.0,
            });
            // Standing on the line, it leaves out only what lies behind it.
            (point, base.line.started_at(point, 0.0)?, length_yd)
        }
    };
    if !(LENGTHS_YD.0..=LENGTHS_YD.1).contains(&length_yd) {
        let message = format!("from the {set} tee the hole is {length_yd:.0} yards long");
        return entry.note(message, "a hole is from 40 to 800 yards long".to_owned());
    }
    Some(Spot {
        set: Some(set.to_owned()),
        point,
        line,
        length_yd,
        par: said.par.unwrap_or(base.par),
    })
}

fn read_said(table: &Table<'_>, set: &str) -> Option<Said> {
    let par = table.may("par", "4").whole(3..=6);
    let (at, long) = (
        table.may("point_yd", "[3, 48]"),
        table.may("length_yd", "351"),
    );
    // Both are read before a fault ends the reading, so that each is told, and described.
    let (point, length_yd) = (point(&at), length(&long));
    if at.kind().is_some() == long.kind().is_some() {
        let message = format!("the {set} tee must say once where it stands");
        let hint = "write `length_yd = 351` or `point_yd = [3, 48]`";
        table.fault(table.span(), message, hint);
        return None;
    }
    if table.has("par") && par.is_none() {
        return None;
    }
    Some(Said {
        place: point.map(Place::Point).or(length_yd.map(Place::Length))?,
        par: par.and_then(|par| u8::try_from(par).ok()),
    })
}

fn point(entry: &Entry<'_>) -> Option<Point> {
    let [x_yd, y_yd] = entry.point(FARTHEST_YD)?;
    Some(Point { x_yd, y_yd })
}

fn length(entry: &Entry<'_>) -> Option<f64> {
    entry.number(LENGTHS_YD.0..=LENGTHS_YD.1, "yards")
}
