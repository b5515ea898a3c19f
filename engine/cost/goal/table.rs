//! The courses and golfers on the table: solved with any part in other hands.

use rayon::prelude::*;

use crate::cost::effort::Effort;
use crate::cost::figures::expected_score;
use crate::cost::venue::Home;
use crate::player::Golfer;
use crate::round::part::Part;
use crate::round::solve::Solved;

use super::cast::PLAYER;
use super::mean;

/// Courses solved for the player, and the golfers who may take parts over from him.
pub struct Table<'a> {
    pub homes: &'a [Home<'a>],
    pub golfers: &'a [&'a Golfer],
    pub effort: Effort,
    pub done: &'a (dyn Fn(u64) + Sync),
}

impl Table<'_> {
    /// A course solved with each part played by the golfer whose number `plays` gives for it, from the player's own
    /// solution: what `then` makes of it.
    fn with<R>(
        &self,
        home: &Home<'_>,
        plays: impl Fn(Part) -> usize,
        then: impl FnOnce(&[Solved<'_>]) -> R,
    ) -> R {
        let side = home.venue.stage.side_of(self.golfers, plays);
        then(&home.venue.solve(&side, Some(home.own)))
    }

    /// A course solved for another golfer by himself.
    pub fn fresh<R>(
        &self,
        home: &Home<'_>,
        golfer: usize,
        then: impl FnOnce(&[Solved<'_>]) -> R,
    ) -> R {
        let side = home.venue.stage.side_of(self.golfers, |_| golfer);
        then(&home.venue.solve(&side, None))
    }

    /// The player's expected score on each course.
    pub fn own_expected(&self) -> Vec<f64> {
        self.homes
            .iter()
            .map(|home| expected_score(home.own))
            .collect()
    }

    /// The expected score on each course with some parts in other hands.
    pub fn expected(&self, plays: impl Fn(Part) -> usize + Sync) -> Vec<f64> {
        self.homes
            .par_iter()
            .map(|home| self.with(home, &plays, expected_score))
            .collect()
    }

    /// The index with some parts in other hands, by rounds, the mean over the courses; none where the rounds are too
    /// few.
    pub fn index(&self, plays: impl Fn(Part) -> usize + Sync) -> Option<f64> {
        let handicap = self.golfers[PLAYER].handicap;
        let on = |home: &Home| {
            self.with(home, &plays, |solved| {
                let tally = home.venue.play(solved, None, self.effort, self.done);
                home.index(&tally, handicap)
            })
        };
        let all: Option<Vec<f64>> = self.homes.iter().map(on).collect();
        all.map(|all| mean(all.into_iter()))
    }
}
