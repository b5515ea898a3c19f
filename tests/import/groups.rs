//! Which holes make one course, and what is no hole.

use costcard::course::import::{ImportError, Options, Survey};

use super::sketch::{Sketch, Spot, import};

/// Holes 1 to `count` beside each other, each played north from `y`, the next 60 m to the east.
fn row(mut sketch: Sketch, count: u32, (x, y): Spot, more: &str) -> Sketch {
    for number in 1..=count {
        let at = x + 70.0 * f64::from(number);
        sketch = sketch.hole(
            i64::from(number),
            &[(at, y), (at, y + 300.0)],
            &format!("par=4|{more}"),
        );
    }
    sketch
}

fn grounds((x, y): Spot, (width, height): Spot, tags: &str) -> (Vec<Spot>, String) {
    (
        vec![
            (x, y),
            (x + width, y),
            (x + width, y + height),
            (x, y + height),
        ],
        format!("leisure=golf_course|{tags}"),
    )
}

fn courses(sketch: &Sketch) -> Vec<(String, usize)> {
    Survey::of(&sketch.map()).courses()
}

#[test]
fn holes_without_grounds_make_a_course_where_they_lie_together() {
    let two = row(
        row(Sketch::default(), 4, (0.0, 0.0), ""),
        3,
        (3000.0, 0.0),
        "",
    );
    assert_eq!(
        courses(&two),
        [("Course 1".to_owned(), 4), ("Course 2".to_owned(), 3)]
    );
}

#[test]
fn grounds_part_courses_of_the_same_numbers() {
    let (west, west_tags) = grounds((0.0, -50.0), (330.0, 420.0), "name=West");
    let (east, east_tags) = grounds((330.0, -50.0), (330.0, 420.0), "name=East");
    let two = row(
        row(Sketch::default(), 4, (0.0, 0.0), ""),
        3,
        (330.0, 0.0),
        "",
    )
    .area(&west, &west_tags)
    .area(&east, &east_tags);
    assert_eq!(
        courses(&two),
        [("West".to_owned(), 4), ("East".to_owned(), 3)]
    );
}

#[test]
fn a_course_named_by_its_holes_beats_the_grounds() {
    let (all, tags) = grounds((0.0, -50.0), (900.0, 500.0), "name=All");
    let two = row(
        row(Sketch::default(), 4, (0.0, 0.0), "golf:course:name=Old"),
        3,
        (330.0, 0.0),
        "golf:course:name=New",
    )
    .area(&all, &tags);
    assert_eq!(
        courses(&two),
        [("Old".to_owned(), 4), ("New".to_owned(), 3)]
    );
}

#[test]
fn a_number_that_stands_twice_in_one_place_makes_two_courses() {
    let (all, tags) = grounds((0.0, -50.0), (900.0, 1000.0), "name=All");
    let two = row(
        row(Sketch::default(), 4, (0.0, 0.0), ""),
        4,
        (0.0, 420.0),
        "",
    )
    .area(&all, &tags);
    let survey = two.map();
    let survey = Survey::of(&survey);
    assert_eq!(
        survey.courses(),
        [
            ("All, course 1".to_owned(), 4),
            ("All, course 2".to_owned(), 4)
        ]
    );
    for at in 0..2 {
        let course = survey.import(at, Options::default()).expect("a course");
        let bearings: Vec<f64> = course
            .holes
            .iter()
            .map(|hole| hole.laid.bearing_deg)
            .collect();
        assert_eq!(course.holes.len(), 4);
        assert!(
            bearings
                .iter()
                .all(|bearing| *bearing < 1.0 || *bearing > 359.0),
            "{bearings:?}"
        );
    }
}

#[test]
fn a_course_is_chosen_by_name_part_of_it_or_number() {
    let two = row(
        row(
            Sketch::default(),
            4,
            (0.0, 0.0),
            "golf:course:name=Old Links",
        ),
        3,
        (3000.0, 0.0),
        "golf:course:name=New Park",
    );
    let map = two.map();
    let survey = Survey::of(&map);
    for (asked, at) in [("Old Links", 0), ("new park", 1), ("2", 1), ("park", 1)] {
        assert_eq!(survey.course(asked), Ok(at), "{asked}");
    }
    assert_eq!(
        survey.course("New Pork"),
        Err(ImportError::NoSuchCourse(
            "New Pork".to_owned(),
            Some("New Park".to_owned())
        ))
    );
    assert_eq!(
        survey.course("3"),
        Err(ImportError::NoSuchCourse("3".to_owned(), None))
    );
}

