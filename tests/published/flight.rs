//! The integrator against computed trajectories, and the ball against measured flights and the rules.

use costcard::ball::Strike;
use costcard::ball::aero::{Coefficients, Flow};
use costcard::ball::air::{Air, Atmosphere};
use costcard::ball::flight::{Flight, fly, fly_with};
use costcard::ball::turf::{Firmness, Slope, Surface, Turf};
use costcard::units::{Angle, Length, Speed, Spin, Temperature};
use wide::f64x8;

use super::checks::Check;
use super::{number, table};

fn strike(ball_mph: f64, launch_deg: f64, backspin_rpm: f64) -> Strike {
    Strike {
        ball_speed: Speed::from_mph(ball_mph),
        launch: Angle::from_deg(launch_deg),
        direction: Angle::ZERO,
        backspin: Spin::from_rpm(backspin_rpm),
        sidespin: Spin::ZERO,
    }
}

fn standard() -> Atmosphere {
    Atmosphere::new(&Air::standard())
}

/// Source: A.J. Smits & D.R. Smith (1994), Science and Golf II, 340–347.
struct SmitsSmith;

impl Coefficients for SmitsSmith {
    fn drag_and_lift(&self, flow: &Flow) -> (f64x8, f64x8) {
        flow.ball_by_ball(|flow| {
            let s = flow.spin_ratio;
            let wave = (std::f64::consts::PI * (flow.reynolds - 90_000.0) / 200_000.0).sin();
            (0.24 + 0.18 * s + 0.06 * wave, 0.54 * s.powf(0.4))
        })
    }
}

/// Source: S.J. Quintavalla (2002), Science and Golf IV (from memory, one second-hand confirmation).
struct Quintavalla;

impl Coefficients for Quintavalla {
    fn drag_and_lift(&self, flow: &Flow) -> (f64x8, f64x8) {
        let s = flow.spin_ratio;
        (s * 0.62 + 0.171, s * 0.885 + 0.083)
    }
}

/// Source: P.W. Bearman & J.K. Harvey (1976), Aeronautical Quarterly 27, 112–122; straight lines between the
/// speeds and spins measured, held at the ends.
struct BearmanHarvey {
    rows: Vec<[f64; 4]>,
}

const SPEEDS: usize = 10;

impl BearmanHarvey {
    fn read() -> Self {
        let rows = table(include_str!("data/drag-lift-1976.csv"));
        Self {
            rows: rows
                .iter()
                .map(|r| std::array::from_fn(|c| number(r, c)))
                .collect(),
        }
    }

    /// One column at a speed, in one block of equal spin.
    fn at_speed(&self, block: usize, speed_mps: f64, column: usize) -> f64 {
        let rows = &self.rows[block * SPEEDS..(block + 1) * SPEEDS];
        along(speed_mps, rows.len(), |i| rows[i][0], |i| rows[i][column])
    }

    fn read_off(&self, flow: &Flow<f64>, column: usize) -> f64 {
        let spin_rpm = Spin::from_rad_s(flow.spin_rad_s).rpm();
        let blocks = self.rows.len() / SPEEDS;
        along(
            spin_rpm,
            blocks,
            |b| self.rows[b * SPEEDS][1],
            |b| self.at_speed(b, flow.speed_mps, column),
        )
    }
}

/// Straight lines through points `(x(i), y(i))`, held at both ends.
fn along(at: f64, points: usize, x: impl Fn(usize) -> f64, y: impl Fn(usize) -> f64) -> f64 {
    let at = at.clamp(x(0), x(points - 1));
    let i = (1..points - 1).find(|i| x(*i) > at).unwrap_or(points - 1) - 1;
    y(i) + (y(i + 1) - y(i)) * (at - x(i)) / (x(i + 1) - x(i))
}

impl Coefficients for BearmanHarvey {
    fn drag_and_lift(&self, flow: &Flow) -> (f64x8, f64x8) {
        flow.ball_by_ball(|flow| (self.read_off(flow, 2), self.read_off(flow, 3)))
    }
}

/// Launch in m/s, degrees and rpm, and what comes of it: carry m, apex m, time s, descent °, landing m/s, landing rpm.
type Computed = ([f64; 3], [f64; 6]);

/// What a trajectory is told by, and to which half digit.
const FIGURES: [(&str, &str, f64); 6] = [
    ("carry", "m", 0.05),
    ("apex", "m", 0.05),
    ("time", "s", 0.005),
    ("descent", "°", 0.05),
    ("landing speed", "m/s", 0.05),
    ("landing spin", "rpm", 0.5),
];

