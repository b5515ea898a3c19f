//! The program from outside: what is typed, what comes back.

#![allow(clippy::expect_used)] // a test may stop

mod changes;
mod compare;
mod course;
mod draw;
mod faults;
mod fit;
mod goal;
mod handicap;
mod help;
mod json;
mod keys;
mod narrow;
mod own;
mod people;
mod readme;
pub mod report;
mod rules;

use std::path::Path;
use std::process::Output;

use assert_cmd::Command;

/// A course of three holes, so that a test is quick.
pub const SHORT: &str = r#"
name = "Three Holes"
[[holes]]
par = 3
length_yd = 165
green = { depth_yd = 28, width_yd = 24, firmness = "firm" }
[[holes]]
par = 4
length_yd = 385
green = { depth_yd = 30, width_yd = 24 }
areas = [{ lie = "sand", at_green_yd = -4, side_yd = 18, length_yd = 12, width_yd = 9 }]
[[holes]]
par = 5
length_yd = 505
green = { depth_yd = 30, width_yd = 24 }
areas = [{ lie = "out of bounds", side_from_yd = 45 }]
"#;

/// A tour professional's 6 iron, as it is typed.
pub const FLIGHT: [&str; 7] = [
    "flight",
    "--ball-speed",
    "127",
    "--launch",
    "14.1",
    "--backspin",
    "6231",
];

/// The program with these words after it, in a folder that holds nothing but `short.toml`.
pub fn costcard(words: &[&str]) -> Output {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("short.toml"), SHORT).expect("written");
    costcard_in(folder.path(), words)
}

/// The program in a folder.
pub fn costcard_in(folder: &Path, words: &[&str]) -> Output {
    Command::cargo_bin("costcard")
        .expect("the program")
        .current_dir(folder)
        // As wide as where nothing is said.
        .env_remove("COLUMNS")
        .args(words)
        .output()
        .expect("it runs")
}

/// What stands on stdout of a run that must do its work.
pub fn stdout(words: &[&str]) -> String {
    let output = costcard(words);
    let told = text(&output.stderr);
    assert_eq!(output.status.code(), Some(0), "{words:?}: {told}");
    text(&output.stdout)
}

/// What a run that must fail on the user's input tells on stderr; nothing may stand on stdout.
pub fn told(words: &[&str]) -> String {
    told_by(&costcard(words))
}

/// What a failed run tells.
pub fn told_by(output: &Output) -> String {
    assert_eq!(text(&output.stdout), "", "nothing on stdout");
    assert_eq!(output.status.code(), Some(2), "{}", text(&output.stderr));
    text(&output.stderr)
}

/// Bytes as text.
pub fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).expect("UTF-8")
}
