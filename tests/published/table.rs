//! The tables of published checks: all figures in `CHECKS.md`, a line for each check in the README.
//!
//! `WRITE_CHECKS=1 cargo test --test all published import::extract` writes both anew; without it a test fails
//! where what it found differs from its table by more than the last digit.

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Mutex;

use super::checks::{Allowed, Check, Row};

/// The test files, in the order of the tables.
const SUBJECTS: [&str; 12] = [
    "flight",
    "turf",
    "putting",
    "impact",
    "delivery",
    "levels",
    "strokes",
    "approaches",
    "rounds",
    "ratings",
    "handicap",
    "extract",
];

const HEAD: &str = "\
# Published checks, figure by figure

Written by the tests; DEVELOPERS.md says how. *Fitted* figures set a constant, or were looked at when one was chosen:
that they agree is no evidence, and the README does not count them.
";

const COLUMNS: &str =
    "\n| figure | unit | published | measured | tolerance | |\n|---|---|---|---|---|---|\n";

const README_COLUMNS: &str = "\
| what is compared | source | figures | held | farthest off |
|---|---|---|---|---|
";

/// Between these lines of the README stands the table.
const MARKS: [&str; 2] = [
    "<!-- published checks, written by the tests -->\n",
    "<!-- end of the published checks -->\n",
];

/// Tests run side by side, and one file holds what they found.
static WRITING: Mutex<()> = Mutex::new(());

fn at(file: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(file)
}

fn read(file: &str) -> String {
    fs::read_to_string(at(file)).unwrap_or_default()
}

const CHECKS: &str = "tests/published/CHECKS.md";

impl Check {
    /// Holds what was found to the table, or writes it there.
    pub fn told(&self) {
        assert!(
            SUBJECTS.contains(&self.subject.as_str()),
            "name {} in SUBJECTS",
            self.subject
        );
        if std::env::var_os("WRITE_CHECKS").is_some() {
            write(self);
            return;
        }
        let all = parsed(&read(CHECKS));
        let kept = all.iter().find(|kept| kept.title == self.title);
        let (kept, found) = (kept.map(section), section(self));
        let same = kept.as_ref().is_some_and(|kept| alike(kept, &found));
        assert!(
            same,
            "not as the table has it (the head of tests/published/table.rs says how to write it anew)\n\
             {}\nnow:\n{found}",
            kept.unwrap_or_default()
        );
    }
}

/// Puts a check in its place in both tables.
fn write(check: &Check) {
    let _alone = WRITING.lock().unwrap();
    let mut all = parsed(&read(CHECKS));
    all.retain(|kept| kept.title != check.title);
    all.push(check.clone());
    let place = |check: &Check| SUBJECTS.iter().position(|name| *name == check.subject);
    all.sort_by_key(|check| (place(check), check.title.clone()));
    fs::write(at(CHECKS), document(&all)).unwrap();
    let readme = read("README.md");
    if let Some((before, _, after)) = around(&readme) {
        let [first, last] = MARKS;
        let text = format!("{before}{first}{}{last}{after}", summary(&all));
        fs::write(at("README.md"), text).unwrap();
    }
}

/// The README before, within and after its table.
fn around(readme: &str) -> Option<(&str, &str, &str)> {
    let (before, rest) = readme.split_once(MARKS[0])?;
    let (table, after) = rest.split_once(MARKS[1])?;
    Some((before, table, after))
}

fn document(all: &[Check]) -> String {
    let sections: Vec<String> = all.iter().map(section).collect();
    format!("{HEAD}\n{}", sections.join("\n"))
}

fn section(check: &Check) -> String {
    let Check {
        subject,
        title,
        source,
        rows,
    } = check;
    let mut text = format!("## {title}\n\n`{subject}.rs`. Source: {source}\n{COLUMNS}");
    for row in rows {
        let _ = writeln!(text, "| {} |", cells(row).join(" | "));
    }
    text
}

