//! Scores on neutral ground: what a golfer of a handicap averages by the ratings for length alone, and what a level does.

use std::error::Error;
use std::path::Path;

use costcard::cost::handicap::simulated;
use costcard::course::{Course, Rating};
use costcard::files::Source;
use costcard::player::Sex;
use costcard::round::play::Rounds;
use costcard::round::stage::Stage;

use crate::level_file::{self, Level};

/// Length of the neutral course as its file has it, yards: the one that levels are fitted on.
const MEN_YD: f64 = 6550.0;
/// Women's is shorter, in the proportion of the lengths that give both the same rating.
const WOMEN_YD: f64 = 5510.0;

/// A thousand records of 20 rounds: their mean index is good to 0.05.
const ROUNDS: u64 = 20_000;
const SEED: u64 = 1;

/// The length levels are fitted on, yards.
pub const fn length_yd(sex: Sex) -> f64 {
    match sex {
        Sex::Men => MEN_YD,
        Sex::Women => WOMEN_YD,
    }
}

/// Rating by length alone. Source: Course Rating System Manual, USGA (from memory).
pub fn by_length(length_yd: f64, sex: Sex) -> Rating {
    let (scratch, bogey) = match sex {
        Sex::Men => (length_yd / 220.0 + 40.9, length_yd / 160.0 + 50.7),
        Sex::Women => (length_yd / 180.0 + 40.1, length_yd / 120.0 + 51.3),
    };
    Rating::played(scratch, bogey, 18, sex)
}

/// The neutral course, tests/data/neutral.toml.
pub fn course(sex: Sex) -> Result<Course, Box<dyn Error>> {
    scaled(length_yd(sex))
}

/// The neutral course made this long.
pub fn scaled(length_yd: f64) -> Result<Course, Box<dyn Error>> {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/neutral.toml");
    let source = Source::read(Path::new(path))?;
    let scale = length_yd / MEN_YD;
    let line = |line: &str| match line.strip_prefix("length_yd = ") {
        Some(yards) => Ok(format!(
            "length_yd = {:.1}\n",
            yards.parse::<f64>()? * scale
        )),
        None => Ok(format!("{line}\n")),
    };
    let text: Result<String, std::num::ParseFloatError> = source.text.lines().map(line).collect();
    Ok(Course::read(&Source::new("neutral.toml", &text?))?)
}

/// The handicap index of a level there, by the rating for length alone.
pub fn index(level: &Level, course: &Course) -> Result<f64, Box<dyn Error>> {
    let golfer = level_file::golfer(level)?;
    let golfers = [&golfer];
    let stage = Stage::new(course, &golfers);
    let banks = stage.hole_banks();
    let side = stage.side(|_| 0);
    let solved = stage.solve(&banks, &side, None);
    let rounds = Rounds {
        holes: &course.holes,
        golfer: &solved,
        goal: None,
        seed: SEED,
    };
    let tally = rounds.play(ROUNDS, &|_| {});
    let rating = by_length(length_yd(level.sex), level.sex);
    let found = simulated::index(&tally.scores, course, rating, level.handicap);
    found.ok_or_else(|| "too few rounds for an index".into())
}