fn check_computed<C: Coefficients>(mut check: Check, ball: &C, rows: &[Computed]) {
    let air = Atmosphere::still(1.2041, 1.51e-5);
    for ([mps, deg, rpm], expected) in rows {
        let flight = fly_with(ball, &strike(Speed::from_mps(*mps).mph(), *deg, *rpm), &air);
        let got = [
            flight.carry.m(),
            flight.apex.m(),
            flight.time_s,
            flight.descent.deg(),
            flight.landing.velocity_mps.length(),
            Spin::from_rad_s(flight.landing.spin_rad_s.length()).rpm(),
        ];
        for ((got, expected), (name, unit, rounding)) in got.iter().zip(expected).zip(FIGURES) {
            // 0.5 %, and half the last printed digit.
            let allowed = 0.005 * expected + rounding;
            let name = format!("{mps} m/s, {deg}°, {rpm} rpm: {name}");
            check.within(&name, unit, (*expected, allowed), *got);
        }
    }
    check.told();
    check.hold();
}

// Source of the three tables: trajectories computed from the published coefficients with 45.93 g, 42.67 mm,
// 1.2041 kg/m³, 1.51e-5 m²/s, 9.81 m/s², no wind and the spin decay of Smits & Smith. A check of the integrator,
// not of nature.

#[test]
fn integrator_matches_trajectories_of_bearman_and_harvey() {
    let rows = [
        (
            [50.0, 15.0, 3500.0],
            [148.6, 18.4, 5.22, 35.6, 24.0, 3028.0],
        ),
        (
            [50.0, 30.0, 3500.0],
            [148.1, 41.2, 6.84, 52.7, 26.3, 2974.0],
        ),
        (
            [58.0, 15.0, 4000.0],
            [180.6, 27.6, 6.35, 42.3, 24.8, 3342.0],
        ),
        (
            [70.0, 10.0, 3000.0],
            [221.4, 24.5, 6.37, 36.4, 26.5, 2420.0],
        ),
        (
            [78.68, 10.0, 2520.0],
            [250.5, 29.1, 6.77, 38.1, 28.3, 1975.0],
        ),
        (
            [81.81, 11.0, 2220.0],
            [263.0, 32.8, 7.06, 39.4, 28.8, 1716.0],
        ),
        (
            [55.0, 16.0, 5500.0],
            [160.6, 28.1, 6.23, 45.7, 23.7, 4676.0],
        ),
    ];
    let check = Check::new(
        module_path!(),
        "integration of the flight, drag and lift of 1976",
        "trajectories computed from P.W. Bearman & J.K. Harvey 1976",
    );
    check_computed(check, &BearmanHarvey::read(), &rows);
}

#[test]
fn integrator_matches_trajectories_of_smits_and_smith() {
    let rows = [
        (
            [50.0, 15.0, 3500.0],
            [154.1, 19.8, 5.39, 34.4, 25.7, 3011.0],
        ),
        (
            [50.0, 30.0, 3500.0],
            [156.1, 42.8, 7.02, 49.9, 28.0, 2951.0],
        ),
        (
            [58.0, 15.0, 4000.0],
            [185.4, 29.8, 6.57, 40.7, 26.6, 3324.0],
        ),
        (
            [70.0, 10.0, 3000.0],
            [215.9, 28.2, 6.61, 38.0, 27.5, 2428.0],
        ),
        (
            [55.0, 16.0, 5500.0],
            [175.1, 31.6, 6.74, 42.8, 25.9, 4607.0],
        ),
    ];
    let check = Check::new(
        module_path!(),
        "integration of the flight, drag and lift of 1994",
        "trajectories computed from A.J. Smits & D.R. Smith 1994",
    );
    check_computed(check, &SmitsSmith, &rows);
}

#[test]
fn integrator_matches_trajectories_of_quintavalla() {
    let rows = [
        (
            [50.0, 15.0, 3500.0],
            [148.9, 18.3, 5.20, 34.7, 24.1, 3027.0],
        ),
        (
            [50.0, 30.0, 3500.0],
            [149.9, 41.2, 6.95, 52.6, 26.2, 2969.0],
        ),
        (
            [58.0, 15.0, 4000.0],
            [181.5, 28.2, 6.49, 42.7, 24.5, 3338.0],
        ),
        (
            [70.0, 10.0, 3000.0],
            [227.4, 25.9, 6.45, 36.5, 27.2, 2406.0],
        ),
        (
            [78.68, 10.0, 2520.0],
            [264.0, 32.0, 7.01, 38.6, 29.1, 1948.0],
        ),
        (
            [81.81, 11.0, 2220.0],
            [279.8, 36.4, 7.30, 40.2, 30.2, 1687.0],
        ),
        (
            [55.0, 16.0, 5500.0],
            [159.5, 31.1, 6.85, 47.9, 22.5, 4669.0],
        ),
    ];
    let check = Check::new(
        module_path!(),
        "integration of the flight, drag and lift of 2002",
        "trajectories computed from S.J. Quintavalla 2002, from memory",
    );
    check_computed(check, &Quintavalla, &rows);
}

