//! A disk that is full, and a folder that is read-only: told, and gone on from. They need the rights to mount; without
//! them the tests say that they were skipped.

use super::{Place, SMALL, assert_same, told};
use crate::disk::{Disk, fill};

const STUDY: [&str; 4] = ["study", "study.toml", "--out", "disk/out"];

#[test]
fn a_full_disk_is_told_and_gone_on_from() {
    let place = Place::with(SMALL);
    let whole = place.study("whole");
    let Some(disk) = Disk::mounted(place.path(), "size=1m") else {
        return;
    };
    // Room for a few cells of the journal, and not for the tables.
    let filler = disk.0.join("filler");
    let mut stopped = 0;
    for room in [0, 8, 16, 40] {
        fill(&filler, room * 1024);
        let output = place.run(&STUDY);
        if output.status.success() {
            continue;
        }
        stopped += 1;
        assert_eq!(output.status.code(), Some(1), "{}", told(&output));
        assert!(
            told(&output).contains("the disk is full"),
            "{}",
            told(&output)
        );
        assert!(!disk.0.join("out/cells.csv").exists());
    }
    assert!(stopped >= 2, "the disk was never full");
    std::fs::remove_file(&filler).expect("removed");
    let output = place.run(&STUDY);
    assert!(output.status.success(), "{}", told(&output));
    assert_same(&place.files("disk/out"), &whole);
}

#[test]
fn a_read_only_folder_is_told_and_gone_on_from() {
    let place = Place::with(SMALL);
    let whole = place.study("whole");
    let Some(disk) = Disk::mounted(place.path(), "size=4m") else {
        return;
    };
    // Half of the work is there when the folder turns.
    std::fs::create_dir(disk.0.join("out")).expect("a folder");
    let journal = std::fs::read_to_string(place.path().join("whole/study.journal")).expect("read");
    let half: String = journal.split_inclusive('\n').take(5).collect();
    std::fs::write(disk.0.join("out/study.journal"), half).expect("written");
    assert!(disk.mount(&["-o", "remount,ro"]), "remounted");
    let output = place.run(&STUDY);
    assert_eq!(output.status.code(), Some(1), "{}", told(&output));
    assert!(told(&output).contains("read-only"), "{}", told(&output));
    assert!(disk.mount(&["-o", "remount,rw"]), "remounted");
    let output = place.run(&STUDY);
    assert!(output.status.success(), "{}", told(&output));
    assert!(
        told(&output).contains("4 of 8 cells are there already"),
        "{}",
        told(&output)
    );
    assert_same(&place.files("disk/out"), &whole);
}
