//! Changes put into synthetic sessions are found as often as they can be, and where nothing changed nothing is called
//! real.

use std::collections::BTreeMap;

use costcard::player::batch::{Batch, Count, Figures, Quantity, Shot};
use costcard::player::club::Club;
use costcard::player::compare::{Bags, CompareFault, Comparison, Deals, FEWEST, Measure, When};
use costcard::player::pattern::{Five, Pattern};
use costcard::player::{Golfer, Sex, levels};
use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use rayon::prelude::*;
use statrs::distribution::{ChiSquared, Continuous, ContinuousCDF, Normal, StudentsT};

/// The club that changes comes first.
pub(super) const CLUBS: [Club; 4] = [
    Club::Iron(7),
    Club::Driver,
    Club::Iron(5),
    Club::PitchingWedge,
];

/// Fewer deals than the program's, so that a thousand comparisons take seconds.
pub(super) const DEALS: Deals = Deals {
    count: 199,
    seed: 1,
};

pub(super) fn batch(shots: Vec<(Club, Figures)>) -> Batch {
    let mut counts: BTreeMap<Club, Count> = BTreeMap::new();
    for (club, _) in &shots {
        counts.entry(*club).or_default().shots += 1;
    }
    let shot = |(row, (club, figures))| Shot {
        file: 0,
        row: row + 2,
        club,
        session: 0,
        figures,
        misread: None,
    };
    Batch {
        files: vec!["bay.csv".into()],
        sessions: Vec::new(),
        shots: shots.into_iter().enumerate().map(shot).collect(),
        counts,
        passed: BTreeMap::new(),
        unread: Vec::new(),
        unit_doubts: Vec::new(),
        side_doubts: Vec::new(),
        columns: Quantity::STRIKE.to_vec(),
    }
}

pub(super) fn figures(strike: &Five) -> Figures {
    let mut figures = Figures::default();
    for (quantity, value) in Quantity::STRIKE.into_iter().zip(strike) {
        figures.measure(quantity, *value);
    }
    figures
}

pub(super) fn patterns(seed: u64) -> Vec<(Club, Pattern)> {
    let golfer = levels::level([2.0, 10.0, 20.0][seed as usize % 3], Sex::Men).unwrap();
    CLUBS
        .iter()
        .map(|club| (*club, golfer.pattern_with(*club).unwrap()))
        .collect()
}

fn session(patterns: &[(Club, Pattern)], count: usize, rng: &mut ChaCha8Rng) -> Batch {
    let mut shots = Vec::new();
    for (club, pattern) in patterns {
        let sampler = pattern.sampler().unwrap();
        shots.extend((0..count).map(|_| (*club, figures(&sampler.random(rng)))));
    }
    batch(shots)
}

/// Whether a comparison of four clubs, nothing of which changed, calls anything real. Sides are of 5 to 20 shots, one
/// shot in eight is a mishit, and half the pairs have a few shots far out beside many close together (a t of 2.2).
fn cries_wolf(seed: u64) -> bool {
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    let mut clubs = patterns(seed);
    for (_, pattern) in &mut clubs {
        pattern.tail_dof = if seed.is_multiple_of(2) { 2.2 } else { 6.0 };
        pattern.mishit.share = 0.12;
    }
    let counts = [0, 1].map(|_| rng.random_range(5..=20));
    let [before, after] = counts.map(|count| session(&clubs, count, &mut rng));
    let found = Comparison::of(&before, &after, DEALS).unwrap();
    found.real().next().is_some()
}

#[test]
fn where_nothing_changed_hardly_anything_is_called_real() {
    const PAIRS: u64 = 1000;
    let cries = (0..PAIRS).into_par_iter().filter(|seed| cries_wolf(*seed));
    let pct = 100.0 * cries.count() as f64 / PAIRS as f64;
    println!("called real without a change: {pct:.1} % of {PAIRS} pairs");
    assert!(pct <= 5.0, "{pct} %");
}

/// How often a change is found, percent: in the first figure that changes, and in any of the club.
struct Found {
    figure: f64,
    club: f64,
}

