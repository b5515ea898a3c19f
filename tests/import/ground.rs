//! The ground around a hole.

use costcard::course::import::{Imported, Turf};
use costcard::course::{Course, Lie};

use super::sketch::{Sketch, Spot, circle};
use crate::support;

const NORTH: [Spot; 2] = [(0.0, 0.0), (0.0, 300.0)];

/// The course as it is read back from its file.
fn read(course: &Imported) -> Course {
    support::course(&course.to_toml(&Turf::default()))
}

/// The lie of hole 1 at a point in metres east and north of its tee, which is played north.
fn lie(course: &Course, (x, y): Spot) -> Lie {
    course.holes[0].grid.lie(x / 0.9144, y / 0.9144)
}

/// Square metres of a lie on hole 1.
fn sq_m(course: &Course, lie: Lie) -> f64 {
    let cells = course.holes[0]
        .grid
        .lies
        .iter()
        .filter(|cell| **cell == lie)
        .count();
    cells as f64 * 0.9144 * 0.9144
}

fn base() -> Sketch {
    Sketch::default().hole(1, &NORTH, "par=4")
}

#[test]
fn areas_lie_where_the_map_has_them() {
    let course = read(
        &base()
            .disc((-30.0, 200.0), 10.0, "golf=bunker")
            .disc(
                (35.0, 150.0),
                12.0,
                "golf=lateral_water_hazard|natural=water",
            )
            .area(
                &[(40.0, 200.0), (60.0, 200.0), (60.0, 320.0), (40.0, 320.0)],
                "natural=heath",
            )
            .course(),
    );
    for (at, expected) in [
        ((0.0, 300.0), Lie::Green),
        ((0.0, 200.0), Lie::Fairway),
        ((-30.0, 200.0), Lie::Sand),
        ((35.0, 150.0), Lie::Water),
        ((50.0, 250.0), Lie::Trees),
        ((-30.0, 100.0), Lie::Rough),
        ((0.0, 0.0), Lie::Tee),
    ] {
        assert_eq!(lie(&course, at), expected, "{at:?}");
    }
}

#[test]
fn what_covers_what() {
    // A fairway drawn under the whole hole, a wood under half of it, a bunker reaching into the green.
    let course = read(
        &base()
            .area(
                &[(-20.0, -10.0), (20.0, -10.0), (20.0, 330.0), (-20.0, 330.0)],
                "golf=fairway",
            )
            .area(
                &[(0.0, 50.0), (60.0, 50.0), (60.0, 330.0), (0.0, 330.0)],
                "natural=wood",
            )
            .area(
                &[(30.0, 100.0), (50.0, 100.0), (50.0, 200.0), (30.0, 200.0)],
                "golf=rough",
            )
            .disc((13.0, 300.0), 4.0, "golf=bunker")
            .course(),
    );
    assert_eq!(lie(&course, (0.0, 300.0)), Lie::Green);
    assert_eq!(lie(&course, (10.0, 300.0)), Lie::Sand, "bunker over green");
    assert_eq!(lie(&course, (0.0, 0.0)), Lie::Tee, "tee over fairway");
    assert_eq!(
        lie(&course, (10.0, 150.0)),
        Lie::Fairway,
        "fairway over wood"
    );
    assert_eq!(lie(&course, (40.0, 150.0)), Lie::Rough, "rough over wood");
    assert_eq!(lie(&course, (40.0, 250.0)), Lie::Trees);
}

#[test]
fn sand_that_doubles_a_bunker_counts_once_and_other_sand_is_a_bunker() {
    let course = base()
        .disc((-30.0, 200.0), 8.0, "golf=bunker")
        .disc((-30.0, 200.5), 8.0, "natural=sand")
        .disc((30.0, 200.0), 6.0, "natural=sand")
        .course();
    let sand = course.holes[0]
        .laid
        .areas
        .iter()
        .filter(|area| area.lie == Lie::Sand)
        .count();
    assert_eq!(sand, 2);
    assert!(
        course.notes.iter().any(
            |note| note == "areas drawn twice on the map (as sand over a bunker) count once: 1"
        ),
        "{:?}",
        course.notes
    );
}

