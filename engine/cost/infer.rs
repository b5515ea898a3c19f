//! What nobody measured of a player's short game, inferred from his handicap.
//!
//! Shots from the bay say nothing of short game, sand and putting, but the handicap says what they must be: those of
//! them that nobody measured are taken from the level at which the player's simulated rounds make his own index. One
//! dial is turned, the handicap of that level; parts that were counted or stated stay as they are. Where no level
//! explains the handicap, the nearest end of the levels is taken, and shots and handicap do not fit.

use serde::Serialize;

use crate::course::Course;
use crate::player::levels::{HIGHEST, TOUR_HANDICAP};
use crate::player::{Golfer, Origin};
use crate::round::part::Part;

use super::effort::Effort;
use super::figures::expected_score;
use super::rating::{self, loops};
use super::venue::{Home, RatedCourse, with_homes};
use super::{ByRules, PlayError};

/// The worst short game that anyone off no more than that is taken to have.
const WORST: f64 = 36.0;

/// The dial's ends for a player of a handicap: the best and the worst short game he is taken to have.
#[must_use]
pub fn ends(handicap: f64) -> [f64; 2] {
    let worst = if handicap > WORST { HIGHEST } else { WORST };
    [TOUR_HANDICAP, worst]
}

/// Rounds behind an index while the dial is turned: 300 records, so that their mean is good to 0.05. Always of one
/// seed: what is assumed of a player does not change with the seed of his rounds.
const EFFORT: Effort = Effort {
    rounds: 6000,
    seed: 1,
};
/// Rounds behind the index of a player of whom nothing is open: 100 records, good to 0.1.
const TO_CHECK: Effort = Effort {
    rounds: 2000,
    seed: 1,
};
/// At most so often are rounds played: at the player's own handicap, at what the expected scores let reckon from it,
/// and to mend what is left.
const MOST_LOOKS: usize = 4;
/// An index this near the player's own is his own: half of the last figure an index has.
const SAME: f64 = 0.05;
/// Farther from his own than this, at an end of the dial or where nothing is open near the hole, the index says that shots
/// and handicap do not fit. An index tells a player's scores to 1.2 strokes (`INDEX_SD`), fifteen shots a club to some 1.6
/// (thirteen sheets drawn from one golfer): both together to 2. Of honest players one in seven is farther off even so.
const MISFIT: f64 = 3.0;
/// How nearly the dial is set by expected scores, strokes of an index.
const RECKONED: f64 = 0.02;

/// What is done about the short game, sand and putting that nobody measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Assume {
    /// They are set so that the simulated index is the player's own.
    #[default]
    Index,
    /// They are those of a golfer of the player's handicap.
    Level,
}

/// What was inferred of a player.
#[derive(Debug, Clone, PartialEq)]
pub struct Inference {
    /// The parts nobody measured, which were set; none where all were measured, but do not fit the handicap.
    pub parts: Vec<Part>,
    /// The handicap of the golfers whose short game, sand and putting the player is given in these parts; his own where
    /// there are none.
    pub handicap: f64,
    /// The index of the player's simulated rounds with it.
    pub index: f64,
    /// Whether that is the player's own index, as nearly as an index tells a player's scores; otherwise shots and handicap
    /// do not fit, and the handicap is an end of what golfers reach.
    pub fits: bool,
}

impl Inference {
    /// The handicap of the golfers whose short game, sand and putting the player is given; none where no part was set.
    #[must_use]
    pub fn level(&self) -> Option<f64> {
        (!self.parts.is_empty()).then_some(self.handicap)
    }

    /// Where nothing was set, with the index of the rounds that are told beside it: one game has one index.
    pub(super) fn beside(mut self, index: Option<f64>) -> Self {
        if self.parts.is_empty() {
            self.index = index.unwrap_or(self.index);
        }
        self
    }
}

/// The inference as other programs read it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct InferenceDocument {
    assumed_short_game_of: Option<f64>,
    fits: bool,
}

impl From<Option<&Inference>> for InferenceDocument {
    fn from(inference: Option<&Inference>) -> Self {
        Self {
            assumed_short_game_of: inference.and_then(Inference::level),
            fits: inference.is_none_or(|inference| inference.fits),
        }
    }
}

/// A player whose unmeasured short game is settled.
#[derive(Debug, Clone, PartialEq)]
pub struct Inferred {
    /// The player with it.
    pub golfer: Golfer,
    /// What was inferred; none where nothing was.
    pub inference: Option<Inference>,
}

