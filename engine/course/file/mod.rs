//! The course file.
//!
//! ```toml
//! name = "Alder Hollow"
//! description = "A short parkland course."
//! rules = ["baked.rhai"]          # scripts that replace rules of the model, from this file's folder; a hole may name its own
//!
//! [rating]                        # may be left out: the course is then rated by play
//! men = { course_rating = 71.2, slope_rating = 128, bogey_rating = 95.0 }
//! women = { course_rating = 74.0, slope_rating = 131 }
//!
//! [[tees]]                         # may be left out; the first is played from, or the one marked `default = true`
//! name = "white"                  # the holes' own tees, at [0, 0]
//! rating = { men = { course_rating = 71.2, slope_rating = 128 } }    # in place of the course's `rating`
//! [[tees]]
//! name = "red"
//!
//! [conditions]                    # all may be left out; a hole may have its own
//! firmness = "soft"               # turf: soft, medium, firm or a number from 0 to 1 (default medium)
//! wind_mph = 8                    # at 10 m, as weather reports give it (default calm)
//! wind_from_deg = 225             # where it comes from: see below
//! temperature_f = 66              # default 75
//! altitude_ft = 300               # default 0
//! humidity_pct = 60               # default 50
//!
//! [defaults]                      # for holes that do not say otherwise
//! fairway_width_yd = 36           # pars 4 and up (default 36)
//! rough_width_yd = 24             # each side of the fairway, and round the green (default 20)
//! beyond = "trees"                # beyond the rough: rough, trees or out of bounds (default rough)
//! green = { stimp_ft = 9.5 }      # any keys of a green
//!
//! [[holes]]
//! number = 1                      # default: its place in the file
//! par = 4
//! stroke_index = 7                # may be left out
//! length_yd = 402
//! tees = { red = 351, blue = { point_yd = [4, -18], par = 4 } }      # lengths, or places: see below
//! bearing_deg = 140               # compass direction of play (0 north, 90 east): see below
//! rise_ft = -12                   # height of the green over the tee (default 0)
//! dogleg = [{ at_yd = 230, turn_deg = 25 }]               # positive turns right
//! fairway = [{ from_yd = 120, to_yd = 260, width_yd = 34 }, { from_yd = 285, width_yd = 38 }]
//! green = { depth_yd = 30, width_yd = 24, turn_deg = 15, slope_along_pct = 2 }
//! pin = "back"                    # front, middle (default), back, or { along_yd = 4, side_yd = -5 }
//! areas = [
//!   { lie = "sand", at_yd = 240, side_yd = 24, length_yd = 16, width_yd = 9 },
//!   { lie = "sand", at_green_yd = -6, side_yd = -19, length_yd = 14, width_yd = 8, turn_deg = 10 },
//!   { lie = "water", from_yd = 262, to_yd = 283 },
//!   { lie = "out of bounds", side_from_yd = 55 },
//!   { lie = "trees", outline_yd = [[-60, 150], [-40, 155], [-45, 210]] },
//! ]
//! ```
//!
//! **Rating.** By men and women, or `course_rating`, `slope_rating` and `bogey_rating` in `rating` itself for both. A
//! bogey rating left out follows from the slope. Of a course of nine holes it is that of nine holes.
//!
//! **Tees.** `[[tees]]` names the sets of tees, each with its `rating`. A hole's own tee, at (0, 0), is that of every
//! set the hole's `tees` do not place: by a length (`red = 351`: forward along the line, or straight back from its
//! start), by a point (`red = [3, 48]`), or by a table of `length_yd` or `point_yd` with a `par` of its own. The ground
//! stays where it is, whichever tees are played from: every distance is still counted from (0, 0).
//!
//! **Line of play.** The tee is at (0, 0), +y is the direction of play from it, x grows to the right. Either
//! `length_yd` with `dogleg`s, or `line_yd = [[0, 0], [10, 230], [90, 400]]`, whose last point is the middle of the
//! green; with both, length and line must agree within 3 %. Every distance `…at_yd`, `from_yd` and `to_yd` is
//! along this line, and every `side_yd` is square to it, right positive.
//!
//! **Fairway.** `fairway_width_yd` for one width from 100 yd to the front of the green, or `fairway`, a list of
//! stretches, each up to the front of the green when `to_yd` is left out. A par 3 has fairway only if it says so.
//!
//! **Green.** An ellipse round the end of the line: depth along the last leg, width across, turned clockwise by
//! `turn_deg`; or `outline_yd`. `firmness` (default: that of the conditions), `stimp_ft` (default 10),
//! `slope_along_pct` (positive rises away from the player) and `slope_across_pct` (positive rises to the right).
//!
//! **Areas.** `lie` is sand, water, trees (trees, scrub or heath), fairway, rough, tee or out of bounds. The ground is
//! one of three: an ellipse (`at_yd` from the tee, or `at_green_yd` past the middle of the green, negative short of
//! it; `side_yd`, `length_yd` along the line, `width_yd` across, `turn_deg`); a strip that follows the line (`from_yd`,
//! `to_yd`, `side_from_yd`, `side_to_yd`; an end left out goes on without end, outwards for a side); or a free outline
//! (`outline_yd`), whose islands are no part of it (`islands_yd`: a list of outlines within it). What covers what is told in [`plan`](super::plan).
//!
//! **Wind.** On a hole with `bearing_deg`, `wind_from_deg` is a compass direction: a west wind (270) on a hole played
//! west blows into the face. On a hole without, it is told from the hole itself: 0 into the face, 90 from the right, 180
//! from behind. A wind needs a direction.

