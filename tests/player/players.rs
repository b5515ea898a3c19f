//! Player files that are right: measured, stated, counted, left out.

use costcard::ball::air::{Air, Atmosphere};
use costcard::ball::flight::fly;
use costcard::files::{Faults, Source};
use costcard::player::Sex;
use costcard::player::club::Club;
use costcard::player::delivery::Delivered;
use costcard::player::pattern::strike_of;
use costcard::player::{BagClub, Golfer, Origin, embedded, levels};
use costcard::units::Length;
use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;

/// Reads a player whose sheet, if he names one, is `sheet`.
fn read(text: &str, sheet: &str) -> Result<Golfer, Faults> {
    Golfer::read(&Source::new("ann.toml", text), &|path| {
        Ok(Source::new(path, sheet))
    })
}

const WHO: &str = "name = \"Ann\"\nhandicap_index = 12\nsex = \"men\"\n";

#[test]
fn a_player_who_says_nothing_else_is_the_level() {
    let ann = read(WHO, "").unwrap();
    let level = levels::level(12.0, Sex::Men).unwrap();
    assert_eq!(ann.clubs.len(), level.clubs.len());
    for (own, usual) in ann.clubs.iter().zip(&level.clubs) {
        assert_eq!((own.club, &own.pattern), (usual.club, &usual.pattern));
        assert_eq!(own.origin, Origin::Assumed);
        // What the level delivers is no measurement of hers.
        assert_eq!(own.delivered, Delivered::default());
    }
    assert_eq!(ann.short_game, level.short_game);
    assert_eq!(ann.putting, level.putting);
}

#[test]
fn a_stated_club_takes_the_rest_from_the_level_at_its_speed() {
    let text = format!(
        "{WHO}[[clubs]]\nclub = \"7 iron\"\nball_speed_mph = 115\nlaunch_deg = 14\nmishits = {{ share_pct = 2 }}\n"
    );
    let ann = read(&text, "").unwrap();
    let seven = ann
        .clubs
        .iter()
        .find(|entry| entry.club == Club::Iron(7))
        .unwrap();
    let level = levels::level(12.0, Sex::Men)
        .unwrap()
        .pattern_with(Club::Iron(7))
        .unwrap();
    assert_eq!(seven.origin, Origin::Stated);
    assert_eq!(seven.pattern.mean[0..2], [115.0, 14.0]);
    let ratio = 115.0 / level.mean[0];
    assert!((seven.pattern.mean[3] - ratio * level.mean[3]).abs() < 1e-9);
    assert!((seven.pattern.sd[0] - ratio * level.sd[0]).abs() < 1e-9);
    assert_eq!(seven.pattern.mishit.share, 0.02);
    assert_eq!(
        seven.pattern.mishit.spread_factor,
        level.mishit.spread_factor
    );
    // The clubs beside it grow with it, and none is faster than its longer neighbour.
    let six = ann
        .clubs
        .iter()
        .find(|entry| entry.club == Club::Iron(6))
        .unwrap();
    let level_six = levels::level(12.0, Sex::Men)
        .unwrap()
        .pattern_with(Club::Iron(6))
        .unwrap();
    assert_eq!(six.origin, Origin::Assumed);
    assert!(six.pattern.mean[0] > level_six.mean[0]);
}

/// The gap a club leaves that is not carried goes to the next usual one, and one that was hit is left out too.
#[test]
fn a_club_that_is_not_carried_is_neither_assumed_nor_played() {
    let bag = |text: &str| {
        let ann = read(&format!("{WHO}{text}"), "").unwrap();
        let clubs: Vec<Club> = ann.clubs.iter().map(|entry| entry.club).collect();
        (clubs, ann.notes)
    };
    let (usual, _) = bag("");
    let (without, notes) = bag("not_carried = [\"3 wood\", \"lob wedge\"]\n");
    let gone = |club: &&Club| ![Club::Wood(3), Club::LobWedge].contains(*club);
    assert!(usual.contains(&Club::Wood(3)) && usual.contains(&Club::LobWedge));
    assert_eq!(
        without,
        usual.iter().filter(gone).copied().collect::<Vec<_>>()
    );
    assert!(notes.is_empty());

    let stated = "[[clubs]]\nclub = \"5 iron\"\nball_speed_mph = 120\n";
    let (left, notes) = bag(&format!("not_carried = [\"5 iron\"]\n{stated}"));
    assert!(!left.contains(&Club::Iron(5)));
    assert_eq!(notes, ["not carried, so left out of the bag: 5 iron"]);
}

