//! The whole engine against what tour professionals take from a distance and a lie.
//!
//! Source: M. Broadie (2012), Interfaces 42(2), 146–165, and (2014), Every Shot Counts, ch. 5; the table is
//! written down from memory, single cells may be off by 0.01–0.02.
//!
//! The tour level's short game and spreads and the table of lies were set with every other distance of
//! each lie (20, 40, 60, 80, 100, 140, 180, 220, 260 yd) in view. The others are evidence.

use costcard::course::{Course, Lie};
use costcard::player::{Golfer, Sex};
use costcard::round::finish::Spot;
use costcard::round::place::Xy;
use costcard::round::stage::Stage;

use super::checks::Check;
use super::{number, table};
use crate::support::{course, level};

/// A straight hole without trouble: fairway 36 yd wide, rough on both sides, a green of usual size
/// (30 × 28 yd: about 6000 square feet, as on tour), and narrow strips of sand to start from.
fn ground(pin: &str) -> Course {
    course(&format!(
        r#"
name = "Ground"
[[holes]]
par = 5
length_yd = 640
fairway_width_yd = 36
rough_width_yd = 60
beyond = "rough"
pin = "{pin}"
green = {{ depth_yd = 30, width_yd = 28, stimp_ft = 11 }}
areas = [
  {{ lie = "sand", side_from_yd = 40, side_to_yd = 42, from_yd = 300, to_yd = 600 }},
  {{ lie = "sand", side_from_yd = 6, side_to_yd = 8, from_yd = 590, to_yd = 622 }},
]
"#
    ))
}

/// Expected strokes of a golfer from the distances of `rows` and a lie.
fn expected(golfer: &Golfer, lie: Lie, distances_yd: &[f64]) -> Vec<f64> {
    let [front, middle] = ["front", "middle"].map(ground);
    let golfers = [golfer];
    let from = |course: &Course, distance_yd: f64| {
        let stage = Stage::new(course, &golfers);
        let banks = stage.hole_banks();
        let side = stage.side(|_| 0);
        let solved = stage.solve(&banks, &side, None);
        let across_yd: f64 = match lie {
            Lie::Rough => 24.0,
            Lie::Sand if distance_yd > 50.0 => 41.0,
            Lie::Sand => 7.0,
            _ => 0.0,
        };
        let across_yd = across_yd.min(0.8 * distance_yd);
        let pin = course.holes[0].pin;
        let back_yd = (distance_yd.powi(2) - across_yd.powi(2)).sqrt();
        let at = Xy::new((pin.x_yd + across_yd) as f32, (pin.y_yd - back_yd) as f32);
        f64::from(solved[0].values.at(Spot { at, lie }))
    };
    // From 30 yd and nearer a ball off the green means a hole cut near the edge.
    let pick = |distance_yd: &f64| {
        let course = if *distance_yd <= 30.0 {
            &front
        } else {
            &middle
        };
        from(course, *distance_yd)
    };
    distances_yd.iter().map(pick).collect()
}

/// Distances and published strokes of one lie, 20 to 260 yd.
fn published(column: usize) -> Vec<(f64, f64)> {
    table(include_str!("data/tour-strokes-to-hole-out.csv"))
        .iter()
        .map(|row| (number(row, 0), number(row, column)))
        .filter(|(distance_yd, _)| (20.0..=260.0).contains(distance_yd))
        .collect()
}

fn compare(mut check: Check, lie: Lie, column: usize, most: f64) {
    let rows = published(column);
    let distances: Vec<f64> = rows.iter().map(|row| row.0).collect();
    let found = expected(&level("tour", Sex::Men), lie, &distances);
    let mut squares = [Vec::new(), Vec::new()];
    for (index, ((distance_yd, published), found)) in rows.iter().zip(&found).enumerate() {
        println!(
            "{lie:?} {distance_yd:>4} yd: {found:.3}, published {published:.2}, {:+.3}",
            found - published
        );
        squares[index % 2].push((found - published).powi(2));
    }
    let root_mean = |squares: &[f64]| (squares.iter().sum::<f64>() / squares.len() as f64).sqrt();
    let [in_view, left_out] = squares.map(|squares| root_mean(&squares));
    println!("{lie:?}: {in_view:.3} in view, {left_out:.3} left out");
    check.at_most("distances left out", "strokes", most, left_out);
    check
        .at_most("distances in view", "strokes", most, in_view)
        .fitted_if(true);
    check.told();
    check.hold();
}

const SOURCE: &str = "M. Broadie 2012, 2014, mostly from memory";

#[test]
fn tour_strokes_from_the_fairway() {
    let check = Check::new(
        module_path!(),
        "strokes to hole out by tour professionals from the fairway, root-mean-square error",
        SOURCE,
    );
    compare(check, Lie::Fairway, 2, 0.08);
}

#[test]
fn tour_strokes_from_rough() {
    let check = Check::new(
        module_path!(),
        "strokes to hole out by tour professionals from rough, root-mean-square error",
        SOURCE,
    );
    compare(check, Lie::Rough, 3, 0.12);
}

#[test]
fn tour_strokes_from_sand() {
    let check = Check::new(
        module_path!(),
        "strokes to hole out by tour professionals from sand, root-mean-square error",
        SOURCE,
    );
    compare(check, Lie::Sand, 4, 0.12);
}
