//! Makes the sheets of strikes of the demo players in profiles/shots: invented golfers, drawn once from a level with
//! a few faults put in, by a seeded generator: `cargo run --example calibrate shots`.

use std::error::Error;
use std::fmt::Write as _;
use std::fs;

use costcard::player::club::Club;
use costcard::player::pattern::Pattern;
use costcard::player::{Sex, levels};
use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;

/// What sets a player's strikes with some clubs apart from the level's.
struct Fault {
    clubs: &'static [&'static str],
    ball_speed_factor: f64,
    launch_add_deg: f64,
    backspin_factor: f64,
    direction_add_deg: f64,
    sidespin_add_rpm: f64,
    /// On the spread of ball speed.
    speed_spread_factor: f64,
    /// On the spreads of direction and sidespin.
    wildness_factor: f64,
}

const NONE: Fault = Fault {
    clubs: &[],
    ball_speed_factor: 1.0,
    launch_add_deg: 0.0,
    backspin_factor: 1.0,
    direction_add_deg: 0.0,
    sidespin_add_rpm: 0.0,
    speed_spread_factor: 1.0,
    wildness_factor: 1.0,
};

/// One demo player. To tune one, change this table and run it again.
struct Demo {
    file: &'static str,
    seed: u64,
    /// Handicap of the level his strikes are drawn from.
    long_game: f64,
    /// Clubs and how many strikes of each.
    bag: &'static [(&'static str, usize)],
    faults: &'static [Fault],
}

const DEMOS: [Demo; 3] = [
    // Long and mid irons low with little spin: they will not hold a green.
    Demo {
        file: "rowan",
        seed: 48,
        long_game: 10.0,
        bag: &[
            ("driver", 18),
            ("4 hybrid", 14),
            ("5 iron", 16),
            ("6 iron", 18),
            ("7 iron", 18),
            ("8 iron", 14),
            ("9 iron", 14),
            ("pitching wedge", 14),
            ("sand wedge", 12),
        ],
        faults: &[
            Fault {
                clubs: &["driver"],
                ball_speed_factor: 1.03,
                speed_spread_factor: 0.7,
                ..NONE
            },
            Fault {
                clubs: &["4 hybrid"],
                launch_add_deg: -5.0,
                backspin_factor: 0.7,
                speed_spread_factor: 1.2,
                ..NONE
            },
            Fault {
                clubs: &["5 iron", "6 iron", "7 iron"],
                ball_speed_factor: 1.03,
                launch_add_deg: -6.0,
                backspin_factor: 0.66,
                speed_spread_factor: 1.2,
                ..NONE
            },
            Fault {
                clubs: &["9 iron", "pitching wedge", "sand wedge"],
                speed_spread_factor: 0.85,
                wildness_factor: 0.85,
                ..NONE
            },
        ],
    },
    // Strong irons; a driver that goes everywhere and slices.
    Demo {
        file: "dale",
        seed: 43,
        long_game: 8.0,
        bag: &[
            ("driver", 20),
            ("3 wood", 14),
            ("5 iron", 14),
            ("6 iron", 16),
            ("7 iron", 16),
            ("8 iron", 14),
            ("9 iron", 14),
            ("pitching wedge", 14),
            ("sand wedge", 12),
        ],
        faults: &[
            Fault {
                clubs: &["driver"],
                ball_speed_factor: 1.06,
                backspin_factor: 1.1,
                direction_add_deg: -1.5,
                sidespin_add_rpm: 650.0,
                speed_spread_factor: 0.6,
                wildness_factor: 1.75,
                ..NONE
            },
            Fault {
                clubs: &["3 wood"],
                sidespin_add_rpm: 350.0,
                wildness_factor: 1.4,
                ..NONE
            },
        ],
    },
    // A good ball striker; what leaks is in the player's file.
    Demo {
        file: "mika",
        seed: 43,
        long_game: 5.0,
        bag: &[
            ("driver", 16),
            ("3 wood", 12),
            ("5 iron", 14),
            ("6 iron", 14),
            ("7 iron", 16),
            ("8 iron", 14),
            ("9 iron", 14),
            ("pitching wedge", 14),
            ("sand wedge", 12),
        ],
        faults: &[],
    },
];

/// Writes every sheet.
pub fn make() -> Result<(), Box<dyn Error>> {
    for demo in &DEMOS {
        let path = format!(
            "{}/profiles/shots/{}.csv",
            env!("CARGO_MANIFEST_DIR"),
            demo.file
        );
        fs::write(path, sheet(demo)?)?;
    }
    Ok(())
}

fn sheet(demo: &Demo) -> Result<String, Box<dyn Error>> {
    let level = levels::level(demo.long_game, Sex::Men)?;
    let mut rng = ChaCha8Rng::seed_from_u64(demo.seed);
    let mut text =
        "club,shot,ball_speed_mph,launch_deg,direction_deg,backspin_rpm,sidespin_rpm\n".to_owned();
    let mut number = 0;
    for (name, strikes) in demo.bag {
        let club: Club = name.parse()?;
        let mut pattern = level
            .pattern_with(club)
            .ok_or_else(|| format!("the level has no {club}"))?;
        for fault in demo
            .faults
            .iter()
            .filter(|fault| fault.clubs.contains(name))
        {
            put_in(&mut pattern, fault);
        }
        let sampler = pattern.sampler()?;
        for _ in 0..*strikes {
            number += 1;
            let [ball_speed, launch, direction, backspin, sidespin] = sampler.random(&mut rng);
            writeln!(
                text,
                "{club},{number},{ball_speed:.1},{launch:.1},{direction:.1},{backspin:.0},{sidespin:.0}"
            )?;
        }
    }
    Ok(text)
}

fn put_in(pattern: &mut Pattern, fault: &Fault) {
    pattern.mean[0] *= fault.ball_speed_factor;
    pattern.mean[1] += fault.launch_add_deg;
    pattern.mean[2] += fault.direction_add_deg;
    pattern.mean[3] *= fault.backspin_factor;
    pattern.mean[4] += fault.sidespin_add_rpm;
    pattern.sd[0] *= fault.speed_spread_factor;
    pattern.sd[2] *= fault.wildness_factor;
    pattern.sd[4] *= fault.wildness_factor;
}
