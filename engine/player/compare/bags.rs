//! The bags before and after: what a change is worth is played with them.

use super::{Comparison, FEWEST};
use crate::player::batch::Batch;
use crate::player::club::Club;
use crate::player::fit::Weights;
use crate::player::levels::{self, LevelError};
use crate::player::measured::{FittedClub, fit_batch, fit_with};
use crate::player::pattern::PatternFault;
use crate::player::{BagClub, Golfer};

/// A player with the compared clubs as they were hit before, and as they were hit after.
#[derive(Debug, Clone, PartialEq)]
pub struct Bags {
    /// The compared clubs as before, the rest as the player has it.
    pub before: Golfer,
    /// The compared clubs as after.
    pub after: Golfer,
    /// The compared clubs: those with shots enough on both sides.
    pub clubs: Vec<Club>,
    /// The clubs with a real change.
    pub real_clubs: Vec<Club>,
    /// Only these as after; none where they are all or none of the clubs.
    pub real: Option<Golfer>,
    /// The compared clubs as the shots of each side give them by themselves: who a card made of these shots plays.
    pub alone: [Golfer; 2],
    /// The side from whose card scores are told.
    pub card: When,
}

/// The shots before, or those after.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum When {
    /// Before.
    Before,
    /// After.
    After,
}

/// Why no pattern can be made of a side.
#[derive(Debug, thiserror::Error)]
pub enum BagsFault {
    /// There is no such level.
    #[error(transparent)]
    Level(#[from] LevelError),
    /// The level or the shots make no pattern.
    #[error(transparent)]
    Pattern(#[from] PatternFault),
}

impl Bags {
    /// Fits the clubs of both batches, each with the shots of both behind it, and behind these the level of the player's
    /// handicap (turned, for a left-hander), and puts them into the player's bag. A club with fewer than [`FEWEST`] shots on a side stays as the
    /// player has it: none where that is so of every club.
    ///
    /// # Errors
    /// When there is no such level, or a batch makes no pattern.
    pub fn of(
        player: &Golfer,
        left_handed: bool,
        batches: [&Batch; 2],
        (compared, card): (&Comparison, When),
    ) -> Result<Option<Self>, BagsFault> {
        let level = levels::level(player.handicap, player.sex)?;
        let level = if left_handed { level.mirrored() } else { level };
        let level = Golfer {
            loft_shift: player.loft_shift,
            ..level
        };
        // Behind each side stand the shots of both. The level alone would draw a side of few shots towards itself, and make
        // a change of what is none but that.
        let both = fit_batch(&batches[0].and(batches[1]), &level)?.clubs;
        let both = with(&level, &both);
        let side = |side: usize| {
            fit_with(batches[side], &both, |club| {
                let shots = batches.map(|batch| batch.sound(club).count().max(1) as f64);
                Weights::SESSIONS.times(shots[side] / shots[0].min(shots[1]))
            })
        };
        let (mut before, mut after) = (side(0)?.clubs, side(1)?.clubs);
        let is_enough = |club: Club| {
            let compared = compared.clubs.iter().find(|one| one.club == club);
            compared.is_some_and(|one| one.shots.iter().all(|shots| *shots >= FEWEST))
        };
        before.retain(|club| has(&after, club.club) && is_enough(club.club));
        after.retain(|club| has(&before, club.club));
        if after.is_empty() {
            return Ok(None);
        }
        let alone = |side: usize| -> Result<Golfer, PatternFault> {
            let mut clubs = fit_batch(batches[side], &level)?.clubs;
            clubs.retain(|club| has(&before, club.club));
            Ok(with(player, &clubs))
        };
        let alone = [alone(0)?, alone(1)?];
        let mut real_clubs: Vec<Club> = compared.real().map(|(club, _)| club).collect();
        real_clubs.dedup();
        real_clubs.retain(|club| has(&after, *club));
        let some = !real_clubs.is_empty() && real_clubs.len() < after.len();
        let base = with(player, &before);
        let real = after.iter().filter(|club| real_clubs.contains(&club.club));
        let real: Vec<FittedClub> = real.cloned().collect();
        Ok(Some(Self {
            clubs: after.iter().map(|club| club.club).collect(),
            real: some.then(|| with(&base, &real)),
            after: with(&base, &after),
            alone,
            card,
            before: base,
            real_clubs,
        }))
    }
}

fn has(clubs: &[FittedClub], club: Club) -> bool {
    clubs.iter().any(|one| one.club == club)
}

/// The player with these clubs in place of his own.
fn with(player: &Golfer, clubs: &[FittedClub]) -> Golfer {
    let own = player.clubs.iter();
    let kept = own.filter(|entry| !has(clubs, entry.club)).cloned();
    let mut bag: Vec<BagClub> = kept.chain(clubs.iter().map(BagClub::from)).collect();
    bag.sort_by_key(|entry| entry.club);
    Golfer {
        clubs: bag,
        ..player.clone()
    }
}
