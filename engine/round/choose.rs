//! The choice of swing and aim: the fewest expected strokes for the golfer's own pattern.

use std::sync::Arc;

use crate::course::Hole;
use crate::player::club::Club;

use super::bank::{HoleBank, SwingShots};
use super::candidates::pitches_yd;
use super::eight::each_end;
use super::finish::{Line, Spot};
use super::ground::Ground;
use super::part::Part;
use super::place::Xy;
use super::row::{Row, RowMaker};
use super::ruled::Told;
use super::sight::{CLOSE, CLOSER, GLANCE, GLIMPSE, Look, Sight, WHOLE};
use super::swing::EASED;
use super::values::Values;

/// A swing of one of the golfers whose banks stand ready.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SwingId {
    /// Which bank.
    pub bank: u8,
    /// Which swing of it.
    pub swing: u8,
}

/// What a golfer does from a spot: a swing, and the point its pattern is centred on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Choice {
    /// The swing.
    pub swing: SwingId,
    /// Where the mean pitch is meant to be.
    pub target: Xy,
}

/// Everything a choice depends on.
#[derive(Debug, Clone, Copy)]
pub struct Choosing<'a> {
    /// The hole.
    pub hole: &'a Hole,
    /// Its ground.
    pub ground: &'a Ground,
    /// The banks, on this hole.
    pub banks: &'a [Arc<HoleBank<'a>>],
    /// Swings the golfer may use here.
    pub swings: &'a [SwingId],
}

/// More candidates than this are first looked at through fewer draws.
const MANY: usize = 8;

/// What is behind by more than this, strokes, when it is best aimed is not looked at through all draws.
const FAR_BEHIND: f32 = 0.2;

/// A choice is left only for one that is better by more than this, strokes: less is chance among so few draws.
const CLEARLY_BETTER: f32 = 0.005;

/// How hard a choice is thought about: how many glanced-at candidates are refined, and how closely.
#[derive(Debug, Clone, Copy)]
pub struct Care {
    shortlist: usize,
    /// So many candidates of each swing are kept at a glimpse, and at a glance, beside those that look best of all. What a
    /// few draws make of swings says less than where each of them is best aimed: several targets of one swing once left
    /// out the club that saves a sixth of a stroke over water.
    of_each_swing: [usize; 2],
    look: Look,
    /// Sizes of the steps a target is moved by, yards.
    steps_yd: &'static [f32],
    /// How closely those that are left are looked at in the end.
    last: Option<Look>,
}

impl Care {
    /// For the many places a ball may come to rest.
    pub const FIELD: Self = Self {
        shortlist: 1,
        of_each_swing: [0, 0],
        look: CLOSE,
        steps_yd: &[5.0],
        last: None,
    };
    /// For a first choice between places that were thought about: which of what is played there.
    pub const FIRST: Self = Self {
        shortlist: 1,
        of_each_swing: [0, 0],
        look: CLOSE,
        steps_yd: &[],
        last: None,
    };
    /// For the one place every ball starts from.
    pub const TEE: Self = Self {
        shortlist: 6,
        of_each_swing: [3, 2],
        look: CLOSER,
        steps_yd: &[6.0, 3.0],
        last: Some(WHOLE),
    };
    /// For a shot weighed with another golfer's patterns: the better of two, as it stands.
    pub const GUEST: Self = Self {
        shortlist: 1,
        of_each_swing: [0, 0],
        look: WHOLE,
        steps_yd: &[],
        last: None,
    };
    /// For one part's best from a place, to be compared with another golfer's.
    pub const STAND: Self = Self {
        shortlist: 2,
        of_each_swing: [0, 0],
        look: CLOSE,
        steps_yd: &[5.0],
        last: Some(WHOLE),
    };
    /// For a second look at a choice already made.
    pub const AGAIN: Self = Self {
        shortlist: 1,
        of_each_swing: [0, 0],
        look: CLOSE,
        steps_yd: &[3.0],
        last: None,
    };
    /// For a last look: which of the choices around is best, as they stand.
    pub const LAST: Self = Self {
        shortlist: 3,
        of_each_swing: [0, 0],
        look: CLOSER,
        steps_yd: &[],
        last: None,
    };
}

impl<'a> Choosing<'a> {
    /// The line of a choice from a spot, and its shots.
    #[must_use]
    pub fn line(&self, from: Spot, choice: Choice) -> (Line, &'a SwingShots) {
        let way = choice.target.seen_from(from.at);
        let shots = self.banks[choice.swing.bank as usize].shots(
            choice.swing.swing as usize,
            from.lie,
            way,
        );
        (line_to(way, shots.centre), shots)
    }

    /// The part a choice belongs to, tee shots of par 4s and 5s aside.
    #[must_use]
    pub fn part(&self, choice: Choice) -> Part {
        self.banks[choice.swing.bank as usize].swings()[choice.swing.swing as usize].part
    }

