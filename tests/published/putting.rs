//! Putting against measured putts of tour professionals.

use costcard::ball::putt::{Putt, PuttStroke};
use costcard::ball::putts::PuttTable;
use costcard::units::Length;

use super::checks::Check;
use super::{number, table};

/// Constants of `cargo run --release --example calibrate putting`, which fits distances 1, 3, 5 … of the
/// putts holed and the three-putts from 20, 40 and 60 ft.
const TOUR: PuttStroke = PuttStroke {
    direction_sd_deg: 1.306,
    length_sd_pct: 9.06,
    past_ft: 0.870,
};

/// Stimpmeter reading of tour greens, ft (common practice, no published source).
const TOUR_STIMP_FT: f64 = 11.0;

fn tour() -> PuttTable {
    PuttTable::new(&TOUR, TOUR_STIMP_FT)
}

/// Source: M. Broadie (2018), printed in A. Gelman's golf putting case study (2019): 1.25 million tour putts.
/// `skip` 0 takes all 31 distances, 1 those left out of the fit.
fn error_of_putts_holed(skip: usize, step: usize) -> f64 {
    let rows = table(include_str!("data/putts-holed-tour.csv"));
    let squares: Vec<f64> = rows
        .iter()
        .skip(skip)
        .step_by(step)
        .map(|row| {
            let holed = Putt::new(&TOUR, Length::from_ft(number(row, 0)), TOUR_STIMP_FT).holed();
            (holed - number(row, 2) / number(row, 1)).powi(2)
        })
        .collect();
    (squares.iter().sum::<f64>() / squares.len() as f64).sqrt()
}

#[test]
fn tour_stroke_holes_the_measured_share_at_all_distances() {
    let (all, left_out) = (error_of_putts_holed(0, 1), error_of_putts_holed(1, 2));
    let mut check = Check::new(
        module_path!(),
        "putts holed by tour professionals, root-mean-square error of the share",
        "M. Broadie 2018, 1.25 million putts",
    );
    check.at_most("the 15 distances left out of the fit", "", 0.01, left_out);
    check
        .at_most("all 31 distances", "", 0.01, all)
        .fitted_if(true);
    check.told();
    check.hold();
}

/// Source: M. Broadie (2014), Every Shot Counts, from memory, ±2 points. 20, 40 and 60 ft were fitted; 30 and 50
/// were not.
#[test]
fn tour_three_putts_are_in_the_published_range() {
    let rows = table(include_str!("data/tour-putts-to-hole-out.csv"));
    let mut check = Check::new(
        module_path!(),
        "three-putts of tour professionals by distance",
        "M. Broadie 2014, from memory",
    );
    for row in rows.iter().filter(|row| !row[3].is_empty()) {
        let feet = number(row, 0);
        let three = 100.0 * tour().chances(feet)[2..].iter().sum::<f64>();
        check
            .within(&format!("{feet} ft"), "%", (number(row, 3), 2.0), three)
            .fitted_if([20.0, 40.0, 60.0].contains(&feet));
    }
    assert_eq!(check.rows.len(), 5);
    check.told();
    check.hold();
}

/// Source: M. Broadie (2011) and (2014); mostly from memory. Within 0.03 putts to 60 ft, 0.06 at 90 ft, where the
/// published mean comes from few putts.
#[test]
fn tour_putts_to_hole_out_match_the_published_means() {
    let mut check = Check::new(
        module_path!(),
        "putts to hole out by tour professionals",
        "M. Broadie 2011 and 2014, mostly from memory",
    );
    for row in table(include_str!("data/tour-putts-to-hole-out.csv")) {
        let (ft, published) = (number(&row, 0), number(&row, 1));
        let tolerance = if ft > 60.0 { 0.06 } else { 0.03 };
        let name = format!("{ft} ft");
        check.within(&name, "putts", (published, tolerance), tour().expected(ft));
    }
    check.told();
    check.hold();
}

