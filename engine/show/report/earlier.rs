//! Before and after, where an earlier sheet or player file is there.

use maud::{Markup, html};

use super::html::table;
use super::{Earlier, Report, Visited};
use crate::player::compare::{Change, ClubChanges, Comparison};
use crate::round::clubs::ClubRow;
use crate::show::compare::{FLOWN, cells, verdict};
use crate::show::page::{Page, WIDEST};
use crate::show::reading::{Reading, number};
use crate::show::worth::{moved, worth_words};
use crate::units::Length;

pub fn earlier(report: &Report<'_>, home: &Visited<'_>) -> Markup {
    let Some(earlier) = &report.earlier else {
        return html! {};
    };
    let page = Page::new(report.reading, WIDEST);
    let course = &home.course.name;
    html! {
        section aria-labelledby="before" {
            h2 #before { "Before and after" }
            @match earlier.compared {
                Some(compared) => {
                    p { (verdict(compared, page)) }
                    p { (worth_words(earlier.worth, course, compared)) }
                    (real(compared, page))
                }
                None => {
                    p {
                        "On " (course) ", since the earlier file the expected score "
                        @if let Some(worth) = earlier.worth { (moved(worth.strokes, worth.before, worth.after)) }
                        ". Whatever was not measured on both days is taken as it is today. How sure the change is cannot \
                         be told from player files: two sheets of shots can tell."
                    }
                    (flights(earlier, report.reading))
                }
            }
        }
    }
}

/// The changes that are real.
fn real(compared: &Comparison, page: Page) -> Markup {
    let of_club = |club: &ClubChanges| -> Vec<Vec<String>> {
        let row = |change: &Change| {
            let [name, before, after, changed, interval, _] = cells(change, page);
            vec![
                format!("{}: {name}", club.club),
                before,
                after,
                changed,
                interval,
            ]
        };
        club.changes
            .iter()
            .filter(|change| change.real)
            .map(row)
            .collect()
    };
    let rows: Vec<Vec<String>> = compared.clubs.iter().flat_map(of_club).collect();
    let headings = ["what", "before", "after", "change", "90 % interval"];
    let changes = compared.clubs.iter().flat_map(|club| &club.changes);
    let any_flown = changes
        .into_iter()
        .any(|change| change.real && !change.measured);
    html! {
        @if !rows.is_empty() { (table("What has really changed", &headings, &rows)) }
        @if any_flown { p { (FLOWN) } }
    }
}

/// The clubs behind the card, before and today.
fn flights(earlier: &Earlier<'_>, reading: Reading) -> Markup {
    let length = |yd: f64| number(reading.length(Length::from_yd(yd)), 0);
    let both = |figure: &dyn Fn(&ClubRow) -> String, [before, today]: [&ClubRow; 2]| {
        [figure(before), figure(today)].join(" → ")
    };
    let rows: Vec<Vec<String>> = earlier.clubs[1]
        .iter()
        .filter_map(|today| {
            let before = earlier.clubs[0].iter().find(|row| row.club == today.club)?;
            let pair = [before, today];
            Some(vec![
                today.club.clone(),
                both(&|row| length(row.carry_yd), pair),
                both(&|row| length(row.carry_sd_yd), pair),
                both(&|row| number(row.descent_deg, 0), pair),
                both(&|row| number(row.held_pct.firm, 0), pair),
            ])
        })
        .collect();
    let carry = format!("mean carry, {}", reading.length_unit());
    let spread = format!("spread of carry, {}", reading.length_unit());
    let headings = [
        "club",
        &carry,
        &spread,
        "descent, °",
        "firm greens held, of 100",
    ];
    table("The clubs behind it, then → now", &headings, &rows)
}
