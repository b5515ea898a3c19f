//! `fit` from outside: the player file, the JSON, and a batch in place of a player.

use std::fs;
use std::path::Path;

use serde_json::Value;

use super::{SHORT, costcard_in, text, told_by};

const FIT: [&str; 10] = [
    "fit",
    "demo:bay.csv",
    "--map",
    "demo:bay-map.toml",
    "--player",
    "Sam",
    "--handicap",
    "14.2",
    "--out",
    "sam.toml",
];

/// A sheet of one's own, without a map.
const BAY: [&str; 8] = [
    "fit",
    "bay.csv",
    "--player",
    "Sam",
    "--handicap",
    "14",
    "--out",
    "sam.toml",
];

fn with<'a>(more: &[&'a str]) -> Vec<&'a str> {
    [&FIT[..], more].concat()
}

/// What stands on stdout of a run that must do its work.
fn done(folder: &Path, words: &[&str]) -> String {
    let output = costcard_in(folder, words);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    text(&output.stdout)
}

fn json(folder: &Path, words: &[&str]) -> Value {
    serde_json::from_str(&done(folder, words)).expect("one JSON document")
}

#[test]
fn a_fit_tells_what_it_found_and_writes_the_player() {
    let folder = tempfile::tempdir().expect("a folder");
    insta::assert_snapshot!(done(folder.path(), &FIT), @r#"
    Sam, off 14.2: 78 shots of 2 sessions.

    club            shots  used  mishit   ball  launch   spin  carry   ±  side   ±
                                         (mph)     (°)  (rpm)   (yd)      (yd)
    ──────────────────────────────────────────────────────────────────────────────
    driver             18    18       4    134    12.3   2982    202  24     0  17
    4 iron             12    10       1    114    14.2   4195    162  14   5 R  14
    6 iron             18    18       1    107    15.7   5301    146  16   2 L  10
    8 iron             16    15       5     98    20.8   6997    129  13   1 L  10
    pitching wedge     14    14       2     86    25.2   7947    106  11   2 R   8

    Carry, side and what stands after ± are of normal strikes, mishits left out.

    spread ±        carry, as  reckoned  side, as  reckoned  your
                     hit (yd)      with  hit (yd)      with   own
    ─────────────────────────────────────────────────────────────
    driver               20.3      23.8      13.6      16.9  65 %
    4 iron               11.0      14.1      17.8      13.7  53 %
    6 iron               21.2      15.9       8.6       9.9  67 %
    8 iron               14.6      12.6       8.2       9.8  56 %
    pitching wedge       10.6      11.2       6.5       7.8  60 %

    Reckoned with: your own spread, and for the rest that of golfers off 14.2, with
    the far shots that a few dozen strikes seldom show.

    Left out as misreads (--keep ROW takes one back in):
    row 16, 4 iron: backspin is 0
    row 33, 8 iron: carry 222.4 yd is not what its launch flies: 148.3 yd
    row 55, 4 iron: ball speed 192 mph is more than a club speed of 82 mph gives:
      128 at most

    Assumed from the handicap, at the player's own speed: 3 wood, 5 wood, 4 hybrid,
      7 iron, 9 iron, gap wedge, sand wedge.
    "#);
    let checked = done(folder.path(), &["check", "sam.toml"]);
    assert!(checked.contains("driver 18, 4 iron 10"), "{checked}");
}

#[test]
fn the_json_has_the_keys_that_others_read() {
    let folder = tempfile::tempdir().expect("a folder");
    let fit = json(folder.path(), &with(&["--json"]));
    let clubs = fit["clubs"].as_array().expect("clubs");
    let four_iron = &clubs[1];
    assert_eq!(four_iron["club"], "4 iron");
    assert_eq!(
        (&four_iron["shots"], &four_iron["used"]),
        (&12.into(), &10.into())
    );
    let misreads = four_iron["misreads"].as_array().expect("misreads");
    assert_eq!(
        (&misreads[0]["row"], &misreads[0]["reason"]),
        (&16.into(), &"backspin is 0".into())
    );
    for key in [
        "carry_yd",
        "carry_sd_yd",
        "side_sd_yd",
        "launch_deg",
        "backspin_rpm",
        "ball_speed_mph",
    ] {
        assert!(four_iron[key].is_f64(), "{key}");
    }
    assert!(four_iron["mishits"].is_u64());
    let assumed = fit["assumed_clubs"].as_array().expect("assumed clubs");
    assert!(assumed.contains(&"7 iron".into()), "{assumed:?}");
}

#[test]
fn a_player_that_is_there_is_written_over_only_when_asked() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("sam.toml");
    fs::write(&path, "mine").expect("written");
    insta::assert_snapshot!(told_by(&costcard_in(folder.path(), &FIT)), @r#"
    error: `sam.toml` is there already

    hint: name another file, or write over it with `--force`
    "#);
    assert_eq!(fs::read_to_string(&path).expect("read"), "mine");
    done(folder.path(), &with(&["--force"]));
    assert_ne!(fs::read_to_string(&path).expect("read"), "mine");
    assert_eq!(
        fs::read_dir(folder.path()).expect("a folder").count(),
        1,
        "nothing else is left"
    );
}

#[test]
fn the_next_fit_needs_but_the_player_file_for_its_map() {
    let folder = tempfile::tempdir().expect("a folder");
    let first = json(folder.path(), &with(&["--json"]));
    let mut again = with(&["--json", "--force"]);
    again[3] = "sam.toml";
    assert_eq!(json(folder.path(), &again), first);
}

#[test]
fn a_batch_with_a_handicap_does_for_a_player() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("short.toml"), SHORT).expect("written");
    done(folder.path(), &FIT);
    let batch = [
        "demo:bay.csv",
        "--map",
        "demo:bay-map.toml",
        "--handicap",
        "14.2",
    ];
    for command in [
        &["rank", "short.toml", "--goal", "5", "--rounds", "200"][..],
        &["play", "short.toml", "--rounds", "200"],
        &["clubs"],
    ] {
        let asked = |player: &[&str]| {
            let words = [&command[..1], player, &command[1..], &["--json"]].concat();
            let mut found = json(folder.path(), &words);
            if let Some(fields) = found.as_object_mut() {
                fields.remove("player");
                fields.remove("inputs");
            }
            found
        };
        assert_eq!(asked(&batch), asked(&["sam.toml"]), "{command:?}");
    }
}