/// Fifteen shots a side of the first `clubs` clubs; the first changes by so many of its spreads in each figure.
fn found(spreads: Five, clubs: usize, mishits: f64) -> Found {
    const PAIRS: u64 = 300;
    let changed = spreads.iter().position(|spread| *spread > 0.0).unwrap();
    let one = |seed: u64| {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        let mut before = patterns(seed);
        before.truncate(clubs);
        for (_, pattern) in &mut before {
            pattern.mishit.share = mishits;
        }
        let mut after = before.clone();
        let pattern = &mut after[0].1;
        for (index, spread) in spreads.iter().enumerate() {
            pattern.mean[index] += spread * pattern.sd[index];
        }
        let [before, after] = [before, after].map(|clubs| session(&clubs, 15, &mut rng));
        let compared = Comparison::of(&before, &after, DEALS).unwrap();
        let changes = &compared
            .clubs
            .iter()
            .find(|club| club.club == CLUBS[0])
            .unwrap()
            .changes;
        (
            changes[changed].real,
            changes.iter().any(|change| change.real),
        )
    };
    let all: Vec<(bool, bool)> = (0..PAIRS).into_par_iter().map(one).collect();
    let pct = |which: fn(&(bool, bool)) -> bool| {
        100.0 * all.iter().filter(|found| which(found)).count() as f64 / PAIRS as f64
    };
    let found = Found {
        figure: pct(|found| found.0),
        club: pct(|found| found.1),
    };
    println!(
        "{spreads:?} spreads, {clubs} clubs, mishits {mishits}: itself found in {:.0} %, something of the club in {:.0} %",
        found.figure, found.club
    );
    found
}

/// A swing that is another one: every figure has moved by one spread.
#[test]
fn a_change_of_one_spread_in_all_figures_of_a_club_is_found() {
    for (clubs, mishits) in [(1, 0.0), (1, 0.12), (4, 0.0), (4, 0.12)] {
        let found = found([1.0; 5], clubs, mishits);
        assert!(found.club >= 80.0, "{clubs} {mishits}: {} %", found.club);
    }
}

/// An open face starts the ball right and curves it right.
#[test]
fn a_change_of_one_spread_in_direction_and_curve_is_found() {
    for mishits in [0.0, 0.12] {
        let found = found([0.0, 0.0, 1.0, 0.0, 1.0], 1, mishits);
        assert!(found.club >= 80.0, "{mishits}: {} %", found.club);
    }
}

#[test]
fn a_change_of_two_spreads_in_a_single_figure_is_found() {
    for (clubs, mishits) in [(1, 0.0), (4, 0.0)] {
        let found = found([0.0, 2.0, 0.0, 0.0, 0.0], clubs, mishits);
        assert!(
            found.figure >= 80.0,
            "{clubs} {mishits}: {} %",
            found.figure
        );
    }
}

/// The power of the two-sided t-test at 5 % with so many shots a side and a change of one spread: the chance that a normal
/// variable about √(shots/2), over a scaled chi, lies beyond the critical value (the noncentral t by its definition). No
/// unbiased test of one normal quantity does better (E.L. Lehmann, Testing Statistical Hypotheses).
fn power_of_t_test_pct(shots: f64) -> f64 {
    let dof = 2.0 * shots - 2.0;
    let critical = StudentsT::new(0.0, 1.0, dof).unwrap().inverse_cdf(0.975);
    let chi = ChiSquared::new(dof).unwrap();
    let normal = Normal::new((shots / 2.0).sqrt(), 1.0).unwrap();
    let step = 0.01;
    let steps = (1..20_000).map(|i| f64::from(i) * step);
    let beyond = steps.map(|square| {
        let limit = critical * (square / dof).sqrt();
        chi.pdf(square) * step * (1.0 - normal.cdf(limit) + normal.cdf(-limit))
    });
    100.0 * beyond.sum::<f64>()
}

