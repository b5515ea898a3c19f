//! The order of the rooms: a room uses those above it in the table of DEVELOPERS.md, and none below. And their files are
//! short.

#![allow(clippy::expect_used)] // a test may stop

use std::fs;
use std::path::{Path, PathBuf};
use std::str::FromStr;

use proc_macro2::{Delimiter, TokenStream, TokenTree};

/// What stands in `engine/` beside the rooms: the two roots, and programs that use the library from outside.
const BESIDE: [&str; 4] = ["lib", "main", "benches", "calibrate"];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The rooms from top to bottom, as DEVELOPERS.md has them.
fn order() -> Vec<String> {
    let text = fs::read_to_string(root().join("DEVELOPERS.md")).expect("readable");
    let (_, table) = text
        .split_once("| room in `engine/` | does |\n|---|---|\n")
        .expect("the table of rooms");
    let rows = table.lines().take_while(|line| line.starts_with('|'));
    rows.map(|row| {
        let name = row.split('`').nth(1).expect("a name in the first column");
        name.trim_end_matches('/')
            .trim_end_matches(".rs")
            .to_owned()
    })
    .collect()
}

/// A room that a text names, and the line it does so in.
#[derive(Debug, PartialEq)]
struct Use {
    line: usize,
    room: String,
}

/// One path that is being read: where its names are counted from, and whether the room comes next.
struct Reader {
    /// The module the text stands in, from the root of the library: `["round", "bank"]`.
    module: Vec<String>,
    found: Vec<Use>,
}

impl Reader {
    /// Reads the tokens of one module.
    fn read(&mut self, tokens: TokenStream) {
        let tokens: Vec<TokenTree> = tokens.into_iter().collect();
        let mut at = 0;
        while at < tokens.len() {
            at = match &tokens[at] {
                TokenTree::Ident(word) if word == "mod" => self.inner(&tokens, at),
                TokenTree::Ident(word) if word == "crate" => self.path(&tokens, at + 1),
                TokenTree::Ident(word) if word == "super" && !is_path(&tokens[..at]) => {
                    self.path_up(&tokens, at)
                }
                TokenTree::Group(group) => {
                    self.read(group.stream());
                    at + 1
                }
                _ => at + 1,
            };
        }
    }

    /// A module within the file: what it calls `super` is the file's own.
    fn inner(&mut self, tokens: &[TokenTree], at: usize) -> usize {
        let (Some(TokenTree::Ident(name)), Some(TokenTree::Group(body))) =
            (tokens.get(at + 1), tokens.get(at + 2))
        else {
            return at + 1;
        };
        self.module.push(name.to_string());
        self.read(body.stream());
        self.module.pop();
        at + 3
    }

    /// A path that begins with `super`: so many of them go up so many modules, and from the root a room follows.
    fn path_up(&mut self, tokens: &[TokenTree], at: usize) -> usize {
        let mut up = 1;
        let mut next = at + 1;
        while matches!(after_colons(tokens, next), Some(TokenTree::Ident(word)) if word == "super")
        {
            up += 1;
            next += 3;
        }
        if up == self.module.len() {
            self.path(tokens, next)
        } else {
            next
        }
    }

    /// What follows the root of the library: a room, or rooms in braces.
    fn path(&mut self, tokens: &[TokenTree], at: usize) -> usize {
        match after_colons(tokens, at) {
            Some(TokenTree::Group(group)) if group.delimiter() == Delimiter::Brace => {
                self.listed(group.stream());
                at + 3
            }
            Some(tree) => {
                self.note(tree);
                at + 3
            }
            None => {
                // `crate as name` would hide every use that follows.
                if let Some(tree @ TokenTree::Ident(word)) = tokens.get(at)
                    && word == "as"
                {
                    self.note(tree);
                }
                at
            }
        }
    }

    /// The rooms of `crate::{a::b, c::{d, e}}`: the first name after the brace and after each comma.
    fn listed(&mut self, tokens: TokenStream) {
        let mut first = true;
        for tree in tokens {
            if first {
                self.note(&tree);
            }
            first = matches!(&tree, TokenTree::Punct(mark) if mark.as_char() == ',');
        }
    }

    fn note(&mut self, tree: &TokenTree) {
        self.found.push(Use {
            line: tree.span().start().line,
            room: tree.to_string(),
        });
    }
}

/// What stands behind the `::` at a place.
fn after_colons(tokens: &[TokenTree], at: usize) -> Option<&TokenTree> {
    let colon =
        |at: usize| matches!(tokens.get(at), Some(TokenTree::Punct(mark)) if mark.as_char() == ':');
    (colon(at) && colon(at + 1)).then(|| tokens.get(at + 2))?
}

/// Whether a path goes on here: `self::super` and the like.
fn is_path(before: &[TokenTree]) -> bool {
    matches!(before.last(), Some(TokenTree::Punct(mark)) if mark.as_char() == ':')
}

/// The rooms a text names, when it is that of a module.
fn uses(text: &str, module: &[&str]) -> Vec<Use> {
    let mut reader = Reader {
        module: module.iter().map(|name| (*name).to_owned()).collect(),
        found: Vec::new(),
    };
    reader.read(TokenStream::from_str(text).expect("Rust"));
    reader.found
}

