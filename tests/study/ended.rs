//! Runs that are ended, two at once, and journals that were damaged.

use std::thread::sleep;
use std::time::{Duration, Instant};

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};

use super::{Place, SMALL, assert_same, told};

/// Killed at twenty random moments, each time started again: the folder is that of a run that was let alone.
#[test]
fn a_run_killed_at_any_moment_goes_on_where_it_was() {
    let place = Place::with(SMALL);
    let start = Instant::now();
    let whole = place.study("whole");
    let takes = start.elapsed();
    let mut random = ChaCha8Rng::seed_from_u64(11);
    for folder in ["first", "second", "third", "fourth"] {
        for _ in 0..5 {
            let mut run = place
                .command(&["study", "study.toml", "--out", folder])
                .stderr(std::process::Stdio::null())
                .stdout(std::process::Stdio::null())
                .spawn()
                .expect("a program");
            sleep(takes.mul_f64(random.random_range(0.0..0.7)));
            run.kill().expect("killed");
            run.wait().expect("ended");
        }
        assert_same(&place.study(folder), &whole);
        // Started once more, it has nothing to do, and changes nothing.
        let again = place.run(&["study", "study.toml", "--out", folder]);
        assert!(
            told(&again).contains("8 of 8 cells are there already"),
            "{}",
            told(&again)
        );
        assert_same(&place.files(folder), &whole);
    }
}

#[test]
fn any_number_of_threads_gives_the_same_bytes() {
    let place = Place::with(SMALL);
    let whole = place.study("whole");
    let one = place.run(&["study", "study.toml", "--out", "one", "--threads", "1"]);
    assert!(one.status.success(), "{}", told(&one));
    assert_same(&place.files("one"), &whole);
}

#[test]
fn the_second_of_two_runs_says_so_and_stops() {
    let long = SMALL.replace("rounds = 40", "rounds = 100000000");
    let place = Place::with(&long);
    let mut first = place
        .command(&["study", "study.toml", "--out", "out"])
        .stderr(std::process::Stdio::null())
        .spawn()
        .expect("a program");
    let start = Instant::now();
    while !place.path().join("out/study.journal").exists() {
        assert!(start.elapsed() < Duration::from_secs(60), "it never began");
        sleep(Duration::from_millis(20));
    }
    let second = place.run(&["study", "study.toml", "--out", "out"]);
    assert_eq!(second.status.code(), Some(2));
    assert!(
        told(&second).contains("another run is at work in `out`"),
        "{}",
        told(&second)
    );
    first.kill().expect("killed");
    first.wait().expect("ended");
}

/// A line whose checksum is wrong is worked out again, and it is said.
#[test]
fn a_damaged_line_is_worked_out_again() {
    let place = Place::with(SMALL);
    let whole = place.study("out");
    let journal = place.path().join("out/study.journal");
    let text = std::fs::read_to_string(&journal).expect("a journal");
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    lines[4] = lines[4].replacen("\"level:", "\"levil:", 1);
    std::fs::write(&journal, lines.join("\n") + "\n").expect("written");
    let again = place.run(&["study", "study.toml", "--out", "out"]);
    assert!(again.status.success());
    assert!(
        told(&again).contains("1 line of the journal was damaged"),
        "{}",
        told(&again)
    );
    assert!(
        told(&again).contains("7 of 8 cells are there already"),
        "{}",
        told(&again)
    );
    assert_same(&place.files("out"), &whole);
}

/// A changed player is worked out anew, and nobody else; a player who is added too.
#[test]
fn only_what_changed_is_worked_out_again() {
    let place = Place::with("players = ['*.player']\ncourses = ['hole.toml']\nrounds = 40\n");
    let player = |name: &str, handicap: u32| {
        place.write(
            &format!("{name}.player"),
            &format!("name = '{name}'\nhandicap_index = {handicap}\nsex = 'men'\n"),
        );
    };
    player("b", 9);
    player("c", 15);
    place.study("out");
    player("c", 16);
    player("a", 3);
    let again = place.run(&["study", "study.toml", "--out", "out"]);
    assert!(
        told(&again).contains("1 of 3 cells are there already"),
        "{}",
        told(&again)
    );
    let rows = place.rows("out/cells.csv");
    let handicaps: Vec<&str> = rows.iter().map(|row| row["handicap"].as_str()).collect();
    assert_eq!(handicaps, ["3", "9", "16"]);
    assert_same(&place.files("out"), &place.study("fresh"));
}