/// Source: average flights of tour professionals (common practice, no published source). The constants were
/// fitted to rows 1, 3, 5 …, which are no evidence; these are rows 2, 4, 6 …. One row may be off.
#[test]
fn ball_flies_as_the_tour_averages_left_out_of_the_fit() {
    let rows = table(include_str!("data/tour-flight-averages.csv"));
    let mut check = Check::new(
        module_path!(),
        "carry, apex and descent of average tour flights",
        "figures of the trade, written down from memory",
    );
    let mut off = Vec::new();
    for (index, row) in rows.iter().enumerate() {
        let flight = fly(
            &strike(number(row, 2), number(row, 3), number(row, 4)),
            &standard(),
        );
        let [carry, apex, descent] = [5, 6, 7].map(|column| number(row, column));
        let fitted = index % 2 == 0;
        let mut holds = true;
        for (name, unit, allowed, got) in [
            ("carry", "yd", (carry, 0.04 * carry), flight.carry.yd()),
            ("apex", "yd", (apex, 4.0), flight.apex.yd()),
            ("descent", "°", (descent, 4.0), flight.descent.deg()),
        ] {
            let name = format!("{} {}: {name}", row[0], row[1]);
            let row = check.within(&name, unit, allowed, got);
            row.fitted_if(fitted);
            holds &= row.holds();
        }
        if !fitted && !holds {
            off.push(format!("{} {}: {flight:?}", row[0], row[1]));
        }
    }
    check.told();
    assert!(off.len() <= 1, "{off:#?}");
}

/// Carry and run of a drive on a medium fairway, yd.
fn drive_yd(ball_mph: f64, launch_deg: f64, rpm: f64) -> f64 {
    let flight = fly(&strike(ball_mph, launch_deg, rpm), &standard());
    let fairway = Turf::new(Surface::Fairway, Firmness::MEDIUM, 10.0, Slope::LEVEL);
    (flight.carry + fairway.run(&flight.landing).along).yd()
}

/// Source: R&A and USGA, Equipment Rules: at most 317 + 3 yd at this launch. Balls of today are at the limit.
#[test]
fn distance_standard_to_2027_is_just_met() {
    let total = drive_yd(176.0, 10.0, 2520.0);
    let mut check = Check::new(
        module_path!(),
        "the distance standard in force to 2027 (at most 320 yd)",
        "Equipment Rules, R&A and USGA",
    );
    check.between("carry and run", "yd", 300.0..=322.0, total);
    check.told();
    check.hold();
}

/// Source: R&A and USGA, statement of 6 December 2023: the longest hitters lose 9–11 yd. The same ball at the
/// launch from 2028 goes too far by about that; to 20 yd, since the balls of today are not all at the limit.
#[test]
fn launch_of_2028_adds_what_the_change_is_said_to_take() {
    let more = drive_yd(183.0, 11.0, 2220.0) - drive_yd(176.0, 10.0, 2520.0);
    let mut check = Check::new(
        module_path!(),
        "what the launch of 2028 adds",
        "R&A and USGA, 6 December 2023",
    );
    check.between("carry and run", "yd", 9.0..=20.0, more);
    check.told();
    check.hold();
}

fn drive_in(air: Air) -> Flight {
    fly(&strike(167.0, 10.9, 2686.0), &Atmosphere::new(&air))
}

/// Source: USGA test centre in Golfweek (2002): 1.7–2 % per 1000 ft; air alone gives 0.9–2.1 % over the clubs.
/// One constant of the ball (how fast the slow drag falls) was held by this rule, so it is a check, not evidence.
#[test]
fn altitude_carries_a_ball_farther() {
    let mut check = Check::new(
        module_path!(),
        "gain of carry for 1000 ft of altitude",
        "USGA test centre, 2002",
    );
    for (mph, deg, rpm) in [
        (167.0, 10.9, 2686.0),
        (145.0, 12.0, 2900.0),
        (132.0, 12.1, 5361.0),
        (120.0, 16.3, 7097.0),
    ] {
        let at = |ft: f64| {
            let air = Air {
                altitude: Length::from_ft(ft),
                ..Air::standard()
            };
            fly(&strike(mph, deg, rpm), &Atmosphere::new(&air))
                .carry
                .yd()
        };
        let per_1000_ft = (at(1000.0) / at(0.0) - 1.0) * 100.0;
        let name = format!("{mph} mph, {deg}°, {rpm} rpm");
        check
            .between(&name, "%", 0.9..=2.1, per_1000_ft)
            .fitted_if(true);
    }
    check.told();
    check.hold();
}

