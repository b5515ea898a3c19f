//! The ratings of a course: what a scratch and a bogey golfer take on it.

use serde::Serialize;

use crate::player::Sex;

/// Course, bogey and slope rating, for men or for women.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Rating {
    /// What a scratch golfer takes, strokes to one decimal.
    pub course_rating: f64,
    /// What a bogey golfer takes, strokes to one decimal.
    pub bogey_rating: f64,
    /// How much harder the course is for the bogey golfer than for the scratch golfer: 55 to 155, standard 113.
    pub slope_rating: u8,
}

/// The ratings a course file states.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Ratings {
    /// For men.
    pub men: Option<Rating>,
    /// For women.
    pub women: Option<Rating>,
}

impl Ratings {
    /// For men or women.
    #[must_use]
    pub const fn of(&self, sex: Sex) -> Option<Rating> {
        match sex {
            Sex::Men => self.men,
            Sex::Women => self.women,
        }
    }
}

/// Slope rating for a stroke between bogey and course rating. Source: Course Rating System Manual, USGA.
const fn slope_per_stroke(sex: Sex) -> f64 {
    match sex {
        Sex::Men => 5.381,
        Sex::Women => 4.24,
    }
}

/// The least and the highest slope rating.
pub const SLOPES: (f64, f64) = (55.0, 155.0);

impl Rating {
    /// From what a scratch and a bogey golfer take over `holes` holes: strokes rounded to a tenth, the slope rating
    /// from the rounded ones. Half a tenth goes upward.
    ///
    /// ```
    /// use costcard::{course::Rating, player::Sex};
    /// let rating = Rating::played(70.52, 91.34, 18, Sex::Men);
    /// // 5.381 × (91.3 − 70.5) = 111.9
    /// assert_eq!((rating.course_rating, rating.bogey_rating, rating.slope_rating), (70.5, 91.3, 112));
    /// ```
    #[must_use]
    pub fn played(scratch: f64, bogey: f64, holes: usize, sex: Sex) -> Self {
        let (course_rating, bogey_rating) = (to_tenth(scratch), to_tenth(bogey));
        let slope = slope_of(course_rating, bogey_rating, holes, sex);
        Self {
            course_rating,
            bogey_rating,
            slope_rating: (slope + 0.5).floor().clamp(SLOPES.0, SLOPES.1) as u8,
        }
    }

    /// As a course states it; the bogey rating follows from the slope where it is not stated.
    #[must_use]
    pub fn stated(
        course_rating: f64,
        slope_rating: u8,
        bogey_rating: Option<f64>,
        holes: usize,
        sex: Sex,
    ) -> Self {
        let over = f64::from(slope_rating) / slope_over(holes, sex);
        Self {
            course_rating,
            bogey_rating: bogey_rating.unwrap_or_else(|| to_tenth(course_rating + over)),
            slope_rating,
        }
    }
}

/// Slope rating for a stroke: over nine holes a stroke weighs twice.
fn slope_over(holes: usize, sex: Sex) -> f64 {
    slope_per_stroke(sex) * if holes == 9 { 2.0 } else { 1.0 }
}

/// The slope rating that a course and a bogey rating over `holes` holes make.
pub(super) fn slope_of(course_rating: f64, bogey_rating: f64, holes: usize, sex: Sex) -> f64 {
    (bogey_rating - course_rating) * slope_over(holes, sex)
}

fn to_tenth(strokes: f64) -> f64 {
    (strokes * 10.0 + 0.5).floor() / 10.0
}
