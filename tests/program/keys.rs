//! The README names every key that commands give as JSON.

#![allow(clippy::expect_used)] // a test may stop

use std::collections::BTreeSet;
use std::fs;

use serde_json::Value;

use super::goal::nine;
use super::help::words;
use super::readme::readme;
use super::{SHORT, costcard_in, text};

/// Commands whose keys the README tells of, in a folder with courses of three and nine holes.
const COMMANDS: [&str; 17] = [
    "play level:20 short.toml --rounds 50",
    "rank demo:rowan short.toml --goal 5 --rounds 50",
    "try demo:rowan short.toml --change 'driver off' --hole 1 --rounds 50",
    "goal level:20 nine.toml --to 9 --rounds 50",
    "clubs demo:dale --goal 5",
    "flight --club '6 iron' --club-speed 92 --attack -4.1 --dynamic-loft 20",
    "fit demo:bay.csv --map demo:bay-map.toml --player Sam --handicap 14.2 --out sam.toml",
    "compare demo:bay.csv demo:bay-after.csv --map demo:bay-map.toml",
    "handicap demo:rowan-scores --course-rating 71.2 --slope-rating 128 --par 72",
    "check nine.toml",
    "import demo:three-holes",
    "draw short.toml --out short.svg",
    "study study.toml --out told",
    "report demo:rowan short.toml --goal 5 --rounds 50 --out rowan.html",
    "manual",
    "manual --out pages",
    "completions bash",
];

fn collect(value: &Value, keys: &mut BTreeSet<String>) {
    match value {
        Value::Object(object) => {
            for (key, value) in object {
                keys.insert(key.clone());
                collect(value, keys);
            }
        }
        Value::Array(list) => list.iter().for_each(|value| collect(value, keys)),
        _ => {}
    }
}

#[test]
fn the_readme_names_every_key_of_every_command() {
    let readme = readme();
    let (_, section) = readme
        .split_once("### Results as JSON\n")
        .expect("a section");
    let (section, _) = section.split_once("\n### ").expect("an end");
    let folder = tempfile::tempdir().expect("a folder");
    let study = "players = ['level:20']\ncourses = ['nine.toml']\nrounds = 50\nseed = 1\n";
    for (name, text) in [
        ("short.toml", SHORT),
        ("nine.toml", &nine()),
        ("study.toml", study),
    ] {
        fs::write(folder.path().join(name), text).expect("written");
    }
    let mut missing = Vec::new();
    for command in COMMANDS {
        let typed = words(command);
        let mut typed: Vec<&str> = typed.iter().map(String::as_str).collect();
        typed.push("--json");
        let shown = costcard_in(folder.path(), &typed);
        assert!(shown.status.success(), "{command}: {}", text(&shown.stderr));
        let document: Value = serde_json::from_slice(&shown.stdout).expect("one JSON document");
        let mut keys = BTreeSet::new();
        collect(&document, &mut keys);
        assert!(!keys.is_empty(), "{command}: {keys:?}");
        let named = |key: &str| section.contains(&format!("`{key}`"));
        let of_goal = |key: &str| key.strip_prefix("goal_").is_some_and(named);
        keys.retain(|key| !named(key) && !of_goal(key));
        missing.extend(keys.into_iter().map(|key| format!("{}: {key}", typed[0])));
    }
    assert!(missing.is_empty(), "not in the README: {missing:#?}");
}
