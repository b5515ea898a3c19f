//! Impact: a rigid club head meets a ball at rest; and back, from the ball to how the club was delivered.
//!
//! Source: C.B. Daish (1972), The Physics of Ball Games; T. Jorgensen (1994), The Physics of Golf; A.R. Penner (2001),
//! Am. J. Phys. 69, 563. The head's velocity is split along the face's normal (restitution) and across it (friction:
//! the face grips the ball, or slips when friction cannot hold it). What friction does across the face starts the
//! ball that way and turns it; both are bound by the ball's angular momentum about the point of contact, so that
//! spin is 5/2 of the sideways speed over the radius whether the ball grips, slips or springs back.
//!
//! Axes as in [`super::flight`]: x right of the target line, y along it, z up. No hand of the golfer is known here: a
//! left-hander's delivery is the mirror image of a right-hander's.

use glam::DVec3;

use super::Strike;
use super::aero::{MASS_KG, RADIUS_M};
use crate::units::{Angle, Speed, Spin};

/// How a club head meets the ball, the target straight ahead.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Delivery {
    /// Speed of the head.
    pub club_speed: Speed,
    /// Direction of the head above the horizontal: positive up, negative down on the ball.
    pub attack: Angle,
    /// Direction of the head, positive right of the target.
    pub path: Angle,
    /// Where the face points, positive right of the target, before the sole's tilt turns it.
    pub face: Angle,
    /// Loft of the face against the vertical, before the sole's tilt takes some of it.
    pub dynamic_loft: Angle,
    /// Tilt of the sole against the ground as seen from behind the ball, positive clockwise, which turns the face
    /// right: the toe down for a right-hander, the toe up for a left-hander.
    pub lie_tilt: Angle,
}

impl Delivery {
    /// Direction the face points in, the sole's tilt included: a unit vector.
    ///
    /// A tilt δ turns a face of loft L by atan(tan L · sin δ) to the side.
    #[must_use]
    pub fn face_normal(&self) -> DVec3 {
        let (up, forward) = self.dynamic_loft.rad().sin_cos();
        let (lean, upright) = self.lie_tilt.rad().sin_cos();
        let (right, ahead) = self.face.rad().sin_cos();
        let across = up * lean;
        DVec3::new(
            forward * right + across * ahead,
            forward * ahead - across * right,
            up * upright,
        )
    }

    /// Direction the head moves in: a unit vector.
    #[must_use]
    pub fn head_direction(&self) -> DVec3 {
        unit(self.attack, self.path)
    }

    /// Spin loft: the angle between where the face points and where the head goes, 0 or more.
    #[must_use]
    pub fn spin_loft(&self) -> Angle {
        let (normal, ahead) = (self.face_normal(), self.head_direction());
        // By the tangent: exact for small angles too.
        Angle::from_rad(normal.cross(ahead).length().atan2(normal.dot(ahead)))
    }

    /// Where the face points against the path of the head, the sole's tilt included; positive is open to the path
    /// of a right-hander, and curves the ball to the right.
    #[must_use]
    pub fn face_to_path(&self) -> Angle {
        bearing(self.face_normal()) - self.path
    }
}

/// How the normal part of the impact gives speed back: e = at_rest − per_mps × normal speed of the head in m/s.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Restitution {
    /// Coefficient of restitution of the gentlest touch, 0 to 1.
    pub at_rest: f64,
    /// What it loses per m/s of normal speed.
    pub per_mps: f64,
}

impl Restitution {
    /// The same at every speed.
    #[must_use]
    pub const fn constant(value: f64) -> Self {
        Self {
            at_rest: value,
            per_mps: 0.0,
        }
    }

    /// The coefficient at a normal speed of the head, never below 0.
    #[must_use]
    pub fn at(&self, normal: Speed) -> f64 {
        (self.at_rest - self.per_mps * normal.mps()).max(0.0)
    }
}

/// A club head as far as the impact knows it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Head {
    /// Mass, kg.
    pub mass_kg: f64,
    /// Restitution of face and ball.
    pub restitution: Restitution,
    /// Coefficient of friction between face and ball: the ball slips when more would be needed to hold it.
    pub friction: f64,
    /// How fast the ball leaves across the face against one that just grips, 1 for a rigid ball. Above 1 the cover
    /// springs back (irons, wedges), below 1 the ball does not come to rolling (drivers). See [`Head::strike`].
    pub grip: f64,
}

