//! A bank whose shots are reckoned from another's.

use std::sync::{Arc, OnceLock};

use crate::player::pattern::Pattern;
use crate::round::place::Xy;
use crate::round::swing::Swing;

use super::kin::{Answer, Apart, Kin};
use super::{Bank, Flown, Slot};

/// Normal strikes and mishits, ready for others to be reckoned from them, and how their flights hang on the strike.
pub(super) type KinLists = Box<[(Kin, [Answer; FIGURES]); 2]>;
/// Normal strikes and mishits: how far they lie from the other bank's.
type ApartLists = [Vec<Apart>; 2];

/// A club whose mean strike lies farther than this from the other's, in standard deviations of any figure, is flown.
const NEAR_SD: f64 = 2.0;

/// The bank that shots are reckoned from, and by list how far the strikes lie apart.
#[derive(Debug)]
pub(super) struct Like {
    other: Arc<Bank>,
    apart: Vec<OnceLock<ApartLists>>,
}

impl Bank {
    /// The same bank, but shots of clubs that another bank of the same air and ground has too are reckoned from that
    /// one's shots: for golfers much alike, where no rule stands in for the built-in run on greens.
    #[must_use]
    pub fn like(mut self, other: &Arc<Self>) -> Self {
        let lists = (0..self.flown.len()).map(|_| OnceLock::new()).collect();
        self.like = Some(Like {
            other: Arc::clone(other),
            apart: lists,
        });
        self
    }

    /// The list of the bank that shots are reckoned from, and how far this one's strikes lie from its.
    fn kin_of(&self, slot: Slot) -> Option<(&Self, Slot, &KinLists, &ApartLists)> {
        let Like { other, apart } = self.like.as_ref()?;
        let club = |swing: &Swing| (swing.club, swing.speed_share);
        let own = club(&self.swings[slot.swing]);
        let swing = other.swings.iter().position(|swing| club(swing) == own)?;
        let there = Slot { swing, ..slot };
        if !is_near(&other.pattern(there), &self.pattern(slot)) {
            return None;
        }
        let kin = other.kin(there)?;
        let apart = apart[slot.index()].get_or_init(|| {
            let strikes = self.strikes(slot);
            std::array::from_fn(|list| kin[list].0.apart(&strikes[list]))
        });
        Some((other, there, kin, apart))
    }

    fn kin(&self, slot: Slot) -> Option<&KinLists> {
        let kin = self.kin[slot.index()].get_or_init(|| {
            let (strikes, flown) = (self.strikes(slot), self.flown(slot));
            let list = |list: usize| {
                let kin = Kin::of(&strikes[list])?;
                let answers = std::array::from_fn(|figure| {
                    kin.answer(flown[list].iter().map(|shot| shot.figures()[figure]))
                });
                Some((kin, answers))
            };
            Some(Box::new([list(0)?, list(1)?]))
        });
        kin.as_ref()
    }

    /// The shots of a list, where they can be reckoned.
    pub(super) fn reckoned(&self, slot: Slot) -> Option<[Vec<Flown>; 2]> {
        let (other, there, kin, apart) = self.kin_of(slot)?;
        let flown = other.flown(there);
        Some(std::array::from_fn(|list| {
            let answers = &kin[list].1;
            let each = flown[list].iter().zip(&apart[list]);
            each.map(|(shot, apart)| {
                shot.moved(answers.each_ref().map(|answer| answer.over(apart)))
            })
            .collect()
        }))
    }

    /// Their runs on one kind of green.
    pub(super) fn reckoned_runs(&self, green: usize, slot: Slot) -> Option<[Vec<Xy>; 2]> {
        let (other, there, kin, apart) = self.kin_of(slot)?;
        let runs = other.green_runs(green, there);
        Some(std::array::from_fn(|list| {
            let answer = |figure: fn(&Xy) -> f32| {
                kin[list]
                    .0
                    .answer(runs[list].iter().map(|run| f64::from(figure(run))))
            };
            let (x, y) = (answer(|run| run.x), answer(|run| run.y));
            let each = runs[list].iter().zip(&apart[list]);
            each.map(|(run, apart)| Xy::new(run.x + x.over(apart), run.y + y.over(apart)))
                .collect()
        }))
    }
}

/// Whether two patterns are alike enough for the shots of one to be reckoned from the other's.
fn is_near(own: &Pattern, other: &Pattern) -> bool {
    let means = own.mean.iter().zip(&other.mean).zip(&own.sd);
    own.tail_dof == other.tail_dof
        && means
            .into_iter()
            .all(|((own, other), sd)| (own - other).abs() <= NEAR_SD * sd)
}

