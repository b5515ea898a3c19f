//! Ball speeds that no golfer has with a club: nearly always figures of another unit.

use std::ops::RangeInclusive;

use super::bag::pattern_with;
use super::batch::quantity::Unit;
use super::club::Club;
use super::levels::{self, TOUR_HANDICAP};
use super::{Golfer, Sex};

/// What golfers reach of the ball speeds that men on tour have with the same club: the longest drives ever measured are
/// some 1.3 times as fast, and a small child swings a club a quarter as fast. An assumption.
const OF_TOUR: RangeInclusive<f64> = 0.25..=1.3;
/// A speed of another unit is taken for it where it is then so much of theirs.
const USUAL: RangeInclusive<f64> = 0.45..=1.15;
/// Other units that speeds are measured in.
const OTHER_UNITS: [&str; 2] = ["km/h", "m/s"];

/// What is wrong with a ball speed with a club, and what to write instead; none where golfers have such.
pub(super) fn unlikely(club: Club, mph: f64) -> Option<(String, String)> {
    let tour: Golfer = levels::level(TOUR_HANDICAP, Sex::Men).ok()?;
    let theirs = pattern_with(&tour.clubs, club)?.mean[0];
    if OF_TOUR.contains(&(mph / theirs)) {
        return None;
    }
    let message = format!(
        "no golfer's ball leaves the {club} at {mph} mph: men on tour have {theirs:.0} mph"
    );
    let mut other = OTHER_UNITS
        .iter()
        .filter_map(|name| Some((name, Unit::named(name)?.factor)))
        .filter(|(_, factor)| USUAL.contains(&(mph * factor / theirs)));
    let hint = other.next().map_or_else(
        || "write the ball speed in mph".to_owned(),
        |(unit, factor)| {
            format!(
                "write miles an hour: {mph} {unit} are {:.1} mph",
                mph * factor
            )
        },
    );
    Some((message, hint))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hint(club: Club, mph: f64) -> Option<String> {
        unlikely(club, mph).map(|(_, hint)| hint)
    }

    #[test]
    fn what_golfers_have_is_let_pass() {
        for (club, mph) in [
            (Club::Driver, 60.0),
            (Club::Driver, 217.0),
            (Club::Iron(9), 48.0),
            (Club::Iron(9), 120.0),
        ] {
            assert_eq!(hint(club, mph), None, "{club} at {mph} mph");
        }
    }

    #[test]
    fn another_unit_is_named_where_it_would_fit() {
        let said = |club, mph| hint(club, mph).unwrap_or_default();
        assert_eq!(
            said(Club::Iron(9), 158.0),
            "write miles an hour: 158 km/h are 98.2 mph"
        );
        assert_eq!(
            said(Club::Driver, 40.0),
            "write miles an hour: 40 m/s are 89.5 mph"
        );
        assert_eq!(said(Club::Driver, 5.0), "write the ball speed in mph");
    }
}
