//! Holes: the ground as the grid has it, the bar as long as it says.

use costcard::course::{Course, Hole, Lie};
use costcard::show::draw::{Picture, Style, course, hole};
use costcard::show::reading::Reading;

use super::svg::{Element, area, elements, length};
use crate::support::demo_courses;

const LIES: [(Lie, &str); 8] = [
    (Lie::OutOfBounds, "out of bounds"),
    (Lie::Trees, "trees"),
    (Lie::Rough, "rough"),
    (Lie::Fairway, "fairway"),
    (Lie::Tee, "tee"),
    (Lie::Green, "green"),
    (Lie::Sand, "sand"),
    (Lie::Water, "water"),
];

fn drawn(course: &Course, of: &Hole, reading: Reading) -> Picture {
    hole(&course.name, of, None, Style { reading, id: "h" })
}

fn marked<'a>(all: &'a [Element], mark: &str) -> &'a Element {
    let found = all
        .iter()
        .find(|element| element.get("data-mark") == Some(mark));
    found.unwrap_or_else(|| panic!("no {mark}"))
}

fn px_per_yd(all: &[Element], of: &Hole) -> f64 {
    let line = marked(all, "line of play");
    length(line.get("d").unwrap_or_default()) / of.length_yd
}

/// The part of the grid that is seen: the clip of the ground, in cells.
fn cells_seen(all: &[Element], of: &Hole, lie: Lie) -> usize {
    let scale = px_per_yd(all, of);
    let clip = all
        .iter()
        .position(|element| element.name == "clipPath")
        .expect("a clip");
    let rect = &all[clip + 1];
    // The tee's mark is centred on the tee, which is at (0, 0).
    let line = marked(all, "line of play").get("d").unwrap_or_default();
    let (tee_x, tee_y) = super::svg::rings(line)[0][0];
    let left_yd = ((rect.number("x") - tee_x) / scale).round();
    let low_yd = ((tee_y - rect.number("y") - rect.number("height")) / scale).round();
    let across = (rect.number("width") / scale).round() as usize;
    let along = (rect.number("height") / scale).round() as usize;
    // Outlines go two yards beyond the edge, as the ground at the edge goes on.
    let inside = |place: usize, count: usize| place.saturating_sub(2).min(count - 1) as f64 + 0.5;
    let (wide, high) = (across + 4, along + 4);
    let middle = |cell: usize| {
        (
            left_yd + inside(cell % wide, across),
            low_yd + inside(cell / wide, along),
        )
    };
    (0..wide * high)
        .map(middle)
        .filter(|(x_yd, y_yd)| of.grid.lie(*x_yd, *y_yd) == lie)
        .count()
}

#[test]
fn each_area_is_as_large_as_on_the_grid() {
    for course in demo_courses() {
        for of in &course.holes {
            let all = elements(&drawn(&course, of, Reading::Yards).svg);
            let scale = px_per_yd(&all, of);
            for (lie, name) in LIES {
                let area_of = |element: &Element| area(element.get("d").unwrap_or_default());
                let drawn = all
                    .iter()
                    .filter(|element| element.get("data-lie") == Some(name));
                let yd2 = drawn.map(area_of).sum::<f64>() / scale / scale;
                let cells = cells_seen(&all, of, lie) as f64;
                let told = format!("{} {} {name}: {yd2:.1} for {cells}", course.name, of.number);
                assert!(
                    (yd2 / cells - 1.0).abs() <= 0.02 || (yd2 - cells).abs() <= 2.0,
                    "{told}"
                );
            }
        }
    }
}

#[test]
fn the_bar_is_as_long_as_it_says() {
    for course in demo_courses() {
        for of in &course.holes {
            for reading in [Reading::Yards, Reading::Metres] {
                let all = elements(&drawn(&course, of, reading).svg);
                let bar = marked(&all, "scale bar").number("width") / px_per_yd(&all, of);
                let unit = if reading == Reading::Yards {
                    " yd"
                } else {
                    " m"
                };
                let words = all.iter().rev().filter(|element| element.name == "text");
                let said = words
                    .map(|element| &element.words)
                    .find(|words| words.ends_with(unit))
                    .expect("a length");
                let said: f64 = said.trim_end_matches(unit).parse().expect("a number");
                let said_yd = if reading == Reading::Yards {
                    said
                } else {
                    said / 0.9144
                };
                assert!(
                    (bar / said_yd - 1.0).abs() < 0.002,
                    "{bar} yd for {said}{unit}"
                );
            }
        }
    }
}

#[test]
fn a_sheet_has_every_hole_with_its_par_and_length() {
    for of in demo_courses() {
        let picture = course(
            &of,
            &[],
            Style {
                reading: Reading::Metres,
                id: "c",
            },
        );
        let all = elements(&picture.svg);
        let greens = all
            .iter()
            .filter(|element| element.get("data-lie") == Some("green"))
            .count();
        assert_eq!(greens, of.holes.len());
        for hole in &of.holes {
            let about = format!("par {}, {:.0} m", hole.par, hole.length_yd * 0.9144);
            assert!(all.iter().any(|element| element.words == about), "{about}");
        }
    }
}
