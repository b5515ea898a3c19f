//! The demo courses, and the neutral ground of the tests: read without fault, and sane.

use std::path::Path;

use costcard::{
    course::{Course, Hole, Lie},
    files::Source,
};

use super::cells;

fn read(path: &str) -> Course {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(path);
    match Source::read(&path).and_then(|source| Course::read(&source)) {
        Ok(course) => course,
        Err(faults) => panic!("{faults}"),
    }
}

fn demos() -> [Course; 2] {
    ["parkland", "heathland"].map(|name| read(&format!("profiles/courses/{name}.toml")))
}

#[test]
fn totals_are_those_of_a_full_course() {
    let [parkland, heathland] = demos();
    let neutral = read("tests/data/neutral.toml");
    for (course, length_yd) in [
        (&parkland, 6548.0),
        (&heathland, 6950.0),
        (&neutral, 6550.0),
    ] {
        assert_eq!(course.holes.len(), 18);
        assert_eq!(course.par(), 72);
        assert_eq!(course.length_yd(), length_yd, "{}", course.name);
    }
    assert!(parkland.description.is_some() && heathland.description.is_some());
}

#[test]
fn stroke_indices_are_one_to_eighteen_once_each() {
    for course in demos() {
        let mut indices: Vec<_> = course
            .holes
            .iter()
            .filter_map(|hole| hole.stroke_index)
            .collect();
        indices.sort_unstable();
        assert_eq!(indices, (1..=18).collect::<Vec<u8>>());
    }
}

/// Par by length, men. Source: World Handicap System, Rules of Handicapping, Appendix F.
fn par_fits(hole: &Hole) -> bool {
    let (least, most) = match hole.par {
        3 => (0.0, 260.0),
        4 => (240.0, 490.0),
        _ => (450.0, 710.0),
    };
    (least..=most).contains(&hole.length_yd)
}

/// The widest run of fairway of each row of the grid between 150 and 250 yd.
fn fairway_widths(hole: &Hole) -> Vec<usize> {
    let rows = hole.grid.lies.chunks(hole.grid.columns).enumerate();
    rows.filter(|(row, _)| (150.0..250.0).contains(&(hole.grid.near_yd + *row as f64)))
        .map(|(_, row)| row.iter().filter(|lie| **lie == Lie::Fairway).count())
        .filter(|width| *width > 0)
        .collect()
}

#[test]
fn holes_measure_what_courses_measure() {
    for hole in demos().iter().flat_map(|course| &course.holes) {
        assert!(par_fits(hole), "hole {}", hole.number);
        // Source: GCSAA: greens of 3500–9000 sq ft.
        let green_sq_ft = 9.0 * cells(&hole.grid, Lie::Green) as f64;
        assert!(
            (3500.0..9000.0).contains(&green_sq_ft),
            "hole {}: {green_sq_ft}",
            hole.number
        );
        if hole.par > 3 {
            // Source: J. Brauer; USGA: fairways of 25–65 yd. A slanted row is longer than the fairway is wide.
            for width in fairway_widths(hole) {
                assert!(
                    (20..=65).contains(&width),
                    "hole {}: {width} yd of fairway",
                    hole.number
                );
            }
        }
    }
}

#[test]
fn no_hole_is_silly() {
    for hole in demos().iter().flat_map(|course| &course.holes) {
        let grid = &hole.grid;
        assert_eq!(grid.lie(hole.tee.x_yd, hole.tee.y_yd), Lie::Tee);
        assert_eq!(grid.lie(hole.pin.x_yd, hole.pin.y_yd), Lie::Green);
        assert!(
            grid.clearance_yd(hole.pin.x_yd, hole.pin.y_yd) >= 2.0,
            "hole {}: pin at the edge",
            hole.number
        );
        let end = hole.line[hole.line.len() - 1];
        assert!(grid.to_green_yd(end.x_yd, end.y_yd) == 0.0);
        // A drive down the middle finds fairway, and so does the ball laid up short of the green.
        if hole.par > 3 {
            let (from, to) = (hole.line[0], hole.line[1]);
            let share = 220.0 / (to.x_yd - from.x_yd).hypot(to.y_yd - from.y_yd);
            if share < 1.0 {
                assert_eq!(
                    grid.lie(share * to.x_yd, share * to.y_yd),
                    Lie::Fairway,
                    "hole {}",
                    hole.number
                );
            }
        }
    }
}

#[test]
fn the_two_demos_differ_as_they_say() {
    let [parkland, heathland] = demos();
    let with = |course: &Course, lie| {
        course
            .holes
            .iter()
            .filter(|hole| cells(&hole.grid, lie) > 0)
            .count()
    };
    let carries = |course: &Course| {
        let wet = |hole: &&Hole| {
            hole.par == 3 && (40..180).any(|y| hole.grid.lie(0.0, f64::from(y)) == Lie::Water)
        };
        course.holes.iter().filter(wet).count()
    };
    assert_eq!(
        (with(&parkland, Lie::Water), with(&heathland, Lie::Water)),
        (4, 3)
    );
    assert_eq!(
        (
            with(&parkland, Lie::OutOfBounds),
            with(&heathland, Lie::OutOfBounds)
        ),
        (3, 5)
    );
    assert_eq!(carries(&heathland), 3);
    for (soft, firm) in parkland.holes.iter().zip(&heathland.holes) {
        assert!(soft.green.firmness < firm.green.firmness);
        assert!(soft.air.wind < firm.air.wind);
    }
}

#[test]
fn neutral_ground_is_neutral() {
    for hole in read("tests/data/neutral.toml").holes {
        let mirrored = hole.mirrored();
        assert_eq!(mirrored.grid, hole.grid);
        assert_eq!(
            cells(&hole.grid, Lie::Sand) + cells(&hole.grid, Lie::Water),
            0
        );
        assert_eq!(hole.air.wind.mph(), 0.0);
        // An ellipse of 32 by 26 yd.
        let area = cells(&hole.grid, Lie::Green) as f64;
        assert!(
            (area / (std::f64::consts::PI * 16.0 * 13.0) - 1.0).abs() < 0.02,
            "{area}"
        );
    }
}
