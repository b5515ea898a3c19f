//! A change of how the head meets the ball, carried to the ball by the impact: the measured strike, plus what the
//! impact gives after the change, less what it gives before.

use super::amount::Amount;
use super::apply::{CannotChange, in_range};
use super::figure::Figure;
use crate::ball::Strike;
use crate::ball::impact::Delivery;
use crate::player::bag::delivered_with;
use crate::player::batch::Quantity;
use crate::player::delivery::Delivered;
use crate::player::heads::head;
use crate::player::pattern::Five;
use crate::player::presented::delivery;
use crate::player::{BagClub, Golfer};
use crate::units::{Angle, Speed};

/// A club with one figure of its delivery changed. What was measured of the head stands behind it, and where nothing
/// was, the delivery that gives its mean strike. Spreads and mishits stay.
pub(super) fn redelivered(
    entry: &BagClub,
    quantity: Quantity,
    amount: Amount,
    [golfer, level]: [&Golfer; 2],
) -> Result<BagClub, CannotChange> {
    let club = entry.club;
    let shift = golfer.loft_shift;
    let before = delivery(entry, shift).ok_or_else(|| CannotChange {
        message: format!(
            "no delivery of a {club} gives the strikes of {}",
            golfer.name
        ),
        hint: format!("change what the ball does, as `{club} launch +1`"),
    })?;
    let old = read(&before, quantity);
    let theirs = delivered_with(&level.clubs, club).unwrap_or_default();
    let theirs = told(&theirs, quantity).map_or(0.0, |value| match quantity {
        Quantity::DynamicLoft if amount.standard().is_some() => value + shift.deg(),
        _ => value,
    });
    let value = amount.after(old, theirs);
    let figure = Figure::Head(quantity);
    in_range(figure, value, &format!("the {club}"))?;
    let mut after = entry.clone();
    if value == old {
        return Ok(after);
    }
    let changed = with(&before, quantity, value);
    let [before, now] = [before, changed].map(|delivery| {
        // The impact knows the loft of a plane face, not what the device reads.
        let dynamic_loft = delivery.dynamic_loft - shift;
        five_of(&head(club).strike(&Delivery {
            dynamic_loft,
            ..delivery
        }))
    });
    for (index, mean) in after.pattern.mean.iter_mut().enumerate() {
        *mean += now[index] - before[index];
        in_range(
            Figure::Mean(Quantity::STRIKE[index]),
            *mean,
            &format!("the {club}"),
        )?;
    }
    if let Some(measured) = place(&mut after.delivered, quantity) {
        *measured += value - old;
    }
    Ok(after)
}

/// A figure of a delivery, in the trade's units.
fn read(delivery: &Delivery, quantity: Quantity) -> f64 {
    match quantity {
        Quantity::ClubSpeed => delivery.club_speed.mph(),
        Quantity::Attack => delivery.attack.deg(),
        Quantity::Path => delivery.path.deg(),
        Quantity::Face => delivery.face.deg(),
        _ => delivery.dynamic_loft.deg(),
    }
}

/// A delivery with one figure changed.
fn with(delivery: &Delivery, quantity: Quantity, value: f64) -> Delivery {
    let mut changed = *delivery;
    match quantity {
        Quantity::ClubSpeed => changed.club_speed = Speed::from_mph(value),
        Quantity::Attack => changed.attack = Angle::from_deg(value),
        Quantity::Path => changed.path = Angle::from_deg(value),
        Quantity::Face => changed.face = Angle::from_deg(value),
        _ => changed.dynamic_loft = Angle::from_deg(value),
    }
    changed
}

/// Where a figure stands among the measured ones, if it was measured.
fn place(delivered: &mut Delivered, quantity: Quantity) -> Option<&mut f64> {
    match quantity {
        Quantity::ClubSpeed => &mut delivered.club_speed_mph,
        Quantity::Attack => &mut delivered.attack_deg,
        Quantity::Path => &mut delivered.path_deg,
        Quantity::Face => &mut delivered.face_deg,
        _ => &mut delivered.dynamic_loft_deg,
    }
    .as_mut()
}

fn told(delivered: &Delivered, quantity: Quantity) -> Option<f64> {
    let mut copy = *delivered;
    place(&mut copy, quantity).copied()
}

fn five_of(strike: &Strike) -> Five {
    [
        strike.ball_speed.mph(),
        strike.launch.deg(),
        strike.direction.deg(),
        strike.backspin.rpm(),
        strike.sidespin.rpm(),
    ]
}
