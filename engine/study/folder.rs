//! The folder of a study: one run at a time, and files written whole or not at all.

use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, BufWriter, Write};
use std::path::{Path, PathBuf};

use super::{StudyError, within};

/// The file that a run locks.
const LOCK: &str = "study.lock";
/// What stands behind the name of a file that is being written.
const UNFINISHED: &str = "unfinished";

/// A folder that no other run has.
#[derive(Debug)]
pub(super) struct Held {
    pub path: PathBuf,
    /// Locked as long as it is open; the system opens it again when the run is killed.
    _lock: File,
}

impl Held {
    /// Makes the folder where it is not there, and holds it.
    pub fn hold(path: &Path) -> Result<Self, StudyError> {
        if path.is_file() {
            return Err(StudyError::folder(
                format!("`{}` is a file", path.display()),
                "name a folder: it is made if it is not there",
            ));
        }
        fs::create_dir_all(path).map_err(|error| StudyError::disk(path, error))?;
        let name = within(path, LOCK);
        let lock = OpenOptions::new()
            .write(true)
            .create(true)
            .truncate(false)
            .open(&name)
            .map_err(|error| StudyError::disk(&name, error))?;
        match lock.try_lock() {
            Ok(()) => Ok(Self {
                path: path.to_owned(),
                _lock: lock,
            }),
            Err(TryLockError::WouldBlock) => Err(StudyError::folder(
                format!("another run is at work in `{}`", path.display()),
                "wait until it is done, or name another folder",
            )),
            Err(TryLockError::Error(error)) => Err(StudyError::disk(&name, error)),
        }
    }

    /// A file of the folder.
    pub fn file(&self, name: &str) -> PathBuf {
        within(&self.path, name)
    }

    /// A file of the folder, to be written whole.
    pub fn whole(&self, name: &str) -> Result<Whole, StudyError> {
        Whole::new(&self.file(name))
    }

    /// A file of the folder with what is in it, to be put in its place.
    pub fn with(&self, name: &str, content: &[u8]) -> Result<Whole, StudyError> {
        let mut whole = self.whole(name)?;
        whole.put(content)?;
        Ok(whole)
    }
}

/// A file that is written under another name and, once it is on the disk, has its own: a run that is killed leaves the
/// old file or the new one. Only one run writes into a folder, so that what a killed run left under the other name is
/// written over.
#[derive(Debug)]
pub(super) struct Whole {
    path: PathBuf,
    /// None once it is finished.
    writer: Option<BufWriter<File>>,
}

impl Whole {
    fn new(path: &Path) -> Result<Self, StudyError> {
        let file = File::create(unfinished(path)).map_err(|error| StudyError::disk(path, error))?;
        Ok(Self {
            path: path.to_owned(),
            writer: Some(BufWriter::with_capacity(1 << 16, file)),
        })
    }

    /// Writes more of it.
    pub fn put(&mut self, content: &[u8]) -> Result<(), StudyError> {
        self.write_all(content).map_err(|error| self.cannot(error))
    }

    /// What went wrong with it.
    pub fn cannot(&self, error: io::Error) -> StudyError {
        StudyError::disk(&self.path, error)
    }

    /// Brings all of it to the disk, under the other name still.
    pub fn settle(&mut self) -> Result<(), StudyError> {
        let Some(writer) = self.writer.as_mut() else {
            return Ok(());
        };
        let settled = writer.flush().and_then(|()| writer.get_ref().sync_all());
        settled.map_err(|error| self.cannot(error))
    }

    /// Puts the file in its place.
    pub fn finish(mut self) -> Result<(), StudyError> {
        self.settle()?;
        self.writer = None;
        let put = fs::rename(unfinished(&self.path), &self.path);
        put.and_then(|()| sync_folder(&self.path)).map_err(|error| {
            self.take_away();
            self.cannot(error)
        })
    }

    fn take_away(&self) {
        // What cannot be taken away is written over by the next run.
        let _ = fs::remove_file(unfinished(&self.path));
    }
}

impl Write for Whole {
    fn write(&mut self, content: &[u8]) -> io::Result<usize> {
        match &mut self.writer {
            Some(writer) => writer.write(content),
            None => Err(io::ErrorKind::BrokenPipe.into()),
        }
    }

    fn flush(&mut self) -> io::Result<()> {
        self.writer.as_mut().map_or(Ok(()), Write::flush)
    }
}

impl Drop for Whole {
    /// A file that was not finished is none.
    fn drop(&mut self) {
        if self.writer.take().is_some() {
            self.take_away();
        }
    }
}

fn unfinished(path: &Path) -> PathBuf {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    path.with_file_name(format!(".{name}.{UNFINISHED}"))
}

/// A new name is on the disk once its folder is.
fn sync_folder(path: &Path) -> io::Result<()> {
    #[cfg(unix)]
    if let Some(folder) = path
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty())
    {
        File::open(folder)?.sync_all()?;
    }
    let _ = path;
    Ok(())
}
