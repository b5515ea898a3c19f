//! Why a shot is left out, in words.

use std::fmt;

use super::quantity::Quantity;

/// Why a shot is left out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Misread {
    /// A figure that its sheet has is not there.
    Missing(Quantity),
    /// A figure is 0 that never is.
    Zero(Quantity),
    /// A figure is beyond what can be.
    Impossible(Quantity, f64),
    /// The same figures as those of an earlier row.
    Repeated {
        /// Line of the earlier row.
        row: usize,
        /// Whether it stands in another file.
        elsewhere: bool,
    },
    /// The ball is faster than the club's speed allows.
    TooFast {
        /// Ball speed, mph.
        ball_mph: f64,
        /// Club speed, mph.
        club_mph: f64,
        /// The fastest ball it gives, mph.
        most_mph: f64,
    },
    /// The delivered loft does not give this spin.
    Spin {
        /// Spin, rpm.
        measured_rpm: f64,
        /// What the delivery gives, rpm.
        given_rpm: f64,
    },
    /// Its own launch does not fly this carry, side, apex or descent.
    Unflown {
        /// Which of them.
        quantity: Quantity,
        /// As measured.
        measured: f64,
        /// As the launch flies it.
        flown: f64,
    },
    /// Ten times, or a tenth of, what is usual.
    Slip {
        /// Which figure.
        quantity: Quantity,
        /// As measured.
        measured: f64,
        /// The club's usual figure.
        usual: f64,
    },
    /// A speed that would be as usual if it were in km/h.
    Kmh {
        /// Which figure.
        quantity: Quantity,
        /// As measured.
        measured: f64,
        /// The club's usual figure.
        usual: f64,
    },
    /// Far from the usual while every other figure of the strike is as usual.
    Alone {
        /// Which figure.
        quantity: Quantity,
        /// As measured.
        measured: f64,
        /// The club's usual figure.
        usual: f64,
    },
    /// The user left it out.
    Dropped,
}

impl fmt::Display for Misread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::Missing(quantity) => write!(f, "{} is missing", quantity.words()),
            Self::Zero(quantity) => write!(f, "{} is 0", quantity.words()),
            Self::Impossible(quantity, value) => {
                let range = quantity.range();
                let (low, high) = (quantity.told(*range.start()), quantity.told(*range.end()));
                let (what, told) = (quantity.words(), quantity.told(value));
                write!(
                    f,
                    "{what} {told} cannot be: it lies between {low} and {high}"
                )
            }
            Self::Repeated { row, elsewhere } => {
                let of = if elsewhere { " of an earlier file" } else { "" };
                write!(f, "the same figures as row {row}{of}")
            }
            Self::TooFast {
                ball_mph,
                club_mph,
                most_mph,
            } => write!(
                f,
                "ball speed {ball_mph:.0} mph is more than a club speed of {club_mph:.0} mph gives: {most_mph:.0} at most"
            ),
            Self::Spin {
                measured_rpm,
                given_rpm,
            } => write!(
                f,
                "spin {measured_rpm:.0} rpm is not what the delivered loft gives: about {given_rpm:.0}"
            ),
            Self::Unflown {
                quantity,
                measured,
                flown,
            } => write!(
                f,
                "{} {} is not what its launch flies: {}",
                quantity.words(),
                quantity.told(measured),
                quantity.told(flown)
            ),
            Self::Slip {
                quantity,
                measured,
                usual,
            } => write!(
                f,
                "{} {} looks like a slip of the decimal mark: {} is usual",
                quantity.words(),
                quantity.told(measured),
                quantity.told(usual)
            ),
            Self::Kmh {
                quantity,
                measured,
                usual,
            } => write!(
                f,
                "{} {} looks like km/h among mph: {} is usual",
                quantity.words(),
                quantity.told(measured),
                quantity.told(usual)
            ),
            Self::Alone {
                quantity,
                measured,
                usual,
            } => write!(
                f,
                "{} {} is far from the usual {}, while all else is as usual",
                quantity.words(),
                quantity.told(measured),
                quantity.told(usual)
            ),
            Self::Dropped => f.write_str("left out as you asked"),
        }
    }
}