#[test]
fn a_launch_into_the_ground_is_told_to_be_raised() {
    let text = "[[clubs]]\nclub = \"driver\"\nball_speed_mph = 140\nlaunch_deg = -2\n";
    let notes = read(&format!("{WHO}{text}"), "").unwrap().notes;
    assert_eq!(
        notes,
        [
            "shots that start lower than 0.5° are played at 0.5°, among them the usual ones of: driver"
        ]
    );
}

#[test]
fn a_club_stated_to_be_faster_than_a_longer_one_is_told() {
    let notes = |seven_mph: u32| {
        let club = |name: &str, mph: u32| {
            format!("[[clubs]]\nclub = \"{name}\"\nball_speed_mph = {mph}\n")
        };
        let both = [club("5 iron", 122), club("7 iron", seven_mph)].concat();
        read(&format!("{WHO}{both}"), "").unwrap().notes
    };
    assert!(notes(116).is_empty() && notes(127).is_empty());
    assert_eq!(
        notes(135),
        [
            "the usual ball of the 7 iron is faster than that of the longer 5 iron: look whether one of them is a slip"
        ]
    );
}

#[test]
fn a_club_left_out_tells_how_fast_its_neighbours_are() {
    let speed = |text: &str| {
        let stated = format!("{WHO}{text}[[clubs]]\nclub = \"5 iron\"\nball_speed_mph = 125\n");
        let ann = read(&stated, "").unwrap();
        let six = ann.clubs.iter().find(|entry| entry.club == Club::Iron(6));
        six.unwrap().pattern.mean[0]
    };
    assert_eq!(speed("not_carried = [\"5 iron\"]\n"), speed(""));
}

/// A sheet of `count` strikes around one mean.
fn sheet(club: &str, ball_speed: f64, count: usize) -> String {
    (0..count)
        .map(|i| {
            let off = i as f64 - (count as f64 - 1.0) / 2.0;
            format!(
                "{club},{},{},{},{},{}\n",
                ball_speed + 0.4 * off,
                16.0 + 0.1 * off,
                2.0 - 0.3 * off,
                6000.0 + 50.0 * off,
                200.0 - 30.0 * off
            )
        })
        .collect()
}

const HEADER: &str = "club,ball_speed_mph,launch_deg,direction_deg,backspin_rpm,sidespin_rpm\n";

#[test]
fn measured_clubs_are_fitted_and_the_bag_is_filled_in_order() {
    let text = format!("{WHO}strikes = \"ann.csv\"\n");
    let csv = format!(
        "{HEADER}{}{}",
        sheet("driver", 142.0, 14),
        sheet("7i", 112.0, 14)
    );
    let ann = read(&text, &csv).unwrap();
    assert!((12..=13).contains(&ann.clubs.len()), "{}", ann.clubs.len());
    let measured: Vec<_> = ann
        .clubs
        .iter()
        .filter(|entry| entry.origin == Origin::Measured { strikes: 14 })
        .map(|entry| entry.club)
        .collect();
    assert_eq!(measured, [Club::Driver, Club::Iron(7)]);
    for pair in ann.clubs.windows(2) {
        assert!(
            pair[0].pattern.mean[0] >= pair[1].pattern.mean[0],
            "{}",
            pair[1].club
        );
    }
    assert!((ann.clubs[0].pattern.mean[0] - 142.0).abs() < 1.0);
}

