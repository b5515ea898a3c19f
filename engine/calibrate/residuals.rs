//! Writes profiles/levels/residuals.csv: what the levels come to beside the published figures they were made from, row
//! by row, and which rows set something. `cargo run --example calibrate residuals`, after `… levels`.

use std::error::Error;
use std::fmt::Write as _;

use costcard::cost::rating;
use costcard::player::club::Class;
use costcard::player::levels::level;
use costcard::player::{Golfer, Sex};

use crate::landing::Bench;
use crate::neutral;

const HEAD: &str = "# Made by `cargo run --example calibrate residuals`: the levels beside published figures. Sources: see the files of\n\
# the same figures in tests/published/data, and engine/calibrate/neutral.rs for ratings by length. Rows that were\n\
# used in making the levels say so; the others are free to test on.\n\
figure,golfer,sex,at,published,level,used\n";

/// One line of the file.
struct Row<'a> {
    figure: &'a str,
    golfer: &'a str,
    sex: Sex,
    at: String,
    published: f64,
    found: f64,
    used: bool,
}

pub fn write() -> Result<(), Box<dyn Error>> {
    let mut text = HEAD.to_owned();
    let bench = Bench::new();
    for row in areas(&bench)?
        .into_iter()
        .chain(drives(&bench)?)
        .chain(ratings()?)
    {
        let sex = if row.sex == Sex::Men { "men" } else { "women" };
        let used = if row.used { "yes" } else { "no" };
        let (figure, golfer, at, published, found) =
            (row.figure, row.golfer, row.at, row.published, row.found);
        writeln!(
            text,
            "{figure},{golfer},{sex},{at},{published:.1},{found:.1},{used}"
        )?;
    }
    print!("{text}");
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/profiles/levels/residuals.csv");
    Ok(std::fs::write(path, text)?)
}

fn sex_of(word: &str) -> Sex {
    if word == "men" { Sex::Men } else { Sex::Women }
}

/// Landing areas, width and depth, at every length of the table.
fn areas(bench: &Bench) -> Result<Vec<Row<'static>>, Box<dyn Error>> {
    let rows = crate::table("accuracy-by-shot-length.csv")?;
    let mut made = Vec::new();
    for (golfer, word, handicap) in [
        ("scratch", "men", 0.0),
        ("scratch", "women", 0.0),
        ("bogey", "men", 20.0),
        ("bogey", "women", 24.0),
    ] {
        let own: Vec<_> = rows
            .iter()
            .filter(|row| &row[0] == golfer && &row[1] == word)
            .collect();
        let clubs = club_areas(bench, &level(handicap, sex_of(word))?)?;
        for (index, row) in own.iter().enumerate() {
            let length: f64 = row[2].parse()?;
            let Some(found) = at_length(&clubs, length) else {
                continue;
            };
            for (axis, figure) in ["two-thirds width (yd)", "two-thirds depth (yd)"]
                .into_iter()
                .enumerate()
            {
                made.push(Row {
                    figure,
                    golfer,
                    sex: sex_of(word),
                    at: format!("{length} yd"),
                    published: row[3 + axis].parse()?,
                    found: found[axis],
                    used: index % 2 == 0 || index + 1 == own.len(),
                });
            }
        }
    }
    Ok(made)
}

/// Length, width and depth of each club's normal shots, the longest first.
fn club_areas(bench: &Bench, golfer: &Golfer) -> Result<Vec<[f64; 3]>, Box<dyn Error>> {
    let of = |entry: &costcard::player::BagClub| {
        let runs = entry.club.class() == Class::Wood;
        let area = bench.fly(&entry.pattern, runs)?;
        Ok([
            bench.end(&entry.pattern.mean, runs)[1],
            area.width,
            area.depth,
        ])
    };
    golfer.clubs.iter().map(of).collect()
}

/// Width and depth at a length, between the clubs on either side of it.
fn at_length(areas: &[[f64; 3]], length_yd: f64) -> Option<[f64; 2]> {
    let pair = areas
        .windows(2)
        .find(|pair| pair[0][0] >= length_yd && pair[1][0] <= length_yd)?;
    let t = (length_yd - pair[1][0]) / (pair[0][0] - pair[1][0]);
    Some([1, 2].map(|i| pair[1][i] + t * (pair[0][i] - pair[1][i])))
}

/// Mean drives by band of handicaps.
fn drives(bench: &Bench) -> Result<Vec<Row<'static>>, Box<dyn Error>> {
    let rows = crate::table("driving-distance-by-handicap.csv")?;
    let mut made = Vec::new();
    for word in ["men", "women"] {
        let own: Vec<_> = rows.iter().filter(|row| &row[0] == word).collect();
        for (index, row) in own.iter().enumerate() {
            let handicap = f64::midpoint(row[2].parse()?, row[3].parse()?);
            let golfer = level(handicap, sex_of(word))?;
            made.push(Row {
                figure: "mean drive (yd)",
                golfer: "handicap",
                sex: sex_of(word),
                at: row[1].to_owned(),
                published: row[4].parse()?,
                found: bench.mean_drive_yd(&golfer.clubs[0].pattern)?,
                used: index % 2 == 0 || index + 1 == own.len(),
            });
        }
    }
    Ok(made)
}

/// Ratings of the neutral course by play, beside those by length alone. The index at the length in the middle was
/// fitted, and with it about what these come to there.
fn ratings() -> Result<Vec<Row<'static>>, Box<dyn Error>> {
    let mut made = Vec::new();
    for sex in [Sex::Men, Sex::Women] {
        let middle = neutral::length_yd(sex);
        for length_yd in [middle - 500.0, middle, middle + 500.0] {
            let course = neutral::scaled(length_yd)?;
            let played = rating::of(&course, sex, &|_| {})?
                .ok_or("a course of 18 holes has a rating")?
                .rating;
            let published = neutral::by_length(length_yd, sex);
            for (golfer, published, found) in [
                ("scratch", published.course_rating, played.course_rating),
                ("bogey", published.bogey_rating, played.bogey_rating),
            ] {
                made.push(Row {
                    figure: "rating (strokes)",
                    golfer,
                    sex,
                    at: format!("{length_yd} yd"),
                    published,
                    found,
                    used: length_yd == middle,
                });
            }
        }
    }
    Ok(made)
}
