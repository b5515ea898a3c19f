//! The cards of checked courses, with a bar on a terminal: ratings by play take a while.

use costcard::cost::design::{self, Design};
use costcard::cost::rating::{self, CourseRating, CourseRatings};
use costcard::course::Course;
use costcard::player::Sex;
use costcard::rules::Rulebook;

use super::output;

/// What there is to say of a course.
pub struct Card {
    /// Its ratings.
    pub ratings: CourseRatings,
    /// How it plays.
    pub design: Design,
}

impl Card {
    /// The rating for those whose golfers played it.
    pub fn rating(&self) -> Option<CourseRating> {
        match self.design.sex {
            Sex::Men => self.ratings.men,
            Sex::Women => self.ratings.women,
        }
    }
}

/// The card of each course, as golfers of `sex` play it; none where there is no course. At a glance nothing is played,
/// and ratings are those that are stated.
pub fn of_all<'a>(
    courses: impl Iterator<Item = Option<&'a (Course, Rulebook)>>,
    sex: Sex,
    at_a_glance: bool,
) -> anyhow::Result<Vec<Option<Card>>> {
    let courses: Vec<Option<&(Course, Rulebook)>> = courses.collect();
    if at_a_glance {
        let card = |course: Option<&(Course, Rulebook)>| {
            course.map(|(course, _)| glance(course, sex)).transpose()
        };
        return courses.into_iter().map(card).collect();
    }
    let rounds = |(course, _): &&(Course, Rulebook)| -> u64 {
        let of = |sex| rating::rounds(course, sex);
        of(Sex::Men) + of(Sex::Women)
    };
    let bar = output::progress(courses.iter().flatten().map(rounds).sum());
    let done = |rounds| output::advance(&bar, rounds);
    let mut all = Vec::new();
    for course in courses {
        all.push(match course {
            Some((course, rules)) => {
                let ratings = rating::of_both_by_rules(course, rules, &done)?;
                rules.outcome()?;
                let design = design::design((course, rules), sex)?;
                Some(Card { ratings, design })
            }
            None => None,
        });
    }
    bar.finish_and_clear();
    Ok(all)
}

fn glance(course: &Course, sex: Sex) -> anyhow::Result<Card> {
    Ok(Card {
        ratings: rating::stated(course),
        design: design::at_a_glance(course, sex)?,
    })
}
