//! What the reader should know of a player beside the figures; told on stderr.

use costcard::cost::figures::{Figures, GivenUp, HoleFigures};
use costcard::cost::infer::Inference;
use costcard::files::joined;
use costcard::player::batch::Batch;
use costcard::player::{Golfer, Origin};
use costcard::show::figures::{apart as told_of_apart, given_up as told_of_given_up};
use costcard::show::inference::inference as told;
use costcard::show::intake::passed_over;
use costcard::show::reading::with_plus;

use super::output;

/// The notes of the player's file.
pub fn of_file(golfer: &Golfer) {
    for note in &golfer.notes {
        output::note(&format!("{}: {note}", golfer.name));
    }
}

/// Rows and columns of sheets that were passed over.
pub fn of_sheets(batches: &[&Batch]) {
    for note in passed_over(batches) {
        output::note(&note);
    }
}

/// What nobody measured of a player, so that it comes from the handicap, but for what was inferred. A level is all
/// assumption, and says nothing.
pub fn assumed(golfer: &Golfer, inference: Option<&Inference>) {
    let mut names = from(golfer, |origin| origin == Origin::Assumed);
    let is_level = names.len() == golfer.clubs.len() + SKILLS;
    if is_level {
        return;
    }
    speed_alone(golfer);
    if let Some(inference) = inference {
        names.retain(|name| inference.parts.iter().all(|part| part.name() != name));
    }
    if !names.is_empty() {
        output::note(&format!(
            "{}: nobody measured {}: assumed from a handicap of {}",
            golfer.name,
            joined(&names, "and"),
            with_plus(golfer.handicap.to_string())
        ));
    }
}

/// Clubs of which the player's file states a ball speed and nothing else.
fn speed_alone(golfer: &Golfer) {
    let clubs = golfer.clubs.iter();
    let clubs = clubs.filter(|entry| entry.is_speed_alone());
    let names: Vec<String> = clubs.map(|entry| entry.club.to_string()).collect();
    if !names.is_empty() {
        output::note(&format!(
            "{}: of the {} the file states the ball speed alone: the rest is assumed from a handicap of {}",
            golfer.name,
            joined(&names, "and"),
            with_plus(golfer.handicap.to_string())
        ));
    }
}

/// What was inferred of a player's short game.
pub fn inferred(golfer: &Golfer, inference: Option<&Inference>) {
    if let Some(inference) = inference {
        let told = told(inference, golfer.handicap);
        output::note(&format!("{}: {told}", golfer.name));
    }
}

/// Holes that a golfer gave up, or whose figures his rounds do not bear out.
pub fn of_holes(golfer: &str, figures: &Figures) {
    given_up(golfer, &figures.given_up());
    apart(golfer, figures.apart());
}

/// Holes whose figures a golfer's rounds do not bear out.
pub fn apart<'a>(golfer: &str, holes: impl IntoIterator<Item = &'a HoleFigures>) {
    let holes: Vec<&HoleFigures> = holes.into_iter().collect();
    if let Some(told) = told_of_apart(golfer, &holes) {
        output::note(&told);
    }
}

/// Holes that golfers gave up, so that their scores are no scores.
pub fn given_up(golfer: &str, holes: &[GivenUp]) {
    if let Some(told) = told_of_given_up(golfer, holes) {
        output::note(&told);
    }
}

/// Short game, sand and putting.
const SKILLS: usize = 3;

/// Clubs and skills whose figures come from where `wanted` says.
pub fn from(golfer: &Golfer, wanted: impl Fn(Origin) -> bool) -> Vec<String> {
    let skills: [_; SKILLS] = [
        ("short game", golfer.short_game.1),
        ("sand", golfer.sand.1),
        ("putting", golfer.putting.1),
    ];
    let clubs = golfer
        .clubs
        .iter()
        .map(|entry| (entry.club.to_string(), entry.origin));
    let skills = skills.map(|(name, origin)| (name.to_owned(), origin));
    clubs
        .chain(skills)
        .filter(|(_, origin)| wanted(*origin))
        .map(|(name, _)| name)
        .collect()
}