#[test]
fn expected_putts_are_the_mean_of_the_draws() {
    let table = tour();
    for ft in [0.1, 2.3, 5.0, 17.7, 44.4, 120.0, 300.0] {
        let draws = 100_000;
        let sum: f64 = (0..draws)
            .map(|i| f64::from(table.draw(ft, (f64::from(i) + 0.5) / f64::from(draws))))
            .sum();
        let mean = sum / f64::from(draws);
        // Each chance is hit to one draw in 100 000.
        assert!(
            (table.expected(ft) - mean).abs() < 6e-5,
            "{ft} ft: {} against {mean}",
            table.expected(ft)
        );
        assert!((table.chances(ft).iter().sum::<f64>() - 1.0).abs() < 1e-12);
    }
}

#[test]
fn putts_grow_with_distance_and_with_error() {
    let wild = PuttTable::new(
        &PuttStroke {
            direction_sd_deg: 2.0,
            length_sd_pct: 14.0,
            past_ft: 0.870,
        },
        TOUR_STIMP_FT,
    );
    let tour = tour();
    for tenth_ft in 5..2000 {
        let ft = f64::from(tenth_ft) / 10.0;
        // A ten-thousandth of a putt for the quadrature.
        assert!(
            tour.expected(ft + 0.1) >= tour.expected(ft) - 1e-4,
            "{ft} ft: {}",
            tour.expected(ft)
        );
        assert!(
            wild.expected(ft) >= tour.expected(ft) - 1e-4,
            "{ft} ft: {}",
            wild.expected(ft)
        );
    }
    assert_eq!(tour.draw(f64::NAN, 0.3), 1);
    assert!((tour.expected(1e9) - tour.expected(400.0)).abs() < 1e-12);
}

/// The chances the quadrature hands out for what is left add up to the misses.
#[test]
fn holed_and_left_add_up_to_all_putts() {
    for ft in [1.0, 3.0, 8.0, 20.0, 60.0] {
        let putt = Putt::new(&TOUR, Length::from_ft(ft), TOUR_STIMP_FT);
        let mut missed = 0.0;
        putt.left(|_, chance| missed += chance);
        assert!(
            (putt.holed() + missed - 1.0).abs() < 1e-4,
            "{ft} ft: {} + {missed}",
            putt.holed()
        );
    }
}

/// Source: B.W. Holmes (1991), Am. J. Phys. 59, 129: at most 1.63 m/s at the centre. On a green of 10 ft that is
/// a ball that would stop 7.95 ft beyond the hole's front edge, 7.77 ft beyond its centre.
#[test]
fn hole_takes_a_centred_ball_up_to_its_fastest_speed_only() {
    let straight = |past_ft: f64| {
        let stroke = PuttStroke {
            direction_sd_deg: 0.0,
            length_sd_pct: 0.0,
            past_ft,
        };
        Putt::new(&stroke, Length::from_ft(10.0), 10.0).holed()
    };
    assert!(
        straight(7.7) > 0.999 && straight(7.85) < 0.001,
        "{} {}",
        straight(7.7),
        straight(7.85)
    );
    assert!(straight(-0.1) > 0.999 && straight(-0.25) < 0.001);
}

/// Common practice, no published source: fast greens are no easier to putt. Between 8 and 14 ft a round's putts rise;
/// on slow greens they stay within a quarter of a putt.
#[test]
fn faster_greens_take_more_putts() {
    let amateur = PuttStroke {
        direction_sd_deg: 2.05,
        length_sd_pct: 11.2,
        past_ft: 0.87,
    };
    for stroke in [TOUR, amateur] {
        // First putts of a round.
        let round = |stimp_ft: f64| {
            let table = PuttTable::new(&stroke, stimp_ft);
            (1..=18)
                .map(|i| table.expected(2.0 * f64::from(i)))
                .sum::<f64>()
        };
        let putts = [8.0, 10.0, 12.0, 14.0].map(round);
        assert!(putts.is_sorted_by(|a, b| a < b), "{putts:?}");
        assert!(
            (round(6.0) - putts[0]).abs() < 0.25,
            "{} {putts:?}",
            round(6.0)
        );
    }
}
