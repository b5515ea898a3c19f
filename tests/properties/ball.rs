//! One ball: a mirror, wind, turf and greens.

use costcard::ball::Strike;
use costcard::ball::air::{Air, Atmosphere};
use costcard::ball::flight::{Flight, fly};
use costcard::ball::putt::{Putt, PuttStroke};
use costcard::ball::turf::{Firmness, Slope, Surface, Turf};
use costcard::units::{Angle, Length, Speed, Spin};
use proptest::prelude::*;

const LEVEL: Slope = Slope {
    along_pct: 0.0,
    across_pct: 0.0,
};

fn strike([speed, launch, direction, backspin, sidespin]: [f64; 5]) -> Strike {
    Strike {
        ball_speed: Speed::from_mph(speed),
        launch: Angle::from_deg(launch),
        direction: Angle::from_deg(direction),
        backspin: Spin::from_rpm(backspin),
        sidespin: Spin::from_rpm(sidespin),
    }
}

/// Any strike that can be typed.
fn any_strike() -> impl Strategy<Value = [f64; 5]> {
    let figures = (
        20.0..220.0,
        -20.0..70.0,
        -45.0..45.0,
        -3000.0..15000.0,
        -8000.0..8000.0,
    );
    figures.prop_map(|(speed, launch, direction, backspin, sidespin)| {
        [speed, launch, direction, backspin, sidespin]
    })
}

fn wind(mph: f64, from_deg: f64) -> Atmosphere {
    Atmosphere::new(&Air {
        wind: Speed::from_mph(mph),
        wind_from: Angle::from_deg(from_deg),
        ..Air::standard()
    })
}

fn figures(flight: &Flight) -> [f64; 5] {
    [
        flight.carry.m(),
        flight.side.m(),
        flight.apex.m(),
        flight.time_s,
        flight.descent.rad(),
    ]
}

/// A drive that is topped ends shorter than one that is hit thin, and that shorter than one that is struck, on any turf.
#[test]
fn the_lower_a_thin_drive_starts_the_shorter_it_ends() {
    let air = Atmosphere::new(&Air::standard());
    for mph in [90.0, 120.0, 150.0, 170.0] {
        for firmness in [Firmness::SOFT, Firmness::MEDIUM, Firmness::FIRM] {
            let fairway = Turf::new(Surface::Fairway, firmness, 10.0, LEVEL);
            let ends = [-5.0, 0.0, 0.5, 1.0, 2.0, 4.0].map(|launch| {
                let flight = fly(&strike([mph, launch, 0.0, 2500.0, 0.0]), &air);
                flight.carry.yd() + fairway.run(&flight.landing).along.yd()
            });
            assert!(ends.is_sorted(), "{mph} mph: {ends:?}");
        }
    }
}

proptest! {
    #[test]
    fn whatever_can_be_typed_flies_to_somewhere(
        figures_struck in any_strike(),
        mph in 0.0..60.0,
        from in 0.0..360.0,
    ) {
        let flight = fly(&strike(figures_struck), &wind(mph, from));
        for figure in figures(&flight) {
            prop_assert!(figure.is_finite(), "{:?}", flight);
        }
        prop_assert!(flight.apex.m() >= 0.0 && flight.time_s >= 0.0, "{:?}", flight);
        prop_assert!(flight.carry.yd().abs() < 700.0 && flight.side.yd().abs() < 700.0, "{:?}", flight);
    }

    #[test]
    fn a_mirrored_strike_in_mirrored_wind_flies_the_mirrored_way(
        [speed, launch, direction, backspin, sidespin] in any_strike(),
        mph in 0.0..40.0,
        from in 0.0..360.0,
    ) {
        let here = fly(&strike([speed, launch, direction, backspin, sidespin]), &wind(mph, from));
        let there = fly(&strike([speed, launch, -direction, backspin, -sidespin]), &wind(mph, -from));
        let [carry, side, apex, time, descent] = figures(&there);
        for (a, b) in figures(&here).into_iter().zip([carry, -side, apex, time, descent]) {
            prop_assert!((a - b).abs() < 1e-6, "{:?} and {:?}", here, there);
        }
    }

    /// More friction, less run; more speed, more.
    #[test]
    fn a_ball_rolls_farther_on_a_faster_green_and_when_it_is_faster(
        mps in 0.5..5.0,
        faster in 1.05..2.0,
        stimp_ft in 5.0..15.0,
        quicker in 1.05..1.5,
    ) {
        let roll = |mps, stimp_ft| {
            let turf = Turf::new(Surface::Green, Firmness::MEDIUM, stimp_ft, LEVEL);
            turf.roll_out(mps, Angle::ZERO).along.m()
        };
        let usual = roll(mps, stimp_ft);
        prop_assert!(usual > 0.0);
        prop_assert!(roll(mps, stimp_ft * quicker) > usual);
        prop_assert!(roll(mps * faster, stimp_ft) > usual);
    }

    #[test]
    fn a_ball_rolls_farther_downhill_than_uphill(mps in 0.5..2.0, pct in 0.5..3.0_f64) {
        let roll = |along_pct: f64| {
            let slope = Slope { along_pct, across_pct: 0.0 };
            Turf::new(Surface::Green, Firmness::MEDIUM, 9.0, slope).roll_out(mps, Angle::ZERO).along.m()
        };
        prop_assert!(roll(-pct) > roll(0.0) && roll(0.0) > roll(pct));
    }

    #[test]
    fn putts_from_farther_off_and_by_worse_putters_go_in_less_often(
        ft in 2.0..40.0,
        farther in 1.1..3.0,
        direction_sd_deg in 0.5..4.0,
        length_sd_pct in 4.0..25.0,
        worse in 1.1..2.0,
    ) {
        let holed = |ft: f64, direction_sd_deg: f64| {
            let stroke = PuttStroke { direction_sd_deg, length_sd_pct, past_ft: 1.0 };
            Putt::new(&stroke, Length::from_ft(ft), 10.0).holed()
        };
        let usual = holed(ft, direction_sd_deg);
        prop_assert!((0.0..=1.0).contains(&usual), "{}", usual);
        prop_assert!(holed(ft * farther, direction_sd_deg) <= usual + 1e-9);
        prop_assert!(holed(ft, direction_sd_deg * worse) <= usual + 1e-9);
    }
}
