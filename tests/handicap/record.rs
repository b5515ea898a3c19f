//! Records worked through by hand.

use costcard::cost::handicap::holes::Hole;
use costcard::cost::handicap::record::{Adjustment, Played, Reason, Record, Strokes};

use super::{record_every, score, tenths};

fn reasons(record: &Record) -> Vec<(Reason, i32)> {
    let of = |adjustment: &Adjustment| (adjustment.reason, adjustment.strokes.tenths());
    record.adjustments.iter().map(of).collect()
}

#[test]
fn three_scores_make_an_index() {
    assert_eq!(record_every(1, &[150, 140]).index, None);
    let record = record_every(1, &[150, 140, 160]);
    assert_eq!(record.index, Some(tenths(120)));
    assert_eq!(record.low_index, None, "there is none before 20 scores");
    assert_eq!(reasons(&record), [(Reason::FewScores, -20)]);
    let used: Vec<bool> = record.entries.iter().map(|entry| entry.used).collect();
    assert_eq!(used, [false, true, false]);
}

#[test]
fn only_the_last_twenty_count() {
    let mut differentials = vec![100; 10];
    differentials.extend([120; 20]);
    let record = record_every(1, &differentials);
    assert_eq!(record.index, Some(tenths(120)));
    assert_eq!(record.low_index, Some(tenths(100)));
    assert_eq!((record.entries.len(), record.latest().len()), (30, 20));
}

/// Twenty scores of 10.0 set the low index; later ones push the last eight of them out of the record.
#[test]
fn the_soft_cap_counts_half_of_what_exceeds_three() {
    let mut differentials = vec![100; 20];
    differentials.extend([134; 20]);
    let record = record_every(1, &differentials);
    assert_eq!(record.index, Some(tenths(132)));
    assert_eq!(record.low_index, Some(tenths(100)));
    assert_eq!(reasons(&record), [(Reason::SoftCap, -2)]);
}

#[test]
fn the_hard_cap_holds_the_index_to_five_over_the_low_one() {
    let mut differentials = vec![100; 20];
    differentials.extend([220; 20]);
    let record = record_every(1, &differentials);
    assert_eq!(record.index, Some(tenths(150)));
    assert_eq!(reasons(&record), [(Reason::HardCap, -70)]);
}

/// The low index is that of 365 days: once the year has passed the cap follows the index upward.
#[test]
fn a_low_index_is_forgotten_after_a_year() {
    let mut differentials = vec![100; 20];
    differentials.extend([220; 40]);
    // Every twentieth day: eight of the scores of 10.0 stay in the record until day 620, and by day 1180 the index that
    // they made is more than a year old.
    let record = record_every(20, &differentials);
    assert!(record.index > Some(tenths(150)), "{:?}", record.index);
    assert!(
        record.low_index > Some(tenths(100)),
        "{:?}",
        record.low_index
    );
}

/// After years without golf the index in force as the 365 days began is the low one.
#[test]
fn the_index_in_force_counts_as_low_after_a_pause() {
    let mut scores: Vec<_> = (0..20).map(|day| score(day, 100)).collect();
    scores.extend((0..20).map(|day| score(2000 + day, 220)));
    let record = Record::of(&scores);
    assert_eq!(record.low_index, Some(tenths(100)));
    assert_eq!(record.index, Some(tenths(150)));
}

#[test]
fn no_index_exceeds_54() {
    let record = record_every(1, &[600; 20]);
    assert_eq!(record.index, Some(tenths(540)));
    assert_eq!(reasons(&record), [(Reason::HighestIndex, -60)]);
}

