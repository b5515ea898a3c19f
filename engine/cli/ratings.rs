//! The ratings of checked courses, with a bar on a terminal: by play they take a while.

use costcard::cost::rating::{self, CourseRating, CourseRatings};
use costcard::course::Course;
use costcard::player::Sex;
use costcard::rules::Rulebook;
use costcard::show::page::tied;

use super::output;

/// The ratings of each course; none where there is no course.
pub fn of_all<'a>(
    courses: impl Iterator<Item = Option<&'a (Course, Rulebook)>>,
) -> anyhow::Result<Vec<Option<CourseRatings>>> {
    let courses: Vec<Option<&(Course, Rulebook)>> = courses.collect();
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
                Some(ratings)
            }
            None => None,
        });
    }
    bar.finish_and_clear();
    Ok(all)
}

/// The ratings in a line; none where there are none.
pub fn line(ratings: &CourseRatings) -> Option<String> {
    let both = [("men", ratings.men), ("women", ratings.women)];
    let told: Vec<String> = [(true, "rating as stated"), (false, "rating by play")]
        .into_iter()
        .filter_map(|(stated, how)| {
            let of = |(who, rating): (&str, Option<CourseRating>)| {
                rating
                    .filter(|rating| rating.stated == stated)
                    .map(|rating| one(who, rating))
            };
            let those: Vec<String> = both.into_iter().filter_map(of).collect();
            (!those.is_empty()).then(|| format!("{how}: {}", those.join("; ")))
        })
        .collect();
    (!told.is_empty()).then(|| told.join("; "))
}

fn one(who: &str, CourseRating { rating, .. }: CourseRating) -> String {
    let bogey = tied(&format!("bogey {:.1}", rating.bogey_rating));
    let slope = tied(&format!("slope {}", rating.slope_rating));
    let course = tied(&format!("{who} {:.1}", rating.course_rating));
    format!("{course}, {bogey}, {slope}")
}
