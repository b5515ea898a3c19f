//! What a goal asks of each part.

use std::sync::OnceLock;

use costcard::cost::goal::{FigureKind, GoalError, Goals, goals};
use costcard::cost::infer::Assume;
use costcard::course::Course;
use costcard::player::levels::TOUR_HANDICAP;
use costcard::round::part::Part;
use costcard::show;
use costcard::show::page::Page;
use costcard::show::reading::Reading;

use super::{EFFORT, QUIET, SET_BY, index_of, level, nine_holes, usual, with_long_game_of};
use crate::support::neutral_course;

/// The same holes, longer and with the same rating.
fn longer() -> Course {
    let mut course = neutral_course(9, 3600.0);
    course.ratings = nine_holes().ratings;
    course
}

/// A 15-handicapper who wants to play off 8, and off 30, at home and on the longer course.
fn weighed() -> &'static Goals {
    static GOALS: OnceLock<Goals> = OnceLock::new();
    GOALS.get_or_init(|| {
        let courses = [nine_holes(), &longer()];
        let player = with_long_game_of(15.0);
        goals(
            &player,
            &[SET_BY, 30.0],
            &courses.map(usual),
            EFFORT,
            Assume::Level,
            QUIET,
        )
        .unwrap()
    })
}

#[test]
fn the_index_is_the_mean_of_the_courses_and_a_longer_course_costs_more() {
    let [home, away] = &weighed().courses[..] else {
        panic!("two courses");
    };
    assert!((weighed().index - f64::midpoint(home.index, away.index)).abs() < 1e-9);
    assert!(away.score_mean > home.score_mean + 2.0);
    assert!(away.index > home.index + 2.0);
}

/// The rating of nine holes stands beside averages of eighteen.
#[test]
fn a_page_says_that_averages_of_nine_holes_are_of_eighteen() {
    let page = Page::new(Reading::Yards, 80);
    let shown = |goals: &Goals| show::goal::goals(&with_long_game_of(15.0), goals, page);
    let said = "Strokes and averages are of eighteen holes, nine played twice";
    assert!(shown(weighed()).contains(said));
    let mut nine = weighed().clone();
    nine.courses.truncate(1);
    assert_eq!(nine.courses[0].holes, 9);
    assert!(shown(&nine).contains(said));
    let mut whole = weighed().clone();
    whole.courses.iter_mut().for_each(|on| on.holes = 18);
    assert!(!shown(&whole).contains(said));
}

#[test]
fn a_goal_is_reached_when_the_index_is_as_low() {
    let [low, high] = &weighed().goals[..] else {
        panic!("two goals");
    };
    assert!(!low.reached && weighed().index > low.to);
    assert!(high.reached && weighed().index <= high.to);
    assert!(high.steps.is_empty());
}

/// Strokes lost over the parts are the score less what the goal's golfers expect; their own mean score is that but for
/// luck: two means over 4000 rounds are within 0.3 of each other's truth, two courses and two nines counted.
#[test]
fn strokes_lost_add_up_to_the_gap() {
    for goal in &weighed().goals {
        let lost: f64 = goal.parts.iter().map(|part| part.lost).sum();
        let courses = weighed().courses.iter().zip(&goal.golfers_score_means);
        let gap = courses
            .map(|(on, theirs)| on.score_mean - theirs)
            .sum::<f64>()
            / 2.0;
        assert!((lost - gap).abs() < 0.4, "lost {lost}, gap {gap}");
    }
}

/// With a part at tour standard nobody gets worse, and whether it is enough is a comparison.
#[test]
fn a_part_at_tour_standard_lowers_the_index() {
    let index = weighed().index;
    for goal in &weighed().goals {
        for part in &goal.parts {
            assert!(part.index_if_perfect < index + 0.1, "{part:?}");
            assert_eq!(part.reaches_alone, part.index_if_perfect <= goal.to);
        }
    }
    let long = |part: Part| weighed().goals[0].parts[part as usize].index_if_perfect;
    assert!(long(Part::TeeShots) < index - 1.0);
}

