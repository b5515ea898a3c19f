//! The player file a fit writes: it reads back to the same player, whatever the layout of the sheet.

use std::path::Path;

use costcard::files::Source;
use costcard::player::batch::{ColumnMap, Input, Overrule, RowName};
use costcard::player::bay::{FittedPlayer, Who};
use costcard::player::embedded;
use costcard::player::written::player_file;
use costcard::player::{Golfer, Sex};

fn who(left_handed: bool) -> Who {
    Who {
        name: "Ann \"Ace\" Player".to_owned(),
        handicap: 14.2,
        sex: Sex::Women,
        left_handed,
    }
}

fn fit(text: &str, map: &ColumnMap) -> FittedPlayer {
    let sheet = vec![Input::Text(Source::new("bay.csv", text))];
    FittedPlayer::fit(who(false), sheet, map.clone(), &Overrule::default()).unwrap()
}

fn demo_map() -> ColumnMap {
    ColumnMap::read(&embedded::sheet("bay-map.toml").unwrap()).unwrap()
}

fn read_back(text: &str) -> Golfer {
    Golfer::read(&Source::new("ann.toml", text), &|_| {
        panic!("no sheet is named")
    })
    .unwrap()
}

fn assert_same(written: &Golfer, fitted: &Golfer) {
    // What was left out stands in the file and needs telling no more.
    let fitted = Golfer {
        notes: Vec::new(),
        ..fitted.clone()
    };
    assert_eq!(written, &fitted);
}

#[test]
fn a_written_player_reads_back_to_the_same_player() {
    let sheet = embedded::sheet("bay.csv").unwrap();
    for left_handed in [false, true] {
        let input = vec![Input::Text(sheet.clone())];
        let player =
            FittedPlayer::fit(who(left_handed), input, demo_map(), &Overrule::default()).unwrap();
        let text = player_file(&player);
        assert_same(&read_back(&text), &player.golfer);
        let map = ColumnMap::read(&Source::new("ann.toml", &text)).unwrap();
        assert_eq!(map, demo_map(), "the map for the next fit");
        for told in [
            "{ name = \"03.05.2026\", date = \"03.05.2026\", shots = 39 }",
            "row = 16, club = \"4 iron\", reason = \"backspin is 0\"",
        ] {
            assert!(text.contains(told), "{told}\n{text}");
        }
    }
}

#[test]
fn what_was_derived_is_marked_and_reads_back_with_its_uncertainty() {
    let mut text = "club,carry_yd,side_yd\n".to_owned();
    for shot in 0..15 {
        text += &format!("7 iron,{},{}\n", 140 + (shot * 7) % 13, (shot * 5) % 17 - 8);
    }
    let player = fit(&text, &ColumnMap::default());
    let club = &player.fitted.clubs[0];
    assert_eq!(club.derived.len(), 5);
    assert!(
        (club.flown.carry_yd - 146.0).abs() < 2.0,
        "{:?}",
        club.flown
    );
    let file = player_file(&player);
    assert!(
        file.contains("figures = [\"carry_yd\", \"side_yd\"]"),
        "{file}"
    );
    let back = read_back(&file);
    assert_same(&back, &player.golfer);
    let evidence = back.clubs.iter().find_map(|club| club.evidence.clone());
    let open = evidence.unwrap().open.unwrap();
    assert!(open.sd[1] > 0.2 && open.sd[3] > 200.0, "{open:?}");
}

/// The demo players' shots, one list of cells a row, the header first.
fn rowan() -> Vec<Vec<String>> {
    let text = embedded::sheet("rowan.csv").unwrap().text;
    let cells = |line: &str| line.split(',').map(str::to_owned).collect();
    text.lines().map(cells).collect()
}

fn joined(rows: &[Vec<String>], separator: &str) -> String {
    rows.iter().map(|row| row.join(separator) + "\n").collect()
}

