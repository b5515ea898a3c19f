//! What can be typed after `draw`.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

use costcard::player::club::Club;

use super::{AssumeArgs, BayArgs, Rules, SetupArgs, hole_number, whole};

/// Rounds of a hole behind the strokes lost by part: enough that a part is good to about 0.02 strokes.
const ROUNDS: u64 = 4000;

const HELP: &str = "\
Example:
  costcard draw demo:rowan --out rowan.svg

More examples:
  costcard draw demo:parkland --out parkland.svg
  costcard draw demo:parkland --hole 7 --player demo:rowan --level 5 --out hole-7.png
  costcard draw demo:parkland --hole 7 --player demo:rowan --what strokes --out map.svg
  costcard draw demo:rowan --what flight --level 5 --out flight.svg
  costcard draw demo:dale --what hold --club '6 iron' --against descent --out hold.svg";

/// `draw`.
#[derive(Debug, Args)]
#[command(
    override_usage = "costcard draw <FILE> --out <X.svg|X.png> [OPTIONS]",
    after_help = HELP
)]
pub struct DrawArgs {
    /// Course file, player file, demo:NAME, level:HANDICAP[:women], or shots with --handicap
    #[arg(value_name = "FILE")]
    pub file: String,
    /// Picture to write, SVG or PNG by the end of its name
    #[arg(long, value_name = "X.svg|X.png")]
    pub out: PathBuf,
    /// What to draw; by default a course, its hole of --hole, or a player's patterns
    #[arg(long, value_enum)]
    pub what: Option<What>,
    /// Number of the hole to draw
    #[arg(long, value_name = "N", allow_negative_numbers = true, value_parser = hole_number)]
    pub hole: Option<u32>,
    /// Who plays the course: player file, demo:NAME, level:HANDICAP[:women], or shots
    #[arg(long, value_name = "PLAYER")]
    pub player: Option<String>,
    /// Handicap index of golfers to draw beside the player, and to count strokes lost to
    #[arg(long, value_name = "HANDICAP", allow_negative_numbers = true)]
    pub level: Option<String>,
    /// Club to draw, such as '7 iron'; may be repeated; by default all, or a few for hold
    #[arg(long = "club", value_name = "NAME")]
    pub clubs: Vec<Club>,
    /// What greens held are drawn against; by default firmness
    #[arg(long, value_enum)]
    pub against: Option<Against>,
    /// Rounds of the hole behind the strokes lost to --level
    #[arg(long, default_value_t = ROUNDS, allow_negative_numbers = true, value_parser = whole(1..=10_000_000))]
    pub rounds: u64,
    /// Seed: the same seed gives the same picture
    #[arg(long, default_value_t = 1, allow_negative_numbers = true, value_parser = whole(0..=u64::MAX))]
    pub seed: u64,
    /// Write over a file that is there already
    #[arg(long)]
    pub force: bool,
    /// The course on the day.
    #[command(flatten)]
    pub setup: SetupArgs,
    /// Rules.
    #[command(flatten)]
    pub rules: Rules,
    /// What nobody measured.
    #[command(flatten)]
    pub assume: AssumeArgs,
    /// A sheet of shots in place of a player.
    #[command(flatten)]
    pub bay: BayArgs,
}

/// What is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum What {
    /// Every hole of a course, to one scale
    Course,
    /// One hole; with --player, aims, patterns, landings and strokes lost
    Hole,
    /// Expected strokes from everywhere on a hole
    Strokes,
    /// Where a player's shots land, club by club
    Patterns,
    /// How high and how far a player hits each club
    Flight,
    /// Greens held, by firmness or descent
    Hold,
}

/// What greens held are drawn against.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Against {
    /// The firmness of the green
    Firmness,
    /// The angle at which the ball comes down
    Descent,
}
