//! The README as a newcomer reads it: every command, copied as printed, works in an empty folder, one after the other,
//! and prints what is printed there.
//!
//! `WRITE_README=1 cargo test --test all program::readme` writes what the commands print now into the README.

use std::collections::HashMap;
use std::fs;
use std::path::Path;

use super::costcard_in;
use super::help::words;
use super::text;

/// Commands that are not run: how each begins, and why.
const LEFT_OUT: [(&str, &str); 12] = [
    (
        "cargo run ",
        "builds the program for use; the card it prints is that of the next command",
    ),
    ("cargo test", "is what runs this"),
    ("cargo install ", "puts the program on this machine"),
    (
        "cd lessons",
        "goes to a folder of the reader's, as the prompt shows",
    ),
    (
        "costcard desk ",
        "serves until it is ended; tests/desk opens it",
    ),
    (
        "costcard goal sam.toml demo:parkland demo:heathland ",
        "takes minutes; tests/goal has several goals and courses",
    ),
    (
        "costcard compare bay.csv ",
        "is about a sheet of the reader's; tests/program/compare.rs has such ones",
    ),
    (
        "costcard study --merge ",
        "is about folders of other machines; tests/study/parts.rs merges",
    ),
    (
        "costcard import links.osm ",
        "is about a map of the reader's; tests/import/program.rs writes courses",
    ),
    (
        "costcard check links.toml",
        "is about what that map becomes",
    ),
    (
        "costcard rank sam.toml links.toml ",
        "is about what that map becomes",
    ),
    (
        "costcard report demo:bay-after.csv ",
        "takes half a minute; tests/program/report.rs has reports of two sheets",
    ),
];

/// Something to do while the README is read.
#[derive(Debug)]
enum Step {
    /// A file that is shown under its name.
    File { name: String, text: String },
    /// A command, and the lines it is said to print, with where they stand.
    Command {
        line: String,
        printed: Option<Printed>,
    },
}

/// Lines of the README that a command prints.
#[derive(Debug)]
struct Printed {
    /// The first line, counted from 0, and the one after the last.
    lines: (usize, usize),
    /// Blanks before each of them.
    indent: String,
    text: Vec<String>,
}

pub(super) fn readme() -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md");
    fs::read_to_string(path).expect("readable")
}

/// What there is to do, from top to bottom.
fn steps(readme: &str) -> Vec<Step> {
    let lines: Vec<&str> = readme.lines().collect();
    let mut steps = Vec::new();
    let mut prose = "";
    let mut at = 0;
    while at < lines.len() {
        let line = lines[at];
        let Some(kind) = line.trim_start().strip_prefix("```") else {
            steps.extend(within(line));
            if !line.trim().is_empty() {
                prose = line;
            }
            at += 1;
            continue;
        };
        let indent = &line[..line.len() - line.trim_start().len()];
        let is_end = |line: &&str| line.trim() == "```";
        let length = lines[at + 1..]
            .iter()
            .take_while(|line| !is_end(line))
            .count();
        let block: Vec<&str> = lines[at + 1..=at + length]
            .iter()
            .map(|line| line.strip_prefix(indent).unwrap_or(line))
            .collect();
        match kind {
            "sh" => steps.extend(typed(&block)),
            "" => steps.extend(shown(&block, at + 1, indent)),
            _ => steps.extend(named(prose, &block)),
        }
        at += length + 2;
    }
    steps
}

/// Commands within a line of prose.
fn within(line: &str) -> impl Iterator<Item = Step> {
    let spans = line.split('`').skip(1).step_by(2);
    spans
        .filter(|span| span.starts_with("costcard "))
        .map(|span| Step::Command {
            line: span.to_owned(),
            printed: None,
        })
}

/// Commands of a block for copying: a line that ends in `\` goes on, and ` #` begins a remark.
fn typed(block: &[&str]) -> Vec<Step> {
    let whole = block.join("\n").replace("\\\n", " ");
    let commands = whole
        .lines()
        .map(|line| line.split(" #").next().unwrap_or_default().trim());
    commands
        .filter(|line| !line.is_empty())
        .map(|line| Step::Command {
            line: line.to_owned(),
            printed: None,
        })
        .collect()
}