    /// The club of a choice.
    #[must_use]
    pub fn club(&self, choice: Choice) -> Club {
        self.banks[choice.swing.bank as usize].swings()[choice.swing.swing as usize].club
    }

    /// The one of some swings that is made with the same club at the same share of its speed.
    #[must_use]
    pub fn counterpart(&self, of: SwingId, among: &[SwingId]) -> Option<SwingId> {
        let swing = |id: SwingId| &self.banks[id.bank as usize].swings()[id.swing as usize];
        let is_counterpart = |other: &SwingId| swing(*other).is_counterpart(swing(of));
        among.iter().copied().find(is_counterpart)
    }

    /// A choice as the golfer plays it: with the same club of his own, if it is another golfer's; none without one.
    #[must_use]
    pub fn own(&self, choice: Choice) -> Option<Choice> {
        if self.swings.contains(&choice.swing) {
            return Some(choice);
        }
        let swing = self.counterpart(choice.swing, self.swings)?;
        Some(Choice { swing, ..choice })
    }

    /// Where a choice leads, the whole pattern counted.
    pub fn row(&self, values: &Values, from: Spot, choice: Choice, maker: &mut RowMaker) -> Row {
        let (line, shots) = self.line(from, choice);
        let mishits = shots.mishit_share;
        let again = || self.again(values, from);
        for (list, share) in [(&shots.normal, 1.0 - mishits), (&shots.mishit, mishits)] {
            let each = share / list.len().max(1) as f32;
            let swing = (shots, Told::Finely);
            each_end(self.ground, (from, line), swing, list, |end| {
                maker.add(values, &end.or_again(from, values, again), each);
            });
        }
        maker.take()
    }

    /// Expected strokes of the golfer who plays from a spot again.
    fn again(&self, values: &Values, from: Spot) -> f32 {
        if from.at == Xy::from(self.hole.tee) {
            values.tee
        } else {
            values.at(from)
        }
    }

    /// The best of some choices from a spot, refined, and its expected strokes; none where there is none.
    #[must_use]
    pub fn best(
        &self,
        values: &Values,
        from: Spot,
        candidates: &[Choice],
        care: Care,
    ) -> Option<(Choice, f32)> {
        let look = |sights: &mut Vec<(f32, Sight<'a>)>, look: Look| {
            for (expected, sight) in sights.iter_mut() {
                *expected = self.looked(values, from, sight, look);
            }
            sights.sort_by(|a, b| a.0.total_cmp(&b.0));
        };
        let [glimpsed, glanced] = care.of_each_swing;
        let mut shortlist: Vec<(f32, Sight)> = candidates
            .iter()
            .map(|&choice| (0.0, self.sight(from, choice)))
            .collect();
        if shortlist.len() > MANY {
            look(&mut shortlist, GLIMPSE);
            shorten(&mut shortlist, MANY, glimpsed);
        }
        look(&mut shortlist, GLANCE);
        shorten(&mut shortlist, care.shortlist, glanced);
        let mut refined: Vec<(Sight, f32)> = shortlist
            .into_iter()
            .map(|(_, sight)| self.refined(values, from, sight, care))
            .collect();
        if let Some(look) = care.last {
            let best = refined.iter().map(|(_, expected)| *expected);
            let near = best.fold(f32::INFINITY, f32::min) + FAR_BEHIND;
            refined.retain(|(_, expected)| *expected <= near);
            for (sight, expected) in &mut refined {
                *expected = self.looked(values, from, sight, look);
            }
        }
        refined
            .into_iter()
            .map(|(sight, expected)| (sight.choice, expected))
            .min_by(|a, b| a.1.total_cmp(&b.1))
    }

    /// The best of some choices as they stand, looked at a little more closely than the sweeps look.
    #[must_use]
    pub fn pick(&self, values: &Values, from: Spot, candidates: &[Choice]) -> Option<Choice> {
        // Nodes side by side often play the same.
        let is_new = |&(place, choice): &(usize, &Choice)| !candidates[..place].contains(choice);
        let different = candidates.iter().enumerate().filter(is_new);
        different
            .map(|(_, &choice)| (self.glanced(values, from, choice, CLOSER).0, choice))
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .map(|(_, choice)| choice)
    }

    /// Some swings hit in the direction of a choice: at the hole, in each of the ways it can be reached, or, short of it, as
    /// near the choice's target as they go.
    #[must_use]
    pub fn alike(&self, from: Spot, own: Choice, of: &[SwingId]) -> Vec<Choice> {
        let to_pin_yd = Xy::from(self.hole.pin).seen_from(from.at).length();
        let way = own.target.seen_from(from.at);
        let own_yd = way.length();
        let longest = self.longest(from);
        let mut all = Vec::new();
        for &swing in of.iter().filter(|swing| self.suits(**swing, from.lie)) {
            if !self.worth_flying(swing, from, to_pin_yd, longest) {
                continue;
            }
            let shots = self.banks[swing.bank as usize].shots(swing.swing as usize, from.lie, way);
            let reach = shots.centre.length();
            let pitches = pitches_yd(to_pin_yd, shots.run_green_yd).chain([own_yd]);
            for yd in pitches.filter(|yd| *yd <= reach + 8.0 && *yd >= EASED * reach - 8.0) {
                let target = from.at.moved(way.unit(), yd.clamp(EASED * reach, reach));
                all.push(Choice { swing, target });
            }
        }
        all
    }

