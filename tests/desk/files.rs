//! Files at the desk: chosen, dropped, added, saved, and kept within the folder.

use std::fs;

use serde_json::Value;

use super::{Desk, ROWAN, shots};
use crate::program::{SHORT, costcard_in};

#[test]
fn the_saved_report_is_the_one_of_the_command() {
    let desk = Desk::open(&ROWAN);
    desk.settled();
    let reply = desk.ask("POST", "/api/report?name=saved.html", b"");
    assert_eq!(reply.status, 200, "{}", reply.text());
    let path = reply.json()["path"].as_str().expect("a path").to_owned();
    let saved = fs::read(&path).expect("written where it says");
    let words = [
        "report",
        "demo:rowan",
        "short.toml",
        "--goal",
        "5",
        "--rounds",
        "200",
        "--out",
        "by-command.html",
    ];
    assert_eq!(costcard_in(desk.path(), &words).status.code(), Some(0));
    let by_command = fs::read(desk.path().join("by-command.html")).expect("written");
    assert!(
        saved == by_command,
        "{} and {} bytes",
        saved.len(),
        by_command.len()
    );

    fs::write(desk.path().join("mine.html"), "mine").expect("written");
    let told = desk
        .ask("POST", "/api/report?name=mine.html", b"")
        .trouble();
    assert!(told.contains("`mine.html` is there already"), "{told}");
    assert_eq!(
        fs::read_to_string(desk.path().join("mine.html")).expect("read"),
        "mine"
    );
    let over = desk.ask("POST", "/api/report?name=mine.html&over=1", b"");
    assert_eq!(over.status, 200);
    assert!(fs::read(desk.path().join("mine.html")).expect("read") == saved);
    for name in [
        "../up.html",
        "%2Ftmp%2Fup.html",
        "sub%2Fup.html",
        ".hidden.html",
        "x.toml",
        "",
        "a%00.html",
        "C%3A%5Cup.html",
    ] {
        let told = desk
            .ask("POST", &format!("/api/report?name={name}&over=1"), b"")
            .trouble();
        assert!(told.contains("no name of a page"), "{name}: {told}");
    }
    assert!(
        !desk
            .path()
            .parent()
            .expect("a parent")
            .join("up.html")
            .exists()
    );
}

#[test]
fn nothing_is_saved_before_the_card_is_there() {
    let desk = Desk::open(&[]);
    let told = desk.ask("POST", "/api/report?name=x.html", b"").trouble();
    assert!(told.contains("not worked out yet"), "{told}");
    assert!(!desk.path().join("x.html").exists());
}

#[test]
fn a_bad_file_is_told_as_on_the_command_line_and_nothing_is_lost() {
    let desk = Desk::open(&ROWAN);
    let before = desk.settled();
    let broken = SHORT.replace("par = 3", "par = 9");
    let sheet = "club,ball_speed_mph,launch_deg\n7 iron,fast,16\n";
    let player = "name = \"Ann\"\nhandicap_index = \"low\"\n";
    let files: [(&str, &[u8], &[&str]); 5] = [
        (
            "broken.toml",
            broken.as_bytes(),
            &["play", "level:10", "broken.toml"],
        ),
        (
            "bad.csv",
            sheet.as_bytes(),
            &[
                "fit",
                "bad.csv",
                "--player",
                "x",
                "--handicap",
                "9",
                "--out",
                "x.toml",
            ],
        ),
        ("ann.toml", player.as_bytes(), &["clubs", "ann.toml"]),
        (
            "latin.toml",
            b"name = \"J\xf6rg\"\nhandicap_index = 3\n",
            &["clubs", "latin.toml"],
        ),
        ("letter.txt", b"Dear coach\n", &["check", "letter.txt"]),
    ];
    for (name, bytes, words) in files {
        fs::write(desk.path().join(name), bytes).expect("written");
        let wanted = desk.told(words);
        let path = format!("/api/drop?as=seat&name={name}&handicap=9");
        assert_eq!(
            desk.ask("POST", &path, bytes).trouble(),
            wanted,
            "{name} dropped"
        );
        let path = format!("/api/choose?as=seat&file={name}&handicap=9");
        assert_eq!(
            desk.ask("POST", &path, b"").trouble(),
            wanted,
            "{name} chosen"
        );
    }
    let shots = desk.ask("POST", "/api/drop?as=shots&name=bad.csv", sheet.as_bytes());
    assert!(shots.trouble().contains("bad.csv:2"));
    let after = desk.state();
    for key in ["player", "course", "goal", "standing", "card_is_new"] {
        assert_eq!(after[key], before[key], "{key}");
    }
    assert_eq!(desk.try_changes(1, "quick", &[]).status, 200);
}