#[test]
fn order_unit_and_locale_change_nothing() {
    let rows = rowan();
    let plain = player_file(&fit(&joined(&rows, ","), &ColumnMap::default()));
    let backwards: Vec<Vec<String>> = rows
        .iter()
        .map(|row| row.iter().rev().cloned().collect())
        .collect();
    let metric: Vec<Vec<String>> = rows.iter().map(|row| abroad(row)).collect();
    let semicolons = joined(&metric, ";");
    for (what, text) in [
        ("columns backwards", joined(&backwards, "\t")),
        ("km/h, decimal commas, sides by letter", semicolons.clone()),
        (
            "a mark and other line ends",
            format!("\u{feff}{}", semicolons.replace('\n', "\r\n")),
        ),
        ("quotes", joined(&rows, ",").replace("driver", "\"driver\"")),
    ] {
        assert_eq!(
            player_file(&fit(&text, &ColumnMap::default())),
            plain,
            "{what}"
        );
    }
}

/// What is drawn for a shot that lacks figures hangs on the shot, not on the row it stands in.
#[test]
fn rows_may_stand_in_any_order() {
    let rows = rowan();
    let [club, speed, launch] = ["club", "ball_speed_mph", "launch_deg"]
        .map(|name| rows[0].iter().position(|one| one == name).unwrap());
    let partly: Vec<String> = rows
        .iter()
        .map(|row| format!("{},{},{}\n", row[club], row[speed], row[launch]))
        .collect();
    let file = |rows: &[&String]| {
        let text: String = rows.iter().map(|row| row.as_str()).collect();
        let file = player_file(&fit(&format!("{}{text}", partly[0]), &ColumnMap::default()));
        // But for the rows that are named in it.
        let kept = file
            .lines()
            .filter(|line| !line.contains("row = "))
            .map(str::to_owned);
        kept.collect::<Vec<String>>()
    };
    let plain: Vec<&String> = partly[1..].iter().collect();
    let backwards: Vec<&String> = plain.iter().rev().copied().collect();
    let mut dealt: Vec<&String> = plain.iter().step_by(2).copied().collect();
    dealt.extend(plain.iter().skip(1).step_by(2));
    assert_eq!(file(&backwards), file(&plain));
    assert_eq!(file(&dealt), file(&plain));
}

/// A device that tells no sides says nothing of them, however short its balls carry.
#[test]
fn a_short_carry_is_no_curve() {
    let sheet = |share: f64| {
        let rows: String = (0..20)
            .map(|shot: i32| {
                let (speed, launch) = (112 + (shot * 7) % 9, 17 + (shot * 5) % 4);
                format!(
                    "7 iron,{speed},{launch},{:.1}\n",
                    share * (155.0 + f64::from((shot * 7) % 9))
                )
            })
            .collect();
        fit(
            &format!("club,ball_speed_mph,launch_deg,carry_yd\n{rows}"),
            &ColumnMap::default(),
        )
    };
    let spread = |player: &FittedPlayer| player.fitted.clubs[0].flown.side_sd_yd;
    let [full, short] = [1.0, 0.95].map(|share| spread(&sheet(share)));
    assert!((short / full - 1.0).abs() < 0.12, "{full} {short}");
}

#[test]
fn the_file_says_how_many_shots_stand_behind_it() {
    let rows: String = (0..1000)
        .map(|shot| format!("7 iron,{},{}\n", 140 + (shot * 7) % 13, (shot * 5) % 17 - 8))
        .collect();
    let player = fit(
        &format!("club,carry_yd,side_yd\n{rows}driver,200,1\n"),
        &ColumnMap::default(),
    );
    let file = player_file(&player);
    assert!(
        file.starts_with("# Fitted by costcard to 200 of 1001 measured shots."),
        "{file}"
    );
}

/// A row as it is written abroad.
fn abroad(row: &[String]) -> Vec<String> {
    let Ok(mph) = row[2].parse::<f64>() else {
        return row
            .iter()
            .map(|cell| cell.replace("ball_speed_mph", "ball_speed_kmh"))
            .collect();
    };
    let mut row = row.to_vec();
    row[2] = format!("{:.7}", mph * 1.609_344);
    for side in [4, 6] {
        row[side] = match row[side].strip_prefix('-') {
            Some(left) => format!("{left} L"),
            None => format!("{} R", row[side]),
        };
    }
    row.iter().map(|cell| cell.replace('.', ",")).collect()
}

