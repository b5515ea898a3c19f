//! Where a golfer's full shots are played from, in the mean over all rounds, and what such a shot would be worth with
//! another golfer's clubs.
//!
//! To the first order, a golfer's score changes with his clubs by what the shots he plays now would cost with the
//! others, everything after them played as now (see [`visits`](super::visits)). Here the shots are no rounds' luck: the
//! rows of a solved hole say where balls go from where, and so how many come by each place.

use std::sync::Arc;

use super::bank::HoleBank;
use super::choose::{Care, Choice, Choosing, SwingId};
use super::finish::Spot;
use super::part::Part;
use super::solve::Solved;
use super::swing::Swing;

/// Places that fewer balls than this come by are left out: all of them together see one ball in a hundred.
const LEAST_BALLS: f32 = 0.002;

/// A place full shots are played from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stand {
    /// The place, and what the ball lies on.
    pub spot: Spot,
    /// Shots from there when the hole is played once.
    pub balls: f32,
    /// Whether all that is played from there are tee shots: the tee of a par 4 or 5.
    pub is_tee: bool,
}

/// A golfer's swings, all of them and by part, as numbers of one bank.
#[derive(Debug, Clone, PartialEq)]
pub struct SwingsByPart {
    all: Vec<SwingId>,
    parts: Vec<(Part, Vec<SwingId>)>,
}

impl SwingsByPart {
    /// Of these swings of a bank that stands alone.
    #[must_use]
    pub fn of(swings: &[Swing]) -> Self {
        let id = |swing: usize| SwingId {
            bank: 0,
            swing: swing as u8,
        };
        let of_part = |part: Part| -> Vec<SwingId> {
            let of_it = (0..swings.len()).filter(|place| swings[*place].part == part);
            of_it.map(id).collect()
        };
        let parts = Part::ALL.map(|part| (part, of_part(part)));
        Self {
            all: (0..swings.len()).map(id).collect(),
            parts: parts
                .into_iter()
                .filter(|(_, swings)| !swings.is_empty())
                .collect(),
        }
    }
}

/// By part: the fewest strokes to be expected with one of its swings; infinite where none of them would be thought of.
pub type ByPart = [f32; Part::ALL.len()];

impl Solved<'_> {
    /// Where full shots are played from: the tee, and the landmarks around every place balls come by.
    #[must_use]
    pub fn stands(&self) -> Vec<Stand> {
        let hole = self.choosing(self.tee_spot()).hole;
        let tee = Stand {
            spot: self.tee_spot(),
            balls: 1.0,
            is_tee: hole.par >= 4,
        };
        let field = self
            .landmark_balls()
            .filter(|(_, balls)| *balls > LEAST_BALLS);
        let field = field.map(|(spot, balls)| Stand {
            spot,
            balls,
            is_tee: false,
        });
        std::iter::once(tee).chain(field).collect()
    }

    /// What a shot from a stand is worth with the swings of another golfer, part by part, everything after it played as
    /// this one plays. Each part's best swing and target is sought afresh.
    #[must_use]
    pub fn worth_by_part<'b>(
        &'b self,
        stand: &Stand,
        bank: &'b Arc<HoleBank<'b>>,
        swings: &'b SwingsByPart,
    ) -> ByPart {
        let choosing = Choosing {
            swings: &swings.all,
            ..self.with_bank(stand.spot, bank)
        };
        let best = |candidates: &[Choice], care: Care| {
            let best = choosing.best(&self.values, stand.spot, candidates, care);
            best.map_or(f32::INFINITY, |(_, expected)| expected)
        };
        let mut worth = [f32::INFINITY; Part::ALL.len()];
        if stand.is_tee {
            let candidates = choosing.candidates(stand.spot, &swings.all);
            worth[Part::TeeShots as usize] = best(&candidates, Care::TEE);
            return worth;
        }
        for (part, swings) in &swings.parts {
            let candidates = choosing.candidates(stand.spot, swings);
            worth[*part as usize] = best(&candidates, Care::STAND);
        }
        if worth.iter().all(|strokes| strokes.is_infinite())
            && let Some(choice) = choosing.shortest(stand.spot)
        {
            worth[choosing.part(choice) as usize] = best(&[choice], Care::STAND);
        }
        worth
    }
}
