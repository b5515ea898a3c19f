//! What a file is, told from its text, so that a fault can be told even where the text is broken.

use std::fmt;

use costcard::files::{Fault, Faults, Source, as_key};

/// What a file is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A player, or a level, which is a player in whose file everything is stated.
    Player,
    /// A course.
    Course,
    /// A sheet of strikes.
    Strikes,
    /// A sheet of scores.
    Scores,
    /// A script.
    Script,
    /// A study.
    Study,
    /// What a sheet of strikes calls its columns.
    ColumnMap,
    /// The pins of a day.
    Pins,
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// Keys and titles that only a course has.
const OF_A_COURSE: [&str; 5] = ["holes", "tees", "conditions", "defaults", "rating"];
/// Keys and titles that only a study has.
const OF_A_STUDY: [&str; 3] = ["players", "courses", "combinations"];
/// Keys and titles that only a column map has; one within a player file stands under `map`.
const OF_A_MAP: [&str; 5] = ["columns", "flipped", "separator", "decimal", "encoding"];
/// The column of a sheet of pins; shots that tell it name a club too.
const OF_PINS: &str = "hole";
/// Columns that only a sheet of scores has.
const OF_SCORES: [&str; 5] = [
    "course_rating",
    "slope_rating",
    "gross",
    "adjusted_gross",
    "hole_scores",
];

impl Kind {
    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Player => "player",
            Self::Course => "course",
            Self::Strikes => "strikes",
            Self::Scores => "scores",
            Self::Script => "script",
            Self::Study => "study",
            Self::ColumnMap => "column map",
            Self::Pins => "pins",
        }
    }

    /// The kind of a text; none when it is none of them.
    pub fn of(source: &Source) -> Option<Self> {
        let lines = || {
            let text = source.text.lines().map(str::trim);
            text.filter(|line| !line.is_empty() && !line.starts_with('#'))
        };
        let is_script = source.name.to_lowercase().ends_with(".rhai");
        if is_script || lines().any(|line| line.starts_with("fn ") && line.contains('(')) {
            return Some(Self::Script);
        }
        let is_sheet = source.name.to_lowercase().ends_with(".csv");
        let first_line = lines().next().unwrap_or_default();
        let columns = || first_line.split([',', ';', '\t', '|']).map(as_column);
        if columns().any(|column| OF_SCORES.contains(&column.as_str())) {
            return Some(Self::Scores);
        }
        let has = |name: &str| columns().any(|column| column == name);
        if has(OF_PINS) && !has("club") {
            return Some(Self::Pins);
        }
        if is_sheet {
            return Some(Self::Strikes);
        }
        let keys = keys(&source.text);
        let has_any = |of: &[&str]| keys.iter().any(|key| of.contains(&key.as_str()));
        // A study may have conditions, as a course has.
        if has_any(&OF_A_STUDY) {
            return Some(Self::Study);
        }
        if has_any(&OF_A_COURSE) {
            return Some(Self::Course);
        }
        if !has_any(&["map"]) && has_any(&OF_A_MAP) {
            return Some(Self::ColumnMap);
        }
        let first = lines().next()?;
        if first.contains('=') || first.starts_with('[') {
            return Some(Self::Player);
        }
        if first.contains([',', ';', '\t']) {
            return Some(Self::Strikes);
        }
        // A broken first line may still be followed by a table.
        lines()
            .any(|line| line.contains('='))
            .then_some(Self::Player)
    }
}

/// A heading as the readers of sheets take it.
fn as_column(heading: &str) -> String {
    as_key(heading.trim().trim_matches('"').trim())
}

/// The keys at the top of a TOML file. Where it is broken, the words that its lines begin with.
fn keys(text: &str) -> Vec<String> {
    if let Ok(table) = toml::from_str::<toml::Table>(text) {
        return table.keys().cloned().collect();
    }
    let lines = text.lines().map(str::trim);
    lines.filter_map(key).map(str::to_owned).collect()
}

