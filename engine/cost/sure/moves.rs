//! How a player's score would move if his patterns were others that his strikes allow as well.

use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;
use rayon::prelude::*;

use crate::cost::pair::Pair;
use crate::cost::venue::{PLAYER, Venue};
use crate::player::club::Club;
use crate::player::{BagClub, Golfer};
use crate::round::part::Part;
use crate::round::solve::Solved;
use crate::round::tally::Tally;
use crate::round::visits::{Outlook, ROUNDS_VISITED, Visit, expected_with};

/// Strokes a round by part.
pub type ByPart = [f64; Part::ALL.len()];

/// Golfers drawn who could be the player as well.
const DRAWS: u64 = 32;
/// Always of one seed: how sure a figure is does not change with the seed of the rounds.
const SEED: u64 = 6;

/// What one club's draw moves, against its pattern as it is fitted.
#[derive(Debug, Clone, Copy, Default)]
pub struct Move {
    /// By part of the club's shots: strokes a round more.
    pub strokes: ByPart,
    /// By part: shots a round more right after them.
    pub shots: ByPart,
}

/// One club's moves.
pub struct ClubMoves {
    /// The club.
    pub club: Club,
    /// By draw.
    pub by_draw: Vec<Move>,
}

/// The moves of every club of the player, by the full shots of his rounds. One club's draws have nothing to do with
/// another's.
pub fn moves(pair: &Pair<'_>, tally: &Tally) -> Vec<ClubMoves> {
    let player = pair.golfers[PLAYER];
    let rounds = rounds_visited(tally);
    let with = |guest: &Golfer| outlooks(&pair.venue, pair.own, &tally.visits, guest);
    let now = with(player);
    let club_of = clubs_of_swings(pair, player);
    let draw = |number: u64| {
        let then = with(&drawn(player, number));
        let mut by_club = vec![Move::default(); player.clubs.len()];
        for (visit, (then, now)) in tally.visits.iter().zip(then.iter().zip(&now)) {
            let swing = usize::from(visit.choice.swing.swing);
            if let Some(club) = club_of.get(swing).copied().flatten() {
                let moved = &mut by_club[club];
                moved.strokes[visit.part as usize] +=
                    f64::from(then.strokes - now.strokes) / rounds;
                for (sum, (then, now)) in moved.shots.iter_mut().zip(then.next.iter().zip(now.next))
                {
                    *sum += f64::from(then - now) / rounds;
                }
            }
        }
        by_club
    };
    let draws: Vec<u64> = (0..DRAWS).collect();
    let all: Vec<Vec<Move>> = draws.par_iter().map(|&number| draw(number)).collect();
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

/// Rounds behind the visits of a tally.
pub fn rounds_visited(tally: &Tally) -> f64 {
    tally.rounds.clamp(1, ROUNDS_VISITED) as f64
}

/// What each full shot of the player's rounds comes to with a guest's clubs.
pub fn outlooks(
    venue: &Venue<'_>,
    own: &[Solved<'_>],
    visits: &[Visit],
    guest: &Golfer,
) -> Vec<Outlook> {
    let stage = venue.stage;
    stage.with_guest(guest, |banks| expected_with(visits, own, banks))
}

/// By swing of the player: its club's place in the bag.
fn clubs_of_swings(pair: &Pair<'_>, player: &Golfer) -> Vec<Option<usize>> {
    let first = pair.venue.banks.first();
    let swings = first.map_or(&[][..], |hole| hole[PLAYER].swings());
    let place = |club: Club| player.clubs.iter().position(|entry| entry.club == club);
    swings.iter().map(|swing| place(swing.club)).collect()
}
