//! What was inferred of a player's short game, in words.

use crate::cost::infer::Inference;
use crate::files::joined;
use crate::player::levels::TOUR_HANDICAP;
use crate::round::part::Part;

use super::reading::index;

/// What was inferred of a player off `handicap`, in a sentence or two.
#[must_use]
pub fn inference(inference: &Inference, handicap: f64) -> String {
    let (own, found) = (index(handicap), index(inference.index));
    if inference.parts.is_empty() {
        let than = match inference.index > handicap {
            true => "worse",
            false => "better",
        };
        return format!(
            "Shots and handicap do not fit: played as it was measured and counted, this game would be off {found} here, \
             {than} than off {own}. What follows goes by what was measured and counted."
        );
    }
    let skills = skills(&inference.parts);
    if inference.fits {
        let makes = match (inference.index - handicap).abs() < 0.1 {
            true => String::new(),
            false => format!(" With that it would be off {found}: near enough to be so."),
        };
        return format!(
            "With these long shots, playing off {own} needs the {skills} of {}, as is assumed here.{makes}",
            golfers(inference.handicap)
        );
    }
    let verdict = if inference.index > handicap {
        format!("nobody plays off {own}")
    } else {
        format!("anybody plays better than off {own}")
    };
    format!(
        "Shots and handicap do not fit: with these long shots {verdict}. Even with the {skills} of {}, as is assumed \
         here, it would be off {found}.",
        golfers(inference.handicap)
    )
}

/// Golfers of a handicap; tour professionals at the best end.
fn golfers(handicap: f64) -> String {
    if handicap <= TOUR_HANDICAP {
        "a tour professional".to_owned()
    } else {
        format!("golfers off {}", index(handicap))
    }
}

/// Parts as they are said aloud.
fn skills(parts: &[Part]) -> String {
    let words: Vec<&str> = parts.iter().map(|part| spoken(*part)).collect();
    joined(&words, "and")
}

const fn spoken(part: Part) -> &'static str {
    match part {
        Part::Sand => "bunker play",
        other => other.name(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [Part; 3] = [Part::ShortGame, Part::Sand, Part::Putting];

    fn said(parts: &[Part], handicap: f64, found: f64, fits: bool) -> String {
        let found = Inference {
            parts: parts.to_vec(),
            handicap,
            index: found,
            fits,
        };
        inference(&found, 6.0)
    }

    #[test]
    fn what_fits_says_whose_short_game_it_takes() {
        assert_eq!(
            said(&ALL, 2.0, 6.02, true),
            "With these long shots, playing off 6 needs the short game, bunker play and putting of golfers off 2, as is \
             assumed here."
        );
    }

    #[test]
    fn where_nothing_is_open_the_index_of_what_was_measured_is_told() {
        assert_eq!(
            said(&[], 6.0, 9.5, false),
            "Shots and handicap do not fit: played as it was measured and counted, this game would be off 9.5 here, worse \
             than off 6. What follows goes by what was measured and counted."
        );
    }

    #[test]
    fn shots_and_handicap_that_do_not_fit_say_how_far_they_are_apart() {
        assert_eq!(
            said(&[Part::Putting], TOUR_HANDICAP, 9.1, false),
            "Shots and handicap do not fit: with these long shots nobody plays off 6. Even with the putting of a tour \
             professional, as is assumed here, it would be off 9.1."
        );
        assert!(said(&ALL, 36.0, 4.0, false).contains("anybody plays better than off 6"));
    }
}
