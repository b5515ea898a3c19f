//! Misreads: shots whose figures contradict each other, or are none.
//!
//! A mishit is no misread. What is asked of a shot is that its own figures hang together: that its launch can fly its
//! carry and apex, that the club's speed can give the ball's, and the delivered loft the spin. Devices, balls and air
//! differ, so each of these is measured against what is usual for the club in the batch. A figure that nothing else
//! checks is a misread only when it alone is far off while all others of the shot are as usual, as a slip of the
//! decimal mark is.

use super::figures::Figures;
use super::misread::Misread;
use super::quantity::{COUNT, Kind, Quantity, Unit};
use super::reference::{Reference, Residual, Usual};
use crate::ball::air::{Air, Atmosphere};
use crate::ball::flight::fly;
use crate::ball::impact::Delivery;
use crate::player::club::Club;
use crate::player::heads;
use crate::player::pattern::strike_of;
use crate::units::{Angle, Speed};

/// What the other figures of a shot let expect.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Expected {
    /// Carry, side, apex and descent as its launch flies them.
    pub flown: Option<[f64; 4]>,
    /// Spin, rpm, that its delivery gives.
    pub spin_rpm: Option<f64>,
    /// The fastest ball of its club speed, mph.
    pub fastest_mph: Option<f64>,
    /// The ball of its club speed that is struck as the club is meant to be, mph.
    pub sound_mph: Option<f64>,
}

impl Expected {
    pub(super) fn of(club: Club, figures: &Figures, air: &Atmosphere) -> Self {
        let club_mph = figures.measured(Quantity::ClubSpeed);
        Self {
            flown: flown(figures, air),
            spin_rpm: spin(club, figures),
            fastest_mph: club_mph
                .map(|mph| SMASH_SLACK * ball_mph(club, mph, LEAST_LOFT_SHARE) + 1.0),
            sound_mph: club_mph.map(|mph| ball_mph(club, mph, 1.0)),
        }
    }
}

/// The air that flights are checked in: what devices report is mostly brought to it.
pub(super) fn checking_air() -> Atmosphere {
    Atmosphere::new(&Air::standard())
}

/// The flight of a strike that was measured whole, where there is a measured flight to hold against it.
fn flown(figures: &Figures, air: &Atmosphere) -> Option<[f64; 4]> {
    Quantity::FLIGHT
        .iter()
        .find_map(|quantity| figures.measured(*quantity))?;
    let [a, b, c, d, e] = Quantity::STRIKE.map(|quantity| figures.get(quantity));
    let flight = fly(&strike_of(&[a?, b?, c?, d?, e?]), air);
    Some([
        flight.carry.yd(),
        flight.side.yd(),
        flight.apex.yd(),
        flight.descent.deg(),
    ])
}

/// Least angle between face and path that a club is ever delivered with, as a share of its loft: it gives the
/// fastest ball.
const LEAST_LOFT_SHARE: f64 = 0.6;
/// A ball may be this much faster than the usual head gives: heads differ, and devices read club speed at different
/// points.
const SMASH_SLACK: f64 = 1.06;
/// No head gives less than this share of what the usual one does.
const HEADS_DIFFER: f64 = 0.9;

/// The ball's speed from the middle of a club's face at such a share of its loft, mph.
fn ball_mph(club: Club, club_mph: f64, loft_share: f64) -> f64 {
    let delivery = Delivery {
        club_speed: Speed::from_mph(club_mph),
        attack: Angle::ZERO,
        path: Angle::ZERO,
        face: Angle::ZERO,
        dynamic_loft: club.typical_loft() * loft_share,
        lie_tilt: Angle::ZERO,
    };
    heads::head(club).smash(&delivery) * club_mph
}

fn spin(club: Club, figures: &Figures) -> Option<f64> {
    let strike = heads::head(club).strike(&figures.delivered().whole()?);
    Some(strike.backspin.rpm().hypot(strike.sidespin.rpm()))
}

/// What is measured of a shot against what is expected of it, for the club's usual.
pub(super) fn residual(residual: Residual, figures: &Figures, expected: &Expected) -> Option<f64> {
    let against = |quantity: Quantity, index: usize| {
        let flown = expected.flown?[index];
        Some((figures.measured(quantity)?, flown))
    };
    let share = |(measured, flown): (f64, f64)| measured / flown.max(1.0) - 1.0;
    match residual {
        Residual::Carry => against(Quantity::Carry, 0).map(share),
        Residual::Side => against(Quantity::Side, 1).map(|(measured, flown)| measured - flown),
        Residual::Apex => against(Quantity::Apex, 2).map(share),
        Residual::Descent => against(Quantity::Descent, 3).map(|(one, other)| one - other),
        Residual::Spin => Some(
            (measured_spin(figures)? / expected.spin_rpm?.max(1.0))
                .max(0.01)
                .ln(),
        ),
        Residual::Smash => {
            let club = figures.measured(Quantity::ClubSpeed)?;
            Some(figures.measured(Quantity::BallSpeed)? / club)
        }
    }
}

