//! The folder the desk was started in: what the page may read, list and write, and nothing beyond it.

use std::fs::{self, File};
use std::io::Read;
use std::path::{Component, Path, PathBuf};

use serde::Serialize;

use costcard::files::{Faults, Source};

use super::told::whole;
use crate::cli::kind::Kind;

/// The longest file read, bytes: as long as one that may be dropped.
pub const LONGEST_BYTES: u64 = 16 * 1024 * 1024;
/// Files looked at for the list, and folders below one another.
const MOST_SEEN: usize = 4000;
const MOST_LISTED: usize = 400;
const DEEPEST: usize = 4;
/// So much of a file tells what it is.
const HEAD_BYTES: u64 = 64 * 1024;

/// The folder.
#[derive(Debug)]
pub struct Folder {
    root: PathBuf,
}

/// A file the page can choose.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Listed {
    /// Its path from the folder.
    pub name: String,
    /// `player`, `course`, `strikes` or `map`.
    pub kind: String,
}

impl Folder {
    /// The folder the program was started in.
    pub fn here() -> anyhow::Result<Self> {
        let root = std::env::current_dir()?.canonicalize()?;
        Ok(Self { root })
    }

    /// A folder by its path.
    #[cfg(test)]
    fn at(path: &Path) -> std::io::Result<Self> {
        Ok(Self {
            root: path.canonicalize()?,
        })
    }

    /// Where it is, as people read it.
    pub fn path(&self) -> &Path {
        &self.root
    }

    /// The bytes of a file in the folder; `name` is its path from there, as the page sends it.
    pub fn read(&self, name: &str) -> Result<Vec<u8>, Faults> {
        let plain = Path::new(name)
            .components()
            .all(|part| matches!(part, Component::Normal(_)));
        if !plain || name.is_empty() || name.contains(['\0', '\\', ':']) {
            return Err(outside(name));
        }
        self.read_from(&self.root.join(name), name)
    }

    /// A file that another file names, which may go up and down but not out of the folder; `from` is the folder of that
    /// file.
    pub fn open(&self, from: &Path, name: &str) -> Result<Source, Faults> {
        let bytes = self.read_from(&self.root.join(from).join(name), name)?;
        Source::of_bytes(name, bytes)
    }

    /// Whether a path leads to a file in the folder, links followed, or to nothing at all in it.
    pub fn holds(&self, path: &Path) -> bool {
        let path = self.root.join(path);
        let real = path.canonicalize().or_else(|_| match path.parent() {
            Some(parent) => parent.canonicalize(),
            None => Err(std::io::ErrorKind::NotFound.into()),
        });
        real.is_ok_and(|real| real.starts_with(&self.root))
    }

    fn read_from(&self, path: &Path, name: &str) -> Result<Vec<u8>, Faults> {
        if !self.holds(path) {
            return Err(outside(name));
        }
        // Read by its real path, so that a link cannot be turned elsewhere in between.
        let real = path.canonicalize().map_err(|_| missing(name))?;
        if !real.is_file() {
            return Err(whole(name, "this is no file", "choose a file"));
        }
        let mut bytes = Vec::new();
        File::open(&real)
            .and_then(|file| file.take(LONGEST_BYTES + 1).read_to_end(&mut bytes))
            .map_err(|error| {
                let message = format!("this file cannot be read: {error}");
                whole(name, &message, "see who may read it")
            })?;
        if bytes.len() as u64 > LONGEST_BYTES {
            return Err(too_long(name));
        }
        Ok(bytes)
    }

    /// Players, courses and sheets of strikes in the folder and below it, by name.
    pub fn list(&self) -> Vec<Listed> {
        let (mut found, mut seen) = (Vec::new(), 0);
        self.list_in(Path::new(""), 0, &mut seen, &mut found);
        found.sort_by(|a, b| a.name.cmp(&b.name));
        found.truncate(MOST_LISTED);
        found
    }

