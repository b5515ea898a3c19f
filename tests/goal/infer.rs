//! The short game that nobody measured, inferred from the handicap.

use costcard::cost::infer::{Assume, Inference, ends, inferred, open_parts};
use costcard::player::{Golfer, Origin};
use costcard::round::part::Part;
use costcard::show::inference::inference;

use super::{QUIET, index_of, level, nine_holes, usual, with_long_game_of};
use crate::support::{demo_courses, demo_player};

fn found(player: &Golfer) -> Inference {
    let inferred = inferred(player, &[usual(nine_holes())], Assume::Index, QUIET).unwrap();
    inferred.inference.unwrap()
}

/// A player with the long game of a 12-handicapper, whose handicap is what that level makes on the course.
fn twelve() -> Golfer {
    let mut player = with_long_game_of(12.0);
    player.handicap = index_of(&level(12.0), nine_holes(), Assume::Level);
    player
}

/// The handicap that long game and short game of a level make together gives the short game back. A tenth of an index
/// is about a third of the dial's unit, and both indexes have the luck of their rounds.
#[test]
fn the_handicap_a_level_makes_gives_its_short_game_back() {
    let inference = found(&twelve());
    assert!(inference.fits);
    assert_eq!(
        inference.parts,
        [Part::ShortGame, Part::Sand, Part::Putting]
    );
    assert!((inference.handicap - 12.0).abs() < 1.0, "{inference:?}");
}

/// A better long game with the same handicap leaves a worse short game, and a lower handicap with the same long game
/// needs a better one.
#[test]
fn the_short_game_moves_against_the_long_game_and_with_the_handicap() {
    let player = twelve();
    let now = found(&player).handicap;
    let longer = Golfer {
        clubs: player.toward(&level(0.0), 0.2).clubs,
        ..player.clone()
    };
    let with_longer = found(&longer).handicap;
    assert!(with_longer > now + 1.0, "{with_longer} after {now}");
    let lower = Golfer {
        handicap: player.handicap - 1.5,
        ..player
    };
    let off_less = found(&lower).handicap;
    assert!(off_less < now - 1.0, "{off_less} after {now}");
}

/// Rounds of another seed make the player's own index with what was inferred.
#[test]
fn rounds_with_the_inferred_short_game_make_the_players_own_index() {
    let mut player = twelve();
    player.handicap -= 1.0;
    let index = index_of(&player, nine_holes(), Assume::Index);
    // 4000 rounds of nine holes are 100 records: their mean is good to 0.1.
    assert!((index - player.handicap).abs() < 0.35, "{index}");
}

#[test]
fn shots_and_handicap_that_do_not_fit_are_said_and_the_nearest_end_is_taken() {
    let mut poor = with_long_game_of(28.0);
    poor.handicap = 2.0;
    let inference = found(&poor);
    assert!(!inference.fits && inference.index > 5.0, "{inference:?}");
    assert_eq!(inference.handicap, ends(poor.handicap)[0]);
    let mut good = with_long_game_of(-5.0);
    good.handicap = 30.0;
    let inference = found(&good);
    assert!(!inference.fits && inference.index < 27.0, "{inference:?}");
    assert_eq!(inference.handicap, ends(good.handicap)[1]);
}

/// What was counted stays as it was; only what nobody measured moves.
#[test]
fn only_what_nobody_measured_moves() {
    let mut player = twelve();
    player.putting.1 = Origin::Stated;
    player.handicap -= 1.0;
    let found = inferred(&player, &[usual(nine_holes())], Assume::Index, QUIET).unwrap();
    let golfer = &found.golfer;
    assert_eq!(golfer.putting, player.putting);
    assert_eq!(golfer.clubs, player.clubs);
    assert_ne!(golfer.short_game, player.short_game);
    assert_ne!(golfer.sand, player.sand);
    assert_eq!(
        found.inference.unwrap().parts,
        [Part::ShortGame, Part::Sand]
    );
}

#[test]
fn nothing_is_inferred_where_nothing_is_open_or_nothing_is_known() {
    // A level is all assumption, Mika counted everything, and of Dale sand alone is open.
    for golfer in [level(10.0), demo_player("mika"), demo_player("dale")] {
        assert_eq!(open_parts(&golfer), [], "{}", golfer.name);
    }
    // Neither is anything said where what was measured and counted is near the handicap.
    let [parkland, _] = demo_courses();
    let dale = demo_player("dale");
    let by_index = inferred(&dale, &[usual(&parkland)], Assume::Index, QUIET).unwrap();
    assert_eq!((by_index.golfer, by_index.inference), (dale, None));
    let rowan = demo_player("rowan");
    assert_eq!(open_parts(&rowan), [Part::Sand, Part::Putting]);
    let as_he_is = inferred(&rowan, &[usual(&parkland)], Assume::Level, QUIET).unwrap();
    assert_eq!((as_he_is.golfer, as_he_is.inference), (rowan, None));
}

/// Where all was measured and counted there is nothing to set, but the index of it is told where it is another.
#[test]
fn a_handicap_that_what_was_counted_does_not_bear_out_is_told() {
    let mut player = with_long_game_of(12.0);
    player.short_game.1 = Origin::Stated;
    player.putting.1 = Origin::Stated;
    let by_index = |player: &Golfer| inferred(player, &[usual(nine_holes())], Assume::Index, QUIET);
    let near = by_index(&player).unwrap();
    assert_eq!(near.inference, None);
    player.handicap += 6.0;
    let off = by_index(&player).unwrap();
    assert_eq!(off.golfer, player);
    let told = off.inference.unwrap();
    assert!(
        !told.fits && told.parts.is_empty() && told.level().is_none(),
        "{told:?}"
    );
    assert!((told.index - 12.0).abs() < 1.5, "{told:?}");
    let said = inference(&told, player.handicap);
    assert!(
        said.starts_with("Shots and handicap do not fit: played as it was measured and counted, this game would be off 1"),
        "{said}"
    );
}
