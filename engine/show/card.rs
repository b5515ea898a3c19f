//! The cost card, in words a player understands.

use crate::cost::card::{Card, NOTHING, PartCost};
use crate::cost::detail::Detail;
use crate::cost::figures::LabelCount;
use crate::cost::infer::Inference;
use crate::cost::start::Start;
use crate::cost::traits::TraitCost;
use crate::files::joined;
use crate::player::club::Club;
use crate::player::traits::Trait;
use crate::round::part::Part;

use super::figures::beside;
use super::inference::inference;
use super::page::{Page, tied};
use super::reading::index;
use super::start::advice;
use super::sure::sureness;
use super::table::{number, pct, table, text};

/// Who is on the card.
#[derive(Debug, Clone, Copy)]
pub struct Names<'a> {
    /// The player.
    pub player: &'a str,
    /// The player's handicap index.
    pub handicap: f64,
    /// The goal's handicap index.
    pub goal: f64,
    /// Whether the goal's golfers are taken at the player's own ball speed.
    pub keep_speed: bool,
    /// The course.
    pub course: &'a str,
}

/// The whole card. `asked` is the part the player came to work on.
#[must_use]
pub fn card(
    names: Names<'_>,
    card: &Card,
    rules: &[String],
    asked: Option<Part>,
    page: Page,
) -> String {
    let mut paragraphs = vec![title(names), scores(names, card)];
    paragraphs.extend(told(names, card));
    paragraphs.push(advice(names, card).join(" ").trim_end().to_owned());
    paragraphs.extend(sureness(card));
    paragraphs.extend(asked.and_then(|asked| answer(card, asked)));
    paragraphs.extend(rules_in_force(rules));
    let mut out = String::new();
    for paragraph in paragraphs {
        out += &page.paragraph(&paragraph);
        out.push('\n');
    }
    out += &part_table(card, page);
    out.push('\n');
    out += &figure_table(names, card, page);
    out.push('\n');
    if let Some(counts) = &card.counts {
        out += &count_table(counts, page);
        out.push('\n');
    }
    for note in notes(names, card) {
        out += &page.item(&note);
    }
    out
}

/// The scripts in force in a sentence; none where there are none.
pub(super) fn rules_in_force(rules: &[String]) -> Option<String> {
    (!rules.is_empty()).then(|| format!("Rules in force: {}.", rules.join(", ")))
}

pub(super) fn title(names: Names<'_>) -> String {
    let (own, goal) = (index(names.handicap), index(names.goal));
    let at_speed = if names.keep_speed {
        ", by golfers who hit the ball as fast as the player does"
    } else {
        ""
    };
    format!(
        "{}, off {own}, at {}. Goal: {goal}{at_speed}.",
        names.player, names.course
    )
}

pub(super) fn scores(names: Names<'_>, card: &Card) -> String {
    let (own, theirs) = (card.player.score_mean, card.goal.score_mean);
    let goal = index(names.goal);
    let gap = match own - theirs {
        gap if gap > NOTHING => format!("the gap is {} a round", strokes(gap)),
        gap if gap < -NOTHING => format!("that is {} a round better than the goal", strokes(-gap)),
        _ => "there is no gap".into(),
    };
    format!("Average score {own:.1}; golfers off {goal} average {theirs:.1} here: {gap}.")
}

/// What was inferred of the short game.
pub(super) fn told(names: Names<'_>, card: &Card) -> Option<String> {
    let found = card.inference.as_ref()?;
    Some(inference(found, names.handicap))
}

/// So many strokes, in words as they are said.
pub(super) fn strokes(count: f64) -> String {
    match number(count, 1).as_str() {
        "1.0" => tied("1 stroke"),
        shown => tied(&format!("{shown} strokes")),
    }
}

/// Whether a part is spoken of as many things: `tee shots`.
pub(super) fn is_plural(part: Part) -> bool {
    part.name().ends_with('s')
}

/// A part as it is said aloud after `your`.
pub(super) const fn spoken(part: Part) -> &'static str {
    match part {
        Part::LongApproach => "long approach shots",
        Part::Sand => "bunker shots",
        other => other.name(),
    }
}