#[test]
fn sixteen_bits_a_character_and_another_table_of_characters_change_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let text = joined(&rowan(), ",").replace("driver", "Läufer");
    let map = ColumnMap::read(&Source::new(
        "map.toml",
        "clubs = { \"Läufer\" = \"driver\" }",
    ))
    .unwrap();
    let latin = "encoding = \"windows-1252\"\nclubs = { \"Läufer\" = \"driver\" }";
    let latin = ColumnMap::read(&Source::new("map.toml", latin)).unwrap();
    let wide: Vec<u8> = std::iter::once(0xfeff)
        .chain(text.encode_utf16())
        .flat_map(u16::to_le_bytes)
        .collect();
    let narrow: Vec<u8> = text
        .chars()
        .map(|c| u8::try_from(u32::from(c)).unwrap())
        .collect();
    let read = |name: &str, bytes: &[u8], map: &ColumnMap| {
        let path = folder.path().join(name);
        std::fs::write(&path, bytes).unwrap();
        let sheet = vec![Input::Path(path)];
        FittedPlayer::fit(who(false), sheet, map.clone(), &Overrule::default())
            .unwrap()
            .golfer
    };
    let plain = read("plain.csv", text.as_bytes(), &map);
    assert_eq!(read("wide.csv", &wide, &map), plain);
    assert_eq!(read("narrow.csv", &narrow, &latin), plain);
}

#[test]
fn a_left_hander_measured_in_a_mirror_is_the_same_left_hander() {
    let rows = rowan();
    let turned = |row: &Vec<String>| {
        let mut row = row.clone();
        for side in [4, 6] {
            if let Ok(value) = row[side].parse::<f64>() {
                row[side] = format!("{}", -value);
            }
        }
        row
    };
    let mirrored: Vec<Vec<String>> = rows.iter().map(turned).collect();
    let map = ColumnMap::read(&Source::new("map.toml", "figures = \"mirrored\"")).unwrap();
    let fit = |rows: &[Vec<String>], map: &ColumnMap| {
        let sheet = vec![Input::Text(Source::new("bay.csv", &joined(rows, ",")))];
        FittedPlayer::fit(who(true), sheet, map.clone(), &Overrule::default())
            .unwrap()
            .golfer
    };
    assert_eq!(fit(&mirrored, &map), fit(&rows, &ColumnMap::default()));
}

#[test]
fn rows_are_kept_and_dropped_as_the_user_says() {
    let row = |text: &str| text.parse::<RowName>().unwrap();
    let overrule = Overrule {
        keep: vec![row("33")],
        drop: vec![row("bay.csv:3")],
    };
    let sheet = vec![Input::Text(Source::new(
        "exports/bay.csv",
        &embedded::sheet("bay.csv").unwrap().text,
    ))];
    let player = FittedPlayer::fit(who(false), sheet, demo_map(), &overrule).unwrap();
    let left_out = player.fitted.left_out(&player.batch);
    let rows: Vec<usize> = left_out.iter().map(|shot| shot.row).collect();
    assert_eq!(rows, [3, 16, 55]);
    assert_eq!(left_out[0].reason, "left out as you asked");
}

#[test]
fn a_club_hit_once_comes_from_the_level_and_says_so() {
    let mut text = joined(&rowan(), ",");
    text += "3 wood,139,140.1,12.0,0.3,3500,100\n";
    let player = fit(&text, &ColumnMap::default());
    let told =
        "one strike with the 3 wood says too little: its pattern is assumed from the handicap";
    assert_eq!(player.golfer.notes, [told]);
    assert_same(&read_back(&player_file(&player)), &player.golfer);
}

#[test]
fn a_folder_is_no_sheet() {
    let sheet = vec![Input::Path(
        Path::new(env!("CARGO_MANIFEST_DIR")).to_owned(),
    )];
    let fault = FittedPlayer::fit(
        who(false),
        sheet,
        ColumnMap::default(),
        &Overrule::default(),
    );
    assert!(
        fault
            .unwrap_err()
            .to_string()
            .contains("this is a folder, not a file")
    );
}
