//! Turf: bounce and run from the pitch to rest.

use crate::units::Length;

/// Firmness from 0 (soft) through 0.5 (medium) to 1 (firm).
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Firmness(f64);

/// What a ball lands on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Surface {
    /// Closely mown grass of a fairway.
    Fairway,
    /// Longer grass.
    Rough,
    /// A putting green.
    Green,
}

/// Where a ball comes to rest, measured from its pitch mark.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Run {
    /// Along the horizontal direction of travel at the pitch; negative when it spins back.
    pub along: Length,
    /// Across it, positive right.
    pub across: Length,
}