/// Why no delivery of a head gives a strike.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NoDelivery {
    /// More spin than face and ball can hold at this ball speed.
    #[error("the ball spins more than friction on the face can give at this ball speed")]
    TooMuchSpin,
    /// More spin than the head's speed can give at any loft.
    #[error("the ball spins more than this club speed can give at any loft")]
    TooSlowForSpin,
    /// More ball speed than the head's speed can give.
    #[error("the ball is faster than this club speed can make it")]
    TooSlowForSpeed,
    /// A figure that is none, or a ball that does not move.
    #[error("there is no moving ball in these figures")]
    NoBall,
}

/// Share of the head's sideways speed a gripped ball takes: 7/2 = 1 + 5/2 of a solid sphere, and the head's own loss.
const GRIPPED: f64 = 3.5;

/// A ball may be this much faster than the head allows before it contradicts it: club speed is read to about 2 %, a
/// face may be livelier than the usual.
const LIVELIER: f64 = 1.06;

impl Head {
    /// The strike a delivery gives.
    ///
    /// Normal: v = (1 + e)·V cos α/(1 + m/M). Across: v = grip·V sin α/(7/2 + m/M), at most friction × normal.
    /// Spin: 5/2 of the speed across over the ball's radius.
    ///
    /// Sidespin is the part of the spin about the vertical. The axis also leans along the line of flight, by the
    /// launch angle times its tilt; [`Strike`] has no figure for that part, and it is left out.
    ///
    /// ```
    /// use costcard::ball::impact::{Delivery, Head, Restitution};
    /// use costcard::units::{Angle, Speed};
    /// let head = Head { mass_kg: 0.200, restitution: Restitution::constant(0.83), friction: 0.4, grip: 1.0 };
    /// let strike = head.strike(&Delivery {
    ///     club_speed: Speed::from_mps(45.0),
    ///     attack: Angle::ZERO,
    ///     path: Angle::ZERO,
    ///     face: Angle::ZERO,
    ///     dynamic_loft: Angle::from_deg(12.0),
    ///     lie_tilt: Angle::ZERO,
    /// });
    /// assert!((strike.ball_speed.mps() - 65.6).abs() < 0.05);
    /// ```
    #[must_use]
    pub fn strike(&self, delivery: &Delivery) -> Strike {
        let (normal, ahead) = (delivery.face_normal(), delivery.head_direction());
        let speed_mps = delivery.club_speed.mps();
        let into_mps = (speed_mps * ahead.dot(normal)).max(0.0);
        let across = ahead - normal * ahead.dot(normal);
        let out_mps = self.ball_normal_mps(into_mps);
        let gripped_mps = self.grip * speed_mps * across.length() / self.lag();
        let across_mps = gripped_mps.min(self.friction * out_mps);
        let along_face = across.normalize_or_zero();
        let velocity = normal * out_mps + along_face * across_mps;
        let spin = along_face.cross(normal) * spin_rad_s(across_mps);
        strike_of(velocity, spin)
    }

    /// The delivery that gives a strike, with a level sole: where the face pointed, and where the head came from.
    ///
    /// The face follows from the ball alone. Where the head came from follows from the spin and the club speed; when
    /// no club speed was measured, from the one that the head needs for this ball.
    ///
    /// # Errors
    /// When no delivery of this head gives such a ball.
    pub fn delivery(
        &self,
        strike: &Strike,
        club_speed: Option<Speed>,
    ) -> Result<Delivery, NoDelivery> {
        let (velocity, spin) = vectors_of(strike);
        let ball_mps = velocity.length();
        let across_mps = across_mps(spin.length());
        if !(ball_mps > 0.0 && ball_mps.is_finite() && across_mps.is_finite()) {
            return Err(NoDelivery::NoBall);
        }
        if across_mps >= ball_mps || across_mps > self.friction * square_rest(ball_mps, across_mps)
        {
            return Err(NoDelivery::TooMuchSpin);
        }
        let out_mps = square_rest(ball_mps, across_mps);
        // Across the flight, in the plane of flight and face: downwards for backspin.
        let aside = velocity.cross(spin).normalize_or_zero();
        let normal = (velocity * out_mps / ball_mps - aside * across_mps) / ball_mps;
        let along_face = (velocity - normal * out_mps).normalize_or_zero();
        let sideways_mps = across_mps * self.lag() / self.grip;
        let needed_mps = self
            .head_normal_mps(out_mps)
            .ok_or(NoDelivery::TooSlowForSpeed)?;
        let (into_mps, speed) = match club_speed {
            None => {
                let speed = Speed::from_mps(needed_mps.hypot(sideways_mps));
                (needed_mps, speed)
            }
            Some(speed) if sideways_mps >= speed.mps() => return Err(NoDelivery::TooSlowForSpin),
            Some(speed) => (square_rest(speed.mps(), sideways_mps), speed),
        };
        if needed_mps > into_mps * LIVELIER {
            return Err(NoDelivery::TooSlowForSpeed);
        }
        let ahead = normal * into_mps + along_face * sideways_mps;
        Ok(Delivery {
            club_speed: speed,
            attack: rise(ahead),
            path: bearing(ahead),
            face: bearing(normal),
            dynamic_loft: rise(normal),
            lie_tilt: Angle::ZERO,
        })
    }

