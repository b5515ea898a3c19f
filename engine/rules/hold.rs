//! How far a full shot runs after it pitches on a green, and so whether the green holds it.

use std::sync::Arc;
use std::sync::atomic::{AtomicU8, Ordering};

use super::refused;
use crate::ball::flight::Landing;
use crate::ball::turf::{Firmness, Run, Slope, Surface, Turf};
use crate::course::{Green, Lie};
use crate::files::Faults;
use crate::player::club::Club;
use crate::units::{Angle, Speed, Spin};

/// Runs a rule may answer, yards along the line and across it either way: a thin skull over a baked green stays well
/// within them, and beyond them lies a slip of the rule.
pub const ALONG_YD: std::ops::RangeInclusive<f64> = -100.0..=1000.0;
/// See [`ALONG_YD`].
pub const ACROSS_YD: std::ops::RangeInclusive<f64> = -150.0..=150.0;

/// A full shot as it comes down.
#[derive(Debug, Clone, PartialEq)]
pub struct LandingFacts {
    /// Velocity and spin at the pitch.
    pub ball: Landing,
    /// Carry on level ground, yards.
    pub carry_yd: f64,
    /// The club; none where nobody said, as with a strike typed in.
    pub club: Option<Club>,
    /// The lie it was hit from.
    pub lie: Lie,
}

impl LandingFacts {
    /// Speed at the pitch.
    #[must_use]
    pub fn speed(&self) -> Speed {
        Speed::from_mps(self.ball.velocity_mps.length())
    }

    /// Angle of descent below the horizontal.
    #[must_use]
    pub fn descent(&self) -> Angle {
        let velocity = self.ball.velocity_mps;
        Angle::from_rad((-velocity.z).atan2(velocity.x.hypot(velocity.y)))
    }

    /// All spin.
    #[must_use]
    pub fn spin(&self) -> Spin {
        Spin::from_rad_s(self.ball.spin_rad_s.length())
    }

    /// Spin about the horizontal axis square to the travel; positive is backspin.
    #[must_use]
    pub fn backspin(&self) -> Spin {
        let (velocity, spin) = (self.ball.velocity_mps, self.ball.spin_rad_s);
        let level = velocity.x.hypot(velocity.y);
        let backspin = if level > 0.0 {
            (spin.x * velocity.y - spin.y * velocity.x) / level
        } else {
            spin.x
        };
        Spin::from_rad_s(backspin)
    }

    /// Spin about the upright axis; positive curved the ball to the right.
    #[must_use]
    pub fn sidespin(&self) -> Spin {
        Spin::from_rad_s(-self.ball.spin_rad_s.z)
    }
}

/// A green as a whole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GreenFacts {
    /// Number of its hole on the card; 0 where there is no course.
    pub hole: u32,
    /// From its front to its back along the last leg of the hole, yards.
    pub depth_yd: f64,
    /// From its left to its right edge, yards.
    pub width_yd: f64,
    /// Its surface.
    pub surface: Green,
}

impl GreenFacts {
    /// The built-in run on this green if it had another firmness and Stimpmeter reading.
    #[must_use]
    pub fn run_at(&self, landing: &Landing, firmness: Firmness, stimp_ft: f64) -> Run {
        turf(&Green {
            firmness,
            stimp_ft,
            ..self.surface
        })
        .run(landing)
    }
}

/// The built-in ground of a green.
#[must_use]
pub fn turf(green: &Green) -> Turf {
    let slope = Slope {
        along_pct: green.slope_along_pct,
        across_pct: green.slope_across_pct,
    };
    Turf::new(Surface::Green, green.firmness, green.stimp_ft, slope)
}

/// Where on a green a ball pitches, yards; in rounds told to 2 yd, as the middle of a square of that size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// From the front of the green, along the last leg of the hole.
    pub from_front_yd: f64,
    /// From its left side.
    pub from_left_yd: f64,
    /// From the nearest edge.
    pub from_edge_yd: f64,
}

/// What a rule looked at of the place of a pitch, one bit each.
pub mod reads {
    /// Distance from the front.
    pub const FRONT: u8 = 1;
    /// Distance from the left side.
    pub const LEFT: u8 = 2;
    /// Distance from the nearest edge.
    pub const EDGE: u8 = 4;
}

