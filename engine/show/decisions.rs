//! Decisions on holes, for people.

use crate::cost::card::NOTHING;
use crate::cost::decisions::{Drive, Even, GoOrLayUp, HoleAnswers};
use crate::units::Length;

use super::page::{Page, tied};
use super::table::{number, table, text};

/// The answers for some holes, one after the other.
#[must_use]
pub fn holes(answers: &[HoleAnswers], page: Page) -> String {
    answers.iter().map(|hole| one(hole, page)).collect()
}

fn one(hole: &HoleAnswers, page: Page) -> String {
    let title = format!(
        "Hole {}, par {}, {}",
        hole.number,
        hole.par,
        yards(hole.length_yd, page)
    );
    let mut out = page.paragraph(&title) + "\n";
    out += &page.paragraph(&tee(hole));
    out.push('\n');
    if let Some(drive) = &hole.drive {
        out += &drives(drive, page);
    }
    if !hole.approach.is_empty() {
        out += &approach(&hole.approach, page);
    }
    out
}

fn tee(hole: &HoleAnswers) -> String {
    let clubs: Vec<String> = hole
        .tee
        .iter()
        .map(|tee| tied(&format!("{} {:.2}", tee.club, tee.strokes)))
        .collect();
    format!(
        "Expected strokes by the club from the tee: {}.",
        clubs.join(", ")
    )
}

fn drives(drive: &Drive, page: Page) -> String {
    let usual = drive
        .even
        .iter()
        .find(|even| even.fairway_yd == drive.usual_yd);
    let mut out = String::new();
    if let Some(usual) = usual {
        out += &page.paragraph(&even_sentence(drive, usual, page));
        out.push('\n');
    }
    let unit = page.reading.length_unit();
    let (drive_in, even) = (
        format!("drive\n({unit})"),
        format!("as good in\nrough ({unit})"),
    );
    let mut rows = table([&*drive_in, "in the\nfairway", "in the\nrough", &*even], 0);
    for even in &drive.even {
        rows.add_row([
            length(even.fairway_yd, page),
            number(even.fairway_strokes, 2),
            even.rough_strokes
                .map_or_else(dash, |strokes| number(strokes, 2)),
            even.rough_yd.map_or_else(dash, |yd| length(yd, page)),
        ]);
    }
    out += &text(&rows, page);
    out.push('\n');
    out
}

/// The usual drive and its equal in the rough, in a sentence.
fn even_sentence(drive: &Drive, usual: &Even, page: Page) -> String {
    let own = yards(usual.fairway_yd, page);
    let start = format!(
        "With the {} the ball lies {own} down the fairway: {:.2} strokes to go.",
        drive.club, usual.fairway_strokes
    );
    match (usual.rough_yd, usual.rough_strokes) {
        (_, None) => format!("{start} There is no rough beside it."),
        (None, _) => format!("{start} No drive in the rough is worth as much."),
        (Some(rough), _) if rough <= usual.fairway_yd => {
            format!("{start} In the rough beside it that is no worse.")
        }
        (Some(rough), _) => format!(
            "{start} A drive in the rough must be {} longer to be worth as much.",
            yards(rough - usual.fairway_yd, page)
        ),
    }
}

fn approach(places: &[GoOrLayUp], page: Page) -> String {
    let mut out = page.paragraph(&advice(places, page)) + "\n";
    let unit = page.reading.length_unit();
    let (to_hole, lay_up_to) = (format!("to hole\n({unit})"), format!("to\n({unit})"));
    let short = format!("short\n({unit})");
    let mut rows = table(
        [
            "go with",
            "lay up with",
            &*to_hole,
            "go",
            &*short,
            "lay up",
            &*lay_up_to,
            "going\nsaves",
        ],
        2,
    );
    for place in places {
        rows.add_row([
            place.go_club.to_string(),
            place.lay_up_club.to_string(),
            length(place.to_hole_yd, page),
            number(place.go_strokes, 2),
            match place.go_short_yd {
                0.0 => dash(),
                short => length(short, page),
            },
            number(place.lay_up_strokes, 2),
            length(place.lay_up_to_yd, page),
            number(place.going_saves, 2),
        ]);
    }
    out += &text(&rows, page);
    out.push('\n');
    out
}

/// From where to go for the green. Places come farthest first.
fn advice(places: &[GoOrLayUp], page: Page) -> String {
    let lay_up = |place: &GoOrLayUp| place.going_saves <= -NOTHING;
    let go = |place: &GoOrLayUp| place.going_saves >= NOTHING;
    if !places.iter().any(lay_up) {
        return match places.iter().any(go) {
            true => "Go for the green, or as near to it as you get: laying up saves nothing here."
                .into(),
            false => "Going and laying up are worth the same here.".into(),
        };
    }
    if !places.iter().any(go) {
        return "Lay up: going for the green saves nothing here.".into();
    }
    let runs: Vec<String> = places
        .chunk_by(|a, b| lay_up(a) == lay_up(b))
        .filter(|run| run.iter().all(lay_up))
        .map(|run| match run {
            [one] => length(one.to_hole_yd, page),
            [farthest, .., nearest] => {
                let ends = [nearest, farthest].map(|place| length(place.to_hole_yd, page));
                ends.join(" to ")
            }
            [] => String::new(),
        })
        .collect();
    format!(
        "Lay up from {} {}; from all other places go for the green, or as near to it as you get.",
        runs.join(", "),
        page.reading.length_unit()
    )
}

fn dash() -> String {
    "–".to_owned()
}

fn length(yd: f64, page: Page) -> String {
    number(page.reading.length(Length::from_yd(yd)), 0)
}

/// A length with its unit, kept on one line.
fn yards(yd: f64, page: Page) -> String {
    tied(&format!(
        "{} {}",
        length(yd, page),
        page.reading.length_unit()
    ))
}
