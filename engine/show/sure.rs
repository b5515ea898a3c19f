//! Why a part costs what it does, and how sure that is, in words.

use crate::cost::card::{Card, NOTHING, PartCost};
use crate::cost::detail::Detail;
use crate::cost::start::Start;
use crate::cost::sure::Sure;
use crate::cost::traits::TraitCost;
use crate::files::joined;
use crate::player::traits::Trait;
use crate::round::part::Part;

use super::card::{spoken, strokes};
use super::page::tied;
use super::start::{ask, by_nobody};
use super::table::{number, pct};

/// A trait is named when it alone would give this much, strokes a round.
const NAMED: f64 = 0.1;

/// Where speed gives so much of what a part saves, the part is not what is at fault.
const OF_THE_BAG: f64 = 0.6;

/// What about a part costs most, in a sentence; nothing where no trait alone gives anything.
pub(super) fn traits(detail: &Detail, cost: &PartCost) -> Option<String> {
    let named = |found: &&TraitCost| found.saved >= NAMED;
    let mut most = detail.traits[cost.part as usize].iter().filter(named);
    let first = most.next()?;
    let given = |found: &TraitCost| tied(&number(found.saved, 1));
    let second = most.next().map_or_else(String::new, |second| {
        format!(", {} alone {}", standard(second.which), given(second))
    });
    let [whole, of_first] = [cost.saved, first.saved].map(|strokes| number(strokes, 1));
    // What a trait gives more than the whole part, others of it take back.
    let of_it = match first.saved > cost.saved && of_first != whole {
        true => " (the part as a whole gives less: other things in it are better than the goal's)",
        false => " of it",
    };
    let of_the_bag = match first.which == Trait::Speed && first.saved >= OF_THE_BAG * cost.saved {
        true => {
            " Speed is a matter of the whole bag: `--keep-speed` shows what is left without it."
        }
        false => "",
    };
    Some(format!(
        "At the goal's standard {} alone would give {}{of_it}{second}.{of_the_bag}",
        standard(first.which),
        given(first)
    ))
}

/// A trait as it is said when it is at the goal's standard.
const fn standard(which: Trait) -> &'static str {
    match which {
        Trait::Speed => "ball speed",
        Trait::Bias => "start line and curve",
        Trait::Direction => "a narrower spread to the sides",
        Trait::Distance => "distance control",
        Trait::HeightAndSpin => "height and spin",
        Trait::Mishits => "fewer and better mishits",
    }
}

/// A part that is the first in so many of the golfers drawn is worth telling of.
const OFTEN: f64 = 0.2;
/// A chance lower by no more than this is about the same.
const NEARLY: f64 = 0.1;

/// How sure it is that the part to work on is the one; nothing where none is named.
pub(super) fn sureness(card: &Card) -> Option<String> {
    let sure = &card.detail.as_ref()?.sure;
    match card.start() {
        Start::At(cost) if cost.saved >= NOTHING => Some(of_the_first(card, sure, cost)),
        Start::NotMeasured(measured, ahead) => Some(of_both(card, sure, measured, ahead)),
        _ => None,
    }
}

/// The strokes of an interval: `between 1.2 and 2.9 strokes`.
pub(super) fn from_to(low: f64, high: f64) -> String {
    match (number(low, 1), strokes(high)) {
        (least, _) if least == number(high, 1) => format!("about {}", strokes(high)),
        (least, most) => format!("between {} and {most}", tied(&least)),
    }
}

fn of_the_first(card: &Card, sure: &Sure, cost: &PartCost) -> String {
    let [low, high] = sure.intervals[cost.part as usize];
    let mut said = format!(
        "How sure: nine times in ten it would save {}; the chance that it really is the first to work on is {}.",
        from_to(low, high),
        first_chance(sure, cost)
    );
    let ahead = sure.ahead.and_then(|part| card.part(part));
    if let Some(ahead) = ahead.filter(|ahead| ahead.part != cost.part) {
        let name = spoken(ahead.part);
        let but = match ahead.carried {
            true => "",
            false => ", but there is no club for them in the bag",
        };
        said += &format!(" More strokes go in {name}: that is clear{but}.");
    }
    said += &rival(card, sure, cost);
    let told = [Some(cost.part), sure.ahead, sure.rival];
    said += &as_often(card, sure, told, cost);
    said
}

