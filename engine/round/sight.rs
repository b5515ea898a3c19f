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
#[derive(Debug, Clone, Copy)]
pub(super) struct Sight<'a> {
    /// The choice.
    pub choice: Choice,
    line: Line,
    shots: &'a SwingShots,
    normal: Seen,
    mishit: Seen,
    told: Told,
}

/// What the first so many shots of a list come to.
#[derive(Debug, Clone, Copy, Default)]
struct Seen {
    shots: usize,
    sum: Outcome,
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
        let see = |seen: &mut Seen, list: &[HoleShot], most: usize| {
            let most = list.len().min(most);
            let rest = list.get(seen.shots..most).unwrap_or_default();
            self.see(
                values,
                from,
                (sight.line, shots),
                look.told,
                rest,
                &mut seen.sum,
            );
            seen.shots = seen.shots.max(most);
            seen.sum.divided_by(seen.shots.max(1) as f32)
        };
        let normal = see(&mut sight.normal, &shots.normal, look.normal);
        let mishit = see(&mut sight.mishit, &shots.mishit, look.mishits);
        normal.mixed(mishit, shots.mishit_share).expected()
    }

    /// Counts the ends of some shots.
    fn see(
        &self,
        values: &Values,
        from: Spot,
        (line, shots): (Line, &SwingShots),
        told: Told,
        list: &[HoleShot],
        sum: &mut Outcome,
    ) {
        for few in list.chunks(LANES) {
            let ends = finish_eight(self.ground, (from, line), (shots, told), few);
            let expected = ends.expected(values);
            for (lane, expected) in expected.iter().take(few.len()).enumerate() {
                sum.add(&ends.end(lane), || *expected);
            }
        }
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

/// What shots lead to, as sums or as means of all of them.
#[derive(Debug, Clone, Copy, Default)]
struct Outcome {
    /// Strokes taken, penalties included, and expected strokes from where the ball lies.
    strokes: f32,
    /// Shots that are played again.
    replayed: f32,
    /// Expected strokes from where balls are dropped.
    after_drops: f32,
    /// Shots after which the ball is dropped.
    dropped: f32,
}

impl Outcome {
    /// Counts one shot's end, and the strokes expected from where it lies.
    #[inline]
    fn add(&mut self, end: &Finish, expected: impl FnOnce() -> f32) {
        self.strokes += 1.0 + f32::from(end.penalty);
        if end.replay {
            self.replayed += 1.0;
        } else if end.penalty > 0 {
            self.dropped += 1.0;
            self.after_drops += expected();
        } else {
            self.strokes += expected();
        }
    }

    /// Of two kinds of shots, `share` of the other kind.
    fn mixed(self, other: Self, share: f32) -> Self {
        let mix = |own: f32, other: f32| (1.0 - share) * own + share * other;
        Self {
            strokes: mix(self.strokes, other.strokes),
            replayed: mix(self.replayed, other.replayed),
            after_drops: mix(self.after_drops, other.after_drops),
            dropped: mix(self.dropped, other.dropped),
        }
    }

    /// Sums to means.
    fn divided_by(self, count: f32) -> Self {
        Self {
            strokes: self.strokes / count,
            replayed: self.replayed / count,
            after_drops: self.after_drops / count,
            dropped: self.dropped / count,
        }
    }

    /// Expected strokes. A replay comes back to this spot and this choice: x = settled + replayed·x, solved for x. In
    /// place of drops the shot may be played again; here that holds for all of them or none.
    fn expected(&self) -> f32 {
        let solved = |settled: f32, replayed: f32| settled / (1.0 - replayed).max(0.02);
        let dropped = solved(self.strokes + self.after_drops, self.replayed);
        if self.dropped == 0.0 {
            return dropped;
        }
        dropped.min(solved(self.strokes, self.replayed + self.dropped))
    }
}
