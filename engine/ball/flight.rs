//! The flight: from the strike to the first pitch on level ground.

use glam::DVec3;

use crate::units::{Angle, Length};

/// A ball at the moment it pitches. Axes: x right of the target line, y along it, z up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Landing {
    /// Velocity, m/s.
    pub velocity_mps: DVec3,
    /// Spin vector, rad/s (right-handed: pure backspin of a ball flying along +y is along +x... see `fly`).
    pub spin_rad_s: DVec3,
}

/// What a flight comes to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flight {
    /// Distance along the target line to the first pitch.
    pub carry: Length,
    /// Distance across the target line at the first pitch, positive right.
    pub side: Length,
    /// Greatest height.
    pub apex: Length,
    /// Time in the air, s.
    pub time_s: f64,
    /// Angle of descent below the horizontal at the pitch.
    pub descent: Angle,
    /// The ball as it pitches.
    pub landing: Landing,
}