#[test]
fn the_best_test_of_one_figure_alone_finds_a_change_of_one_spread_in_three_of_four() {
    // Source: J. Cohen 1988, Statistical Power Analysis for the Behavioral Sciences, table 2.3.5 (two-sided 5 %, d = 1.0):
    // 56 % for 10 a side, 75 % for 15, 87 % for 20.
    for (shots, pct) in [(10.0, 56.0), (15.0, 75.0), (20.0, 87.0)] {
        let power = power_of_t_test_pct(shots);
        assert!((power - pct).abs() < 1.0, "{shots}: {power} for {pct}");
    }
}

#[test]
#[ignore = "out of reach: with 15 shots a side the best test of one figure alone, uncorrected, finds one spread in 75 %; \
            corrected for a club's eleven figures about half remains"]
fn a_change_of_one_spread_in_a_single_figure_is_found() {
    let found = found([0.0, 1.0, 0.0, 0.0, 0.0], 1, 0.0);
    println!("the best there can be: {:.0} %", power_of_t_test_pct(15.0));
    assert!(found.figure >= 80.0, "{} %", found.figure);
}

#[test]
fn ninety_percent_intervals_of_a_change_hold_the_true_one() {
    const PAIRS: u64 = 600;
    let inside = |seed: u64| {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        let mut before = patterns(seed);
        before.truncate(1);
        before[0].1.mishit.share = 0.0;
        let mut after = before.clone();
        let pattern = &mut after[0].1;
        let truth: Five = std::array::from_fn(|i| 0.7 * pattern.sd[i]);
        for (mean, shift) in pattern.mean.iter_mut().zip(truth) {
            *mean += shift;
        }
        let [before, after] =
            [(before, 12), (after, 18)].map(|(clubs, count)| session(&clubs, count, &mut rng));
        let deals = Deals { count: 1, seed: 1 };
        let compared = Comparison::of(&before, &after, deals).unwrap();
        let changes = &compared.clubs[0].changes;
        let holds =
            |i: usize| changes[i].low.unwrap() <= truth[i] && truth[i] <= changes[i].high.unwrap();
        [0, 1, 2, 3, 4].map(holds)
    };
    let all: Vec<[bool; 5]> = (0..PAIRS).into_par_iter().map(inside).collect();
    for figure in 0..5 {
        let pct = 100.0 * all.iter().filter(|inside| inside[figure]).count() as f64 / PAIRS as f64;
        println!("figure {figure}: {pct:.1} %");
        assert!((87.0..=93.0).contains(&pct), "{figure}: {pct} %");
    }
}

fn two_sessions(counts: [usize; 2]) -> [Batch; 2] {
    let mut rng = ChaCha8Rng::seed_from_u64(5);
    counts.map(|count| session(&patterns(1), count, &mut rng))
}

#[test]
fn any_number_of_threads_finds_the_same() {
    let [before, after] = two_sessions([9, 12]);
    let on = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new()
            .num_threads(threads)
            .build()
            .unwrap();
        pool.install(|| Comparison::of(&before, &after, Deals::default()).unwrap())
    };
    assert_eq!(on(1), on(7));
}

#[test]
fn before_and_after_change_places() {
    let [before, after] = two_sessions([9, 12]);
    let one = Comparison::of(&before, &after, DEALS).unwrap();
    let other = Comparison::of(&after, &before, DEALS).unwrap();
    for (a, b) in one.clubs.iter().zip(&other.clubs) {
        for (a, b) in a.changes.iter().zip(&b.changes) {
            assert_eq!(
                (a.before, a.after, a.change),
                (b.after, b.before, -b.change)
            );
        }
    }
}

/// In whatever order a device lists them, the same shots give the same figures and verdicts.
#[test]
fn the_order_of_shots_within_a_side_changes_nothing() {
    let [before, after] = two_sessions([9, 14]);
    let turned = |batch: &Batch| Batch {
        shots: batch.shots.iter().rev().cloned().collect(),
        ..batch.clone()
    };
    assert_eq!(
        Comparison::of(&before, &after, DEALS).unwrap(),
        Comparison::of(&turned(&before), &turned(&after), DEALS).unwrap()
    );
}

