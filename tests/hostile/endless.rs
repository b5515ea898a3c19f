//! Files without end: nested, long, or at fault in every line.

use costcard::cost::handicap::sheet;
use costcard::course::Course;
use costcard::files::{Faults, Source};
use costcard::player::Golfer;
use costcard::study::Study;

use super::{short, told};

const HEAD: &str = "name = 'x'\nhandicap_index = 9\nsex = 'men'\n";

fn player(source: &Source) -> Result<Golfer, Faults> {
    Golfer::read(source, &|sheet| panic!("no sheet is named, but {sheet}"))
}

fn told_of_player(text: &str) -> String {
    told("x.toml", &format!("{HEAD}{text}"), player)
}

#[test]
fn tables_lists_and_keys_nested_without_end_are_refused() {
    for (what, text) in [
        ("a key of many parts", "a.".repeat(200_000) + "a = 1\n"),
        (
            "a title of many parts",
            format!("[{}a]\n", "a.".repeat(200_000)),
        ),
        ("lists in lists", format!("a = {}\n", "[".repeat(200_000))),
        (
            "tables in tables",
            format!("a = {}\n", "{a = ".repeat(200_000)),
        ),
    ] {
        let told = told_of_player(&text);
        assert!(told.contains("broken TOML"), "{what}: {}", short(&told));
        assert!(told.contains("recurs"), "{what}: {}", short(&told));
        assert!(told.contains("lie a few deep"), "{what}: {}", short(&told));
    }
}

/// Each line was counted from the top and looked for among all lines before it: minutes for a third of a megabyte.
#[test]
fn a_file_broken_in_every_line_is_told_at_once() {
    let told_of_some = told_of_player(&"x\n".repeat(300_000));
    assert!(
        told_of_some.starts_with("x.toml:4:2: broken TOML"),
        "{}",
        short(&told_of_some)
    );
    assert!(
        told_of_some.ends_with("and 299980 more"),
        "{}",
        short(&told_of_some)
    );
    // Of a longer one only the first fault is told.
    let told_of_many = told_of_player(&"x\n".repeat(2_000_000));
    assert_eq!(told_of_many.matches("broken TOML").count(), 1);
}

#[test]
fn a_file_of_tables_has_a_greatest_length() {
    let told = told_of_player(&"# nothing\n".repeat(900_000));
    assert!(
        told.starts_with("x.toml:1:1: this file is larger than 8 MB"),
        "{told}"
    );
}

#[test]
fn a_file_with_unknown_keys_without_end_is_told_at_once() {
    let keys: String = (0..200_000).map(|key| format!("k{key} = 1\n")).collect();
    let told = told_of_player(&keys);
    assert!(
        told.starts_with("x.toml:4:1: there is no key `k0` in this file"),
        "{}",
        short(&told)
    );
    assert!(
        told.ends_with("and 199980 more"),
        "{}",
        short(&told[told.len() - 100..])
    );
}

/// A word is compared with others only where it is about as long, and a message quotes no megabytes.
#[test]
fn a_word_without_end_is_told_in_short() {
    let long = "k".repeat(2_000_000);
    let told = told_of_player(&format!("{long} = 1\n"));
    assert!(
        told.starts_with("x.toml:4:1: there is no key `kkkk"),
        "{}",
        short(&told)
    );
    assert!(told.contains("kkk` in this file"), "{}", short(&told));
    assert!(told.len() < 5000, "{} bytes", told.len());
    let number = format!(
        "name = 'x'\nsex = 'men'\nhandicap_index = {}\n",
        "9".repeat(1_000_000)
    );
    let told = super::told("x.toml", &number, player);
    assert!(
        told.contains("handicap_index` must be a number"),
        "{}",
        short(&told)
    );
}

/// The line of each row was counted from the top: minutes for five megabytes.
#[test]
fn a_long_sheet_of_scores_is_read_at_once() {
    let rows = "2026-01-01,70.0,120,80\n".repeat(200_000);
    let text = format!("date,course_rating,slope_rating,gross\n{rows}");
    assert_eq!(told("x.csv", &text, sheet::read), "no fault");
    let text = format!("{text}2025-12-31,70.0,120,80\n");
    assert!(
        told("x.csv", &text, sheet::read)
            .starts_with("x.csv:200002:1: 2025-12-31 comes before 2026-01-01 on line 200001")
    );
}

