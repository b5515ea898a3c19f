//! Numbers that are none, and numbers beyond all bounds, in place of every number of every kind of file.

use std::fs;
use std::ops::Range;
use std::path::Path;

use crate::fuzz::readers;

/// What no number of a file may be.
const NO_NUMBERS: [&str; 4] = ["nan", "inf", "-inf", "1e999"];
/// What a number may be only where it is refused, or stays bounded.
const HUGE: [&str; 3] = ["1e308", "-1e308", "9223372036854775807"];

/// Where the numbers of a TOML file stand: outside texts and comments.
fn numbers(text: &str) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    let mut quote: Option<char> = None;
    let mut is_comment = false;
    let mut before = '\n';
    let mut number: Option<usize> = None;
    for (at, c) in text.char_indices().chain([(text.len(), '\n')]) {
        let goes_on = c.is_ascii_digit() || matches!(c, '.' | '-' | '+' | 'e');
        if let Some(start) = number.filter(|_| !goes_on) {
            found.push(start..at);
            number = None;
        }
        match quote {
            Some(open) if c == open || c == '\n' => quote = None,
            Some(_) => {}
            None if c == '\n' => is_comment = false,
            None if is_comment => {}
            None if c == '#' => is_comment = true,
            None if matches!(c, '"' | '\'') => quote = Some(c),
            None => {
                let begins = c.is_ascii_digit() || c == '-';
                if number.is_none() && begins && matches!(before, ' ' | '[' | ',' | '=') {
                    number = Some(at);
                }
            }
        }
        before = c;
    }
    found
}

fn sample(path: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(path);
    fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path:?}: {error}"))
}

#[test]
fn no_number_of_a_file_may_be_none_or_without_bounds() {
    let mut tried = 0;
    for (path, read) in [
        (
            "tests/data/every-key/player.toml",
            readers::player as readers::Driven,
        ),
        ("tests/data/every-key/player-raw.toml", readers::player),
        ("tests/data/every-key/level.toml", readers::level),
        ("tests/data/every-key/course.toml", readers::course),
        ("tests/data/every-key/study.toml", readers::study),
        (
            "tests/data/every-key/study-combinations.toml",
            readers::study,
        ),
    ] {
        // The sheet that a player's file names is another matter.
        let text = sample(path).replace("\nstrikes = ", "\n# strikes = ");
        assert!(read(text.as_bytes()), "{path}");
        for place in numbers(&text) {
            let with = |number: &str| {
                let mut changed = text.clone();
                changed.replace_range(place.clone(), number);
                read(changed.as_bytes())
            };
            for number in NO_NUMBERS {
                let line = text[..place.start].matches('\n').count() + 1;
                assert!(!with(number), "{path}:{line}: {number} was read");
            }
            // These are driven for what the readers assert: whatever is read of them is sound.
            for number in HUGE {
                with(number);
            }
            tried += 1;
        }
    }
    assert!(tried > 150, "{tried} numbers");
}

#[test]
fn no_number_of_a_sheet_may_be_none_or_without_bounds() {
    let mut tried = 0;
    for (path, read, refuses) in [
        // A shot without a figure is a misread, and left out.
        (
            "tests/fuzz/seeds/batch/plain.csv",
            readers::batch as readers::Driven,
            false,
        ),
        ("tests/fuzz/seeds/scores/short.csv", readers::scores, true),
        ("tests/fuzz/seeds/pins/sheet.csv", readers::pins, true),
    ] {
        let text = sample(path);
        let lines: Vec<&str> = text.lines().collect();
        for (row, line) in lines.iter().enumerate().skip(1) {
            let cells: Vec<&str> = line.split(',').collect();
            for column in 0..cells.len() {
                if cells[column].parse::<f64>().is_err() {
                    continue;
                }
                for number in ["NaN", "inf", "-inf", "1e999"].iter().chain(&HUGE) {
                    let mut cells = cells.clone();
                    cells[column] = number;
                    let changed = cells.join(",");
                    let mut lines = lines.clone();
                    lines[row] = &changed;
                    let was_read = read(lines.join("\n").as_bytes());
                    let may_be = HUGE.contains(number) || !refuses;
                    assert!(may_be || !was_read, "{path}:{}: {number} was read", row + 1);
                    tried += 1;
                }
            }
        }
    }
    assert!(tried > 200, "{tried} cells");
}
