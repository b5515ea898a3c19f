//! Why a part costs what it does, and how sure that is, in words.

use crate::cost::card::{Card, NOTHING, PartCost};
use crate::cost::detail::Detail;
use crate::cost::sure::MoreShots;
use crate::cost::traits::TraitCost;
use crate::player::traits::Trait;
use crate::round::part::Part;

use super::card::{spoken, strokes};
use super::page::tied;
use super::table::{number, pct};

/// A trait is named when it alone would give this much, strokes a round.
const NAMED: f64 = 0.1;

/// What about a part costs most, in a sentence; nothing where no trait alone gives anything.
pub(super) fn traits(detail: &Detail, part: Part) -> Option<String> {
    let named = |found: &&TraitCost| found.saved >= NAMED;
    let mut most = detail.traits[part as usize].iter().filter(named);
    let first = most.next()?;
    let given = |found: &TraitCost| tied(&number(found.saved, 1));
    let second = most.next().map_or_else(String::new, |second| {
        format!(", {} alone {}", standard(second.which), given(second))
    });
    Some(format!(
        "At the goal's standard {} alone would give {} of it{second}.",
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

/// How sure it is that the part to work on is the one.
pub(super) fn sureness(card: &Card) -> Option<String> {
    let (detail, part) = (card.detail.as_ref()?, card.work_on?);
    let cost = card.parts.iter().find(|cost| cost.part == part)?;
    if cost.saved < NOTHING {
        return None;
    }
    let sure = &detail.sure;
    let [low, high] = sure.intervals[part as usize];
    let chance = pct(Some(100.0 * sure.first_chances[part as usize]));
    let mut said = format!(
        "How sure: nine times in ten it would save between {} and {}; the chance that it really is the first to work on is {}.",
        tied(&number(low, 1)),
        strokes(high),
        tied(&chance)
    );
    if let Some(rival) = sure.rival.and_then(|rival| of(card, rival)) {
        said += &apart(rival, &sure.more_shots);
    }
    Some(said)
}

fn of(card: &Card, part: Part) -> Option<&PartCost> {
    card.parts.iter().find(|cost| cost.part == part)
}

/// What would tell the part to work on apart from its rival.
fn apart(rival: &PartCost, more: &[MoreShots]) -> String {
    let name = spoken(rival.part);
    if !rival.measured {
        return format!(
            " It cannot be told apart from {name}, which nobody measured: count those for a few rounds."
        );
    }
    if more.is_empty() {
        return format!(
            " It cannot be told apart from {name}, and no number of shots that anyone hits in a lesson or two would: \
             they cost nearly the same, so take the one that is easier to mend."
        );
    }
    let shots: Vec<String> = more
        .iter()
        .map(|more| tied(&format!("{} with the {}", more.shots, more.club)))
        .collect();
    let list = match shots.as_slice() {
        [init @ .., last] if !init.is_empty() => format!("{} and {last}", init.join(", ")),
        all => all.concat(),
    };
    format!(" It cannot be told apart from {name} yet: more shots would, {list}.")
}
