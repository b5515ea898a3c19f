//! The cost card: a player beside the golfer of the goal, part by part.

use serde::Serialize;

use crate::course::Course;
use crate::files::Faults;
use crate::player::club::Club;
use crate::player::{BagClub, Golfer, Origin};
use crate::round::part::Part;
use crate::round::side::Side;
use crate::round::solve::Solved;
use crate::round::stage::Stage;
use crate::round::tally::{Holds, Tally};
use crate::rules::Rulebook;
use crate::rules::worth::PartFacts;

use super::clubs_played::{ClubsPlayed, beyond_bag, clubs_of};
use super::detail::{Detail, DetailDocument, PartDetailDocument};
use super::figures::{Figures, LabelCount, label_counts};
use super::infer::{self, Assume, Inference, InferenceDocument};
use super::known::Known;
use super::pair::Pair;
use super::rating;
use super::venue::{GOAL, PLAYER, RatedCourse, Venue, with_homes};
use super::{ByRules, PlayError};

pub use super::effort::Effort;

/// The cost card.
#[derive(Debug, Clone, PartialEq)]
pub struct Card {
    /// The player's figures.
    pub player: Figures,
    /// The figures of the goal's golfer on the same course.
    pub goal: Figures,
    /// Every part.
    pub parts: Vec<PartCost>,
    /// The player's clubs, longest first.
    pub bag: Vec<BagClub>,
    /// Which of them his full shots are played with.
    pub played: ClubsPlayed,
    /// Where his longest club is measured but left in the bag on the tee, and nobody measured the one that is played: both.
    pub left_in_the_bag: Option<[Club; 2]>,
    /// Clubs of the goal's golfer that the player would have more with a part of his game: see [`beyond_bag`].
    pub beyond_bag: Vec<Club>,
    /// The part to work on first: of those that were measured, the one of the highest worth by the rule in force, or,
    /// without one, that is likely to save most strokes ([`Sure::likely`](super::sure::Sure::likely) in detail); one that
    /// is only assumed where none of those saves any. None where no part does.
    pub work_on: Option<Part>,
    /// The player's shots by the label a rule counts them under.
    pub counts: Option<Vec<LabelCount>>,
    /// What was inferred of the player's short game; none where nothing was.
    pub inference: Option<Inference>,
    /// Why the parts cost what they do, and how sure that is; none where it was not asked for.
    pub detail: Option<Detail>,
}

/// What one part costs.
#[derive(Debug, Clone, PartialEq)]
pub struct PartCost {
    /// The part.
    pub part: Part,
    /// Strokes lost a round to the goal's golfer; negative where the player is better.
    pub lost: f64,
    /// Fall of the expected score when the goal's golfer plays this part and the player the rest.
    pub saved: f64,
    /// Whether the player's own shots stand behind it; otherwise it is assumed from the handicap.
    pub measured: bool,
    /// The clubs its shots are played with that nobody measured, the most played first; none near the green.
    pub open_clubs: Vec<Club>,
    /// Whether the player carries a club for it, or needs none.
    pub carried: bool,
    /// Shots a round, the player's.
    pub shots: f64,
    /// The player's full shots of this part that pitched on greens.
    pub holds: Holds,
    /// The goal's golfer's.
    pub goal_holds: Holds,
    /// Its worth by the rule that orders the parts; none without one.
    pub worth: Option<f64>,
}

impl PartCost {
    /// Whether nobody measured it, though there is a club for it.
    #[must_use]
    pub const fn is_open(&self) -> bool {
        !self.measured && self.carried
    }

    /// What the parts are ordered by: the rule's worth, or the strokes saved.
    #[must_use]
    pub fn order(&self) -> f64 {
        self.worth.unwrap_or(self.saved)
    }
}

/// Below this many strokes a round a part saves nothing to speak of.
pub const NOTHING: f64 = 0.05;

/// Figures of one golfer on a course, by the built-in rules.
#[must_use]
pub fn play(
    golfer: &Golfer,
    course: &Course,
    effort: Effort,
    done: &(dyn Fn(u64) + Sync),
) -> Figures {
    let (golfers, rules) = ([golfer], Rulebook::default());
    let stage = Stage::by_rules(course, &golfers, &rules);
    let banks = stage.hole_banks();
    let side = stage.side(|_| PLAYER);
    let venue = Venue {
        course,
        rules: &rules,
        stage: &stage,
        banks: &banks,
    };
    let solved = venue.solve(&side, None);
    let tally = venue.play(&solved, None, effort, done);
    Figures::new(course, &solved, &tally, effort.seed)
}

