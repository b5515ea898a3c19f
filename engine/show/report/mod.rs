//! The report: one page of HTML that a player keeps and prints, with everything it shows inside it.
//!
//! Sentences and figures are those of the cost card (`show/card.rs`, `show/sure.rs`); the page adds pictures and order.
//! It needs neither a network nor a script.

pub(super) mod clubs;
mod courses;
mod earlier;
pub(super) mod goal;
mod holes;
pub(super) mod html;
pub(super) mod lead;
pub(super) mod parts;
pub(super) mod trust;

use maud::{DOCTYPE, Markup, PreEscaped, html};

use crate::cost::card::Card;
use crate::cost::costly::CostlyHole;
use crate::cost::worth::Worth;
use crate::course::Course;
use crate::player::Golfer;
use crate::player::compare::Comparison;
use crate::round::clubs::ClubRow;
use crate::round::clubs::beside::Beside;
use crate::round::part::Part;

use super::card::Names;
use super::draw::dark_colours;
use super::reading::{Reading, golfers_off};

/// What a report shows.
#[derive(Debug, Clone, Copy)]
pub struct Report<'a> {
    /// The player.
    pub player: &'a Golfer,
    /// The goal's golfer.
    pub goal: &'a Golfer,
    /// Whether the goal's golfers are taken at the player's own ball speed.
    pub keep_speed: bool,
    /// The part the player came to work on.
    pub asked: Option<Part>,
    /// The courses; the first is home, shown in full.
    pub courses: &'a [Visited<'a>],
    /// The clubs behind what the home card says, beside those of the goal's golfers.
    pub clubs: &'a [Beside],
    /// The same player on an earlier day; none where there is nothing to compare with.
    pub earlier: Option<Earlier<'a>>,
    /// Units people read.
    pub reading: Reading,
}

/// The player on one course.
#[derive(Debug, Clone, Copy)]
pub struct Visited<'a> {
    /// The course.
    pub course: &'a Course,
    /// The scripts in force on it.
    pub rules: &'a [String],
    /// The cost card.
    pub card: &'a Card,
    /// The holes that cost most, the costliest first.
    pub holes: &'a [CostlyHole],
}

/// What has changed since an earlier day.
#[derive(Debug, Clone, Copy)]
pub struct Earlier<'a> {
    /// What it is worth at home; none where no club has shots enough.
    pub worth: Option<&'a Worth>,
    /// Which changes are real, where two sheets of shots are compared; none for two player files.
    pub compared: Option<&'a Comparison>,
    /// The clubs behind the card, before and today.
    pub clubs: [&'a [ClubRow]; 2],
}

impl<'a> Report<'a> {
    /// The names on the card of a course.
    fn names(&self, at: &Visited<'a>) -> Names<'a> {
        Names {
            player: &self.player.name,
            handicap: self.player.handicap,
            goal: self.goal.handicap,
            keep_speed: self.keep_speed,
            course: &at.course.name,
        }
    }

    /// The goal's golfers, as sentences name them.
    fn goal_golfers(&self) -> String {
        golfers_off(self.goal.handicap)
    }
}

/// The page; empty where no course is visited.
#[must_use]
pub fn report(report: &Report<'_>) -> String {
    let Some((home, others)) = report.courses.split_first() else {
        return String::new();
    };
    let title = format!("{}: what to work on", report.player.name);
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                (html::head_of(&title))
                style { (PreEscaped(style())) }
            }
            body {
                (lead::header(report, home, &title))
                main {
                    (lead::advice(report, home))
                    (parts::card(report, home))
                    (goal::asks(report, home))
                    (trust::trust(report, home))
                    (clubs::clubs(report, home))
                    (holes::holes(report, home))
                    (earlier::earlier(report, home))
                    (courses::others(report, home, others))
                }
                (footer(home))
            }
        }
    };
    page.into_string() + "\n"
}

fn footer(home: &Visited<'_>) -> Markup {
    let figures = &home.card.player;
    html! {
        footer {
            p {
                "Figures of " (figures.rounds) " rounds (seed " (figures.seed) "), played on paper by costcard "
                (env!("CARGO_PKG_VERSION")) "."
            }
        }
    }
}

/// The style of the page: light on paper and on light screens, dark where the reader's screen is.
pub(super) fn style() -> String {
    format!(
        "{}@media screen and (prefers-color-scheme:dark){{:root{{{}--mark:#2c3a22;--line:#3a434d}}}}\n",
        include_str!("page.css"),
        dark_colours()
    )
}
