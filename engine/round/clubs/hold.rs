//! How often a club holds a green.

use crate::ball::flight::Flight;
use crate::ball::turf::{Firmness, Slope, Surface, Turf};

/// The green aimed at: level, of this depth and width, Stimpmeter 10. Common practice, no published source: a middling
/// green is 25 to 35 yd deep.
pub const DEPTH_YD: f64 = 30.0;
/// Its width.
pub const WIDTH_YD: f64 = 30.0;
const STIMP_FT: f64 = 10.0;

/// Of the shots on target, the share that stay on the green, percent.
///
/// A shot on target pitches in the front half of the green, in the middle of its width, as likely on one yard as on
/// another. So the share tells what a club's shots do once they are there, and nothing of how often they get there.
pub fn held_pct(shots: &[(Flight, f64)], firmness: Firmness) -> f64 {
    let turf = Turf::new(Surface::Green, firmness, STIMP_FT, Slope::LEVEL);
    let (mut held, mut all) = (0.0, 0.0);
    for (flight, weight) in shots {
        let run = turf.run(&flight.landing);
        let on_width = run.across.yd().abs() <= WIDTH_YD / 2.0;
        held += if on_width {
            weight * held_share(run.along.yd())
        } else {
            0.0
        };
        all += weight;
    }
    100.0 * held / all
}

/// Share of the pitches in the front half from which a run of this length ends on the green.
fn held_share(run_yd: f64) -> f64 {
    let half = DEPTH_YD / 2.0;
    let (first, last) = ((-run_yd).max(0.0), (DEPTH_YD - run_yd).min(half));
    ((last - first) / half).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_run_is_held_from_as_much_of_the_front_half_as_leaves_it_room() {
        for (run_yd, share) in [
            (0.0, 1.0),
            (15.0, 1.0),
            (22.5, 0.5),
            (30.0, 0.0),
            (45.0, 0.0),
            (-3.0, 0.8),
            (-20.0, 0.0),
        ] {
            assert!((held_share(run_yd) - share).abs() < 1e-12, "{run_yd}");
        }
    }
}