/// Figures of a flown shot that hang on its strike.
const FIGURES: usize = 6;

impl Flown {
    fn figures(&self) -> [f64; FIGURES] {
        [
            self.pitch.x,
            self.pitch.y,
            self.heading.x.atan2(self.heading.y),
            self.descent_cotangent,
            self.run_fairway_yd,
            self.run_rough_yd,
        ]
        .map(f64::from)
    }

    /// The shot with each of its [figures](Self::figures) so much greater.
    fn moved(&self, by: [f32; FIGURES]) -> Self {
        let [right, along, turn, cotangent, run_fairway, run_rough] = by;
        let (x, y) = turn.sin_cos();
        Self {
            pitch: Xy::new(self.pitch.x + right, self.pitch.y + along),
            heading: Xy::new(x, y).turned(self.heading),
            descent_cotangent: self.descent_cotangent + cotangent,
            landing: self.landing,
            run_fairway_yd: self.run_fairway_yd + run_fairway,
            run_rough_yd: self.run_rough_yd + run_rough,
        }
    }
}

#[cfg(test)]
mod tests {
    use rand::SeedableRng;
    use rand::rngs::ChaCha8Rng;

    use super::*;
    use crate::course::{Hole, embedded};
    use crate::player::{Golfer, Sex, levels};
    use crate::round::bank::{Fineness, GROUNDS, LiesBy};
    use crate::round::swing::swings;
    use crate::rules::Stop;

    fn bank(golfer: &Golfer, hole: &Hole) -> Bank {
        let lies = LiesBy {
            rule: None,
            stop: &Stop::default(),
        };
        let ground = (&hole.air, hole.firmness);
        Bank::new(
            swings(golfer),
            ground,
            vec![hole.green],
            lies,
            Fineness::Guest,
        )
    }

    /// How far reckoned shots lie from flown ones, yards: root mean squares of the pitch and of the run on the green.
    fn off_yd(flown: &Bank, reckoned: &Bank, slot: Slot) -> [f32; 2] {
        let apart = |a: Xy, b: Xy| a.seen_from(b).length().powi(2);
        let mean = |of: Vec<f32>| (of.iter().sum::<f32>() / of.len() as f32).sqrt();
        let pitches = flown.flown(slot)[0].iter().zip(&reckoned.flown(slot)[0]);
        let runs = flown.green_runs(0, slot)[0]
            .iter()
            .zip(&reckoned.green_runs(0, slot)[0]);
        [
            mean(pitches.map(|(a, b)| apart(a.pitch, b.pitch)).collect()),
            mean(runs.map(|(a, b)| apart(*a, *b)).collect()),
        ]
    }

    /// Golfers drawn off 12: clubs nobody measured, so that they lie as far apart as golfers are drawn anywhere. A shot
    /// scatters by ten yards; what reckoning adds must be small beside that.
    #[test]
    fn reckoned_shots_lie_close_by_flown_ones() {
        let golfer = levels::level(12.0, Sex::Men).expect("a level");
        let course = embedded::course("parkland").expect("a demo course");
        let hole = &course.holes[0];
        let own = Arc::new(bank(&golfer, hole));
        let (mut worst, mut reckoned_lists) = ([0.0_f32; 2], 0);
        for seed in 0..4 {
            let other = golfer.drawn(&mut ChaCha8Rng::seed_from_u64(seed));
            let (flown, like) = (bank(&other, hole), bank(&other, hole).like(&own));
            for (swing, ground) in
                (0..own.swings.len()).flat_map(|s| (0..GROUNDS).map(move |g| (s, g)))
            {
                let slot = Slot {
                    swing,
                    ground,
                    sector: 0,
                };
                if like.reckoned(slot).is_some() {
                    reckoned_lists += 1;
                    let off = off_yd(&flown, &like, slot);
                    worst = [worst[0].max(off[0]), worst[1].max(off[1])];
                }
            }
        }
        println!("{reckoned_lists} lists, worst {worst:?} yd");
        assert!(reckoned_lists > 100);
        assert!(worst[0] < 1.0 && worst[1] < 1.5, "{worst:?} yd");
    }

    #[test]
    fn the_same_golfers_shots_are_his_own() {
        let golfer = levels::level(12.0, Sex::Men).expect("a level");
        let course = embedded::course("parkland").expect("a demo course");
        let hole = &course.holes[0];
        let own = Arc::new(bank(&golfer, hole));
        let like = bank(&golfer, hole).like(&own);
        let slot = Slot {
            swing: 3,
            ground: 1,
            sector: 0,
        };
        assert!(like.reckoned(slot).is_some());
        assert_eq!(off_yd(&own, &like, slot), [0.0; 2]);
    }
}
