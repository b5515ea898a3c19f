//! Intervals and chances, against players whose patterns are known.
//!
//! No published source: players are invented round their level as widely as the fit takes players to differ, measured
//! with fifteen shots a club, fitted, and put on a card; the truth is the card of the player as he was invented.

use costcard::cost::card::{Card, Effort, card, play};
use costcard::cost::field::{Against, Field, field};
use costcard::cost::infer::Assume;
use costcard::cost::rated;
use costcard::player::fit::fit;
use costcard::player::pattern::Five;
use costcard::player::{Golfer, Origin, Sex, levels};
use costcard::round::part::Part;
use costcard::rules::Rulebook;
use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;
use rand_distr::{Distribution, Normal};

use super::{FEW, detail, detailed, three_holes};
use crate::support::{demo_course, level};

const SHOTS: usize = 15;
/// How far the assumed skills of players of one handicap differ, in strokes of handicap (an assumption of the card's).
const SKILL_SD: f64 = 4.0;

/// One player's card beside the truth.
struct Checked {
    /// By part: whether the interval holds the truth.
    covered: Vec<bool>,
    /// By part: the chance that it is first, and whether it is.
    first: Vec<(f64, bool)>,
    /// By part: how far what it saves by the shots, and what it is likely to save, are off the truth, strokes.
    off: Vec<[f64; 2]>,
}

/// A player who is not his level, and what fifteen shots a club make of him.
fn invented(seed: u64) -> (Golfer, Golfer) {
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    let known = level(["5", "10", "15", "20"][seed as usize % 4], Sex::Men);
    let mut truth = known.drawn(&mut rng);
    let off = Normal::new(0.0, SKILL_SD).unwrap();
    let mut skills = || {
        let handicap = (known.handicap + off.sample(&mut rng)).clamp(-5.0, 36.0);
        known.with_assumed_skills_of(handicap).unwrap()
    };
    truth.short_game = skills().short_game;
    truth.sand = skills().sand;
    truth.putting = skills().putting;
    let mut measured = known.clone();
    for (club, true_club) in measured.clubs.iter_mut().zip(&truth.clubs) {
        let sampler = true_club.pattern.sampler().unwrap();
        let strikes: Vec<Five> = (0..SHOTS).map(|_| sampler.random(&mut rng)).collect();
        let found = fit(&strikes, &club.pattern).unwrap();
        club.origin = Origin::Measured { strikes: SHOTS };
        club.pattern = found.pattern;
        club.evidence = Some(found.evidence);
    }
    (truth, measured)
}

/// The card of a player of the field, against its goal.
fn card_in(field: &Field<'_>, player: &Golfer, detailed: bool, assume: Assume) -> Card {
    let rules = Rulebook::default();
    let card = field.ready(player, &rules, assume, &|_| {}, |ready| {
        field.card(ready, Against::Goal(0), detailed, &|_| {})
    });
    card.flatten().unwrap_or_else(|error| panic!("{error}"))
}

fn checked(field: &Field<'_>, seed: u64) -> Checked {
    let (truth, measured) = invented(seed);
    let told = card_in(field, &measured, true, Assume::Level);
    compared(&told, &card_in(field, &truth, false, Assume::Level))
}

fn compared(told: &Card, real: &Card) -> Checked {
    let sure = &detail(told).sure;
    let real: Vec<f64> = real.parts.iter().map(|part| part.saved).collect();
    let most = real.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let parts = 0..Part::ALL.len();
    Checked {
        covered: parts
            .clone()
            .map(|part| (sure.intervals[part][0]..=sure.intervals[part][1]).contains(&real[part]))
            .collect(),
        first: parts
            .clone()
            .map(|part| (sure.first_chances[part], real[part] == most))
            .collect(),
        off: parts
            .map(|part| [told.parts[part].saved, sure.likely[part]].map(|found| found - real[part]))
            .collect(),
    }
}

/// Share of the truths that intervals hold, and of the parts likely first that are first, percent; how many those are.
fn shares(players: u64) -> (f64, f64, usize) {
    // A par 4 and a par 3 are enough: what is covered does not hang on how many holes there are.
    let mut course = three_holes();
    course.holes.remove(1);
    let goal = level("scratch", Sex::Men);
    let on = (&course, &Rulebook::default());
    let all: Vec<Checked> = field(on, &[&goal], FEW, &|_| {}, |field| {
        (0..players).map(|seed| checked(field, seed)).collect()
    });
    told(&all)
}