#[test]
fn a_sheet_of_columns_without_end_is_refused() {
    let text = format!(
        "date,course_rating,slope_rating,gross{}\n",
        ",a".repeat(300_000)
    );
    let told = told("x.csv", &text, sheet::read);
    assert!(
        told.starts_with("x.csv:1:1: this file has 300004 columns, more than 1000"),
        "{told}"
    );
}

#[test]
fn a_quote_that_never_ends_is_told_where_it_begins() {
    let text = format!(
        "date,course_rating,slope_rating,gross\n\"{}",
        "x\n".repeat(2_000_000)
    );
    let told = told("x.csv", &text, sheet::read);
    assert!(
        told.starts_with("x.csv:2:1: this row has 1 value"),
        "{}",
        short(&told)
    );
}

fn told_of_hole(keys: &str) -> String {
    let text = format!(
        "name = 'x'\n[[holes]]\npar = 4\nlength_yd = 400\n\
         green = {{ depth_yd = 30, width_yd = 24 }}\n{keys}\n"
    );
    told("x.toml", &text, Course::read)
}

/// Triangles side by side in rows of two hundred, a tenth of a yard each.
fn islands(count: usize) -> String {
    let island = |number: usize| {
        let (x, y) = (
            (number % 200) as f64 * 0.2 - 20.0,
            180.0 + (number / 200) as f64 * 0.2,
        );
        format!(
            "[[{x:.1}, {y:.1}], [{:.1}, {y:.1}], [{x:.1}, {:.1}]]",
            x + 0.1,
            y + 0.1
        )
    };
    (0..count).map(island).collect::<Vec<_>>().join(", ")
}

/// Each side of each island is held against each side of all others.
#[test]
fn islands_without_end_are_refused() {
    let told = told_of_hole(&format!(
        "areas = [{{ lie = 'water', outline_yd = [[-40, 150], [40, 150], [40, 260], [-40, 260]], islands_yd = [{}] }}]",
        islands(40_000)
    ));
    assert!(
        told.contains("the islands of an area have at most 2000 points together, not 120000"),
        "{}",
        short(&told)
    );
}

#[test]
fn stretches_of_fairway_without_end_are_refused() {
    let stretches = "{ from_yd = 100, to_yd = 300, width_yd = 30 }, ".repeat(20_000);
    let told = told_of_hole(&format!("fairway = [{stretches}]"));
    assert!(
        told.contains("the fairway of hole 1 has 20000 stretches, more than 40"),
        "{}",
        short(&told)
    );
}

#[test]
fn a_study_of_everything_is_read_at_once() {
    let names = |letter: char| {
        let names = (0..20_000).map(|number| format!("'{letter}{number}'"));
        names.collect::<Vec<_>>().join(", ")
    };
    let text = format!(
        "players = [{}]\ncourses = [{}]\nchanges = [{}]\n",
        names('p'),
        names('c'),
        "'driver launch +1', ".repeat(20_000)
    );
    // Whatever is said of it, it is said soon.
    told("x.toml", &text, Study::read);
    let long = format!(
        "players = ['p']\ncourses = ['c']\nchanges = ['{}']\n",
        "driver ".repeat(20_000)
    );
    assert!(told("x.toml", &long, Study::read).starts_with("x.toml:3:"));
}

/// Everything a script can be nested in.
#[test]
fn scripts_nested_without_end_are_refused() {
    for piece in [
        "(",
        "!",
        "{",
        "[",
        "#{a:",
        "`${",
        "if true {} else ",
        "switch 1 { _ => ",
        "try { ",
        "1+",
        "1**",
        "true&&",
        "1??",
        "landing.",
        "|a| ",
        "x[",
        "f(",
        "while true { ",
        "return ",
    ] {
        let text = format!(
            "fn hold(landing, green) {{ {}",
            piece.repeat(60_000 / piece.len())
        );
        let told = told("x.rhai", &text, |source| {
            costcard::rules::script::Script::read(source, &crate::rules::silent())
        });
        assert!(told.starts_with("x.rhai:1:"), "{piece}: {}", short(&told));
    }
}