/// The step of every part that falls short is what it says when it is played, on the way to the goal's golfers and on
/// that to tour professionals.
fn is_what_it_says(goals: &Goals, courses: &[&Course], to_tour: bool) {
    let goal = &goals.goals[0];
    assert!(!goal.steps.is_empty());
    for pair in goal.steps.windows(2) {
        assert_eq!(pair[1].parts[..pair[0].parts.len()], pair[0].parts);
        assert!(pair[1].share < pair[0].share + 0.01, "{:?}", goal.steps);
    }
    let whole = goal.steps.last().unwrap();
    // What is left out falls short by less than 0.05 strokes.
    assert!(whole.parts.len() >= 6, "{whole:?}");
    assert_eq!(whole.to_tour, to_tour);
    let standard = level(if to_tour { TOUR_HANDICAP } else { SET_BY });
    let gone = with_long_game_of(15.0).toward(&standard, whole.share);
    let played = courses
        .iter()
        .map(|course| index_of(&gone, course, Assume::Level));
    let index = played.sum::<f64>() / courses.len() as f64;
    assert!((index - SET_BY).abs() < 0.4, "{index} after {whole:?}");
}

#[test]
fn a_step_toward_the_goals_golfers_reaches_the_goal_when_it_is_played() {
    let player = with_long_game_of(15.0);
    let courses = [nine_holes()];
    let goals = goals(
        &player,
        &[SET_BY],
        &courses.map(usual),
        EFFORT,
        Assume::Level,
        QUIET,
    )
    .unwrap();
    is_what_it_says(&goals, &courses, false);
}

/// On two courses, one of them longer than its rating says, golfers off 8 have a higher index than 8.
#[test]
fn a_step_toward_the_tour_reaches_the_goal_when_it_is_played() {
    assert!(weighed().goals[0].golfers_index > SET_BY);
    is_what_it_says(weighed(), &[nine_holes(), &longer()], true);
}

#[test]
fn figures_tell_the_better_golfer_from_the_worse() {
    let figures = &weighed().goals[0].figures;
    let both = |kind: FigureKind| {
        let figure = figures.iter().find(|figure| figure.kind == kind).unwrap();
        (figure.player.unwrap(), figure.goal.unwrap())
    };
    for kind in [
        FigureKind::GreensHit,
        FigureKind::UpAndDowns,
        FigureKind::Holed { from_ft: 5 },
    ] {
        let (player, goal) = both(kind);
        assert!(player < goal, "{kind:?}: {player}, {goal}");
    }
    for kind in [
        FigureKind::Left { band: 1 },
        FigureKind::Left { band: 2 },
        FigureKind::ThreePutts,
    ] {
        let (player, goal) = both(kind);
        assert!(player > goal, "{kind:?}: {player}, {goal}");
    }
    let names: Vec<String> = figures.iter().map(|figure| figure.kind.name()).collect();
    assert!(names.contains(&"left_from_100_to_150_yd_median_ft".to_owned()));
}

#[test]
fn a_course_without_an_index_and_too_few_rounds_are_refused() {
    let player = with_long_game_of(15.0);
    let mut three = neutral_course(9, 3275.0);
    three.holes.truncate(3);
    let refused = goals(
        &player,
        &[8.0],
        &[usual(&three)],
        EFFORT,
        Assume::Level,
        QUIET,
    );
    assert!(matches!(refused, Err(GoalError::NoIndex { holes: 3, .. })));
    let few = costcard::cost::card::Effort {
        rounds: 39,
        ..EFFORT
    };
    let refused = goals(
        &player,
        &[8.0],
        &[usual(nine_holes())],
        few,
        Assume::Level,
        QUIET,
    );
    assert_eq!(refused, Err(GoalError::TooFewRounds { rounds: 39 }));
}