    /// The ball's speed over the head's, for a delivery.
    #[must_use]
    pub fn smash(&self, delivery: &Delivery) -> f64 {
        self.strike(delivery).ball_speed.mps() / delivery.club_speed.mps()
    }

    /// Normal speed of the ball from that of the head, m/s.
    fn ball_normal_mps(&self, into_mps: f64) -> f64 {
        let e = self.restitution.at(Speed::from_mps(into_mps));
        (1.0 + e) * into_mps / (1.0 + MASS_KG / self.mass_kg)
    }

    /// Normal speed of the head from that of the ball, m/s: the lower root of (1 + a − b·u)·u = v·(1 + m/M).
    fn head_normal_mps(&self, out_mps: f64) -> Option<f64> {
        let Restitution { at_rest, per_mps } = self.restitution;
        let target = out_mps * (1.0 + MASS_KG / self.mass_kg);
        let linear = 1.0 + at_rest;
        let root = linear * linear - 4.0 * per_mps * target;
        (root >= 0.0).then(|| 2.0 * target / (linear + root.sqrt()))
    }

    /// The head's sideways speed over a gripped ball's.
    fn lag(&self) -> f64 {
        GRIPPED + MASS_KG / self.mass_kg
    }
}

/// Spin of a ball that friction gave this speed across the face.
fn spin_rad_s(across_mps: f64) -> f64 {
    2.5 * across_mps / RADIUS_M
}

/// Speed across the face of a ball with this spin.
fn across_mps(spin_rad_s: f64) -> f64 {
    spin_rad_s * RADIUS_M / 2.5
}

/// The other side of a right triangle.
fn square_rest(longest: f64, side: f64) -> f64 {
    (longest * longest - side * side).max(0.0).sqrt()
}

/// Angle of a vector above the horizontal.
fn rise(vector: DVec3) -> Angle {
    Angle::from_rad(vector.z.atan2(vector.x.hypot(vector.y)))
}

/// Direction of a vector, positive right of the target.
fn bearing(vector: DVec3) -> Angle {
    Angle::from_rad(vector.x.atan2(vector.y))
}

/// The unit vector of a rise and a bearing.
fn unit(rise: Angle, bearing: Angle) -> DVec3 {
    let (up, level) = rise.rad().sin_cos();
    let (right, forward) = bearing.rad().sin_cos();
    DVec3::new(level * right, level * forward, up)
}

/// A strike from velocity (m/s) and spin (rad/s, right-hand rule).
fn strike_of(velocity: DVec3, spin: DVec3) -> Strike {
    let direction = bearing(velocity);
    let (right, forward) = direction.rad().sin_cos();
    Strike {
        ball_speed: Speed::from_mps(velocity.length()),
        launch: rise(velocity),
        direction,
        backspin: Spin::from_rad_s(spin.x * forward - spin.y * right),
        sidespin: Spin::from_rad_s(-spin.z),
    }
}

/// Velocity (m/s) and spin (rad/s) of a strike from a face: its axis stands square to the line of flight, which
/// gives the part along the horizontal flight that the strike leaves out.
fn vectors_of(strike: &Strike) -> (DVec3, DVec3) {
    let (right, forward) = strike.direction.rad().sin_cos();
    let velocity = unit(strike.launch, strike.direction) * strike.ball_speed.mps();
    let about_vertical = -strike.sidespin.rad_s();
    let along = -about_vertical * strike.launch.rad().tan();
    let backspin = strike.backspin.rad_s();
    let spin = DVec3::new(
        backspin * forward + along * right,
        -backspin * right + along * forward,
        about_vertical,
    );
    (velocity, spin)
}

