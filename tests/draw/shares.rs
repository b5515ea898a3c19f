//! Ellipses hold the shares of shots that they say.

use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;

use costcard::ball::air::{Air, Atmosphere};
use costcard::ball::flight::fly;
use costcard::cost::card::Effort;
use costcard::cost::on_hole::{OnHole, on_holes};
use costcard::course::Point;
use costcard::course::shape::Shape;
use costcard::player::Sex;
use costcard::player::pattern::{Mishit, strike_of};
use costcard::round::clubs::landings::landings;
use costcard::rules::Rulebook;

use crate::support::{demo_course, demo_player, level};

/// Shots that had no part in the ellipses.
const FRESH: usize = 4000;

#[test]
fn ellipses_hold_their_share_of_fresh_shots() {
    let atmosphere = Atmosphere::new(&Air::standard());
    let mut random = ChaCha8Rng::seed_from_u64(20);
    for golfer in [
        demo_player("rowan"),
        demo_player("dale"),
        level("20", Sex::Women),
    ] {
        let clubs: Vec<_> = golfer.clubs.iter().map(|entry| entry.club).collect();
        let drawn = landings(&golfer, &clubs).expect("patterns");
        for (entry, of) in golfer.clubs.iter().zip(&drawn) {
            let mut pattern = entry.pattern.clone();
            pattern.mishit = Mishit::NONE;
            let sampler = pattern.sampler().expect("a pattern");
            let fresh: Vec<Point> = (0..FRESH)
                .map(|_| fly(&strike_of(&sampler.random(&mut random)), &atmosphere))
                .map(|flight| Point {
                    x_yd: flight.side.yd(),
                    y_yd: flight.carry.yd(),
                })
                .collect();
            assert_eq!(of.ellipses.len(), 2);
            for held in &of.ellipses {
                let shape = Shape::Ellipse(held.ellipse);
                let inside = fresh.iter().filter(|point| shape.contains(**point)).count() as f64
                    / FRESH as f64;
                // Four standard errors of the fresh shots, and as much again for the 1024 behind the ellipse.
                assert!(
                    (inside - held.share).abs() < 0.04,
                    "{} {}: {inside} for {}",
                    golfer.name,
                    of.club,
                    held.share
                );
            }
        }
    }
}

fn on_parkland(holes: &[usize], with_goal: bool) -> Vec<OnHole> {
    let (player, goal) = (level("15", Sex::Men), level("5", Sex::Men));
    let course = demo_course("parkland");
    let goal = with_goal.then_some(&goal);
    let effort = Effort {
        rounds: 20_000,
        seed: 7,
    };
    on_holes(
        &player,
        goal,
        (&course, &Rulebook::default()),
        holes,
        effort,
    )
    .expect("played")
}

#[test]
fn ellipses_on_a_hole_hold_their_share_of_its_landings() {
    for on in on_parkland(&[1, 6, 7], false) {
        for leg in on.legs.iter().map(|leg| &leg.leg) {
            let normal: Vec<Point> = leg
                .shots
                .iter()
                .filter(|shot| !shot.mishit)
                .map(|shot| shot.at.into())
                .collect();
            for held in &leg.ellipses {
                let shape = Shape::Ellipse(held.ellipse);
                let inside = normal
                    .iter()
                    .filter(|point| shape.contains(**point))
                    .count() as f64;
                assert!((inside / normal.len() as f64 - held.share).abs() < 0.02);
            }
        }
    }
}

#[test]
fn strokes_lost_by_part_add_up_to_what_the_goal_is_ahead() {
    for on in on_parkland(&[0, 2, 7], true) {
        let lost: f64 = on.lost.iter().map(|(_, lost)| lost).sum();
        let ahead = on.expected - on.goal_expected.expect("a goal");
        // A hole's score spreads by about a stroke: four standard errors of 20 000 rounds, and the mesh's own error.
        assert!((lost - ahead).abs() < 0.03 + 0.02, "{lost} for {ahead}");
    }
}

#[test]
fn a_player_beside_himself_loses_nothing_with_the_shots_he_chose() {
    for on in on_parkland(&[0, 2, 7], false) {
        assert!(on.lost.is_empty() && on.goal_expected.is_none());
        for leg in &on.legs {
            assert!(
                leg.lost.abs() < 0.06,
                "{:?} loses {}",
                leg.leg.club,
                leg.lost
            );
        }
        let weight: f64 = on.legs[0].leg.shots.iter().map(|shot| shot.weight).sum();
        assert!((weight - 1.0).abs() < 1e-6);
    }
}
