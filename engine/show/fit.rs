//! What a fit came to, for people.

use crate::files::joined;
use crate::player::Origin;
use crate::player::bay::FittedPlayer;
use crate::player::measured::FittedClub;
use crate::units::{Length, Speed};

use super::page::{Page, tied};
use super::reading::index;
use super::table::{number, pct, table, text};

/// Shots left out that are told one by one; a file or the JSON tells all.
const MOST_TOLD: usize = 40;

/// The clubs, the shots left out, and what is assumed.
#[must_use]
pub fn fit(player: &FittedPlayer, page: Page) -> String {
    let mut out = page.paragraph(&title(player)) + "\n";
    out += &club_table(player, page);
    out.push('\n');
    out += &page
        .paragraph("Carry, side and what stands after ± are of normal strikes, mishits left out.");
    out.push('\n');
    out += &spread_table(player, page);
    out.push('\n');
    out += &page.paragraph(&own(player));
    let clubs = &player.fitted.clubs;
    for alike in clubs.chunk_by(|a, b| (&a.derived, a.tells_sides) == (&b.derived, b.tells_sides)) {
        if !alike[0].derived.is_empty() {
            out += &page.item(&derived(alike));
        }
    }
    out += &left_out(player, page);
    out += &assumed(player, page);
    out
}

fn title(player: &FittedPlayer) -> String {
    let shots: usize = player.batch.counts.values().map(|count| count.shots).sum();
    let sessions = match player.batch.sessions.len() {
        1 => "one session".to_owned(),
        many => format!("{many} sessions"),
    };
    let off = index(player.who.handicap);
    format!(
        "{}, off {off}: {shots} shots of {sessions}.",
        player.who.name
    )
}

fn club_table(player: &FittedPlayer, page: Page) -> String {
    let (length, speed) = (page.reading.length_unit(), page.reading.speed_unit());
    let (carry, side) = (format!("carry\n({length})"), format!("side\n({length})"));
    let ball = format!("ball\n({speed})");
    let headings = [
        "club",
        "shots",
        "used",
        "mishit",
        &ball,
        "launch\n(°)",
        "spin\n(rpm)",
        &carry,
        "±",
        &side,
        "±",
    ];
    let mut rows = table(headings, 1);
    for (club, count) in &player.batch.counts {
        let fitted = player.fitted.clubs.iter().find(|one| one.club == *club);
        let mut cells = vec![club.to_string(), count.shots.to_string()];
        match fitted {
            Some(fitted) => cells.extend(figures(fitted, page)),
            None => cells.extend(std::iter::once("0".to_owned()).chain(vec!["–".to_owned(); 8])),
        }
        rows.add_row(cells);
    }
    text(&rows, page)
}

/// The spreads that were measured beside those that are reckoned with.
fn spread_table(player: &FittedPlayer, page: Page) -> String {
    let unit = page.reading.length_unit();
    let [carry, side] = ["carry", "side"].map(|what| format!("{what}, as\nhit ({unit})"));
    let headings = [
        "spread ±",
        &carry,
        "reckoned\nwith",
        &side,
        "reckoned\nwith",
        "your\nown",
    ];
    let mut rows = table(headings, 1);
    let yards = |yd: f64| number(page.reading.length(Length::from_yd(yd)), 1);
    for club in &player.fitted.clubs {
        rows.add_row([
            club.club.to_string(),
            yards(club.hit.carry_sd_yd),
            yards(club.flown.carry_sd_yd),
            match club.tells_sides {
                true => yards(club.hit.side_sd_yd),
                false => "–".to_owned(),
            },
            yards(club.flown.side_sd_yd),
            pct(Some(100.0 * club.own_share)),
        ]);
    }
    text(&rows, page)
}

