//! The rules of handicapping, by their numbers.
//! Source, unless another is named: Rules of Handicapping, R&A and USGA, 2020 to 2024.

use costcard::cost::handicap::{Rated, Tenths, allowance, differential, holes, index};
use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use rand_distr::StandardNormal;

use super::checks::Check;

const RULES: &str = "Rules of Handicapping, R&A and USGA, 2020–24";

const fn tenths(tenths: i32) -> Tenths {
    Tenths::new(tenths)
}

const fn rated(course_rating: i32, slope_rating: u8) -> Rated {
    Rated {
        course_rating: tenths(course_rating),
        slope_rating,
    }
}

/// Rule 5.1a: 113 / slope × (adjusted gross − course rating − playing conditions adjustment), to one decimal, half of
/// a tenth upward.
#[test]
fn differentials_of_eighteen_holes() {
    let mut check = Check::new(module_path!(), "score differentials, to the tenth", RULES);
    for (gross, rating, slope, pcc, expected) in [
        // On a standard slope the differential is the difference.
        (85, 720, 113, 0, 130),
        (85, 720, 113, 1, 120),
        (85, 720, 113, -1, 140),
        // 113 / 125 × 18.5 = 16.724
        (90, 715, 125, 0, 167),
        // 113 / 55 × 0.5 = 1.0273; 113 / 155 × 0.5 = 0.3645
        (72, 715, 55, 0, 10),
        (72, 715, 155, 0, 4),
        // 113 / 100 × 22.5 = 25.425; 113 / 60 × 4.5 = 8.475
        (95, 725, 100, 0, 254),
        (75, 705, 60, 0, 85),
        // 113 / 100 × 5.0 = 5.65: half of a tenth goes upward.
        (77, 720, 100, 0, 57),
    ] {
        let found = differential::of_eighteen(gross, rated(rating, slope), pcc);
        let name = format!("{gross} on {}/{slope}, pcc {pcc}", tenths(rating));
        check.within(
            &name,
            "",
            (tenths(expected).strokes(), 0.0),
            found.strokes(),
        );
    }
    check.told();
    check.hold();
}

/// Rule 5.1c: a negative differential rounds up toward 0: −1.54 becomes −1.5, and so does −1.55.
#[test]
fn negative_differentials_round_toward_zero() {
    assert_eq!(Tenths::rounded(-1.54), tenths(-15));
    assert_eq!(Tenths::rounded(-1.55), tenths(-15));
    // 113 / 100 × −5.0 = −5.65
    assert_eq!(
        differential::of_eighteen(67, rated(720, 100), 0),
        tenths(-56)
    );
}

/// Rule 5.1b, from memory: half of the playing conditions adjustment counts over nine holes, and the differential
/// expected over the nine others is half of 1.04 × index + 2.4.
#[test]
fn differentials_of_nine_holes() {
    for (index, expected) in [(0, 12), (100, 64), (140, 85), (200, 116), (-20, 2)] {
        assert_eq!(
            differential::expected_over_nine(tenths(index)).to_tenth(),
            tenths(expected)
        );
    }
    // 113 / 120 × (44 − 35.2 − 0.5) = 7.8158, and 6.4
    let nine = differential::of_nine(44, rated(352, 120), 1);
    assert_eq!(nine.to_tenth(), tenths(78));
    assert_eq!(
        differential::of_nine_and_expected(nine, tenths(100)),
        tenths(142)
    );
    // From memory: off 14.0, a differential of 7.2 over nine holes makes 15.7.
    let nine = differential::of_nine(42, rated(348, 113), 0);
    assert_eq!(nine.to_tenth(), tenths(72));
    assert_eq!(
        differential::of_nine_and_expected(nine, tenths(140)),
        tenths(157)
    );
}