pub(super) fn find(card: &Card, part: Part) -> Option<&PartCost> {
    card.part(part)
}

/// Why a part costs: what it does to fairways, greens and holds. Nothing is said that does not point that way.
pub(super) fn reason(names: Names<'_>, card: &Card, cost: &PartCost) -> String {
    let goal = index(names.goal);
    let (player, target) = (&card.player, &card.goal);
    match cost.part {
        Part::TeeShots => from_tee(card, cost, &goal),
        Part::LongApproach | Part::MidIrons | Part::ShortIrons => {
            let greens = [player.greens_hit_pct, target.greens_hit_pct];
            let hit = match greens.map(|pct| share(Some(pct))) {
                [own, theirs] if greens[0] < greens[1] && own != theirs => format!(
                    "You hit {own} of the greens in regulation; golfers off {goal} hit {theirs}."
                ),
                _ => String::new(),
            };
            format!("{}{hit}", holds(cost, &goal))
        }
        Part::ShortGame | Part::Sand if cost.lost < NOTHING => String::new(),
        Part::ShortGame | Part::Sand => format!(
            "You play {:.1} such shots a round, and each costs you {:.2} strokes more than it costs golfers off {goal}.",
            cost.shots,
            cost.lost / cost.shots.max(0.01),
        ),
        Part::Putting
            if player.putts_mean <= target.putts_mean
                && player.three_putts_mean <= target.three_putts_mean =>
        {
            String::new()
        }
        Part::Putting => format!(
            "You take {:.1} putts a round with {:.1} three-putts; golfers off {goal} take {:.1} with {:.1}.",
            player.putts_mean, player.three_putts_mean, target.putts_mean, target.three_putts_mean,
        ),
    }
}

/// Why tee shots cost: fairways missed and penalties, or, where there are no more of these, length.
fn from_tee(card: &Card, cost: &PartCost, goal: &str) -> String {
    let (player, target) = (&card.player, &card.goal);
    let [own, theirs] = [player, target].map(|figures| share(figures.fairways_hit_pct));
    let is_straighter = player.fairways_hit_pct >= target.fairways_hit_pct
        && player.penalties_mean < target.penalties_mean + NOTHING;
    let is_length = |detail: &Detail| {
        let traits = &detail.traits[cost.part as usize];
        let lacks = |one: &TraitCost| one.which == Trait::Speed && one.saved >= NOTHING;
        traits.is_empty() || traits.iter().any(lacks)
    };
    match is_straighter {
        false => format!(
            "You hit {own} of the fairways and take {:.1} penalty strokes a round; golfers off {goal} hit {theirs} and take {:.1}.",
            player.penalties_mean, target.penalties_mean,
        ),
        true if card.detail.as_ref().is_none_or(is_length) => format!(
            "You hit {own} of the fairways, golfers off {goal} {theirs}, and they take no fewer penalty strokes: what the tee \
             shots lack is length."
        ),
        true => String::new(),
    }
}

/// A share that stays on one line of a sentence.
fn share(share: Option<f64>) -> String {
    tied(&pct(share))
}

fn holds(cost: &PartCost, goal: &str) -> String {
    match (cost.holds.held_pct(), cost.goal_holds.held_pct()) {
        // A player who holds more greens than the goal asks costs his strokes elsewhere.
        (Some(own), Some(theirs)) if theirs - own >= 1.0 => format!(
            "Of 100 {} that pitch on a green, {own:.0} of yours stay on it; golfers off {goal} keep {theirs:.0}. ",
            shots_of(cost.part)
        ),
        _ => String::new(),
    }
}

const fn shots_of(part: Part) -> &'static str {
    match part {
        Part::LongApproach => "long approach shots",
        Part::MidIrons => "mid irons",
        _ => "short irons and wedges",
    }
}

/// How often a round has the shots that a rule counts.
pub(super) fn count_table(counts: &[LabelCount], page: Page) -> String {
    if counts.is_empty() {
        return "No shot was counted by the rule.\n".into();
    }
    let mut rows = table(["counted by the rule", "a round"], 1);
    for count in counts {
        rows.add_row([count.label.clone(), number(count.per_round, 2)]);
    }
    text(&rows, page)
}

