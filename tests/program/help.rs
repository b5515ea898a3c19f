//! Help: every command shows an example, and the example works.

use super::{costcard, readme, stdout};

pub const COMMANDS: [&str; 18] = [
    "",
    "rank",
    "goal",
    "try",
    "play",
    "clubs",
    "flight",
    "fit",
    "compare",
    "handicap",
    "draw",
    "report",
    "desk",
    "import",
    "study",
    "check",
    "completions",
    "manual",
];

/// The example that stands in the help of a command.
fn example(command: &str) -> String {
    let words: Vec<&str> = [command, "--help"]
        .into_iter()
        .filter(|w| !w.is_empty())
        .collect();
    let help = stdout(&words);
    let (_, after) = help.split_once("Example:\n").expect("an example");
    after.lines().next().expect("a line").trim().to_owned()
}

/// Words of a command line in which 'quotes' hold words together.
pub fn words(line: &str) -> Vec<String> {
    let mut words = Vec::new();
    for (index, piece) in line.split('\'').enumerate() {
        if index % 2 == 1 {
            words.push(piece.to_owned());
        } else {
            words.extend(piece.split_whitespace().map(str::to_owned));
        }
    }
    words
}

#[test]
fn the_example_of_every_help_works() {
    for command in COMMANDS {
        let example = example(command);
        let words = words(&example);
        assert_eq!(words[0], "costcard");
        assert!(example.contains(command), "{example}");
        let mut words: Vec<&str> = words[1..].iter().map(String::as_str).collect();
        if words[0] == "desk" {
            // It serves until it is ended: `tests/desk/` opens it.
            continue;
        }
        if readme::runs(&example) {
            // The README has the same, and is tried too.
            continue;
        }
        if matches!(words[0], "rank" | "goal" | "try" | "play" | "report") {
            // As it stands, but quicker.
            words.extend(["--rounds", "100"]);
        } else if words[0] == "study" {
            words.extend(["--part", "1/16"]);
        } else if words[0] == "check" {
            words.push("--no-rating");
        }
        assert_ne!(stdout(&words), "", "{example}");
    }
}

#[test]
fn no_line_of_help_is_too_long_to_read() {
    for command in COMMANDS {
        let words: Vec<&str> = [command, "--help"]
            .into_iter()
            .filter(|w| !w.is_empty())
            .collect();
        for line in stdout(&words).lines() {
            assert!(line.chars().count() <= 100, "{line}");
        }
    }
}

#[test]
fn a_word_that_is_no_command_is_a_fault_of_input() {
    let output = costcard(&["rnak"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(output.stdout.is_empty());
}
