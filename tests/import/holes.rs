//! Direction, green, tees and par of holes.

use costcard::course::Course;
use costcard::course::import::{
    FoundHole, GreenFrom, ImportError, Imported, Options, ParFrom, Rule, Turf,
};
use costcard::files::Source;

use super::sketch::{Sketch, Spot, import};

const NORTH: [Spot; 2] = [(0.0, 0.0), (0.0, 300.0)];

fn hole(course: &Imported, number: u32) -> &FoundHole {
    let hole = course.holes.iter().find(|hole| hole.found.number == number);
    &hole.expect("the hole").found
}

/// A line and nothing else.
fn bare(number: u32, from: Spot, to: Spot) -> Sketch {
    Sketch::default().line(&[from, to], &format!("golf=hole|ref={number}|par=4"))
}

#[test]
fn a_line_is_turned_so_that_it_ends_at_its_green() {
    let sketch = bare(1, (0.0, 300.0), (0.0, 0.0))
        .disc((0.0, 300.0), 13.0, "golf=green")
        .disc((0.0, 0.0), 4.0, "golf=tee");
    let course = sketch.course();
    let found = hole(&course, 1);
    assert!(found.direction.is_reversed);
    assert_eq!(found.direction.rule, Rule::Green);
    assert!(
        course.holes[0]
            .laid
            .bearing_deg
            .min(360.0 - course.holes[0].laid.bearing_deg)
            < 0.2
    );
    assert!(
        found.warnings[0].contains("turned round: only its first point lies at a green"),
        "{:?}",
        found.warnings
    );
}

#[test]
fn where_both_ends_lie_at_greens_the_tee_tells() {
    let sketch = bare(1, (0.0, 300.0), (0.0, 0.0))
        .disc((0.0, 300.0), 13.0, "golf=green")
        .disc((-20.0, 0.0), 10.0, "golf=green")
        .disc((4.0, -4.0), 4.0, "golf=tee");
    let course = sketch.course();
    let found = hole(&course, 1);
    assert_eq!(
        (found.direction.is_reversed, found.direction.rule),
        (true, Rule::Tee)
    );
}

#[test]
fn a_pin_tells_where_no_green_does() {
    let sketch = bare(1, (0.0, 300.0), (0.0, 0.0))
        .node((0.0, 302.0), "golf=pin")
        .disc((0.0, 330.0), 13.0, "golf=green");
    let course = sketch.course();
    assert_eq!(hole(&course, 1).direction.rule, Rule::Pin);
    assert!(hole(&course, 1).direction.is_reversed);
}

#[test]
fn where_nothing_else_tells_the_next_hole_does() {
    let sketch =
        bare(1, (0.0, 300.0), (0.0, 0.0)).hole(2, &[(30.0, 320.0), (330.0, 320.0)], "par=4");
    let options = Options {
        make_greens: true,
        ..Options::default()
    };
    // The tee of hole 2 must not tell either: it is as far from both ends as no tee at all.
    let without_tee = sketch.xml(1, false).replace("v=\"tee\"", "v=\"path\"");
    let map = super::sketch::map_of(&without_tee);
    let course = import(&map, 0, options).expect("a course");
    let found = hole(&course, 1);
    assert_eq!(
        (found.direction.is_reversed, found.direction.rule),
        (true, Rule::NextHole)
    );
    let second = hole(&course, 2);
    assert_eq!(
        (second.direction.is_reversed, second.direction.rule),
        (false, Rule::Green)
    );
}

#[test]
fn a_practice_green_is_never_played_to() {
    for practice in ["golf=green|name=Practice Green", "golf=green"] {
        let mut sketch = bare(1, NORTH[0], NORTH[1])
            .disc((0.0, 300.0), 8.0, practice)
            .disc((30.0, 300.0), 13.0, "golf=green|ref=1");
        if !practice.contains("name") {
            sketch = sketch.area(
                &[(-10.0, 288.0), (10.0, 288.0), (10.0, 312.0), (-10.0, 312.0)],
                "golf=driving_range",
            );
        }
        let course = sketch.course();
        let found = hole(&course, 1);
        assert_eq!(found.green_from, GreenFrom::Nearest, "{practice}");
        // The green of 13 m, not that of 8 m: 24 corners lie within the circle.
        assert!(
            (found.green_sq_yd.expect("a green") - 627.7).abs() < 3.0,
            "{:?}",
            found.green_sq_yd
        );
        assert!(
            found
                .warnings
                .iter()
                .any(|told| told.contains("short of its green")),
            "{:?}",
            found.warnings
        );
    }
}

#[test]
fn a_hole_without_a_green_is_refused_or_gets_one_when_asked() {
    let map = bare(1, NORTH[0], NORTH[1])
        .disc((0.0, 360.0), 13.0, "golf=green")
        .map();
    let Err(ImportError::Nothing(refused)) = import(&map, 0, Options::default()) else {
        panic!("a course")
    };
    assert!(
        refused[0].why.starts_with("no green lies within 40 m"),
        "{refused:?}"
    );
    let options = Options {
        make_greens: true,
        ..Options::default()
    };
    let course = import(&map, 0, options).expect("a course");
    assert_eq!(hole(&course, 1).green_from, GreenFrom::Made);
}