#[test]
fn of_several_golf_values_the_first_known_one_counts() {
    let course = read(
        &base()
            .disc((30.0, 100.0), 8.0, "golf=practice_bunker;bunker")
            .course(),
    );
    assert_eq!(lie(&course, (30.0, 100.0)), Lie::Sand);
}

#[test]
fn an_area_drawn_as_an_open_line_is_closed_and_told() {
    let course = base()
        .line(
            &[(20.0, 100.0), (40.0, 100.0), (40.0, 130.0), (20.0, 130.0)],
            "golf=bunker",
        )
        .course();
    assert!(
        course.notes[0].starts_with("the outline of bunker (way ")
            && course.notes[0].contains("not closed"),
        "{:?}",
        course.notes
    );
    assert!((sq_m(&read(&course), Lie::Sand) - 600.0).abs() < 0.02 * 600.0);
}

#[test]
fn islands_are_no_part_of_a_bunker() {
    let course = read(
        &base()
            .multi(
                &[circle((40.0, 200.0), 25.0)],
                &[circle((40.0, 200.0), 10.0)],
                "golf=bunker",
            )
            .course(),
    );
    assert_eq!(lie(&course, (40.0, 200.0)), Lie::Rough);
    assert_eq!(lie(&course, (40.0, 218.0)), Lie::Sand);
    let ring = std::f64::consts::PI * (625.0 - 100.0) * 0.9886; // 24 corners hold 98.86 % of a circle
    assert!((sq_m(&course, Lie::Sand) - ring).abs() < 0.02 * ring);
}

#[test]
fn an_island_may_be_a_feature_of_its_own() {
    let course = read(
        &base()
            .multi(
                &[circle((40.0, 200.0), 25.0)],
                &[circle((40.0, 200.0), 10.0)],
                "golf=water_hazard",
            )
            .disc((40.0, 200.0), 10.0, "golf=bunker")
            .course(),
    );
    assert_eq!(lie(&course, (40.0, 200.0)), Lie::Sand);
    assert_eq!(lie(&course, (40.0, 218.0)), Lie::Water);
}

#[test]
fn a_stream_is_as_wide_as_the_map_says_or_told_to_be_assumed() {
    let stream = |width: &str| {
        base()
            .line(
                &[(-100.0, 150.0), (100.0, 150.0)],
                &format!("waterway=stream|{width}"),
            )
            .course()
    };
    let wide = stream("width=6 m");
    assert!(wide.notes.is_empty(), "{:?}", wide.notes);
    // 80 yd to both sides of the line are taken.
    let expected = 160.0 * 0.9144 * 6.0;
    assert!(
        (sq_m(&read(&wide), Lie::Water) - expected).abs() < 0.1 * expected,
        "{}",
        sq_m(&read(&wide), Lie::Water)
    );
    let narrow = stream("");
    assert!(
        narrow.notes[0].contains("taken as 2 m wide"),
        "{:?}",
        narrow.notes
    );
    assert_eq!(lie(&read(&narrow), (0.0, 150.0)), Lie::Water);
    let piped = stream("tunnel=culvert");
    assert_eq!(sq_m(&read(&piped), Lie::Water), 0.0);
}

#[test]
fn single_trees_and_rows_of_trees_stand() {
    let course = read(
        &base()
            .node((30.0, 100.0), "natural=tree|diameter_crown=10")
            .line(&[(-30.0, 100.0), (-30.0, 200.0)], "natural=tree_row")
            .course(),
    );
    assert_eq!(lie(&course, (33.5, 100.0)), Lie::Trees);
    assert_eq!(lie(&course, (37.0, 100.0)), Lie::Rough);
    assert_eq!(lie(&course, (-31.5, 150.0)), Lie::Trees);
}

#[test]
fn a_hazard_drawn_round_tee_and_green_leaves_them_free() {
    let island = base()
        .area(
            &[(-60.0, -30.0), (60.0, -30.0), (60.0, 330.0), (-60.0, 330.0)],
            "golf=bunker",
        )
        .course();
    let found = &island.holes[0].found;
    for what in [
        "over the tee",
        "over the green",
        "a waste area, more likely",
    ] {
        assert!(
            found.warnings.iter().any(|told| told.contains(what)),
            "{what}: {:?}",
            found.warnings
        );
    }
    let course = read(&island);
    assert_eq!(lie(&course, (0.0, 0.0)), Lie::Tee);
    assert_eq!(lie(&course, (0.0, 300.0)), Lie::Green);
    assert_eq!(lie(&course, (0.0, 150.0)), Lie::Sand);
}