/// A golfer who is steadier than his handicap says and does not change: a side of few shots is drawn no more towards that
/// handicap than one of many, else there would be a change where none is.
#[test]
fn bags_of_unlike_numbers_of_shots_are_alike_where_nothing_changed() {
    let player = levels::level(15.0, Sex::Men).unwrap();
    let steady: Vec<(Club, Pattern)> = CLUBS
        .iter()
        .map(|club| {
            let mut pattern = player.pattern_with(*club).unwrap();
            pattern.sd = pattern.sd.map(|sd| 0.6 * sd);
            pattern.mishit.share = 0.02;
            (*club, pattern)
        })
        .collect();
    for counts in [[5, 40], [40, 5]] {
        let (mut wider, mut more_mishits) = (0.0, 0.0);
        let seeds = 40_u32;
        for seed in 0..seeds {
            let mut rng = ChaCha8Rng::seed_from_u64(u64::from(seed));
            let sides = counts.map(|count| session(&steady, count, &mut rng));
            let sides = [&sides[0], &sides[1]];
            let compared = Comparison::of(sides[0], sides[1], DEALS).unwrap();
            let bags = Bags::of(&player, false, sides, (&compared, When::Before))
                .unwrap()
                .unwrap();
            for club in CLUBS {
                let of = |golfer: &Golfer| golfer.pattern_with(club).unwrap();
                let [few, many] = [of(&bags.before), of(&bags.after)];
                let logs = few
                    .sd
                    .iter()
                    .zip(many.sd)
                    .map(|(few, many)| (many / few).ln());
                wider += logs.sum::<f64>() / 5.0 / 4.0 / f64::from(seeds);
                more_mishits += (many.mishit.share - few.mishit.share) / 4.0 / f64::from(seeds);
            }
        }
        println!("{counts:?}: spreads {wider:.3}, mishits {more_mishits:.4}");
        assert!(wider.abs() < 0.1, "{counts:?}: {wider}");
        assert!(more_mishits.abs() < 0.01, "{counts:?}: {more_mishits}");
    }
}

#[test]
fn too_few_shots_are_told_but_never_called_real() {
    let mut rng = ChaCha8Rng::seed_from_u64(5);
    let mut clubs = patterns(1);
    let before = session(&clubs, 20, &mut rng);
    for (_, pattern) in &mut clubs {
        pattern.mean[1] += 20.0;
    }
    for count in [1, FEWEST - 1, FEWEST] {
        let after = session(&clubs, count, &mut rng);
        let compared = Comparison::of(&before, &after, Deals::default()).unwrap();
        for change in compared.clubs.iter().flat_map(|club| &club.changes) {
            assert_eq!(change.tested, count >= FEWEST);
            assert_eq!(change.low.is_some(), count > 1);
            assert!(change.tested || !change.real);
        }
        assert_eq!(compared.real().next().is_some(), count >= FEWEST);
    }
}

#[test]
fn flights_nobody_measured_are_flown_and_marked() {
    let [before, after] = two_sessions([9, 12]);
    let compared = Comparison::of(&before, &after, DEALS).unwrap();
    let change = |measure: Measure| {
        let mut changes = compared.clubs[0].changes.iter();
        *changes.find(|change| change.measure == measure).unwrap()
    };
    assert!(change(Measure::Mean(Quantity::Launch)).measured);
    let carry = change(Measure::Mean(Quantity::Carry));
    assert!(
        !carry.measured && (180.0..280.0).contains(&carry.before),
        "{carry:?}"
    );
    assert!(change(Measure::Spread(Quantity::Carry)).before > 3.0);
}

#[test]
fn shots_that_stand_on_both_sides_are_no_comparison() {
    let [before, after] = two_sessions([9, 12]);
    let mut both = after.clone();
    both.shots.extend(before.shots.iter().take(3).cloned());
    assert_eq!(
        Comparison::of(&before, &both, DEALS),
        Err(CompareFault::SharedShots {
            shared: 3,
            after: 51
        })
    );
}