/// A run that ends after the study file was changed leaves a journal that says it is of the changed study, though what it
/// holds is of the one before, and that is not taken for finished.
#[test]
fn a_journal_says_which_study_was_begun_last() {
    let place = Place::with("name = 'Before'\nplayers = ['level:5']\ncourses = ['far.toml']\n");
    let run = || place.run(&["study", "study.toml", "--out", "out"]);
    run();
    let head = || {
        let journal = place.path().join("out/study.journal");
        let text = std::fs::read_to_string(journal).expect("text");
        text.lines().next().expect("a line").to_owned()
    };
    assert!(head().contains("\"name\":\"Before\""), "{}", head());
    let changed = "name = 'After'\nplayers = ['level:5', 'level:9']\ncourses = ['far.toml']\n";
    place.write("study.toml", changed);
    // A table that cannot be written ends the run once its cells are worked out.
    let blocked = place.path().join("out/.cells.csv.unfinished");
    std::fs::create_dir(&blocked).expect("made");
    let output = run();
    assert_eq!(output.status.code(), Some(1), "{}", told(&output));
    assert!(head().contains("\"name\":\"After\""), "{}", head());
    let merged = place.run(&["study", "--merge", "out", "--out", "merged"]);
    assert!(
        told(&merged).contains("`out` is not finished"),
        "{}",
        told(&merged)
    );
    std::fs::remove_dir(&blocked).expect("taken away");
    let again = run();
    assert!(
        told(&again).contains("2 of 2 cells are there already"),
        "{}",
        told(&again)
    );
    place.run(&["study", "study.toml", "--out", "fresh"]);
    assert_same(&place.files("out"), &place.files("fresh"));
}

/// A study typed with the folder of another one wipes nothing out, be it of the same name; the same file, edited, goes on
/// in its folder.
#[test]
fn the_folder_of_another_study_is_left_as_it_is() {
    let place =
        Place::with("name = 'Squad'\nplayers = ['level:5', 'level:9']\ncourses = ['far.toml']\n");
    let run = |study: &str| place.run(&["study", study, "--out", "out"]);
    run("study.toml");
    let before = place.files("out");
    for name in ["", "name = 'Squad'\n"] {
        place.write(
            "other.toml",
            &format!("{name}players = ['level:12']\ncourses = ['far.toml']\n"),
        );
        place.run(&["study", "other.toml", "--out", "of-other"]);
        let merge = ["study", "--merge", "of-other", "--out", "out"];
        for refused in [run("other.toml"), place.run(&merge)] {
            assert_eq!(refused.status.code(), Some(2), "{}", told(&refused));
            assert!(
                told(&refused).contains(
                    "`out` holds 2 cells of the study \"Squad\", and none that this one asks for"
                ),
                "{}",
                told(&refused)
            );
        }
        assert_same(&before, &place.files("out"));
        std::fs::remove_dir_all(place.path().join("of-other")).expect("taken away");
    }
    let edited = "name = 'Squad'\nplayers = ['level:12']\ncourses = ['far.toml']\n";
    place.write("study.toml", edited);
    let gone_on = run("study.toml");
    assert!(
        !told(&gone_on).contains("none that this one asks for"),
        "{}",
        told(&gone_on)
    );
}