fn measured_spin(figures: &Figures) -> Option<f64> {
    let back = figures.measured(Quantity::Backspin)?;
    Some(back.hypot(figures.measured(Quantity::Sidespin).unwrap_or(0.0)))
}

/// Takes off what a device writes where it saw nothing of the club: zeros.
pub(super) fn clean(figures: &mut Figures) {
    let zero = |quantity| figures.measured(quantity) == Some(0.0);
    if zero(Quantity::ClubSpeed) || zero(Quantity::DynamicLoft) {
        for quantity in Quantity::DELIVERY {
            figures.forget(quantity);
        }
    }
}

/// What is wrong with a shot whatever the club's others are: figures missing, 0 or beyond what can be.
pub(super) fn alone(figures: &Figures, has: &[bool; COUNT]) -> Option<Misread> {
    const NEVER_ZERO: [Quantity; 5] = [
        Quantity::BallSpeed,
        Quantity::Spin,
        Quantity::Carry,
        Quantity::Apex,
        Quantity::Descent,
    ];
    let zero = |quantity: &Quantity| figures.measured(*quantity) == Some(0.0);
    if let Some(quantity) = NEVER_ZERO.iter().find(|quantity| zero(quantity)) {
        return Some(Misread::Zero(*quantity));
    }
    let no_sidespin = figures.measured(Quantity::Sidespin).unwrap_or(0.0) == 0.0;
    if zero(&Quantity::Backspin) && no_sidespin {
        return Some(Misread::Zero(Quantity::Backspin));
    }
    for quantity in Quantity::ALL {
        if let Some(value) = figures.measured(quantity)
            && !quantity.range().contains(&value)
        {
            return Some(Misread::Impossible(quantity, value));
        }
    }
    missing(figures, has).map(Misread::Missing)
}

/// The figure that is missing of those the sheet tells its strikes by: those of the ball, and what else its speed is
/// told by.
fn missing(figures: &Figures, has: &[bool; COUNT]) -> Option<Quantity> {
    let lacks = |quantity: &Quantity| figures.get(*quantity).is_none();
    let of_sheet = |quantity: &Quantity| has[*quantity as usize];
    let told_by: &[Quantity] = if of_sheet(&Quantity::BallSpeed) {
        &[]
    } else if of_sheet(&Quantity::Carry) {
        &[Quantity::Carry, Quantity::Side]
    } else {
        const ALL_BUT_LIE: usize = Quantity::DELIVERY.len() - 1;
        &Quantity::DELIVERY[..ALL_BUT_LIE]
    };
    let needed = told_by.iter().copied().chain(Quantity::STRIKE);
    needed.filter(of_sheet).find(lacks)
}

/// What contradicts what, against the club's usual.
pub(super) fn against(
    figures: &Figures,
    expected: &Expected,
    reference: &Reference,
) -> Option<Misread> {
    too_fast(figures, expected, reference)
        .or_else(|| unflown(figures, expected, reference))
        .or_else(|| no_spin(figures, expected, reference))
        .or_else(|| slip(figures, reference))
        .or_else(|| stands_alone(figures, reference))
}

fn too_fast(figures: &Figures, expected: &Expected, reference: &Reference) -> Option<Misread> {
    let ball_mph = figures.measured(Quantity::BallSpeed)?;
    let club_mph = figures.measured(Quantity::ClubSpeed)?;
    let usual = reference.residual(Residual::Smash);
    let most = expected.fastest_mph?;
    // A club that gives less speed than the usual head cannot give it all at once; but where half of its shots are
    // mishit, that is no fault of the head, and the others are sound.
    let most_mph = usual.map_or(most, |usual| {
        let middle_mph =
            (club_mph * usual.middle).max(HEADS_DIFFER * expected.sound_mph.unwrap_or(0.0));
        most.min(middle_mph + (6.0 * usual.spread * club_mph).max(0.2 * middle_mph))
    });
    (ball_mph > most_mph).then_some(Misread::TooFast {
        ball_mph,
        club_mph,
        most_mph,
    })
}

/// How far a measured flight may lie from the one of its launch: so many of the club's usual spreads, at least this.
struct Leeway {
    residual: Residual,
    quantity: Quantity,
    /// At least, as a share of what is flown.
    share: f64,
    /// At least, in the quantity's unit.
    at_least: f64,
}

const SPREADS: f64 = 6.0;

const LEEWAYS: [Leeway; 4] = [
    Leeway {
        residual: Residual::Carry,
        quantity: Quantity::Carry,
        share: 0.12,
        at_least: 10.0,
    },
    Leeway {
        residual: Residual::Apex,
        quantity: Quantity::Apex,
        share: 0.25,
        at_least: 4.0,
    },
    Leeway {
        residual: Residual::Descent,
        quantity: Quantity::Descent,
        share: 0.0,
        at_least: 9.0,
    },
    Leeway {
        residual: Residual::Side,
        quantity: Quantity::Side,
        share: 0.5,
        at_least: 15.0,
    },
];

