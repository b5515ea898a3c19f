//! What about a part costs strokes: each trait of it brought to the goal's standard alone.
//!
//! Full shots are weighed where the player plays them (`round/stands.rs`), the player himself in the same way, so that a
//! golfer who is the player saves exactly nothing. A trait near the green is weighed by the holes swept anew, for most
//! balls come by there.

use rayon::prelude::*;

use crate::player::Golfer;
use crate::player::traits::Trait;
use crate::round::part::Part;
use crate::round::stands::{ByPart, Stand, SwingsByPart};

use super::pair::Pair;
use super::venue::{GOAL, PLAYER};

/// What one trait of a part costs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TraitCost {
    /// The trait.
    pub which: Trait,
    /// Fall of the expected score when it alone is at the goal's standard, the rest as it is.
    pub saved: f64,
}

/// The traits a part can have: a chip has no speed to lack, a putt no mishits.
const fn traits_of(part: Part) -> &'static [Trait] {
    match part {
        Part::ShortGame | Part::Sand => &[Trait::Direction, Trait::Distance, Trait::Mishits],
        Part::Putting => &[Trait::Direction, Trait::Distance],
        _ => &Trait::ALL,
    }
}

/// By hole and stand: strokes by part.
type Worth = Vec<Vec<ByPart>>;

impl Pair<'_> {
    /// The traits of every part, the costliest first.
    ///
    /// One after the other, so that only one golfer's shots stand at a time beside the pair's.
    pub(super) fn traits(&self) -> Vec<Vec<TraitCost>> {
        let [player, goal] = [PLAYER, GOAL].map(|number| self.golfers[number]);
        let stands: Vec<Vec<Stand>> = self.own.par_iter().map(|hole| hole.stands()).collect();
        let own = self.worth_with(player, &stands);
        let mut found = vec![Vec::new(); Part::ALL.len()];
        for which in Trait::ALL {
            let other = player.with_trait_of(goal, which);
            let then = self.worth_with(&other, &stands);
            for part in Part::ALL {
                if traits_of(part).contains(&which) {
                    let saved = if part.is_full() {
                        saved_on(&stands, &own, &then, part)
                    } else {
                        self.score() - self.with_skill(part, &other)
                    };
                    found[part as usize].push(TraitCost { which, saved });
                }
            }
        }
        for traits in &mut found {
            traits.sort_by(|a, b| b.saved.total_cmp(&a.saved));
        }
        found
    }

    /// What full shots are worth with a golfer's clubs.
    fn worth_with(&self, golfer: &Golfer, stands: &[Vec<Stand>]) -> Worth {
        self.venue.stage.with_guest(golfer, |banks| {
            let Some(first) = banks.first() else {
                return Vec::new();
            };
            let swings = SwingsByPart::of(first.swings());
            let holes = self.own.par_iter().zip(banks).zip(stands);
            holes
                .map(|((own, bank), stands)| {
                    let worth = |stand| own.worth_by_part(stand, bank, &swings);
                    stands.par_iter().map(worth).collect()
                })
                .collect()
        })
    }
}

/// Strokes a round that a part saves with the swings of another golfer beside one's own of all other parts.
fn saved_on(stands: &[Vec<Stand>], own: &Worth, then: &Worth, part: Part) -> f64 {
    let part = part as usize;
    let all = stands.iter().zip(own.iter().zip(then));
    let each = all.flat_map(|(stands, (own, then))| stands.iter().zip(own.iter().zip(then)));
    each.map(|(stand, (own, then))| {
        let now = best(own);
        let mixed = best(&std::array::from_fn(|at| {
            if at == part { then[at] } else { own[at] }
        }));
        let saved = f64::from(stand.balls) * f64::from(now - mixed);
        if saved.is_finite() { saved } else { 0.0 }
    })
    .sum()
}

fn best(worth: &ByPart) -> f32 {
    worth.iter().copied().fold(f32::INFINITY, f32::min)
}
