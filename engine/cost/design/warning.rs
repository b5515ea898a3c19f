//! What a designer would raise, in figures that can be told in any unit.

use crate::player::Sex;

/// Something odd about a hole.
#[derive(Debug, Clone, PartialEq)]
pub enum Warning {
    /// The length does not fit the par.
    Par {
        /// Length, yards.
        length_yd: f64,
        /// Par.
        par: u8,
        /// The shortest and the longest hole of that par, yards.
        usual_yd: (f64, f64),
        /// Whose lengths those are.
        sex: Sex,
    },
    /// A carry the bogey golfer cannot make.
    Carry {
        /// From the last dry ground to the first beyond, yards.
        carry_yd: f64,
        /// The bogey golfer's longest carry from there, yards.
        most_yd: f64,
        /// Whether it is a tee shot.
        is_from_tee: bool,
    },
    /// A green that throws shots off.
    Hold {
        /// Of 100 full shots that pitch on it, those a scratch golfer keeps.
        scratch_pct: f64,
        /// The same of a tour professional, where he keeps too few as well.
        tour_pct: Option<f64>,
    },
    /// A bunker no ball ends in.
    Bunker {
        /// Its middle along the line of play, yards.
        along_yd: f64,
        /// Beside it, yards, right positive.
        side_yd: f64,
        /// Rounds played.
        rounds: u64,
    },
}

impl Warning {
    /// In words; `length` writes yards in the reader's unit.
    #[must_use]
    pub fn told(&self, length: impl Fn(f64) -> String) -> String {
        match *self {
            Self::Par {
                length_yd,
                par,
                usual_yd,
                sex,
            } => {
                let is_long = length_yd > usual_yd.1;
                let who = if sex == Sex::Men { "men" } else { "women" };
                format!(
                    "{} is {} for a par {par}: for {who} such holes measure {} to {}",
                    length(length_yd),
                    if is_long { "long" } else { "short" },
                    length(usual_yd.0),
                    length(usual_yd.1)
                )
            }
            Self::Carry {
                carry_yd,
                most_yd,
                is_from_tee,
            } => format!(
                "a carry of {}, with no way round: the bogey golfer's {} carries {}",
                length(carry_yd),
                if is_from_tee {
                    "drive"
                } else {
                    "longest shot from the fairway"
                },
                length(most_yd)
            ),
            Self::Hold {
                scratch_pct,
                tour_pct,
            } => hold(scratch_pct, tour_pct),
            Self::Bunker {
                along_yd,
                side_yd,
                rounds,
            } => format!(
                "the bunker {} {} the tee, {} {}, is not in play: no ball ended in it in {rounds} rounds of scratch and bogey golfers",
                length(along_yd.abs()),
                if along_yd < 0.0 { "behind" } else { "from" },
                length(side_yd.abs()),
                if side_yd < 0.0 { "left" } else { "right" }
            ),
        }
    }
}

fn hold(scratch_pct: f64, tour_pct: Option<f64>) -> String {
    match tour_pct {
        Some(tour_pct) => format!(
            "none of these levels holds this green: of 100 full shots that pitch on it, tour professionals keep {tour_pct:.0} and scratch golfers {scratch_pct:.0}"
        ),
        None => format!(
            "the green keeps few shots: of 100 full shots that pitch on it, scratch golfers hold {scratch_pct:.0}"
        ),
    }
}