/// What the spreads reckoned with are made of.
fn own(player: &FittedPlayer) -> String {
    let off = index(player.who.handicap);
    let clubs = &player.fitted.clubs;
    let mut said = format!(
        "Reckoned with: your own spread, and for the rest that of golfers off {off}, with the far shots that a few dozen \
         strikes seldom show."
    );
    let none: Vec<String> = clubs
        .iter()
        .filter(|club| club.mishits == 0)
        .map(|club| {
            let of_100 = 100.0 * club.pattern.mishit.share;
            let of_100 = number(of_100, usize::from(of_100 < 1.0));
            tied(&format!("{} {of_100}", club.club))
        })
        .collect();
    if !none.is_empty() {
        said += &format!(
            " Mishits assumed where none was seen, of 100 strikes: {}.",
            none.join(", ")
        );
    }
    said
}

fn figures(club: &FittedClub, page: Page) -> [String; 9] {
    let [ball_speed, launch, _, backspin, _] = club.pattern.mean;
    let yards = |yd: f64| number(page.reading.length(Length::from_yd(yd)), 0);
    let speed = page.reading.speed(Speed::from_mph(ball_speed));
    [
        club.used.to_string(),
        club.mishits.to_string(),
        number(speed, 0),
        number(launch, 1),
        number(backspin, 0),
        yards(club.flown.carry_yd),
        yards(club.flown.carry_sd_yd),
        sided(&yards(club.flown.side_yd)),
        yards(club.flown.side_sd_yd),
    ]
}

/// A side by its letter in place of its sign.
fn sided(side: &str) -> String {
    match side.strip_prefix('-') {
        Some(left) => format!("{left} L"),
        None if side == "0" => "0".to_owned(),
        None => format!("{side} R"),
    }
}

/// What was not measured of clubs that lack the same.
fn derived(clubs: &[FittedClub]) -> String {
    let of_clubs = clubs.iter().map(|club| tied(&club.club.to_string()));
    let of_clubs: Vec<String> = of_clubs.collect();
    let missing = clubs[0].derived.iter();
    let missing: Vec<&str> = missing.map(|quantity| quantity.words()).collect();
    let mut said = format!(
        "Not measured of {}: {}. Worked out from what was, and less sure.",
        joined(&of_clubs, "and"),
        joined(&missing, "and")
    );
    if !clubs[0].tells_sides {
        said += " Where balls go to the sides nothing tells: that is assumed from the handicap, and no share of it is \
                 your own.";
    }
    said
}

fn left_out(player: &FittedPlayer, page: Page) -> String {
    let count = player.fitted.left_out_count(&player.batch);
    if count == 0 {
        return "\n".to_owned() + page.paragraph("No shot was left out.").as_str();
    }
    let listed = player.fitted.left_out(&player.batch);
    let mut out = "\n".to_owned();
    out += &page.paragraph("Left out as misreads (--keep ROW takes one back in):");
    let many = player.batch.files.len() > 1;
    for shot in listed.iter().take(MOST_TOLD) {
        let file = &player.batch.files[shot.file];
        let row = match many {
            true => tied(&format!("{file}:{}", shot.row)),
            false => tied(&format!("row {}", shot.row)),
        };
        out += &page.item(&format!(
            "{row}, {}: {}",
            tied(&shot.club.to_string()),
            shot.reason
        ));
    }
    if count > MOST_TOLD {
        let told = listed.len().min(MOST_TOLD);
        out += &page.item(&format!("and {} more", count - told));
    }
    out
}

fn assumed(player: &FittedPlayer, page: Page) -> String {
    let assumed = player.golfer.clubs.iter();
    let assumed = assumed.filter(|entry| entry.origin == Origin::Assumed);
    let names: Vec<String> = assumed.map(|entry| tied(&entry.club.to_string())).collect();
    let mut out = "\n".to_owned();
    if !names.is_empty() {
        let list = names.join(", ");
        out += &page.item(&format!(
            "Assumed from the handicap, at the player's own speed: {list}."
        ));
    }
    for club in &player.fitted.too_few {
        out += &page.item(&player.fitted.too_few_words(*club, &player.batch));
    }
    out
}