fn unflown(figures: &Figures, expected: &Expected, reference: &Reference) -> Option<Misread> {
    let flown = expected.flown?;
    for (index, leeway) in [0, 2, 3, 1].into_iter().zip(&LEEWAYS) {
        let Some(measured) = figures.measured(leeway.quantity) else {
            continue;
        };
        let usual = reference.residual(leeway.residual).unwrap_or(Usual::NONE);
        let (middle, spread) = match leeway.residual {
            Residual::Carry | Residual::Apex => (
                flown[index] * (1.0 + usual.middle),
                flown[index] * usual.spread,
            ),
            _ => (flown[index] + usual.middle, usual.spread),
        };
        let limit = (SPREADS * spread)
            .max(leeway.share * middle.abs())
            .max(leeway.at_least);
        if (measured - middle).abs() > limit {
            return Some(Misread::Unflown {
                quantity: leeway.quantity,
                measured,
                flown: middle,
            });
        }
    }
    None
}

/// How far the spin may lie from what the delivery gives, as the logarithm of a factor: a thin strike spins a third
/// less than its loft would give.
const SPIN_LEEWAY: f64 = 0.7;
const SPIN_LEEWAY_RPM: f64 = 1000.0;

fn no_spin(figures: &Figures, expected: &Expected, reference: &Reference) -> Option<Misread> {
    let off = residual(Residual::Spin, figures, expected)?;
    let usual = reference.residual(Residual::Spin).unwrap_or(Usual::NONE);
    let measured_rpm = measured_spin(figures)?;
    let given_rpm = expected.spin_rpm? * usual.middle.exp();
    let limit = SPIN_LEEWAY.max(SPREADS * usual.spread);
    let far = (measured_rpm - given_rpm).abs() > SPIN_LEEWAY_RPM;
    (far && (off - usual.middle).abs() > limit).then_some(Misread::Spin {
        measured_rpm,
        given_rpm,
    })
}

/// Figures a slip of the decimal mark is looked for in. What lies round zero is not among them: a tenth of any value
/// would be as usual.
const SLIPPING: [Quantity; 7] = [
    Quantity::BallSpeed,
    Quantity::Launch,
    Quantity::Backspin,
    Quantity::Carry,
    Quantity::Apex,
    Quantity::Descent,
    Quantity::ClubSpeed,
];

fn slip(figures: &Figures, reference: &Reference) -> Option<Misread> {
    const FAR: f64 = 6.0;
    const NEAR: f64 = 3.0;
    const AS_USUAL: f64 = 5.0;
    SLIPPING.into_iter().find_map(|quantity| {
        let measured = figures.measured(quantity)?;
        let usual = reference.usual(quantity)?;
        let off = |value: f64| (value - usual.middle).abs() / usual.spread;
        let others = strangest_but(quantity, figures, reference);
        if off(measured) <= FAR || others >= AS_USUAL {
            return None;
        }
        let fits = |factor: f64| off(measured * factor) < NEAR;
        let (usual, is_speed) = (usual.middle, quantity.kind() == Kind::Speed);
        if fits(0.1) || fits(10.0) {
            return Some(Misread::Slip {
                quantity,
                measured,
                usual,
            });
        }
        // The other way about it could be a topped ball.
        let kmh = Unit::named("km/h").is_some_and(|unit| fits(unit.factor));
        (is_speed && kmh).then_some(Misread::Kmh {
            quantity,
            measured,
            usual,
        })
    })
}

/// A figure far off while the others are as usual: no strike does that. Direction and sidespin may: a heel or toe
/// strike curves far and hardly loses speed. So may a ball speed or carry that is too low: a fat strike loses little
/// else.
fn stands_alone(figures: &Figures, reference: &Reference) -> Option<Misread> {
    const FAR: f64 = 8.0;
    const FAR_ASIDE: f64 = 15.0;
    const AS_USUAL: f64 = 2.5;
    let mut looked_at = Quantity::STRIKE.into_iter().chain([Quantity::Carry]);
    looked_at.find_map(|quantity| {
        let measured = figures.measured(quantity)?;
        let usual = reference.usual(quantity)?;
        let off = (measured - usual.middle).abs() / usual.spread;
        let far = if quantity.is_lateral() {
            FAR_ASIDE
        } else {
            FAR
        };
        let lost_by_mishits = matches!(quantity, Quantity::BallSpeed | Quantity::Carry);
        let fat = lost_by_mishits && measured < usual.middle;
        let others = strangest_but(quantity, figures, reference);
        (off > far && !fat && others < AS_USUAL).then_some(Misread::Alone {
            quantity,
            measured,
            usual: usual.middle,
        })
    })
}

/// How far the strangest other figure of the strike lies from the usual, in spreads.
fn strangest_but(but: Quantity, figures: &Figures, reference: &Reference) -> f64 {
    let off = |quantity: Quantity| {
        let usual = reference.usual(quantity)?;
        Some((figures.measured(quantity)? - usual.middle).abs() / usual.spread)
    };
    let others = Quantity::STRIKE
        .into_iter()
        .filter(|quantity| *quantity != but);
    others.filter_map(off).fold(0.0, f64::max)
}
