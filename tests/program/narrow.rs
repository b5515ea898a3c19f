//! A terminal of 40 columns: nothing runs over the edge, and no figure is lost.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use assert_cmd::Command;

use super::help::{COMMANDS, words};
use super::{SHORT, text};

const COLUMNS: usize = 40;

/// Everything that people read of a course, a player, a shot, a sheet or a file.
const PRINTED: [&str; 19] = [
    "rank demo:rowan short.toml --goal 9 --asked 'tee shots' --rounds 200",
    "rank demo:rowan nine.toml --goal 9 --rounds 200 --rule rough.rhai",
    "goal demo:rowan nine.toml --to 9,5 --rounds 200",
    "try demo:rowan short.toml --change 'mid irons dynamic_loft +4' --change 'putting level 9' --rounds 200",
    "try demo:rowan short.toml --hole 2",
    "play level:5 nine.toml --rounds 200",
    "flight --ball-speed 127 --launch 14.1 --backspin 6231",
    "flight --club '6 iron' --club-speed 92 --attack -4.1 --dynamic-loft 20 --face 1 --units metres",
    "clubs demo:dale --goal 5",
    "fit demo:bay.csv --map demo:bay-map.toml --player Sam --handicap 14.2 --out sam.toml",
    "compare demo:bay.csv demo:bay-after.csv --map demo:bay-map.toml",
    "handicap demo:rowan-scores --course-rating 71.2 --slope-rating 128 --par 72 --allowance 95",
    "check demo:rowan demo:parkland --no-rating",
    "check short.toml",
    "check demo:crowned-greens.rhai",
    "check demo:wet-rough.rhai",
    "check demo:baked-summer-greens.rhai",
    "import demo:three-holes",
    "study few.toml --out few",
];

/// Nine short holes with a rating.
fn nine() -> String {
    let hole = "[[holes]]\npar = 3\nlength_yd = 150\ngreen = { depth_yd = 28, width_yd = 26 }\n";
    let pond = "areas = [{ lie = \"water\", from_yd = 60, to_yd = 110 }]\n";
    let head = "name = \"Nine Holes\"\n[rating]\ncourse_rating = 28.0\nslope_rating = 100\n";
    format!("{head}{}{pond}", hole.repeat(9))
}

/// Labels are the script's, and may be as long as it likes: these have room.
const ROUGH: &str = "fn count(shot) { if shot.lie == \"rough\" { \"from rough\" } }";

const FEW: &str =
    "players = [\"level:5\", \"level:10\"]\ncourses = [\"short.toml\"]\nrounds = 40\n";

fn run(folder: &Path, line: &str, columns: Option<usize>) -> (String, String) {
    let mut command = Command::cargo_bin("costcard").expect("the program");
    command.current_dir(folder).args(words(line));
    match columns {
        Some(columns) => command.env("COLUMNS", columns.to_string()),
        None => command.env_remove("COLUMNS"),
    };
    let output = command.output().expect("it runs");
    let told = text(&output.stderr);
    let code = output.status.code().expect("an end of its own");
    assert!(code == 0 || code == 2, "{line}: {told}");
    (text(&output.stdout), told)
}

fn folder() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let write =
        |name: &str, text: &str| fs::write(folder.path().join(name), text).expect("written");
    write("short.toml", SHORT);
    write("nine.toml", &nine());
    write("few.toml", FEW);
    write("rough.rhai", ROUGH);
    write(
        "wrong.toml",
        "name = \"Wrong\"\nhandicap_index = 72\nsex = \"men\"\n",
    );
    folder
}

/// Lines over the edge that could have been broken: a single long word, as of a path, cannot.
fn over(printed: &str) -> Vec<&str> {
    printed
        .lines()
        .filter(|line| line.chars().count() > COLUMNS && line.trim().contains(' '))
        .collect()
}

/// Every figure that stands in a text.
fn figures(printed: &str) -> BTreeSet<&str> {
    let all = printed.split(|c: char| c.is_whitespace() || ",;:()".contains(c));
    all.filter(|word| word.contains(|c: char| c.is_ascii_digit()))
        .map(|word| word.trim_end_matches('.'))
        .collect()
}

#[test]
fn nothing_that_is_printed_runs_over_the_edge_or_is_lost() {
    let mut wrong = String::new();
    for line in PRINTED {
        let (narrow, told) = run(folder().path(), line, Some(COLUMNS));
        let over: Vec<&str> = over(&narrow).into_iter().chain(over(&told)).collect();
        let (wide, _) = run(folder().path(), line, None);
        let mut lost: Vec<&str> = figures(&wide)
            .difference(&figures(&narrow))
            .copied()
            .collect();
        if MAY_LOSE.iter().any(|start| line.starts_with(start)) {
            lost.clear();
        }
        if !over.is_empty() || !lost.is_empty() {
            wrong += &format!("{line}\n{narrow}{told}\nover: {over:#?}\nlost: {lost:?}\n\n");
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

/// Where what there is room for is told, the most important first: the causes that make a hole hard, strokes over par
/// beside the score.
const MAY_LOSE: [&str; 2] = ["check short.toml", "play "];

#[test]
fn help_keeps_within_the_edge() {
    for command in COMMANDS {
        let (help, _) = run(folder().path(), &format!("{command} --help"), Some(COLUMNS));
        // The usage stands in lines of its own, whatever the width.
        let (before, after) = help.split_once("Usage: ").expect("a usage");
        let (_, after) = after.split_once("\n\n").expect("more than that");
        let over: Vec<&str> = over(before).into_iter().chain(over(after)).collect();
        assert!(over.is_empty(), "{command}\n{}", over.join("\n"));
    }
}

#[test]
fn complaints_keep_within_the_edge() {
    for line in [
        "check wrong.toml",
        "rank demo:rown demo:parkland --goal 9",
        "rank demo:rowan demo:parkland --goal nine",
        "fit demo:bay.csv --player Sam --handicap 14.2 --out sam.toml",
    ] {
        let (_, told) = run(folder().path(), line, Some(COLUMNS));
        assert_ne!(told, "", "{line}");
        // The line at fault stands as it is in the file.
        let quoted = |line: &&str| !line.contains(" | ");
        let over: Vec<&str> = over(&told).into_iter().filter(quoted).collect();
        assert!(over.is_empty(), "{line}\n{}", over.join("\n"));
    }
}
