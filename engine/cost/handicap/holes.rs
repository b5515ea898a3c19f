//! Hole by hole: the order of stroke indexes, net double bogey, adjusted gross scores.

use super::allowance::strokes_received;

/// One hole as adjusting needs it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Hole {
    /// Par.
    pub par: u8,
    /// Place by stroke index among the holes played, from 1.
    pub rank: u8,
}

/// The most a golfer counts on a hole (rule 3.1): par + 2 + strokes received; par + 5 before there is an index.
#[must_use]
pub fn most(par: u8, received: Option<i32>) -> i32 {
    i32::from(par) + received.map_or(5, |received| 2 + received)
}

/// The most that counts on each hole; `course_handicap` is none before there is an index.
#[must_use]
pub fn most_of_each(holes: &[Hole], course_handicap: Option<i32>) -> Vec<i32> {
    let count = u8::try_from(holes.len()).unwrap_or(u8::MAX);
    let received = |hole: &Hole| course_handicap.map(|h| strokes_received(h, hole.rank, count));
    holes
        .iter()
        .map(|hole| most(hole.par, received(hole)))
        .collect()
}

/// The adjusted gross score: each hole at what was scored or the most that counts there; a hole picked up (none)
/// counts the most.
#[must_use]
pub fn adjusted_gross(scores: impl Iterator<Item = Option<u8>>, most: &[i32]) -> i32 {
    scores
        .zip(most)
        .map(|(score, most)| score.map_or(*most, |score| i32::from(score).min(*most)))
        .sum()
}

/// The rank of each of a list of stroke indexes, from 1; equal ones rank in the order of play.
#[must_use]
pub fn ranks<T: PartialOrd>(stroke_indexes: &[T]) -> Vec<u8> {
    let before = |place: usize, index: &T| {
        let earlier = |(other_place, other): (usize, &T)| {
            other < index || (other == index && other_place < place)
        };
        let all = stroke_indexes.iter().enumerate();
        all.filter(|other| earlier(*other)).count()
    };
    let rank = |(place, index)| u8::try_from(before(place, index) + 1).unwrap_or(u8::MAX);
    stroke_indexes.iter().enumerate().map(rank).collect()
}
