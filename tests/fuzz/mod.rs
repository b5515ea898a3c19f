//! What the fuzzers begin with and what they found, read in the ordinary tests too, so that neither rots.

pub mod readers;

use std::fs;
use std::path::{Path, PathBuf};

use readers::READERS;

fn here() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz")
}

/// The seeds of a reader, by name.
fn seeds(reader: &str) -> Vec<(String, Vec<u8>)> {
    let folder = here().join("seeds").join(reader);
    let entries = fs::read_dir(&folder).unwrap_or_else(|error| panic!("{folder:?}: {error}"));
    let read = |path: PathBuf| {
        let bytes = fs::read(&path).unwrap_or_else(|error| panic!("{path:?}: {error}"));
        (path.display().to_string(), bytes)
    };
    entries.flatten().map(|entry| read(entry.path())).collect()
}

/// What a fuzzer found stands among the seeds under such a name, and need not be sound.
fn is_finding(name: &str) -> bool {
    Path::new(name)
        .file_name()
        .is_some_and(|name| name.to_string_lossy().starts_with("found-"))
}

#[test]
fn every_seed_is_read_and_every_finding_is_read_or_told_of() {
    for (reader, drive) in READERS {
        let seeds = seeds(reader);
        assert!(!seeds.is_empty(), "{reader} has no seeds");
        for (name, bytes) in seeds {
            let was_read = drive(&bytes);
            assert!(was_read || is_finding(&name), "{name} is no good seed");
        }
    }
}

/// A seed cut off anywhere, and one with a byte turned anywhere: the least that a fuzzer tries.
#[test]
fn seeds_that_are_cut_off_or_turned_are_read_or_told_of() {
    for (reader, drive) in READERS {
        for (_, bytes) in seeds(reader) {
            let step = (bytes.len() / 12).max(1);
            for at in (0..bytes.len()).step_by(step) {
                drive(&bytes[..at]);
                let mut turned = bytes.clone();
                turned[at] ^= 0x15;
                drive(&turned);
            }
        }
    }
}

#[test]
fn every_reader_has_a_target() {
    let manifest = fs::read_to_string(here().join("Cargo.toml")).unwrap_or_default();
    for (reader, _) in READERS {
        let target = format!("fuzz_targets/{reader}.rs");
        let text = fs::read_to_string(here().join(&target)).unwrap_or_default();
        assert!(
            text.contains(&format!("costcard_fuzz::{reader}(bytes)")),
            "{target}"
        );
        assert!(
            manifest.contains(&format!("path = \"{target}\"")),
            "{target}"
        );
    }
}
