//! From simulated rounds to an index.

use costcard::cost::handicap::simulated::{index, ranks};
use costcard::course::{Course, Rating};

use crate::support::neutral_course;

const RATING: Rating = Rating {
    course_rating: 72.0,
    bogey_rating: 93.0,
    slope_rating: 113,
};

fn course() -> Course {
    neutral_course(18, 6550.0)
}

/// Rounds, each so many over par on every hole of a list, par elsewhere.
fn rounds(course: &Course, count: usize, over: impl Fn(usize, usize) -> u8) -> Vec<u8> {
    let pars: Vec<u8> = course.holes.iter().map(|hole| hole.par).collect();
    let round = |round: usize| {
        let hole = |(hole, par): (usize, &u8)| par + over(round, hole);
        pars.iter().enumerate().map(hole).collect::<Vec<u8>>()
    };
    (0..count).flat_map(round).collect()
}

#[test]
fn rounds_that_never_differ_are_the_index() {
    let course = course();
    let bogeys = rounds(&course, 40, |_, _| 1);
    assert_eq!(index(&bogeys, &course, RATING, 18.0), Some(18.0));
    // Wherever the search begins.
    assert_eq!(index(&bogeys, &course, RATING, 0.0), Some(18.0));
    let pars = rounds(&course, 20, |_, _| 0);
    assert_eq!(index(&pars, &course, RATING, 5.0), Some(0.0));
}

/// Of every 20 rounds the best eight count: twelve rounds in twenty may be as bad as they like.
#[test]
fn the_best_eight_of_twenty_count() {
    let course = course();
    let mixed = rounds(&course, 60, |round, _| if round % 20 < 8 { 1 } else { 3 });
    assert_eq!(index(&mixed, &course, RATING, 18.0), Some(18.0));
}

/// One hole ten over par in every round counts net double bogey only.
#[test]
fn a_disaster_counts_net_double_bogey() {
    let course = course();
    let hardest = ranks(&course.holes)
        .iter()
        .position(|rank| *rank == 1)
        .unwrap();
    let disasters = rounds(&course, 20, |_, hole| if hole == hardest { 10 } else { 0 });
    // Off 3 one stroke is received on the three hardest holes: the disaster counts three over par.
    assert_eq!(index(&disasters, &course, RATING, 3.0), Some(3.0));
    assert_eq!(index(&disasters, &course, RATING, 30.0), Some(3.0));
}

#[test]
fn twenty_rounds_are_needed_on_eighteen_or_nine_holes() {
    let full = course();
    assert_eq!(
        index(&rounds(&full, 19, |_, _| 1), &full, RATING, 18.0),
        None
    );
    let nine = neutral_course(9, 3275.0);
    let rating = Rating {
        course_rating: 36.0,
        ..RATING
    };
    let bogeys = rounds(&nine, 40, |_, _| 1);
    assert_eq!(index(&bogeys, &nine, rating, 18.0), Some(18.0));
    assert_eq!(index(&bogeys[..39 * 9], &nine, rating, 18.0), None);
    let odd = neutral_course(12, 4400.0);
    assert_eq!(index(&rounds(&odd, 40, |_, _| 1), &odd, RATING, 18.0), None);
}

/// Without stroke indexes the holes longest for their par come first; with them, theirs is the order.
#[test]
fn holes_rank_by_stroke_index_or_length() {
    let mut course = course();
    let rank_of = |course: &Course, hole: usize| ranks(&course.holes)[hole];
    let longest_four = (0..18)
        .filter(|hole| course.holes[*hole].par == 4)
        .max_by(|a, b| {
            course.holes[*a]
                .length_yd
                .total_cmp(&course.holes[*b].length_yd)
        })
        .unwrap();
    assert_eq!(rank_of(&course, longest_four), 1);
    let mut all = ranks(&course.holes);
    all.sort_unstable();
    assert_eq!(all, (1..=18).collect::<Vec<u8>>());
    for (hole, stroke_index) in course.holes.iter_mut().zip((1..=18).rev()) {
        hole.stroke_index = Some(stroke_index);
    }
    assert_eq!((rank_of(&course, 0), rank_of(&course, 17)), (18, 1));
    // One that is missing takes the others with it.
    course.holes[3].stroke_index = None;
    assert_eq!(rank_of(&course, longest_four), 1);
}