/// The parts of a player that can be inferred: what nobody measured of short game, sand and putting.
///
/// None where there is nothing long to infer them from: then the player is the level of his handicap, and a level is
/// never inferred. None either where sand alone is open: a shot every other round is too little to explain a handicap.
#[must_use]
pub fn open_parts(player: &Golfer) -> Vec<Part> {
    if !is_long_game_known(player) {
        return Vec::new();
    }
    let is_assumed = |origin: Origin| origin == Origin::Assumed;
    let skills = [
        (Part::ShortGame, player.short_game.1),
        (Part::Sand, player.sand.1),
        (Part::Putting, player.putting.1),
    ];
    let open: Vec<Part> = skills
        .into_iter()
        .filter(|(_, origin)| is_assumed(*origin))
        .map(|(part, _)| part)
        .collect();
    if open == [Part::Sand] {
        return Vec::new();
    }
    open
}

fn is_long_game_known(player: &Golfer) -> bool {
    let mut clubs = player.clubs.iter();
    clubs.any(|club| club.origin != Origin::Assumed)
}

/// Whether a player's index is asked for on these courses, to infer what is open of him, or to see whether his handicap
/// fits what was measured. For the latter alone no course is rated by play, which takes longer than the rest.
#[must_use]
pub fn is_wanted(player: &Golfer, courses: &[&Course], assume: Assume) -> bool {
    let is_open = !open_parts(player).is_empty();
    let is_rated = |course: &&Course| is_open || rating::rounds(course, player.sex) == 0;
    is_wanted_of_rated(player, courses, assume) && courses.iter().all(is_rated)
}

/// The same of courses that are rated in any case: it needs 18 or 9 holes.
#[must_use]
pub fn is_wanted_of_rated(player: &Golfer, courses: &[&Course], assume: Assume) -> bool {
    let can_tell = |course: &&Course| loops(course).is_some();
    assume == Assume::Index && is_long_game_known(player) && courses.iter().all(can_tell)
}

/// Rounds that an inference plays at most on courses whose rating is known: what `done` hears of.
#[must_use]
pub fn rounds(player: &Golfer, courses: &[&Course], assume: Assume) -> u64 {
    match is_wanted(player, courses, assume) {
        true => rounds_of_rated(player, courses, assume),
        false => 0,
    }
}

/// The same on courses that are rated in any case.
#[must_use]
pub fn rounds_of_rated(player: &Golfer, courses: &[&Course], assume: Assume) -> u64 {
    if is_wanted_of_rated(player, courses, assume) {
        let of_a_course = match open_parts(player).is_empty() {
            true => TO_CHECK.rounds,
            false => MOST_LOOKS as u64 * EFFORT.rounds,
        };
        of_a_course * courses.len() as u64
    } else {
        0
    }
}

/// The player with what nobody measured of his short game inferred on these courses, for commands that then play him.
/// `done` hears of rounds as they are finished.
///
/// # Errors
/// When the level tables are at fault, or a rule fails.
pub fn inferred(
    player: &Golfer,
    courses: &[ByRules<'_>],
    assume: Assume,
    done: &(dyn Fn(u64) + Sync),
) -> Result<Inferred, PlayError> {
    let all: Vec<&Course> = courses.iter().map(|(course, _)| *course).collect();
    if !is_wanted(player, &all, assume) {
        return Ok(untouched(player));
    }
    let mut rated = Vec::new();
    for &(course, rules) in courses {
        // Courses of 18 or 9 holes always have a rating.
        let found = rating::of_by_rules(course, rules, player.sex, done)?;
        rules.outcome()?;
        rated.extend(found.map(|found| RatedCourse {
            course,
            rules,
            rating: found.rating,
        }));
    }
    with_homes(&[player], &rated, |homes| on(player, homes, done))
}

/// Nothing inferred.
pub(super) fn untouched(player: &Golfer) -> Inferred {
    Inferred {
        golfer: player.clone(),
        inference: None,
    }
}

/// The inference on courses that stand ready. A rule that fails ends it: nothing is searched among figures of no worth.
pub(super) fn on(
    player: &Golfer,
    homes: &[Home<'_>],
    done: &(dyn Fn(u64) + Sync),
) -> Result<Inferred, PlayError> {
    let mut search = Search {
        player,
        homes,
        done,
        reckoned: Vec::new(),
    };
    let parts = open_parts(player);
    if parts.is_empty() {
        return Ok(Inferred {
            golfer: player.clone(),
            inference: search.misfit()?,
        });
    }
    let Some((handicap, index, looks)) = search.run()? else {
        return Ok(untouched(player));
    };
    done((MOST_LOOKS - looks) as u64 * EFFORT.rounds * homes.len() as u64);
    Ok(Inferred {
        golfer: player.with_assumed_skills_of(handicap)?,
        inference: Some(Inference {
            parts,
            handicap,
            index,
            fits: (index - player.handicap).abs() <= MISFIT,
        }),
    })
}

/// The dial being turned.
struct Search<'a> {
    player: &'a Golfer,
    homes: &'a [Home<'a>],
    done: &'a (dyn Fn(u64) + Sync),
    /// The dial's settings tried so far, lowest first, and the mean differential of the expected scores at each. It is
    /// an index but for what the spread of scores takes off, and that hardly moves with the dial.
    reckoned: Vec<(f64, f64)>,
}

