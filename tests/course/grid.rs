//! What is painted on a grid: areas, what covers what, edges, mirrors.

use costcard::course::{Hole, Lie};
use insta::assert_snapshot;
use proptest::prelude::*;

use super::{cells, drawn, hole};

const GREEN: &str = "green = { depth_yd = 30, width_yd = 24 }";

fn straight(areas: &str) -> Hole {
    hole(&format!(
        "par = 4\nlength_yd = 300\n{GREEN}\nareas = [{areas}]"
    ))
}

/// Asserts that a lie covers a number of square yards within 2 %.
fn covers(hole: &Hole, lie: Lie, expected: f64) {
    let found = cells(&hole.grid, lie) as f64;
    assert!(
        (found / expected - 1.0).abs() < 0.02,
        "{lie:?}: {found} of {expected} sq yd"
    );
}

#[test]
fn areas_cover_their_ground() {
    use std::f64::consts::PI;
    let drawn = straight(
        "{ lie = 'sand', at_yd = 150, side_yd = 40, length_yd = 40, width_yd = 22, turn_deg = 33 },
         { lie = 'water', outline_yd = [[-60, 100], [-30.5, 110], [-34, 171.3], [-50, 150], [-66, 180]] },
         { lie = 'trees', from_yd = 200, to_yd = 240, side_from_yd = -30, side_to_yd = -50 }",
    );
    covers(&drawn, Lie::Sand, PI * 20.0 * 11.0);
    // Shoelace by hand.
    let corners = [
        (-60.0, 100.0),
        (-30.5, 110.0),
        (-34.0, 171.3),
        (-50.0, 150.0),
        (-66.0, 180.0),
    ];
    let doubled: f64 = (0..5)
        .map(|i| (corners[i], corners[(i + 1) % 5]))
        .map(|(a, b)| a.0 * b.1 - b.0 * a.1)
        .sum();
    covers(&drawn, Lie::Water, doubled.abs() / 2.0);
    covers(&drawn, Lie::Trees, 40.0 * 20.0);
    covers(&drawn, Lie::Green, PI * 15.0 * 12.0);
    covers(&drawn, Lie::Tee, 80.0);
    // 36 yd wide from 100 yd to the front of the green, 285 yd out.
    covers(&drawn, Lie::Fairway, 36.0 * 185.0);
}

#[test]
fn a_turned_corridor_keeps_its_width_and_length() {
    let bent = hole(&format!(
        "par = 4\nlength_yd = 400\ndogleg = [{{ at_yd = 230, turn_deg = 40 }}]\nfairway_width_yd = 38\n{GREEN}"
    ));
    assert_eq!(bent.length_yd, 400.0);
    let end = bent.line[2];
    assert!((end.x_yd - 170.0 * 40_f64.to_radians().sin()).abs() < 1e-9);
    assert!((end.y_yd - 230.0 - 170.0 * 40_f64.to_radians().cos()).abs() < 1e-9);
    // The wedge gained outside the bend, less the overlap inside it.
    let half: f64 = 19.0;
    let wedge = half * half * (20_f64.to_radians() - 20_f64.to_radians().tan());
    covers(&bent, Lie::Fairway, 38.0 * 285.0 + wedge);
}