/// The word a line of TOML begins with, without the brackets of a title; none where it is neither that nor a value's.
fn key(line: &str) -> Option<&str> {
    let is_one = line.starts_with('[') || line.contains('=');
    let line = line.trim_start_matches('[').trim_start();
    let word = line.split([' ', '=', ']', '.']).next();
    word.filter(|_| is_one)
}

/// The fault of a file that is nothing this program reads.
pub fn unknown(source: &Source) -> Faults {
    let (message, hint) = if source.text.trim().is_empty() {
        (
            "this file is empty",
            "see `costcard --help` for what a command reads",
        )
    } else {
        (
            "this is neither a player, nor a course, nor a sheet of strikes or scores, nor a script",
            "players and courses are TOML files of `key = value` lines, strikes and scores CSV files, scripts end in `.rhai`",
        )
    };
    whole_file(source, message.to_owned(), hint.to_owned())
}

/// A fault of a file as a whole.
pub fn whole_file(source: &Source, message: String, hint: String) -> Faults {
    Fault {
        source: source.clone(),
        span: None,
        message,
        hint: Some(hint),
    }
    .into()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kind(name: &str, text: &str) -> Option<Kind> {
        Kind::of(&Source::new(name, text))
    }

    #[test]
    fn the_kind_is_told_from_the_text() {
        assert_eq!(
            kind("a.toml", "name = \"A\"\n[[holes]]\npar = 4"),
            Some(Kind::Course)
        );
        assert_eq!(
            kind("a", "# mine\n[conditions]\nwind_mph = 8"),
            Some(Kind::Course)
        );
        assert_eq!(
            kind("a.toml", "players = []\nconditions = []"),
            Some(Kind::Study)
        );
        assert_eq!(kind("a.toml", "name = \"holes\""), Some(Kind::Player));
        let described = "name = 'A'\ndescription = '''Chips well;\nholes = most short putts\nplayers like her\n'''\n";
        assert_eq!(kind("a.toml", described), Some(Kind::Player));
        // Broken, it is told by its lines.
        let broken = "name = \"A\nplayers like her\n[[holes]]\npar = 4\n";
        assert_eq!(kind("a.toml", broken), Some(Kind::Course));
        assert_eq!(
            kind("a.toml", "# mine\n[columns]\nclub = \"C\""),
            Some(Kind::ColumnMap)
        );
        assert_eq!(
            kind("a.toml", "name = \"A\"\n[map.columns]\nclub = \"C\""),
            Some(Kind::Player)
        );
        assert_eq!(
            kind("a.toml", "name = \"A\"\n[map]\nseparator = \";\"\n"),
            Some(Kind::Player)
        );
        assert_eq!(kind("a.csv", "hole,on_paces\n1,9"), Some(Kind::Pins));
        assert_eq!(kind("a.csv", "Hole; On Paces\n1;9"), Some(Kind::Pins));
        assert_eq!(kind("a.txt", "club,ball_speed_mph\n"), Some(Kind::Strikes));
        assert_eq!(kind("a.csv", ""), Some(Kind::Strikes));
        assert_eq!(kind("a.rhai", ""), Some(Kind::Script));
        assert_eq!(
            kind("a", "// Mine.\nfn hold(landing, green) { 2 }"),
            Some(Kind::Script)
        );
        assert_eq!(
            kind("a.csv", "date, course_rating,slope_rating\n"),
            Some(Kind::Scores)
        );
        assert_eq!(
            kind("a.csv", "date;course_rating;slope_rating\n"),
            Some(Kind::Scores)
        );
        assert_eq!(
            kind("a.csv", "Date,\"Course Rating\",Slope Rating\n"),
            Some(Kind::Scores)
        );
    }

    #[test]
    fn the_kind_is_told_where_the_text_is_broken() {
        assert_eq!(kind("a.toml", "name\n[[holes\npar = "), Some(Kind::Course));
        assert_eq!(kind("a.toml", "name\nsex = \"men\""), Some(Kind::Player));
    }

    #[test]
    fn other_texts_are_of_no_kind() {
        assert_eq!(kind("a.toml", ""), None);
        assert_eq!(kind("README", "Dear reader"), None);
    }
}