/// Rule 5.2a: how many of the lowest differentials are used, and what is taken off their mean.
#[test]
fn fewer_than_twenty_scores() {
    let mut check = Check::new(
        module_path!(),
        "index of few scores (10, 11, 12 and so on), to the tenth",
        RULES,
    );
    // Differentials 10.0, 11.0, 12.0 and so on, worst first.
    let index_of = |count: i32| {
        let differentials: Vec<Tenths> = (0..count).rev().map(|n| tenths(100 + 10 * n)).collect();
        index::calculated(&differentials).map(|found| (found.used.len(), found.index))
    };
    for few in 0..3 {
        assert_eq!(index_of(few), None);
    }
    for (counts, used, expected) in [
        (3..=3, 1, 80),
        (4..=4, 1, 90),
        (5..=5, 1, 100),
        (6..=6, 2, 95),
        (7..=8, 2, 105),
        (9..=11, 3, 110),
        (12..=14, 4, 115),
        (15..=16, 5, 120),
        (17..=18, 6, 125),
        (19..=19, 7, 130),
        (20..=20, 8, 135),
    ] {
        for count in counts {
            let (found_used, found) = index_of(count).unwrap();
            assert_eq!(found_used, used, "{count} scores");
            let name = format!("{count} scores");
            check.within(
                &name,
                "",
                (tenths(expected).strokes(), 0.0),
                found.strokes(),
            );
        }
    }
    check.told();
    check.hold();
}

/// Rule 5.2b: the mean of the lowest 8 of 20, to one decimal.
#[test]
fn twenty_scores() {
    let mut differentials = vec![tenths(250); 12];
    differentials.extend([101, 102, 103, 104, 105, 106, 107, 112].map(tenths));
    // The mean of the eight is 10.5.
    let found = index::calculated(&differentials).unwrap();
    assert_eq!(found.index, tenths(105));
    assert_eq!(found.used, (12..20).collect::<Vec<_>>());
    // One tenth more in all: 10.5125; four more: 10.55, upward to 10.6.
    differentials[19] = tenths(113);
    assert_eq!(
        index::calculated(&differentials).unwrap().index,
        tenths(105)
    );
    differentials[19] = tenths(116);
    assert_eq!(
        index::calculated(&differentials).unwrap().index,
        tenths(106)
    );
}

/// Rule 5.8: over the low index, what exceeds 3.0 counts half, and the whole is at most 5.0. Low 10.0, calculated 13.4
/// gives 13.2.
#[test]
fn caps() {
    let mut check = Check::new(
        module_path!(),
        "caps on the index over a low index of 10, to the tenth",
        RULES,
    );
    for (calculated, expected) in [
        (134, 132),
        (90, 90),
        (130, 130),
        (150, 140),
        (170, 150),
        (172, 150),
        (300, 150),
    ] {
        let (calculated, expected) = (tenths(calculated), tenths(expected));
        let found = index::capped(calculated, tenths(100)).strokes();
        check.within(
            &format!("calculated {calculated}"),
            "",
            (expected.strokes(), 0.0),
            found,
        );
    }
    check.told();
    check.hold();
}

/// Rule 5.9: 7.0 to 9.9 under the index takes 1.0 off, 10.0 or more 2.0.
#[test]
fn exceptional_scores() {
    let mut check = Check::new(
        module_path!(),
        "what exceptional scores take off, to the tenth",
        RULES,
    );
    for (under, expected) in [
        (69, 0),
        (70, -10),
        (99, -10),
        (100, -20),
        (180, -20),
        (-50, 0),
    ] {
        let found = index::exceptional(tenths(150), tenths(150 - under)).strokes();
        let name = format!("{} under the index", tenths(under));
        check.within(&name, "", (tenths(expected).strokes(), 0.0), found);
    }
    check.told();
    check.hold();
}