mod area;
mod conditions;
mod corridor;
mod green;
mod hole;
mod line;
mod painted;
mod rating;
mod rules;
mod tees;

use rayon::prelude::*;

pub(super) use area::{MOST_ISLAND_POINTS, MOST_POINTS};

use super::{Course, Hole, Lie, Pins, Setup};
use crate::files::{
    Fault, Faults, Source,
    toml::{self, Outline, Table},
};
pub use conditions::Conditions;
use hole::{Defaults, Draft, Given};

/// Keys of the file.
const KEYS: [&str; 8] = [
    "name",
    "description",
    "rules",
    "rating",
    "tees",
    "conditions",
    "defaults",
    "holes",
];

/// Most holes of a course.
const MOST_HOLES: usize = 36;

impl Course {
    /// Reads a course file.
    ///
    /// # Errors
    /// Every fault of the file, each with its place and what to write instead.
    pub fn read(source: &Source) -> Result<Self, Faults> {
        Self::read_as(source, &Setup::default())
    }

    /// What such a file may say, shown by a sound sample.
    ///
    /// # Errors
    /// Every fault of the sample.
    pub fn outline(sample: &Source) -> Result<Outline, Faults> {
        let setup = Setup::default();
        toml::outline(sample, &KEYS, |file| {
            read_course(file, &setup, &mut Vec::new())
        })
    }

    /// Reads a course file and sets the course up for play.
    ///
    /// # Errors
    /// Every fault of the file, each with its place and what to write instead; tees the course does not have; every pin
    /// of a sheet that is not on its green.
    pub fn read_as(source: &Source, setup: &Setup) -> Result<Self, Faults> {
        let mut of_sheet = Vec::new();
        let course = toml::read(source, &KEYS, |file| {
            read_course(file, setup, &mut of_sheet)
        });
        match course {
            Ok(course) if of_sheet.is_empty() => Ok(course),
            Ok(_) => Err(Faults::of(of_sheet)),
            Err(mut faults) => {
                faults.extend(Faults::of(of_sheet));
                Err(faults)
            }
        }
    }
}

