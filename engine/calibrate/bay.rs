//! Makes the demo batches profiles/shots/bay.csv and bay-after.csv and the map of their columns: two sessions of an
//! invented golfer, and one after a lesson with the 6 iron, which he now delivers with more loft. They are as a device
//! abroad might export them, a few shots misread: `cargo run --example calibrate bay`.

use std::error::Error;
use std::fmt::Write as _;
use std::fs;

use costcard::ball::air::{Air, Atmosphere};
use costcard::ball::flight::fly;
use costcard::ball::impact::Delivery;
use costcard::player::club::Club;
use costcard::player::heads;
use costcard::player::pattern::{Five, strike_of};
use costcard::player::{Sex, levels};
use costcard::units::Angle;
use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;
use rand_distr::{Distribution, Normal};

const MAP: &str = r#"# What the demo batches bay.csv and bay-after.csv call their columns. Units stand under its header; commas are told from the figures.
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

/// What stands in one sheet.
struct Visits {
    file: &'static str,
    seed: u64,
    days: &'static [&'static str],
    /// The sheet's word, the club, and how often it is hit each day.
    bag: [(&'static str, &'static str, usize); 5],
    /// The club that is delivered with more loft than the golfer's standard, and by how many degrees.
    lofted: Option<(&'static str, f64)>,
    /// Shots of which the device saw something else: no spin, too far, too fast.
    misread: [usize; 3],
}

const VISITS: [Visits; 2] = [
    Visits {
        file: "bay.csv",
        seed: 44,
        days: &["03.05.2026", "10.05.2026"],
        bag: [
            ("Holz 1", "driver", 9),
            ("Eisen 4", "4 iron", 6),
            ("Eisen 6", "6 iron", 9),
            ("Eisen 8", "8 iron", 8),
            ("Keil", "pitching wedge", 7),
        ],
        lofted: None,
        misread: [14, 31, 52],
    },
    Visits {
        file: "bay-after.csv",
        seed: 56,
        days: &["24.05.2026"],
        bag: [
            ("Holz 1", "driver", 10),
            ("Eisen 4", "4 iron", 8),
            ("Eisen 6", "6 iron", 18),
            ("Eisen 8", "8 iron", 10),
            ("Keil", "pitching wedge", 3),
        ],
        lofted: Some(("6 iron", 4.0)),
        misread: [12, 29, 44],
    },
];

/// Writes the batches and the map of both.
pub fn make() -> Result<(), Box<dyn Error>> {
    let folder = format!("{}/profiles/shots", env!("CARGO_MANIFEST_DIR"));
    for visits in &VISITS {
        fs::write(format!("{folder}/{}", visits.file), sheet(visits)?)?;
    }
    Ok(fs::write(format!("{folder}/bay-map.toml"), MAP)?)
}

fn sheet(visits: &Visits) -> Result<String, Box<dyn Error>> {
    let level = levels::level(13.0, Sex::Men)?;
    let mut rng = ChaCha8Rng::seed_from_u64(visits.seed);
    let mut text = HEAD.to_owned();
    let mut number = 0;
    for day in visits.days {
        for (word, name, shots) in visits.bag {
            let club: Club = name.parse()?;
            let mut pattern = level.pattern_with(club).ok_or("no such club")?;
            let lofted = visits.lofted.filter(|(lofted, _)| *lofted == name);
            let more_deg = lofted.map_or(0.0, |(_, more_deg)| more_deg);
            pattern.mean = with_loft(club, &pattern.mean, more_deg)?;
            let sampler = pattern.sampler()?;
            for _ in 0..shots {
                number += 1;
                let strike = sampler.random(&mut rng);
                let mut row = row(club, &strike, more_deg, &mut rng)?;
                spoil(
                    &mut row,
                    visits.misread.iter().position(|one| *one == number),
                );
                writeln!(text, "{day};{word};{number};{}", cells(&row).join(";"))?;
            }
        }
        text += ";;;;;;;;;;;;;;;\n";
    }
    Ok(text)
}

/// The strike when the same swing delivers so much more loft.
fn with_loft(club: Club, strike: &Five, more_deg: f64) -> Result<Five, Box<dyn Error>> {
    if more_deg == 0.0 {
        return Ok(*strike);
    }
    let head = heads::head(club);
    let delivery = head.delivery(&strike_of(strike), None)?;
    let lofted = Delivery {
        dynamic_loft: delivery.dynamic_loft + Angle::from_deg(more_deg),
        ..delivery
    };
    let (before, after) = (head.strike(&delivery), head.strike(&lofted));
    Ok([
        strike[0] + (after.ball_speed - before.ball_speed).mph(),
        strike[1] + (after.launch - before.launch).deg(),
        strike[2] + (after.direction - before.direction).deg(),
        strike[3] + (after.backspin - before.backspin).rpm(),
        strike[4] + (after.sidespin - before.sidespin).rpm(),
    ])
}

/// What the device sees in place of what was.
fn spoil(row: &mut [f64; 13], how: Option<usize>) {
    match how {
        Some(0) => (row[3], row[4]) = (0.0, 0.0),
        Some(1) => row[5] *= 1.5,
        Some(2) => row[0] *= 1.6,
        _ => {}
    }
}

/// The figures of one shot, in the units of the sheet.
fn row(
    club: Club,
    strike: &Five,
    more_deg: f64,
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
        0.75 * loft + 2.0 + more_deg,
    ];
    let found = heads::head(club).delivery(&ball, None);
    let [head_mph, attack, path, face, loft] = found.map_or(usual, |found| {
        let angles = [found.attack, found.path, found.face, found.dynamic_loft];
        let [attack, path, face, loft] = angles.map(|angle| angle.deg());
        [found.club_speed.mph(), attack, path, face, loft]
    });
    Ok([
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
    ])
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
