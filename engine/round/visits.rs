//! Where a golfer plays full shots from in his rounds, and what such a shot would be worth with other patterns.
//!
//! To the first order, a golfer's score changes with his patterns by what the shots he plays now would cost with the
//! other patterns, everything after them played as now. (The envelope theorem: what he would choose otherwise
//! changes the score to the second order only.) So hundreds of other patterns can be weighed without solving a hole.

use std::sync::Arc;

use rayon::prelude::*;

use crate::player::club::Club;

use super::bank::HoleBank;
use super::choose::{Care, Choice, Choosing, SwingId};
use super::eight::each_end;
use super::finish::Spot;
use super::part::Part;
use super::place::Xy;
use super::ruled::Told;
use super::solve::Solved;
use super::swing::Swing;

/// Of so many rounds the full shots are kept.
pub const ROUNDS_VISITED: u64 = 32;

/// A full shot of a round: from where, and what was played.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Visit {
    /// The hole, by its place on the course.
    pub hole: usize,
    /// From where.
    pub spot: Spot,
    /// Swing and target.
    pub choice: Choice,
    /// The part it belongs to.
    pub part: Part,
}

/// The visits as they would be played if some clubs were those of `banks` (by hole): with one of these in place of another
/// club wherever that is better. So it is known which shots a club would be played for that is hardly played now.
#[must_use]
pub fn with_clubs(
    visits: &[Visit],
    solved: &[Solved<'_>],
    banks: &[Arc<HoleBank<'_>>],
    clubs: &[Club],
) -> Vec<Visit> {
    let Some(others) = Others::between(visits, solved, banks) else {
        return Vec::new();
    };
    let guest = banks.first().map_or(&[][..], |bank| bank.swings());
    let of_clubs: Vec<SwingId> = (0..guest.len())
        .filter(|place| clubs.contains(&guest[*place].club))
        .map(of_guest)
        .collect();
    let played = |visit: &Visit| {
        let own = &solved[visit.hole];
        if clubs.contains(&own.choosing(visit.spot).club(visit.choice)) {
            return *visit;
        }
        let choosing = own.with_bank(visit.spot, &banks[visit.hole]);
        let mut candidates = others.candidates(&choosing, visit);
        candidates.extend(with_swings(&choosing, visit, &of_clubs));
        let best = choosing.best(&own.values, visit.spot, &candidates, Care::STAND);
        let choice = best.and_then(|(choice, _)| others.as_own(choice, visit));
        Visit {
            choice: choice.unwrap_or(visit.choice),
            ..*visit
        }
    };
    visits.par_iter().map(played).collect()
}

/// What becomes of a shot.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Outlook {
    /// Expected strokes of it and what follows.
    pub strokes: f32,
    /// By part: the chance that the next shot belongs to it.
    pub next: [f32; Part::ALL.len()],
}

/// The outlook of each visit's shot, when it is played with the clubs of `banks` (by hole) and the rest as it is
/// solved.
///
/// The golfer takes the same club to the same target, or for its whole distance, whichever is better with these
/// patterns. Where he has no such club, or has a club that the one who played the visits does not have, he looks at
/// what else there is.
#[must_use]
pub fn expected_with(
    visits: &[Visit],
    solved: &[Solved<'_>],
    banks: &[Arc<HoleBank<'_>>],
) -> Vec<Outlook> {
    let Some(others) = Others::between(visits, solved, banks) else {
        return Vec::new();
    };
    let value = |visit: &Visit| {
        let own = &solved[visit.hole];
        let choosing = own.with_bank(visit.spot, &banks[visit.hole]);
        let candidates = others.candidates(&choosing, visit);
        let best = choosing.best(&own.values, visit.spot, &candidates, Care::GUEST);
        match best {
            Some((choice, strokes)) => Outlook {
                strokes,
                next: next_parts(own, &choosing, visit, choice),
            },
            None => Outlook {
                strokes: own.expected(visit.spot),
                ..Outlook::default()
            },
        }
    };
    visits.par_iter().map(value).collect()
}

/// The parts that the shots after a choice belong to.
fn next_parts(
    own: &Solved<'_>,
    choosing: &Choosing<'_>,
    visit: &Visit,
    choice: Choice,
) -> [f32; Part::ALL.len()] {
    let mut next = [0.0; Part::ALL.len()];
    let (line, shots) = choosing.line(visit.spot, choice);
    let mishits = shots.mishit_share;
    for (list, share) in [(&shots.normal, 1.0 - mishits), (&shots.mishit, mishits)] {
        let each = share / list.len().max(1) as f32;
        let swing = (shots, Told::Finely);
        each_end(own.ground(), (visit.spot, line), swing, list, |end| {
            let end = end.or_again(visit.spot, &own.values, || own.expected(visit.spot));
            let part = if end.replay {
                Some(visit.part)
            } else {
                own.part_around(end.spot)
            };
            if let Some(part) = part {
                next[part as usize] += each;
            }
        });
    }
    next
}

/// A guest's swings beside those of the golfer who played the visits.
struct Others {
    /// By swing of that golfer: the guest's with the same club.
    same: Vec<Option<SwingId>>,
    /// All of the guest's.
    all: Vec<SwingId>,
    /// Those that golfer has not.
    new: Vec<SwingId>,
}

/// A guest's swing by its number.
fn of_guest(place: usize) -> SwingId {
    SwingId {
        bank: 0,
        swing: place as u8,
    }
}

impl Others {
    /// Between the golfer who played some visits, solved, and a guest; none where there are no visits.
    fn between(
        visits: &[Visit],
        solved: &[Solved<'_>],
        banks: &[Arc<HoleBank<'_>>],
    ) -> Option<Self> {
        let (first, guest) = (visits.first()?, banks.first()?);
        let own = solved[first.hole].choosing(first.spot).banks;
        let own = &own[usize::from(first.choice.swing.bank)];
        Some(Self::of(own.swings(), guest.swings()))
    }

    fn of(own: &[Swing], guest: &[Swing]) -> Self {
        let in_guest = |swing: &Swing| guest.iter().position(|other| other.is_counterpart(swing));
        let is_new = |place: &usize| !own.iter().any(|swing| swing.is_counterpart(&guest[*place]));
        Self {
            same: own
                .iter()
                .map(|swing| in_guest(swing).map(of_guest))
                .collect(),
            all: (0..guest.len()).map(of_guest).collect(),
            new: (0..guest.len()).filter(is_new).map(of_guest).collect(),
        }
    }

    /// A guest's choice with the swing of the golfer who played a visit; none where he has none like it.
    fn as_own(&self, choice: Choice, visit: &Visit) -> Option<Choice> {
        let place = self
            .same
            .iter()
            .position(|same| *same == Some(choice.swing))?;
        let swing = SwingId {
            bank: visit.choice.swing.bank,
            swing: place as u8,
        };
        Some(Choice { swing, ..choice })
    }

    fn candidates(&self, choosing: &Choosing<'_>, visit: &Visit) -> Vec<Choice> {
        let own = usize::from(visit.choice.swing.swing);
        let Some(swing) = self.same.get(own).copied().flatten() else {
            return with_swings(choosing, visit, &self.all);
        };
        let same = Choice {
            swing,
            ..visit.choice
        };
        let mut all = with_swings(choosing, visit, &self.new);
        all.extend(
            [same, farther(same, visit.spot)].map(|choice| choosing.fitted(visit.spot, choice)),
        );
        all
    }
}

fn with_swings(choosing: &Choosing<'_>, visit: &Visit, swings: &[SwingId]) -> Vec<Choice> {
    if swings.is_empty() {
        return Vec::new();
    }
    let choosing = Choosing {
        swings,
        ..*choosing
    };
    choosing.candidates(visit.spot, swings)
}

/// The choice aimed so far along the same line that the swing is made in full.
fn farther(choice: Choice, from: Spot) -> Choice {
    const FAR_YD: f32 = 1000.0;
    let way = choice.target.seen_from(from.at).unit();
    let target: Xy = from.at.moved(way, FAR_YD);
    Choice { target, ..choice }
}