fn told(all: &[Checked]) -> (f64, f64, usize) {
    for part in Part::ALL {
        let held = all.iter().filter(|one| one.covered[part as usize]).count();
        println!("{}: {held} of {}", part.name(), all.len());
    }
    let covered: Vec<bool> = all.iter().flat_map(|one| one.covered.clone()).collect();
    let likely: Vec<bool> = all
        .iter()
        .flat_map(|one| one.first.clone())
        .filter(|(chance, _)| (0.7..0.9).contains(chance))
        .map(|(_, is)| is)
        .collect();
    let pct =
        |of: &[bool]| 100.0 * of.iter().filter(|is| **is).count() as f64 / of.len().max(1) as f64;
    println!(
        "held {:.1} %, first {:.1} % of {}",
        pct(&covered),
        pct(&likely),
        likely.len()
    );
    (pct(&covered), pct(&likely), likely.len())
}

/// How far what parts save by the shots, and what they are likely to save, are off: the root of the mean square.
fn errors(all: &[Checked]) -> [f64; 2] {
    let off: Vec<[f64; 2]> = all.iter().flat_map(|one| one.off.clone()).collect();
    [0, 1].map(|which| {
        let squares: f64 = off.iter().map(|off| off[which].powi(2)).sum();
        (squares / off.len() as f64).sqrt()
    })
}

#[test]
fn nine_times_in_ten_the_interval_holds_what_a_part_saves() {
    let (covered, likely, count) = shares(40);
    assert!((84.0..=96.0).contains(&covered), "{covered:.1} %");
    assert!(
        count == 0 || (65.0..=95.0).contains(&likely),
        "{likely:.1} % of {count}"
    );
}

/// The same where the handicap tells too: golfers who differ from their level as above, an index made by their own rounds
/// and as uncertain as one is, and a short game inferred from it. It takes whole courses, for only these make an index:
/// `cargo test --test all sure::handicap -- --ignored --nocapture`.
#[test]
#[ignore = "takes minutes"]
fn handicap_and_shots_together_hold_what_a_part_saves() {
    let (course, goal) = (demo_course("parkland"), level("scratch", Sex::Men));
    let on = (&course, &Rulebook::default());
    let all: Vec<Checked> = field(on, &[&goal], FEW, &|_| {}, |field| {
        (0..PLAYERS_OF_WHOLE_COURSES)
            .filter_map(|seed| checked_by_index(field, seed))
            .collect()
    });
    let (covered, likely, count) = told(&all);
    assert!((84.0..=96.0).contains(&covered), "{covered:.1} %");
    assert!(
        count == 0 || (65.0..=95.0).contains(&likely),
        "{likely:.1} % of {count}"
    );
    let [by_shots, likely] = errors(&all);
    println!("by the shots {by_shots:.2} off, likely {likely:.2}");
    assert!(likely < 0.85 * by_shots, "{likely:.2} {by_shots:.2}");
}

const PLAYERS_OF_WHOLE_COURSES: u64 = 24;
/// A handicap index tells a player's mean score to this many strokes (an assumption of the card's).
const INDEX_SD: f64 = 1.2;

/// None for a player whose shots and index do not go together, for then the card says that too.
fn checked_by_index(field: &Field<'_>, seed: u64) -> Option<Checked> {
    let (truth, measured) = invented(seed);
    let real = card_in(field, &truth, false, Assume::Level);
    let mut rng = ChaCha8Rng::seed_from_u64(1000 + seed);
    let off: f64 = Normal::new(0.0, INDEX_SD).unwrap().sample(&mut rng);
    let stated = levels::level(own_index(&truth) + off, Sex::Men);
    let mut stated = stated.unwrap();
    stated.clubs.clone_from(&measured.clubs);
    let told = card_in(field, &stated, true, Assume::Index);
    let inference = told.inference.as_ref()?;
    inference.fits.then(|| compared(&told, &real))
}

