//! A bank whose shots are reckoned from another's.

use std::sync::{Arc, OnceLock};

use crate::round::place::Xy;
use crate::round::swing::Swing;

use super::kin::{Answer, Apart, Kin};
use super::{Bank, Flown, Slot};

/// Normal strikes and mishits, ready for others to be reckoned from them, and how their flights hang on the strike.
pub(super) type KinLists = Box<[(Kin, [Answer; FIGURES]); 2]>;
/// Normal strikes and mishits: how far they lie from the other bank's; none for those that are flown.
type ApartLists = [Vec<Option<Apart>>; 2];

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
        let own = &self.swings[slot.swing];
        let is_kin = |swing: &Swing| {
            swing.is_counterpart(own) && swing.pattern.tail_dof == own.pattern.tail_dof
        };
        let swing = other.swings.iter().position(is_kin)?;
        let there = Slot { swing, ..slot };
        let kin = other.kin(there)?;
        let apart = apart[slot.index()].get_or_init(|| {
            let strikes = self.strikes(slot);
            std::array::from_fn(|list| kin[list].0.apart(&strikes[list]))
        });
        Some((other, there, kin, apart))
    }

    /// A list, ready for others' shots to be reckoned from it.
    fn kin(&self, slot: Slot) -> Option<&KinLists> {
        let kin = self.kin[slot.index()].get_or_init(|| {
            let (strikes, flown) = (self.strikes(slot), self.flown(slot));
            let list = |list: usize| {
                let kin = Kin::of(&strikes[list])?;
                let figures: Vec<_> = flown[list].iter().map(Flown::figures).collect();
                let answers = std::array::from_fn(|figure| {
                    kin.answer(figures.iter().map(|figures| figures[figure]))
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
        let strikes = self.strikes(slot);
        let atmosphere = self.atmosphere.turned(slot.wind_from());
        Some(std::array::from_fn(|list| {
            let answers = &kin[list].1;
            let far = far(&strikes[list], &apart[list]);
            let mut in_the_air = self.fly_and_run(&far, &atmosphere).into_iter();
            let each = flown[list].iter().zip(&apart[list]);
            each.filter_map(|(shot, apart)| match apart {
                Some(apart) => {
                    Some(shot.moved(answers.each_ref().map(|answer| answer.over(apart))))
                }
                None => in_the_air.next(),
            })
            .collect()
        }))
    }

    /// Their runs on one kind of green.
    pub(super) fn reckoned_runs(&self, green: usize, slot: Slot) -> Option<[Vec<Xy>; 2]> {
        let (other, there, kin, apart) = self.kin_of(slot)?;
        let runs = other.green_runs(green, there);
        let shots = self.flown(slot);
        Some(std::array::from_fn(|list| {
            let answer = |figure: fn(&Xy) -> f32| {
                let figures = runs[list].iter().map(|run| f64::from(figure(run)));
                kin[list].0.answer(figures)
            };
            let (x, y) = (answer(|run| run.x), answer(|run| run.y));
            let far = far(&shots[list], &apart[list]);
            let mut on_turf = self.runs_on(green, &far).into_iter();
            let each = runs[list].iter().zip(&apart[list]);
            each.filter_map(|(run, apart)| match apart {
                Some(apart) => Some(Xy::new(run.x + x.over(apart), run.y + y.over(apart))),
                None => on_turf.next(),
            })
            .collect()
        }))
    }
}

/// Those of a list that are not reckoned.
fn far<T: Copy>(all: &[T], apart: &[Option<Apart>]) -> Vec<T> {
    let each = all.iter().zip(apart);
    each.filter(|(_, apart)| apart.is_none())
        .map(|(one, _)| *one)
        .collect()
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
#[expect(
    clippy::expect_used,
    reason = "what a test needs is there, or it fails"
)]
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
            Fineness::Stage,
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
        let mut all = Vec::new();
        for seed in 0..4 {
            let other = golfer.drawn(&mut ChaCha8Rng::seed_from_u64(seed));
            let (flown, like) = (bank(&other, hole), bank(&other, hole).like(&own));
            for (swing, ground) in (0..own.swings.len())
                .flat_map(|swing| (0..GROUNDS).map(move |ground| (swing, ground)))
            {
                let slot = Slot {
                    swing,
                    ground,
                    sector: 0,
                };
                if like.reckoned(slot).is_some() {
                    all.push(off_yd(&flown, &like, slot));
                }
            }
        }
        for (figure, most_yd) in [(0, 2.0), (1, 1.0)] {
            all.sort_by(|a: &[f32; 2], b| a[figure].total_cmp(&b[figure]));
            let at = |pct: usize| all[(all.len() - 1) * pct / 100][figure];
            let [middle, most] = [50, 90].map(at);
            println!(
                "{} lists: half within {middle:.2} yd, nine in ten within {most:.2}",
                all.len()
            );
            assert!(most < most_yd);
        }
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