/// Commands of a block that shows a terminal, each with what it prints.
fn shown(block: &[&str], first: usize, indent: &str) -> Vec<Step> {
    let prompts: Vec<usize> = (0..block.len())
        .filter(|at| block[*at].starts_with("$ "))
        .collect();
    let ends = prompts.iter().skip(1).copied().chain([block.len()]);
    prompts
        .iter()
        .zip(ends)
        .map(|(at, end)| Step::Command {
            line: block[*at][2..].to_owned(),
            printed: (at + 1 < end).then(|| Printed {
                lines: (first + at + 1, first + end),
                indent: indent.to_owned(),
                text: block[at + 1..end]
                    .iter()
                    .map(|line| (*line).to_owned())
                    .collect(),
            }),
        })
        .collect()
}

/// A file, where the line before the block ends with its name: "Save this as `my.toml`:".
fn named(prose: &str, block: &[&str]) -> Option<Step> {
    let name = prose.strip_suffix("`:")?.rsplit('`').next()?;
    Some(Step::File {
        name: name.to_owned(),
        text: block.join("\n") + "\n",
    })
}

/// Whether a command is left out.
fn left_out(line: &str) -> bool {
    LEFT_OUT.iter().any(|(start, _)| line.starts_with(start))
}

/// Whether the README has this command, so that it is run here.
pub fn runs(command: &str) -> bool {
    steps(&readme()).iter().any(
        |step| matches!(step, Step::Command { line, .. } if line == command && !left_out(line)),
    )
}

/// Runs a command in the folder and gives what it prints; `> FILE` sends it there.
fn run(folder: &Path, line: &str) -> String {
    let (command, file) = match line.split_once(" > ") {
        Some((command, file)) => (command, Some(file)),
        None => (line, None),
    };
    let words = words(command);
    assert_eq!(words[0], "costcard", "no command of this program: {line}");
    let words: Vec<&str> = words[1..].iter().map(String::as_str).collect();
    let output = costcard_in(folder, &words);
    let complaint = text(&output.stderr);
    assert_eq!(output.status.code(), Some(0), "{line}\n{complaint}");
    let printed = text(&output.stdout);
    match file {
        Some(file) => {
            fs::write(folder.join(file), printed).expect("written");
            String::new()
        }
        None => printed,
    }
}

/// What the README may say is printed: all lines, or some of them with `…` where others are left out.
fn as_shown(shown: &[String], printed: &str) -> Result<Vec<String>, String> {
    let printed: Vec<String> = printed.lines().map(str::to_owned).collect();
    let pieces: Vec<&[String]> = shown.split(|line| line == "…").collect();
    if pieces.len() == 1 {
        return Ok(printed);
    }
    let mut out = Vec::new();
    let mut from = 0;
    for (index, piece) in pieces.iter().enumerate() {
        if index > 0 {
            out.push("…".to_owned());
        }
        let Some(first) = piece.first() else {
            continue;
        };
        let start = match index {
            0 => Some(0),
            _ if index + 1 == pieces.len() => printed.len().checked_sub(piece.len()),
            _ => printed.iter().position(|line| line == first),
        };
        let start = start.filter(|start| *start >= from);
        let start = start.ok_or_else(|| format!("nothing printed begins with `{first}`"))?;
        from = (start + piece.len()).min(printed.len());
        out.extend_from_slice(&printed[start..from]);
    }
    Ok(out)
}

/// The README with other lines printed.
fn rewritten(readme: &str, changes: &[(Printed, Vec<String>)]) -> String {
    let mut lines: Vec<String> = readme.lines().map(str::to_owned).collect();
    for (printed, now) in changes.iter().rev() {
        let (first, end) = printed.lines;
        let indented = now.iter().map(|line| match line.as_str() {
            "" => String::new(),
            line => format!("{}{line}", printed.indent),
        });
        lines.splice(first..end, indented);
    }
    lines.join("\n") + "\n"
}

