//! `draw`: pictures written to files.

use std::path::Path;

use resvg::tiny_skia::Pixmap;
use serde_json::Value;

use super::{costcard, costcard_in, text, told};

fn written(folder: &Path, words: &[&str]) -> Value {
    std::fs::write(folder.join("short.toml"), super::SHORT).expect("written");
    let output = costcard_in(folder, &[&["draw"], words, &["--json"]].concat());
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    serde_json::from_slice(&output.stdout).expect("JSON")
}

#[test]
fn every_kind_of_picture_is_written_and_told() {
    let folder = tempfile::tempdir().expect("a folder");
    let player = ["--player", "level:10"];
    for (what, words) in [
        ("course", vec!["short.toml"]),
        ("course", [&["short.toml"][..], &player].concat()),
        ("hole", vec!["short.toml", "--hole", "2"]),
        (
            "hole",
            [
                &[
                    "short.toml",
                    "--hole",
                    "2",
                    "--level",
                    "5",
                    "--rounds",
                    "200",
                ][..],
                &player,
            ]
            .concat(),
        ),
        (
            "strokes",
            [
                &["short.toml", "--hole", "2", "--what", "strokes"][..],
                &player,
            ]
            .concat(),
        ),
        ("patterns", vec!["demo:rowan", "--level", "5"]),
        (
            "flight",
            vec![
                "demo:rowan",
                "--what",
                "flight",
                "--club",
                "7 iron",
                "--club",
                "driver",
            ],
        ),
        ("hold", vec!["demo:rowan", "--what", "hold", "--level", "5"]),
        (
            "hold",
            vec!["demo:rowan", "--what", "hold", "--against", "descent"],
        ),
        (
            "hold",
            vec![
                "demo:rowan",
                "--what",
                "hold",
                "--rule",
                "demo:baked-summer-greens.rhai",
            ],
        ),
    ] {
        let told = written(
            folder.path(),
            &[&words[..], &["--out", "x.svg", "--force"]].concat(),
        );
        assert_eq!(told["what"], what);
        assert_eq!(
            (&told["path"], &told["format"]),
            (&Value::from("x.svg"), &Value::from("svg"))
        );
        let svg = std::fs::read_to_string(folder.path().join("x.svg")).expect("a picture");
        let size = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{}\" height=\"{}\"",
            told["width_px"], told["height_px"]
        );
        assert!(svg.starts_with(&size), "{size}");
        assert!(
            told["kinds"]
                .as_array()
                .is_some_and(|kinds| !kinds.is_empty())
        );
    }
}

#[test]
fn the_same_words_give_the_same_bytes_on_any_number_of_threads() {
    let folder = tempfile::tempdir().expect("a folder");
    let hole = [
        "short.toml",
        "--hole",
        "3",
        "--player",
        "level:10",
        "--level",
        "5",
        "--rounds",
        "500",
    ];
    for end in ["svg", "png"] {
        let bytes = ["1", "2"].map(|threads| {
            let name = format!("{threads}.{end}");
            written(
                folder.path(),
                &[&hole[..], &["--threads", threads, "--out", &name]].concat(),
            );
            std::fs::read(folder.path().join(name)).expect("a picture")
        });
        assert!(bytes[0] == bytes[1], "{end}");
    }
}

#[test]
fn a_png_shows_the_picture_and_its_words() {
    let folder = tempfile::tempdir().expect("a folder");
    let told = written(
        folder.path(),
        &["short.toml", "--hole", "2", "--out", "x.PNG"],
    );
    let bytes = std::fs::read(folder.path().join("x.PNG")).expect("a picture");
    let image = Pixmap::decode_png(&bytes).expect("a PNG");
    assert_eq!(
        (told["width_px"].as_u64(), told["height_px"].as_u64()),
        (Some(image.width().into()), Some(image.height().into()))
    );
    let colours: std::collections::HashSet<_> = image
        .pixels()
        .iter()
        .map(|p| (p.red(), p.green(), p.blue()))
        .collect();
    assert!(colours.len() > 100, "{} colours", colours.len());
    // The title stands in the first 40 pixels of the picture, where nothing else is drawn.
    let dark = |p: &&resvg::tiny_skia::PremultipliedColorU8| p.red() < 80 && p.green() < 80;
    let title = image
        .pixels()
        .iter()
        .take(image.width() as usize * 80)
        .filter(dark)
        .count();
    assert!(title > 500, "{title} dark pixels");
}