/// The cost card of `player` as he stands against `goal` on a course, by the built-in rules. `done` hears of rounds as
/// they are finished.
#[must_use]
pub fn card(
    player: &Golfer,
    goal: &Golfer,
    course: &Course,
    effort: Effort,
    done: &(dyn Fn(u64) + Sync),
) -> Card {
    let on = (course, &Rulebook::default());
    as_he_stands(player, goal, on, effort, None, done, |_, _| ()).0
}

/// The cost card of `player` as he stands, by the rules of a rulebook.
///
/// # Errors
/// The fault of a rule that failed.
pub fn card_by_rules(
    player: &Golfer,
    goal: &Golfer,
    (course, rules): ByRules<'_>,
    effort: Effort,
    done: &(dyn Fn(u64) + Sync),
) -> Result<Card, Faults> {
    let on = (course, rules);
    let (card, ()) = as_he_stands(player, goal, on, effort, None, done, |_, _| ());
    ordered(card, rules)
}

/// Rounds that [`card_assuming`] plays at most, those of a rating among them: what `done` hears of.
#[must_use]
pub fn rounds(player: &Golfer, course: &Course, effort: Effort, assume: Assume) -> u64 {
    let mut rounds = 2 * effort.rounds;
    if infer::is_wanted(player, &[course], assume) {
        rounds += infer::rounds(player, &[course], assume) + rating::rounds(course, player.sex);
    }
    rounds
}

/// The cost card by the rules of a rulebook, with what nobody measured of the player's short game inferred where that
/// is asked for and can be done; the rating it is inferred from is by the same rules.
///
/// # Errors
/// When the level tables are at fault, or a rule fails.
pub fn card_assuming(
    player: &Golfer,
    goal: &Golfer,
    (course, rules): ByRules<'_>,
    effort: Effort,
    assume: Assume,
    done: &(dyn Fn(u64) + Sync),
) -> Result<Card, PlayError> {
    let (card, ()) = card_and(
        player,
        goal,
        (course, rules),
        effort,
        assume,
        done,
        |_, _| (),
    )?;
    Ok(card)
}

