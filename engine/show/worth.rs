//! What a change between two sessions is worth, for people.

use crate::cost::worth::Worth;
use crate::files::joined;
use crate::player::club::Club;
use crate::player::compare::{Comparison, FEWEST};

use super::card::strokes;
use super::page::tied;
use super::table::number;

/// What the change is worth in strokes, as far as the shots can tell.
pub(super) fn worth_words(worth: Option<&Worth>, course: &str, compared: &Comparison) -> String {
    let Some(worth) = worth else {
        return format!(
            "Nothing is told in strokes: that takes {FEWEST} shots or more with a club before and after."
        );
    };
    let all = Moved {
        strokes: worth.strokes,
        interval: worth.low.zip(worth.high),
        scores: [worth.before, worth.after],
    };
    let every = "with every compared club as it was hit after,";
    let words = match &worth.real {
        Some(real) if real.clubs.len() < compared.clubs.len() => {
            let own = Moved {
                strokes: real.strokes,
                interval: Some((real.low, real.high)),
                scores: [worth.before, real.after],
            };
            format!(
                "On {course}, with the {} as hit after and the other clubs as before, {}. The changes of the others could \
                 be chance; {every} {}.",
                clubs(&real.clubs),
                own.said(),
                all.said()
            )
        }
        Some(_) => format!("On {course}, {every} {}.", all.said()),
        None => format!(
            "On {course}, {every} {}; with no change real so far, that too could be chance.",
            all.said()
        ),
    };
    let few = compared.clubs.iter();
    let few: Vec<Club> = few
        .filter(|club| club.shots.iter().any(|shots| *shots < FEWEST))
        .map(|club| club.club)
        .collect();
    let left_out = match few.is_empty() {
        true => String::new(),
        false => format!(
            " Left out of it, with fewer than {FEWEST} shots on a side: {}.",
            clubs(&few)
        ),
    };
    format!("{words}{left_out}")
}

/// How the expected score moves, and how sure that is.
struct Moved {
    strokes: f64,
    interval: Option<(f64, f64)>,
    scores: [f64; 2],
}

impl Moved {
    fn said(&self) -> String {
        let Some((low, high)) = self.interval else {
            return format!(
                "the expected score {}",
                moved(self.strokes, self.scores[0], self.scores[1])
            );
        };
        if [low, high, self.strokes]
            .iter()
            .all(|shown| number(*shown, 1) == "0.0")
        {
            return "the expected score stays the same to a tenth of a stroke".to_owned();
        }
        let between = |low, high| tied(&format!("{} to {}", number(low, 1), number(high, 1)));
        if low <= 0.0 && high >= 0.0 {
            return format!(
                "there is no visible effect on the score: {} saved a round, but nine times in ten anything from {} \
                 (below zero it rises)",
                strokes(self.strokes),
                between(low, high)
            );
        }
        let score = moved(self.strokes, self.scores[0], self.scores[1]);
        // The score rises by what is not saved.
        let between = match self.strokes < 0.0 {
            true => between(-high, -low),
            false => between(low, high),
        };
        format!("the expected score {score}, nine times in ten by {between}")
    }
}

/// How the expected score moves, as it is said.
pub(super) fn moved(saved: f64, before: f64, after: f64) -> String {
    let moves = match number(saved, 1).as_str() {
        "0.0" => return "stays the same".to_owned(),
        shown if shown.starts_with('-') => format!("rises by {} a round", strokes(-saved)),
        _ => format!("falls by {} a round", strokes(saved)),
    };
    let scores = tied(&format!("({} to {})", number(before, 1), number(after, 1)));
    format!("{moves} {scores}")
}

/// Clubs by name, as a sentence lists them.
pub(super) fn clubs(clubs: &[Club]) -> String {
    let names: Vec<String> = clubs.iter().map(|club| tied(&club.to_string())).collect();
    joined(&names, "and")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_interval_is_told_the_way_the_score_moves() {
        let said = |strokes: f64, interval: (f64, f64)| {
            let scores = [95.1, 95.1 - strokes];
            let moved = Moved {
                strokes,
                interval: Some(interval),
                scores,
            };
            moved.said().replace('\u{a0}', " ")
        };
        let rises = said(-3.9, (-7.1, -0.6));
        assert!(rises.contains("rises by 3.9 strokes"), "{rises}");
        assert!(rises.ends_with("by 0.6 to 7.1"), "{rises}");
        let falls = said(3.9, (0.6, 7.1));
        assert!(falls.contains("falls by 3.9 strokes"), "{falls}");
        assert!(falls.ends_with("by 0.6 to 7.1"), "{falls}");
    }
}