/// An exceptional score takes 1.0 off each of the latest 20 differentials, its own among them.
#[test]
fn an_exceptional_score_lowers_the_differentials_before_it() {
    let mut differentials = vec![150; 20];
    differentials.push(80);
    let record = record_every(1, &differentials);
    // The lowest eight are now 7.0 and seven of 14.0: 13.125.
    assert_eq!(record.index, Some(tenths(131)));
    assert_eq!(reasons(&record), [(Reason::ExceptionalScore, -10)]);
    let date = score(20, 0).date;
    assert_eq!(record.adjustments[0].date, Some(date));
    // The oldest has left the record, and stays as it was.
    assert_eq!(record.entries[0].adjusted, tenths(150));
    assert_eq!(record.entries[20].adjusted, tenths(70));
    assert_eq!(record.entries[20].differential, tenths(80));
    // A later score is not lowered.
    differentials.push(150);
    let record = record_every(1, &differentials);
    assert_eq!(record.entries[21].adjusted, tenths(150));
    // Twenty scores later the exceptional one is forgotten.
    differentials.extend([150; 19]);
    assert_eq!(reasons(&record_every(1, &differentials)), []);
}

#[test]
fn ten_under_the_index_takes_two_off() {
    let mut differentials = vec![150; 20];
    differentials.push(50);
    let record = record_every(1, &differentials);
    // 3.0 and seven of 13.0: 11.75.
    assert_eq!(record.index, Some(tenths(118)));
}

/// Two exceptional scores on one day are both judged by the index before it, and both taken off.
#[test]
fn exceptional_scores_of_one_day_add_up() {
    let mut scores: Vec<_> = (0..20).map(|day| score(day, 150)).collect();
    scores.extend([score(20, 80), score(20, 75)]);
    let record = Record::of(&scores);
    // 6.0, 5.5 and six of 13.0: 11.1875.
    assert_eq!(record.index, Some(tenths(112)));
}

#[test]
fn nine_holes_are_made_up_by_what_is_expected() {
    let mut scores: Vec<_> = (0..3).map(|day| score(day, 120)).collect();
    let mut nine = score(3, 70);
    nine.is_nine = true;
    scores.push(nine);
    let record = Record::of(&scores);
    // The index in force is 10.0, and 6.4 is expected over nine holes.
    assert_eq!(record.entries[3].differential, tenths(134));
    assert_eq!(record.entries[3].played, Played::Nine);
}

#[test]
fn before_an_index_two_nines_make_a_round() {
    let nine = |day, differential| {
        let mut nine = score(day, differential);
        nine.is_nine = true;
        nine
    };
    let scores = [
        nine(0, 61),
        score(1, 150),
        nine(2, 72),
        score(3, 160),
        nine(4, 50),
    ];
    let record = Record::of(&scores);
    let found: Vec<_> = record
        .entries
        .iter()
        .map(|entry| entry.differential.tenths())
        .collect();
    // The third differential makes an index of 11.3, so that the last nine need not wait: 5.0 + 7.1.
    assert_eq!(found, [150, 133, 160, 121]);
    assert_eq!(record.entries[1].played, Played::TwoNines);
    assert_eq!(record.waiting_nine, None);
    assert_eq!(Record::of(&scores[..2]).waiting_nine, Some(scores[0].date));
}

/// Hole scores are adjusted by the index in force: none at first, so that a hole counts par + 5 at most.
#[test]
fn hole_scores_are_adjusted_by_the_index_of_the_day() {
    let card = |day, worst: u8| {
        let mut told = score(day, 120);
        told.rated.course_rating = tenths(720);
        let hole = |rank| {
            (
                Hole { par: 4, rank },
                Some(if rank == 18 { worst } else { 4 }),
            )
        };
        told.strokes = Strokes::Holes((1..=18).map(hole).collect());
        told
    };
    let scores = [card(0, 12), card(1, 12), card(2, 12), card(3, 12)];
    let record = Record::of(&scores);
    let gross: Vec<i32> = record
        .entries
        .iter()
        .map(|entry| entry.adjusted_gross)
        .collect();
    // 17 fours and a nine make 77, 5.0 over; the index is then 3.0, and nothing is received on the last hole: 4 + 2.
    assert_eq!(gross, [77, 77, 77, 74]);
}
