//! The fit of restitution and grip, one of each for a class of club, to the tours' average strikes and the club speed
//! and attack that go with them.
//!
//! The classes of two or four rows are fitted to all of them; of the irons every other row is left to the test.

use std::error::Error;

use costcard::ball::Strike;
use costcard::ball::impact::{Head, Restitution};
use costcard::player::club::{Class, Club};
use costcard::player::heads::head;
use costcard::units::{Angle, Speed, Spin};

use crate::nelder_mead::least;

/// What a miss of club speed weighs against one of attack: 1 % of the one as much as half a degree of the other.
const SPEED_SHARE: f64 = 0.01;
const ATTACK_DEG: f64 = 0.5;

/// One club of a tour: how it was delivered, and the ball.
struct Row {
    tour: String,
    club: Club,
    club_speed: Speed,
    attack: Angle,
    strike: Strike,
}

fn rows() -> Result<Vec<Row>, Box<dyn Error>> {
    let balls = crate::table("tour-flight-averages.csv")?;
    let mut rows = Vec::new();
    for row in crate::table("tour-club-delivery.csv")? {
        let ball = balls
            .iter()
            .find(|ball| ball[0] == row[0] && ball[1] == row[1])
            .ok_or_else(|| format!("no ball for the {} {}", &row[0], &row[1]))?;
        rows.push(Row {
            tour: row[0].to_owned(),
            club: row[1].parse()?,
            club_speed: Speed::from_mph(row[2].parse()?),
            attack: Angle::from_deg(row[3].parse()?),
            strike: Strike {
                ball_speed: Speed::from_mph(ball[2].parse()?),
                launch: Angle::from_deg(ball[3].parse()?),
                direction: Angle::ZERO,
                backspin: Spin::from_rpm(ball[4].parse()?),
                sidespin: Spin::ZERO,
            },
        });
    }
    Ok(rows)
}

/// Whether a club belongs to a class that is fitted by itself.
type Belongs = fn(Club) -> bool;

/// Fits and prints every class.
pub fn fit() -> Result<(), Box<dyn Error>> {
    let rows = rows()?;
    let classes: [(&str, Belongs); 4] = [
        ("driver", |club| club == Club::Driver),
        ("fairway wood", |club| {
            club.class() == Class::Wood && club != Club::Driver
        }),
        ("iron", |club| club.class() == Class::Iron),
        ("wedge", |club| club.class() == Class::Wedge),
    ];
    for (name, belongs) in classes {
        let of_class: Vec<&Row> = rows.iter().filter(|row| belongs(row.club)).collect();
        let step = if of_class.len() > 4 { 2 } else { 1 };
        let fitted: Vec<&Row> = of_class.iter().copied().step_by(step).collect();
        let cost = |x: &[f64]| fitted.iter().map(|row| cost(row, x)).sum::<f64>();
        let (best, _) = least(cost, &[0.86, 1.1], &[0.05, 0.1]);
        println!("{name}: at_rest {:.3}, grip {:.3}", best[0], best[1]);
        for row in of_class {
            report(row, &best);
        }
    }
    Ok(())
}

/// The club's head with other restitution at rest and grip.
fn with(club: Club, x: &[f64]) -> Head {
    let usual = head(club);
    Head {
        restitution: Restitution {
            at_rest: x[0],
            ..usual.restitution
        },
        grip: x[1],
        ..usual
    }
}

/// Misses of club speed (mph) and attack (°) of the delivery found from the ball alone.
fn misses(row: &Row, x: &[f64]) -> Option<(f64, f64)> {
    let found = with(row.club, x).delivery(&row.strike, None).ok()?;
    Some((
        found.club_speed.mph() - row.club_speed.mph(),
        found.attack.deg() - row.attack.deg(),
    ))
}

fn cost(row: &Row, x: &[f64]) -> f64 {
    misses(row, x).map_or(1e9, |(mph, degrees)| {
        (mph / row.club_speed.mph() / SPEED_SHARE).powi(2) + (degrees / ATTACK_DEG).powi(2)
    })
}

fn report(row: &Row, x: &[f64]) {
    if let Some((mph, degrees)) = misses(row, x) {
        println!(
            "  {:5} {:14} club speed {mph:+.1} mph, attack {degrees:+.1}°",
            row.tour,
            row.club.to_string()
        );
    }
}