/// The index that a player's own rounds make.
fn own_index(player: &Golfer) -> f64 {
    let (course, rules) = (demo_course("parkland"), Rulebook::default());
    let effort = Effort {
        rounds: 4000,
        seed: 5,
    };
    let on = (&course, &rules);
    let figures = rated::play(player, on, effort, Assume::Level, &|_| {});
    figures
        .unwrap_or_else(|error| panic!("{error}"))
        .index
        .unwrap()
}

/// The same for more players: `cargo test --test all sure::more_players -- --ignored --nocapture`.
#[test]
#[ignore = "takes minutes"]
fn more_players() {
    let (covered, likely, _) = shares(200);
    assert!((84.0..=96.0).contains(&covered), "{covered:.1} %");
    assert!((65.0..=95.0).contains(&likely), "{likely:.1} %");
}

/// A saving is the difference of two solved courses, of the same draws: seeds do not touch it. As the difference of two
/// golfers' rounds of different seeds it would be far from sure.
#[test]
fn savings_are_free_of_the_rounds_luck() {
    let mut course = three_holes();
    course.holes.truncate(1);
    let (player, goal) = (level("15", Sex::Men), level("5", Sex::Men));
    let with_seed = |seed: u64| costcard::cost::card::Effort { rounds: 500, seed };
    let mut better = player.clone();
    better.putting = goal.putting;
    let (mut saved, mut played) = (Vec::new(), Vec::new());
    for seed in 0..6 {
        let card = card(&player, &goal, &course, with_seed(seed), &|_| {});
        saved.push(card.parts[Part::Putting as usize].saved);
        let score =
            |golfer: &Golfer, seed| play(golfer, &course, with_seed(seed), &|_| {}).score_mean;
        played.push(score(&player, 100 + seed) - score(&better, 200 + seed));
    }
    let (common, apart) = (spread(&saved), spread(&played));
    println!(
        "saving {:.3} ± {common:.4}; by rounds of their own ± {apart:.4}",
        saved[0]
    );
    assert!(apart > 5.0 * common && apart > 0.01, "{common} {apart}");
}

fn spread(values: &[f64]) -> f64 {
    let mean = values.iter().sum::<f64>() / values.len() as f64;
    let squares: f64 = values.iter().map(|value| (value - mean).powi(2)).sum();
    (squares / (values.len() - 1) as f64).sqrt()
}

/// Twice the shots, a narrower interval; and shots asked for only where they would decide.
#[test]
fn more_shots_make_it_surer() {
    let course = three_holes();
    let (player, goal) = (level("12", Sex::Men), level("5", Sex::Men));
    let width = |strikes: f64| {
        let mut known = player.clone();
        for club in &mut known.clubs {
            club.origin = Origin::Measured {
                strikes: strikes as usize,
            };
            club.evidence = Some(costcard::player::posterior::Evidence {
                mean_strikes: strikes,
                spread_dof: 8.0 + strikes,
                share_strikes: 20.0 + strikes,
                open: None,
            });
        }
        let card = detailed(&known, &goal, &course);
        let [low, high] = detail(&card).sure.intervals[Part::TeeShots as usize];
        high - low
    };
    let (few, many) = (width(10.0), width(80.0));
    assert!(many < 0.75 * few, "{few} {many}");
}

/// A level stands for the golfers of its handicap in the mean: those who could be the player as well are no worse than
/// he is, so that what his parts would save lies about in the middle of what theirs would.
#[test]
fn golfers_of_whom_only_the_handicap_is_known_lie_around_their_level() {
    let course = three_holes();
    for (player, goal) in [("18", "5"), ("9", "9")] {
        let card = detailed(&level(player, Sex::Men), &level(goal, Sex::Men), &course);
        let sure = &detail(&card).sure;
        let mut middles = 0.0;
        for part in Part::ALL {
            let saved = card.parts[part as usize].saved;
            let [low, high] = sure.intervals[part as usize];
            println!(
                "{player}, {}: {saved:.2}, {low:.2} to {high:.2}",
                part.name()
            );
            assert!((low..=high).contains(&saved), "{player} {}", part.name());
            middles += f64::midpoint(low, high);
        }
        let saved: f64 = card.parts.iter().map(|cost| cost.saved).sum();
        assert!(
            (middles - saved).abs() < 0.15 * saved + 0.25,
            "{player}: {middles:.2} of {saved:.2}"
        );
    }
}
