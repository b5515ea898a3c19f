//! What a change does to a golfer, and to nothing else of him.

use costcard::ball::impact::Delivery;
use costcard::player::change::Change;
use costcard::player::club::Club;
use costcard::player::heads::head;
use costcard::player::pattern::strike_of;
use costcard::player::{BagClub, Golfer, Sex};
use costcard::round::clubs::rows;
use costcard::rules::Rulebook;
use costcard::units::Angle;

use super::{change, changed};
use crate::support::{demo_player, level};

fn entry(golfer: &Golfer, club: Club) -> &BagClub {
    let found = golfer.clubs.iter().find(|entry| entry.club == club);
    found.unwrap_or_else(|| panic!("no {club}"))
}

#[test]
fn a_figure_changes_and_nothing_else_does() {
    let before = demo_player("rowan");
    let after = changed(&before, "6 iron backspin +500");
    let mut back = after.clone();
    for entry in &mut back.clubs {
        if entry.club == Club::Iron(6) {
            entry.pattern.mean[3] -= 500.0;
        }
    }
    assert_eq!(back, before);
    assert_ne!(after, before);
}

#[test]
fn a_change_of_zero_changes_nothing_to_the_last_bit() {
    let before = demo_player("rowan");
    for text in [
        "all clubs dynamic_loft +0",
        "irons attack_angle -0",
        "driver club_speed +0%",
        "all clubs ball_speed +0",
        "wedges mishits +0%",
        "all clubs mishits +0 points",
        "all clubs spread -0%",
        "putting spread +0%",
        "short game mishits +0",
        "sand distance_spread +0%",
    ] {
        assert_eq!(changed(&before, text), before, "{text}");
    }
}

/// The measured strike, plus what the impact gives after the change, less what it gives before. The figures of a
/// level's delivery are those that give its mean strike (see the level files), so the impact before is the strike.
#[test]
fn a_change_of_delivery_goes_through_the_impact() {
    let before = level("10", Sex::Men);
    let after = changed(&before, "6 iron dynamic_loft +4");
    let (before, after) = (entry(&before, Club::Iron(6)), entry(&after, Club::Iron(6)));
    let head = head(Club::Iron(6));
    let delivery = before.delivered.whole();
    let delivery = delivery.unwrap_or_else(|| {
        head.delivery(&strike_of(&before.pattern.mean), None)
            .unwrap_or_else(|none| panic!("{none}"))
    });
    let [was, now] = [0.0, 4.0].map(|deg| {
        head.strike(&Delivery {
            dynamic_loft: delivery.dynamic_loft + Angle::from_deg(deg),
            ..delivery
        })
    });
    let steps = [
        now.ball_speed.mph() - was.ball_speed.mph(),
        now.launch.deg() - was.launch.deg(),
        now.direction.deg() - was.direction.deg(),
        now.backspin.rpm() - was.backspin.rpm(),
    ];
    for (index, step) in steps.into_iter().enumerate() {
        let made = after.pattern.mean[index] - before.pattern.mean[index];
        // The level's delivery is rounded to a tenth of a degree, which moves such differences by less than a hundredth.
        assert!(
            (made - step).abs() <= 0.02 * step.abs() + 0.01,
            "{index}: {made} for {step}"
        );
    }
    // More loft: slower, higher, more spin, by the signs of any impact.
    assert!(
        steps[0] < -1.0 && steps[1] > 2.5 && steps[3] > 500.0,
        "{steps:?}"
    );
    assert_eq!(after.pattern.sd, before.pattern.sd);
}

#[test]
fn an_opened_face_starts_the_ball_right_and_curves_it_right() {
    let before = demo_player("dale");
    let after = changed(&before, "driver face_angle +3");
    let (before, after) = (entry(&before, Club::Driver), entry(&after, Club::Driver));
    assert!(after.pattern.mean[2] > before.pattern.mean[2] + 2.0);
    assert!(after.pattern.mean[4] > before.pattern.mean[4] + 200.0);
    // A path that follows the face takes the curve away again.
    let both = changed(
        &changed(&demo_player("dale"), "driver face_angle +3"),
        "driver club_path +3",
    );
    let both = entry(&both, Club::Driver);
    assert!((both.pattern.mean[4] - before.pattern.mean[4]).abs() < 40.0);
}

#[test]
fn parts_take_the_standard_of_a_level_over() {
    let before = demo_player("rowan");
    let five = level("5", Sex::Men);
    let after = changed(&before, "putting level 5");
    assert_eq!(after.putting.0, five.putting.0);
    assert_eq!(after.clubs, before.clubs);
    let after = changed(&before, "mid irons level 5");
    for club in [5, 6, 7].map(Club::Iron) {
        assert_eq!(
            Some(&entry(&after, club).pattern),
            five.pattern_with(club).as_ref()
        );
    }
    assert_eq!(entry(&after, Club::Driver), entry(&before, Club::Driver));
    let after = changed(&before, "driver direction_spread level 5");
    let theirs = entry(&five, Club::Driver).pattern.sd;
    let (own, old) = (
        entry(&after, Club::Driver).pattern.sd,
        entry(&before, Club::Driver).pattern.sd,
    );
    assert_eq!([own[2], own[4]], [theirs[2], theirs[4]]);
    assert_eq!([own[0], own[1], own[3]], [old[0], old[1], old[3]]);
}

