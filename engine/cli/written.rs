//! Files that are written whole or not at all.

use std::io::Write;
use std::path::Path;

use anyhow::Context;
use tempfile::Builder;

use super::usage::Usage;

/// Refuses to go on when a file is there already and may not be written over: told before any work is done.
pub fn check_free(path: &Path, may_overwrite: bool) -> anyhow::Result<()> {
    if path.is_dir() {
        let message = format!("`{}` is a folder", path.display());
        return Err(Usage {
            message,
            hint: "name a file in it".to_owned(),
        }
        .into());
    }
    if path.exists() && !may_overwrite {
        return Err(taken(path).into());
    }
    Ok(())
}

/// Writes a file by way of another beside it, so that it is never seen half written.
pub fn write(path: &Path, content: impl AsRef<[u8]>, may_overwrite: bool) -> anyhow::Result<()> {
    let folder = path
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty())
        .unwrap_or(Path::new("."));
    if !folder.is_dir() {
        let message = format!("there is no folder `{}`", folder.display());
        return Err(Usage {
            message,
            hint: "make it first, or name another".to_owned(),
        }
        .into());
    }
    let cannot = || format!("cannot write `{}`", path.display());
    let mut builder = Builder::new();
    builder.prefix(".costcard-");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // As for any new file; the user's mask takes off what it will.
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    let mut file = builder.tempfile_in(folder).with_context(cannot)?;
    file.write_all(content.as_ref()).with_context(cannot)?;
    file.as_file().sync_all().with_context(cannot)?;
    if may_overwrite {
        file.persist(path)
            .map_err(|failed| failed.error)
            .with_context(cannot)?;
        return Ok(());
    }
    match file.persist_noclobber(path) {
        Ok(_) => Ok(()),
        Err(failed) if failed.error.kind() == std::io::ErrorKind::AlreadyExists => {
            Err(taken(path).into())
        }
        Err(failed) => Err(failed.error).with_context(cannot),
    }
}

fn taken(path: &Path) -> Usage {
    Usage {
        message: format!("`{}` is there already", path.display()),
        hint: "name another file, or write over it with `--force`".to_owned(),
    }
}
