//! How a player's score would move if his patterns were others that his strikes allow as well.

use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;
use rayon::prelude::*;

use crate::cost::card::PLAYER;
use crate::cost::pair::Pair;
use crate::cost::venue::Venue;
use crate::player::club::Club;
use crate::player::{BagClub, Golfer};
use crate::round::part::Part;
use crate::round::solve::Solved;
use crate::round::tally::Tally;
use crate::round::visits::{ROUNDS_VISITED, expected_with};

/// Strokes a round by part.
pub type ByPart = [f64; Part::ALL.len()];

/// Golfers drawn who could be the player as well.
const DRAWS: u64 = 32;
/// Always of one seed: how sure a figure is does not change with the seed of the rounds.
const SEED: u64 = 6;

/// One club's moves.
pub struct ClubMoves {
    /// The club.
    pub club: Club,
    /// By draw: strokes a round more than with the patterns as they are fitted, by part.
    pub by_draw: Vec<ByPart>,
}

/// The moves of every club of the player, by the full shots of his rounds. One club's draws have nothing to do with
/// another's.
pub fn moves(pair: &Pair<'_>, tally: &Tally) -> Vec<ClubMoves> {
    let player = pair.golfers[PLAYER];
    let with = |guest: &Golfer| strokes_with(&pair.venue, pair.own, tally, guest);
    let now = with(player);
    let club_of = clubs_of_swings(pair, player);
    let draw = |number: u64| {
        let then = with(&drawn(player, number));
        let mut by_club = vec![ByPart::default(); player.clubs.len()];
        for (visit, (then, now)) in tally.visits.iter().zip(then.iter().zip(&now)) {
            let swing = usize::from(visit.choice.swing.swing);
            if let Some(club) = club_of.get(swing).copied().flatten() {
                by_club[club][visit.part as usize] += then - now;
            }
        }
        by_club
    };
    let draws: Vec<u64> = (0..DRAWS).collect();
    let all: Vec<Vec<ByPart>> = draws.par_iter().map(|&number| draw(number)).collect();
    let club = |(index, entry): (usize, &BagClub)| ClubMoves {
        club: entry.club,
        by_draw: all.iter().map(|clubs| clubs[index]).collect(),
    };
    player.clubs.iter().enumerate().map(club).collect()
}

/// A golfer who could be the player as well, by number.
pub fn drawn(player: &Golfer, number: u64) -> Golfer {
    let mut rng = ChaCha8Rng::seed_from_u64(SEED);
    rng.set_stream(number);
    player.drawn(&mut rng)
}

/// Strokes a round that each full shot of the player's rounds and what follows it comes to with a guest's clubs.
pub fn strokes_with(
    venue: &Venue<'_>,
    own: &[Solved<'_>],
    tally: &Tally,
    guest: &Golfer,
) -> Vec<f64> {
    let rounds = tally.rounds.clamp(1, ROUNDS_VISITED) as f64;
    let all = venue
        .stage
        .with_guest(guest, |banks| expected_with(&tally.visits, own, banks));
    all.iter()
        .map(|strokes| f64::from(*strokes) / rounds)
        .collect()
}

/// By swing of the player: its club's place in the bag.
fn clubs_of_swings(pair: &Pair<'_>, player: &Golfer) -> Vec<Option<usize>> {
    let first = pair.venue.banks.first();
    let swings = first.map_or(&[][..], |hole| hole[PLAYER].swings());
    let place = |club: Club| player.clubs.iter().position(|entry| entry.club == club);
    swings.iter().map(|swing| place(swing.club)).collect()
}
