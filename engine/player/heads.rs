//! The club heads of a bag, for the impact: mass, restitution and grip by club.
//!
//! Masses are common practice, no published source. Restitution and grip are fitted, one of each for a class of club,
//! to the average strikes of the tours and the club speed and attack that usually go with them
//! (`calibrate impact`): see the constants below.

use super::club::Club;
use crate::ball::impact::{Head, Restitution};

/// Friction of a clean dry face on a ball: far more than a full shot needs. From memory; wet grass gives less.
const FRICTION: f64 = 0.4;

/// What restitution loses per m/s. Source: Penner (2001), Am. J. Phys. 69, 563, e = 0.86 − 0.0029·v; from memory. A
/// thin face springs more the harder it is hit and makes up for it: woods and hybrids keep theirs.
const IRON_LOSS_PER_MPS: f64 = 0.0029;

/// Restitution at rest and grip by class, set by `calibrate impact`. Restitution here is that of speeds as devices
/// read them: the toe side of a head goes faster than where most measure it, so that a driver comes out above the
/// limit of the rules.
const DRIVER: (f64, f64) = (0.872, 0.850);
const FAIRWAY_WOOD: (f64, f64) = (0.852, 1.100);
const IRON: (f64, f64) = (0.893, 1.300);
const WEDGE: (f64, f64) = (0.895, 1.331);

/// The usual head of a club.
///
/// ```
/// use costcard::player::{club::Club, heads};
/// assert!(heads::head(Club::Driver).mass_kg < heads::head(Club::Iron(6)).mass_kg);
/// ```
#[must_use]
pub fn head(club: Club) -> Head {
    let hybrid = (
        f64::midpoint(FAIRWAY_WOOD.0, thin_face(IRON.0)),
        f64::midpoint(FAIRWAY_WOOD.1, IRON.1),
    );
    let (mass_g, (at_rest, grip), per_mps) = match club {
        Club::Driver => (200.0, DRIVER, 0.0),
        Club::Wood(number) => (205.0 + 2.0 * f64::from(number), FAIRWAY_WOOD, 0.0),
        Club::Hybrid(number) => (220.0 + 4.0 * f64::from(number), hybrid, 0.0),
        Club::Iron(number) => (217.5 + 7.5 * f64::from(number), IRON, IRON_LOSS_PER_MPS),
        Club::PitchingWedge => (288.0, WEDGE, IRON_LOSS_PER_MPS),
        Club::GapWedge => (292.0, WEDGE, IRON_LOSS_PER_MPS),
        Club::SandWedge | Club::LobWedge => (298.0, WEDGE, IRON_LOSS_PER_MPS),
    };
    Head {
        mass_kg: mass_g / 1000.0,
        restitution: Restitution { at_rest, per_mps },
        friction: FRICTION,
        grip,
    }
}

/// An iron's restitution at rest as that of a face that keeps it: taken at 38 m/s, where hybrids are hit.
fn thin_face(at_rest: f64) -> f64 {
    at_rest - IRON_LOSS_PER_MPS * 38.0
}
