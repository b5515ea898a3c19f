//! What people read.

use std::io::Read;
use std::process::{Command, Stdio};

use super::{FLIGHT, stdout};

#[test]
fn a_flight_reads_in_yards_and_in_metres() {
    let yards = stdout(&FLIGHT);
    let metres = stdout(&[&FLIGHT[..], &["--units", "metres"]].concat());
    let carry = |text: &str| -> (f64, String) {
        let line = text
            .lines()
            .find(|line| line.starts_with("Carry"))
            .expect("a carry");
        let words: Vec<&str> = line.split_whitespace().collect();
        (words[1].parse().expect("a number"), words[2].to_owned())
    };
    let ((yd, yd_unit), (m, m_unit)) = (carry(&yards), carry(&metres));
    assert_eq!((yd_unit.as_str(), m_unit.as_str()), ("yd", "m"));
    assert!((yd * 0.9144 - m).abs() < 0.1, "{yd} yd, {m} m");
    assert!(
        metres.contains("m/s") && !metres.contains("yd") && !metres.contains("mph"),
        "{metres}"
    );
}

/// Where the shots are better than the goal, and than the handicap, no part nobody measured is named for a lesson.
#[test]
fn a_handicap_that_explains_nothing_is_to_be_checked_first() {
    let line = "rank demo:rowan.csv demo:parkland --handicap 36 --goal 28 --rounds 2000";
    let words: Vec<&str> = line.split(' ').collect();
    let read = stdout(&words);
    let read = read.split_whitespace().collect::<Vec<&str>>().join(" ");
    assert!(
        read.contains("no part is named before the two fit. Check the handicap"),
        "{read}"
    );
    assert!(!read.contains("If the handicap is right"), "{read}");
    let card: serde_json::Value =
        serde_json::from_str(&stdout(&[&words[..], &["--json"]].concat())).expect("JSON");
    assert_eq!(card["start"], "check the handicap");
    assert!(card["work_on"].is_null() && card["measure"].is_null());
}

#[test]
fn hole_lengths_of_rounds_read_in_metres() {
    let line = ["play", "level:scratch", "short.toml", "--rounds", "50"];
    let length_of_first = |text: &str| -> f64 {
        let mut rows = text.lines().skip_while(|line| !line.starts_with('─'));
        let first = rows.nth(1).expect("a hole");
        first
            .split_whitespace()
            .nth(2)
            .expect("a length")
            .parse()
            .expect("a number")
    };
    let yards = length_of_first(&stdout(&line));
    let metres = length_of_first(&stdout(&[&line[..], &["--units", "metres"]].concat()));
    assert!(
        (yards * 0.9144 - metres).abs() < 1.0,
        "{yards} yd, {metres} m"
    );
}

#[test]
fn a_card_answers_what_the_player_came_for() {
    let card = stdout(&[
        "rank",
        "demo:rowan",
        "short.toml",
        "--goal",
        "5",
        "--asked",
        "tee shots",
        "--rounds",
        "200",
    ]);
    assert!(
        card.starts_with("Rowan Pike, off 12, at Three Holes. Goal: 5.\n"),
        "{card}"
    );
    assert!(card.contains("\nWork on "), "{card}");
    assert!(card.contains("\nYou came for tee shots: "), "{card}");
    for line in card.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
}

#[test]
fn checked_files_say_what_they_are() {
    let files = ["demo:rowan", "demo:parkland", "demo:heathland"];
    let told = stdout(&[&["check", "--no-rating"], &files[..]].concat());
    let lines: Vec<&str> = told.lines().filter(|line| !line.starts_with(' ')).collect();
    assert_eq!(lines.len(), 3, "{told}");
    assert!(
        lines[0].starts_with("demo:rowan: player Rowan Pike, off 12; strikes: driver 18, "),
        "{told}"
    );
    assert!(
        lines[1].starts_with("demo:parkland: course Pebblewick Park, 18 holes, par "),
        "{told}"
    );
}