/// Every Rust file of a folder and those in it, in order.
fn files(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).expect("a folder");
    let mut paths: Vec<PathBuf> = entries.map(|entry| entry.expect("there").path()).collect();
    paths.sort();
    let is_rust = |path: &Path| path.extension().is_some_and(|ending| ending == "rs");
    paths
        .into_iter()
        // What builds leave behind is none of the project's.
        .filter(|path| !path.ends_with("target"))
        .flat_map(|path| match path.is_dir() {
            true => files(&path),
            false if is_rust(&path) => vec![path],
            false => Vec::new(),
        })
        .collect()
}

/// The names of the modules a file stands in: `engine/round/bank/mod.rs` is `["round", "bank"]`.
fn module_of(file: &Path) -> Vec<String> {
    let inside = file
        .strip_prefix(root().join("engine"))
        .expect("in engine/");
    let mut names: Vec<String> = inside
        .with_extension("")
        .iter()
        .map(|name| name.to_string_lossy().into_owned())
        .collect();
    if names.last().is_some_and(|name| name == "mod") {
        names.pop();
    }
    names
}

#[test]
fn a_room_uses_only_those_above_it() {
    let order = order();
    let place = |room: &str| order.iter().position(|name| name == room);
    let mut wrong = Vec::new();
    for file in files(&root().join("engine")) {
        let module = module_of(&file);
        let Some(own) = place(&module[0]) else {
            continue;
        };
        let text = fs::read_to_string(&file).expect("readable");
        let module: Vec<&str> = module.iter().map(String::as_str).collect();
        for found in uses(&text, &module) {
            // The program is a crate of its own: what it names there are its own files.
            let allowed = module[0] == "cli" || place(&found.room).is_some_and(|at| at <= own);
            if !allowed {
                let file = file.strip_prefix(root()).expect("inside").display();
                wrong.push(format!(
                    "{file}:{}: `{}` uses `{}`, which is no room above it",
                    found.line, module[0], found.room
                ));
            }
        }
    }
    assert!(
        wrong.is_empty(),
        "rooms go one way: {}\n{}",
        order.join(", "),
        wrong.join("\n")
    );
}

/// The most lines of a file, as DEVELOPERS.md has it.
const MOST_LINES: usize = 500;

#[test]
fn no_file_is_longer_than_the_habits_allow() {
    let habits = fs::read_to_string(root().join("DEVELOPERS.md")).expect("readable");
    assert!(habits.contains(&format!("Files of at most {MOST_LINES} lines")));
    let mut long = Vec::new();
    for file in ["engine", "tests"]
        .map(|folder| files(&root().join(folder)))
        .concat()
    {
        let text = fs::read_to_string(&file).expect("readable");
        let lines = text.lines().count();
        if lines > MOST_LINES {
            let file = file.strip_prefix(root()).expect("inside").display();
            long.push(format!("{file} has {lines} lines"));
        }
    }
    assert!(long.is_empty(), "take them apart: {}", long.join(", "));
}

/// The table names what is there, from top to bottom as the head of the library does.
#[test]
fn every_room_stands_in_the_table_once() {
    let order = order();
    let mut named: Vec<&str> = order.iter().map(String::as_str).chain(BESIDE).collect();
    named.sort_unstable();
    let entries = fs::read_dir(root().join("engine")).expect("a folder");
    let mut there: Vec<String> = entries
        .map(|entry| entry.expect("there").path().with_extension(""))
        .map(|path| {
            path.file_name()
                .expect("a name")
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    there.sort_unstable();
    assert_eq!(named, there);

    let head = fs::read_to_string(root().join("engine/lib.rs")).expect("readable");
    let modules: Vec<&str> = head
        .lines()
        .filter_map(|line| line.strip_prefix("pub mod ")?.strip_suffix(';'))
        .collect();
    // The command line is the program's.
    assert_eq!(
        order.split_last(),
        Some((&"cli".to_owned(), &order[..modules.len()]))
    );
    assert_eq!(modules, order[..modules.len()]);
}

/// Every way to name a room is seen; words in comments and texts are not.
#[test]
fn a_use_is_seen_however_it_is_written() {
    let text = r#"
//! Not [`crate::cli`].
use crate::show::card;
use crate::{
    cost::{card, pair},
    study,
};
use super::super::rules::Run;
use super::bank;
fn found() -> &'static str {
    // crate::cli
    let x = crate::round::play(crate::units::Length::ZERO);
    let text = "crate::cli";
    text
}
mod tests {
    use super::super::super::goal;
    use super::super::own;
}
use crate as whole;
"#;
    let found = uses(text, &["ball", "flight"]);
    let found: Vec<(usize, &str)> = found.iter().map(|u| (u.line, u.room.as_str())).collect();
    assert_eq!(
        found,
        [
            (3, "show"),
            (5, "cost"),
            (6, "study"),
            (8, "rules"),
            (12, "round"),
            (12, "units"),
            (17, "goal"),
            (20, "as"),
        ]
    );
}