#[cfg(test)]
#[allow(clippy::unwrap_used)] // a test may stop
mod tests {
    use super::*;

    const IRON: Head = Head {
        mass_kg: 0.260,
        restitution: Restitution {
            at_rest: 0.86,
            per_mps: 0.0029,
        },
        friction: 0.4,
        grip: 1.2,
    };

    fn delivery(figures: [f64; 5]) -> Delivery {
        let [mph, attack, path, face, loft] = figures;
        Delivery {
            club_speed: Speed::from_mph(mph),
            attack: Angle::from_deg(attack),
            path: Angle::from_deg(path),
            face: Angle::from_deg(face),
            dynamic_loft: Angle::from_deg(loft),
            lie_tilt: Angle::ZERO,
        }
    }

    #[test]
    fn a_delivery_is_found_again_from_its_strike_with_and_without_club_speed() {
        for figures in [
            [92.0, -4.0, 0.0, 0.0, 20.0],
            [113.0, 3.0, 4.0, 1.0, 14.0],
            [70.0, -6.0, -5.0, 2.0, 42.0],
            [92.0, -4.0, 3.0, 3.0, 2.0],
        ] {
            let asked = delivery(figures);
            let strike = IRON.strike(&asked);
            for speed in [None, Some(asked.club_speed)] {
                let found = IRON.delivery(&strike, speed).unwrap();
                for (a, b) in [
                    (found.club_speed.mph(), asked.club_speed.mph()),
                    (found.attack.deg(), asked.attack.deg()),
                    (found.path.deg(), asked.path.deg()),
                    (found.face.deg(), asked.face.deg()),
                    (found.dynamic_loft.deg(), asked.dynamic_loft.deg()),
                ] {
                    assert!((a - b).abs() < 1e-8, "{asked:?}: {found:?}");
                }
            }
        }
    }

    #[test]
    fn a_mirrored_delivery_gives_the_mirrored_strike() {
        let mut right = delivery([90.0, -4.0, -3.0, 2.0, 24.0]);
        right.lie_tilt = Angle::from_deg(2.0);
        let left = Delivery {
            path: -right.path,
            face: -right.face,
            lie_tilt: -right.lie_tilt,
            ..right
        };
        let (seen, mirrored) = (IRON.strike(&right), IRON.strike(&left));
        assert_eq!(seen.ball_speed, mirrored.ball_speed);
        assert_eq!(seen.launch, mirrored.launch);
        assert_eq!(seen.direction, -mirrored.direction);
        assert!((seen.backspin.rpm() - mirrored.backspin.rpm()).abs() < 1e-9);
        assert_eq!(seen.sidespin, -mirrored.sidespin);
    }

    #[test]
    fn a_slippery_face_gives_less_spin_and_starts_the_ball_closer_to_its_normal() {
        let slippery = Head {
            friction: 0.05,
            ..IRON
        };
        let asked = delivery([80.0, -4.0, 0.0, 0.0, 40.0]);
        let (gripped, slipped) = (IRON.strike(&asked), slippery.strike(&asked));
        assert!(slipped.backspin.rpm() < 0.5 * gripped.backspin.rpm());
        assert!(slipped.launch > gripped.launch && slipped.launch.deg() < 40.0);
    }

    #[test]
    fn a_strike_the_head_cannot_give_is_told_with_its_reason() {
        let strike = IRON.strike(&delivery([90.0, -4.0, 0.0, 0.0, 24.0]));
        let slow = |mph| IRON.delivery(&strike, Some(Speed::from_mph(mph)));
        assert_eq!(slow(70.0), Err(NoDelivery::TooSlowForSpeed));
        assert_eq!(slow(25.0), Err(NoDelivery::TooSlowForSpin));
        let mut spinny = strike;
        spinny.backspin = Spin::from_rpm(24_000.0);
        assert_eq!(IRON.delivery(&spinny, None), Err(NoDelivery::TooMuchSpin));
        let still = Strike {
            ball_speed: Speed::ZERO,
            ..strike
        };
        assert_eq!(IRON.delivery(&still, None), Err(NoDelivery::NoBall));
    }
}
