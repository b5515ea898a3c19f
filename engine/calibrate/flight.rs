//! The fit of the ball's drag and lift to every other row of the average tour flights.

use std::error::Error;

use costcard::ball::Strike;
use costcard::ball::aero::FittedBall;
use costcard::ball::air::{Air, Atmosphere};
use costcard::ball::flight::{Flight, fly_with};
use costcard::units::{Angle, Speed, Spin};

use crate::nelder_mead::least;

/// One published flight.
struct Row {
    name: String,
    strike: Strike,
    carry_yd: f64,
    apex_yd: f64,
    descent_deg: f64,
}

/// Fits and prints.
pub fn fit() -> Result<(), Box<dyn Error>> {
    let rows = read()?;
    let fitted: Vec<&Row> = rows.iter().step_by(2).collect();
    let air = Atmosphere::new(&Air::standard());
    let cost = |x: &[f64]| {
        fitted
            .iter()
            .map(|row| misfit(row, &fly_with(&ball(x), &row.strike, &air)))
            .sum::<f64>()
            + bounds(x)
    };
    let scale = [0.03, 0.1, 0.1, 0.05, 0.1, 0.1, 0.05, 0.05];
    let (best, value) = starts()
        .iter()
        .map(|start| least(cost, start, &scale))
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .ok_or("no start")?;
    println!("{:#?}", ball(&best));
    println!("cost over {} rows: {value:.3}", fitted.len());
    println!(
        "row                     carry yd       apex yd      descent deg   (F: used in the fit)"
    );
    for (index, row) in rows.iter().enumerate() {
        print(
            row,
            index % 2 == 0,
            &fly_with(&ball(&best), &row.strike, &air),
        );
    }
    Ok(())
}

/// Where the search begins: fast balls with more or less drag, and a lift that saturates early or late.
fn starts() -> Vec<[f64; 8]> {
    let mut starts = Vec::new();
    for drag in [0.12, 0.16, 0.20] {
        for (lift, half, by_spin) in [(0.28, 0.12, 0.05), (0.20, 0.05, 0.2), (0.6, 0.4, -0.1)] {
            for slow in [0.1, 0.3] {
                starts.push([drag, 0.5, -0.2, slow, 0.3, lift, half, by_spin]);
            }
        }
    }
    starts
}

fn ball(x: &[f64]) -> FittedBall {
    FittedBall {
        drag: x[0],
        drag_by_spin: x[1],
        drag_by_spin_squared: x[2],
        slow_drag: x[3],
        slow_drag_fall: x[4],
        lift: x[5],
        lift_half_spin: x[6],
        lift_by_spin: x[7],
    }
}

/// What is left over: 2 % of carry, 1.5 yd of apex and 1.5° of descent weigh the same. The logarithm keeps one
/// odd row (the averages are from memory, and the women's 3 wood fits none of its neighbours) from bending the rest.
fn misfit(row: &Row, flight: &Flight) -> f64 {
    let carry = (flight.carry.yd() / row.carry_yd - 1.0) / 0.02;
    let apex = (flight.apex.yd() - row.apex_yd) / 1.5;
    let descent = (flight.descent.deg() - row.descent_deg) / 1.5;
    [carry, apex, descent].iter().map(|x| (x * x).ln_1p()).sum()
}

/// Keeps the search where the form makes sense. Lift and lift by spin trade against each other almost freely,
/// so the last one needs an end. The slow drag may fall no more slowly than by 0.1: the flights alone would take
/// 0.2, but then so much of the drag hangs on the Reynolds number that thin air gains less than the 0.9 % of carry
/// per 1000 ft that is published.
fn bounds(x: &[f64]) -> f64 {
    let least = [0.05, 0.0, -2.0, 0.0, 0.03, 0.0, 0.005, -2.0];
    let most = [
        f64::MAX,
        f64::MAX,
        f64::MAX,
        f64::MAX,
        0.1,
        f64::MAX,
        f64::MAX,
        f64::MAX,
    ];
    let outside = |x: f64, least: f64, most: f64| (least - x).max(x - most).max(0.0) * 1e6;
    (0..x.len()).map(|i| outside(x[i], least[i], most[i])).sum()
}

fn print(row: &Row, used: bool, flight: &Flight) {
    println!(
        "{:22}{} {:5.1} {:+5.1} {:7.1} {:+5.1} {:7.1} {:+5.1}",
        row.name,
        if used { 'F' } else { ' ' },
        flight.carry.yd(),
        flight.carry.yd() - row.carry_yd,
        flight.apex.yd(),
        flight.apex.yd() - row.apex_yd,
        flight.descent.deg(),
        flight.descent.deg() - row.descent_deg
    );
}

fn read() -> Result<Vec<Row>, Box<dyn Error>> {
    let mut rows = Vec::new();
    for record in crate::table("tour-flight-averages.csv")? {
        let number = |column: usize| record[column].parse::<f64>();
        rows.push(Row {
            name: format!("{} {}", &record[0], &record[1]),
            strike: Strike {
                ball_speed: Speed::from_mph(number(2)?),
                launch: Angle::from_deg(number(3)?),
                direction: Angle::ZERO,
                backspin: Spin::from_rpm(number(4)?),
                sidespin: Spin::ZERO,
            },
            carry_yd: number(5)?,
            apex_yd: number(6)?,
            descent_deg: number(7)?,
        });
    }
    Ok(rows)
}