impl Search<'_> {
    /// Of a player of whom nothing is open: his index, where it is clearly another than he states.
    fn misfit(&self) -> Result<Option<Inference>, PlayError> {
        let handicap = self.player.handicap;
        let on = |home: &Home| {
            let tally = home.venue.play(home.own, None, TO_CHECK, self.done);
            home.index(&tally, handicap)
        };
        let all: Option<Vec<f64>> = self.homes.iter().map(on).collect();
        self.outcome()?;
        let index = all.map(|all| mean(&all));
        let off = index.filter(|index| (index - handicap).abs() > MISFIT);
        Ok(off.map(|index| Inference {
            parts: Vec::new(),
            handicap,
            index,
            fits: false,
        }))
    }

    /// The dial's setting, the index of rounds there, and how often rounds were played.
    fn run(&mut self) -> Result<Option<(f64, f64, usize)>, PlayError> {
        let [low, high] = ends(self.player.handicap);
        let mut at = self.player.handicap.clamp(low, high);
        let mut looks = 0;
        loop {
            let Some(index) = self.index(at)? else {
                return Ok(None);
            };
            looks += 1;
            let missing = self.player.handicap - index;
            if missing.abs() <= SAME || looks == MOST_LOOKS {
                return Ok(Some((at, index, looks)));
            }
            let wanted = self.reckon(at)? + missing;
            let next = self.set(wanted)?;
            if next == at {
                return Ok(Some((at, index, looks)));
            }
            at = next;
        }
    }

    /// The index of the player's rounds with the dial there, the mean over the courses.
    fn index(&self, at: f64) -> Result<Option<f64>, PlayError> {
        let golfer = self.player.with_assumed_skills_of(at)?;
        let on = |home: &Home| {
            home.with_skills_of(&golfer, |solved| {
                let tally = home.venue.play(solved, None, EFFORT, self.done);
                home.index(&tally, self.player.handicap)
            })
        };
        let all: Option<Vec<f64>> = self.homes.iter().map(on).collect();
        self.outcome()?;
        Ok(all.map(|all| mean(&all)))
    }

    /// Whether the rules of every course have answered.
    fn outcome(&self) -> Result<(), PlayError> {
        let mut rules = self.homes.iter().map(|home| home.venue.rules);
        rules.try_for_each(|rules| Ok(rules.outcome()?))
    }

    /// The mean differential of the expected scores with the dial there.
    fn reckon(&mut self, at: f64) -> Result<f64, PlayError> {
        let place = self.reckoned.partition_point(|(other, _)| *other < at);
        if let Some((_, known)) = self.reckoned.get(place).filter(|(other, _)| *other == at) {
            return Ok(*known);
        }
        let golfer = self.player.with_assumed_skills_of(at)?;
        let on = |home: &Home| {
            let expected = home.with_skills_of(&golfer, expected_score);
            let loops = loops(home.venue.course).unwrap_or(1) as f64;
            113.0 / f64::from(home.rating.slope_rating) * loops * expected
        };
        let all: Vec<f64> = self.homes.iter().map(on).collect();
        self.outcome()?;
        let found = mean(&all);
        self.reckoned.insert(place, (at, found));
        Ok(found)
    }

    /// The setting, to a tenth, at which the mean differential is `wanted`; an end where that is beyond it. It grows
    /// with the handicap of the level.
    fn set(&mut self, wanted: f64) -> Result<f64, PlayError> {
        let [mut low, mut high] = ends(self.player.handicap);
        if self.reckon(low)? >= wanted {
            return Ok(low);
        }
        if self.reckon(high)? <= wanted {
            return Ok(high);
        }
        loop {
            // The nearest settings known on either side, and a straight line between them.
            let above = self.reckoned.partition_point(|(_, known)| *known <= wanted);
            if let (Some(a), Some(b)) = (
                self.reckoned.get(above.wrapping_sub(1)),
                self.reckoned.get(above),
            ) {
                (low, high) = (a.0, b.0);
                let at = low + (high - low) * (wanted - a.1) / (b.1 - a.1);
                let tenth = (at * 10.0).round() / 10.0;
                let is_known = self.reckoned.iter().any(|(known, _)| *known == tenth);
                if is_known || (self.reckon(tenth)? - wanted).abs() <= RECKONED {
                    return Ok(tenth);
                }
            } else {
                return Ok(f64::midpoint(low, high));
            }
        }
    }
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len().max(1) as f64
}