/// A number with at most so many decimals.
fn short(number: f64, digits: usize) -> String {
    let text = format!("{number:.digits$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

fn cells(row: &Row) -> [String; 6] {
    let digits = row.digits();
    let number = |number: f64| short(number, digits.max(2));
    let (published, tolerance) = match row.allowed {
        Allowed::Within {
            published,
            tolerance,
        } => (number(published), format!("± {}", number(tolerance))),
        Allowed::Between(low, high) => {
            let range = format!("{} to {}", number(low), number(high));
            (range, "inside".to_owned())
        }
        Allowed::AtMost(most) => (format!("at most {}", number(most)), String::new()),
        Allowed::AtLeast(least) => (format!("at least {}", number(least)), String::new()),
    };
    let measured = format!("{:.digits$}", row.measured);
    let standing = match (row.holds(), row.fitted) {
        (true, false) => "",
        (true, true) => "fitted",
        (false, false) => "**missed**",
        (false, true) => "fitted, **missed**",
    };
    let (name, unit) = (row.name.clone(), row.unit.clone());
    [
        name,
        unit,
        published,
        measured,
        tolerance,
        standing.to_owned(),
    ]
}

/// The checks of a written table.
fn parsed(text: &str) -> Vec<Check> {
    let sections = text.split("\n## ").skip(1);
    sections
        .map(|section| {
            let mut lines = section.lines().filter(|line| !line.is_empty());
            let title = lines.next().unwrap();
            let (subject, source) = lines.next().unwrap().split_once(".rs`. Source: ").unwrap();
            Check {
                subject: subject.trim_start_matches('`').to_owned(),
                title: title.to_owned(),
                source: source.to_owned(),
                rows: lines.skip(2).map(parsed_row).collect(),
            }
        })
        .collect()
}

fn parsed_row(line: &str) -> Row {
    let cells: Vec<&str> = line.split('|').map(str::trim).collect();
    let [_, name, unit, published, measured, tolerance, standing, _] = cells[..] else {
        panic!("no row of checks: {line}");
    };
    let number = |text: &str| -> f64 { text.parse().unwrap() };
    let allowed = if let Some(most) = published.strip_prefix("at most ") {
        Allowed::AtMost(number(most))
    } else if let Some(least) = published.strip_prefix("at least ") {
        Allowed::AtLeast(number(least))
    } else if let Some((low, high)) = published.split_once(" to ") {
        Allowed::Between(number(low), number(high))
    } else {
        Allowed::Within {
            published: number(published),
            tolerance: number(tolerance.trim_start_matches("± ")),
        }
    };
    Row {
        name: name.to_owned(),
        unit: unit.to_owned(),
        allowed,
        measured: number(measured),
        fitted: standing.starts_with("fitted"),
    }
}

/// Whether two texts differ in no more than the last digit of their numbers.
fn alike(one: &str, other: &str) -> bool {
    let (one, other) = (one.lines(), other.lines());
    one.clone().count() == other.clone().count()
        && one.zip(other).all(|(one, other)| {
            let [one, other] = [one, other].map(|line| line.split('|').collect::<Vec<_>>());
            one.len() == other.len()
                && (one.iter().zip(&other).enumerate()).all(|(column, (one, other))| {
                    // The name of a figure may hold numbers too.
                    one == other || (column > 2 && alike_cells(one, other))
                })
        })
}

fn alike_cells(one: &str, other: &str) -> bool {
    let decimals = |word: &str| word.split_once('.').map_or(0, |(_, after)| after.len());
    let words = |text: &str| -> Vec<String> { text.split(' ').map(str::to_owned).collect() };
    let (one, other) = (words(one), words(other));
    one.len() == other.len()
        && one.iter().zip(&other).all(|(one, other)| {
            let last_digit = 0.1_f64.powi(decimals(one).max(decimals(other)) as i32);
            let (Ok(a), Ok(b)) = (one.parse::<f64>(), other.parse::<f64>()) else {
                return one == other;
            };
            (a - b).abs() <= 1.01 * last_digit
        })
}

/// A line for each check: what counts as evidence, and the figure that is farthest off.
fn summary(all: &[Check]) -> String {
    let mut text = README_COLUMNS.to_owned();
    for check in all {
        let counted = |fitted: bool| check.rows.iter().filter(move |row| row.fitted == fitted);
        let (evidence, fitted) = (counted(false).count(), counted(true).count());
        let held = counted(false).filter(|row| row.holds()).count();
        let figures = match (evidence, fitted) {
            (evidence, 0) => evidence.to_string(),
            (0, fitted) => format!("{fitted} fitted"),
            (evidence, fitted) => format!("{evidence}, and {fitted} fitted"),
        };
        let held = match (evidence, held) {
            (0, _) => "–".to_owned(),
            (evidence, held) if evidence == held => "all".to_owned(),
            (_, held) => format!("{held}, others **missed**"),
        };
        let of = |row: &&Row| row.allowed.used(row.measured);
        let farthest = counted(evidence == 0).max_by(|a, b| of(a).total_cmp(&of(b)));
        let _ = writeln!(
            text,
            "| {} | {} | {figures} | {held} | {} |",
            check.title,
            check.source,
            farthest.map(farthest_off).unwrap_or_default()
        );
    }
    text
}

fn farthest_off(row: &Row) -> String {
    let [name, unit, published, measured, tolerance, _] = cells(row);
    let unit = match unit.as_str() {
        "" | "°" => unit,
        _ => format!(" {unit}"),
    };
    let allowed = if tolerance.starts_with('±') {
        format!("{published} {tolerance}")
    } else {
        published
    };
    format!("{name}: {measured}{unit} ({allowed})")
}

#[test]
fn the_readme_has_a_line_for_every_check() {
    if std::env::var_os("WRITE_CHECKS").is_some() {
        return;
    }
    let all = parsed(&read(CHECKS));
    assert!(all.len() > 20, "{}", all.len());
    let readme = read("README.md");
    let (_, table, _) = around(&readme).unwrap();
    assert!(
        alike(table, &summary(&all)),
        "{table}\nnow:\n{}",
        summary(&all)
    );
}

/// Nothing stands in the table that no test finds any longer, and nothing that was written by hand.
#[test]
fn every_check_of_the_table_is_one_of_the_tests() {
    if std::env::var_os("WRITE_CHECKS").is_some() {
        return;
    }
    let text = read(CHECKS);
    let all = parsed(&text);
    assert_eq!(document(&all), text);
    for check in all {
        let folder = if check.subject == "extract" {
            "import"
        } else {
            "published"
        };
        let tests = read(&format!("tests/{folder}/{}.rs", check.subject));
        assert!(
            tests.contains(&format!("\"{}\"", check.title)),
            "{}",
            check.title
        );
    }
}

#[test]
fn rounding_is_told_from_a_change() {
    let line = |measured: &str| format!("| 3 wood | yd | 243 | {measured} | ± 9.7 |  |\n");
    assert!(alike(&line("244.1"), &line("244.2")));
    assert!(alike(&line("244.95"), &line("244.96")));
    assert!(!alike(&line("244.1"), &line("244.3")));
    assert!(!alike(
        &line("244.1"),
        &line("244.1").replace("3 wood", "4 wood")
    ));
    assert!(!alike(&line("244.1"), &line("244.1").replace("243", "245")));
    assert!(!alike(&line("244.1"), &line("244.1").repeat(2)));
}

#[test]
fn what_is_fitted_is_no_evidence_and_what_is_missed_is_said() {
    let mut check = Check::new(module_path!(), "drives", "nobody");
    check.within("long", "yd", (250.0, 5.0), 254.0);
    check.within("short", "yd", (200.0, 5.0), 194.0);
    check.between("spin", "", 0.6..=0.8, 0.7).fitted_if(true);
    let told = summary(std::slice::from_ref(&check));
    let line = "| drives | nobody | 2, and 1 fitted | 1, others **missed** | short: 194.0 yd (200 ± 5) |\n";
    assert_eq!(told, format!("{README_COLUMNS}{line}"));
    check.subject = "flight".to_owned();
    let text = document(&[check.clone()]);
    assert_eq!(parsed(&text), [check]);
}