#[test]
fn the_files_of_the_project_are_sound() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/profiles");
    let file = |name: &str| format!("{folder}/{name}");
    let files = [
        file("players/dale.toml"),
        file("courses/heathland.toml"),
        file("levels/women-tour.toml"),
        file("shots/mika.csv"),
        file("scores/rowan-scores.csv"),
        file("shots/bay-map.toml"),
    ];
    let words: Vec<&str> = ["check", "--no-rating"]
        .into_iter()
        .chain(files.iter().map(String::as_str))
        .collect();
    let told = stdout(&words)
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    for (file, kind) in files.iter().zip([
        "player",
        "course",
        "level",
        "strikes",
        "scores",
        "column map of club, ",
    ]) {
        assert!(told.contains(&format!("{file}: {kind}")), "{told}");
    }
}

#[test]
fn a_reader_who_has_seen_enough_is_no_fault() {
    let mut program = Command::new(env!("CARGO_BIN_EXE_costcard"))
        .args(["check", "demo:rowan", "--json"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("it runs");
    // The pipe is closed before anything is written to it.
    drop(program.stdout.take());
    let mut told = String::new();
    let mut stderr = program.stderr.take().expect("stderr");
    stderr.read_to_string(&mut told).expect("text");
    assert_eq!(program.wait().expect("it ends").code(), Some(0), "{told}");
    assert_eq!(told, "");
}

#[test]
fn clubs_say_aloud_what_stands_out() {
    let folder = tempfile::tempdir().expect("a folder");
    // The 6 iron has the flight of a longer club, and its neighbours are its usual ones.
    let player = r#"
name = "Lee"
handicap_index = 4.0
sex = "men"
loft_shift_deg = 5.0
[[clubs]]
club = "5 iron"
ball_speed_mph = 114.5
[[clubs]]
club = "6 iron"
ball_speed_mph = 116.5
launch_deg = 11.0
backspin_rpm = 4000
[[clubs]]
club = "8 iron"
ball_speed_mph = 95
delivery = { attack_deg = -6.0, path_deg = 2.0, face_deg = 1.0, dynamic_loft_deg = 33.0, club_speed_mph = 76 }
"#;
    std::fs::write(folder.path().join("lee.toml"), player).expect("written");
    let output = super::costcard_in(folder.path(), &["clubs", "lee.toml"]);
    let told = super::text(&output.stdout).replace("\n  ", " ");
    for said in [
        "The clubs of Lee, beside golfers off 4.",
        "Your 5 iron and your 6 iron carry the same distance.",
        "Your 6 iron comes to the ball with",
        "less loft than usual",
        "it is delivered like a 4 iron.",
        "The longest club that holds a medium green, as every shorter one does, is your",
    ] {
        assert!(told.contains(said), "{said}: {told}");
    }
    let eight = told
        .lines()
        .filter(|line| line.starts_with("8 iron"))
        .nth(2)
        .expect("its delivery");
    let figures: Vec<&str> = eight.split_whitespace().skip(2).collect();
    assert_eq!(figures[..4], ["-6.0", "-1.0", "39.0", "33.0"], "{eight}");
}

#[test]
fn a_club_stands_for_the_part_the_player_came_for() {
    for (asked, part) in [
        ("driver", "tee shots"),
        ("7 iron", "mid irons"),
        ("Chipping", "short game"),
    ] {
        let words = [
            "rank",
            "demo:rowan",
            "short.toml",
            "--goal",
            "5",
            "--rounds",
            "50",
            "--assume",
            "level",
        ];
        let page = stdout(&[&words[..], &["--asked", asked]].concat());
        assert!(
            page.contains(&format!("You came for {part}:")),
            "{asked}: {page}"
        );
    }
}

#[test]
fn clubs_print_the_spin_the_ball_leaves_the_club_with() {
    let document = stdout(&["clubs", "demo:rowan", "--json"]);
    let document: serde_json::Value = serde_json::from_str(&document).expect("one document");
    let landing = document["clubs"][0]["landing_spin_rpm"].as_f64();
    let page = stdout(&["clubs", "demo:rowan"]);
    let driver = page
        .lines()
        .find(|line| line.starts_with("driver"))
        .expect("a row");
    let spin = driver.split_whitespace().last().map(str::parse::<f64>);
    let spin = spin.expect("a figure").expect("a number");
    // A drive loses a fifth of its spin on the way.
    assert!(Some(0.9 * spin) > landing, "{driver}: {landing:?}");
    let own = crate::support::demo_player("rowan").clubs[0].pattern.mean[3];
    assert_eq!(format!("{spin:.0}"), format!("{own:.0}"));
}
