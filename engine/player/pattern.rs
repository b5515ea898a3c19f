//! The pattern: how one golfer strikes one club.

/// Ball speed (mph), launch (°), direction (°), backspin (rpm), sidespin (rpm), in this order.
pub type Five = [f64; 5];

/// The joint distribution of one club's strikes: a multivariate Student t, and mishits beside it.
#[derive(Debug, Clone, PartialEq)]
pub struct Pattern {
    /// Mean of the normal strikes.
    pub mean: Five,
    /// Standard deviations of the normal strikes (of the t distribution itself, not of its scale matrix).
    pub sd: Five,
    /// Correlations of the normal strikes; ones on the diagonal, symmetric, positive definite.
    pub correlation: [Five; 5],
    /// Degrees of freedom of the t distribution, over 2.
    pub tail_dof: f64,
    /// The mishits.
    pub mishit: Mishit,
}

/// Mishits, described against the normal strikes of the same club.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mishit {
    /// Share of all strikes, 0 to 1.
    pub share: f64,
    /// Mean ball speed as a share of the normal one.
    pub ball_speed_factor: f64,
    /// Mean launch, degrees added to the normal one.
    pub launch_shift_deg: f64,
    /// Mean backspin as a share of the normal one.
    pub backspin_factor: f64,
    /// Standard deviations as a multiple of the normal ones.
    pub spread_factor: f64,
}