/// A part that nobody measured and that is the first about as often as another is; nothing where it was told of already.
fn as_often(card: &Card, sure: &Sure, told: [Option<Part>; 3], than: &PartCost) -> String {
    let chance = |cost: &PartCost| sure.first_chances[cost.part as usize];
    let often = |cost: &&PartCost| chance(cost) >= OFTEN && chance(cost) >= chance(than) - NEARLY;
    let open = card.parts.iter().filter(|cost| cost.is_open());
    // Who counts chips counts putts: that is asked for once.
    let is_asked = |cost: &PartCost| ask(card, cost.part) == ask(card, than.part);
    let others = open.filter(|cost| !told.contains(&Some(cost.part)) && !is_asked(cost));
    let other = others
        .filter(often)
        .max_by(|a, b| chance(a).total_cmp(&chance(b)));
    other.map_or_else(String::new, |other| {
        format!(
            " About as often ({}) most is to be saved in your {}, {}: {}.",
            first_chance(sure, other),
            spoken(other.part),
            by_nobody(card, other.part),
            ask(card, other.part)
        )
    })
}

/// What a part is not told apart from, and what would tell; nothing where it is.
fn rival(card: &Card, sure: &Sure, cost: &PartCost) -> String {
    let rival = sure.rival.and_then(|part| card.part(part));
    rival
        .filter(|rival| rival.part != cost.part)
        .map_or_else(String::new, |rival| apart(card, [cost, rival], sure))
}

/// How sure it is where the first part is one that nobody measured.
fn of_both(card: &Card, sure: &Sure, measured: Option<&PartCost>, ahead: &PartCost) -> String {
    let between = |cost: &PartCost| {
        let [low, high] = sure.intervals[cost.part as usize];
        format!("between {} and {}", tied(&number(low, 1)), strokes(high))
    };
    let start = format!(
        "How sure: nine times in ten your {}, as far as it can be told from the handicap, would save {}",
        spoken(ahead.part),
        between(ahead)
    );
    match measured {
        None => format!("{start}.{}", rival(card, sure, ahead)),
        Some(cost) => format!(
            "{start}, and your {} {}; the chance that most is to be saved in the latter is {}.{}",
            spoken(cost.part),
            between(cost),
            first_chance(sure, cost),
            as_often(card, sure, [Some(cost.part), Some(ahead.part), None], ahead)
        ),
    }
}

fn first_chance(sure: &Sure, cost: &PartCost) -> String {
    tied(&pct(Some(100.0 * sure.first_chances[cost.part as usize])))
}

/// Parts that save as much as each other, to this share of the greater.
const AS_MUCH: f64 = 0.25;

fn as_costly(one: &PartCost, other: &PartCost) -> bool {
    (one.saved - other.saved).abs() <= AS_MUCH * one.saved.max(other.saved)
}

/// What to measure: of what nobody measured, the part of which it is least known what it would save.
fn asked(card: &Card, sure: &Sure) -> String {
    let width = |cost: &PartCost| {
        let [low, high] = sure.intervals[cost.part as usize];
        high - low
    };
    let open = card.parts.iter().filter(|cost| cost.is_open());
    let widest = open.max_by(|a, b| width(a).total_cmp(&width(b)));
    let widest = widest.filter(|cost| width(cost) > NOTHING);
    widest.map_or_else(String::new, |cost| format!(": {}", ask(card, cost.part)))
}

/// What would tell the part to work on apart from its rival.
fn apart(card: &Card, [cost, rival]: [&PartCost; 2], sure: &Sure) -> String {
    let name = spoken(rival.part);
    if !rival.carried {
        return format!(
            " It cannot be told apart from {name}, for which there is no club in the bag: `try` tells what one would save."
        );
    }
    if !rival.measured {
        return format!(
            " It cannot be told apart from {name}, {}: {}.",
            by_nobody(card, rival.part),
            ask(card, rival.part)
        );
    }
    let more = &sure.more_shots;
    if more.is_empty() {
        let why = match as_costly(cost, rival) {
            true => "they cost nearly the same, so take the one that is easier to mend".to_owned(),
            false => format!(
                "too much hangs on what nobody measured{}",
                asked(card, sure)
            ),
        };
        return format!(
            " It cannot be told apart from {name}, and no number of shots that anyone hits in a lesson or two would: {why}."
        );
    }
    let shots: Vec<String> = more
        .iter()
        .map(|more| tied(&format!("{} with the {}", more.shots, more.club)))
        .collect();
    let list = joined(&shots, "and");
    format!(" It cannot be told apart from {name} yet: more shots would, {list}.")
}