#[test]
fn every_command_of_the_readme_works_and_prints_what_is_printed_there() {
    let folder = tempfile::tempdir().expect("a folder");
    let readme = readme();
    let mut known: HashMap<String, String> = HashMap::new();
    let mut changes = Vec::new();
    for step in steps(&readme) {
        let (line, shown) = match step {
            Step::File { name, text } => {
                fs::write(folder.path().join(name), text).expect("written");
                continue;
            }
            Step::Command { line, .. } if left_out(&line) => continue,
            Step::Command { line, printed } => (line, printed),
        };
        let printed = known
            .entry(line.clone())
            .or_insert_with(|| run(folder.path(), &line));
        let Some(shown) = shown else { continue };
        let now = as_shown(&shown.text, printed).unwrap_or_else(|why| panic!("{line}: {why}"));
        if now != shown.text {
            changes.push((line, shown, now));
        }
    }
    assert!(known.len() >= 25, "{}", known.len());
    if std::env::var_os("WRITE_README").is_some() {
        let changes: Vec<(Printed, Vec<String>)> = changes
            .into_iter()
            .map(|(_, shown, now)| (shown, now))
            .collect();
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md");
        fs::write(path, rewritten(&readme, &changes)).expect("written");
        return;
    }
    let told = changes.iter().map(|(line, shown, now)| {
        let (shown, now) = (shown.text.join("\n"), now.join("\n"));
        format!("$ {line}\nthe README has\n{shown}\nbut it prints\n{now}\n")
    });
    let told: String = told.collect();
    assert!(
        changes.is_empty(),
        "{told}\nWRITE_README=1 writes the README anew"
    );
}

/// What is left out stands there, so that the list does not outlive it.
#[test]
fn every_command_left_out_stands_in_the_readme() {
    let steps = steps(&readme());
    for (start, why) in LEFT_OUT {
        let stands =
            |step: &Step| matches!(step, Step::Command { line, .. } if line.starts_with(start));
        assert!(steps.iter().any(stands), "{start}, which {why}");
    }
    // The first command builds what the newcomer then sees at work.
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let first = &steps[0];
    let Step::Command { line, .. } = first else {
        panic!("{first:?}");
    };
    let files = line.split(' ').filter(|word| word.ends_with(".toml"));
    assert_eq!(files.clone().count(), 2, "{line}");
    files.for_each(|file| assert!(root.join(file).is_file(), "{file}"));
}

#[test]
fn a_readme_is_read_as_people_read_it() {
    let text = "\
Save `a.csv`:

   ```csv
   x,y
   ```

Try `costcard check a.csv`.

```sh
costcard draw a \\
  --out b.svg   # a picture
```

```
$ costcard clubs a
one
…
three
$ cd b
```
";
    let steps = steps(text);
    let lines: Vec<&str> = steps
        .iter()
        .map(|step| match step {
            Step::File { name, text } => {
                assert_eq!(text, "x,y\n");
                name.as_str()
            }
            Step::Command { line, .. } => line.as_str(),
        })
        .collect();
    assert_eq!(
        lines,
        [
            "a.csv",
            "costcard check a.csv",
            "costcard draw a    --out b.svg",
            "costcard clubs a",
            "cd b"
        ]
    );
    let Step::Command {
        printed: Some(printed),
        ..
    } = &steps[3]
    else {
        panic!("{steps:?}");
    };
    let same = as_shown(&printed.text, "one\ntwo\nthree\n").expect("alike");
    assert_eq!(same, printed.text);
    let other = as_shown(&printed.text, "one\ntwo\nfour\n").expect("alike");
    assert_ne!(other, printed.text);
    let Some(Step::Command {
        printed: Some(printed),
        ..
    }) = steps.into_iter().nth(3)
    else {
        panic!("as before");
    };
    let now = rewritten(text, &[(printed, other)]);
    assert_eq!(now, text.replace("three\n", "four\n"));
}