#[test]
fn tees_belong_to_the_hole_that_starts_nearest_and_keep_their_colours() {
    let sketch = Sketch::default()
        .hole(1, &NORTH, "par=4")
        .hole(2, &[(80.0, 300.0), (80.0, 20.0)], "par=4")
        .disc((3.0, 40.0), 4.0, "golf=tee|tee=red;yellow")
        .node((82.0, 270.0), "golf=tee|name=Red 2");
    let course = sketch.course();
    let colours = |number| {
        hole(&course, number)
            .tees
            .iter()
            .map(|tee| tee.colours.join(";"))
            .collect::<Vec<_>>()
    };
    assert_eq!(colours(1), ["white", "red;yellow"]);
    assert_eq!(colours(2), ["white", "red"]);
    let map = sketch.map();
    let from = |colour| {
        import(
            &map,
            0,
            Options {
                tees: Some(colour),
                make_greens: false,
            },
        )
    };
    let red = from("Red").expect("a course");
    let lengths: Vec<f64> = red.holes.iter().map(|hole| hole.found.length_yd).collect();
    assert!(
        (lengths[0] - 260.0 / 0.9144).abs() < 1.5 && (lengths[1] - 250.0 / 0.9144).abs() < 1.5,
        "{lengths:?}"
    );
    assert_eq!(red.holes[0].found.tee_colour.as_deref(), Some("red"));
    let yellow = from("yellow").expect("a course");
    assert!(
        hole(&yellow, 2)
            .warnings
            .iter()
            .any(|told| told.contains("no yellow tee"))
    );
    let Err(ImportError::NoSuchTees(asked, known)) = from("green") else {
        panic!("green tees")
    };
    assert_eq!(asked, "green");
    assert_eq!(
        known,
        [
            ("red".to_owned(), 2),
            ("white".to_owned(), 2),
            ("yellow".to_owned(), 1)
        ]
    );
}

#[test]
fn a_par_the_map_states_is_kept_where_the_length_speaks_against_it() {
    let long = |more: &str| {
        Sketch::default()
            .hole(1, &[(0.0, 0.0), (0.0, 455.0)], more)
            .course()
    };
    let tagged = long("par=4");
    assert_eq!(
        (hole(&tagged, 1).par, hole(&tagged, 1).par_from),
        (4, ParFrom::Tag)
    );
    assert!(
        hole(&tagged, 1).warnings[0].contains("long for a par 4"),
        "{:?}",
        hole(&tagged, 1).warnings
    );
    let named = long("name=Black (Par 4)");
    assert_eq!(
        (hole(&named, 1).par, hole(&named, 1).par_from),
        (4, ParFrom::Name)
    );
    let silent = long("");
    assert_eq!(
        (hole(&silent, 1).par, hole(&silent, 1).par_from),
        (5, ParFrom::Length)
    );
    assert!(hole(&silent, 1).warnings.is_empty());
}

#[test]
fn a_stroke_index_that_stands_twice_is_kept_once() {
    let course = Sketch::default()
        .hole(1, &NORTH, "par=4|handicap=3")
        .hole(2, &[(60.0, 300.0), (60.0, 0.0)], "par=4|handicap=3")
        .course();
    assert_eq!(
        (hole(&course, 1).stroke_index, hole(&course, 2).stroke_index),
        (Some(3), None)
    );
}

/// A club of twenty-seven holes counts its third nine on; a card of these holes has no such index.
#[test]
fn a_stroke_index_that_no_card_has_is_left_out_and_told() {
    let course = Sketch::default()
        .hole(1, &[(0.0, 0.0), (0.0, 300.0)], "par=4|handicap=27")
        .hole(2, &[(90.0, 300.0), (90.0, 0.0)], "par=4|handicap=18")
        .course();
    assert_eq!(
        (hole(&course, 1).stroke_index, hole(&course, 2).stroke_index),
        (None, Some(18))
    );
    let told = &hole(&course, 1).warnings;
    assert!(
        told.iter().any(|told| told.contains("index 27")),
        "{told:?}"
    );
    let text = course.to_toml(&Turf::default());
    Course::read(&Source::new("made.toml", &text)).expect("what is written is read");
}

#[test]
fn a_stated_distance_is_only_held_against_the_line() {
    let with = |dist: &str| {
        hole(
            &Sketch::default()
                .hole(1, &NORTH, &format!("par=4|dist={dist}"))
                .course(),
            1,
        )
        .warnings
        .clone()
    };
    assert!(with("300").is_empty(), "metres");
    assert!(with("328").is_empty(), "yards");
    assert!(
        with("450")[0].contains("states a distance of 450"),
        "{:?}",
        with("450")
    );
}
