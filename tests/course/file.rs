//! What a course file says and what becomes of it.

use costcard::{ball::turf::Firmness, course::Lie};

use super::{course, hole};

const GREEN: &str = "green = { depth_yd = 30, width_yd = 24 }";

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

#[test]
fn a_bare_hole_takes_the_defaults() {
    let hole = hole(&format!("par = 4\nlength_yd = 402\n{GREEN}"));
    assert_eq!(
        (hole.number, hole.par, hole.stroke_index, hole.length_yd),
        (1, 4, None, 402.0)
    );
    assert_eq!(
        (hole.green.firmness, hole.firmness),
        (Firmness::MEDIUM, Firmness::MEDIUM)
    );
    assert_eq!(
        (
            hole.green.stimp_ft,
            hole.green.slope_along_pct,
            hole.green.slope_across_pct
        ),
        (10.0, 0.0, 0.0)
    );
    assert_eq!((hole.grade, hole.air.wind.mph()), (0.0, 0.0));
    assert!(close(hole.air.temperature.f(), 75.0));
    assert_eq!((hole.pin.x_yd, hole.pin.y_yd), (0.0, 402.0));
    let lie = |x| hole.grid.lie(x, 200.0);
    assert_eq!(
        (lie(17.5), lie(18.5), lie(90.0)),
        (Lie::Fairway, Lie::Rough, Lie::Rough)
    );
}

#[test]
fn a_hole_overrides_the_course() {
    let course = course(
        "name = 'Two'
[conditions]
firmness = 'soft'
wind_mph = 8
wind_from_deg = 225
altitude_ft = 300
[defaults]
beyond = 'trees'
fairway_width_yd = 30
green = { depth_yd = 30, width_yd = 24, stimp_ft = 9 }
[[holes]]
par = 4
length_yd = 402
green = {}
[[holes]]
par = 4
length_yd = 402
rise_ft = 12
fairway_width_yd = 40
beyond = 'out of bounds'
conditions = { firmness = 0.75, wind_mph = 20 }
green = { stimp_ft = 11, firmness = 'firm' }",
    );
    let [first, second] = &course.holes[..] else {
        panic!("two holes")
    };
    assert_eq!(
        (first.firmness, first.green.firmness, first.green.stimp_ft),
        (Firmness::SOFT, Firmness::SOFT, 9.0)
    );
    assert_eq!(
        (
            second.firmness.value(),
            second.green.firmness,
            second.green.stimp_ft
        ),
        (0.75, Firmness::FIRM, 11.0)
    );
    assert!(close(first.air.wind.mph(), 8.0) && close(second.air.wind.mph(), 20.0));
    assert!(close(second.air.altitude.m(), 300.0 * 0.3048) && close(402.0 * second.grade, 4.0));
    assert_eq!(
        (first.grid.lie(16.5, 200.0), second.grid.lie(16.5, 200.0)),
        (Lie::Rough, Lie::Fairway)
    );
    assert_eq!(
        (first.grid.lie(80.0, 200.0), second.grid.lie(80.0, 200.0)),
        (Lie::Trees, Lie::OutOfBounds)
    );
}

#[test]
fn the_wind_turns_with_the_hole() {
    let wind_from = |bearing: &str| {
        hole(&format!("par = 4\nlength_yd = 402\n{GREEN}\n{bearing}\nconditions = {{ wind_mph = 10, wind_from_deg = 270 }}"))
            .air
            .wind_from
            .deg()
    };
    assert!(
        close(wind_from("bearing_deg = 270"), 0.0),
        "played west, a west wind is in the face"
    );
    assert!(
        close(wind_from("bearing_deg = 90").abs(), 180.0),
        "played east, it is behind"
    );
    assert!(
        close(wind_from("bearing_deg = 0"), -90.0),
        "played north, it comes from the left"
    );
    assert!(
        close(wind_from("bearing_deg = 180"), 90.0),
        "played south, from the right"
    );
    assert!(
        close(wind_from(""), -90.0),
        "without a bearing it is told from the hole"
    );
}

#[test]
fn pins_stand_where_they_are_told() {
    let pin = |pin: &str| {
        let hole = hole(&format!("par = 3\nlength_yd = 150\n{GREEN}\n{pin}"));
        (hole.pin.x_yd, hole.pin.y_yd)
    };
    assert_eq!(pin("pin = 'middle'"), (0.0, 150.0));
    // Three fifths of the way from the middle to the edge, 15 yd away.
    assert_eq!(pin("pin = 'front'"), (0.0, 141.0));
    assert_eq!(pin("pin = 'back'"), (0.0, 159.0));
    assert_eq!(pin("pin = { along_yd = -5, side_yd = 4 }"), (4.0, 145.0));
}

#[test]
fn a_free_line_and_a_free_green_are_taken_as_drawn() {
    let hole = hole(
        "par = 4
length_yd = 415
line_yd = [[0, 0], [10, 230], [90, 400]]
green = { outline_yd = [[75, 385], [105, 388], [108, 415], [80, 412]] }
areas = [{ lie = 'sand', at_green_yd = -25, side_yd = 0, length_yd = 6, width_yd = 6 }]",
    );
    assert_eq!(hole.line.len(), 3);
    assert!(close(
        hole.length_yd,
        10_f64.hypot(230.0) + 80_f64.hypot(170.0)
    ));
    assert_eq!(hole.grid.lie(90.5, 400.5), Lie::Green);
    // 25 yd short of the middle of the green, along the last leg.
    let share = 25.0 / 80_f64.hypot(170.0);
    assert_eq!(
        hole.grid.lie(90.0 - share * 80.0, 400.0 - share * 170.0),
        Lie::Sand
    );
}

#[test]
fn a_par_three_has_fairway_only_if_it_says_so() {
    let lie = |keys: &str| {
        hole(&format!("par = 3\nlength_yd = 180\n{GREEN}\n{keys}"))
            .grid
            .lie(0.5, 150.5)
    };
    assert_eq!(lie(""), Lie::Rough);
    assert_eq!(lie("fairway_width_yd = 20"), Lie::Fairway);
    assert_eq!(
        lie("fairway = [{ from_yd = 140, width_yd = 20 }]"),
        Lie::Fairway
    );
    assert_eq!(
        lie("fairway = [{ from_yd = 100, to_yd = 140, width_yd = 20 }]"),
        Lie::Rough
    );
}