/// Files edited under a run would leave figures under the hashes of what stood in them before.
#[test]
fn a_file_that_changes_while_the_study_runs_is_told() {
    let place = Place::with(
        "players = ['ann.player']\ncourses = ['hole.toml', 'again.toml', 'more.toml']\nrounds = 3000000\n",
    );
    place.write("again.toml", super::HOLE);
    place.write("more.toml", super::HOLE);
    let player =
        |handicap: u32| format!("name = 'Ann'\nhandicap_index = {handicap}\nsex = 'men'\n");
    place.write("ann.player", &player(9));
    let run = place
        .command(&["study", "study.toml", "--out", "out"])
        .stdout(std::process::Stdio::null())
        .stderr(std::process::Stdio::piped())
        .spawn()
        .expect("a program");
    let journal = place.path().join("out/study.journal");
    let start = Instant::now();
    let lines = || std::fs::read_to_string(&journal).map_or(0, |text| text.lines().count());
    while lines() < 2 {
        assert!(start.elapsed() < Duration::from_secs(60), "it never began");
        sleep(Duration::from_millis(5));
    }
    place.write("ann.player", &player(20));
    let output = run.wait_with_output().expect("ended");
    assert_eq!(output.status.code(), Some(2), "{}", told(&output));
    assert!(
        told(&output).contains(
            "`ann.player`, or a file it names, was changed while the study was worked out"
        ),
        "{}",
        told(&output)
    );
    // What was worked out before is kept, and nothing else.
    assert_eq!(lines(), 2);
}

/// Without its first line nothing but their keys says whose cells these are.
#[test]
fn a_journal_whose_first_line_was_damaged_keeps_its_cells() {
    let place = Place::with(SMALL);
    let whole = place.study("out");
    let journal = place.path().join("out/study.journal");
    let mut bytes = std::fs::read(&journal).expect("a journal");
    bytes[3] ^= 1;
    std::fs::write(&journal, &bytes).expect("written");
    let again = place.run(&["study", "study.toml", "--out", "out"]);
    for said in [
        "1 line of the journal was damaged",
        "8 of 8 cells are there already",
    ] {
        assert!(told(&again).contains(said), "{}", told(&again));
    }
    assert_same(&place.files("out"), &whole);
}

#[test]
fn a_file_that_is_no_journal_is_left_as_it_is() {
    let place = Place::with(SMALL);
    std::fs::create_dir(place.path().join("out")).expect("a folder");
    place.write("out/study.journal", "my own notes\nof a study\n");
    let run = place.run(&["study", "study.toml", "--out", "out"]);
    assert_eq!(run.status.code(), Some(2));
    assert!(
        told(&run).contains("study.journal` is no journal of a study"),
        "{}",
        told(&run)
    );
    let kept = std::fs::read_to_string(place.path().join("out/study.journal"));
    assert_eq!(kept.expect("kept"), "my own notes\nof a study\n");
}

/// What a file names counts in its hash, however the file is written.
#[test]
fn a_sheet_named_by_a_player_in_utf_16_counts() {
    let place = Place::with("players = ['ann.toml']\ncourses = ['hole.toml']\nrounds = 40\n");
    let player =
        "name = 'Ann'\nhandicap_index = 9\nsex = 'men'\nstrikes = 'ann.csv'\n".encode_utf16();
    let bytes: Vec<u8> = std::iter::once(0xfeff)
        .chain(player)
        .flat_map(u16::to_le_bytes)
        .collect();
    std::fs::write(place.path().join("ann.toml"), bytes).expect("written");
    let sheet = |mph: u32| {
        let row = |shot: u32| format!("7 iron,{},{},6000\n", mph + shot % 5, 17 + shot % 3);
        let rows: String = (0..12).map(row).collect();
        format!("club,ball_speed_mph,launch_deg,backspin_rpm\n{rows}")
    };
    place.write("ann.csv", &sheet(105));
    place.study("out");
    place.write("ann.csv", &sheet(115));
    let again = place.run(&["study", "study.toml", "--out", "out"]);
    assert!(
        again.status.success() && !told(&again).contains("there already"),
        "{}",
        told(&again)
    );
}
