//! Courses rated by play, beside published ratings.

use costcard::cost::rating;
use costcard::course::Rating;
use costcard::player::Sex;

use super::checks::Check;
use crate::support::neutral_course;

/// What length alone gives. Source: Course Rating System Manual, USGA (from memory): men yd / 220 + 40.9 and
/// yd / 160 + 50.7, women yd / 180 + 40.1 and yd / 120 + 51.3.
fn by_length(length_yd: f64, sex: Sex) -> (f64, f64) {
    match sex {
        Sex::Men => (length_yd / 220.0 + 40.9, length_yd / 160.0 + 50.7),
        Sex::Women => (length_yd / 180.0 + 40.1, length_yd / 120.0 + 51.3),
    }
}

fn played(length_yd: f64, sex: Sex) -> Rating {
    let course = neutral_course(18, length_yd);
    let rating = rating::of(&course, sex, &|_| {}).unwrap().unwrap().rating;
    let (scratch, bogey) = by_length(length_yd, sex);
    println!(
        "{sex:?}, {length_yd} yd: course {} (by length {scratch:.1}), bogey {} (by length {bogey:.1}), slope {}",
        rating.course_rating, rating.bogey_rating, rating.slope_rating
    );
    rating
}

const BY_LENGTH: &str = "Course Rating System Manual, USGA, by length (from memory)";

/// Scratch within 1 stroke, bogey within 2.
fn add_rating(check: &mut Check, length_yd: f64, (scratch, bogey): (f64, f64), rating: Rating) {
    let [course, bogey_rating] = [rating.course_rating, rating.bogey_rating];
    check.within(
        &format!("{length_yd} yd: course"),
        "strokes",
        (scratch, 1.0),
        course,
    );
    check.within(
        &format!("{length_yd} yd: bogey"),
        "strokes",
        (bogey, 2.0),
        bogey_rating,
    );
}

/// Scratch within 1 stroke of the rating by length alone, bogey within 2. The levels' index was fitted at 6550 yd; other
/// lengths set nothing.
#[test]
fn neutral_courses_rate_as_their_length_lets_expect() {
    let ratings = [6000.0, 6500.0, 7000.0].map(|yd| (yd, played(yd, Sex::Men)));
    let mut check = Check::new(
        module_path!(),
        "course and bogey rating by play, neutral courses, men",
        BY_LENGTH,
    );
    for (length_yd, rating) in ratings {
        add_rating(
            &mut check,
            length_yd,
            by_length(length_yd, Sex::Men),
            rating,
        );
    }
    check.told();
    check.hold();
}

/// The same for women, at lengths they play.
#[test]
fn neutral_courses_rate_as_their_length_lets_expect_for_women() {
    let ratings = [5000.0, 5500.0, 6000.0].map(|yd| (yd, played(yd, Sex::Women)));
    let mut check = Check::new(
        module_path!(),
        "course and bogey rating by play, neutral courses, women",
        BY_LENGTH,
    );
    for (length_yd, rating) in ratings {
        add_rating(
            &mut check,
            length_yd,
            by_length(length_yd, Sex::Women),
            rating,
        );
    }
    check.told();
    check.hold();
}

/// Slope from course and bogey rating: 5.381 × the difference for men, 4.24 × for women, 55 to 155.
/// Source: Course Rating System Manual, USGA. By length alone, men: 6000 yd 68.2/88.2; 6500 yd 70.5/91.3 (the formula
/// gives 70.45, here 70.4); 7000 yd 72.7/94.5.
#[test]
fn slope_follows_from_course_and_bogey_rating() {
    for (length_yd, course, bogey, slope) in [
        (6000.0, 68.2, 88.2, 108),
        (6500.0, 70.4, 91.3, 112),
        (7000.0, 72.7, 94.5, 117),
    ] {
        let (scratch, takes) = by_length(length_yd, Sex::Men);
        let rating = Rating::played(scratch, takes, 18, Sex::Men);
        assert!((rating.course_rating - course).abs() < 1e-9, "{rating:?}");
        assert!((rating.bogey_rating - bogey).abs() < 1e-9, "{rating:?}");
        assert_eq!(rating.slope_rating, slope);
    }
    // A standard course: 21 strokes for men and 26.65 for women make a slope of 113.
    assert_eq!(Rating::played(72.0, 93.0, 18, Sex::Men).slope_rating, 113);
    assert_eq!(Rating::played(72.0, 98.7, 18, Sex::Women).slope_rating, 113);
    // Nine holes: half the strokes, the same slope.
    assert_eq!(Rating::played(36.0, 46.5, 9, Sex::Men).slope_rating, 113);
    assert_eq!(Rating::played(72.0, 75.0, 18, Sex::Men).slope_rating, 55);
    assert_eq!(Rating::played(72.0, 120.0, 18, Sex::Men).slope_rating, 155);
}