/// What working on the part the player came for would give.
pub(super) fn answer(card: &Card, asked: Part) -> Option<String> {
    let cost = find(card, asked)?;
    let came = format!("You came for {}:", asked.name());
    Some(match cost.saved {
        _ if matches!(card.start(), Start::At(first) if first.part == asked) => {
            let sure = card.detail.as_ref().map(|detail| &detail.sure);
            match sure.is_none_or(|sure| sure.told_apart) {
                true => format!("{came} that is the right place to start."),
                false => format!("{came} as far as these shots tell, that is the place to start."),
            }
        }
        saved if saved.abs() < NOTHING => format!("{came} that would save nothing to speak of."),
        saved if saved < 0.0 => format!("{came} you are better at that than the goal asks."),
        saved => format!("{came} that would save {} a round.", strokes(saved)),
    })
}

fn part_table(card: &Card, page: Page) -> String {
    let (headings, all) = part_rows(card);
    let mut rows = table(headings, 1);
    for cells in all {
        rows.add_row(cells);
    }
    text(&rows, page)
}

/// The parts, the costliest first, with what they come to together: headings of two lines, and rows.
pub(super) fn part_rows(card: &Card) -> (Vec<&'static str>, Vec<Vec<String>>) {
    let mut parts: Vec<&PartCost> = card.parts.iter().collect();
    parts.sort_by(|a, b| b.order().total_cmp(&a.order()));
    let mut headings = vec!["part of\nthe game", "would\nsave"];
    if card.detail.is_some() {
        headings.extend([
            "nine times\nin ten",
            "chance it\nis first",
            "share of\nthe gap",
        ]);
    }
    headings.extend(["lost\nnow", "shots\na round"]);
    headings.extend(ordered_by_rule(card).then_some("worth by\nthe rule"));
    let mut rows = Vec::new();
    let decimals = worth_decimals(&card.parts);
    for cost in parts {
        let mut cells = vec![
            format!("{}{}", cost.part.name(), mark(cost.measured)),
            number(cost.saved, 1),
        ];
        cells.extend(
            card.detail
                .iter()
                .flat_map(|detail| detail_cells(detail, cost.part)),
        );
        cells.extend([number(cost.lost, 1), number(cost.shots, 1)]);
        cells.extend(cost.worth.map(|worth| number(worth, decimals)));
        rows.push(cells);
    }
    let lost: f64 = card.parts.iter().map(|cost| cost.lost).sum();
    let mut cells = vec!["all together".into(), String::new()];
    if let Some(detail) = &card.detail {
        cells.extend([String::new(), String::new(), number(detail.gap, 1)]);
    }
    cells.extend([number(lost, 1), String::new()]);
    cells.extend(ordered_by_rule(card).then(String::new));
    rows.push(cells);
    (headings, rows)
}

/// How sure a part's saving is, and its share of the gap.
fn detail_cells(detail: &Detail, part: Part) -> [String; 3] {
    let part = part as usize;
    let [low, high] = detail.sure.intervals[part];
    [
        format!("{} to {}", number(low, 1), number(high, 1)),
        pct(Some(100.0 * detail.sure.first_chances[part])),
        number(detail.shares[part], 1),
    ]
}

/// Whether a rule orders the parts.
pub(super) fn ordered_by_rule(card: &Card) -> bool {
    card.parts.iter().any(|cost| cost.worth.is_some())
}

/// Decimals that show three figures of the greatest worth, whose size nobody knows beforehand.
fn worth_decimals(parts: &[PartCost]) -> usize {
    let sizes = parts.iter().filter_map(|cost| cost.worth).map(f64::abs);
    let greatest = sizes.fold(1e-4, f64::max);
    (2 - greatest.log10().floor() as i32).clamp(0, 6) as usize
}

/// The mark of a part nobody measured.
pub(super) const fn mark(measured: bool) -> &'static str {
    if measured { "" } else { " *" }
}

fn figure_table(names: Names<'_>, card: &Card, page: Page) -> String {
    let goal = format!("off {}", index(names.goal));
    beside(["player", &goal], &[], [&card.player, &card.goal], page)
}