#[test]
fn what_covers_what() {
    // All areas lie over the middle of the green or of the fairway; each covers the next.
    let over = |lies: &[&str], at: &str| {
        let area = |lie: &&str| {
            format!("{{ lie = '{lie}', {at}, side_yd = 0, length_yd = 6, width_yd = 6 }}")
        };
        straight(&lies.iter().map(area).collect::<Vec<_>>().join(", "))
    };
    let fairway = |lies: &[&str]| over(lies, "at_yd = 200").grid.lie(0.5, 200.5);
    assert_eq!(fairway(&[]), Lie::Fairway);
    assert_eq!(fairway(&["rough"]), Lie::Rough);
    assert_eq!(fairway(&["rough", "tee"]), Lie::Tee);
    assert_eq!(fairway(&["trees", "tee", "sand"]), Lie::Sand);
    assert_eq!(
        fairway(&["trees", "tee", "water", "out of bounds"]),
        Lie::OutOfBounds
    );
    // Of one kind, the first listed wins.
    assert_eq!(fairway(&["sand", "water"]), Lie::Sand);
    assert_eq!(fairway(&["water", "sand"]), Lie::Water);
    assert_eq!(fairway(&["trees", "rough", "fairway"]), Lie::Trees);
    assert_eq!(fairway(&["fairway", "trees", "rough"]), Lie::Fairway);
    // The green covers the ground and the tee, and is covered by sand and water away from the pin.
    let green = |lies: &[&str]| over(lies, "at_green_yd = -11").grid.lie(0.5, 289.5);
    assert_eq!(green(&["trees", "fairway", "rough", "tee"]), Lie::Green);
    assert_eq!(green(&["sand"]), Lie::Sand);
    assert_eq!(green(&["water"]), Lie::Water);
}

#[test]
fn a_cell_whose_middle_is_on_an_edge_belongs_to_the_area() {
    // A square whose sides run through the middles of cells, and an ellipse that touches one.
    let edged = straight(
        "{ lie = 'water', outline_yd = [[-40.5, 150.5], [-30.5, 150.5], [-30.5, 160.5], [-40.5, 160.5]] },
         { lie = 'sand', outline_yd = [[30.5, 150.5], [40.5, 160.5], [30.5, 160.5]] }",
    );
    assert_eq!(cells(&edged.grid, Lie::Water), 11 * 11);
    assert_eq!(cells(&edged.grid, Lie::Sand), 11 * 12 / 2);
    for (x, y) in [
        (-40.5, 150.5),
        (-30.5, 150.5),
        (-30.5, 160.5),
        (-40.5, 160.5),
        (-35.5, 160.5),
        (-30.5, 155.5),
    ] {
        assert_eq!(edged.grid.lie(x, y), Lie::Water, "({x}, {y})");
    }
    // Of two areas that share an edge, the one listed first has it.
    let shared = |first: &str, second: &str| {
        let square = |lie: &str, from: f64, to: f64| {
            format!(
                "{{ lie = '{lie}', outline_yd = [[{from}, 150], [{to}, 150], [{to}, 160], [{from}, 160]] }}"
            )
        };
        straight(&format!(
            "{}, {}",
            square(first, 30.0, 35.5),
            square(second, 35.5, 40.0)
        ))
        .grid
        .lie(35.5, 155.5)
    };
    assert_eq!(shared("sand", "water"), Lie::Sand);
    assert_eq!(shared("water", "sand"), Lie::Water);
}

#[test]
fn strips_follow_the_line() {
    let bent = hole(&format!(
        "par = 4\nlength_yd = 400\ndogleg = [{{ at_yd = 200, turn_deg = 90 }}]\n{GREEN}
         areas = [
           {{ lie = 'out of bounds', side_from_yd = 50 }},
           {{ lie = 'water', from_yd = 290, to_yd = 310 }},
           {{ lie = 'trees', from_yd = 120, to_yd = 160, side_from_yd = -30, side_to_yd = -20 }},
         ]"
    ));
    let lie = |x, y| bent.grid.lie(x, y);
    assert_eq!(
        (lie(49.5, 100.5), lie(50.5, 100.5)),
        (Lie::Rough, Lie::OutOfBounds),
        "right of the first leg"
    );
    assert_eq!(
        (lie(120.5, 151.5), lie(120.5, 148.5)),
        (Lie::Rough, Lie::OutOfBounds),
        "right of the second leg"
    );
    assert_eq!(
        (lie(89.5, 200.5), lie(90.5, 200.5), lie(110.5, 240.5)),
        (Lie::Fairway, Lie::Water, Lie::Rough)
    );
    assert_eq!(
        (lie(100.5, 240.5), lie(-25.5, 140.5), lie(25.5, 140.5)),
        (Lie::Water, Lie::Trees, Lie::Rough)
    );
}

