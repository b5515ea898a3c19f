//! A small disk that can be full or read-only. Mounting one needs rights that not everybody has.

#![allow(clippy::expect_used)] // a test may stop

use std::fs::File;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::Command;

/// A small disk in memory, taken off again in the end.
pub struct Disk(pub PathBuf);

impl Disk {
    /// One in a folder of its own, `disk`; none where no disk may be mounted, which is said.
    pub fn mounted(folder: &Path, options: &str) -> Option<Self> {
        let path = folder.join("disk");
        std::fs::create_dir(&path).expect("a folder");
        let disk = Self(path);
        let is_mounted = disk.mount(&["-t", "tmpfs", "-o", options, "tmpfs"]);
        if !is_mounted {
            eprintln!("skipped: no disk may be mounted here");
        }
        is_mounted.then_some(disk)
    }

    /// Mounts it, or mounts it otherwise; whether that may be done.
    pub fn mount(&self, words: &[&str]) -> bool {
        let mount = Command::new("mount").args(words).arg(&self.0).output();
        mount.is_ok_and(|output| output.status.success())
    }
}

impl Drop for Disk {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg(&self.0).status();
    }
}

/// Fills the disk but for so many bytes.
pub fn fill(filler: &Path, room: u64) {
    let mut file = File::create(filler).expect("a file");
    while file.write_all(&[0; 4096]).is_ok() {}
    let length = file.metadata().expect("a length").len();
    file.set_len(length - room).expect("shortened");
}
