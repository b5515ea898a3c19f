//! A club delivered with more loft: launch, spin, apex and descent move together, as the impact model has it.

use costcard::ball::air::{Air, Atmosphere};
use costcard::ball::flight::fly;
use costcard::ball::impact::{Delivery, Head};
use costcard::player::batch::{Batch, Figures, Quantity};
use costcard::player::compare::Comparison;
use costcard::player::heads;
use costcard::player::pattern::{Five, Pattern, Sampler, strike_of};
use costcard::units::Angle;
use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;
use rayon::prelude::*;

use super::compare::{CLUBS, DEALS, batch, figures, patterns};

/// How the club must have been delivered; nothing for a strike that no delivery gives.
fn delivery(head: &Head, strike: &Five) -> Option<Delivery> {
    head.delivery(&strike_of(strike), None).ok()
}

/// A shot measured from club to landing: the strike as it would have been with so much more loft.
fn shot(head: &Head, strike: &Five, more: Angle) -> Option<Figures> {
    let plain = delivery(head, strike)?;
    let lofted = Delivery {
        dynamic_loft: plain.dynamic_loft + more,
        ..plain
    };
    let (before, after) = (head.strike(&plain), head.strike(&lofted));
    let lofted_strike = [
        strike[0] + (after.ball_speed - before.ball_speed).mph(),
        strike[1] + (after.launch - before.launch).deg(),
        strike[2] + (after.direction - before.direction).deg(),
        strike[3] + (after.backspin - before.backspin).rpm(),
        strike[4] + (after.sidespin - before.sidespin).rpm(),
    ];
    let flight = fly(
        &strike_of(&lofted_strike),
        &Atmosphere::new(&Air::standard()),
    );
    let mut figures = figures(&lofted_strike);
    for (quantity, value) in [
        (Quantity::Carry, flight.carry.yd()),
        (Quantity::Side, flight.side.yd()),
        (Quantity::Apex, flight.apex.yd()),
        (Quantity::Descent, flight.descent.deg()),
        (Quantity::ClubSpeed, lofted.club_speed.mph()),
        (Quantity::Attack, lofted.attack.deg()),
        (Quantity::Path, lofted.path.deg()),
        (Quantity::Face, lofted.face.deg()),
        (Quantity::DynamicLoft, lofted.dynamic_loft.deg()),
    ] {
        figures.measure(quantity, value);
    }
    Some(figures)
}

/// Standard deviation of the loft that normal strikes of a pattern are delivered with.
fn loft_spread(head: &Head, pattern: &Pattern) -> Angle {
    let sampler = pattern.sampler().unwrap();
    let mut rng = ChaCha8Rng::seed_from_u64(99);
    let lofts: Vec<f64> = (0..1000)
        .filter_map(|_| delivery(head, &sampler.random(&mut rng)))
        .map(|delivery| delivery.dynamic_loft.deg())
        .collect();
    let count = lofts.len() as f64;
    let mean = lofts.iter().sum::<f64>() / count;
    let squares: f64 = lofts.iter().map(|loft| (loft - mean).powi(2)).sum();
    Angle::from_deg((squares / count).sqrt())
}

/// Fifteen shots that have a delivery.
fn side(head: &Head, sampler: &Sampler, more: Angle, rng: &mut ChaCha8Rng) -> Batch {
    let mut shots = Vec::new();
    while shots.len() < 15 {
        let shot = shot(head, &sampler.random(rng), more);
        shots.extend(shot.map(|figures| (CLUBS[0], figures)));
    }
    batch(shots)
}

/// How often, in percent, a club delivered with so many spreads more loft is found to have changed: in any figure that
/// loft moves.
fn found_pct(spreads: f64) -> f64 {
    const PAIRS: u64 = 300;
    let is_found = |seed: &u64| {
        let mut rng = ChaCha8Rng::seed_from_u64(*seed);
        let head = heads::head(CLUBS[0]);
        let mut pattern = patterns(*seed)[0].1.clone();
        pattern.mishit.share = 0.0;
        let more = Angle::from_deg(spreads * loft_spread(&head, &pattern).deg());
        let sampler = pattern.sampler().unwrap();
        let [before, after] = [Angle::ZERO, more].map(|more| side(&head, &sampler, more, &mut rng));
        let compared = Comparison::of(&before, &after, DEALS).unwrap();
        compared.real().next().is_some()
    };
    let found = (0..PAIRS).into_par_iter().filter(is_found).count();
    let pct = 100.0 * found as f64 / PAIRS as f64;
    println!("{spreads} spreads more loft: found in {pct:.0} %");
    pct
}

#[test]
fn two_spreads_more_loft_are_found() {
    let pct = found_pct(2.0);
    assert!(pct >= 80.0, "{pct} %");
}

#[test]
#[ignore = "out of reach: loft moves all figures along one line, so that together they tell little more than loft alone, \
            of which the best test, uncorrected, finds one spread in 75 %; corrected for sixteen figures half remains"]
fn one_spread_more_loft_is_found() {
    let pct = found_pct(1.0);
    assert!(pct >= 80.0, "{pct} %");
}