/// Rule 3.1: net double bogey is par + 2 + strokes received; par + 5 before an index exists.
#[test]
fn net_double_bogey() {
    assert_eq!(holes::most(4, None), 9);
    for (received, expected) in [(0, 6), (1, 7), (2, 8), (-1, 5)] {
        assert_eq!(holes::most(4, Some(received)), expected);
    }
    let card: Vec<holes::Hole> = (1..=18).map(|rank| holes::Hole { par: 4, rank }).collect();
    // Off 20 two strokes are received on the holes of stroke index 1 and 2, one on the others.
    let most = holes::most_of_each(&card, Some(20));
    assert_eq!((most[1], most[2]), (8, 7));
    let nines = std::iter::repeat_n(Some(9), 18);
    assert_eq!(holes::adjusted_gross(nines, &most), 2 * 8 + 16 * 7);
    // A hole picked up counts the most.
    assert_eq!(
        holes::adjusted_gross(std::iter::repeat_n(None, 18), &most),
        2 * 8 + 16 * 7
    );
}

/// Rule 6.1 (from memory): index × slope / 113 + (course rating − par), rounded; over nine holes, of half the index.
/// Rule 6.2: the playing handicap is a share of the course handicap that was not rounded.
#[test]
fn course_and_playing_handicap() {
    let course = |index, rating, slope, par| {
        allowance::of_eighteen(tenths(index), rated(rating, slope), par)
    };
    // 15.0 × 113 / 113 + 0; 12.4 × 128 / 113 − 0.8 = 13.25; 10.0 × 130 / 113 + 1.5 = 13.004
    assert_eq!(course(150, 720, 113, 72).to_whole(), 15);
    assert_eq!(course(124, 712, 128, 72).to_whole(), 13);
    assert_eq!(course(100, 735, 130, 72).to_whole(), 13);
    // A half goes upward: 12.5 becomes 13, and plus 1.5 becomes plus 1.
    assert_eq!(course(125, 720, 113, 72).to_whole(), 13);
    assert_eq!(course(-15, 720, 113, 72).to_whole(), -1);
    // 95 % of 13.246 is 12.58; of 15.0 it is 14.25.
    assert_eq!(allowance::playing(course(124, 712, 128, 72), 95), 13);
    assert_eq!(allowance::playing(course(150, 720, 113, 72), 95), 14);
    // Nine holes: half of 12.5 is 6.3; 6.3 × 120 / 113 + (35.2 − 36) = 5.89.
    assert_eq!(
        allowance::of_nine(tenths(125), rated(352, 120), 36).to_whole(),
        6
    );
}

/// Normal theory (computed): the index is the mean differential less 0.927 standard deviations, its own standard
/// deviation is 0.276 of them, and a round meets it 18.6 times in a hundred.
#[test]
fn the_index_of_normal_scores() {
    const RECORDS: u32 = 200_000;
    /// Large, so that rounding to tenths does not show.
    const SD: f64 = 500.0;
    let mut random = ChaCha8Rng::seed_from_u64(20);
    let mut draw = || Tenths::rounded(SD * random.sample::<f64, _>(StandardNormal));
    let (mut sum, mut squares, mut met) = (0.0, 0.0, 0);
    for _ in 0..RECORDS {
        let record: Vec<Tenths> = (0..20).map(|_| draw()).collect();
        let index = index::calculated(&record).unwrap().index;
        met += u32::from(draw() <= index);
        sum += index.strokes() / SD;
        squares += (index.strokes() / SD).powi(2);
    }
    let count = f64::from(RECORDS);
    let mean = sum / count;
    let sd = (squares / count - mean * mean).sqrt();
    let met_pct = 100.0 * f64::from(met) / count;
    println!("mean {mean:.4}, sd {sd:.4}, met {met_pct:.2} %");
    // Four standard errors: 0.276 / √200 000 = 0.0006 of the mean, 0.09 points of the share; and the last digit.
    let mut check = Check::new(
        module_path!(),
        "index of normal scores, in standard deviations, and how often it is met",
        "normal theory, best 8 of 20",
    );
    check.within("mean", "", (-0.927, 0.003), mean);
    check.within("its own spread", "", (0.276, 0.0023), sd);
    check.within("met", "%", (18.6, 0.4), met_pct);
    check.told();
    check.hold();
}