    /// A choice, unless one of some others is clearly better. Nothing is moved about.
    #[must_use]
    pub fn unless_better(
        &self,
        values: &Values,
        from: Spot,
        own: Choice,
        others: &[Choice],
    ) -> Choice {
        let glanced = |&choice: &Choice| self.glanced(values, from, choice, GLANCE);
        let best = others
            .iter()
            .map(glanced)
            .min_by(|a, b| a.0.total_cmp(&b.0));
        let Some((expected, best)) = best.filter(|(_, best)| best.choice != own) else {
            return own;
        };
        let close = |mut sight: Sight<'a>| self.looked(values, from, &mut sight, CLOSE);
        let (own_expected, own_sight) = glanced(&own);
        let choice = best.choice;
        let is_better = expected < own_expected && close(best) < close(own_sight) - CLEARLY_BETTER;
        if is_better { choice } else { own }
    }

    /// Moves the target about, in smaller and smaller steps, while that saves strokes.
    fn refined(
        &self,
        values: &Values,
        from: Spot,
        mut sight: Sight<'a>,
        care: Care,
    ) -> (Sight<'a>, f32) {
        let expected = self.looked(values, from, &mut sight, care.look);
        let ahead = sight.choice.target.seen_from(from.at).unit();
        let mut best = (sight, expected);
        for step_yd in care.steps_yd {
            for axis in [Xy::new(*step_yd, 0.0), Xy::new(0.0, *step_yd)] {
                let step = axis.turned(ahead);
                // Both ways are tried before one is taken: a mirrored hole must give the mirrored choice.
                let ways = [step, Xy::default().moved(step, -1.0)];
                let tried =
                    ways.map(|step| (step, self.improved(values, from, &best, step, care.look)));
                let better = tried
                    .into_iter()
                    .filter_map(|(step, found)| found.map(|found| (step, found)))
                    .min_by(|a, b| a.1.1.total_cmp(&b.1.1));
                let Some((step, found)) = better else {
                    continue;
                };
                best = found;
                while let Some(found) = self.improved(values, from, &best, step, care.look) {
                    best = found;
                }
            }
        }
        best
    }

    /// The choice with its target moved by `step`, if that is within reach and saves strokes.
    fn improved(
        &self,
        values: &Values,
        from: Spot,
        (best, expected): &(Sight<'a>, f32),
        step: Xy,
        look: Look,
    ) -> Option<(Sight<'a>, f32)> {
        let target = best.choice.target;
        let moved = self.fitted(
            from,
            Choice {
                target: target.moved(step, 1.0),
                ..best.choice
            },
        );
        // A target at the end of the swing's reach cannot move on: it comes back to where it was.
        if moved.target.seen_from(target).length() < 0.5 * step.length() {
            return None;
        }
        let (found, sight) = self.glanced(values, from, moved, look);
        (found < expected - 1e-4).then_some((sight, found))
    }

    /// The choice with its target brought within the swing's reach.
    #[must_use]
    pub fn fitted(&self, from: Spot, choice: Choice) -> Choice {
        let (_, shots) = self.line(from, choice);
        let way = choice.target.seen_from(from.at);
        let reach = shots.centre.length();
        let distance = way.length().clamp(EASED * reach, reach);
        Choice {
            target: from.at.moved(way.unit(), distance),
            ..choice
        }
    }
}

/// Leaves the first so many sights, and the first so many of each swing.
fn shorten(sights: &mut Vec<(f32, Sight<'_>)>, most: usize, of_each_swing: usize) {
    let mut place = 0;
    let mut seen: Vec<SwingId> = Vec::new();
    sights.retain(|(_, sight)| {
        let swing = sight.choice.swing;
        let before = seen.iter().filter(|other| **other == swing).count();
        seen.push(swing);
        place += 1;
        place <= most || before < of_each_swing
    });
}

/// The line that centres a pattern on a displacement: turned by the pattern's own bias.
fn line_to(way: Xy, centre: Xy) -> Line {
    let (distance, reach) = (way.length(), centre.length().max(0.1));
    let (ahead, bias) = (way.unit(), centre.unit());
    // The inverse turn of `Xy::turned`: the aim whose turned centre points at the target.
    let ahead = Xy::new(
        ahead.x * bias.y - ahead.y * bias.x,
        ahead.y * bias.y + ahead.x * bias.x,
    );
    Line {
        ahead,
        eased: (distance / reach).clamp(EASED, 1.0),
    }
}
