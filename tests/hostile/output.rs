//! Where output goes: a disk that is full, a folder that is read-only, a pipe that is closed, a run that is ended.

use std::fs::{self, File};
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};

use crate::disk::{Disk, fill};
use crate::program::{SHORT, costcard_in, text};

/// A command that writes a file soon after it began.
const DRAW: [&str; 3] = ["draw", "short.toml", "--out"];

fn place() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("short.toml"), SHORT).expect("written");
    folder
}

fn draw(folder: &Path, out: &str, more: &[&str]) -> Output {
    costcard_in(folder, &[&DRAW[..], &[out], more].concat())
}

/// The names in a folder.
fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("a folder");
    let mut names: Vec<String> = entries
        .map(|entry| {
            entry
                .expect("an entry")
                .file_name()
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    names.sort();
    names
}

/// What a run that failed for no fault of the user's tells.
fn failed(output: &Output) -> String {
    let told = text(&output.stderr);
    assert_eq!(output.status.code(), Some(1), "{told}");
    assert!(
        told.starts_with("error: ") && !told.contains("panicked"),
        "{told}"
    );
    told
}

#[test]
fn a_full_disk_is_told_and_leaves_nothing_and_the_old_file_as_it_was() {
    let place = place();
    let Some(disk) = Disk::mounted(place.path(), "size=1m") else {
        return;
    };
    let whole = draw(place.path(), "disk/old.svg", &[]);
    assert!(whole.status.success(), "{}", text(&whole.stderr));
    let old = fs::read(disk.0.join("old.svg")).expect("written");
    fill(&disk.0.join("filler"), 4096);
    for (out, force) in [("disk/new.svg", &[][..]), ("disk/old.svg", &["--force"])] {
        let told = failed(&draw(place.path(), out, force));
        assert!(told.contains(&format!("cannot write `{out}`")), "{told}");
        assert!(told.contains("No space left"), "{told}");
    }
    assert_eq!(names(&disk.0), ["filler", "old.svg"]);
    assert_eq!(fs::read(disk.0.join("old.svg")).expect("there"), old);
}

#[test]
fn a_read_only_folder_is_told() {
    let place = place();
    let Some(disk) = Disk::mounted(place.path(), "size=1m") else {
        return;
    };
    assert!(disk.mount(&["-o", "remount,ro"]), "remounted");
    let told = failed(&draw(place.path(), "disk/new.svg", &[]));
    assert!(told.contains("cannot write `disk/new.svg`"), "{told}");
    assert!(told.contains("Read-only"), "{told}");
}

/// Commands that print, and need not work long for it.
const PRINTING: [&[&str]; 9] = [
    &["--help"],
    &["rank", "--help"],
    &["--version"],
    &["check", "demo:parkland", "--no-rating", "--json"],
    &["check", "--template", "course"],
    &["clubs", "demo:rowan", "--json"],
    &[
        "flight",
        "--ball-speed",
        "127",
        "--launch",
        "14",
        "--backspin",
        "6000",
    ],
    &["handicap", "demo:rowan-scores"],
    &[
        "play",
        "level:20",
        "short.toml",
        "--rounds",
        "100",
        "--json",
    ],
];

fn command(folder: &Path, words: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_costcard"));
    command.args(words).current_dir(folder);
    command
}

/// The same where the tests themselves run in the background, deaf to an interrupt: programs inherit that.
fn interruptible(folder: &Path, words: &[&str]) -> Command {
    let mut command = Command::new("env");
    command.args(["--default-signal=INT", env!("CARGO_BIN_EXE_costcard")]);
    command.args(words).current_dir(folder);
    command
}

#[test]
fn a_closed_pipe_ends_the_program_quietly() {
    let place = place();
    for words in PRINTING {
        let mut run = command(place.path(), words);
        let run = run.stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut run = run.spawn().expect("a program");
        // Whoever listened has had enough before the first word.
        drop(run.stdout.take());
        let output = run.wait_with_output().expect("ended");
        assert_eq!(
            output.status.code(),
            Some(0),
            "{words:?}: {}",
            text(&output.stderr)
        );
        assert_eq!(text(&output.stderr), "", "{words:?}");
    }
}

#[test]
fn faults_that_nobody_hears_end_the_program_as_ever() {
    let place = place();
    for words in [&["play", "nobody.toml", "short.toml"][..], &["play"]] {
        let mut run = command(place.path(), words);
        let run = run.stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut run = run.spawn().expect("a program");
        drop(run.stderr.take());
        assert_eq!(run.wait().expect("ended").code(), Some(2), "{words:?}");
    }
}

#[test]
#[cfg(target_os = "linux")]
fn a_full_disk_behind_the_output_is_told() {
    let place = place();
    for words in &PRINTING[3..] {
        let full = File::options()
            .write(true)
            .open("/dev/full")
            .expect("a device");
        let mut run = command(place.path(), words);
        let output = run.stdout(full).output().expect("it runs");
        let told = failed(&output);
        assert!(told.contains("No space left"), "{words:?}: {told}");
    }
}

/// Ended at any moment, a run leaves the whole file or none, and nothing beside it.
#[test]
#[cfg(target_os = "linux")]
fn ctrl_c_leaves_no_half_file() {
    let place = place();
    let start = Instant::now();
    let whole = draw(place.path(), "whole.svg", &[]);
    let takes = start.elapsed();
    assert!(whole.status.success(), "{}", text(&whole.stderr));
    let whole = fs::read(place.path().join("whole.svg")).expect("written");
    fs::create_dir(place.path().join("out")).expect("a folder");
    let path = place.path().join("out/new.svg");
    let mut random = ChaCha8Rng::seed_from_u64(3);
    let mut ended = 0;
    for _ in 0..25 {
        let mut run = interruptible(
            place.path(),
            &[&DRAW[..], &["out/new.svg", "--force"]].concat(),
        );
        let mut run = run
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("a program");
        sleep(takes.mul_f64(random.random_range(0.2..1.1)));
        let interrupt = ["-INT", &run.id().to_string()];
        Command::new("kill").args(interrupt).output().expect("sent");
        ended += u32::from(!run.wait().expect("ended").success());
        match names(&place.path().join("out"))[..] {
            [] => {}
            [ref only] if only == "new.svg" => assert_eq!(fs::read(&path).expect("there"), whole),
            ref names => panic!("left behind: {names:?}"),
        }
        let _ = fs::remove_file(&path);
    }
    assert!(ended > 0, "no run was ended before it was done");
    assert!(takes < Duration::from_secs(60));
}
