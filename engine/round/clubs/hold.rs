//! How often a club holds a green.

use std::sync::Arc;

use crate::ball::turf::{Firmness, Run};
use crate::course::Green;
use crate::files::Faults;
use crate::rules::hold::{self as rules, GreenAt, GreenFacts, Hold, LandingFacts, Place};

/// The green aimed at: level, of this depth and width, Stimpmeter 10. Common practice, no published source: a middling
/// green is 25 to 35 yd deep.
pub const DEPTH_YD: f64 = 30.0;
/// Its width.
pub const WIDTH_YD: f64 = 30.0;
const STIMP_FT: f64 = 10.0;

/// A shot as it comes down on the green aimed at, and how much it counts.
pub type Weighed = (LandingFacts, f64);

/// Of the shots on target, the share that stay on the green, percent, by a rule for the run or the built-in one.
///
/// A shot on target pitches in the front half of the green, in the middle of its width, as likely on one yard as on
/// another. So the share tells what a club's shots do once they are there, and nothing of how often they get there.
///
/// # Errors
/// When the rule fails.
pub fn held_pct(
    shots: &[Weighed],
    firmness: Firmness,
    rule: Option<&dyn Hold>,
) -> Result<f64, Faults> {
    let surface = Green {
        firmness,
        stimp_ft: STIMP_FT,
        slope_along_pct: 0.0,
        slope_across_pct: 0.0,
    };
    let facts = Arc::new(GreenFacts {
        hole: 0,
        depth_yd: DEPTH_YD,
        width_yd: WIDTH_YD,
        surface,
    });
    let turf = rules::turf(&surface);
    let (mut held, mut all) = (0.0, 0.0);
    for (landing, weight) in shots {
        let usual = turf.run(&landing.ball);
        let share = match rule {
            None => share_of(usual),
            Some(rule) => share_by_rule(rule, landing, &facts, usual)?,
        };
        held += weight * share;
        all += weight;
    }
    Ok(100.0 * held / all)
}

/// Share of the places from which a run stays on the green.
fn share_of(run: Run) -> f64 {
    if run.across.yd().abs() <= WIDTH_YD / 2.0 {
        held_share(run.along.yd())
    } else {
        0.0
    }
}

/// The same by a rule: yard by yard where it asks for the place.
fn share_by_rule(
    rule: &dyn Hold,
    landing: &LandingFacts,
    facts: &Arc<GreenFacts>,
    usual: Run,
) -> Result<f64, Faults> {
    let ask = |from_front_yd: f64| {
        let from_left_yd = WIDTH_YD / 2.0;
        let place = Place {
            from_front_yd,
            from_left_yd,
            from_edge_yd: from_front_yd.min(from_left_yd),
        };
        let green = GreenAt::new(Arc::clone(facts), place, usual);
        rule.run(landing, &green).map(|run| (run, green.read()))
    };
    let (run, read) = ask(DEPTH_YD / 4.0)?;
    if read == 0 {
        return Ok(share_of(run));
    }
    let places = (DEPTH_YD / 2.0) as u32;
    let mut held = 0;
    for place in 0..places {
        let from_front_yd = f64::from(place) + 0.5;
        let (run, _) = ask(from_front_yd)?;
        let stays = (0.0..=DEPTH_YD).contains(&(from_front_yd + run.along.yd()));
        held += u32::from(stays && run.across.yd().abs() <= WIDTH_YD / 2.0);
    }
    Ok(f64::from(held) / f64::from(places))
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