#[test]
fn what_is_no_hole_is_refused_with_its_reason() {
    let sketch = row(Sketch::default(), 2, (0.0, 0.0), "")
        .line(&[(400.0, 0.0), (400.0, 200.0)], "golf=hole|ref=0")
        .line(&[(450.0, 0.0), (450.0, 200.0)], "golf=hole|ref=37")
        .line(
            &[(500.0, 0.0), (500.0, 200.0)],
            "golf=hole|ref=5|name=Driving Range",
        )
        .line(&[(550.0, 0.0), (550.0, 25.0)], "golf=hole|ref=6")
        .line(&[(600.0, 0.0), (600.0, 700.0)], "golf=hole|ref=7")
        .line(
            &[(650.0, 0.0), (650.0, 150.0), (655.0, 10.0)],
            "golf=hole|ref=8",
        )
        .line(&[(700.0, 0.0), (700.0, 200.0)], "golf=hole");
    let map = sketch.map();
    let survey = Survey::of(&map);
    assert_eq!(survey.courses(), [("Course 1".to_owned(), 2)]);
    let whys: Vec<&str> = survey
        .refused()
        .iter()
        .map(|refused| refused.why.as_str())
        .collect();
    assert_eq!(
        whys,
        [
            "holes are numbered from 1 to 36, not 0",
            "holes are numbered from 1 to 36, not 37",
            "\"Driving Range\" is a place to practise",
            "its line is 25 m long; a hole is from 60 to 650 m",
            "its line is 700 m long; a hole is from 60 to 650 m",
            "its line ends 11 m from where it starts",
            "it has no number (`ref`)",
        ]
    );
    assert!(
        survey.refused()[0].what.starts_with("hole 0 (way "),
        "{:?}",
        survey.refused()
    );
}

#[test]
fn a_hole_whose_points_were_cut_off_is_refused() {
    let sketch = row(Sketch::default(), 2, (0.0, 0.0), "");
    // The last point of the first line; in JSON a point beyond the box that was asked for is null.
    let xml = sketch
        .xml(1, false)
        .replacen("<node id=\"2\"", "<node id=\"999999\"", 1);
    let mut json: serde_json::Value = serde_json::from_str(&sketch.overpass()).expect("JSON");
    json["elements"][0]["geometry"][1] = serde_json::Value::Null;
    for cut in [xml, json.to_string()] {
        let map = super::sketch::map_of(&cut);
        let survey = Survey::of(&map);
        assert_eq!(survey.courses()[0].1, 1);
        assert!(
            survey.refused()[0]
                .why
                .contains("1 of its 2 points are not in the file"),
            "{:?}",
            survey.refused()
        );
    }
}

#[test]
fn a_hole_drawn_twice_is_one() {
    let sketch = row(Sketch::default(), 2, (0.0, 0.0), "")
        .line(&[(72.0, 40.0), (72.0, 299.0)], "golf=hole|ref=1");
    let map = sketch.map();
    let survey = Survey::of(&map);
    assert_eq!(survey.courses(), [("Course 1".to_owned(), 2)]);
    assert!(
        survey.refused()[0]
            .why
            .contains("the longer line of the same hole"),
        "{:?}",
        survey.refused()
    );
}

#[test]
fn without_lines_tees_and_greens_are_paired_where_each_number_stands_once() {
    let (all, tags) = grounds((-100.0, -50.0), (600.0, 500.0), "name=All");
    let sketch = Sketch::default()
        .area(&all, &tags)
        .disc((0.0, 0.0), 5.0, "golf=tee|ref=1")
        .disc((0.0, 40.0), 5.0, "golf=tee|ref=1")
        .disc((60.0, 300.0), 13.0, "golf=green|ref=1")
        .disc((-20.0, 180.0), 30.0, "golf=fairway|ref=1")
        .disc((120.0, 300.0), 5.0, "golf=tee|name=T2")
        .disc((260.0, 300.0), 13.0, "golf=green|name=#2")
        .disc((300.0, 0.0), 13.0, "golf=green|name=Putting green 3");
    let course = sketch.course();
    assert_eq!(course.holes.len(), 2);
    let first = &course.holes[0];
    assert_eq!(first.laid.line.len(), 3, "bent by its fairway");
    assert!(
        (first.found.length_yd - 354.0).abs() < 10.0,
        "{}",
        first.found.length_yd
    );
    assert_eq!(course.holes[1].found.par, 3);
    assert!(first.found.warnings[0].contains("made from its tee, fairway and green"));
}

#[test]
fn without_lines_numbers_that_stand_twice_are_refused_with_counts() {
    let (all, tags) = grounds((-100.0, -50.0), (600.0, 500.0), "name=All");
    let sketch = Sketch::default()
        .area(&all, &tags)
        .disc((0.0, 0.0), 5.0, "golf=tee|ref=1")
        .disc((0.0, 300.0), 13.0, "golf=green|ref=1")
        .disc((200.0, 300.0), 13.0, "golf=green|ref=1")
        .disc((200.0, 250.0), 5.0, "golf=bunker");
    let map = sketch.map();
    let Err(ImportError::Nothing(refused)) = import(&map, 0, Options::default()) else {
        panic!("a course")
    };
    assert_eq!(
        refused[0].why,
        "no hole has a line of play, and 1 of 1 numbers stand on more than one green, so that tees and greens cannot be paired; \
         found 2 greens, 1 tee, 1 bunker"
    );
}