#[test]
fn no_way_leads_out_of_the_folder() {
    let outer = tempfile::tempdir().expect("a folder");
    let secret = outer.path().join("secret.csv");
    fs::write(&secret, "TOP SECRET\n").expect("written");
    fs::write(outer.path().join("secret.rhai"), "TOP SECRET").expect("written");
    let inner = tempfile::tempdir_in(outer.path()).expect("a folder");
    #[cfg(unix)]
    {
        std::os::unix::fs::symlink(&secret, inner.path().join("link.csv")).expect("a link");
        std::os::unix::fs::symlink(outer.path(), inner.path().join("out")).expect("a link");
    }
    let desk = Desk::open_in(inner, &[]);
    let absolute = secret.display().to_string();
    let names = [
        "../secret.csv",
        "link.csv",
        "out/secret.csv",
        "./../secret.csv",
        &absolute,
        "..\\secret.csv",
        "nothing/../../secret.csv",
    ];
    for name in names {
        let encoded: String = name.bytes().map(|byte| format!("%{byte:02x}")).collect();
        for path in [
            format!("/api/choose?as=seat&handicap=9&file={encoded}"),
            format!("/api/choose?as=shots&file={encoded}"),
            format!("/api/drop?as=seat&name=x.csv&handicap=9&map={encoded}"),
        ] {
            let sheet: &[u8] = match path.contains("/drop") {
                true => b"club,launch_deg\n",
                false => b"",
            };
            let told = desk.ask("POST", &path, sheet).trouble();
            assert!(told.contains("not in the folder"), "{name}: {told}");
            assert!(!told.contains("SECRET"), "{told}");
        }
    }
    for sheet in ["../secret.csv", "link.csv", "out/secret.csv", &absolute] {
        let player =
            format!("name = \"X\"\nhandicap_index = 9\nsex = \"men\"\nstrikes = '{sheet}'\n");
        let told = desk
            .ask("POST", "/api/drop?as=seat&name=x.toml", player.as_bytes())
            .trouble();
        assert!(
            told.contains("not in the folder") && !told.contains("SECRET"),
            "{told}"
        );
    }
    for script in ["../secret.rhai", "out/secret.rhai"] {
        let course = format!("rules = ['{script}']\n{SHORT}");
        let told = desk
            .ask("POST", "/api/drop?as=seat&name=x.toml", course.as_bytes())
            .trouble();
        assert!(
            told.contains("not in the folder") && !told.contains("SECRET"),
            "{told}"
        );
    }
    let listed = desk.ask("GET", "/api/files", b"").text();
    assert!(
        !listed.contains("secret") && !listed.contains("link"),
        "{listed}"
    );
    // What a dropped file is called is no path either.
    let told = desk
        .ask(
            "POST",
            "/api/drop?as=seat&name=..%2F..%2Fa.txt",
            b"Dear coach\n",
        )
        .trouble();
    assert!(told.contains("a.txt") && !told.contains(".."), "{told}");
}

#[test]
fn files_of_the_folder_are_listed_by_what_they_are() {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text) in [
        ("short.toml", SHORT),
        (
            "players/ann.toml",
            "name = \"Ann\"\nhandicap_index = 9\nsex = \"women\"\n",
        ),
        ("may.csv", "club,launch_deg\n"),
        ("notes.toml", "title = \"mine\"\n"),
        (".hidden.csv", "club,launch_deg\n"),
    ] {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().expect("a folder")).expect("made");
        fs::write(path, text).expect("written");
    }
    let desk = Desk::open_in(folder, &[]);
    let listed = desk.ask("GET", "/api/files", b"").json();
    let own = |key: &str| -> Vec<String> {
        let names = listed[key].as_array().expect("a list").iter();
        let names = names
            .filter_map(Value::as_str)
            .filter(|name| !name.starts_with("demo:"));
        names.map(str::to_owned).collect()
    };
    assert_eq!(own("courses"), ["short.toml"]);
    assert_eq!(own("players"), ["players/ann.toml"]);
    assert_eq!(own("sheets"), ["may.csv"]);
    for (key, name) in [
        ("players", "demo:rowan"),
        ("courses", "demo:parkland"),
        ("sheets", "demo:bay.csv"),
    ] {
        assert!(
            listed[key]
                .as_array()
                .expect("a list")
                .contains(&name.into()),
            "{name}"
        );
    }
}

