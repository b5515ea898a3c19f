//! The clubs of a bag, for people.

use crate::round::clubs::{ClubRow, Clubs, Finding, GREEN_DEPTH_YD, GREEN_WIDTH_YD, Loft};
use crate::units::{Length, Speed};

use super::card::rules_in_force;
use super::page::{Page, tied};
use super::reading::index;
use super::table::{number, pct, table, text};

/// The figures of the `clubs` of a golfer: how the clubs fly, what they hold, how they are presented, and what stands out.
#[must_use]
pub fn clubs(clubs: &Clubs, page: Page) -> String {
    let title = format!(
        "The clubs of {}, beside golfers off {}.",
        clubs.player,
        index(clubs.goal_handicap)
    );
    let mut out = page.paragraph(&title) + "\n";
    if let Some(rules) = rules_in_force(&clubs.rules) {
        out += &page.paragraph(&rules);
        out.push('\n');
    }
    for part in [
        flights(clubs, page),
        greens(clubs, page),
        deliveries(clubs, page),
    ] {
        out += &part;
        out.push('\n');
    }
    for finding in sentences(clubs, page) {
        out += &page.item(&finding);
    }
    out.push('\n');
    out += &page.paragraph("Estimates from a model, not promises.");
    out
}

fn yards(yd: f64, page: Page) -> String {
    number(page.reading.length(Length::from_yd(yd)), 0)
}

fn flights(clubs: &Clubs, page: Page) -> String {
    let unit = page.reading.length_unit();
    let (carry, speed) = (
        format!("carry\n({unit})"),
        format!("landing\n({})", page.reading.speed_unit()),
    );
    let headings = [
        "club",
        "shots",
        &carry,
        "spread\n±",
        "gap",
        "run",
        "apex",
        "descent\n(°)",
        &speed,
        "spin\n(rpm)",
    ];
    let mut rows = table(headings, 1);
    for row in &clubs.clubs {
        let landing = Speed::from_mph(row.landing_speed_mph);
        rows.add_row([
            row.club.clone(),
            shots(row),
            yards(row.carry_yd, page),
            yards(row.carry_sd_yd, page),
            row.gap_yd.map_or_else(none, |gap| yards(gap, page)),
            yards(row.run_yd, page),
            yards(row.apex_yd, page),
            number(row.descent_deg, 0),
            number(page.reading.speed(landing), 0),
            number(row.backspin_rpm, 0),
        ]);
    }
    let note = "Shots without misses, in still air; two shots in three carry within the spread. \
                Gap to the next club; run on a medium fairway; spin off the club.";
    text(&rows, page) + "\n" + page.paragraph(note).as_str()
}

fn shots(row: &ClubRow) -> String {
    match row.shots {
        Some(shots) => shots.to_string(),
        None if row.assumed => "assumed".to_owned(),
        None => "stated".to_owned(),
    }
}

fn none() -> String {
    "–".to_owned()
}

fn greens(clubs: &Clubs, page: Page) -> String {
    let mut rows = table(["greens held", "soft", "medium", "firm"], 1);
    for row in &clubs.clubs {
        let held = row.held_pct;
        let shares = [held.soft, held.medium, held.firm].map(|share| pct(Some(share)));
        rows.add_row(std::iter::once(row.club.clone()).chain(shares));
    }
    let note = format!(
        "Of 100 shots that pitch in the front half of a level green {} {unit} deep and {} {unit} wide, misses \
         included, so many stay on it.",
        yards(GREEN_DEPTH_YD, page),
        yards(GREEN_WIDTH_YD, page),
        unit = page.reading.length_unit()
    );
    text(&rows, page) + "\n" + page.paragraph(&note).as_str()
}

