//! Studies: many players on many courses by many rules, on one machine or on many.
//!
//! A study file lists what is to be crossed ([`Study`]); with the files it names found and hashed it is a [`Plan`], whose
//! cells are numbered in a fixed order. [`run()`] works the cells of a [`StudyPart`] out and keeps each in a journal as soon as
//! it is done, so that a run that was ended at any moment goes on where it was; [`merge()`] puts parts together. The tables
//! are written from the journal, and so are the same bytes however often a run was ended, and on however many machines
//! it ran.
//!
//! ```
//! use costcard::files::Source;
//! use costcard::study::{Plan, Study};
//!
//! let text = "players = ['level:5', 'level:10']\ncourses = ['demo:parkland']\ngoals = [0, 5, 9]";
//! let study = Study::read(&Source::new("squad.toml", text))?;
//! assert_eq!(Plan::new(study, "a build")?.cells(), 2 * 3);
//! # Ok::<(), costcard::files::Faults>(())
//! ```

mod cells;
pub mod columns;
mod file;
mod folder;
mod hash;
mod inputs;
mod journal;
mod merge;
#[cfg(feature = "parquet")]
mod parquet;
mod part;
mod part_columns;
mod plan;
mod read;
mod row;
mod run;
pub mod summary;
mod tables;
mod work;

pub use file::{Combination, CourseEntry, Day, Study};
pub use merge::merge;
pub use part::{PartError, StudyPart};
pub use plan::{Cell, Plan};
pub use run::{Failed, Order, Outcome, Pages, Progress, run};

use std::path::{Path, PathBuf};

use crate::files::Faults;

/// Why a study stopped before its end.
#[derive(Debug, thiserror::Error)]
pub enum StudyError {
    /// The study file is at fault.
    #[error(transparent)]
    File(#[from] Faults),
    /// The folder, or how it is used, is at fault: what is wrong, and what to do.
    #[error("{message}\nhint: {hint}")]
    Folder {
        /// What is wrong.
        message: String,
        /// What to do instead.
        hint: String,
    },
    /// A file cannot be read or written.
    #[error("{message}")]
    Disk {
        /// What failed, and how to go on.
        message: String,
        /// Why.
        #[source]
        source: std::io::Error,
    },
}

impl StudyError {
    fn disk(path: &Path, source: std::io::Error) -> Self {
        let path = path.display();
        let message = match source.kind() {
            std::io::ErrorKind::StorageFull | std::io::ErrorKind::QuotaExceeded => format!(
                "the disk is full: `{path}` cannot be written; what was worked out is kept: make room and start the \
                 same command again"
            ),
            std::io::ErrorKind::ReadOnlyFilesystem | std::io::ErrorKind::PermissionDenied => {
                format!(
                    "`{path}` cannot be written: its folder is read-only; what was worked out is kept: make it writable \
                 and start the same command again"
                )
            }
            _ => format!("`{path}` cannot be read or written"),
        };
        Self::Disk { message, source }
    }

    fn folder(message: String, hint: &str) -> Self {
        Self::Folder {
            message,
            hint: hint.to_owned(),
        }
    }
}

/// Tells programs apart that bear one version: the hash of the program's own file.
///
/// # Errors
/// When it cannot be read.
pub fn build_of(program: &Path) -> Result<String, StudyError> {
    let content = std::fs::read(program).map_err(|error| StudyError::disk(program, error))?;
    Ok(hash::of(&content))
}

/// A file of the folder of a study.
fn within(folder: &Path, name: &str) -> PathBuf {
    folder.join(name)
}