#[test]
fn player_and_course_are_chosen_on_the_page() {
    let desk = Desk::open(&[]);
    assert!(desk.state()["player"].is_null());
    assert_eq!(desk.try_changes(1, "quick", &[]).status, 409);
    assert_eq!(
        desk.ask("POST", "/api/choose?as=seat&file=short.toml", b"")
            .status,
        200
    );
    // A sheet asks who hit it, and is fitted as `fit` does it.
    let sheet = shots(12, 0.0) + "7 iron,108,16,0,0,0\n";
    fs::write(desk.path().join("may.csv"), &sheet).expect("written");
    let asked = desk.ask("POST", "/api/drop?as=seat&name=may.csv", sheet.as_bytes());
    assert_eq!(asked.json(), "who");
    assert!(desk.state()["player"].is_null());
    let path = "/api/drop?as=seat&name=may.csv&player=Sam&handicap=14.2&hand=left&sex=men";
    assert_eq!(desk.ask("POST", path, sheet.as_bytes()).json(), "done");
    let state = desk.settled();
    assert_eq!(state["player"]["name"], "Sam");
    assert_eq!(state["player"]["handicap"], 14.2);
    assert_eq!(
        state["goal"], 11.0,
        "three strokes better where none is named"
    );
    let words = [
        "fit",
        "may.csv",
        "--player",
        "Sam",
        "--handicap",
        "14.2",
        "--hand",
        "left",
        "--out",
        "sam.toml",
    ];
    let output = costcard_in(desk.path(), &words);
    let by_fit = crate::program::text(&output.stdout);
    let told = state["html"]["shots"].as_str().expect("told");
    assert!(by_fit.contains("backspin is 0"), "{by_fit}");
    let plain = told
        .replace("&gt;", ">")
        .replace("&lt;", "<")
        .replace("&quot;", "\"")
        .replace("&amp;", "&");
    assert!(plain.contains(by_fit.trim_end()), "{by_fit} in {plain}");
    // Another goal moves the card alone.
    assert_eq!(
        desk.ask("POST", "/api/goal?handicap=scratch", b"").status,
        200
    );
    let after = desk.settled();
    assert_eq!(after["goal"], 0.0);
    assert_eq!(after["standing"], state["standing"]);
    assert!(
        desk.ask("POST", "/api/goal?handicap=ten", b"")
            .trouble()
            .contains("`--goal` must be a handicap index")
    );
}

const ANN: &str = "name = \"Ann\"\nhandicap_index = 9\nsex = \"women\"\nstrikes = \"may.csv\"\n";

/// A desk at which Ann sits, with a dozen shots of May.
fn with_ann() -> Desk {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("short.toml"), SHORT).expect("written");
    fs::write(folder.path().join("may.csv"), shots(12, 0.0)).expect("written");
    fs::write(folder.path().join("ann.toml"), ANN).expect("written");
    Desk::open_in(folder, &["ann.toml", "short.toml"])
}

#[test]
fn shots_just_hit_join_those_that_stand() {
    let desk = with_ann();
    let before = desk.settled();
    let june = shots(12, 9.0);
    assert_eq!(
        desk.ask("POST", "/api/drop?as=shots&name=june.csv", june.as_bytes())
            .status,
        200
    );
    let after = desk.settled();
    assert_eq!(after["player"]["added"], serde_json::json!(["june.csv"]));
    assert_ne!(after["standing"]["number"], before["standing"]["number"]);
    assert_ne!(
        after["standing"]["expected"],
        before["standing"]["expected"]
    );
    let card = after["html"]["card"].as_str().expect("a card");
    assert!(
        card.contains("What the new shots moved") && card.contains("7 iron 24"),
        "{card}"
    );
    assert!(
        !before["html"]["card"]
            .as_str()
            .expect("a card")
            .contains("What the new shots moved")
    );
    // As if they had been in one sheet from the first.
    let all = shots(12, 0.0) + june.split_once('\n').expect("rows").1;
    fs::write(desk.path().join("all.csv"), all).expect("written");
    fs::write(
        desk.path().join("all.toml"),
        ANN.replace("may.csv", "all.csv"),
    )
    .expect("written");
    desk.ask("POST", "/api/choose?as=seat&file=all.toml", b"");
    let joined = desk.settled();
    assert_eq!(
        joined["standing"]["expected"],
        after["standing"]["expected"]
    );
}

/// Tabs share one lesson: what two of them drop at the same time joins the player from both.
#[test]
fn sheets_dropped_at_once_all_join() {
    let desk = with_ann();
    desk.settled();
    let desk = &desk;
    std::thread::scope(|scope| {
        for number in 1..=4 {
            scope.spawn(move || {
                let sheet = shots(12, f64::from(number));
                let path = format!("/api/drop?as=shots&name=s{number}.csv");
                assert_eq!(desk.ask("POST", &path, sheet.as_bytes()).status, 200);
            });
        }
    });
    let after = desk.settled();
    let mut added: Vec<&str> = after["player"]["added"]
        .as_array()
        .expect("a list")
        .iter()
        .filter_map(|name| name.as_str())
        .collect();
    added.sort_unstable();
    assert_eq!(added, ["s1.csv", "s2.csv", "s3.csv", "s4.csv"]);
}
