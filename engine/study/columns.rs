//! The columns of the two tables: what each holds, in which unit.

use std::fmt::Write;

pub use super::part_columns::PARTS;

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Holds {
    /// Words.
    Text,
    /// A whole number.
    Whole,
    /// A number.
    Number,
    /// `true` or `false`.
    YesNo,
}

impl Holds {
    /// The word for it in `columns.csv`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Text => "text",
            Self::Whole => "whole number",
            Self::Number => "number",
            Self::YesNo => "true or false",
        }
    }
}

/// A column of a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Column {
    /// Its name, the head of the column.
    pub name: &'static str,
    /// What it holds.
    pub holds: Holds,
    /// The unit of its numbers; empty where they have none.
    pub unit: &'static str,
    /// What it means.
    pub says: &'static str,
}

pub(super) const fn column(
    name: &'static str,
    holds: Holds,
    unit: &'static str,
    says: &'static str,
) -> Column {
    Column {
        name,
        holds,
        unit,
        says,
    }
}

use Holds::{Number, Text, Whole, YesNo};

/// What stands first in both tables: which cell, of which inputs.
pub const INPUTS: [Column; 16] = [
    column(
        "cell",
        Whole,
        "",
        "number of the cell in the study, from 1; the two tables belong together by it",
    ),
    column(
        "combination",
        Text,
        "",
        "name of the combination; empty where the study has none",
    ),
    column(
        "player",
        Text,
        "",
        "player as the study names it: file, demo:NAME or level:HANDICAP",
    ),
    column("course", Text, "", "course as the study names it"),
    column(
        "tees",
        Text,
        "",
        "tees the study asks for; empty for those the course file chooses",
    ),
    column(
        "pins",
        Text,
        "",
        "pins the study asks for; empty for those of the course file",
    ),
    column(
        "conditions",
        Text,
        "",
        "name of the conditions; empty for the course as its file has it",
    ),
    column(
        "rules",
        Text,
        "",
        "scripts in force before the course's own, or built in",
    ),
    column(
        "changes",
        Text,
        "",
        "changes of the player, made one after the other; empty for the player as he is",
    ),
    column(
        "goal_handicap",
        Number,
        "handicap index",
        "goal; a plus handicap is negative; empty without one",
    ),
    column(
        "player_hash",
        Text,
        "",
        "first 16 digits of the SHA-256 of the player file, or, where it names sheets, of the lines that sha256sum prints of it and them; of the name for demos and levels",
    ),
    column(
        "course_hash",
        Text,
        "",
        "the same of the course file, the scripts it names and the pin sheet",
    ),
    column(
        "rules_hash",
        Text,
        "",
        "the same of the scripts the study names; empty for the built-in rules",
    ),
    column("rounds", Whole, "rounds", "rounds played"),
    column("seed", Whole, "", "seed of the rounds"),
    column("version", Text, "", "version of costcard"),
];

