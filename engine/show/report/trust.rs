//! How sure the figures are, what was measured and what was assumed, and the cautions.

use maud::{Markup, html};

use super::{Report, Visited};
use crate::player::{Golfer, Origin};
use crate::show::card::notes;
use crate::show::figures::given_up;

pub fn trust(report: &Report<'_>, home: &Visited<'_>) -> Markup {
    let names = report.names(home);
    html! {
        section.trust aria-labelledby="trust" {
            h2 #trust { "How sure this is, and what was assumed" }
            @if let Some(said) = measured(report.player) { p { (said) } }
            ul {
                @for note in notes(names, home.card) { li { (note) } }
                @for note in &report.player.notes { li { (note) } }
                @for note in unfinished(report, home) { li { (note) "." } }
            }
            p {
                "Warm up before you practise. Stop when something hurts: pain or an injury is for a licensed \
                 professional. On the course, its own rules and everybody's safety come first."
            }
        }
    }
}

/// Holes that the player or the goal's golfer does not always finish.
fn unfinished(report: &Report<'_>, home: &Visited<'_>) -> impl Iterator<Item = String> {
    let card = home.card;
    [(report.player, &card.player), (report.goal, &card.goal)]
        .into_iter()
        .filter_map(|(golfer, figures)| given_up(&golfer.name, &figures.given_up()))
}

/// How many measured shots stand behind which club, what the player's file states, and what nobody measured.
fn measured(player: &Golfer) -> Option<String> {
    let shots = player.clubs.iter().filter_map(|entry| match entry.origin {
        Origin::Measured { strikes } => Some(format!("{} {strikes}", entry.club)),
        Origin::Stated | Origin::Assumed => None,
    });
    let shots: Vec<String> = shots.collect();
    let skills = [
        ("short game", player.short_game.1),
        ("bunker shots", player.sand.1),
        ("putting", player.putting.1),
    ];
    let clubs = player.clubs.iter();
    let clubs = clubs.map(|entry| (entry.club.to_string(), entry.origin));
    let all: Vec<(String, Origin)> = clubs
        .chain(skills.map(|(name, origin)| (name.to_owned(), origin)))
        .collect();
    let from = |wanted: Origin| {
        let names = all.iter().filter(|(_, origin)| *origin == wanted);
        let names: Vec<&str> = names.map(|(name, _)| name.as_str()).collect();
        names.join(", ")
    };
    let told = [
        ("Measured shots behind it", shots.join(", ")),
        ("Stated in the player's file", from(Origin::Stated)),
        ("Nobody measured", from(Origin::Assumed)),
    ];
    let [(_, shots), (_, stated), _] = &told;
    if shots.is_empty() && stated.is_empty() {
        return None;
    }
    let told = told.iter().filter(|(_, names)| !names.is_empty());
    let told: Vec<String> = told
        .map(|(what, names)| format!("{what}: {names}."))
        .collect();
    Some(told.join(" "))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::expect_used)] // a test may stop

    use super::*;
    use crate::player::{Sex, levels};

    #[test]
    fn what_is_measured_stated_and_neither_is_told_apart() {
        let mut golfer = levels::level(12.0, Sex::Men).expect("a level");
        golfer.clubs.truncate(3);
        assert_eq!(measured(&golfer), None);
        golfer.clubs[1].origin = Origin::Stated;
        golfer.putting.1 = Origin::Stated;
        let names: Vec<String> = golfer
            .clubs
            .iter()
            .map(|own| own.club.to_string())
            .collect();
        let [first, second, third] = [&names[0], &names[1], &names[2]];
        let stated = format!("Stated in the player's file: {second}, putting.");
        assert_eq!(
            measured(&golfer),
            Some(format!(
                "{stated} Nobody measured: {first}, {third}, short game, bunker shots."
            ))
        );
        golfer.clubs[0].origin = Origin::Measured { strikes: 14 };
        assert_eq!(
            measured(&golfer),
            Some(format!(
                "Measured shots behind it: {first} 14. {stated} Nobody measured: {third}, short game, bunker shots."
            ))
        );
    }
}