/// What `fit` tells of a sheet at fault. No file may be written.
fn told(sheet: &str, more: &[&str]) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("bay.csv"), sheet).expect("written");
    let told = told_by(&costcard_in(folder.path(), &[&BAY[..], more].concat()));
    assert!(!folder.path().join("sam.toml").exists(), "no file");
    told
}

#[test]
fn a_sheet_of_another_layout_without_a_map() {
    insta::assert_snapshot!(told("Holz;Tempo;Winkel\nDriver;140;12\n", &[]), @r#"
    error: no column says which club was hit, nor how fast or how far the ball went; not known: `Holz`, `Tempo` and `Winkel`
     --> bay.csv:1:1
      |
    1 | Holz;Tempo;Winkel
      | ^^^^^^^^^^^^^^^^^
      |
      = hint: a sheet needs `club`, and `ball_speed_mph`, or `carry_yd`, or `club_speed_mph` and `dynamic_loft_deg`; or put this into a file MAP.toml, behind each name the sheet's own header of it, and add `--map MAP.toml`: `columns = { club = "…", ball_speed_mph = "…" }`
    "#);
}

#[test]
fn what_was_passed_over_is_noted_beside_the_fit() {
    let folder = tempfile::tempdir().expect("a folder");
    let sheet = "Shot,club,ball_speed_mph,Launch Angle X\n1,7 iron,104,15.5\n2,7 iron,103,16.5\n3,Putter,9,1\nAverage,7 iron,103.5,16\n";
    fs::write(folder.path().join("bay.csv"), sheet).expect("written");
    let output = costcard_in(folder.path(), &BAY);
    assert_eq!(output.status.code(), Some(0));
    let told = text(&output.stderr);
    let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(
        told,
        "note: bay.csv: row 5 was passed over as averages or totals note: bay.csv: row 4 was passed over as putts \
         note: columns passed over: Shot, Launch Angle X. A figure of the shot by its name: Launch Angle X. If it is, \
         say so in a column map: `columns = { launch_deg = \"Launch Angle X\" }` note: sam.toml is written"
    );
}

#[test]
fn a_unit_that_fits_no_speed() {
    let sheet = "club,ball_speed_mph,launch_deg,direction_deg,backspin_rpm,sidespin_rpm\n,rpm,deg,deg,rpm,rpm\ndriver,140,12,1,2500,100\n";
    insta::assert_snapshot!(told(sheet, &[]), @r#"
    error: `rpm` is no unit of ball speed
     --> bay.csv:2:2
      |
    2 | ,rpm,deg,deg,rpm,rpm
      |  ^^^
      |
      = hint: its units are `mph`, `kmh`, `mps` and `fps`
    "#);
}

#[test]
fn two_columns_of_one_thing() {
    insta::assert_snapshot!(told("club,carry_yd,carry_m,side_yd\ndriver,210,192,3\n", &[]), @r#"
    error: `carry_yd` and `carry_m` are the same quantity
     --> bay.csv:1:15
      |
    1 | club,carry_yd,carry_m,side_yd
      |               ^^^^^^^
      |
      = hint: remove one of the two columns
    "#);
}

#[test]
fn a_club_of_nothing_but_misreads() {
    let row = "driver,0,12,1,2500,100\n";
    let sheet = "club,ball_speed_mph,launch_deg,direction_deg,backspin_rpm,sidespin_rpm\n"
        .to_owned()
        + row
        + row;
    insta::assert_snapshot!(told(&sheet, &[]), @r#"
    error: every shot with the driver is a misread, this one for instance: ball speed is 0
     --> bay.csv:2:1
      |
    2 | driver,0,12,1,2500,100
      | ^^^^^^^^^^^^^^^^^^^^^^
      |
      = hint: see that columns and units are right; leave the club's rows out with `--drop`, or keep sound ones with `--keep`
    "#);
}

#[test]
fn a_sheet_without_a_shot() {
    insta::assert_snapshot!(told("club,carry_yd,side_yd\n", &[]), @r#"
    error: bay.csv: this file has column names but no shots

    hint: each line after the column names is one shot
    "#);
    insta::assert_snapshot!(told("", &[]), @r#"
    error: this file is empty
     --> bay.csv:1:1
      |
    1 |
      | ^
      |
      = hint: its first line names the columns: club,ball_speed_mph,launch_deg,direction_deg,backspin_rpm,sidespin_rpm
    "#);
}

#[test]
fn a_cell_that_is_no_number() {
    insta::assert_snapshot!(told("club,carry_yd,side_yd\ndriver,210,3\ndriver,far,3\n", &[]), @r#"
    error: carry must be a number, not `far`
     --> bay.csv:3:8
      |
    3 | driver,far,3
      |        ^^^
      |
      = hint: write digits, with a `.` before decimals, or leave the cell empty when nothing was measured
    "#);
}

#[test]
fn a_row_to_keep_that_is_none() {
    let sheet = "club,carry_yd,side_yd\ndriver,210,3\ndriver,211,4\n";
    insta::assert_snapshot!(told(sheet, &["--keep", "9"]), @r#"
    error: bay.csv: there is no shot in row 9

    hint: a row is named by its line in the sheet, counted from the first line of the file
    "#);
}

#[test]
fn a_handicap_that_is_none() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut words = FIT.to_vec();
    words[7] = "57";
    insta::assert_snapshot!(told_by(&costcard_in(folder.path(), &words)), @"
    error: `--handicap` is 57, but handicaps reach from -6 (a plus handicap is written negative) to 54

    hint: write a handicap index such as 9 or 5.4
    ");
}

#[test]
fn a_handicap_may_be_written_with_a_comma() {
    let folder = tempfile::tempdir().expect("a folder");
    let point = done(folder.path(), &FIT);
    let mut words = with(&["--force"]);
    words[7] = "14,2";
    assert_eq!(done(folder.path(), &words), point);
}

/// Carries tell nothing of the sides: nobody is given a pull, and what stands there is told to be assumed, on the card too.
#[test]
fn where_balls_go_to_the_sides_is_not_made_up() {
    let folder = tempfile::tempdir().expect("a folder");
    let carries = [
        188.1, 201.3, 195.0, 207.9, 179.4, 199.2, 193.3, 204.8, 190.6, 197.7, 211.0,
    ];
    let rows = carries.map(|carry| format!("driver,{carry}\n7 iron,{}\n", 0.69 * carry));
    let sheet = format!("club,carry_yd\n{}", rows.concat());
    fs::write(folder.path().join("bay.csv"), sheet).expect("written");
    for hand in ["right", "left"] {
        let found = json(
            folder.path(),
            &[&BAY[..], &["--json", "--force", "--hand", hand]].concat(),
        );
        for club in found["clubs"].as_array().expect("clubs") {
            let side = club["side_yd"].as_f64().expect("a side");
            assert!(side.abs() < 1.0, "{hand} {}: {side}", club["club"]);
            assert!(club["hit_side_sd_yd"].is_null());
        }
    }
    let told = done(folder.path(), &[&BAY[..], &["--force"]].concat());
    let folded = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        folded.contains("Where balls go to the sides nothing tells"),
        "{told}"
    );
    fs::write(folder.path().join("short.toml"), SHORT).expect("written");
    let play = ["play", "sam.toml", "short.toml", "--rounds", "50"];
    let noted = text(&costcard_in(folder.path(), &play).stderr);
    let noted = noted.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        noted.contains("nobody measured where balls go to the sides, so that is assumed from the handicap: driver, 7 iron"),
        "{noted}"
    );
}

#[test]
fn garbage_is_told_at_once() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut state = 1_u32;
    let garbage: Vec<u8> = (0..3_000_000)
        .map(|_| {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            (state >> 24) as u8
        })
        .collect();
    fs::write(folder.path().join("bay.csv"), garbage).expect("written");
    let told = told_by(&costcard_in(folder.path(), &BAY));
    assert!(told.contains("bay.csv"), "{told}");
    assert!(told.len() < 4000, "{} bytes told", told.len());
    assert!(!folder.path().join("sam.toml").exists());
}

#[test]
fn a_player_file_needs_no_handicap() {
    let folder = tempfile::tempdir().expect("a folder");
    done(folder.path(), &FIT);
    insta::assert_snapshot!(
        told_by(&costcard_in(folder.path(), &["clubs", "sam.toml", "--handicap", "14.2"])),
        @r#"
    error: `--handicap` goes with a sheet of shots, and `sam.toml` is none

    hint: leave it out: a player file says its own handicap
    "#
    );
}

#[test]
fn a_column_map_that_renames_what_the_sheet_has_by_its_name() {
    let folder = tempfile::tempdir().expect("a folder");
    let map = folder.path().join("map.toml");
    fs::write(&map, "[columns]\ncarry_yd = \"Flug\"\n").expect("written");
    let map = map.display().to_string();
    let sheet = "club,carry_yd,side_yd\ndriver,210,3\n";
    insta::assert_snapshot!(told(sheet, &["--map", &map]), @r#"
    error: no column `Flug`, which the map names for `carry_yd`
     --> bay.csv:1:1
      |
    1 | club,carry_yd,side_yd
      | ^^^^^^^^^^^^^^^^^^^^^
      |
      = hint: the sheet has `carry_yd` itself: take that line out of the map
    "#);
}

/// A side is a measured figure of the flight, with a carry beside it or without.
#[test]
fn a_side_without_a_carry_is_used() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut sheet = "club,ball_speed_mph,launch_deg,backspin_rpm,sidespin_rpm,side_yd\n".to_owned();
    for shot in 0..40 {
        let off = f64::from(shot) / 10.0 - 2.0;
        sheet += &format!(
            "driver,{},{},2900,0,{}\n",
            140.0 + off,
            12.0 - 0.2 * off,
            40.0 + off
        );
    }
    fs::write(folder.path().join("bay.csv"), sheet).expect("written");
    let words = [&BAY[..], &["--json"]].concat();
    let found = json(folder.path(), &words);
    let driver = &found["clubs"][0];
    assert_eq!(driver["derived"], serde_json::json!(["direction_deg"]));
    let side_yd = driver["side_yd"].as_f64().expect("a side");
    // The level draws a little: it counts as one strike, and a ball usually starts within 3° of the line.
    assert!((side_yd - 40.0).abs() < 3.0, "{side_yd}");
    let spread_yd = driver["hit_side_sd_yd"].as_f64().expect("a spread");
    assert!((1.0..3.0).contains(&spread_yd), "{spread_yd}");
}

#[test]
fn a_player_has_a_name() {
    let folder = tempfile::tempdir().expect("a folder");
    let words = [
        "fit",
        "demo:bay.csv",
        "--player",
        "",
        "--handicap",
        "14",
        "--out",
        "sam.toml",
    ];
    let output = costcard_in(folder.path(), &words);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        text(&output.stderr).contains("--player <NAME>"),
        "{}",
        text(&output.stderr)
    );
    assert!(!folder.path().join("sam.toml").exists());
}

#[test]
fn a_player_file_in_place_of_a_sheet_is_told_so() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("me.toml"), "name = \"Me\"\n").expect("written");
    let words: Vec<&str> = ["fit", "me.toml"]
        .into_iter()
        .chain(BAY[2..].iter().copied())
        .collect();
    let output = costcard_in(folder.path(), &words);
    assert_eq!(output.status.code(), Some(2));
    let said = text(&output.stderr);
    assert!(said.contains("this is no sheet of shots"), "{said}");
    assert!(!folder.path().join("sam.toml").exists());
}
