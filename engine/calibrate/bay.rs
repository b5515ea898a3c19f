//! Makes the demo batch profiles/shots/bay.csv and the map of its columns: two sessions of an invented golfer, as a
//! device abroad might export them, a few shots misread: `cargo run --example calibrate bay`.

use std::error::Error;
use std::fmt::Write as _;
use std::fs;

use costcard::ball::air::{Air, Atmosphere};
use costcard::ball::flight::fly;
use costcard::player::club::Club;
use costcard::player::heads;
use costcard::player::pattern::{Five, strike_of};
use costcard::player::{Sex, levels};
use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;
use rand_distr::{Distribution, Normal};

const MAP: &str = r#"# What the demo batch bay.csv calls its columns. Units stand under its header; commas are told from the figures.
[columns]
club = "Schläger"
date = "Datum"
ball_speed_mph = "Balltempo"
launch_deg = "Startwinkel"
direction_deg = "Startrichtung"
backspin_rpm = "Rückdrall"
sidespin_rpm = "Seitdrall"
carry_yd = "Flugweite"
side_yd = "Ablage"
apex_yd = "Scheitel"
club_speed_mph = "Kopftempo"
attack_deg = "Anstellung"
path_deg = "Bahn"
face_deg = "Blatt"
dynamic_loft_deg = "Neigung"

[clubs]
"Holz 1" = "driver"
"Eisen 4" = "4 iron"
"Eisen 6" = "6 iron"
"Eisen 8" = "8 iron"
"Keil" = "pitching wedge"
"#;

const HEAD: &str =
    "Datum;Schläger;Nr;Balltempo;Startwinkel;Startrichtung;Rückdrall;Seitdrall;Flugweite;Ablage;\
Scheitel;Kopftempo;Anstellung;Bahn;Blatt;Neigung
;;;km/h;°;°;1/min;1/min;m;m;m;km/h;°;°;°;°
";

const DAYS: [&str; 2] = ["03.05.2026", "10.05.2026"];
const BAG: [(&str, &str, usize); 5] = [
    ("Holz 1", "driver", 9),
    ("Eisen 4", "4 iron", 6),
    ("Eisen 6", "6 iron", 9),
    ("Eisen 8", "8 iron", 8),
    ("Keil", "pitching wedge", 7),
];

/// Writes the batch and its map.
pub fn make() -> Result<(), Box<dyn Error>> {
    let folder = format!("{}/profiles/shots", env!("CARGO_MANIFEST_DIR"));
    fs::write(format!("{folder}/bay.csv"), sheet()?)?;
    Ok(fs::write(format!("{folder}/bay-map.toml"), MAP)?)
}

fn sheet() -> Result<String, Box<dyn Error>> {
    let level = levels::level(13.0, Sex::Men)?;
    let mut rng = ChaCha8Rng::seed_from_u64(44);
    let mut text = HEAD.to_owned();
    let mut number = 0;
    for day in DAYS {
        for (word, name, shots) in BAG {
            let club: Club = name.parse()?;
            let pattern = level.pattern_with(club).ok_or("no such club")?;
            let sampler = pattern.sampler()?;
            for _ in 0..shots {
                number += 1;
                let strike = sampler.random(&mut rng);
                let row = row(club, &strike, number, &mut rng)?;
                writeln!(text, "{day};{word};{number};{}", cells(&row).join(";"))?;
            }
        }
        text += ";;;;;;;;;;;;;;;\n";
    }
    Ok(text)
}

/// The figures of one shot, in the units of the sheet: of a few the device saw something else.
fn row(
    club: Club,
    strike: &Five,
    number: usize,
    rng: &mut ChaCha8Rng,
) -> Result<[f64; 13], Box<dyn Error>> {
    const KMH: f64 = 1.609_344;
    const M: f64 = 0.9144;
    let ball = strike_of(strike);
    let flight = fly(&ball, &Atmosphere::new(&Air::standard()));
    let loft = club.typical_loft().deg();
    let noise = Normal::new(0.0, 0.5)?;
    // Off the middle of the face the head was as fast and lofted as ever, whatever the ball says.
    let usual = [
        strike[0] / (1.5 - 0.006 * loft),
        -2.0,
        0.0,
        0.0,
        0.75 * loft + 2.0,
    ];
    let found = heads::head(club).delivery(&ball, None);
    let [head_mph, attack, path, face, loft] = found.map_or(usual, |found| {
        let angles = [found.attack, found.path, found.face, found.dynamic_loft];
        let [attack, path, face, loft] = angles.map(|angle| angle.deg());
        [found.club_speed.mph(), attack, path, face, loft]
    });
    let mut row = [
        strike[0] * KMH,
        strike[1],
        strike[2],
        strike[3],
        strike[4],
        flight.carry.yd() * M * 0.98,
        flight.side.yd() * M,
        flight.apex.yd() * M,
        head_mph * KMH,
        attack + noise.sample(rng),
        path + noise.sample(rng),
        face + noise.sample(rng),
        loft + noise.sample(rng),
    ];
    match number {
        14 => (row[3], row[4]) = (0.0, 0.0),
        31 => row[5] *= 1.5,
        52 => row[0] *= 1.6,
        _ => {}
    }
    Ok(row)
}

/// Figures as the sheet writes them: decimal commas, sides by letter.
fn cells(row: &[f64; 13]) -> Vec<String> {
    let sided = |value: f64, decimals: usize| {
        let letter = if value < 0.0 { "L" } else { "R" };
        format!("{:.decimals$} {letter}", value.abs())
    };
    let cell = |(index, value): (usize, &f64)| match index {
        2 | 6 => sided(*value, 1),
        3 => format!("{value:.0}"),
        4 => sided(*value, 0),
        _ => format!("{value:.1}"),
    };
    let cells = row.iter().enumerate().map(cell);
    cells.map(|cell| cell.replace('.', ",")).collect()
}
