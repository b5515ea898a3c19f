//! How a player's score would move if his patterns were others that his strikes allow as well.

use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;
use rayon::prelude::*;

use crate::cost::traits::Weighing;
use crate::player::Golfer;
use crate::player::club::Club;
use crate::round::part::Part;

/// Strokes a round by part.
pub type ByPart = [f64; Part::ALL.len()];

/// Golfers drawn who could be the player as well.
const DRAWS: u64 = 40;
/// Always of one seed: how sure a figure is does not change with the seed of the rounds.
const SEED: u64 = 6;

/// One club's moves.
pub struct ClubMoves {
    /// The club.
    pub club: Club,
    /// By draw: strokes a round more than with the patterns as they are fitted, by part.
    pub by_draw: Vec<ByPart>,
}

/// The moves of every club of the player. One club's draws have nothing to do with another's.
pub fn moves(weighing: &Weighing<'_>, player: &Golfer) -> Vec<ClubMoves> {
    let swings = weighing.venue.banks.first().map_or(&[][..], |hole| hole[0].swings());
    let place = |club: Club| player.clubs.iter().position(|entry| entry.club == club);
    let club_of: Vec<Option<usize>> = swings.iter().map(|swing| place(swing.club)).collect();
    let draw = |number: u64| {
        let mut rng = ChaCha8Rng::seed_from_u64(SEED);
        rng.set_stream(number);
        let more = weighing.more_with(&player.drawn(&mut rng));
        let mut by_club = vec![ByPart::default(); player.clubs.len()];
        for (visit, more) in weighing.visits.iter().zip(more) {
            let swing = usize::from(visit.choice.swing.swing);
            if let Some(club) = club_of.get(swing).copied().flatten() {
                by_club[club][visit.part as usize] += more;
            }
        }
        by_club
    };
    let draws: Vec<u64> = (0..DRAWS).collect();
    let drawn: Vec<Vec<ByPart>> = draws.par_iter().map(|&number| draw(number)).collect();
    let club = |(index, entry): (usize, &crate::player::BagClub)| ClubMoves {
        club: entry.club,
        by_draw: drawn.iter().map(|clubs| clubs[index]).collect(),
    };
    player.clubs.iter().enumerate().map(club).collect()
}
