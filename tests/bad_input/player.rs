//! Player files and sheets of strikes at fault.

use costcard::files::{Fault, Faults, Source};
use costcard::player::{Golfer, Origin, levels};
use insta::assert_snapshot;

use super::told;

const SHEET: &str = "club,ball_speed_mph,launch_deg,direction_deg,backspin_rpm,sidespin_rpm\n\
                     7 iron,112,15,1,6000,100\n7 iron,114,16,-1,6100,-50\n";

/// Reads a player whose sheet, whatever it is called, is `sheet`.
fn with_sheet(text: &str, sheet: &str) -> String {
    told(Golfer::read(&Source::new("ann.toml", text), &|path| {
        Ok(Source::new(path, sheet))
    }))
}

fn read(text: &str) -> String {
    with_sheet(text, SHEET)
}

const WHO: &str = "name = \"Ann\"\nhandicap_index = 12\nsex = \"men\"\n";

#[test]
fn every_fault_of_a_player_is_told_at_once() {
    let text = "nme = \"Ann\"\nhandicap_index = 60\nsex = \"man\"\n[[clubs]]\nclub = \"7 irn\"\nball_speed_mph = \"fast\"\n\
                [short_game]\nup_and_down_pct = 120\n[putting]\ndirection_sd = 1.4\n";
    assert_snapshot!(read(text));
}

#[test]
fn an_empty_player_file_says_what_it_lacks() {
    assert_snapshot!(read(""));
}

#[test]
fn a_club_stated_wrongly() {
    let clubs = "[[clubs]]\nclub = \"5 iron\"\nball_speed_mph = 300\nlaunch_deg = -40\nspread = { launch = 2 }\n\
                 correlation = { launch_backspin = 1.5 }\nmishits = { share_pct = 90, launch_shift_deg = \"low\" }\n";
    assert_snapshot!(read(&format!("{WHO}{clubs}")));
}

#[test]
fn a_club_without_a_ball_speed() {
    assert_snapshot!(read(&format!(
        "{WHO}[[clubs]]\nclub = \"5 iron\"\nlaunch_deg = 14\n"
    )));
}

/// A fault of a club does not hide those of other tables.
#[test]
fn a_club_without_a_ball_speed_hides_no_other_fault() {
    let said = read(&format!(
        "{WHO}not_carried = [\"mallet\"]\n[[clubs]]\nclub = \"5 iron\"\nlaunch_deg = 14\n[putting]\nholed_from_5_ft_pct = 120\n"
    ));
    for told in ["mallet", "ball_speed_mph", "holed_from_5_ft_pct"] {
        assert!(said.contains(told), "{told}: {said}");
    }
}

/// Putts that no golfer holes all of are no fault, but it is told what is reckoned with.
#[test]
fn counted_putts_that_do_not_fit_together_are_told() {
    let notes = |putts: &str| {
        let text = format!("{WHO}[putting]\n{putts}\n");
        let golfer = Golfer::read(&Source::new("ann.toml", &text), &|_| {
            unreachable!("no sheet")
        });
        golfer
            .unwrap_or_else(|faults| panic!("{faults}"))
            .notes
            .join("; ")
    };
    let apart = notes("holed_from_3_ft_pct = 80\nholed_from_5_ft_pct = 70");
    assert!(
        apart.contains("the counted putts do not fit together: reckoned with ")
            && apart.contains(" from 5 ft in place of 70 %"),
        "{apart}"
    );
    assert_eq!(
        notes("holed_from_5_ft_pct = 52\nholed_from_8_ft_pct = 28"),
        ""
    );
}