/// Source: F. Thomas, former USGA technical director: just over 3 yd per 10 °F at 230 yd, ball and air together.
/// The air is the smaller part of it: more than a half, less than three yards.
#[test]
fn warm_air_carries_a_ball_farther() {
    let at = |f: f64| {
        let air = Air {
            temperature: Temperature::from_f(f),
            ..Air::standard()
        };
        fly(&strike(145.0, 12.0, 2900.0), &Atmosphere::new(&air))
            .carry
            .yd()
    };
    assert!((at(75.0) - 230.0).abs() < 8.0, "{} yd", at(75.0));
    let more = at(85.0) - at(75.0);
    let mut check = Check::new(
        module_path!(),
        "gain of carry for 10 °F, the air's part",
        "F. Thomas, former USGA technical director: 3 yd with the ball's part",
    );
    check.between("at 230 yd", "yd", 0.5..=3.3, more);
    check.told();
    check.hold();
}

/// Source: the trade's rule, as F. Thomas and the USGA state it.
#[test]
fn headwind_costs_more_than_the_same_tailwind_gives() {
    let wind = |mph: f64, from: f64| Air {
        wind: Speed::from_mph(mph),
        wind_from: Angle::from_deg(from),
        ..Air::standard()
    };
    let calm = drive_in(Air::standard()).carry.yd();
    for mph in [5.0, 10.0, 20.0] {
        let lost = calm - drive_in(wind(mph, 0.0)).carry.yd();
        let won = drive_in(wind(mph, 180.0)).carry.yd() - calm;
        assert!(lost > won && won > 0.0, "{mph} mph: −{lost} +{won} yd");
    }
    assert!(drive_in(wind(10.0, 90.0)).side.yd() < -5.0);
}

/// Source: A.R. Penner (2001), Am. J. Phys. 69, 563: about 75 % of a drive's spin is left when it lands.
#[test]
fn three_quarters_of_a_drives_spin_are_left_at_landing() {
    let left =
        drive_in(Air::standard()).landing.spin_rad_s.length() / Spin::from_rpm(2686.0).rad_s();
    let mut check = Check::new(
        module_path!(),
        "spin of a drive that is left when it lands",
        "A.R. Penner 2001",
    );
    check.between("share", "", 0.70..=0.80, left);
    check.told();
    check.hold();
}

#[test]
fn mirrored_strike_in_mirrored_wind_flies_mirrored() {
    let air = |from: f64| {
        Atmosphere::new(&Air {
            wind: Speed::from_mph(12.0),
            wind_from: Angle::from_deg(from),
            ..Air::standard()
        })
    };
    let hook = Strike {
        direction: Angle::from_deg(3.0),
        sidespin: Spin::from_rpm(-800.0),
        ..strike(150.0, 12.0, 3000.0)
    };
    let slice = Strike {
        direction: -hook.direction,
        sidespin: -hook.sidespin,
        ..hook
    };
    let (a, b) = (fly(&hook, &air(50.0)), fly(&slice, &air(-50.0)));
    assert_eq!(a.carry, b.carry);
    assert_eq!(a.side, -b.side);
    let straight = fly(
        &Strike {
            sidespin: Spin::from_rpm(500.0),
            ..strike(150.0, 12.0, 3000.0)
        },
        &standard(),
    );
    assert!(straight.side.yd() > 10.0);
}

#[test]
fn silly_strikes_pitch_at_once_or_at_least_come_down() {
    for (mph, deg) in [(0.0, 10.0), (100.0, -8.0), (100.0, 0.0)] {
        assert_eq!(
            fly(&strike(mph, deg, 3000.0), &standard()).carry,
            Length::ZERO,
            "{mph} mph, {deg}°"
        );
    }
    for (mph, deg, rpm) in [
        (1e9, 45.0, 1e9),
        (f64::NAN, 10.0, 1.0),
        (160.0, 90.0, 0.0),
        (20.0, 60.0, -9000.0),
        (160.0, 179.0, 12000.0),
    ] {
        let flight = fly(&strike(mph, deg, rpm), &standard());
        assert!(
            flight.carry.m().is_finite() && flight.time_s < 60.0,
            "{flight:?}"
        );
    }
}
