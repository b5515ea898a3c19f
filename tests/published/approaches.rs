//! Shots at greens, one by one, against what is published of amateurs'.
//!
//! Nothing here set a constant.

use costcard::course::Lie;
use costcard::player::Sex;
use costcard::player::levels::level;
use costcard::round::choose::Choice;
use costcard::round::finish::{Finish, Spot, finish};
use costcard::round::place::Xy;
use costcard::round::play::Rounds;
use costcard::round::ruled::Told;
use costcard::round::solve::{Play, Solved};
use costcard::round::stage::Stage;

use super::checks::Check;
use crate::support::{demo_course, neutral_course};

/// The level that averages 90 on the neutral course of 6550 yd: 15 averages 89.4 there, 16 averages 90.4.
const OFF_WHEN_SCORING_90: f64 = 15.6;

/// Every end of a shot with its share of all, replays left out.
fn ends(solved: &Solved<'_>, spot: Spot, choice: Choice) -> Vec<(Finish, f64)> {
    let (line, shots) = solved.choosing(spot).line(spot, choice);
    let mishits = f64::from(shots.mishit_share);
    let lists = [(&shots.normal, 1.0 - mishits), (&shots.mishit, mishits)];
    lists
        .into_iter()
        .flat_map(|(list, share)| {
            let each = share / list.len() as f64;
            list.iter().map(move |shot| {
                let struck = shots.struck(shot, Told::Finely);
                (finish(solved.ground(), spot, line, struck), each)
            })
        })
        .collect()
}

/// The distance that half of the weight lies below.
fn median(mut all: Vec<(f64, f64)>) -> f64 {
    all.sort_by(|a, b| a.0.total_cmp(&b.0));
    let half = all.iter().map(|(_, share)| share).sum::<f64>() / 2.0;
    let mut below = 0.0;
    for (value, share) in all {
        below += share;
        if below >= half {
            return value;
        }
    }
    f64::NAN
}

/// Source: M. Broadie, Every Shot Counts: a golfer who scores 90 has from 150 yd of fairway 35 % on the green, a median
/// of 59 ft left, and the centre of his shots 13 yd short of the middle.
fn from_150_yd() -> Check {
    let golfer = level(OFF_WHEN_SCORING_90, Sex::Men).unwrap();
    let course = neutral_course(18, 6550.0);
    let golfers = [&golfer];
    let stage = Stage::new(&course, &golfers);
    let banks = stage.hole_banks();
    let side = stage.side(|_| 0);
    let (mut on, mut left, mut short) = (Vec::new(), Vec::new(), Vec::new());
    for (index, hole) in course
        .holes
        .iter()
        .enumerate()
        .filter(|(_, hole)| hole.par == 4)
    {
        let solved = stage.solve_hole(index, &banks, &side);
        let pin = Xy::from(hole.pin);
        let at = Xy::new(pin.x, pin.y - 150.0);
        let spot = Spot {
            at,
            lie: Lie::Fairway,
        };
        let Some(Play::Full(choice)) = solved.play(spot) else {
            panic!("no full shot from 150 yd");
        };
        for (end, share) in ends(&solved, spot, choice) {
            let off = end.spot.at.seen_from(pin);
            on.push((f64::from(u8::from(end.spot.lie == Lie::Green)), share));
            left.push((3.0 * f64::from(off.length()), share));
            short.push((-f64::from(off.y), share));
        }
    }
    let holes: f64 = on.iter().map(|(_, share)| share).sum();
    let mean =
        |all: &[(f64, f64)]| all.iter().map(|(value, share)| value * share).sum::<f64>() / holes;
    let (on, short, left) = (100.0 * mean(&on), mean(&short), median(left));
    println!("on the green {on:.1} %, left {left:.0} ft, {short:.1} yd short");
    let mut check = Check::new(
        module_path!(),
        "shots of a golfer who scores 90 from 150 yd of fairway",
        "M. Broadie, Every Shot Counts",
    );
    check.within("on the green", "%", (35.0, 5.0), on);
    check.within("left, median", "ft", (59.0, 8.0), left);
    check.at_least("short of the middle (13 is published)", "yd", 0.0, short);
    check
}

#[test]
fn a_90_golfers_shots_from_150_yd_end_as_published() {
    let check = from_150_yd();
    check.told();
    check.hold();
}

/// Source: Course Rating System Manual, R&A and USGA: fewer than 10 % of approach shots finish over the green.
#[test]
fn hardly_any_approach_ends_over_the_green() {
    let mut check = Check::new(
        module_path!(),
        "approaches that end over the green",
        "Course Rating System Manual, R&A and USGA",
    );
    for handicap in [0.0, 5.0, 10.0, 15.0, 20.0] {
        let golfer = level(handicap, Sex::Men).unwrap();
        let course = demo_course("parkland");
        let golfers = [&golfer];
        let stage = Stage::new(&course, &golfers);
        let banks = stage.hole_banks();
        let side = stage.side(|_| 0);
        let solved = stage.solve(&banks, &side, None);
        let rounds = Rounds {
            holes: &course.holes,
            golfer: &solved,
            goal: None,
            seed: 5,
        };
        let visits = rounds.play(64, &|_| {}).visits;
        let (mut all, mut over) = (0.0, 0.0);
        for visit in visits {
            let hole = &course.holes[visit.hole];
            let pin = Xy::from(hole.pin);
            // A shot that is laid up is no approach.
            if pin.seen_from(visit.choice.target).length() > 40.0 {
                continue;
            }
            let ahead = pin.seen_from(visit.spot.at).unit();
            for (end, share) in ends(&solved[visit.hole], visit.spot, visit.choice) {
                let past = end.spot.at.seen_from(pin);
                let beyond = past.x * ahead.x + past.y * ahead.y > 0.0;
                let to_side = (past.x * ahead.y - past.y * ahead.x).abs();
                // Over: beyond the pin, off the green, and no wider of it than a green is.
                let is_over = beyond && end.spot.lie != Lie::Green && to_side < 13.0;
                all += share;
                over += share * f64::from(u8::from(is_over));
            }
        }
        let pct = 100.0 * over / all;
        println!("off {handicap}: {pct:.1} % over the green");
        check.at_most(&format!("off {handicap}"), "%", 10.0, pct);
    }
    check.told();
    check.hold();
}