/// The same card, and what `look` makes of it and of the holes as they stand solved, for the player and for the goal's
/// golfer: whoever needs them too need not solve them once more.
pub(super) fn card_and<R>(
    player: &Golfer,
    goal: &Golfer,
    (course, rules): ByRules<'_>,
    effort: Effort,
    assume: Assume,
    done: &(dyn Fn(u64) + Sync),
    look: impl FnOnce(&Card, [&[Solved<'_>]; 2]) -> R,
) -> Result<(Card, R), PlayError> {
    let wanted = infer::is_wanted(player, &[course], assume);
    let found = if wanted {
        rating::of_by_rules(course, rules, player.sex, done)?
    } else {
        None
    };
    rules.outcome()?;
    let Some(found) = found else {
        let known = Known::as_he_stands(player)?;
        let on = (course, rules);
        let (card, seen) = as_he_stands(player, goal, on, effort, Some(&known), done, look);
        return Ok((ordered(card, rules)?, seen));
    };
    let rated = RatedCourse {
        course,
        rules,
        rating: found.rating,
    };
    let (card, seen) = with_homes(&[player, goal], &[rated], |homes| {
        let inferred = infer::on(player, homes, done)?;
        let golfers = [&inferred.golfer, goal];
        let venue = homes[0].venue;
        let side = venue.stage.side_of(&golfers, |_| PLAYER);
        let own = venue.solve(&side, Some(homes[0].own));
        let known = Known::of(&inferred)?;
        let own = (&side, own.as_slice());
        let (mut card, seen) = compared(&golfers, venue, own, effort, Some(&known), done, look);
        card.inference = inferred.inference;
        Ok::<_, PlayError>((card, seen))
    })?;
    Ok((ordered(card, rules)?, seen))
}

fn as_he_stands<R>(
    player: &Golfer,
    goal: &Golfer,
    (course, rules): ByRules<'_>,
    effort: Effort,
    known: Option<&Known>,
    done: &(dyn Fn(u64) + Sync),
    look: impl FnOnce(&Card, [&[Solved<'_>]; 2]) -> R,
) -> (Card, R) {
    let golfers = [player, goal];
    let stage = Stage::by_rules(course, &golfers, rules);
    let banks = stage.hole_banks();
    let side = stage.side(|_| PLAYER);
    let venue = Venue {
        course,
        rules,
        stage: &stage,
        banks: &banks,
    };
    let own = venue.solve(&side, None);
    compared(&golfers, venue, (&side, &own), effort, known, done, look)
}

/// The card of two golfers at a venue, solved for the first: nothing to be shown before it is [`ordered`]. In detail
/// where it is told what is known of the player's skills.
pub(super) fn compared<R>(
    golfers: &[&Golfer],
    venue: Venue<'_>,
    own: (&Side, &[Solved<'_>]),
    effort: Effort,
    known: Option<&Known>,
    done: &(dyn Fn(u64) + Sync),
    look: impl FnOnce(&Card, [&[Solved<'_>]; 2]) -> R,
) -> (Card, R) {
    let goal_side = venue.stage.side_of(golfers, |_| GOAL);
    let solved = venue.solve(&goal_side, None);
    let target = Target {
        solved: &solved,
        tally: &venue.play(&solved, None, effort, done),
    };
    let card = against(golfers, venue, own, target, effort, known, done);
    let seen = look(&card, [own.1, &solved]);
    (card, seen)
}

/// The goal's golfer, the stage's number 1, solved and played.
#[derive(Debug, Clone, Copy)]
pub(super) struct Target<'a> {
    pub solved: &'a [Solved<'a>],
    pub tally: &'a Tally,
}

/// The same against a goal's golfer who was solved and played already.
pub(super) fn against(
    golfers: &[&Golfer],
    venue: Venue<'_>,
    (side, own): (&Side, &[Solved<'_>]),
    target: Target<'_>,
    effort: Effort,
    known: Option<&Known>,
    done: &(dyn Fn(u64) + Sync),
) -> Card {
    let pair = Pair::new(golfers, venue, (side, own), target.solved);
    let parts_saved = pair.saved_first();
    let tally = venue.play_and_count(own, Some(target.solved), effort, done);
    let tallies = [tally, target.tally.clone()];
    let played = ClubsPlayed::of(own, &tallies[PLAYER]);
    let parts: Vec<PartCost> = Part::ALL
        .into_iter()
        .zip(&parts_saved)
        .map(|(part, found)| part_cost((golfers[PLAYER], &played), part, found.saved, &tallies))
        .collect();
    let counts = venue.rules.counts();
    let detail = known.map(|known| {
        let first = |likely: &[f64]| first(&parts, Some(likely));
        pair.detail(&tallies[PLAYER], &parts_saved, first, known)
    });
    let likely = detail.as_ref().map(|detail| detail.sure.likely.as_slice());
    Card {
        player: Figures::new(venue.course, own, &tallies[PLAYER], effort.seed),
        goal: Figures::new(venue.course, target.solved, &tallies[GOAL], effort.seed),
        work_on: first(&parts, likely),
        counts: counts.then(|| label_counts(&tallies[PLAYER])),
        parts,
        bag: golfers[PLAYER].clubs.clone(),
        left_in_the_bag: played.left_in_the_bag(golfers[PLAYER]),
        beyond_bag: beyond_bag(golfers[PLAYER], golfers[GOAL]),
        played,
        inference: None,
        detail,
    }
}

/// The card with its parts weighed by the rule that orders them, once every rule has answered.
pub(super) fn ordered(mut card: Card, rules: &Rulebook) -> Result<Card, Faults> {
    rules.outcome()?;
    if let Some(rule) = rules.worth() {
        for cost in &mut card.parts {
            let facts = PartFacts {
                part: cost.part.name(),
                saved: cost.saved,
                lost: cost.lost,
                shots: cost.shots,
                measured: cost.measured,
            };
            cost.worth = Some(rule.worth(&facts)?);
        }
        card.work_on = first(&card.parts, None);
    }
    Ok(card)
}

fn part_cost(
    (player, played): (&Golfer, &ClubsPlayed),
    part: Part,
    saved: f64,
    [own, goal]: &[Tally; 2],
) -> PartCost {
    PartCost {
        part,
        lost: own.lost[part as usize] / own.rounds.max(1) as f64,
        saved,
        measured: measured(player, part, played),
        open_clubs: played.open(player, part),
        carried: carried(player, part),
        shots: own.per_round(own.shots[part as usize]),
        holds: own.holds[part as usize],
        goal_holds: goal.holds[part as usize],
        worth: None,
    }
}

/// A part is measured when the file says how the player plays it: the clubs that most of its shots are played with, by
/// more than a ball speed, or its figures. Where it has no shots any of its clubs will do.
pub(super) fn measured(player: &Golfer, part: Part, played: &ClubsPlayed) -> bool {
    if let Some(is_measured) = played.is_measured(player, part) {
        return is_measured;
    }
    let known = |origin: Origin| origin != Origin::Assumed;
    match part {
        Part::ShortGame => known(player.short_game.1),
        Part::Sand => known(player.sand.1),
        Part::Putting => known(player.putting.1),
        Part::TeeShots => player
            .clubs
            .first()
            .is_some_and(|longest| known(longest.told())),
        _ => clubs_of(&player.clubs, part).any(|entry| known(entry.told())),
    }
}

/// Whether a player carries a club of a part, or the part needs none of its own.
fn carried(player: &Golfer, part: Part) -> bool {
    part == Part::TeeShots || !part.is_full() || clubs_of(&player.clubs, part).next().is_some()
}

/// The part to work on first: of those that were measured and save something, the one of the highest worth by the rule
/// in force, or, without one, that is likely to save most. What nobody measured is assumed, and no ground for a lesson; it
/// comes first only where nothing that was measured saves anything to speak of, and never where there is no club for it.
fn first(parts: &[PartCost], likely: Option<&[f64]>) -> Option<Part> {
    let order = |cost: &PartCost| match likely {
        Some(likely) if cost.worth.is_none() => likely[cost.part as usize],
        _ => cost.order(),
    };
    let most = |least: f64, is_open: bool| {
        parts
            .iter()
            .filter(|cost| (cost.measured || is_open && cost.carried) && cost.saved > least)
            .max_by(|a, b| order(a).total_cmp(&order(b)))
            .map(|most| most.part)
    };
    most(NOTHING, false).or_else(|| most(0.0, true))
}

/// The card as other programs read it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CardDocument {
    score_mean: f64,
    goal_score_mean: f64,
    gap: f64,
    fairways_hit_pct: Option<f64>,
    goal_fairways_hit_pct: Option<f64>,
    greens_hit_pct: f64,
    goal_greens_hit_pct: f64,
    greens_held_pct: Option<f64>,
    goal_greens_held_pct: Option<f64>,
    parts: Vec<PartDocument>,
    work_on: Option<&'static str>,
    /// What the headline says: see [`Start::word`](super::start::Start::word).
    start: &'static str,
    /// The part it says to measure.
    measure: Option<&'static str>,
    beyond_bag: Vec<Club>,
    shots_measured: usize,
    too_few_shots: bool,
    rules: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    counts: Option<Vec<LabelCount>>,
    #[serde(flatten)]
    inference: InferenceDocument,
    #[serde(flatten)]
    detail: Option<DetailDocument>,
}

#[derive(Debug, Clone, PartialEq, Serialize)]
struct PartDocument {
    part: &'static str,
    lost: f64,
    saved: f64,
    measured: bool,
    /// By the rule that orders the parts, where there is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    worth: Option<f64>,
    #[serde(flatten)]
    detail: Option<PartDetailDocument>,
}

impl CardDocument {
    /// A card, and the scripts in force on it.
    #[must_use]
    pub fn new(card: &Card, rules: &Rulebook) -> Self {
        let (player, goal) = (&card.player, &card.goal);
        Self {
            score_mean: player.score_mean,
            goal_score_mean: goal.score_mean,
            gap: player.score_mean - goal.score_mean,
            fairways_hit_pct: player.fairways_hit_pct,
            goal_fairways_hit_pct: goal.fairways_hit_pct,
            greens_hit_pct: player.greens_hit_pct,
            goal_greens_hit_pct: goal.greens_hit_pct,
            greens_held_pct: player.greens_held_pct,
            goal_greens_held_pct: goal.greens_held_pct,
            parts: card
                .parts
                .iter()
                .map(|cost| PartDocument {
                    part: cost.part.name(),
                    lost: cost.lost,
                    saved: cost.saved,
                    measured: cost.measured,
                    worth: cost.worth,
                    detail: card.detail.as_ref().map(|detail| detail.of_part(cost.part)),
                })
                .collect(),
            work_on: card.named().map(Part::name),
            start: card.start().word(),
            measure: card.start().to_measure().map(Part::name),
            beyond_bag: card.beyond_bag.clone(),
            shots_measured: card.strikes(),
            too_few_shots: card.has_too_few_shots(),
            rules: rules.files().to_vec(),
            counts: card.counts.clone(),
            inference: card.inference.as_ref().into(),
            detail: card.detail.as_ref().map(DetailDocument::from),
        }
    }
}
