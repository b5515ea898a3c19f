//! Flights and hold curves say what the table of clubs says.

use costcard::ball::air::{Air, Atmosphere};
use costcard::ball::flight::{fly, path};
use costcard::ball::turf::Firmness;
use costcard::player::pattern::strike_of;
use costcard::round::clubs::arcs::arcs;
use costcard::round::clubs::clubs;
use costcard::round::clubs::curves::Descending;
use costcard::rules::Rulebook;

use crate::support::demo_player;

#[test]
fn a_path_ends_where_the_ball_pitches_and_reaches_its_apex() {
    let golfer = demo_player("rowan");
    let atmosphere = Atmosphere::new(&Air::standard());
    for entry in &golfer.clubs {
        let strike = strike_of(&entry.pattern.mean);
        let (flight, path) = (fly(&strike, &atmosphere), path(&strike, &atmosphere));
        let last = path.last().expect("places");
        assert_eq!((last.y, last.z), (flight.carry.m(), 0.0));
        let highest = path.iter().map(|place| place.z).fold(0.0, f64::max);
        assert!(
            (highest - flight.apex.m()).abs() < 0.05,
            "{highest} for {}",
            flight.apex.m()
        );
        assert!(path.iter().rev().skip(1).all(|place| place.z >= 0.0));
        let drawn = arcs(&golfer, &[entry.club]);
        assert_eq!(drawn[0].carry_yd, flight.carry.yd());
        assert!(drawn[0].places_yd.is_sorted_by(|a, b| a.0 <= b.0));
    }
}

#[test]
fn hold_curves_pass_through_the_figures_of_the_clubs() {
    let golfer = demo_player("dale");
    let (table, rules) = (clubs(&golfer, &golfer).expect("clubs"), Rulebook::default());
    for (entry, row) in golfer.clubs.iter().zip(&table.clubs) {
        let shots = Descending::of(&golfer, entry.club)
            .expect("a pattern")
            .expect("a club");
        assert!((shots.descent_deg - row.descent_deg).abs() < 1e-9);
        let curve = shots.by_firmness(&rules).expect("a curve").points;
        let [first, .., last] = curve.as_slice() else {
            panic!("points")
        };
        let middle = curve
            .iter()
            .find(|(firmness, _)| *firmness == 0.5)
            .expect("medium");
        for (held, want) in [
            (first.1, row.held_pct.soft),
            (middle.1, row.held_pct.medium),
            (last.1, row.held_pct.firm),
        ] {
            assert!(
                (held - want).abs() < 1e-9,
                "{}: {held} for {want}",
                row.club
            );
        }
        let by_descent = shots
            .by_descent(Firmness::MEDIUM, &rules)
            .expect("a curve")
            .points;
        let own = by_descent
            .iter()
            .find(|(descent, _)| (descent - shots.descent_deg).abs() < 1e-9)
            .expect("its own");
        assert!((own.1 - row.held_pct.medium).abs() < 1e-9);
    }
}

#[test]
fn an_iron_that_comes_down_steeper_holds_more() {
    let golfer = demo_player("dale");
    let club = "5 iron".parse().expect("a club");
    let shots = Descending::of(&golfer, club)
        .expect("a pattern")
        .expect("a club");
    let curve = shots
        .by_descent(Firmness::MEDIUM, &Rulebook::default())
        .expect("a curve")
        .points;
    let (first, last) = (curve[0], curve[curve.len() - 1]);
    assert!(last.1 > first.1 + 20.0, "{first:?} to {last:?}");
}
