//! Short game, sand and putting: a few figures each.

/// How near the hole a golfer plays chips, pitches or bunker shots.
///
/// Errors are normal in each axis, measured from the hole, of standard deviation
/// `base_ft + pct/100 × distance`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Touch {
    /// Error along the line, percent of the distance.
    pub along_pct: f64,
    /// Error across the line, percent of the distance.
    pub across_pct: f64,
    /// Error at no distance, feet, in both axes.
    pub base_ft: f64,
    /// Share of duffed and thinned shots, percent.
    pub mishit_pct: f64,
}

/// The two errors of a putt, and where it is aimed to finish.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Putting {
    /// Standard deviation of the start direction, degrees.
    pub direction_sd_deg: f64,
    /// Standard deviation of the length, percent of the length meant.
    pub length_sd_pct: f64,
    /// How far past the hole a putt is meant to finish, feet.
    pub past_ft: f64,
}
