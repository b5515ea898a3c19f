//! Tees and pin sheets at fault.

use costcard::course::{Course, PinSheet, Pins, Setup};
use costcard::files::Source;
use insta::assert_snapshot;

use super::told;

const HOLE: &str =
    "[[holes]]\npar = 4\nlength_yd = 400\ngreen = { depth_yd = 30, width_yd = 24 }\n";

fn read(text: &str) -> String {
    told(Course::read(&Source::new("course.toml", text)))
}

fn from(tees: &str, text: &str) -> String {
    let setup = Setup {
        tees: Some(tees.to_owned()),
        ..Setup::default()
    };
    told(Course::read_as(&Source::new("course.toml", text), &setup))
}

#[test]
fn sets_of_tees_make_sense_together() {
    let text = format!(
        "name = 'A'\nrating = {{ course_rating = 70, slope_rating = 113 }}\n[[tees]]\nname = 'white'\ndefault = true\n[[tees]]\nname = 'White'\ndefault = true\n[[tees]]\nnam = 'red'\n{HOLE}"
    );
    assert_snapshot!(read(&text), @r"
    course.toml:2:10: a course that names its tees is rated from each of them
    hint: move `rating` into the `[[tees]]` it belongs to
    course.toml:7:8: there are two sets of `White` tees
    hint: give each its own name
    course.toml:8:11: two sets of tees are the default
    hint: mark one of them
    course.toml:10:1: there is no key `nam` in `tees`
    hint: did you mean `name`?
    ");
}

#[test]
fn tees_of_a_hole_are_those_of_the_course() {
    let text = |tees: &str| {
        format!(
            "name = 'A'\n[[tees]]\nname = 'white'\n[[tees]]\nname = 'red'\n{HOLE}tees = {tees}\n"
        )
    };
    assert_snapshot!(read(&text("{ rde = 350, gold = 300 }")), @r"
    course.toml:10:10: there are no `rde` tees
    hint: did you mean `red`?
    course.toml:10:21: there are no `gold` tees
    hint: the tees of this course are `white` and `red`
    ");
    assert_snapshot!(read(&format!("name = 'A'\n{HOLE}tees = {{ red = 300 }}")), @r#"
    course.toml:6:10: there are no `red` tees
    hint: name it before the holes: `[[tees]]` with `name = "red"`
    "#);
    assert_snapshot!(read(&text("{ red = 900 }")), @r"
    course.toml:10:16: `red` must be a number from 40 to 800 yards, not 900
    hint: write for instance `red = 351`
    ");
    assert_snapshot!(read(&text("{ red = [0, 380] }")), @r"
    course.toml:10:16: from the red tee the hole is 20 yards long
    hint: a hole is from 40 to 800 yards long
    ");
    assert_snapshot!(read(&text("{ red = [0, 480] }")), @r"
    course.toml:10:16: the red tee stands past the hole
    hint: `point_yd` is [right, forward] of the hole's own tee, yards
    ");
    assert_snapshot!(read(&text("{ red = { length_yd = 300, point_yd = [0, 100] } }")), @r"
    course.toml:10:16: the red tee must say once where it stands
    hint: write `length_yd = 351` or `point_yd = [3, 48]`
    ");
    assert_snapshot!(read(&text("{ red = 300 }\nareas = [{ lie = 'water', from_yd = 90, to_yd = 110 }]")), @r"
    course.toml:11:10: the red tee of hole 1 is covered by this water
    hint: keep water, sand, the green and out of bounds off it
    ");
}

#[test]
fn tees_that_a_course_does_not_have() {
    let tees = format!("name = 'A'\n[[tees]]\nname = 'white'\n[[tees]]\nname = 'red'\n{HOLE}");
    assert_snapshot!(from("whit", &tees), @r"
    course.toml:2:1: there are no `whit` tees on this course
    hint: did you mean `white`?
    ");
    assert_snapshot!(from("championship", &tees), @r"
    course.toml:2:1: there are no `championship` tees on this course
    hint: the tees here are `white` and `red`
    ");
    assert_snapshot!(from("red", &format!("name = 'A'\n{HOLE}")), @r#"
    course.toml:1:1: there are no `red` tees on this course
    hint: the file names no tees: write `[[tees]]` with `name = "white"`, or leave the choice out
    "#);
}

fn pins(text: &str) -> String {
    told(PinSheet::read(&Source::new("pins.csv", text)))
}

#[test]
fn a_pin_sheet_at_fault() {
    assert_snapshot!(pins("hole,on_paces,left_paces,right_paces\n1,12,4,6\n1,10,,\n2,,3,\n3.5,9,,\nx,9,,\n5,99,,\n"), @r"
    pins.csv:2:8: the pin is told from both edges of the green
    hint: keep the nearer edge
    pins.csv:4:1: this line must say once how far on from the front the pin stands
    hint: write one of `on_paces`, `on_yd` or `on_m`
    pins.csv:5:1: there is no hole 3.5
    hint: write a whole number
    pins.csv:6:1: `hole` must be a number, not `x`
    hint: write digits only, with a point before decimals: 167.2
    pins.csv:7:3: `on_paces` is 99, but must be from 0 to 80
    hint: correct it, or remove the row
    ");
    assert_snapshot!(pins("hole,on_pace\n1,12\n"), @r"
    pins.csv:1:6: there is no column `on_pace`
    hint: did you mean `on_paces`?
    ");
}

/// Every pin that is off its green is told with the line of the sheet; so are lines of holes the course lacks.
#[test]
fn a_pin_that_is_not_on_its_green() {
    let sheet = Source::new("pins.csv", "hole,on_yd,left_yd\n1,33,\n2,15,26\n19,10,\n");
    let sheet = PinSheet::read(&sheet).unwrap_or_else(|faults| panic!("{faults}"));
    let setup = Setup {
        pins: Pins::Sheet(sheet),
        ..Setup::default()
    };
    let course = Source::new("course.toml", &format!("name = 'A'\n{HOLE}{HOLE}"));
    assert_snapshot!(told(Course::read_as(&course, &setup)), @r"
    pins.csv:4:1: the course has no hole 19
    hint: remove the line, or correct its number
    pins.csv:2:1: the pin of hole 1 is not on the green, which is 30 yd deep
    hint: count on from the front of the green, and in from its edge
    pins.csv:3:1: the pin of hole 2 is not on the green, which is 30 yd deep and 24 yd wide there
    hint: count on from the front of the green, and in from its edge
    ");
    let sheet = Source::new("pins.csv", "hole,on_yd,right_yd\n1,28,0.05\n");
    let sheet = PinSheet::read(&sheet).unwrap_or_else(|faults| panic!("{faults}"));
    let setup = Setup {
        pins: Pins::Sheet(sheet),
        ..Setup::default()
    };
    let course = Source::new("course.toml", &format!("name = 'A'\n{HOLE}"));
    assert_snapshot!(told(Course::read_as(&course, &setup)), @r"
    pins.csv:2:1: the pin of hole 1 stands on the edge of the green
    hint: keep it a yard or more from every edge
    ");
}