/// What follows in `cells.csv`: the figures of `play`, and with a goal those of `rank`.
pub const FIGURES: [Column; 39] = [
    column("player_name", Text, "", "name in the player file"),
    column(
        "handicap",
        Number,
        "handicap index",
        "the player's handicap index",
    ),
    column("course_name", Text, "", "name in the course file"),
    column("holes", Whole, "holes", "holes of the course"),
    column("par", Whole, "strokes", "par of the course"),
    column(
        "length_yd",
        Number,
        "yards",
        "length of the course from the tees played",
    ),
    column(
        "score_mean",
        Number,
        "strokes a round",
        "mean score of the rounds",
    ),
    column(
        "score_sd",
        Number,
        "strokes a round",
        "standard deviation of a round's score",
    ),
    column(
        "expected_strokes",
        Number,
        "strokes a round",
        "expected score from the solved holes, free of the rounds' luck",
    ),
    column(
        "fairways_hit_pct",
        Number,
        "percent",
        "fairways hit from the tees of par 4s and 5s",
    ),
    column(
        "greens_hit_pct",
        Number,
        "percent",
        "greens hit in regulation",
    ),
    column(
        "greens_held_pct",
        Number,
        "percent",
        "full shots that pitched on a green and stayed on it",
    ),
    column("putts_mean", Number, "putts a round", "putts"),
    column(
        "three_putts_mean",
        Number,
        "greens a round",
        "greens with three putts or more",
    ),
    column(
        "penalties_mean",
        Number,
        "strokes a round",
        "penalty strokes",
    ),
    column(
        "holes_given_up_mean",
        Number,
        "holes a round",
        "holes given up after 40 strokes, the ball not in the hole; above zero the score is no score",
    ),
    column(
        "index",
        Number,
        "handicap index",
        "index that such rounds make; empty below 20 rounds and where no rating is defined",
    ),
    column(
        "course_rating",
        Number,
        "strokes",
        "course rating, stated or by play",
    ),
    column("bogey_rating", Number, "strokes", "bogey rating"),
    column("slope_rating", Whole, "", "slope rating, 55 to 155"),
    column(
        "assumed_short_game_of",
        Number,
        "handicap index",
        "handicap whose short game the player is given where nobody measured it and it was inferred",
    ),
    column("fits", YesNo, "", "whether shots and handicap fit"),
    column(
        "change_saved",
        Number,
        "strokes a round",
        "what the changes save, as `try` tells it: free of the luck of choices and rounds, and so better than a difference of scores; empty without changes",
    ),
    column(
        "goal_score_mean",
        Number,
        "strokes a round",
        "mean score of the goal's golfer on this course",
    ),
    column(
        "gap",
        Number,
        "strokes a round",
        "score_mean less goal_score_mean",
    ),
    column(
        "goal_fairways_hit_pct",
        Number,
        "percent",
        "fairways hit by the goal's golfer",
    ),
    column(
        "goal_greens_hit_pct",
        Number,
        "percent",
        "greens hit in regulation by the goal's golfer",
    ),
    column(
        "goal_greens_held_pct",
        Number,
        "percent",
        "greens held by the goal's golfer",
    ),
    column(
        "work_on",
        Text,
        "",
        "part to work on first: of the measured ones the one that saves most, with detail that is likely to; empty where none saves anything, or too few shots were measured",
    ),
    column(
        "work_on_saved",
        Number,
        "strokes a round",
        "what that part would save",
    ),
    column(
        "work_on_measured",
        YesNo,
        "",
        "whether the player's own shots stand behind it",
    ),
    column(
        "start",
        Text,
        "",
        "what the card says of it: `work on`, `measure`, `too few shots`, `beyond the goal`, `check the handicap` or `nothing`; without detail `measure` only where no measured part saves anything",
    ),
    column(
        "measure",
        Text,
        "",
        "the part to be measured before anything is said, where it says so",
    ),
    column(
        "too_few_shots",
        YesNo,
        "",
        "whether too few shots were measured to name a part",
    ),
    column(
        "told_apart",
        YesNo,
        "",
        "with detail: whether that part is told apart from every other",
    ),
    column(
        "shapley_sum",
        Number,
        "strokes a round",
        "with detail: sum of the parts' shares of the gap, the gap in expected score",
    ),
    column(
        "labels",
        Text,
        "",
        "shots a round by the label a rule counts them under, as label=number; label=number",
    ),
    column(
        "notes",
        Text,
        "",
        "what the player file gives to know, and holes whose rounds lie apart from what is expected",
    ),
    column(
        "error",
        Text,
        "",
        "why the cell has no figures; empty where it has",
    ),
];

/// The columns of `cells.csv`.
#[must_use]
pub fn of_cells() -> Vec<Column> {
    INPUTS.iter().chain(&FIGURES).copied().collect()
}

/// The columns of `parts.csv`.
#[must_use]
pub fn of_parts() -> Vec<Column> {
    INPUTS.iter().chain(&PARTS).copied().collect()
}

/// The place of a column of `cells.csv`.
#[must_use]
pub fn place(name: &str) -> Option<usize> {
    let mut all = INPUTS.iter().chain(&FIGURES);
    all.position(|column| column.name == name)
}

/// `columns.csv`: every column with its unit and meaning.
#[must_use]
pub fn described() -> String {
    let mut text = "table,column,holds,unit,meaning\n".to_owned();
    for (table, columns) in [("cells.csv", of_cells()), ("parts.csv", of_parts())] {
        for column in columns {
            let Column {
                name,
                holds,
                unit,
                says,
            } = column;
            let _ = writeln!(
                text,
                "{table},{name},{},{},\"{says}\"",
                holds.name(),
                quoted(unit)
            );
        }
    }
    text
}

fn quoted(text: &str) -> String {
    match text.contains(',') {
        true => format!("\"{text}\""),
        false => text.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_column_has_a_name_of_its_own_and_says_what_it_is() {
        for columns in [of_cells(), of_parts()] {
            for column in &columns {
                let twins = columns.iter().filter(|other| other.name == column.name);
                assert_eq!(twins.count(), 1, "{}", column.name);
                assert!(!column.says.is_empty() && !column.says.contains('"'));
                assert_eq!(place(column.name).is_some(), of_cells().contains(column));
            }
        }
        let lines = described().lines().count();
        assert_eq!(lines, 1 + of_cells().len() + of_parts().len());
    }
}