/// A green under one pitch. It notes what a rule looks at: the answer of a rule that never asked where the ball
/// pitched holds for every place, and the rule need not be asked again.
#[derive(Debug, Clone)]
pub struct GreenAt {
    facts: Arc<GreenFacts>,
    place: Place,
    usual: Run,
    read: Arc<AtomicU8>,
}

impl GreenAt {
    /// A green, a place on it, and the built-in run of the ball that pitches there.
    #[must_use]
    pub fn new(facts: Arc<GreenFacts>, place: Place, usual: Run) -> Self {
        Self {
            facts,
            place,
            usual,
            read: Arc::default(),
        }
    }

    /// The green as a whole.
    #[must_use]
    pub fn facts(&self) -> &GreenFacts {
        &self.facts
    }

    /// The built-in run of the ball that pitches here.
    #[must_use]
    pub const fn usual_run(&self) -> Run {
        self.usual
    }

    /// From the front of the green to the pitch, yards.
    #[must_use]
    pub fn from_front_yd(&self) -> f64 {
        self.note(reads::FRONT);
        self.place.from_front_yd
    }

    /// From the pitch to the back of the green, yards.
    #[must_use]
    pub fn from_back_yd(&self) -> f64 {
        self.facts.depth_yd - self.from_front_yd()
    }

    /// From the left side of the green to the pitch, yards.
    #[must_use]
    pub fn from_left_yd(&self) -> f64 {
        self.note(reads::LEFT);
        self.place.from_left_yd
    }

    /// From the pitch to the right side of the green, yards.
    #[must_use]
    pub fn from_right_yd(&self) -> f64 {
        self.facts.width_yd - self.from_left_yd()
    }

    /// From the pitch to the nearest edge of the green, yards.
    #[must_use]
    pub fn from_edge_yd(&self) -> f64 {
        self.note(reads::EDGE);
        self.place.from_edge_yd
    }

    /// What was looked at of the place, as bits of [`reads`].
    #[must_use]
    pub fn read(&self) -> u8 {
        self.read.load(Ordering::Relaxed)
    }

    fn note(&self, bit: u8) {
        self.read.fetch_or(bit, Ordering::Relaxed);
    }
}

/// The run after a full shot pitches on a green.
///
/// The same landing at the same place must give the same run: it is asked once and kept.
///
/// ```
/// use costcard::ball::turf::Run;
/// use costcard::course::Course;
/// use costcard::files::{Faults, Source};
/// use costcard::rules::Rulebook;
/// use costcard::rules::hold::{GreenAt, LandingFacts};
/// use costcard::units::Length;
/// // Greens that let every ball run twice as far.
/// let twice = |_: &LandingFacts, green: &GreenAt| -> Result<Run, Faults> {
///     let usual = green.usual_run();
///     Ok(Run {
///         along: Length::from_m(2.0 * usual.along.m()),
///         across: Length::from_m(2.0 * usual.across.m()),
///     })
/// };
/// let rules = Rulebook::default().with_hold(twice);
/// assert!(rules.hole(0).hold.is_some());
/// ```
pub trait Hold: Send + Sync {
    /// The run, in the frame of the ball's travel.
    ///
    /// # Errors
    /// When the rule has no answer.
    fn run(&self, landing: &LandingFacts, green: &GreenAt) -> Result<Run, Faults>;
}

impl<F> Hold for F
where
    F: Fn(&LandingFacts, &GreenAt) -> Result<Run, Faults> + Send + Sync,
{
    fn run(&self, landing: &LandingFacts, green: &GreenAt) -> Result<Run, Faults> {
        let run = self(landing, green)?;
        match absurd(run) {
            Some(absurd) => Err(refused("hold", format!("a run cannot be {absurd}"))),
            None => Ok(run),
        }
    }
}

/// What is absurd about a run, in words that follow "cannot be"; none for a run that can be.
#[must_use]
pub(super) fn absurd(run: Run) -> Option<String> {
    let (along, across) = (run.along.yd(), run.across.yd());
    if !ALONG_YD.contains(&along) {
        return Some(format!("{along} yd along the line"));
    }
    (!ACROSS_YD.contains(&across)).then(|| format!("{across} yd to the side"))
}
