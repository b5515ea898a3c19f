//! Studies from outside: what they give, what becomes of a run that is ended, parts on many machines.

#![allow(clippy::expect_used)] // a test may stop

mod cells;
mod disk;
mod ended;
mod faults;
mod kubernetes;
#[cfg(feature = "parquet")]
mod parquet_tables;
mod parts;
mod speed;

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// A course of one short hole, so that a cell takes a moment.
const HOLE: &str = r#"
name = "One Hole"
[[holes]]
par = 3
length_yd = 140
green = { depth_yd = 28, width_yd = 26 }
"#;

/// A study of a few cells.
const SMALL: &str = r#"
name = "Small"
players = ["level:5", "level:10", "level:20:women", "level:scratch"]
courses = ["hole.toml"]
conditions = [{ name = "soft", firmness = "soft" }, { name = "firm", firmness = "firm" }]
goals = [5]
rounds = 40
"#;

/// A folder with the course and a study in it.
struct Place(tempfile::TempDir);

impl Place {
    fn with(study: &str) -> Self {
        let place = Self(tempfile::tempdir().expect("a folder"));
        place.write("hole.toml", HOLE);
        place.write("study.toml", study);
        place
    }

    fn path(&self) -> &Path {
        self.0.path()
    }

    fn write(&self, name: &str, text: &str) {
        fs::write(self.path().join(name), text).expect("written");
    }

    fn command(&self, words: &[&str]) -> Command {
        let mut command = Command::new(assert_cmd::cargo::cargo_bin("costcard"));
        command.current_dir(self.path()).args(words);
        for name in [
            "SLURM_ARRAY_TASK_ID",
            "JOB_COMPLETION_INDEX",
            "COSTCARD_PARTS",
        ] {
            command.env_remove(name);
        }
        command
    }

    fn run(&self, words: &[&str]) -> Output {
        self.command(words).output().expect("a program")
    }

    /// Works the study out into a folder, as it should go.
    fn study(&self, out: &str) -> BTreeMap<String, Vec<u8>> {
        let output = self.run(&["study", "study.toml", "--out", out]);
        assert_eq!(output.status.code(), Some(0), "{}", told(&output));
        self.files(out)
    }

    /// Every file of a folder with what is in it.
    fn files(&self, folder: &str) -> BTreeMap<String, Vec<u8>> {
        let entries = fs::read_dir(self.path().join(folder)).expect("a folder");
        let file = |path: PathBuf| {
            let name = path.file_name().expect("a name").to_string_lossy();
            (name.into_owned(), fs::read(&path).expect("a file"))
        };
        entries
            .map(|entry| file(entry.expect("an entry").path()))
            .collect()
    }

    /// The rows of a table, each by the names of its columns.
    fn rows(&self, table: &str) -> Vec<BTreeMap<String, String>> {
        let mut reader = csv::Reader::from_path(self.path().join(table)).expect("a table");
        let heads = reader.headers().expect("heads").clone();
        let row = |row: csv::StringRecord| {
            let pairs = heads.iter().zip(row.iter());
            pairs
                .map(|(head, text)| (head.to_owned(), text.to_owned()))
                .collect()
        };
        reader
            .records()
            .map(|one| row(one.expect("a row")))
            .collect()
    }
}

/// What a run told on stderr, on one line.
fn told(output: &Output) -> String {
    let text = String::from_utf8_lossy(&output.stderr);
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// That two folders hold the same bytes; the difference is named by file.
fn assert_same(one: &BTreeMap<String, Vec<u8>>, other: &BTreeMap<String, Vec<u8>>) {
    let names = |files: &BTreeMap<String, Vec<u8>>| files.keys().cloned().collect::<Vec<_>>();
    assert_eq!(names(one), names(other));
    for (name, bytes) in one {
        assert!(other[name] == *bytes, "{name} differs");
    }
}