#[test]
fn one_strike_is_noted_and_the_club_assumed() {
    let text = format!("{WHO}strikes = \"ann.csv\"\n");
    let csv = format!("{HEADER}{}2 iron,120,9,0,3600,0\n", sheet("7i", 112.0, 14));
    let ann = read(&text, &csv).unwrap();
    assert_eq!(
        ann.notes,
        ["one strike with the 2 iron says too little: its pattern is assumed from the handicap"]
    );
    let two = ann
        .clubs
        .iter()
        .find(|entry| entry.club == Club::Iron(2))
        .unwrap();
    assert_eq!(two.origin, Origin::Assumed);
}

#[test]
fn mirrored_figures_are_turned_back() {
    let csv = format!("{HEADER}{}", sheet("7i", 112.0, 14));
    let seen = read(
        &format!("{WHO}strikes = \"a.csv\"\nhand = \"left\"\n"),
        &csv,
    )
    .unwrap();
    let text = format!("{WHO}strikes = \"a.csv\"\nhand = \"left\"\nfigures = \"mirrored\"\n");
    let turned = read(&text, &csv).unwrap().mirrored();
    for (one, other) in seen.clubs.iter().zip(&turned.clubs) {
        for i in 0..5 {
            assert!((one.pattern.mean[i] - other.pattern.mean[i]).abs() < 1e-6);
            assert!((one.pattern.sd[i] - other.pattern.sd[i]).abs() < 1e-6);
        }
    }
    assert!(seen.pattern_with(Club::Iron(7)).unwrap().mean[2] > 1.0);
}

#[test]
fn counted_figures_give_the_level_that_has_them() {
    let level = levels::level(22.0, Sex::Men).unwrap();
    let putting = level.putting.0;
    let up_and_down = 100.0 * level.short_game.0.saved(Length::from_yd(20.0), &putting);
    let sand = 100.0 * level.sand.0.saved(Length::from_yd(15.0), &putting);
    let holed = 100.0 * putting.holed(Length::from_ft(5.0));
    let text = format!(
        "{WHO}[short_game]\nup_and_down_pct = {up_and_down}\n[sand]\nsand_save_pct = {sand}\n\
         [putting]\nholed_from_5_ft_pct = {holed}\n"
    );
    let ann = read(&text, "").unwrap();
    assert!((ann.short_game.0.along_pct - level.short_game.0.along_pct).abs() < 1e-3);
    assert!((ann.sand.0.mishit_pct - level.sand.0.mishit_pct).abs() < 1e-3);
    assert!((ann.putting.0.direction_sd_deg - putting.direction_sd_deg).abs() < 1e-4);
    assert_eq!(ann.putting.1, Origin::Stated);
}

/// A player who knows the ball speed of a club and no more is as unsure of its spread and misses as of those of a club he
/// says nothing about.
#[test]
fn what_is_stated_of_a_club_stands_and_what_is_not_is_as_open_as_another_clubs() {
    let ann = read(
        &format!(
            "{WHO}[[clubs]]\nclub = \"7 iron\"\nball_speed_mph = 104\nspread = {{ launch_deg = 2 }}\n"
        ),
        "",
    )
    .unwrap();
    let drawn: Vec<Golfer> = (0..40)
        .map(|seed| ann.drawn(&mut ChaCha8Rng::seed_from_u64(seed)))
        .collect();
    let spread_of = |club: Club, figure: &dyn Fn(&BagClub) -> f64| {
        let of = |golfer: &Golfer| {
            figure(
                golfer
                    .clubs
                    .iter()
                    .find(|entry| entry.club == club)
                    .unwrap(),
            )
        };
        let figures: Vec<f64> = drawn.iter().map(of).collect();
        let mean = figures.iter().sum::<f64>() / 40.0;
        (figures
            .iter()
            .map(|figure| (figure / mean - 1.0).powi(2))
            .sum::<f64>()
            / 40.0)
            .sqrt()
    };
    let (stated, assumed) = (Club::Iron(7), Club::Iron(8));
    let open: [&dyn Fn(&BagClub) -> f64; 3] = [
        &|entry| entry.pattern.mean[1],
        &|entry| entry.pattern.sd[2],
        &|entry| entry.pattern.mishit.share,
    ];
    for figure in open {
        let [own, other] = [stated, assumed].map(|club| spread_of(club, figure));
        assert!(own > 0.7 * other && other > 0.01, "{own} beside {other}");
    }
    let given: [&dyn Fn(&BagClub) -> f64; 2] =
        [&|entry| entry.pattern.mean[0], &|entry| entry.pattern.sd[1]];
    for figure in given {
        assert!(spread_of(stated, figure) < 1e-9);
        assert!(spread_of(assumed, figure) > 0.01);
    }
}

