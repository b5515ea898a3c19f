//! Parts of a study put together: the bytes of a single run.

use std::collections::{BTreeMap, HashMap};
use std::path::{Path, PathBuf};

use super::StudyError;
use super::columns;
use super::folder::Held;
use super::journal::{Head, Reader, Record, head, is_finished, refuse_foreign};
use super::run::Outcome;
use super::tables::{Pages, Tables};
use crate::files::joined;

/// What to do where cells are in no part, or in two.
const AGAIN: &str = "start the parts again with the same study file, and merge them then";

/// Missing parts that are told by number.
const MOST_NAMED: usize = 12;

/// Puts the parts in some folders together into another.
///
/// # Errors
/// When the folders are not all parts of one study, each finished and there once; when an input was another on one
/// machine than on another; when the folder to merge into holds another study; when a file cannot be read or written.
pub fn merge(parts: &[PathBuf], folder: &Path, pages: Pages<'_>) -> Result<Outcome, StudyError> {
    let heads: Vec<Head> = parts
        .iter()
        .map(|part| head(part))
        .collect::<Result<_, _>>()?;
    let whole = checked(parts, &heads)?;
    if parts.iter().any(|part| same(part, folder)) {
        return Err(StudyError::folder(
            format!("`{}` is one of the parts", folder.display()),
            "name another folder to merge into",
        ));
    }
    let held = Held::hold(folder)?;
    refuse_foreign(&held, &whole)?;
    let mut tables = Tables::begin(&held, &whole)?;
    let mut known = Known::default();
    let mut cells = Cells::of(parts)?;
    for number in 0..whole.cells {
        let (record, part) = cells.take(number)?;
        known.check(&record, &parts[part])?;
        tables.put(&record)?;
    }
    cells.end()?;
    let summary = tables.finish(pages)?;
    Ok(Outcome {
        kept: summary.cells,
        summary,
    })
}

/// The cells of all parts, read side by side.
struct Cells<'a> {
    parts: &'a [PathBuf],
    readers: Vec<Reader>,
    /// The next cell of each part, by its number and that of the part.
    next: BTreeMap<(u64, usize), Record>,
}

impl<'a> Cells<'a> {
    fn of(parts: &'a [PathBuf]) -> Result<Self, StudyError> {
        let readers = parts.iter().map(|part| Reader::open(part));
        let mut cells = Self {
            parts,
            readers: readers.collect::<Result<_, _>>()?,
            next: BTreeMap::new(),
        };
        (0..parts.len()).try_for_each(|part| cells.read(part))?;
        Ok(cells)
    }

    /// Reads the next cell of a part, where it has one more.
    fn read(&mut self, part: usize) -> Result<(), StudyError> {
        if let Some(record) = self.readers[part].next()? {
            self.next.insert((record.cell, part), record);
        }
        Ok(())
    }

    /// The cell of a number, and which part it is of.
    fn take(&mut self, number: u64) -> Result<(Record, usize), StudyError> {
        let first = self
            .next
            .first_entry()
            .filter(|first| first.key().0 <= number);
        let Some(first) = first else {
            return Err(StudyError::folder(
                format!("cell {} is in none of these folders", number + 1),
                AGAIN,
            ));
        };
        let (cell, part) = *first.key();
        if cell < number {
            return Err(self.held_twice(part));
        }
        let record = first.remove();
        self.read(part)?;
        Ok((record, part))
    }

    /// That no part holds more.
    fn end(&self) -> Result<(), StudyError> {
        let more = self.next.keys().next();
        more.map_or(Ok(()), |&(_, part)| Err(self.held_twice(part)))
    }

    fn held_twice(&self, part: usize) -> StudyError {
        let folder = self.parts[part].display();
        StudyError::folder(
            format!("`{folder}` holds cells that others hold too"),
            AGAIN,
        )
    }
}

fn same(a: &Path, b: &Path) -> bool {
    let place = |path: &Path| path.canonicalize().ok();
    place(a).is_some() && place(a) == place(b)
}

/// The head of the whole study, where these are all its parts.
fn checked(parts: &[PathBuf], heads: &[Head]) -> Result<Head, StudyError> {
    let Some(first) = heads.first() else {
        return Err(StudyError::folder(
            "no folder is named to merge".to_owned(),
            "name the folders of all parts",
        ));
    };
    let refuse = |part: usize, what: &str, hint: &str| {
        let folder = parts[part].display();
        Err(StudyError::folder(format!("`{folder}` {what}"), hint))
    };
    let mut places: HashMap<u64, usize> = HashMap::new();
    for (number, head) in heads.iter().enumerate() {
        let first_folder = parts[0].display();
        if (&head.study, head.cells) != (&first.study, first.cells) {
            let what = format!("is of another study than `{first_folder}`");
            return refuse(number, &what, "merge parts of one study file alone");
        }
        if head.version != first.version {
            let what = format!(
                "was made by version {}, `{first_folder}` by {}",
                head.version, first.version
            );
            return refuse(number, &what, "run all parts with one version of costcard");
        }
        if head.part[1] != first.part[1] {
            let what = format!(
                "is a part of {}, `{first_folder}` one of {}",
                head.part[1], first.part[1]
            );
            return refuse(number, &what, "cut the study into equal parts once");
        }
        if !is_finished(&parts[number])? {
            let what = "is not finished";
            return refuse(
                number,
                what,
                "start that part again: it goes on where it was",
            );
        }
        if let Some(other) = places.insert(head.part[0], number) {
            let what = format!(
                "is part {}, and so is `{}`",
                head.part[0],
                parts[other].display()
            );
            return refuse(number, &what, "name each part once");
        }
    }
    let missing = first.part[1] - places.len() as u64;
    if missing > 0 {
        let of_those = (1..=first.part[1]).filter(|number| !places.contains_key(number));
        let mut named: Vec<String> = of_those
            .take(MOST_NAMED)
            .map(|number| number.to_string())
            .collect();
        let more = missing - named.len() as u64;
        if more > 0 {
            named.push(format!("{more} more"));
        }
        return Err(StudyError::folder(
            format!(
                "of {} parts these are missing: {}",
                first.part[1],
                joined(&named, "and")
            ),
            "name the folders of all parts",
        ));
    }
    Ok(Head {
        part: [1, 1],
        ..first.clone()
    })
}

/// The hash of every input so far, and in which folder it was met.
#[derive(Default)]
struct Known {
    hashes: HashMap<Vec<String>, (String, PathBuf)>,
}

/// Inputs: the columns that name them, and that of their hash.
const INPUTS: [(&[&str], &str); 3] = [
    (&["player"], "player_hash"),
    (&["course", "tees", "pins"], "course_hash"),
    (&["rules"], "rules_hash"),
];

impl Known {
    /// That an input was the same on every machine.
    fn check(&mut self, record: &Record, folder: &Path) -> Result<(), StudyError> {
        let text = |name: &str| {
            let found = columns::place(name).and_then(|place| record.inputs.get(place));
            found.cloned().unwrap_or_default()
        };
        for (names, hash) in INPUTS {
            let mut key: Vec<String> = names.iter().map(|name| text(name)).collect();
            key.push(hash.to_owned());
            let found = text(hash);
            let (known, first) = self
                .hashes
                .entry(key)
                .or_insert_with(|| (found.clone(), folder.to_owned()));
            if *known != found {
                return Err(StudyError::folder(
                    format!(
                        "`{}` in `{}` is not what it is in `{}`",
                        text(names[0]),
                        folder.display(),
                        first.display()
                    ),
                    "give every machine the same files, and start the parts again: only what differs is worked out anew",
                ));
            }
        }
        Ok(())
    }
}
