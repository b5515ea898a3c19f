//! Course files at fault.

use costcard::{course::Course, files::Source};
use insta::assert_snapshot;

use super::told;

fn read(text: &str) -> String {
    told(Course::read(&Source::new("course.toml", text)))
}

/// A course of one right hole with more keys, which begin on line 6.
fn with(keys: &str) -> String {
    read(&format!(
        "name = 'One'\n[[holes]]\npar = 4\nlength_yd = 400\ngreen = {{ depth_yd = 30, width_yd = 24 }}\n{keys}"
    ))
}

#[test]
fn an_empty_file_says_what_a_course_needs() {
    assert_snapshot!(read(""), @r#"
    course.toml:1:1: `name` is missing in this file
    hint: write for instance `name = "Alder Hollow"`
    course.toml:1:1: `holes` is missing in this file
    hint: write for instance `holes = [{ par = 4, length_yd = 402 }]`
    "#);
}

#[test]
fn a_course_has_holes() {
    assert_snapshot!(read("name = 'None'\nholes = []"), @r#"
    course.toml:2:9: a course has 1 to 36 holes, not 0
    hint: begin each hole with a line `[[holes]]`
    "#);
    let many = format!("name = 'Many'\n{}", "[[holes]]\n".repeat(37));
    assert_snapshot!(read(&many), @r#"
    course.toml:2:1: a course has 1 to 36 holes, not 37
    hint: begin each hole with a line `[[holes]]`
    "#);
}

#[test]
fn a_hole_without_a_green_is_named() {
    assert_snapshot!(read("name = 'One'\n[[holes]]\npar = 4\nlength_yd = 400\n"), @r#"
    course.toml:2:1: `green` is missing in hole 1
    hint: write for instance `green = { depth_yd = 30, width_yd = 24 }`
    "#);
    assert_snapshot!(read("name = 'One'\n[[holes]]\npar = 4\nlength_yd = 400\ngreen = { stimp_ft = 10 }"), @r#"
    course.toml:5:9: `depth_yd` is missing in the green of hole 1
    hint: write for instance `depth_yd = 30`
    course.toml:5:9: `width_yd` is missing in the green of hole 1
    hint: write for instance `width_yd = 24`
    "#);
}

/// Nor need it be named where the defaults give its size.
#[test]
fn a_hole_without_a_green_has_that_of_the_defaults() {
    let course = |green: &str| {
        let text = format!(
            "name = 'One'\n[defaults]\ngreen = {{ depth_yd = 28, width_yd = 24, stimp_ft = 9 }}\n\
             [[holes]]\npar = 4\nlength_yd = 400\n{green}"
        );
        Course::read(&Source::new("course.toml", text.as_str()))
    };
    let named = course("green = {}\n");
    assert!(named.is_ok(), "{named:?}");
    assert_eq!(course(""), named);
}

/// Courses of so many holes, rated so.
fn rated(holes: usize, rating: &str) -> String {
    let hole = "[[holes]]\npar = 4\nlength_yd = 400\ngreen = { depth_yd = 30, width_yd = 24 }\n";
    read(&format!(
        "name = 'Nine'\n[rating.men]\n{rating}\n{}",
        hole.repeat(holes)
    ))
}

#[test]
fn a_rating_is_that_of_the_holes_of_the_file() {
    assert_snapshot!(rated(9, "course_rating = 71.0\nslope_rating = 126"), @r#"
    course.toml:3:17: a course rating of 71 over 9 holes
    hint: state the rating of the holes in this file, from 22.5 to 45
    "#);
    assert_snapshot!(rated(18, "course_rating = 36.0\nslope_rating = 126"), @r#"
    course.toml:3:17: a course rating of 36 over 18 holes
    hint: state the rating of the holes in this file, from 45 to 90
    "#);
    assert_eq!(
        rated(9, "course_rating = 35.2\nslope_rating = 126"),
        "no fault"
    );
}

#[test]
fn a_bogey_rating_fits_the_slope_rating() {
    let bogey = |bogey: &str| {
        rated(
            9,
            &format!("course_rating = 36.0\nslope_rating = 126\nbogey_rating = {bogey}"),
        )
    };
    assert_snapshot!(bogey("58"), @r#"
    course.toml:5:16: a bogey rating of 58 makes a slope rating of 237 with this course rating, not 126
    hint: leave `bogey_rating` out: it follows from the other two
    "#);
    // 126 over 2 × 5.381 are 11.7 strokes.
    assert_eq!(bogey("47.7"), "no fault");
}

#[test]
fn all_faults_of_a_file_are_told_at_once() {
    assert_snapshot!(read("\
name = 'Faulty'
[conditions]
firmness = 'wet'
wind_mph = -3
[[holes]]
par = 2
lenght_yd = 400
green = { depth_yd = 0, width_yd = 24 }
[[holes]]
number = 7
par = 4
length_yd = 1200
fairway_width_yd = 0
[[holes]]
number = 7
par = 4
length_yd = 350
beyond = 'lava'
green = { depth_yd = 30, width_yd = 24 }
areas = [{ lie = 'bunker', at_yd = 200, side_yd = 20, length_yd = 'long', width_yd = 8 }]
"), @r#"
    course.toml:3:12: `firmness` cannot be 'wet'
    hint: write one of `soft`, `medium` and `firm`
    course.toml:4:12: `wind_mph` must be a number from 0 to 60 mph, not -3
    hint: write for instance `wind_mph = 8`
    course.toml:6:7: `par` must be a whole number from 3 to 6, not 2
    hint: write for instance `par = 4`
    course.toml:7:1: there is no key `lenght_yd` in `holes`
    hint: did you mean `length_yd`?
    course.toml:8:22: `depth_yd` must be a number from 5 to 80 yards, not 0
    hint: write for instance `depth_yd = 30`
    course.toml:9:1: `green` is missing in hole 7
    hint: write for instance `green = { depth_yd = 30, width_yd = 24 }`
    course.toml:12:13: `length_yd` must be a number from 40 to 800 yards, not 1200
    hint: write for instance `length_yd = 402`
    course.toml:13:20: `fairway_width_yd` must be a number from 5 to 150 yards, not 0
    hint: write for instance `fairway_width_yd = 36`
    course.toml:15:10: there are two holes 7
    hint: give each hole its own `number`, or leave all numbers out
    course.toml:18:10: `beyond` cannot be 'lava'
    hint: write one of `rough`, `trees` and `out of bounds`
    course.toml:20:18: `lie` cannot be 'bunker'
    hint: write one of `sand`, `water`, `trees`, `fairway`, `rough`, `tee` and `out of bounds`
    course.toml:20:67: `length_yd` must be a number, not 'long'
    hint: write for instance `length_yd = 16`
    "#);
}

#[test]
fn a_wind_comes_from_somewhere() {
    let windy = |course: &str, hole: &str| {
        read(&format!(
            "name = 'One'\n[conditions]\n{course}\n[[holes]]\npar = 3\nlength_yd = 150\n\
             conditions = {{ {hole} }}\ngreen = {{ depth_yd = 30, width_yd = 24 }}\n"
        ))
    };
    assert_snapshot!(windy("wind_mph = 8", "firmness = 'soft'"), @r#"
    course.toml:3:12: nothing says where the wind comes from
    hint: add `wind_from_deg = 225`: a compass direction on holes with `bearing_deg`, on others 0 into the face, 90 from the right, 180 from behind
    "#);
    assert_snapshot!(windy("firmness = 'soft'", "wind_mph = 12"), @r#"
    course.toml:7:27: nothing says where the wind comes from
    hint: add `wind_from_deg = 225`: a compass direction on holes with `bearing_deg`, on others 0 into the face, 90 from the right, 180 from behind
    "#);
    for (course, hole) in [
        ("wind_mph = 0", "firmness = 'soft'"),
        ("wind_from_deg = 90", "wind_mph = 12"),
        ("wind_mph = 8\nwind_from_deg = 90", "wind_mph = 12"),
        ("firmness = 'soft'", "wind_mph = 12, wind_from_deg = 0"),
    ] {
        assert_eq!(windy(course, hole), "no fault", "{course} {hole}");
    }
}

#[test]
fn two_holes_of_one_number_are_told() {
    let hole = |number: u32| {
        format!(
            "[[holes]]\nnumber = {number}\npar = 4\nlength_yd = 400\ngreen = {{ depth_yd = 30, width_yd = 24 }}\n"
        )
    };
    assert_snapshot!(read(&format!("name = 'Two'\n{}{}{}", hole(3), hole(4), hole(3))), @r#"
    course.toml:13:10: there are two holes 3
    hint: give each hole its own `number`, or leave all numbers out
    "#);
}

#[test]
fn two_holes_of_one_stroke_index_are_told() {
    let hole = |stroke_index: u32| {
        format!(
            "[[holes]]\nstroke_index = {stroke_index}\npar = 4\nlength_yd = 400\ngreen = {{ depth_yd = 30, width_yd = 24 }}\n"
        )
    };
    assert_snapshot!(read(&format!("name = 'Two'\n{}{}{}", hole(3), hole(1), hole(3))), @r#"
    course.toml:13:16: there are two holes of stroke index 3
    hint: give each hole its own, or leave all out
    "#);
    assert_snapshot!(read(&format!("name = 'Two'\n{}{}", hole(18), hole(30))), @"
    course.toml:8:16: a card of 18 holes has no stroke index 30
    hint: write one from 1 to 18, or leave all out
    ");
}

#[test]
fn a_stated_rating_makes_sense() {
    let hole = "[[holes]]\npar = 4\nlength_yd = 400\ngreen = { depth_yd = 30, width_yd = 24 }\n";
    let rated = |rating: &str| read(&format!("name = 'Rated'\n{rating}\n{hole}"));
    assert_eq!(
        rated("[rating]\ncourse_rating = 71.2\nslope_rating = 128"),
        "no fault"
    );
    assert_snapshot!(rated("[rating.men]\ncourse_rating = 71.2\nslope_rating = 156\n[rating.women]\nslope_rating = 128.5"), @r#"
    course.toml:4:16: `slope_rating` must be a whole number from 55 to 155, not 156
    hint: write for instance `slope_rating = 128`
    course.toml:5:1: `course_rating` is missing in the rating of women
    hint: write for instance `course_rating = 71.2`
    course.toml:6:16: `slope_rating` must be a whole number from 55 to 155, not 128.5
    hint: write for instance `slope_rating = 128`
    "#);
    assert_snapshot!(rated("[rating]\nslope = 128\nbogey_rating = 70\ncourse_rating = 71.2\nslope_rating = 113"), @r#"
    course.toml:3:1: there is no key `slope` in `rating`
    hint: the keys here are `men`, `women`, `course_rating`, `slope_rating` and `bogey_rating`
    course.toml:4:16: `bogey_rating` is 70, no more than the course rating of 71.2
    hint: a bogey golfer takes more strokes than a scratch golfer
    "#);
    assert_snapshot!(rated("rating = 71.2"), @r#"
    course.toml:2:10: `rating` must be a table, not 71.2
    hint: write for instance `rating = { men = { course_rating = 71.2, slope_rating = 128 } }`
    "#);
}

#[test]
fn an_outline_that_crosses_itself_is_told_corner_by_corner() {
    assert_snapshot!(with("areas = [{ lie = 'water', outline_yd = [[30, 100], [60, 140], [60, 100], [30, 140]] }]"), @r#"
    course.toml:6:40: the outline crosses itself: the side from point 1 to 2 meets the side from 3 to 4
    hint: list the corners in order round the area, each once
    "#);
    assert_snapshot!(with("areas = [{ lie = 'sand', outline_yd = [[30, 100], [30, 100], [60, 100]] }]"), @r#"
    course.toml:6:39: points 1 and 2 of the outline are the same
    hint: list the corners in order round the area, each once
    "#);
    assert_snapshot!(with("areas = [{ lie = 'sand', outline_yd = [[30, 100], [60, 100]] }]"), @r#"
    course.toml:6:39: an outline has at least 3 points, not 2
    hint: list the corners in order round the area, each once
    "#);
    assert_snapshot!(with("areas = [{ lie = 'sand', outline_yd = [[30, 100], [60, 100], [40, 100]] }]"), @r#"
    course.toml:6:39: the outline crosses itself: the side from point 1 to 2 meets the side from 2 to 3
    hint: list the corners in order round the area, each once
    course.toml:6:39: the outline crosses itself: the side from point 1 to 2 meets the side from 3 to 1
    hint: list the corners in order round the area, each once
    "#);
    assert_snapshot!(with("areas = [{ lie = 'sand', outline_yd = [[30, 100], [60, 1e9], ['a', 3]] }]"), @r#"
    course.toml:6:51: a point of `outline_yd` lies more than 1500 away: [60, 1e9]
    hint: write for instance `outline_yd = [[-60, 150], [-40, 155], [-45, 210]]`
    course.toml:6:62: a point of `outline_yd` must be two numbers: ['a', 3]
    hint: write for instance `outline_yd = [[-60, 150], [-40, 155], [-45, 210]]`
    "#);
}

#[test]
fn a_green_outside_its_hole_is_told() {
    assert_snapshot!(read("name = 'One'\n[[holes]]\npar = 4\nlength_yd = 400\ngreen = { outline_yd = [[50, 385], [80, 388], [70, 415]] }"), @r#"
    course.toml:5:24: the green of hole 1 lies outside its hole: the line of play ends at [0.0, 400.0], not on it
    hint: end the line of play in the middle of the green
    "#);
}

#[test]
fn areas_say_one_lie_and_one_place() {
    assert_snapshot!(with("areas = [{ lie = 'sand' }, { at_yd = 200, side_yd = 30, length_yd = 12, width_yd = 8 }]"), @r#"
    course.toml:6:10: this area of hole 1 does not say where it lies
    hint: an ellipse has `at_yd`, `at_green_yd`, `side_yd`, `length_yd`, `width_yd` and `turn_deg`; a strip has `from_yd`, `to_yd`, `side_from_yd` or `side_to_yd`; an outline has `outline_yd`
    course.toml:6:28: `lie` is missing in this area of hole 1
    hint: write for instance `lie = "sand"`
    "#);
    assert_snapshot!(with("areas = [{ lie = 'snad', at_yd = 200, from_yd = 100 }]"), @r#"
    course.toml:6:10: this area of hole 1 says in two ways where it lies
    hint: an ellipse has `at_yd`, `at_green_yd`, `side_yd`, `length_yd`, `width_yd` and `turn_deg`; a strip has `from_yd`, `to_yd`, `side_from_yd` or `side_to_yd`; an outline has `outline_yd`
    course.toml:6:18: `lie` cannot be 'snad'
    hint: did you mean "sand"?
    "#);
    assert_snapshot!(with("areas = [{ lie = 'water', at_yd = 200, at_green_yd = -20, side_yd = 30, length_yd = 12, width_yd = 0 }]"), @r#"
    course.toml:6:54: `at_yd` and `at_green_yd` both say where it lies along the line
    hint: keep one of them
    course.toml:6:100: `width_yd` must be a number from 1 to 400 yards, not 0
    hint: write for instance `width_yd = 9`
    "#);
    assert_snapshot!(with("areas = [{ lie = 'water', from_yd = 200, to_yd = 200 }, { lie = 'water', side_to_yd = 20 }]"), @r#"
    course.toml:6:50: this area of hole 1 has no width: it ends where it begins or before
    hint: let it end farther than it begins
    course.toml:6:57: `side_from_yd` is missing in this area of hole 1
    hint: write for instance `side_from_yd = 30`
    "#);
}

#[test]
fn a_line_of_play_makes_sense() {
    assert_snapshot!(with("line_yd = [[0, 0], [0, 300]]"), @r#"
    course.toml:4:13: `length_yd` is 400, but the line of play is 300 yards long
    hint: correct one of them, or leave `length_yd` out
    "#);
    assert_snapshot!(with("line_yd = [[5, 0], [0, 400]]"), @r#"
    course.toml:6:11: the line of play begins at the tee, [0, 0]
    hint: write [0, 0] first
    "#);
    assert_snapshot!(with("line_yd = [[0, 0], [0, 400], [0, 400]]"), @r#"
    course.toml:6:11: a line of play has at least two points, no two in a row the same
    hint: write the tee, each turn, and the middle of the green
    "#);
    assert_snapshot!(with("line_yd = [[0, 0], [0, 20]]\ndogleg = []"), @r#"
    course.toml:6:11: the line of play of hole 1 is 20 yards long
    hint: a hole is from 40 to 800 yards long
    course.toml:7:10: hole 1 has both `dogleg` and `line_yd`
    hint: keep one of them
    "#);
    assert_snapshot!(with("dogleg = [{ at_yd = 250, turn_deg = 20 }, { at_yd = 200, turn_deg = 400 }]"), @r#"
    course.toml:6:53: a turn must come after the one before it
    hint: list the turns from the tee to the green
    course.toml:6:69: `turn_deg` must be a number from -120 to 120 degrees, not 400
    hint: write for instance `turn_deg = 25`
    "#);
}

#[test]
fn fairways_begin_before_they_end() {
    assert_snapshot!(with("fairway_width_yd = 30\nfairway = [{ from_yd = 200, to_yd = 150, width_yd = 30 }]"), @r#"
    course.toml:6:20: hole 1 has both `fairway` and `fairway_width_yd`
    hint: keep one of them
    course.toml:7:37: this stretch of fairway begins at 200 yards and ends at 150
    hint: let it end farther than it begins
    "#);
}

/// Nobody means an area that no ball can come to.
#[test]
fn nothing_lies_far_past_the_hole() {
    assert_snapshot!(with("areas = [{ lie = 'water', from_yd = 900 }, { lie = 'sand', at_yd = 520, side_yd = 0, length_yd = 9, width_yd = 9 }]"), @r"
    course.toml:6:37: this area of hole 1 lies 500 yards past the hole, which is 400 yards long
    hint: count from the tee along the line of play; 100 yards past the hole is the most
    course.toml:6:68: this area of hole 1 lies 120 yards past the hole, which is 400 yards long
    hint: count from the tee along the line of play; 100 yards past the hole is the most
    ");
    assert_snapshot!(with("fairway = [{ from_yd = 410, to_yd = 450, width_yd = 30 }]"), @r"
    course.toml:6:24: this stretch of fairway begins at 410 yards, past the hole, which is 400 yards long
    hint: count from the tee along the line of play
    ");
}

#[test]
fn tee_and_green_stay_clear() {
    assert_snapshot!(with("areas = [{ lie = 'water', to_yd = 40 }]"), @r#"
    course.toml:6:10: the tee of hole 1 is covered by this water
    hint: the tee is at [0, 0]; keep water, sand and out of bounds off it
    "#);
    assert_snapshot!(with("areas = [{ lie = 'sand', at_green_yd = 0, side_yd = 0, length_yd = 9, width_yd = 9 }]"), @r#"
    course.toml:6:10: the green of hole 1 is covered by this sand
    hint: keep water, sand and out of bounds off the green; water all round it has an outline with `islands_yd`
    "#);
    assert_snapshot!(with("areas = [{ lie = 'water', at_green_yd = -12, side_yd = 0, length_yd = 20, width_yd = 30 }]"), @r#"
    course.toml:6:10: the green of hole 1 is covered by this water
    hint: keep water, sand and out of bounds off the green; water all round it has an outline with `islands_yd`
    "#);
    assert_snapshot!(with("pin = { along_yd = 20, side_yd = 0 }"), @r#"
    course.toml:6:7: the pin is not on the green
    hint: along_yd and side_yd are counted from the middle of the green
    "#);
    assert_snapshot!(with("pin = 'left'"), @r#"
    course.toml:6:7: `pin` cannot be 'left'
    hint: write one of `front`, `middle` and `back`
    "#);
}

#[test]
fn a_hole_takes_no_more_ground_than_it_can() {
    assert_snapshot!(with("areas = [{ lie = 'water', outline_yd = [[-1400, 0], [1400, 0], [1400, 700]] }]"), @r#"
    course.toml:6:10: hole 1 takes more ground than 1000 by 600 yards, most of all for this area
    hint: bring it nearer to the line of play
    "#);
}

#[test]
fn odd_text_is_no_panic() {
    for text in [
        "\0",
        "[[holes]]\n[[holes.areas]]",
        "holes = 3",
        "holes = [3]",
        "name = 'x'\nholes = [{}]",
        "[holes]",
        "💥 = 1",
        "conditions = []",
    ] {
        assert_ne!(read(text), "no fault", "{text:?}");
    }
}

#[test]
fn no_damaged_file_stops_the_program() {
    let whole = "name = 'One'
conditions = { firmness = 'soft', wind_mph = 8, wind_from_deg = 30 }
[[holes]]
par = 4
length_yd = 210
dogleg = [{ at_yd = 120, turn_deg = 30 }]
fairway = [{ from_yd = 50, to_yd = 190, width_yd = 30 }]
green = { depth_yd = 30, width_yd = 24 }
pin = { along_yd = 4, side_yd = -5 }
areas = [{ lie = 'water', outline_yd = [[30, 90], [50, 95], [45, 140]] }]
";
    assert_eq!(read(whole), "no fault");
    for (at, _) in whole.char_indices() {
        let _ = read(&whole[..at]);
        for damage in ["", "-1", "1e308", "'x'", "[]", "{}", "\n"] {
            let _ = read(&format!("{}{damage}{}", &whole[..at], &whole[at + 1..]));
        }
    }
}

#[test]
fn islands_lie_within_their_area_and_apart() {
    let sand = "areas = [{ lie = 'sand', outline_yd = [[30, 100], [60, 100], [60, 140], [30, 140]], islands_yd = ";
    let told = [
        with(&format!("{sand}[[[50, 110], [70, 110], [55, 120]]] }}]")),
        with(&format!(
            "{sand}[[[40, 110], [50, 110], [45, 120]], [[44, 112], [46, 112], [45, 114]]] }}]"
        )),
        with(&format!("{sand}[[[40, 110], [50, 110]]] }}]")),
        with("areas = [{ lie = 'sand', islands_yd = [[[40, 110], [50, 110], [45, 120]]] }]"),
    ];
    assert_snapshot!(told.join("\n\n"));
}

/// What lacks is told, and nothing that is there.
#[test]
fn a_green_of_the_defaults_is_not_missed_where_a_line_is_at_fault() {
    let text = "name = 'One'\n[defaults]\ngreen = { depth_yd = 28, width_yd = 24 }\n[[holes]]\npar = 4\nlength_yd = '400'\n";
    assert_snapshot!(read(text), @r#"
    course.toml:6:13: `length_yd` must be a number, not '400'
    hint: write for instance `length_yd = 402`
    "#);
}