/// A ball speed in another unit spoils the whole bag, since it is carried over to the clubs beside it.
#[test]
fn a_ball_speed_that_no_golfer_has_is_told_with_the_unit_it_may_be_of() {
    let said = |club: &str, speed: &str| {
        read(&format!(
            "{WHO}[[clubs]]\nclub = \"{club}\"\nball_speed_mph = {speed}\n"
        ))
    };
    assert_snapshot!(said("9 iron", "158"), @"
    ann.toml:6:18: no golfer's ball leaves the 9 iron at 158 mph: men on tour have 109 mph
    hint: write miles an hour: 158 km/h are 98.2 mph
    ");
    assert!(said("driver", "40").contains("write miles an hour: 40 m/s are 89.5 mph"));
}

#[test]
fn correlations_that_contradict_each_other() {
    let clubs = "[[clubs]]\nclub = \"5 iron\"\nball_speed_mph = 120\n\
                 correlation = { ball_speed_launch = 0.9, launch_backspin = 0.9, ball_speed_backspin = -0.9 }\n";
    assert_snapshot!(read(&format!("{WHO}{clubs}")));
}

#[test]
fn a_club_that_stands_twice_or_is_also_measured() {
    let club = |name: &str| format!("[[clubs]]\nclub = \"{name}\"\nball_speed_mph = 115\n");
    let clubs = [club("5 iron"), club("5i"), club("7-iron")].concat();
    assert_snapshot!(read(&format!("{WHO}strikes = \"shots/ann.csv\"\n{clubs}")));
}

#[test]
fn a_sheet_at_fault() {
    let sheet = "club,ball_speed_mph,launch_deg,direction_deg,backspin_rpm,sidespin_rpm\n\
                 7 iron,112,15,1,6000,100\n7 irn,250,steep,1,6000,100\nmallet,112,15,90,,100\n";
    assert_snapshot!(with_sheet(
        &format!("{WHO}strikes = \"shots/ann.csv\"\n"),
        sheet
    ));
}

#[test]
fn a_sheet_that_is_empty_or_lacks_a_column() {
    let text = format!("{WHO}strikes = \"shots/ann.csv\"\n");
    let no_spin =
        "club,ball_speed_mph,launch_deg,direction_deg,backspin_rmp\n7 iron,112,15,1,6000\n";
    let header_only = "club,ball_speed_mph,launch_deg,direction_deg,backspin_rpm,sidespin_rpm\n";
    let all = ["", header_only, no_spin].map(|sheet| with_sheet(&text, sheet));
    assert_snapshot!(all.join("\n\n"));
}

#[test]
fn a_sheet_that_is_missing() {
    let text = format!("{WHO}strikes = \"shots/ann.csv\"\n");
    let missing = |path: &str| {
        Err(Faults::from(Fault {
            source: Source::new(path, ""),
            span: None,
            message: "there is no such file".to_owned(),
            hint: None,
        }))
    };
    assert_snapshot!(told(Golfer::read(
        &Source::new("ann.toml", &text),
        &missing
    )));
}

#[test]
fn counted_figures_nobody_reaches_or_beside_raw_ones() {
    let skills = "[short_game]\nup_and_down_pct = 97\n[sand]\nsand_save_pct = 20\nalong_pct = 20\n\
                  [putting]\nholed_from_5_ft_pct = 99\nholed_from_8_ft_pct = 1\n";
    assert_snapshot!(read(&format!("{WHO}{skills}")));
}

/// Five of twelve short putts are few, and no reason to stop a lesson: they are taken as the worst there is, and told.
#[test]
fn a_small_count_is_taken_as_the_worst_level_and_told() {
    let skills = "[putting]\nholed_from_5_ft_pct = 12\n[short_game]\nup_and_down_pct = 0\n";
    let text = format!("{WHO}{skills}");
    let source = Source::new("ann.toml", text.as_str());
    let golfer = Golfer::read(&source, &|path| Ok(Source::new(path, SHEET)));
    let golfer = golfer.unwrap_or_else(|faults| panic!("{faults}"));
    let worst = levels::level(54.0, golfer.sex).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(golfer.putting, (worst.putting.0, Origin::Stated));
    assert_eq!(golfer.short_game, (worst.short_game.0, Origin::Stated));
    let told = golfer.notes.join("; ");
    assert!(told.contains("`holed_from_5_ft_pct`: golfers off 54 make 35 % here, and 12 % is less: taken as off 54"), "{told}");
    assert!(
        told.contains("`up_and_down_pct`: golfers off 54 make"),
        "{told}"
    );
}

#[test]
fn a_level_file_that_lacks_figures() {
    let text = "name = \"scratch\"\nhandicap_index = 0\nsex = \"men\"\n[short_game]\nalong_pct = 12\n\
                [[clubs]]\nclub = \"driver\"\nball_speed_mph = 150\n";
    assert_snapshot!(told(levels::read(&Source::new("men-scratch.toml", text))));
}

/// The bag is whole as it is named, and from a bunker no wood is played.
#[test]
fn a_bag_of_woods_alone() {
    let woods =
        "assumed_clubs = [\"3 wood\"]\n[[clubs]]\nclub = \"driver\"\nball_speed_mph = 140\n";
    let said = read(&format!("{WHO}{woods}"));
    assert!(
        said.contains("there is no club in the bag for a ball in a bunker"),
        "{said}"
    );
    assert!(said.contains("name an iron or a wedge here too"), "{said}");
    let with_wedge = woods.replace("\"3 wood\"", "\"3 wood\", \"sand wedge\"");
    assert_eq!(read(&format!("{WHO}{with_wedge}")), "no fault");
}

#[test]
fn a_club_that_is_assumed_and_not_carried_and_a_bag_without_irons() {
    let both = read(&format!(
        "{WHO}assumed_clubs = [\"3 wood\", \"9 iron\"]\nnot_carried = [\"3 wood\"]\n"
    ));
    let unknown = read(&format!("{WHO}not_carried = [\"3 wod\"]\n"));
    let all = "4 hybrid, 5 hybrid, 5 iron, 6 iron, 7 iron, 8 iron, 9 iron, pitching wedge, gap wedge, sand wedge, lob wedge";
    let names: Vec<String> = all.split(", ").map(|name| format!("{name:?}")).collect();
    let none = read(&format!("{WHO}not_carried = [{}]\n", names.join(", ")));
    assert_snapshot!([both, unknown, none].join("\n\n"));
}

/// A putt meant to stop short of the hole would be meant never to drop.
#[test]
fn putts_are_not_meant_to_stop_short() {
    let said = read(&format!("{WHO}[putting]\npast_ft = -0.5\n"));
    assert!(
        said.contains("`past_ft` must be a number from 0 to 4 feet, not -0.5"),
        "{said}"
    );
    assert_eq!(read(&format!("{WHO}[putting]\npast_ft = 0\n")), "no fault");
}

/// What a golfer means by a plus, and by a share, is not guessed.
#[test]
fn a_plus_and_a_share_are_asked_about() {
    let who =
        |handicap: &str| format!("name = \"Ann\"\nhandicap_index = {handicap}\nsex = \"men\"\n");
    assert_snapshot!(read(&who("+1.4")), @"
    ann.toml:2:18: `+1.4` can be read in two ways
    hint: a plus handicap is negative here: write `-1.4` for plus 1.4, `1.4` for 1.4
    ");
    assert_snapshot!(read(&who("\"+1\"")), @"
    ann.toml:2:18: `+1` can be read in two ways
    hint: a plus handicap is negative here: write `-1` for plus 1, `1` for 1
    ");
    assert_snapshot!(read(&format!("{WHO}[short_game]\nup_and_down_pct = 0.25\n")), @"
    ann.toml:5:19: `up_and_down_pct = 0.25` is less than one in a hundred
    hint: write 25 for 25 in a hundred
    ");
    assert_snapshot!(read(&format!("{WHO}[putting]\nholed_from_5_ft_pct = 0.29\n")), @"
    ann.toml:5:23: `holed_from_5_ft_pct = 0.29` is less than one in a hundred
    hint: write 29 for 29 in a hundred
    ");
}