#[test]
fn a_picture_that_is_there_is_kept_unless_forced() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("x.svg");
    std::fs::write(&path, "mine").expect("written");
    let draw = ["draw", "demo:rowan", "--out", "x.svg"];
    let output = costcard_in(folder.path(), &draw);
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("`x.svg` is there already"));
    assert_eq!(std::fs::read_to_string(&path).expect("read"), "mine");
    let output = costcard_in(folder.path(), &[&draw[..], &["--force"]].concat());
    assert_eq!(output.status.code(), Some(0));
    assert!(
        std::fs::read_to_string(&path)
            .expect("read")
            .starts_with("<svg")
    );
}

#[cfg(unix)]
#[test]
fn a_pipe_is_not_replaced_by_a_file() {
    use std::os::unix::fs::FileTypeExt;
    let folder = tempfile::tempdir().expect("a folder");
    let pipe = folder.path().join("x.svg");
    let made = std::process::Command::new("mkfifo").arg(&pipe).status();
    assert!(made.expect("mkfifo").success());
    let output = costcard_in(
        folder.path(),
        &["draw", "demo:rowan", "--out", "x.svg", "--force"],
    );
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("`x.svg` is a pipe or a device"));
    assert!(
        std::fs::metadata(&pipe)
            .expect("there")
            .file_type()
            .is_fifo()
    );
}

#[test]
fn what_is_read_changes_with_the_units() {
    let folder = tempfile::tempdir().expect("a folder");
    written(
        folder.path(),
        &["short.toml", "--units", "metres", "--out", "x.svg"],
    );
    let svg = std::fs::read_to_string(folder.path().join("x.svg")).expect("read");
    assert!(
        svg.contains("par 4, 352 m") && !svg.contains(" yd"),
        "{svg}"
    );
}

#[test]
fn a_missing_file_and_a_broken_one_are_told_in_the_usual_form() {
    let told_of = |file: &str| told(&["draw", file, "--out", "x.svg"]);
    assert!(told_of("nothing.toml").contains("nothing.toml"));
    assert!(told_of("parkland").contains("did you mean `demo:parkland`?"));
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(
        folder.path().join("c.toml"),
        "name = \"C\"\n[[holes]]\npar = 9\nlength_yd = 300\n",
    )
    .expect("written");
    let output = costcard_in(folder.path(), &["draw", "c.toml", "--out", "x.svg"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        text(&output.stderr).contains("c.toml:3"),
        "{}",
        text(&output.stderr)
    );
    assert!(!folder.path().join("x.svg").exists());
    assert_eq!(costcard(&["draw", "demo:rowan"]).status.code(), Some(2));
}

#[test]
fn a_hole_that_is_no_number_is_told_what_to_write() {
    for words in [
        &["draw", "demo:parkland", "--hole", "five", "--out", "x.svg"][..],
        &["try", "demo:rowan", "demo:parkland", "--hole", "five"],
    ] {
        let output = super::costcard(words);
        assert_eq!(output.status.code(), Some(2));
        let told = super::text(&output.stderr);
        assert!(
            told.contains("write the number of a hole in digits, as 7"),
            "{told}"
        );
    }
}

/// A club nobody measured is told apart without colour, and picked last.
#[test]
fn clubs_that_nobody_measured_are_marked_and_come_last() {
    let folder = tempfile::tempdir().expect("a folder");
    let sheet: String = ["driver,138,12", "7 iron,104,16", "9 iron,92,22"]
        .iter()
        .flat_map(|shot| {
            (0..12).map(move |number| format!("{shot}.{number},0,{},0\n", 3000 + 90 * number))
        })
        .collect();
    let sheet =
        format!("club,ball_speed_mph,launch_deg,direction_deg,backspin_rpm,sidespin_rpm\n{sheet}");
    std::fs::write(folder.path().join("sam.csv"), sheet).expect("written");
    let drawn = |out: &str, more: &[&str]| {
        written(
            folder.path(),
            &[&["sam.csv", "--handicap", "14", "--out", out], more].concat(),
        );
        std::fs::read_to_string(folder.path().join(out)).expect("a picture")
    };
    let patterns = drawn("patterns.svg", &[]);
    assert!(
        patterns.contains("Where shots like those of"),
        "{patterns:.600}"
    );
    assert!(patterns.contains("hollow: not measured, assumed from the handicap"));
    assert!(patterns.contains("data-mark=\"assumed\"") && patterns.contains("not measured, carry"));
    let own = drawn("own.svg", &["--club", "7 iron"]);
    assert!(!own.contains("data-mark=\"assumed\"") && !own.contains("not measured"));
    let hold = drawn("hold.svg", &["--what", "hold"]);
    assert!(hold.contains("7 iron") && hold.contains("9 iron"));
    assert!(
        !hold.contains("not measured"),
        "assumed clubs are drawn beside measured ones"
    );
    let named = drawn("named.svg", &["--what", "hold", "--club", "8 iron"]);
    assert!(named.contains("8 iron, not measured"));
}
