//! How clubs are presented: measured, derived, and beside what is usual.

use costcard::files::Source;
use costcard::player::club::Club;
use costcard::player::delivery::Delivered;
use costcard::player::presented::{Presented, presented};
use costcard::player::{Golfer, Sex};

use crate::support::level;

/// A player off 5 with a 6 iron as stated.
fn player(head: &str, six: &str) -> Golfer {
    let text = format!(
        "name = \"Lee\"\nhandicap_index = 5\nsex = \"men\"\n{head}\n\
         [[clubs]]\nclub = \"6 iron\"\nball_speed_mph = 111\n{six}\n"
    );
    let source = Source::new("lee.toml", &text);
    let none = |_: &str| unreachable!("no sheet");
    Golfer::read(&source, &none).unwrap_or_else(|faults| panic!("{faults}"))
}

fn six(player: &Golfer) -> Presented {
    let goal = level("5", Sex::Men);
    let mut clubs = player.clubs.iter();
    let entry = clubs.find(|entry| entry.club == Club::Iron(6)).unwrap();
    presented(entry, player, &goal).unwrap()
}

#[test]
fn a_levels_own_clubs_are_presented_as_usual_when_derived_from_the_ball() {
    for (name, sex) in [("tour", Sex::Men), ("10", Sex::Men), ("20", Sex::Women)] {
        let golfer = level(name, sex);
        for entry in &golfer.clubs {
            let mut unmeasured = entry.clone();
            unmeasured.delivered = Delivered::default();
            let found = presented(&unmeasured, &golfer, &golfer).unwrap();
            let usual = found.usual.unwrap();
            let off = found.delivery.dynamic_loft.deg() - usual.dynamic_loft.deg();
            // The files hold a decimal.
            assert!(off.abs() < 0.06, "{name} {}: {off}", entry.club);
            let off = found.delivery.spin_loft().deg() - usual.spin_loft.deg();
            assert!(off.abs() < 0.12, "{name} {}: {off}", entry.club);
            assert!(!found.measured.all());
        }
    }
}

#[test]
fn what_was_measured_stands_and_what_was_not_comes_from_the_ball() {
    let derived = six(&player("", ""));
    let loft = six(&player("", "delivery = { dynamic_loft_deg = 24.5 }"));
    assert_eq!(loft.delivery.dynamic_loft.deg(), 24.5);
    assert_eq!(loft.delivery.attack, derived.delivery.attack);
    assert!(loft.measured.dynamic_loft && !loft.measured.attack);
    let whole = six(&player(
        "",
        "delivery = { club_speed_mph = 80, attack_deg = -4, path_deg = 3, face_deg = 1, dynamic_loft_deg = 21 }",
    ));
    assert!(whole.measured.all());
    assert!((whole.delivery.face_to_path().deg() + 2.0).abs() < 1e-9);
    assert!((whole.delivery.spin_loft().deg() - 25.0).abs() < 0.2);
}

/// A device that measures loft at another point: measured lofts stay, usual and derived ones are shifted.
#[test]
fn one_setting_shifts_the_usual_lofts() {
    let (plain, shifted) = (six(&player("", "")), six(&player("loft_shift_deg = 6", "")));
    let (a, b) = (plain.usual.unwrap(), shifted.usual.unwrap());
    assert!((b.dynamic_loft.deg() - a.dynamic_loft.deg() - 6.0).abs() < 1e-9);
    assert!((b.spin_loft.deg() - a.spin_loft.deg() - 6.0).abs() < 1e-9);
    assert_eq!(plain.plays_like, shifted.plays_like);
    let measured = "delivery = { dynamic_loft_deg = 21.5 }";
    assert_eq!(six(&player("", measured)).plays_like, Some(Club::Iron(6)));
    let low = six(&player("loft_shift_deg = 6", measured));
    assert_eq!(low.delivery.dynamic_loft.deg(), 21.5);
    assert_eq!(low.plays_like, Some(Club::Iron(4)));
}

/// Face and path right of the target stay right for a left-hander; what a device mirrored is turned back.
#[test]
fn a_mirrored_device_is_turned_back() {
    let measured = "delivery = { path_deg = 3, face_deg = 1, lie_deg = 2 }";
    let seen = six(&player("hand = \"left\"", measured)).delivery;
    let turned = six(&player("hand = \"left\"\nfigures = \"mirrored\"", measured)).delivery;
    assert_eq!((seen.path.deg(), seen.face.deg()), (3.0, 1.0));
    assert!((turned.path + seen.path).deg().abs() < 1e-9);
    assert!((turned.face_to_path() + seen.face_to_path()).deg().abs() < 1e-9);
}

#[test]
fn the_middle_of_many_strikes_is_their_median_figure_by_figure() {
    let strike = |attack_deg, dynamic_loft_deg| Delivered {
        attack_deg,
        dynamic_loft_deg,
        ..Delivered::default()
    };
    let middle = Delivered::middle(
        [
            strike(Some(-3.0), None),
            strike(Some(-4.0), Some(20.0)),
            strike(Some(6.0), Some(22.0)),
        ]
        .into_iter(),
    );
    assert_eq!(middle, strike(Some(-3.0), Some(21.0)));
    assert_eq!(Delivered::middle(std::iter::empty()), Delivered::default());
}

/// Balls that were not measured come from the head, whose lofts the device may read higher than they are.
#[test]
fn balls_derived_from_the_head_know_how_the_device_reads_loft() {
    let backspin = |shift: f64, loft: f64| {
        let text = format!(
            "name = \"Lee\"\nhandicap_index = 5\nsex = \"men\"\nstrikes = \"lee.csv\"\nloft_shift_deg = {shift}\n"
        );
        let row = |more: f64| format!("6 iron,80,-4,1,0.5,{}\n", loft + more);
        let rows = [0.0, 0.5, -0.5, 1.0].map(row).concat();
        let sheet =
            format!("club,club_speed_mph,attack_deg,path_deg,face_deg,dynamic_loft_deg\n{rows}");
        let open = |_: &str| Ok(Source::new("lee.csv", &sheet));
        let player = Golfer::read(&Source::new("lee.toml", &text), &open);
        let player = player.unwrap_or_else(|faults| panic!("{faults}"));
        let mut clubs = player.clubs.into_iter();
        let entry = clubs.find(|entry| entry.club == Club::Iron(6)).unwrap();
        entry.pattern.mean[3]
    };
    let (plain, shifted) = (backspin(0.0, 27.0), backspin(6.0, 27.0));
    assert!(plain - shifted > 500.0, "{plain} and {shifted}");
    assert!((backspin(6.0, 33.0) - plain).abs() < 1e-6);
}
