//! Where to start, in words: the part to work on, or why none can be named yet and what would tell.

use crate::cost::card::{Card, NOTHING, PartCost};
use crate::cost::start::{MUCH, SHOTS_EACH, Start};
use crate::files::joined;
use crate::player::BagClub;
use crate::player::club::Club;
use crate::round::part::Part;

use super::card::{Names, is_plural, ordered_by_rule, reason, spoken, strokes};
use super::page::tied;
use super::reading::{golfers_off, index};
use super::sure::traits;
use super::table::number;

/// What to work on first, and why; the reason is empty where nothing would save any strokes.
pub(super) fn advice(names: Names<'_>, card: &Card) -> [String; 2] {
    match card.start() {
        Start::TooFewShots(strikes) => too_few(names, card, strikes),
        Start::NotMeasured(measured, ahead) => not_measured(card, measured, ahead),
        Start::Beyond => nothing(&format!(
            "As a whole this game is better than the goal, and no part would save as much as half a stroke: name a goal \
             below {}.",
            index(names.goal)
        )),
        Start::Misfit => [
            "This game is better than the goal as it is, which its handicap does not explain: no part is named before the \
             two fit."
                .to_owned(),
            "Check the handicap, whether it is a man's or a woman's, and the sheet's units and clubs.".to_owned(),
        ],
        Start::At(cost) if cost.saved < NOTHING => {
            nothing("No single part would lower this score by as much as a tenth of a stroke.")
        }
        Start::At(cost) => work_on(names, card, cost),
        Start::Nowhere => nothing(
            "No single part would lower this score: the player is at the goal's standard or beyond.",
        ),
    }
}

fn nothing(said: &str) -> [String; 2] {
    [said.to_owned(), String::new()]
}

fn too_few(names: Names<'_>, card: &Card, strikes: usize) -> [String; 2] {
    let clubs = named(&card.clubs_to_begin_with());
    let (why, share) = match strikes {
        0 => (
            "No shot was measured, so no part can be named to work on".to_owned(),
            "every",
        ),
        1 => (
            "One measured shot is too few to name a part to work on".to_owned(),
            "nearly every",
        ),
        many => (
            format!("{many} measured shots in all are too few to name a part to work on"),
            "nearly every",
        ),
    };
    let is_speed_stated = card.bag.iter().any(BagClub::is_speed_alone);
    let but = match is_speed_stated {
        true => "But for how far the stated ball speeds carry, until then",
        false => "Until then",
    };
    [
        format!("{why}: hit {SHOTS_EACH} each with the {clubs} first."),
        format!(
            "{but} {share} figure here is that of {}.",
            golfers_off(names.handicap)
        ),
    ]
}

fn not_measured(card: &Card, measured: Option<&PartCost>, ahead: &PartCost) -> [String; 2] {
    let from = match measured {
        Some(cost) if !cost.part.is_full() || card.strikes() == 0 => "that was measured",
        _ => "you hit in the bay",
    };
    let first = match measured {
        None => nothing_costs(card, from),
        Some(cost) if cost.saved < MUCH => format!(
            "Nothing {from} costs much against this goal: {} {}.",
            spoken(cost.part),
            tied(&number(cost.saved, 1))
        ),
        Some(cost) => format!(
            "Of what {from}, most would be saved in your {}: {} a round.",
            spoken(cost.part),
            strokes(cost.saved)
        ),
    };
    let which = if measured.is_some_and(|cost| cost.saved >= MUCH) {
        "more strokes"
    } else {
        "the strokes"
    };
    let article = if ahead.part == Part::ShortGame {
        "the "
    } else {
        ""
    };
    [
        first,
        format!(
            "If the handicap is right, {which} go in {article}{} ({}), {}: {}.",
            spoken(ahead.part),
            with_likely(card, ahead),
            by_nobody(card, ahead.part),
            ask(card, ahead.part)
        ),
    ]
}

/// That nothing that was measured costs anything; of a club that is left in the bag that says nothing.
fn nothing_costs(card: &Card, from: &str) -> String {
    match card.left_in_the_bag {
        None => format!("Nothing {from} costs anything against this goal."),
        Some([left, played]) => format!(
            "Your {left} is so costly from the tee that a {played} nobody measured is played in its place; of the rest, \
             nothing {from} costs anything against this goal."
        ),
    }
}

/// What a part saves, and what is likelier where that is another figure.
fn with_likely(card: &Card, cost: &PartCost) -> String {
    let saved = tied(&number(cost.saved, 1));
    match card.is_another_likely(cost) && !ordered_by_rule(card) {
        true => format!("{saved}, likelier {}", tied(&number(card.likely(cost), 1))),
        false => saved,
    }
}

