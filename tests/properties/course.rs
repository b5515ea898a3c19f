//! Lines of play and grids.

use costcard::course::line::{Line, Station};
use costcard::course::{Lie, Point};
use proptest::prelude::*;

use crate::support::course;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// A place on the line is found again by where it lies.
    #[test]
    fn a_place_on_the_line_is_found_again(
        length in 100.0..800.0_f64,
        share in 0.2..0.8,
        turn in -80.0..80.0,
        along in 0.0..1.0,
    ) {
        let line = Line::with_turns(length, &[(share * length, turn)]).unwrap();
        prop_assert!((line.length_yd() - length).abs() < 1e-6);
        let along_yd = along * length;
        let Point { x_yd, y_yd } = line.point(Station { along_yd, side_yd: 0.0 });
        let found = line.station(x_yd, y_yd);
        prop_assert!((found.along_yd - along_yd).abs() < 1e-6, "{:?}", found);
        prop_assert!(found.side_yd.abs() < 1e-6, "{:?}", found);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(16))]

    /// Tee and pin are there, and the way to the green is shorter the nearer a ball lies to it along the line.
    #[test]
    fn a_hole_leads_from_its_tee_to_its_green(
        length in 60.0..700.0_f64,
        width in 10.0..60.0,
        depth in 10.0..60.0,
    ) {
        let course = course(&format!(
            "name = 'One'\n[[holes]]\npar = 4\nlength_yd = {length}\n\
             green = {{ depth_yd = {depth}, width_yd = {width} }}\n"
        ));
        let hole = &course.holes[0];
        let grid = &hole.grid;
        prop_assert_eq!(grid.lie(hole.tee.x_yd, hole.tee.y_yd), Lie::Tee);
        prop_assert_eq!(grid.lie(hole.pin.x_yd, hole.pin.y_yd), Lie::Green);
        let mut before = f64::INFINITY;
        for yard in 0..length as usize {
            let left = grid.to_green_yd(0.0, yard as f64 + 0.5);
            prop_assert!(left <= before, "{} after {} at {}", left, before, yard);
            before = left;
        }
        prop_assert_eq!(before, 0.0);
    }
}