#[test]
fn clubs_come_and_go() {
    let before = demo_player("rowan");
    let without = changed(&before, "5 wood off");
    assert_eq!(without.clubs.len() + 1, before.clubs.len());
    let added = changed(&without, "add club 7 wood");
    let wood = entry(&added, Club::Wood(7));
    assert!(added.clubs.is_sorted_by_key(|entry| entry.club));
    let neighbours =
        [Club::Wood(3), Club::Iron(5)].map(|club| entry(&before, club).pattern.mean[0]);
    assert!(neighbours[0] > wood.pattern.mean[0] && wood.pattern.mean[0] > neighbours[1]);
    let said = changed(
        &without,
        "add club 7 wood speed 128mph launch 13 backspin 4200",
    );
    let said = entry(&said, Club::Wood(7));
    assert_eq!(
        [
            said.pattern.mean[0],
            said.pattern.mean[1],
            said.pattern.mean[3]
        ],
        [128.0, 13.0, 4200.0]
    );
    // The spread of speed goes with the speed.
    let [said_share, share] = [said, wood].map(|club| club.pattern.sd[0] / club.pattern.mean[0]);
    assert!((said_share - share).abs() < 1e-12);
}

/// From a bunker no wood is played.
#[test]
fn the_last_club_for_a_bunker_stays_in_the_bag() {
    let rowan = demo_player("rowan");
    let woods = rowan
        .clubs
        .iter()
        .map(|entry| entry.club)
        .filter(|club| !club.is_for_every_lie());
    assert!(woods.count() > 1);
    let left = changed(
        &changed(&changed(&rowan, "irons off"), "hybrids off"),
        "pitching wedge off",
    );
    let told = match change("wedges off").apply(&left) {
        Ok(golfer) => format!(
            "{:?}",
            golfer
                .clubs
                .iter()
                .map(|entry| entry.club)
                .collect::<Vec<_>>()
        ),
        Err(fault) => fault.to_string(),
    };
    assert_eq!(
        told,
        "`wedges off` leaves no club for a ball in a bunker\nhint: keep an iron or a wedge"
    );
}

#[test]
fn what_cannot_be_changed_says_why() {
    let rowan = demo_player("rowan");
    let told = |text: &str| match change(text).apply(&rowan) {
        Ok(_) => "it was made".to_owned(),
        Err(fault) => fault.to_string(),
    };
    insta::assert_snapshot!(
        [
            "2 iron launch +1",
            "add club 6 iron",
            "all clubs off",
            "driver ball_speed +100",
            "driver direction_spread = 4",
            "6 iron launch_spread = 40",
            "wedges mishits = 120%",
            "6 iron dynamic_loft -60",
            "add club 7 wood launch 90",
        ]
        .map(
            |text| match text.parse::<costcard::player::change::Change>() {
                Ok(_) => format!("{text}\n{}\n", told(text)),
                Err(fault) => format!("{text}\n{fault}\n"),
            }
        )
        .join("\n")
    );
}

/// Carry cannot be changed by itself; the speed that is named instead gives about as much.
#[test]
fn the_speed_that_is_named_for_carry_gives_it() {
    let mut tried = 0;
    for handicap in ["scratch", "10", "20"] {
        let before = level(handicap, Sex::Men);
        for name in ["driver", "5 wood", "4 hybrid", "6 iron", "gap wedge"] {
            let club: Club = name.parse().unwrap_or_else(|_| panic!("{name}"));
            if before.clubs.iter().all(|entry| entry.club != club) {
                continue;
            }
            tried += 1;
            let fault = format!("{name} carry +10").parse::<Change>();
            let hint = fault.err().map(|fault| fault.hint).unwrap_or_default();
            let said = hint.split('`').nth(1).unwrap_or_else(|| panic!("{hint}"));
            let after = changed(&before, said);
            let carry = |golfer: &Golfer| {
                let rows = rows(golfer, golfer, &Rulebook::default(), |one| one == club);
                rows.map_or(f64::NAN, |rows| rows[0].carry_yd)
            };
            let more = carry(&after) - carry(&before);
            assert!((more - 10.0).abs() < 2.5, "{handicap} {said}: {more}");
        }
    }
    assert!(tried > 10, "{tried}");
}

#[test]
fn the_words_of_the_range_name_the_parts_around_the_green() {
    for (said, meant) in [
        ("chipping level 9", "short game level 9"),
        ("Bunker level 9", "sand level 9"),
        ("putts level 5", "putting level 5"),
        ("bunker shots mishits half", "sand mishits half"),
    ] {
        assert_eq!(change(said), change(meant), "{said}");
    }
}
