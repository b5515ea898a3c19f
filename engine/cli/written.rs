//! Files that are written whole or not at all.

use std::io::{self, ErrorKind, Write};
use std::path::Path;

use anyhow::Context;
use tempfile::Builder;

use super::usage::Usage;

/// Refuses to go on when a file could not be written, or is there already and may not be written over: told before any
/// work is done.
pub fn check_free(path: &Path, may_overwrite: bool) -> Result<(), Usage> {
    let folder = folder_of(path);
    if path.is_dir() {
        return Err(Usage {
            message: format!("`{}` is a folder", path.display()),
            hint: "name a file in it".to_owned(),
        });
    }
    if !folder.is_dir() {
        return Err(Usage {
            message: format!("there is no folder `{}`", folder.display()),
            hint: "make it first, or name another".to_owned(),
        });
    }
    // Anything else that has a name, a pipe or a device, would be replaced by a file.
    if path.exists() && !path.is_file() {
        return Err(Usage {
            message: format!("`{}` is a pipe or a device, and no file", path.display()),
            hint: "name a file; what is to go into a pipe is printed, where the command can"
                .to_owned(),
        });
    }
    if path.exists() && !may_overwrite {
        return Err(taken(path));
    }
    Ok(())
}

/// Writes a file whole or not at all.
pub fn write(path: &Path, content: impl AsRef<[u8]>, may_overwrite: bool) -> anyhow::Result<()> {
    check_free(path, may_overwrite)?;
    match put(path, content.as_ref(), may_overwrite) {
        Err(error) if error.kind() == ErrorKind::AlreadyExists => Err(taken(path).into()),
        done => done.with_context(|| format!("cannot write `{}`", path.display())),
    }
}

fn folder_of(path: &Path) -> &Path {
    path.parent()
        .filter(|folder| !folder.as_os_str().is_empty())
        .unwrap_or(Path::new("."))
}

/// Puts a file into its folder, so that it is never seen half written, whenever the program is ended.
fn put(path: &Path, content: &[u8], may_overwrite: bool) -> io::Result<()> {
    let folder = folder_of(path);
    #[cfg(target_os = "linux")]
    if let Some(done) = nameless::put(folder, path, content, may_overwrite) {
        return done;
    }
    let mut file = builder().tempfile_in(folder)?;
    file.write_all(content)?;
    file.as_file().sync_all()?;
    let kept = if may_overwrite {
        file.persist(path)
    } else {
        file.persist_noclobber(path)
    };
    kept.map(drop).map_err(|failed| failed.error)
}

/// What makes a file beside the one to be written.
fn builder() -> Builder<'static, 'static> {
    let mut builder = Builder::new();
    builder.prefix(".costcard-");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // As for any new file; the user's mask takes off what it will.
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    builder
}

/// A file that has no name before it is whole: where the program is ended, nothing of it is left.
#[cfg(target_os = "linux")]
mod nameless {
    use std::fs::File;
    use std::io::{self, Write};
    use std::os::fd::AsRawFd;
    use std::path::Path;

    use rustix::fs::{AtFlags, CWD, Mode, OFlags, linkat, open};

    /// Puts a file into its folder; none where the disk knows no files without a name, or they can be given none.
    pub fn put(
        folder: &Path,
        path: &Path,
        content: &[u8],
        may_overwrite: bool,
    ) -> Option<io::Result<()>> {
        let flags = OFlags::TMPFILE | OFlags::WRONLY | OFlags::CLOEXEC;
        let mut file = File::from(open(folder, flags, Mode::from_raw_mode(0o666)).ok()?);
        if let Err(error) = file.write_all(content).and_then(|()| file.sync_all()) {
            return Some(Err(error));
        }
        let named = match name(&file, path) {
            // A name is not given twice: it takes another first, and then the place of the old file.
            Err(error) if may_overwrite && error.kind() == io::ErrorKind::AlreadyExists => {
                let beside = super::builder().make_in(folder, |beside| name(&file, beside));
                beside.and_then(|beside| {
                    beside
                        .persist(path)
                        .map(drop)
                        .map_err(|failed| failed.error)
                })
            }
            named => named,
        };
        // Without the folder of open files there is no way to name one.
        Some(named)
            .filter(|named| !matches!(named, Err(error) if error.kind() == io::ErrorKind::NotFound))
    }

    fn name(file: &File, path: &Path) -> io::Result<()> {
        let own = format!("/proc/self/fd/{}", file.as_raw_fd());
        Ok(linkat(CWD, own, CWD, path, AtFlags::SYMLINK_FOLLOW)?)
    }
}

fn taken(path: &Path) -> Usage {
    Usage {
        message: format!("`{}` is there already", path.display()),
        hint: "name another file, or write over it with `--force`".to_owned(),
    }
}
