//! How closely a choice is looked at: through some of its draws, and, where that is not enough, through more.

use super::bank::{HoleShot, SwingShots};
use super::choose::{Choice, Choosing};
use super::eight::finish_eight;
use super::finish::{Finish, Line, Spot};
use super::places::LANES;
use super::ruled::Told;
use super::values::Values;

/// How closely a pattern is looked at: how many of its normal strikes and mishits. The first draws of
/// the sequence are themselves evenly spread.
#[derive(Debug, Clone, Copy)]
pub(super) struct Look {
    normal: usize,
    mishits: usize,
    /// How finely a user's rule is told where on a green a shot pitches.
    told: Told,
}

pub(super) const GLIMPSE: Look = Look {
    normal: 8,
    mishits: 4,
    told: Told::Roughly,
};
pub(super) const GLANCE: Look = Look {
    normal: 16,
    mishits: 8,
    told: Told::Roughly,
};
pub(super) const CLOSE: Look = Look {
    normal: 32,
    mishits: 16,
    told: Told::Finely,
};
pub(super) const CLOSER: Look = Look {
    normal: 64,
    mishits: 32,
    told: Told::Finely,
};
pub(super) const WHOLE: Look = Look {
    normal: usize::MAX,
    mishits: usize::MAX,
    told: Told::Finely,
};

/// A choice as far as it was looked at: a closer look goes on with the draws that lack.
#[derive(Debug, Clone)]
pub(super) struct Sight<'a> {
    /// The choice.
    pub choice: Choice,
    line: Line,
    shots: &'a SwingShots,
    normal: Seen,
    mishit: Seen,
    told: Told,
}

impl<'a> Choosing<'a> {
    /// A choice that nobody has looked at.
    pub(super) fn sight(&self, from: Spot, choice: Choice) -> Sight<'a> {
        let (line, shots) = self.line(from, choice);
        Sight {
            choice,
            line,
            shots,
            normal: Seen::default(),
            mishit: Seen::default(),
            told: Told::Roughly,
        }
    }

    /// Expected strokes of a choice seen so closely, the values as they were when it was first looked at.
    pub(super) fn looked(
        &self,
        values: &Values,
        from: Spot,
        sight: &mut Sight<'a>,
        look: Look,
    ) -> f32 {
        let shots = sight.shots;
        if sight.told != look.told {
            sight.told = look.told;
            // Only a rule answers otherwise when it is told the place more finely.
            if shots.ruled.is_some() {
                (sight.normal, sight.mishit) = Default::default();
            }
        }
        let swing = ((sight.line, shots), look.told);
        for (list, most, seen) in [
            (&shots.normal, look.normal, &mut sight.normal),
            (&shots.mishit, look.mishits, &mut sight.mishit),
        ] {
            self.see(values, from, swing, (list, most), seen);
        }
        expected(&sight.normal, &sight.mishit, shots.mishit_share)
    }

    /// Sees the shots of a list up to so many that were not yet seen.
    fn see(
        &self,
        values: &Values,
        from: Spot,
        ((line, shots), told): ((Line, &SwingShots), Told),
        (list, most): (&[HoleShot], usize),
        seen: &mut Seen,
    ) {
        let most = list.len().min(most);
        for few in list.get(seen.shots..most).unwrap_or_default().chunks(LANES) {
            let ends = finish_eight(self.ground, (from, line), (shots, told), few);
            let expected = ends.expected(values);
            for (lane, expected) in expected.iter().take(few.len()).enumerate() {
                seen.add(&ends.end(lane), *expected);
            }
        }
        seen.shots = seen.shots.max(most);
    }

    /// Expected strokes of a choice at a first look, and the choice for closer ones.
    pub(super) fn glanced(
        &self,
        values: &Values,
        from: Spot,
        choice: Choice,
        look: Look,
    ) -> (f32, Sight<'a>) {
        let mut sight = self.sight(from, choice);
        (self.looked(values, from, &mut sight, look), sight)
    }
}

/// What the first so many shots of a list lead to.
#[derive(Debug, Clone, Default)]
struct Seen {
    shots: usize,
    /// Strokes taken, penalties included, and expected strokes from where balls lie that were not dropped.
    strokes: f32,
    /// Shots that are played again.
    replayed: f32,
    /// Expected strokes from where balls are dropped, one by one.
    drops: Vec<f32>,
}

impl Seen {
    /// Counts one shot's end, and the strokes expected from where it lies.
    #[inline]
    fn add(&mut self, end: &Finish, expected: f32) {
        self.strokes += 1.0 + f32::from(end.penalty);
        if end.replay {
            self.replayed += 1.0;
        } else if end.penalty > 0 {
            self.drops.push(expected);
        } else {
            self.strokes += expected;
        }
    }
}

/// Expected strokes of a choice, by its normal strikes and its mishits, of which there is such a share.
///
/// A replay comes back to this spot and this choice: x = settled + replayed·x, solved for x. In place of a drop the shot
/// may be played again, which is worth it where more than x is expected from the drop: balls are taken from the best drop
/// on, as long as that leaves x less.
fn expected(normal: &Seen, mishit: &Seen, mishits: f32) -> f32 {
    let lists = [(normal, 1.0 - mishits), (mishit, mishits)];
    let lists = lists.map(|(seen, share)| (seen, share / seen.shots.max(1) as f32));
    let sum = |of: fn(&Seen) -> f32| lists[0].1 * of(lists[0].0) + lists[1].1 * of(lists[1].0);
    let mut settled = sum(|seen| seen.strokes);
    let mut again = sum(|seen| seen.replayed);
    let solved = |settled: f32, again: f32| settled / (1.0 - again).max(0.02);
    let dropped = lists.iter().map(|(seen, _)| seen.drops.len()).sum();
    if dropped == 0 {
        return solved(settled, again);
    }
    let mut drops = Vec::with_capacity(dropped);
    for (seen, each) in lists {
        again += each * seen.drops.len() as f32;
        drops.extend(seen.drops.iter().map(|drop| (*drop, each)));
    }
    drops.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
    for (drop, each) in drops {
        if drop >= solved(settled, again) {
            break;
        }
        settled += each * drop;
        again -= each;
    }
    solved(settled, again)
}