fn work_on(names: Names<'_>, card: &Card, cost: &PartCost) -> [String; 2] {
    let why = card.detail.as_ref();
    let why = why.and_then(|detail| traits(detail, cost));
    let first = format!(
        "Work on your {} first: {}",
        spoken(cost.part),
        would_save(card, cost)
    );
    let because = format!(
        "{}{}{}",
        why.map_or_else(String::new, |why| format!("{why} ")),
        reason(names, card, cost),
        unmeasured(card, cost).unwrap_or_default()
    );
    [first, because]
}

/// What the part to work on would save: by the shots, and by what the handicap says of them where that is another figure.
fn would_save(card: &Card, cost: &PartCost) -> String {
    let saved = strokes(cost.saved);
    let measured = card.parts.iter().filter(|other| other.measured);
    let most = measured.max_by(|a, b| a.saved.total_cmp(&b.saved));
    let other = most.filter(|most| most.saved > cost.saved + NOTHING && !ordered_by_rule(card));
    if other.is_none() && !card.is_another_likely(cost) {
        return format!("that would save {saved} a round.");
    }
    let likely = |cost: &PartCost| tied(&number(card.likely(cost), 1));
    let mut said = format!(
        "by the shots alone that would save {saved} a round, but the handicap makes {} likelier.",
        likely(cost)
    );
    if let Some(other) = other {
        said += &format!(
            " By them your {} would save more, {}; likelier is {}.",
            spoken(other.part),
            tied(&number(other.saved, 1)),
            likely(other)
        );
    }
    said
}

/// A part that would come before the one to work on first, if it is as it is assumed.
fn unmeasured(card: &Card, first: &PartCost) -> Option<String> {
    let by_rule = ordered_by_rule(card);
    let order = |cost: &PartCost| cost.worth.unwrap_or_else(|| card.likely(cost));
    let open = card.parts.iter().filter(|cost| cost.is_open());
    let saving = open.filter(|cost| card.likely(cost) > NOTHING);
    let most = saving.max_by(|a, b| order(a).total_cmp(&order(b)))?;
    let least = if by_rule { 0.0 } else { NOTHING };
    (order(most) > order(first) + least).then(|| {
        let (it, is, it_is) = match is_plural(most.part) {
            true => ("them", "are", "they are"),
            false => ("it", "is", "it is"),
        };
        let more = if by_rule {
            format!("{is} worth more by the rule, if {it_is} as assumed")
        } else if card.is_another_likely(most) {
            format!(
                "would save more, likelier {} than the {} of the assumption",
                strokes(card.likely(most)),
                tied(&number(most.saved, 1))
            )
        } else {
            format!(
                "would save more, {}, if {it_is} as assumed",
                strokes(most.saved)
            )
        };
        let ask = match most.part.is_full() {
            true => ask(card, most.part),
            false => "count it".to_owned(),
        };
        let nobody = match card.is_partly_measured(most.part) {
            true => format!("most of {it} {is} played with clubs that nobody measured"),
            false => format!("nobody measured {it}"),
        };
        format!(
            " Your {} {more}; but {nobody}: {ask} before you believe it.",
            most.part.name()
        )
    })
}

/// That a part is not measured, or that the clubs it is played with are not.
pub(super) fn by_nobody(card: &Card, part: Part) -> &'static str {
    match card.is_partly_measured(part) {
        true => "which here are played mostly with clubs that nobody measured",
        false => "which nobody measured",
    }
}

/// What tells of a part that nobody measured: shots in the bay, or what can be counted on the course.
pub(super) fn ask(card: &Card, part: Part) -> String {
    if part.is_full() {
        let clubs = card.clubs_to_hit(part);
        let or_not = match (card.is_partly_measured(part), clubs.len()) {
            (false, _) => "",
            (true, 1) => ", or say that it is not carried",
            (true, _) => ", or say that they are not carried",
        };
        return format!("hit the {} in the bay{or_not}", named(&clubs));
    }
    let words = [
        (Part::ShortGame, "chips"),
        (Part::Sand, "bunker shots"),
        (Part::Putting, "putts"),
    ];
    // Beside the part itself those that may matter: nobody counts bunker shots where there are no bunkers.
    let is_asked = |asked: Part| {
        let cost = card.part(asked).filter(|cost| !cost.measured);
        asked == part || cost.is_some_and(|cost| cost.saved.max(card.likely(cost)) > NOTHING)
    };
    let open = words.into_iter().filter(|(part, _)| is_asked(*part));
    let open: Vec<&str> = open.map(|(_, word)| word).collect();
    format!("count {} for a few rounds", joined(&open, "and"))
}

fn named(clubs: &[Club]) -> String {
    let names: Vec<String> = clubs.iter().map(|club| tied(&club.to_string())).collect();
    joined(&names, "and")
}
