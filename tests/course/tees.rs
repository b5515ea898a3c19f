//! Sets of tees, and pins of the day.

use costcard::course::{Course, Lie, PinSheet, Pins, Point, Setup};
use costcard::files::Source;
use costcard::player::Sex;

use super::course;

const TEES: &str = "name = 'Tees'
[[tees]]
name = 'white'
rating.men = { course_rating = 72.1, slope_rating = 130 }
[[tees]]
name = 'red'
rating = { course_rating = 68.0, slope_rating = 113 }
[[tees]]
name = 'gold'
[[holes]]
par = 4
length_yd = 400
dogleg = [{ at_yd = 150, turn_deg = 90 }]
tees = { red = 340, gold = { length_yd = 220, par = 3 } }
green = { depth_yd = 30, width_yd = 24 }
[[holes]]
par = 5
line_yd = [[0, 0], [0, 250], [-60, 480]]
tees = { red = [6, 52], gold = [-4, -30] }
green = { depth_yd = 30, width_yd = 24 }
";

fn from(tees: &str) -> Course {
    let setup = Setup {
        tees: Some(tees.to_owned()),
        ..Setup::default()
    };
    Course::read_as(&Source::new("tees.toml", TEES), &setup)
        .unwrap_or_else(|faults| panic!("{faults}"))
}

fn close(point: Point, x_yd: f64, y_yd: f64) -> bool {
    (point.x_yd - x_yd).hypot(point.y_yd - y_yd) < 1e-9
}

#[test]
fn the_first_tees_are_played_from_unless_others_are_marked() {
    let first = course(TEES);
    assert_eq!(first.tees_name(), Some("white"));
    assert_eq!(first.holes[0].length_yd, 400.0);
    assert_eq!(first.ratings.of(Sex::Women), None);
    let marked = course(&TEES.replace("name = 'red'", "name = 'red'\ndefault = true"));
    assert_eq!(marked.tees_name(), Some("red"));
    assert_eq!(marked.holes[0].length_yd, 340.0);
    let plain = course(
        "name = 'Plain'\n[[holes]]\npar = 3\nlength_yd = 150\ngreen = { depth_yd = 30, width_yd = 24 }",
    );
    assert_eq!((plain.tees_name(), plain.tees.len()), (None, 0));
}

#[test]
fn a_tee_told_by_its_length_stands_on_the_line() {
    let red = from("RED");
    let hole = &red.holes[0];
    assert!(close(hole.tee, 0.0, 60.0));
    assert_eq!((hole.length_yd, hole.par, hole.line.len()), (340.0, 4, 3));
    assert_eq!(
        red.ratings.of(Sex::Women).map(|rating| rating.slope_rating),
        Some(113)
    );
    // Past the bend the line has one leg left.
    let hole = &from("gold").holes[0];
    assert!(close(hole.tee, 30.0, 150.0));
    assert_eq!((hole.length_yd, hole.par, hole.line.len()), (220.0, 3, 2));
    assert_eq!(from("gold").par(), 8);
}

#[test]
fn a_tee_told_by_its_place_starts_the_line_there() {
    let hole = &from("red").holes[1];
    assert!(close(hole.tee, 6.0, 52.0));
    let rest = 60_f64.hypot(230.0);
    assert!((hole.length_yd - (6_f64.hypot(198.0) + rest)).abs() < 1e-9);
    // One behind the others is joined to the first bend, without a corner at the tee it stands behind.
    let hole = &from("gold").holes[1];
    assert_eq!(hole.line.len(), 3);
    assert!((hole.length_yd - (4_f64.hypot(280.0) + rest)).abs() < 1e-9);
    assert_eq!(hole.grid.lie(-4.0, -30.0), Lie::Tee);
    assert_eq!(hole.grid.lie(-4.0, -42.0), Lie::Rough);
}