#[test]
fn raw_figures_stand_as_they_are_written() {
    let text =
        format!("{WHO}[sand]\nalong_pct = 33\n[putting]\nlength_sd_pct = 11\npast_ft = 0.5\n");
    let ann = read(&text, "").unwrap();
    let level = levels::level(12.0, Sex::Men).unwrap();
    assert_eq!(ann.sand.0.along_pct, 33.0);
    assert_eq!(ann.sand.0.across_pct, level.sand.0.across_pct);
    assert_eq!(ann.sand.1, Origin::Stated);
    assert_eq!(
        (ann.putting.0.length_sd_pct, ann.putting.0.past_ft),
        (11.0, 0.5)
    );
    assert_eq!(ann.short_game.1, Origin::Assumed);
}

#[test]
fn every_demo_player_is_read_with_a_full_bag() {
    let names = embedded::player_names();
    assert_eq!(names, ["dale", "mika", "rowan"]);
    for name in names {
        let golfer = embedded::player(name).unwrap();
        assert!((12..=13).contains(&golfer.clubs.len()), "{name}");
        assert!(golfer.notes.is_empty());
        let path = format!(
            "{}/profiles/players/{name}.toml",
            env!("CARGO_MANIFEST_DIR")
        );
        assert_eq!(Golfer::from_path(path.as_ref()).unwrap(), golfer);
    }
}

#[test]
fn an_unknown_demo_player_gets_the_nearest() {
    let told = |name| embedded::player(name).unwrap_err().to_string();
    assert_eq!(
        told("rowen"),
        "demo:rowen: there is no such demo player\nhint: did you mean `demo:rowan`?"
    );
    assert_eq!(
        told("somebody"),
        "demo:somebody: there is no such demo player\nhint: the demo players are `dale`, `mika` and `rowan`"
    );
}

#[test]
fn each_demo_player_has_the_fault_its_file_describes() {
    let descent = |golfer: &Golfer, club| {
        let mean = golfer.pattern_with(club).unwrap().mean;
        fly(&strike_of(&mean), &Atmosphere::new(&Air::standard()))
            .descent
            .deg()
    };
    let at = |handicap| levels::level(handicap, Sex::Men).unwrap();
    let [rowan, dale, mika] = ["rowan", "dale", "mika"].map(|name| embedded::player(name).unwrap());
    for club in [Club::Iron(5), Club::Iron(6)] {
        let (own, level) = (descent(&rowan, club), descent(&at(12.0), club));
        println!("rowan's {club} comes down at {own:.1}°, his level's at {level:.1}°");
        assert!(own < 37.0 && level - own > 5.0, "{club}: {own}, {level}");
    }
    let driver = |golfer: &Golfer| golfer.pattern_with(Club::Driver).unwrap();
    println!(
        "dale's driver: {:.1?} sd {:.1?}",
        driver(&dale).mean,
        driver(&dale).sd
    );
    assert!(driver(&dale).sd[2] > 1.4 * driver(&at(14.0)).sd[2]);
    assert!(driver(&dale).mean[4] > 500.0);
    assert!(descent(&mika, Club::Iron(6)) > 40.0);
    let leaks = at(26.0);
    assert!((mika.short_game.0.along_pct / leaks.short_game.0.along_pct - 1.0).abs() < 0.05);
    assert!((mika.sand.0.along_pct / leaks.sand.0.along_pct - 1.0).abs() < 0.05);
    let usual = at(13.0).putting.0.direction_sd_deg;
    assert!((mika.putting.0.direction_sd_deg / usual - 1.0).abs() < 0.05);
}