#[test]
fn only_wild_shots_leave_the_grid() {
    let hole =
        straight("{ lie = 'water', at_yd = 150, side_yd = 70, length_yd = 30, width_yd = 20 }");
    // 18 yd of fairway and 20 yd of rough to the left, water to 80 yd on the right, and 60 yd beyond both.
    assert_eq!((hole.grid.left_yd, hole.grid.columns), (-98.0, 98 + 140));
    assert_eq!((hole.grid.near_yd, hole.grid.rows), (-35.0, 35 + 365));
}

#[test]
fn a_hole_looks_like_itself() {
    let hole = hole(
        "par = 4
length_yd = 210
dogleg = [{ at_yd = 120, turn_deg = 30 }]
fairway = [{ from_yd = 50, width_yd = 30 }]
rough_width_yd = 14
beyond = 'trees'
green = { depth_yd = 30, width_yd = 24 }
areas = [
  { lie = 'sand', at_yd = 120, side_yd = -22, length_yd = 18, width_yd = 10 },
  { lie = 'water', from_yd = 150, to_yd = 162, side_from_yd = -60, side_to_yd = 60 },
  { lie = 'out of bounds', side_from_yd = 60 },
]",
    );
    assert_snapshot!(drawn(&hole.grid, 6), @r#"
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^#
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^##
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^##
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^###
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^###
    ^^^^^^^^^^^^^^^^^^^^^^^^^^,^^^^^^^^^^^^^^^^####
    ^^^^^^^^^^^^^^^^^^^^^^^^^,,,^^^^^^^^^^^^^^^####
    ^^^^^^^^^^^^^^^^^^^^^^^^^,,,,,^^^^^^^^^^^^#####
    ^^^^^^^^^^^^^^^^^^^^^^^^,,,,,,,,^^^^^^^^^######
    ^^^^^^^^^^^^^^^^^^^^^^^^,,,,o,,,,^^^^^^^^######
    ^^^^^^^^^^^^^^^^^^^^^^^,,,oooo,,,,^^^^^^#######
    ^^^^^^^^^^^^^^^^^^^^^^,,,,oooo,,,,^^^^^^#######
    ^^^^^^^^^^^^^^^^^^^^^^,,,,oooo,,,^^^^^^########
    ^^^^^^^^^^^^^^^^^^^^^,,,--ooo,,,^^^^^^#########
    ^^^^^^^^^^^^^^^~~^^^^,,-----,,,,^^^^^^#########
    ^^^^^^^^^^^^^^~~~~^^,,,------,,^^^^^^##########
    ^^^^^^^^^^^^^^^^~~~~,,------,,,^^^^^^##########
    ^^^^^^^^^^^^^^^^^^~~~~-----,,,^^^^^^###########
    ^^^^^^^^^^^^^^^^^^,,~~~~---,,,^^^^^^###########
    ^^^^^^^^^^^^^^^^^^,,,~~~~-,,,^^^^^^############
    ^^^^^^^^^^^^^^^^^,,,---~~~~,^^^^^^#############
    ^^^^^^^^^^^^^^^^^,,------~~~~^^^^^#############
    ^^^^^^^^^^^^^^^^,s,------,,~~~~^^##############
    ^^^^^^^^^^^^^^^^ss------,,,^~~~~^##############
    ^^^^^^^^^^^^^^^^,,-----,,,^^^^~~###############
    ^^^^^^^^^^^^^^^^,,-----,,,^^^^^^###############
    ^^^^^^^^^^^^^^^^,,-----,,^^^^^^################
    ^^^^^^^^^^^^^^^^,,-----,,^^^^^#################
    ^^^^^^^^^^^^^^^^,,-----,,^^^^^#################
    ^^^^^^^^^^^^^^^^,,-----,,^^^^^#################
    ^^^^^^^^^^^^^^^^,,-----,,^^^^^#################
    ^^^^^^^^^^^^^^^^,,-----,,^^^^^#################
    ^^^^^^^^^^^^^^^^,,-----,,^^^^^#################
    ^^^^^^^^^^^^^^^^,,-----,,^^^^^#################
    ^^^^^^^^^^^^^^^^,,-----,,^^^^^#################
    ^^^^^^^^^^^^^^^^,,-----,,^^^^^#################
    ^^^^^^^^^^^^^^^^,,,,,,,,,^^^^^#################
    ^^^^^^^^^^^^^^^^,,,,,,,,,^^^^^#################
    ^^^^^^^^^^^^^^^^,,,,,,,,,^^^^^#################
    ^^^^^^^^^^^^^^^^,,,,,,,,,^^^^^#################
    ^^^^^^^^^^^^^^^^,,,,,,,,,^^^^^#################
    ^^^^^^^^^^^^^^^^,,,,,,,,,^^^^^#################
    ^^^^^^^^^^^^^^^^,,,,,,,,,^^^^^#################
    ^^^^^^^^^^^^^^^^,,,,,,,,,^^^^^#################
    ^^^^^^^^^^^^^^^^,,,,T,,,,^^^^^#################
    ^^^^^^^^^^^^^^^^,,,,T,,,,^^^^^#################
    ^^^^^^^^^^^^^^^^,,,,,,,,,^^^^^#################
    ^^^^^^^^^^^^^^^^,,,,,,,,,^^^^^#################
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^#################
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^#################
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^#################
    "#);
}

/// A hole of random make, and the same with every side and turn of the other sign.
fn twins(turn: f64, side: f64, tilt: f64, across: f64) -> [Hole; 2] {
    [1.0, -1.0].map(|sign| {
        hole(&format!(
            "par = 4
length_yd = 330
bearing_deg = 0
beyond = 'trees'
dogleg = [{{ at_yd = 190, turn_deg = {} }}]
conditions = {{ wind_mph = 10, wind_from_deg = {} }}
green = {{ depth_yd = 30, width_yd = 24, turn_deg = {}, slope_across_pct = {} }}
pin = {{ along_yd = 3, side_yd = {} }}
areas = [
  {{ lie = 'sand', at_yd = 200, side_yd = {}, length_yd = 18, width_yd = 9, turn_deg = {} }},
  {{ lie = 'out of bounds', side_from_yd = {} }},
  {{ lie = 'water', outline_yd = [[{}, 100], [{}, 110], [{}, 140]] }},
]",
            sign * turn,
            180.0 + sign * 45.0,
            sign * tilt,
            sign * 2.0,
            sign * 4.0,
            sign * side,
            sign * tilt,
            sign * 55.0,
            sign * across,
            sign * (across + 20.0),
            sign * (across + 7.0),
        ))
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn a_hole_mirrors_exactly(
        turn in -60.0..60.0,
        side in -40.0..40.0,
        tilt in -80.0..80.0,
        across in 10.0..30.0,
    ) {
        let [hole, other] = twins(turn, side, tilt, across);
        let mirrored = hole.mirrored();
        prop_assert_eq!(&mirrored.grid.lies, &other.grid.lies);
        prop_assert_eq!(&mirrored, &other);
        prop_assert_eq!(&mirrored.mirrored(), &hole);
    }
}

#[test]
fn an_island_is_no_part_of_its_area() {
    let hole = hole(&format!(
        "par = 4\nlength_yd = 400\n{GREEN}\nareas = [{{ lie = 'water', outline_yd = [[-60, 100], [-20, 100], [-20, 140], [-60, 140]], \
         islands_yd = [[[-50, 110], [-40, 110], [-40, 120], [-50, 120]], [[-30, 130], [-25, 130], [-25, 135], [-30, 135]]] }}]"
    ));
    // Forty by forty yards, without ten by ten and five by five.
    assert_eq!(cells(&hole.grid, Lie::Water), 1600 - 100 - 25);
    assert_eq!(hole.grid.lie(-45.5, 115.5), Lie::Rough);
    assert_eq!(hole.grid.lie(-45.5, 125.5), Lie::Water);
}