const NINE_IN_TEN: &str = "Nine times in ten: the savings of golfers whose shots could as well be these, or whose \
                           assumed skills differ as golfers of one handicap do; the rounds' own luck has no part in it.";
const LEFT_OVER: &str = "What handicap and shots leave over between them is all given to the parts that were inferred; \
                         nine times in ten and the chances share it among all that is open. So a saving may stand at an \
                         end of what is likely.";
const SHARE: &str = "Share of the gap: what the part saves in the mean over all orders in which the parts could reach \
                     the goal (Shapley); the shares add up to the expected gap.";

pub(super) fn notes(names: Names<'_>, card: &Card) -> Vec<String> {
    let goal = index(names.goal);
    let mut notes = vec![
        format!(
            "Would save: how much lower the average score is when this part alone is played as golfers off {goal} play \
             it{}.",
            with_more_clubs(&card.beyond_bag)
        ),
        "Lost now: what the part gives away to them, shot by shot (below zero: gains on them); the parts add up to \
         the gap but for the luck of the rounds played."
            .into(),
        "Greens held: of the full shots that pitch on a green, those that stay on it.".into(),
    ];
    if card.detail.is_some() {
        notes.insert(1, NINE_IN_TEN.into());
        notes.insert(2, SHARE.into());
        if card.parts.iter().any(|cost| card.is_another_likely(cost)) {
            notes.insert(2, LEFT_OVER.into());
        }
    }
    if ordered_by_rule(card) {
        let which = if card.parts.iter().any(|cost| cost.measured) {
            "that was measured and would"
        } else {
            "that would"
        };
        notes.push(format!(
            "Worth by the rule: what the script in force makes of a part; the parts are ordered by it, and the first \
             {which} save strokes is the one to work on."
        ));
    }
    if card.parts.iter().any(|cost| !cost.measured) {
        notes.push(assumed(names, card));
    }
    if let Some([left, played]) = card.left_in_the_bag {
        notes.push(format!(
            "The {left} stays in the bag: from the tee the {played} does better here, but as golfers off {} hit it, for \
             nobody measured it. Hit it in the bay, or say that it is not carried.",
            index(names.handicap)
        ));
    }
    notes.push("Estimates from a model, not promises.".into());
    notes
}

/// A goal's golfer brings his own clubs to a part.
fn with_more_clubs(clubs: &[Club]) -> String {
    let names: Vec<String> = clubs.iter().map(Club::to_string).collect();
    let are = match names.len() {
        0 => return String::new(),
        1 => "is",
        _ => "are",
    };
    format!(
        ", with the {} too, which {are} not in this bag",
        joined(&names, "and")
    )
}

/// What the mark of an unmeasured part means.
fn assumed(names: Names<'_>, card: &Card) -> String {
    let own = index(names.handicap);
    let inferred = |part: Part| {
        let found = card.inference.as_ref();
        found.is_some_and(|found| found.parts.contains(&part))
    };
    let mut open = card.parts.iter().filter(|cost| !cost.measured);
    let level = card.inference.as_ref().and_then(Inference::level);
    let level = match level {
        None => format!("that of a golfer off {own}"),
        Some(level) if open.all(|cost| inferred(cost.part)) => {
            format!("that of a golfer off {}", index(level))
        }
        Some(level) => format!(
            "that of a golfer off {own}, or where it was inferred off {}",
            index(level)
        ),
    };
    let without: Vec<&str> = card
        .parts
        .iter()
        .filter(|cost| !cost.carried)
        .map(|cost| spoken(cost.part))
        .collect();
    let without = match without.is_empty() {
        true => String::new(),
        false => format!(
            " There is no club for {} in the bag: what that would save, the goal's clubs would.",
            joined(&without, "and")
        ),
    };
    let mut open = card.parts.iter().filter(|cost| !cost.measured);
    let partly = match open.any(|cost| card.is_partly_measured(cost.part)) {
        true => ", or the clubs it is played with here",
        false => "",
    };
    format!("* Assumed: nobody measured it{partly}, so it is {level}.{without}")
}
