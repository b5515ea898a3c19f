//! How often a club holds a green.

use crate::ball::flight::Flight;
use crate::ball::turf::{Firmness, Slope, Surface, Turf};

/// The green aimed at: level, of this depth and width, Stimpmeter 10. Common practice, no published source: a middling
/// green is 25 to 35 yd deep.
pub const DEPTH_YD: f64 = 30.0;
/// Its width.
pub const WIDTH_YD: f64 = 30.0;
const STIMP_FT: f64 = 10.0;

/// Steps in which the aim is moved to and fro.
const AIM_STEP_YD: f64 = 0.5;

/// One shot: where it pitched and where it came to rest, yards along and across, and what it counts.
struct Ended {
    pitch: [f64; 2],
    rest: [f64; 2],
    weight: f64,
}

/// Of the shots that pitch on the green, the share that stay on it, percent.
///
/// The player aims so that as many of all his shots as possible pitch on the green and stay: a flat shot at the front
/// of it, a steep one at its middle. Nothing when no shot stays wherever he aims and none pitches on it.
pub fn held_pct(shots: &[(Flight, f64)], firmness: Firmness) -> f64 {
    let turf = Turf::new(Surface::Green, firmness, STIMP_FT, Slope::LEVEL);
    let ended: Vec<Ended> = shots.iter().map(|shot| end(shot, &turf)).collect();
    let total: f64 = ended.iter().map(|shot| shot.weight).sum();
    let aim_across = middle(&ended);
    let carries = || ended.iter().map(|shot| shot.pitch[0]);
    let (nearest, farthest) = (
        carries().fold(f64::INFINITY, f64::min),
        carries().fold(f64::NEG_INFINITY, f64::max),
    );
    let steps = ((farthest - nearest + DEPTH_YD) / AIM_STEP_YD).ceil() as usize;
    let fronts = (0..=steps).map(|step| nearest - DEPTH_YD + AIM_STEP_YD * step as f64);
    let best = fronts
        .map(|front| count(&ended, front, aim_across))
        .max_by(|a, b| {
            (a.held, a.pitched)
                .partial_cmp(&(b.held, b.pitched))
                .unwrap_or(std::cmp::Ordering::Equal)
        });
    best.filter(|best| best.pitched > 1e-9 * total)
        .map_or(0.0, |best| 100.0 * best.held / best.pitched)
}

#[derive(Clone, Copy)]
struct Count {
    pitched: f64,
    held: f64,
}

/// Shots that pitch on the green whose front edge lies at `front`, and those of them that stay on it.
fn count(ended: &[Ended], front: f64, middle: f64) -> Count {
    let on = |[along, across]: [f64; 2]| {
        (front..=front + DEPTH_YD).contains(&along) && (across - middle).abs() <= WIDTH_YD / 2.0
    };
    let mut count = Count {
        pitched: 0.0,
        held: 0.0,
    };
    for shot in ended.iter().filter(|shot| on(shot.pitch)) {
        count.pitched += shot.weight;
        count.held += if on(shot.rest) { shot.weight } else { 0.0 };
    }
    count
}

/// The middle of the pitches across: their weighed mean.
fn middle(ended: &[Ended]) -> f64 {
    let total: f64 = ended.iter().map(|shot| shot.weight).sum();
    ended
        .iter()
        .map(|shot| shot.weight * shot.pitch[1])
        .sum::<f64>()
        / total
}

fn end(&(flight, weight): &(Flight, f64), turf: &Turf) -> Ended {
    let run = turf.run(&flight.landing);
    let travel = flight.landing.velocity_mps;
    let (right, forward) = travel.x.atan2(travel.y).sin_cos();
    let (along, across) = (run.along.yd(), run.across.yd());
    let pitch = [flight.carry.yd(), flight.side.yd()];
    Ended {
        pitch,
        rest: [
            pitch[0] + along * forward - across * right,
            pitch[1] + along * right + across * forward,
        ],
        weight,
    }
}