fn deliveries(clubs: &Clubs, page: Page) -> String {
    let mut rows = table(
        [
            "delivery\n(°)",
            "attack",
            "face to\npath",
            "spin\nloft",
            "loft",
            "usual\nloft",
            "plays like",
        ],
        1,
    );
    for row in &clubs.clubs {
        let delivery = &row.delivery;
        let degrees = |figure: Option<f64>| figure.map_or_else(none, |figure| number(figure, 1));
        rows.add_row([
            row.club.clone(),
            degrees(delivery.attack_deg),
            degrees(delivery.face_to_path_deg),
            degrees(delivery.spin_loft_deg),
            degrees(delivery.dynamic_loft_deg),
            degrees(delivery.usual_dynamic_loft_deg),
            delivery.plays_like.clone().unwrap_or_else(none),
        ]);
    }
    let mut note = format!(
        "Face to path: positive is right. Usual loft: what golfers off {} deliver with the club.",
        index(clubs.goal_handicap)
    );
    if clubs
        .clubs
        .iter()
        .any(|row| !row.delivery.delivery_measured)
    {
        note += " Where a device did not measure the head, its figures are worked out from the ball, the \
             attack to within some degrees only.";
    }
    text(&rows, page) + "\n" + page.paragraph(&note).as_str()
}

/// The findings as sentences; lofts of one kind in one.
fn sentences(clubs: &Clubs, page: Page) -> Vec<String> {
    let unit = page.reading.length_unit();
    let mut all: Vec<String> = Vec::new();
    let (mut missing, mut added) = (Vec::new(), Vec::new());
    for finding in &clubs.findings {
        match finding {
            Finding::Overlap { clubs, gap_yd } => all.push(overlap(clubs, *gap_yd, page)),
            Finding::WideGap {
                clubs: [longer, shorter],
                gap_yd,
            } => all.push(format!(
                "There is a gap of {} between your {longer} and your {shorter}.",
                tied(&format!("{} {unit}", yards(*gap_yd, page)))
            )),
            Finding::LongestToHold { club, held_pct } => all.push(format!(
                "The longest club that holds a medium green, as every shorter one does, is your {club}: {} of its shots on target stay on it.",
                tied(&pct(Some(*held_pct)))
            )),
            Finding::NothingHolds => all.push(
                "No club holds a medium green: with none do half of the shots on target stay on it.".into(),
            ),
            Finding::LoftMissing(loft) => missing.push(loft),
            Finding::LoftAdded(loft) => added.push(loft),
        }
    }
    all.extend(missing.into_iter().map(|loft| lofted(loft, "less")));
    all.extend(added.into_iter().map(|loft| lofted(loft, "more")));
    all
}

fn overlap([longer, shorter]: &[String; 2], gap_yd: f64, page: Page) -> String {
    let apart = yards(gap_yd.abs(), page);
    let unit = page.reading.length_unit();
    match apart.as_str() {
        "0" => format!("Your {longer} and your {shorter} carry the same distance."),
        _ if gap_yd < 0.0 => format!(
            "Your {shorter} carries {} farther than your {longer}.",
            tied(&format!("{apart} {unit}"))
        ),
        _ => format!(
            "Your {longer} carries only {} farther than your {shorter}: they do the same job.",
            tied(&format!("{apart} {unit}"))
        ),
    }
}

/// A club or a level with `a` before it, or `an` where its number is spoken with a vowel.
#[must_use]
pub fn with_article(name: &str) -> String {
    let with_vowel = ["8", "11 ", "18 ", "11.", "18."];
    let is_spoken_so = with_vowel.iter().any(|start| name.starts_with(start));
    let article = if is_spoken_so { "an" } else { "a" };
    format!("{article} {name}")
}

/// A loft that is not as usual, in words.
fn lofted(loft: &Loft, more_or_less: &str) -> String {
    let off = (loft.dynamic_loft_deg - loft.usual_dynamic_loft_deg).abs();
    let like = if loft.plays_like == loft.club {
        String::new()
    } else {
        format!(": it is delivered like {}", with_article(&loft.plays_like))
    };
    format!(
        "Your {} comes to the ball with {}° {more_or_less} loft than usual ({}° for {}°){like}.",
        loft.club,
        number(off, 1),
        number(loft.dynamic_loft_deg, 1),
        number(loft.usual_dynamic_loft_deg, 1),
    )
}
