//! Levels from the tables, between them and beyond them.

use costcard::player::club::{Class, Club};
use costcard::player::levels::{LevelError, level, named, parse_spec};
use costcard::player::{Golfer, Sex};
use costcard::units::Length;

const SEXES: [Sex; 2] = [Sex::Men, Sex::Women];

#[test]
fn every_level_has_a_bag_of_fourteen_clubs_at_most_with_the_putter() {
    for sex in SEXES {
        for handicap in [-5.5, 0.0, 5.0, 10.0, 15.0, 20.0, 28.0, 36.0, 45.0, 54.0] {
            let golfer = level(handicap, sex).unwrap();
            assert!((11..=13).contains(&golfer.clubs.len()), "{}", golfer.name);
            assert_eq!(golfer.clubs[0].club, Club::Driver);
            for pair in golfer.clubs.windows(2) {
                assert!(pair[0].club < pair[1].club);
                let speeds = [pair[0].pattern.mean[0], pair[1].pattern.mean[0]];
                assert!(speeds[0] > speeds[1], "{}: {}", golfer.name, pair[1].club);
            }
            for entry in &golfer.clubs {
                entry.pattern.validate().unwrap();
            }
        }
    }
}

fn figures(golfer: &Golfer) -> [f64; 6] {
    let seven = golfer.pattern_with(Club::Iron(7)).unwrap();
    [
        golfer.clubs[0].pattern.mean[0],
        seven.mean[0],
        seven.sd[0] / seven.mean[0],
        seven.mishit.share,
        golfer.short_game.0.along_pct,
        golfer.putting.0.direction_sd_deg,
    ]
}

#[test]
fn a_higher_handicap_is_worse_in_every_figure() {
    for sex in SEXES {
        let mut before = figures(&level(-6.0, sex).unwrap());
        for step in 1..=120 {
            let handicap = -6.0 + f64::from(step) / 2.0;
            let now = figures(&level(handicap, sex).unwrap());
            for (i, (one, other)) in before.iter().zip(&now).enumerate() {
                let worse = if i < 2 { other < one } else { other > one };
                assert!(
                    worse,
                    "{sex:?} {handicap}: figure {i} goes from {one} to {other}"
                );
            }
            before = now;
        }
    }
}

/// More loft, more spin, also of weak golfers, whose drives spin more than their speed lets expect.
#[test]
fn no_fairway_wood_of_a_level_spins_less_than_a_longer_wood() {
    for sex in SEXES {
        for handicap in -5..=54 {
            let mut woods = level(f64::from(handicap), sex).unwrap().clubs;
            woods.retain(|entry| entry.club.class() == Class::Wood);
            assert!(woods.len() >= 2, "{sex:?} {handicap}");
            for two in woods.windows(2) {
                let [longer, shorter] = [&two[0], &two[1]].map(|entry| entry.pattern.mean[3]);
                let club = two[1].club;
                assert!(
                    shorter >= longer,
                    "{sex:?} {handicap}: {club} {shorter} after {longer}"
                );
            }
        }
    }
}

#[test]
fn between_two_tables_every_figure_lies_on_the_line() {
    let [scratch, five, two] = [0.0, 5.0, 2.0].map(|h| level(h, Sex::Men).unwrap());
    for ((a, b), c) in scratch.clubs.iter().zip(&five.clubs).zip(&two.clubs) {
        for i in 0..5 {
            let on_line = a.pattern.mean[i] * 0.6 + b.pattern.mean[i] * 0.4;
            assert!((c.pattern.mean[i] - on_line).abs() < 1e-9);
        }
    }
    let length = |golfer: &Golfer| golfer.putting.0.length_sd_pct;
    assert!((length(&two) - 0.6 * length(&scratch) - 0.4 * length(&five)).abs() < 1e-9);
}

#[test]
fn a_level_changes_smoothly_where_the_bag_changes() {
    for sex in SEXES {
        for handicap in [7.5, 12.5] {
            let [below, above] = [-1e-6, 1e-6].map(|step| level(handicap + step, sex).unwrap());
            for club in [Club::Driver, Club::Iron(7), Club::PitchingWedge] {
                let [a, b] = [&below, &above].map(|golfer| golfer.pattern_with(club).unwrap());
                assert!(
                    (a.mean[0] - b.mean[0]).abs() < 1e-3,
                    "{sex:?} {handicap} {club}"
                );
            }
        }
    }
}

#[test]
fn levels_are_read_by_name() {
    for (text, handicap, sex) in [
        ("level:tour", -5.5, Sex::Men),
        ("level:scratch", 0.0, Sex::Men),
        ("level:5", 5.0, Sex::Men),
        ("level:20:women", 20.0, Sex::Women),
        ("level:Scratch:Women", 0.0, Sex::Women),
        ("level:+2", -2.0, Sex::Men),
        ("level:12.4:men", 12.4, Sex::Men),
    ] {
        let golfer = parse_spec(text).unwrap();
        assert_eq!((golfer.handicap, golfer.sex), (handicap, sex), "{text}");
    }
    assert_eq!(named("20", Sex::Women).unwrap().name, "20 handicap (women)");
    assert_eq!(named("tour", Sex::Men).unwrap().name, "tour professional");
}

#[test]
fn what_is_no_level_is_refused_with_the_way_to_write_one() {
    assert_eq!(
        parse_spec("level:pro").unwrap_err().to_string(),
        "`level:pro` is no level: write `level:tour`, `level:scratch`, `level:5`, or with `:women` after it, as `level:20:women`"
    );
    for text in [
        "level",
        "level:",
        "level:5:juniors",
        "level:5:men:x",
        "tour",
        "level:nan",
    ] {
        assert_eq!(parse_spec(text), Err(LevelError::Unknown(text.to_owned())));
    }
    assert_eq!(
        parse_spec("level:55").unwrap_err().to_string(),
        "handicap 55 is outside the levels: they reach from -6 (better than a tour professional; plus handicaps are written negative) to 54"
    );
    assert!(level(f64::NAN, Sex::Men).is_err());
}

#[test]
fn better_golfers_save_more_strokes_around_the_green() {
    for sex in SEXES {
        let saves = [-5.5, 0.0, 5.0, 10.0, 15.0, 20.0, 26.0, 28.0].map(|handicap| {
            let golfer = level(handicap, sex).unwrap();
            let putting = golfer.putting.0;
            let up_and_down = golfer.short_game.0.saved(Length::from_yd(20.0), &putting);
            let sand = golfer.sand.0.saved(Length::from_yd(15.0), &putting);
            [
                up_and_down,
                sand,
                putting.holed(Length::from_ft(5.0)),
                putting.holed(Length::from_ft(8.0)),
            ]
        });
        println!("{sex:?} up and down, sand, 5 ft, 8 ft: {saves:.3?}");
        for pair in saves.windows(2) {
            for (better, worse) in pair[0].iter().zip(&pair[1]) {
                assert!(better > worse);
            }
        }
    }
}
