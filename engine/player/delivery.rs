//! How the clubs were delivered: what a device measured of the head, strike by strike.

use super::bag::lerp;
use crate::ball::impact::Delivery;
use crate::units::{Angle, Speed};

/// What was measured of the head in one strike. Angles are as an onlooker behind the ball sees them, for
/// left-handers too.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Delivered {
    /// Speed of the head, mph.
    pub club_speed_mph: Option<f64>,
    /// Attack angle, degrees: positive up, negative down on the ball.
    pub attack_deg: Option<f64>,
    /// Path of the head, degrees, positive right of the target.
    pub path_deg: Option<f64>,
    /// Where the face points, degrees, positive right of the target.
    pub face_deg: Option<f64>,
    /// Loft of the face at impact, degrees.
    pub dynamic_loft_deg: Option<f64>,
    /// Tilt of the sole, degrees, positive clockwise seen from behind the ball, which turns the face right: toe down
    /// for a right-hander, toe up for a left-hander.
    pub lie_deg: Option<f64>,
}

impl Delivered {
    /// The names of the six figures in sheets, in the order of the fields.
    pub const COLUMNS: [&'static str; 6] = [
        "club_speed_mph",
        "attack_deg",
        "path_deg",
        "face_deg",
        "dynamic_loft_deg",
        "lie_deg",
    ];

    /// The whole delivery, when all that the impact needs was measured; a lie that was not is level.
    #[must_use]
    pub fn whole(&self) -> Option<Delivery> {
        Some(Delivery {
            club_speed: Speed::from_mph(self.club_speed_mph?),
            attack: Angle::from_deg(self.attack_deg?),
            path: Angle::from_deg(self.path_deg?),
            face: Angle::from_deg(self.face_deg?),
            dynamic_loft: Angle::from_deg(self.dynamic_loft_deg?),
            lie_tilt: Angle::from_deg(self.lie_deg.unwrap_or(0.0)),
        })
    }

    /// Every figure by name, in the order of [`Self::COLUMNS`].
    pub(super) const fn figures(&self) -> [Option<f64>; 6] {
        [
            self.club_speed_mph,
            self.attack_deg,
            self.path_deg,
            self.face_deg,
            self.dynamic_loft_deg,
            self.lie_deg,
        ]
    }

    fn of_figures(figures: [Option<f64>; 6]) -> Self {
        let [
            club_speed_mph,
            attack_deg,
            path_deg,
            face_deg,
            dynamic_loft_deg,
            lie_deg,
        ] = figures;
        Self {
            club_speed_mph,
            attack_deg,
            path_deg,
            face_deg,
            dynamic_loft_deg,
            lie_deg,
        }
    }

    /// The middle of many strikes, figure by figure: medians, so that mishits hardly move it.
    #[must_use]
    pub fn middle(strikes: impl Iterator<Item = Self>) -> Self {
        let mut seen: [Vec<f64>; 6] = Default::default();
        for strike in strikes {
            for (seen, figure) in seen.iter_mut().zip(strike.figures()) {
                seen.extend(figure);
            }
        }
        Self::of_figures(seen.map(|mut values| {
            values.sort_by(f64::total_cmp);
            let half = values.len() / 2;
            let upper = *values.get(half)?;
            let even = values.len() % 2 == 0;
            Some(if even {
                f64::midpoint(values[half - 1], upper)
            } else {
                upper
            })
        }))
    }

    /// Every figure that both know, interpolated; `t` outside 0 to 1 extrapolates.
    pub(super) fn blend(&self, other: &Self, t: f64) -> Self {
        let (a, b) = (self.figures(), other.figures());
        Self::of_figures(std::array::from_fn(|i| Some(lerp(a[i]?, b[i]?, t))))
    }

    /// The figures as a mirror shows them.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        let turned = |figure: Option<f64>| figure.map(|degrees| -degrees);
        Self {
            path_deg: turned(self.path_deg),
            face_deg: turned(self.face_deg),
            lie_deg: turned(self.lie_deg),
            ..*self
        }
    }
}
