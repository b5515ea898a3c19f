//! A written course read back is the same course, whatever is on the map.

use costcard::course::import::{FoundTee, Imported, ImportedHole, Options, Turf};
use costcard::course::shape::Shape;
use costcard::course::{Course, Point, Setup};
use costcard::files::Source;
use proptest::prelude::*;

use super::extract::{plan, teeing_area};
use super::sketch::{Sketch, import};
use crate::support;

/// A hole of a made-up map: how far away it lies, its length and bend, what it has.
#[derive(Debug, Clone)]
struct Drawn {
    length_m: f64,
    bend_m: f64,
    par: u8,
    bunkers: Vec<(f64, f64, f64)>,
    pond: Option<(f64, f64)>,
    /// The red and the blue tee: right of and before the start.
    tees: [Option<(f64, f64)>; 2],
}

fn drawn() -> impl Strategy<Value = Drawn> {
    let bunker = (60.0..420.0, -35.0..35.0, 4.0..9.0);
    let tee = || proptest::option::of((-8.0..8.0, -40.0..70.0));
    (
        (120.0..460.0, -70.0..70.0, 3_u8..=5),
        proptest::collection::vec(bunker, 0..5),
        proptest::option::of((70.0..300.0, -30.0..30.0)),
        (tee(), tee()),
    )
        .prop_map(
            |((length_m, bend_m, par), bunkers, pond, (red, blue))| Drawn {
                length_m,
                bend_m,
                par,
                bunkers,
                pond,
                tees: [red, blue],
            },
        )
}

/// The holes side by side, 300 m apart.
fn sketch(holes: &[Drawn]) -> Sketch {
    let mut sketch = Sketch::default();
    for (index, hole) in holes.iter().enumerate() {
        let x = 300.0 * index as f64;
        let line = [
            (x, 0.0),
            (x + hole.bend_m, 0.6 * hole.length_m),
            (x, hole.length_m),
        ];
        let number = i64::try_from(index).expect("few") + 1;
        sketch = sketch.hole(number, &line, &format!("par={}", hole.par));
        for (along, side, radius) in &hole.bunkers {
            sketch = sketch.disc((x + side, *along), *radius, "golf=bunker");
        }
        if let Some((along, side)) = hole.pond {
            sketch = sketch.disc((x + side, along), 18.0, "natural=water|golf=water_hazard");
        }
        for (tee, colour) in hole.tees.iter().zip(["red", "blue"]) {
            if let Some((side, along)) = tee {
                let tags = format!("golf=tee|tee={colour}");
                sketch = sketch.disc((x + side, *along), 3.0, &tags);
            }
        }
    }
    sketch
}

fn check(course: &Imported) -> Result<(), TestCaseError> {
    let text = course.to_toml(&Turf::default());
    let source = Source::new("written.toml", &text);
    let read =
        Course::read(&source).map_err(|faults| TestCaseError::fail(format!("{faults}\n{text}")))?;
    prop_assert_eq!(&read.name, &course.name);
    prop_assert_eq!(read.holes.len(), course.holes.len());
    for (one, back) in course.holes.iter().zip(&read.holes) {
        let found = &one.found;
        prop_assert_eq!(
            (found.number, found.par, found.stroke_index),
            (back.number, back.par, back.stroke_index)
        );
        prop_assert!((found.length_yd - back.length_yd).abs() < 0.3);
        prop_assert_eq!(one.laid.line.len(), back.line.len());
        let near = |(a, b): (&Point, &Point)| (a.x_yd - b.x_yd).hypot(a.y_yd - b.y_yd) < 1e-9;
        prop_assert!(one.laid.line.iter().zip(&back.line).all(near));
        if one.laid.green.is_some() && !one.laid.is_fairway_assumed {
            let mut plan = plan(&one.laid);
            plan.tees = read_tees(one, &read);
            prop_assert!(plan.paint().as_ref() == Some(&back.grid));
        }
    }
    tees(course, &read, &source)
}

/// The teeing areas of the written sets.
fn read_tees(hole: &ImportedHole, read: &Course) -> Vec<Shape> {
    let of_set = |name: &str| {
        let mut tees = hole.laid.tees.iter();
        tees.find(|tee| tee.colours.iter().any(|colour| colour == name))
    };
    let origin = Point {
        x_yd: 0.0,
        y_yd: 0.0,
    };
    (read.tees.iter())
        .map(|set| teeing_area(of_set(&set.name).map_or(origin, |tee| tee.point)))
        .collect()
}

/// From each set of tees a hole is as long as on the map.
fn tees(course: &Imported, read: &Course, source: &Source) -> Result<(), TestCaseError> {
    for set in &read.tees {
        let setup = Setup {
            tees: Some(set.name.clone()),
            ..Setup::default()
        };
        let from = Course::read_as(source, &setup)
            .map_err(|faults| TestCaseError::fail(faults.to_string()))?;
        for (one, back) in course.holes.iter().zip(&from.holes) {
            let has = |tee: &&FoundTee| tee.colours.contains(&set.name);
            let is_laid = one
                .laid
                .tees
                .iter()
                .any(|tee| tee.colours.contains(&set.name));
            if let Some(tee) = one.found.tees.iter().find(has).filter(|_| is_laid) {
                prop_assert!(
                    (tee.length_yd - back.length_yd).abs() < 0.5,
                    "hole {}, {}: {} and {}",
                    back.number,
                    set.name,
                    tee.length_yd,
                    back.length_yd
                );
            }
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]
    #[test]
    fn a_written_course_read_back_is_the_same_course(
        holes in proptest::collection::vec(drawn(), 1..5),
    ) {
        check(&sketch(&holes).course())?;
    }
}

/// Colours on at least half of the holes make sets of tees; without a colour asked for, play starts where lines do.
#[test]
fn tees_on_the_map_become_sets_of_tees() {
    let hole = |red: f64, blue| Drawn {
        length_m: 380.0,
        bend_m: 0.0,
        par: 4,
        bunkers: Vec::new(),
        pond: None,
        tees: [Some((4.0, red)), blue],
    };
    let sketch = sketch(&[
        hole(40.0, Some((-3.0, -20.0))),
        hole(60.0, None),
        hole(50.0, None),
    ]);
    let text = sketch.course().to_toml(&Turf::default());
    let read = support::course(&text);
    let names: Vec<&str> = read.tees.iter().map(|set| set.name.as_str()).collect();
    // White is that of every sketched hole; blue stands on one hole of three.
    assert_eq!(names, ["drawn", "white", "red"], "{text}");
    assert_eq!(read.tees_name(), Some("drawn"));
    let red: Vec<f64> = read
        .holes
        .iter()
        .map(|hole| hole.tees[2].length_yd)
        .collect();
    for (length_yd, from_m) in red.iter().zip([40.0, 60.0, 50.0]) {
        assert!(
            (length_yd - (380.0 - from_m) / 0.9144).abs() < 0.5,
            "{red:?}"
        );
    }
    // Played from red, red stands first and the holes begin there.
    let options = Options {
        tees: Some("red"),
        make_greens: false,
    };
    let from_red = import(&sketch.map(), 0, options).expect("a course");
    let read = support::course(&from_red.to_toml(&Turf::default()));
    assert_eq!(read.tees_name(), Some("red"));
    assert!((read.holes[0].length_yd - 340.0 / 0.9144).abs() < 0.5);
    assert!((read.holes[0].tees[1].length_yd - 380.0 / 0.9144).abs() < 1.0);
}