/// Whichever tees are played from, the ground lies where it lies: only the teeing areas differ.
#[test]
fn the_ground_stays_where_it_is() {
    let (white, red) = (from("white"), from("red"));
    for (one, other) in white.holes.iter().zip(&red.holes) {
        assert_eq!(one.pin, other.pin);
        assert_eq!(one.tees, other.tees);
        assert_eq!(
            (one.grid.left_yd, one.grid.near_yd),
            (other.grid.left_yd, other.grid.near_yd)
        );
        for (a, b) in one.grid.lies.iter().zip(&other.grid.lies) {
            assert!(a == b || *a == Lie::Tee || *b == Lie::Tee);
        }
    }
}

/// A tee farther up stands higher on a hole that climbs: what is left of it is as steep.
#[test]
fn the_ground_is_as_steep_from_every_tee() {
    let climbing = TEES.replacen("length_yd = 400", "length_yd = 400\nrise_ft = 60", 1);
    let climbing = climbing.replacen("red = 340", "red = 200", 1);
    let from = |tees: &str| {
        let setup = Setup {
            tees: Some(tees.to_owned()),
            ..Setup::default()
        };
        let read = Course::read_as(&Source::new("tees.toml", &climbing), &setup);
        read.unwrap_or_else(|faults| panic!("{faults}")).holes[0].clone()
    };
    let (white, red) = (from("white"), from("red"));
    assert_eq!((white.length_yd, red.length_yd), (400.0, 200.0));
    assert!((white.grade - 20.0 / 400.0).abs() < 1e-12);
    assert_eq!(white.grade, red.grade);
}

fn with_pins(pins: Pins) -> Result<Course, costcard::files::Faults> {
    let setup = Setup {
        pins,
        ..Setup::default()
    };
    Course::read_as(&Source::new("tees.toml", TEES), &setup)
}

#[test]
fn pins_of_the_day_stand_where_the_file_could_have_put_them() {
    for (pins, word) in [
        (Pins::Front, "front"),
        (Pins::Middle, "middle"),
        (Pins::Back, "back"),
    ] {
        let of_day = with_pins(pins).unwrap_or_else(|faults| panic!("{faults}"));
        let keyed = TEES.replace("[[holes]]", &format!("[[holes]]\npin = '{word}'"));
        let of_file = course(&keyed);
        for (day, file) in of_day.holes.iter().zip(&of_file.holes) {
            assert_eq!(day.pin, file.pin, "{word}");
        }
    }
}

/// The first green is 30 yd deep and 24 yd wide and is played into along +x: its front is at x = 235.
#[test]
fn a_pin_sheet_counts_in_from_the_edges() {
    let sheet = |text: &str| {
        let sheet = PinSheet::read(&Source::new("pins.csv", text));
        Pins::Sheet(sheet.unwrap_or_else(|faults| panic!("{faults}")))
    };
    let pin = |text: &str| {
        let course = with_pins(sheet(text)).unwrap_or_else(|faults| panic!("{faults}"));
        course.holes[0].pin
    };
    let near = |pin: Point, x: f64, y: f64| {
        assert!(
            (pin.x_yd - x).abs() < 0.3 && (pin.y_yd - y).abs() < 0.3,
            "{pin:?}"
        );
    };
    near(pin("hole,on_paces\n1,15\n"), 250.0, 150.0);
    near(
        pin("hole,on_paces,left_paces,right_paces\n1,15,4,\n"),
        250.0,
        158.0,
    );
    near(
        pin("hole,on_paces,left_paces,right_paces\n1,15,,5\n"),
        250.0,
        143.0,
    );
    near(pin("hole,on_m\n1,10\n"), 245.94, 150.0);
    // Holes the sheet leaves out keep their pin.
    let other = with_pins(sheet("hole,on_yd\n2,10\n")).unwrap_or_else(|faults| panic!("{faults}"));
    assert_eq!(other.holes[0].pin, course(TEES).holes[0].pin);
    assert_ne!(other.holes[1].pin, course(TEES).holes[1].pin);
}
