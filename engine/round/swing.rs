//! The swings a golfer can choose from: every club in full, and part swings of the wedges.

use crate::course::Lie;
use crate::player::club::Club;
use crate::player::pattern::Pattern;
use crate::player::{BagClub, Golfer};

use crate::rules::lies::LieEffect;

use super::part::Part;

/// Ball speeds of part swings, as shares of the full one. Between two of them a swing is shortened
/// by at most [`EASED`], so that every distance down to about 30 yd can be played.
const WEDGE_SWINGS: [f64; 2] = [1.0, 0.93];
const SHORTEST_WEDGE_SWINGS: [f64; 8] = [1.0, 0.93, 0.86, 0.79, 0.72, 0.65, 0.58, 0.51];

/// How far a golfer takes distance off a swing, as a share of its carry: gripping down a little.
/// Common practice, no published source: one club's gap is about 8 % of its carry.
pub const EASED: f32 = 0.90;

/// One club swung at one speed.
#[derive(Debug, Clone, PartialEq)]
pub struct Swing {
    /// The club.
    pub club: Club,
    /// Ball speed as a share of the full swing's.
    pub speed_share: f64,
    /// The part a shot with it belongs to, tee shots of par 4s and 5s aside.
    pub part: Part,
    /// The full swing's pattern.
    pub pattern: Pattern,
}

impl Swing {
    /// Whether another golfer's swing is made with the same club at the same share of its speed.
    #[must_use]
    pub fn is_counterpart(&self, other: &Self) -> bool {
        self.club == other.club && self.speed_share == other.speed_share
    }

    /// Whether the swing is made from `lie`: a driver needs a tee, woods need grass they can sweep.
    #[must_use]
    pub fn suits(&self, lie: Lie) -> bool {
        let part_swing = self.speed_share < 1.0;
        match lie {
            Lie::Tee => !part_swing,
            Lie::Fairway | Lie::Green => self.club != Club::Driver,
            Lie::Rough => !matches!(self.club, Club::Driver | Club::Wood(0..=4)),
            Lie::Sand => !matches!(self.club, Club::Driver | Club::Wood(_)),
            Lie::Trees => matches!(self.club, Club::Iron(4..) | Club::PitchingWedge) || part_swing,
            Lie::Water | Lie::OutOfBounds => false,
        }
    }
}

/// Every swing of a golfer, longest club first.
#[must_use]
pub fn swings(golfer: &Golfer) -> Vec<Swing> {
    let last = golfer.clubs.len().saturating_sub(1);
    let mut all = Vec::new();
    for (index, BagClub { club, pattern, .. }) in golfer.clubs.iter().enumerate() {
        for &speed_share in speed_shares(*club, index == last) {
            all.push(Swing {
                club: *club,
                speed_share,
                part: Part::of_club(*club),
                pattern: pattern.clone(),
            });
        }
    }
    all
}

fn speed_shares(club: Club, shortest: bool) -> &'static [f64] {
    if shortest {
        &SHORTEST_WEDGE_SWINGS
    } else if club >= Club::PitchingWedge {
        &WEDGE_SWINGS
    } else {
        &[1.0]
    }
}

/// Indices of a [`Pattern`]'s five figures.
const SPEED: usize = 0;
const LAUNCH: usize = 1;
const BACKSPIN: usize = 3;
const SIDESPIN: usize = 4;

impl Swing {
    /// The pattern of this swing from a lie of an effect.
    ///
    /// A part swing keeps its spread of direction; its spread of speed shrinks with the root of the
    /// speed, so that it grows as a share (tour approaches from 50–100 yd leave a slightly larger share
    /// of the distance than those from 100–200: N. James & G. Rees 2008).
    #[must_use]
    pub fn pattern_under(&self, effect: &LieEffect) -> Pattern {
        let mut pattern = self.pattern.clone();
        pattern.mean[SPEED] *= self.speed_share * effect.ball_speed;
        pattern.mean[LAUNCH] += effect.launch_deg;
        pattern.sd[SPEED] *= self.speed_share.sqrt();
        for spin in [BACKSPIN, SIDESPIN] {
            pattern.mean[spin] *= self.speed_share * effect.spin;
            pattern.sd[spin] *= self.speed_share * effect.spin;
        }
        for sd in &mut pattern.sd {
            *sd *= effect.spread;
        }
        pattern.mishit.share = (pattern.mishit.share * effect.mishits).min(0.9);
        pattern
    }
}