fn read_course(file: &Table<'_>, setup: &Setup, of_sheet: &mut Vec<Fault>) -> Option<Course> {
    let name = file.need("name", "\"Alder Hollow\"").text();
    let description = file
        .may("description", "\"A short parkland course.\"")
        .text();
    let rules = rules::read(&file.may("rules", rules::EXAMPLE));
    let conditions = Conditions::read(
        &file.may("conditions", conditions::EXAMPLE),
        Conditions::default(),
    );
    let defaults = Defaults::read(&file.may("defaults", "{ rough_width_yd = 24 }"));
    let tables = file
        .need("holes", "[{ par = 4, length_yd = 402 }]")
        .tables(&hole::KEYS);
    if file.has("holes") && !(1..=MOST_HOLES).contains(&tables.len()) {
        let message = format!("a course has 1 to {MOST_HOLES} holes, not {}", tables.len());
        file.fault(
            file.place("holes"),
            message,
            "begin each hole with a line `[[holes]]`",
        );
        return None;
    }
    let ratings = rating::read(&file.may("rating", rating::EXAMPLE), tables.len());
    let tees = tees::read_sets(file, setup.tees.as_deref(), tables.len());
    let given = Given {
        conditions,
        day: setup.day,
        defaults,
        tees: tees.as_ref(),
        pins: &setup.pins,
    };
    let holes = read_holes(file, tables, &given, of_sheet);
    let tees = tees?;
    Some(Course {
        name: name?,
        description,
        ratings: tees.ratings().unwrap_or(ratings),
        played_from: tees.played_from,
        tees: tees.sets,
        rules,
        holes: holes?,
    })
}

fn read_holes(
    file: &Table<'_>,
    tables: Vec<Table<'_>>,
    given: &Given<'_>,
    of_sheet: &mut Vec<Fault>,
) -> Option<Vec<Hole>> {
    let numbers = read_numbers(file, &tables);
    check_stroke_indexes(file, &tables);
    if let Pins::Sheet(sheet) = given.pins {
        let known: Vec<u32> = numbers.iter().copied().flatten().collect();
        of_sheet.extend(sheet.strangers(&known));
    }
    let drafts: Vec<Option<Draft>> = (tables.into_iter().zip(numbers))
        .map(|(table, number)| hole::read(table, number, given, of_sheet))
        .collect();
    let drafts: Vec<Draft> = drafts.into_iter().collect::<Option<_>>()?;
    // Painting is most of the work, and touches no faults.
    let grids: Vec<_> = drafts.par_iter().map(|draft| draft.plan.paint()).collect();
    let holes: Vec<_> = drafts
        .into_iter()
        .zip(grids)
        .map(|(draft, grid)| draft.finish(file, grid))
        .collect();
    holes.into_iter().collect()
}

/// Reads the number of each hole, which is its place in the file when it has none; notes holes that share one.
fn read_numbers(file: &Table<'_>, tables: &[Table<'_>]) -> Vec<Option<u32>> {
    let mut numbers = Vec::new();
    for (place, table) in (1..).zip(tables) {
        let number = if table.has("number") {
            table.may("number", "1").whole(1..=99)
        } else {
            Some(place)
        };
        if let Some(number) = number.filter(|_| numbers.contains(&number)) {
            let hint = "give each hole its own `number`, or leave all numbers out";
            file.fault(
                table.place("number"),
                format!("there are two holes {number}"),
                hint,
            );
        }
        numbers.push(number);
    }
    numbers
}

/// A card has a stroke index for each of eighteen holes, of which a course may hold some.
pub(in crate::course) const HOLES_OF_A_CARD: usize = 18;

/// Notes holes that share a stroke index, and one that no card has.
fn check_stroke_indexes(file: &Table<'_>, tables: &[Table<'_>]) {
    let mut known = Vec::new();
    for table in tables.iter().filter(|table| table.has("stroke_index")) {
        // Whether the value itself is right is noted where the hole is read.
        let Some(index) = table.may("stroke_index", "7").bare_whole() else {
            continue;
        };
        let most = tables.len().max(HOLES_OF_A_CARD);
        if usize::try_from(index).is_ok_and(|index| index > most) {
            let message = format!("a card of {most} holes has no stroke index {index}");
            let hint = format!("write one from 1 to {most}, or leave all out");
            file.fault(table.place("stroke_index"), message, &hint);
        } else if known.contains(&index) {
            let message = format!("there are two holes of stroke index {index}");
            let hint = "give each hole its own, or leave all out";
            file.fault(table.place("stroke_index"), message, hint);
        }
        known.push(index);
    }
}

/// Lies that may stand at `lie` of an area.
const LIES: [(&str, Lie); 7] = [
    ("sand", Lie::Sand),
    ("water", Lie::Water),
    ("trees", Lie::Trees),
    ("fairway", Lie::Fairway),
    ("rough", Lie::Rough),
    ("tee", Lie::Tee),
    ("out of bounds", Lie::OutOfBounds),
];
