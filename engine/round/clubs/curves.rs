//! Hold curves: the share of a club's shots on target that stay on the green, against how firm the green is or how
//! steeply the ball comes down.

use glam::DVec3;

use super::hold::{self, Weighed};
use super::landing;
use crate::ball::Strike;
use crate::ball::air::{Air, Atmosphere};
use crate::ball::flight::{Landing, fly_all};
use crate::ball::turf::Firmness;
use crate::files::Faults;
use crate::player::Golfer;
use crate::player::club::Club;
use crate::player::pattern::strike_of;
use crate::round::draws::Draws;
use crate::rules::Rulebook;
use crate::rules::hold::LandingFacts;

use super::ClubsError;

/// Greens a curve against descent is worked out for.
pub const GREENS: [(&str, Firmness); 3] = [
    ("soft", Firmness::SOFT),
    ("medium", Firmness::MEDIUM),
    ("firm", Firmness::FIRM),
];

/// Steps of firmness from soft to firm.
const STEPS: u32 = 20;
/// How much flatter and steeper shots are made, degrees, and in what steps.
const TILTS_DEG: std::ops::RangeInclusive<i32> = -16..=16;
/// Balls come down neither flatter nor steeper than this, degrees.
const DESCENTS_DEG: std::ops::RangeInclusive<f64> = 5.0..=85.0;

/// A curve.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// What is varied (firmness from 0 soft to 1 firm, or the mean descent in degrees), and the share held, percent.
    pub points: Vec<(f64, f64)>,
}

/// The shots of one club as they come down, in still air, mishits included.
#[derive(Debug, Clone)]
pub struct Descending {
    /// Which club.
    pub club: Club,
    /// Mean descent of the shots that are no mishits, degrees.
    pub descent_deg: f64,
    shots: Vec<Weighed>,
}

impl Descending {
    /// The shots of a golfer's club; one the golfer does not carry is that of the clubs on either side of it. None for
    /// an empty bag.
    ///
    /// # Errors
    /// When the pattern is none.
    pub fn of(golfer: &Golfer, club: Club) -> Result<Option<Self>, ClubsError> {
        let Some(pattern) = golfer.pattern_with(club) else {
            return Ok(None);
        };
        let (sampler, draws) = (pattern.sampler()?, Draws::new());
        let atmosphere = Atmosphere::new(&Air::standard());
        let share = sampler.mishit_share();
        let weights = [
            (1.0 - share) / draws.normal.len() as f64,
            share / draws.mishit.len() as f64,
        ];
        let normal = draws.normal.iter().map(|draw| sampler.normal_strike(draw));
        let mishits = draws.mishit.iter().map(|draw| sampler.mishit_strike(draw));
        let flown = |strikes: Vec<Strike>| fly_all(&strikes, &atmosphere);
        let normal = flown(normal.map(|five| strike_of(&five)).collect());
        let mishits = flown(mishits.map(|five| strike_of(&five)).collect());
        let descent_deg = normal
            .iter()
            .map(|flight| flight.descent.deg())
            .sum::<f64>();
        let weighed = |weight| move |flight| (landing(club, &flight), weight);
        let count = normal.len() as f64;
        let mut shots: Vec<Weighed> = normal.into_iter().map(weighed(weights[0])).collect();
        shots.extend(mishits.into_iter().map(weighed(weights[1])));
        Ok(Some(Self {
            club,
            descent_deg: descent_deg / count,
            shots,
        }))
    }

    /// Share held against the firmness of the green.
    ///
    /// # Errors
    /// When a rule fails.
    pub fn by_firmness(&self, rules: &Rulebook) -> Result<Curve, Faults> {
        let at = |step: u32| {
            let value = f64::from(step) / f64::from(STEPS);
            let firmness = Firmness::new(value).unwrap_or(Firmness::FIRM);
            Ok((value, self.held_pct(firmness, rules)?))
        };
        let points: Result<_, Faults> = (0..=STEPS).map(at).collect();
        Ok(Curve { points: points? })
    }

    /// Share held on a green of one firmness against the mean descent: every shot is made to come down as much steeper
    /// or flatter, at the same speed and with the same spin.
    ///
    /// # Errors
    /// When a rule fails.
    pub fn by_descent(&self, firmness: Firmness, rules: &Rulebook) -> Result<Curve, Faults> {
        let at = |tilt_deg: i32| {
            let tilt_deg = f64::from(tilt_deg);
            let held_pct = self.tilted(tilt_deg).held_pct(firmness, rules)?;
            Ok((self.descent_deg + tilt_deg, held_pct))
        };
        let in_range =
            |tilt_deg: &i32| DESCENTS_DEG.contains(&(self.descent_deg + f64::from(*tilt_deg)));
        let points: Result<_, Faults> = TILTS_DEG.filter(in_range).map(at).collect();
        Ok(Curve { points: points? })
    }

    /// Share held on a green of one firmness, percent.
    ///
    /// # Errors
    /// When a rule fails.
    pub fn held_pct(&self, firmness: Firmness, rules: &Rulebook) -> Result<f64, Faults> {
        hold::held_pct(&self.shots, firmness, rules.everywhere().hold.as_deref())
    }

    fn tilted(&self, tilt_deg: f64) -> Self {
        let tilted = |(facts, weight): &Weighed| {
            let ball = steeper(facts.ball, tilt_deg);
            (
                LandingFacts {
                    ball,
                    ..facts.clone()
                },
                *weight,
            )
        };
        Self {
            shots: self.shots.iter().map(tilted).collect(),
            ..self.clone()
        }
    }
}

/// A ball that comes down so much steeper, in the same direction, as fast and with the same spin.
fn steeper(ball: Landing, by_deg: f64) -> Landing {
    let velocity = ball.velocity_mps;
    let level = velocity.x.hypot(velocity.y);
    let own = (-velocity.z).atan2(level).to_degrees();
    // A topped ball is flatter than that to begin with, and is left at that.
    let (low, high) = (DESCENTS_DEG.start().min(own), DESCENTS_DEG.end().max(own));
    let descent = (own + by_deg).clamp(low, high);
    let (fall, ahead) = descent.to_radians().sin_cos();
    let way = DVec3::new(velocity.x, velocity.y, 0.0).normalize_or(DVec3::Y);
    Landing {
        velocity_mps: (way * ahead - DVec3::Z * fall) * velocity.length(),
        ..ball
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_steeper_ball_keeps_its_speed_direction_and_spin() {
        let ball = Landing {
            velocity_mps: DVec3::new(2.0, 18.0, -20.0),
            spin_rad_s: DVec3::new(500.0, 0.0, -40.0),
        };
        let tilted = steeper(ball, 7.0);
        let descent = |ball: Landing| {
            let v = ball.velocity_mps;
            (-v.z).atan2(v.x.hypot(v.y)).to_degrees()
        };
        assert!((descent(tilted) - descent(ball) - 7.0).abs() < 1e-9);
        assert!((tilted.velocity_mps.length() - ball.velocity_mps.length()).abs() < 1e-9);
        let heading = |ball: Landing| ball.velocity_mps.x / ball.velocity_mps.y;
        assert!((heading(tilted) - heading(ball)).abs() < 1e-12);
        assert_eq!(tilted.spin_rad_s, ball.spin_rad_s);
    }
}