#[test]
fn beyond_a_boundary_is_out_of_bounds() {
    let line = read(
        &base()
            .line(
                &[(50.0, -20.0), (52.0, 150.0), (50.0, 330.0)],
                "golf=out_of_bounds",
            )
            .course(),
    );
    assert_eq!(lie(&line, (60.0, 150.0)), Lie::OutOfBounds);
    assert_eq!(lie(&line, (45.0, 150.0)), Lie::Rough);
    let round = [(-50.0, -20.0), (50.0, -20.0), (50.0, 330.0), (-50.0, 330.0)];
    let closed = read(&base().area(&round, "golf=out_of_bounds").course());
    assert_eq!(lie(&closed, (60.0, 150.0)), Lie::OutOfBounds);
    assert_eq!(lie(&closed, (-60.0, 150.0)), Lie::OutOfBounds);
    assert_eq!(lie(&closed, (0.0, 200.0)), Lie::Fairway);
}

#[test]
fn a_boundary_that_reaches_past_both_ends_of_a_hole_shuts_off_both_sides() {
    // Nearer on the left: the ground beyond is wider there than on the right.
    let round = [
        (-30.0, -400.0),
        (50.0, -400.0),
        (50.0, 800.0),
        (-30.0, 800.0),
    ];
    let course = read(&base().area(&round, "golf=out_of_bounds").course());
    assert_eq!(lie(&course, (-40.0, 150.0)), Lie::OutOfBounds);
    assert_eq!(lie(&course, (60.0, 150.0)), Lie::OutOfBounds);
    assert_eq!(lie(&course, (0.0, 200.0)), Lie::Fairway);
    assert_eq!(lie(&course, (40.0, 150.0)), Lie::Rough);
}

#[test]
fn a_shared_fairway_and_the_next_green_belong_to_both_holes() {
    let shared = [(-20.0, 80.0), (90.0, 80.0), (90.0, 280.0), (-20.0, 280.0)];
    let course = read(
        &base()
            .hole(2, &[(70.0, 300.0), (70.0, 0.0)], "par=4")
            .area(&shared, "golf=fairway")
            .course(),
    );
    assert_eq!(lie(&course, (45.0, 200.0)), Lie::Fairway);
    assert_eq!(
        lie(&course, (70.0, 0.0)),
        Lie::Fairway,
        "the green of hole 2 is mown, but no green here"
    );
}

#[test]
fn a_hole_without_a_drawn_fairway_gets_one_and_says_so() {
    let course = Sketch::default()
        .line(&NORTH, "golf=hole|ref=1|par=4")
        .disc(NORTH[1], 13.0, "golf=green")
        .course();
    assert!(
        course.holes[0]
            .found
            .warnings
            .iter()
            .any(|told| told.contains("no fairway is drawn"))
    );
    assert_eq!(lie(&read(&course), (0.0, 200.0)), Lie::Fairway);
}

#[test]
fn a_green_whose_outline_crosses_itself_is_taken_apart() {
    // Two corners in the wrong order.
    let mut corners = circle((0.0, 300.0), 13.0);
    corners.swap(3, 4);
    let course = Sketch::default()
        .line(&NORTH, "golf=hole|ref=1|par=4")
        .area(&corners, "golf=green")
        .course();
    assert_eq!(lie(&read(&course), (0.0, 300.0)), Lie::Green);
}

#[test]
fn names_with_quotes_do_not_break_the_file() {
    let grounds = [
        (-100.0, -50.0),
        (100.0, -50.0),
        (100.0, 400.0),
        (-100.0, 400.0),
    ];
    let sketch = base().area(
        &grounds,
        "leisure=golf_course|name=The &quot;Old&quot; one\\",
    );
    assert_eq!(read(&sketch.course()).name, "The \"Old\" one\\");
}