    fn list_in(&self, below: &Path, depth: usize, seen: &mut usize, found: &mut Vec<Listed>) {
        let Ok(entries) = fs::read_dir(self.root.join(below)) else {
            return;
        };
        let names = entries.filter_map(|entry| entry.ok()?.file_name().into_string().ok());
        let mut names: Vec<String> = names.filter(|name| !name.starts_with('.')).collect();
        names.sort_unstable();
        for name in names {
            *seen += 1;
            if *seen > MOST_SEEN {
                return;
            }
            let path = below.join(name);
            let full = self.root.join(&path);
            if full.is_dir() {
                // A link to a folder could lead round in a circle.
                if depth < DEEPEST && !full.is_symlink() {
                    self.list_in(&path, depth + 1, seen, found);
                }
            } else if let Some(listed) = self.listed(&path) {
                found.push(listed);
            }
        }
    }

    /// A file for the list; none where it is nothing the page reads.
    fn listed(&self, path: &Path) -> Option<Listed> {
        let end = path.extension()?.to_str()?.to_lowercase();
        if !matches!(end.as_str(), "toml" | "csv") || !self.holds(path) {
            return None;
        }
        let mut head = Vec::new();
        // A pipe would be waited for without end.
        let real = self.root.join(path).canonicalize().ok()?;
        let file = real.is_file().then(|| File::open(&real))?.ok()?;
        file.take(HEAD_BYTES).read_to_end(&mut head).ok()?;
        let name = path.to_str()?.replace('\\', "/");
        let source = Source::new(&name, &String::from_utf8_lossy(&head));
        let kind = match Kind::of(&source)? {
            Kind::ColumnMap => "map".to_owned(),
            kind @ (Kind::Player | Kind::Course | Kind::Strikes) => kind.to_string(),
            Kind::Scores | Kind::Script | Kind::Study | Kind::Pins => return None,
        };
        let known = kind != "player" || source.text.contains("handicap_index");
        known.then_some(Listed { name, kind })
    }
}

fn outside(name: &str) -> Faults {
    whole(
        name,
        "this is not in the folder the desk was started in",
        "drop the file on the page, or start the desk in a folder that holds it",
    )
}

fn missing(name: &str) -> Faults {
    whole(name, "there is no such file", "choose one from the list")
}

/// The fault of a file that is too long for the page.
pub fn too_long(name: &str) -> Faults {
    let message = format!(
        "this file is larger than {} MB",
        LONGEST_BYTES / 1024 / 1024
    );
    whole(
        name,
        &message,
        "make a player file of it with `costcard fit`, and choose that",
    )
}

#[cfg(test)]
#[allow(clippy::unwrap_used)] // a test may stop
mod tests {
    use super::*;

    #[test]
    fn nothing_beyond_the_folder_is_read() {
        let outer = tempfile::tempdir().unwrap();
        let root = outer.path().join("in");
        fs::create_dir_all(root.join("sub")).unwrap();
        fs::write(outer.path().join("secret.toml"), "secret").unwrap();
        fs::write(root.join("sub/mine.toml"), "mine").unwrap();
        #[cfg(unix)]
        std::os::unix::fs::symlink(outer.path(), root.join("out")).unwrap();
        let folder = Folder::at(&root).unwrap();
        assert_eq!(folder.read("sub/mine.toml").unwrap(), b"mine");
        let absolute = outer.path().join("secret.toml").display().to_string();
        for name in [
            "../secret.toml",
            "sub/../../secret.toml",
            "sub/../sub/mine.toml",
            "out/secret.toml",
            "out/nothing.toml",
            "./../secret.toml",
            &absolute,
            "C:\\secret.toml",
            "a\0b",
            "",
        ] {
            let told = folder.read(name).unwrap_err().to_string();
            assert!(told.contains("not in the folder"), "{name}: {told}");
        }
        let told = folder.read("nothing.toml").unwrap_err().to_string();
        assert!(told.contains("there is no such file"), "{told}");
        // A file may name another above it, as long as that is in the folder.
        assert!(folder.open(Path::new("sub"), "../sub/mine.toml").is_ok());
        assert!(folder.open(Path::new("sub"), "../../secret.toml").is_err());
        assert!(folder.open(Path::new(""), "out/secret.toml").is_err());
        assert!(folder.list().is_empty(), "neither is a player");
    }
}
