//! What can be typed.

use std::num::NonZeroUsize;
use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

/// Rounds when none are asked for: enough that a mean score is good to about 0.03 strokes.
const ROUNDS: u64 = 20_000;

/// Turns measured golf shots into strokes on a course: what to work on first, and what it would save.
#[derive(Debug, Parser)]
#[command(version, max_term_width = 100, after_help = "Example:\n  costcard rank demo:low-irons demo:parkland --goal 9\n\n\
Figures are estimates from a model, not promises. Warm up; stop when something hurts and ask a qualified professional; the course's own rules and safety come first.")]
pub struct Line {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
    /// Flags every command takes.
    #[command(flatten)]
    pub common: Common,
}

/// Flags every command takes.
#[derive(Debug, Args)]
pub struct Common {
    /// Print one JSON document on stdout, and nothing else there
    #[arg(long, global = true)]
    pub json: bool,
    /// Units people read (JSON always keeps its own)
    #[arg(long, global = true, value_enum, default_value_t = Units::Yards)]
    pub units: Units,
    /// Threads to use; the results are the same on any number [default: all cores]
    #[arg(long, global = true)]
    pub threads: Option<NonZeroUsize>,
}

/// Yards or metres.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Units {
    /// Yards, feet and miles an hour.
    Yards,
    /// Metres and metres a second.
    Metres,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// The cost card: which part of the game costs most against a handicap goal
    Rank(RankArgs),
    /// Play rounds: score, fairways, greens, holds and putts, hole by hole
    Play(PlayArgs),
    /// One strike: its flight, and its run on each surface
    Flight(FlightArgs),
    /// Read player, course and strike files and name every fault with its line
    Check(CheckArgs),
}

/// Rounds and seed.
#[derive(Debug, Clone, Copy, Args)]
pub struct Effort {
    /// Rounds to play
    #[arg(long, default_value_t = ROUNDS, value_parser = clap::value_parser!(u64).range(1..=100_000_000))]
    pub rounds: u64,
    /// Seed: the same seed gives the same figures
    #[arg(long, default_value_t = 1)]
    pub seed: u64,
}

/// `rank`.
#[derive(Debug, Args)]
#[command(after_help = "Example:\n  costcard rank demo:low-irons demo:parkland --goal 9 --asked 'tee shots'")]
pub struct RankArgs {
    /// Player file, demo:NAME, or level:HANDICAP[:women]
    pub player: String,
    /// Course file or demo:NAME
    pub course: String,
    /// The handicap index to compare with, plus handicaps with a minus sign
    #[arg(long, allow_negative_numbers = true)]
    pub goal: f64,
    /// The part the player came to work on, such as 'tee shots'
    #[arg(long, value_name = "PART")]
    pub asked: Option<String>,
    /// Rounds and seed.
    #[command(flatten)]
    pub effort: Effort,
}

/// `play`.
#[derive(Debug, Args)]
#[command(after_help = "Example:\n  costcard play level:scratch demo:parkland")]
pub struct PlayArgs {
    /// Player file, demo:NAME, or level:HANDICAP[:women]
    pub player: String,
    /// Course file or demo:NAME
    pub course: String,
    /// Rounds and seed.
    #[command(flatten)]
    pub effort: Effort,
}

/// `flight`.
#[derive(Debug, Args)]
#[command(after_help = "Example:\n  costcard flight --ball-speed 127 --launch 14.1 --backspin 6231")]
pub struct FlightArgs {
    /// Ball speed, mph
    #[arg(long, value_name = "MPH")]
    pub ball_speed: f64,
    /// Launch angle above the horizontal, degrees
    #[arg(long, value_name = "DEG", allow_negative_numbers = true)]
    pub launch: f64,
    /// Backspin, rpm
    #[arg(long, value_name = "RPM", allow_negative_numbers = true)]
    pub backspin: f64,
    /// Start direction, degrees, right of the target positive
    #[arg(long, value_name = "DEG", default_value_t = 0.0, allow_negative_numbers = true)]
    pub direction: f64,
    /// Sidespin, rpm; positive curves right
    #[arg(long, value_name = "RPM", default_value_t = 0.0, allow_negative_numbers = true)]
    pub sidespin: f64,
    /// Air temperature, °F
    #[arg(long, value_name = "F", default_value_t = 75.0, allow_negative_numbers = true)]
    pub temperature: f64,
    /// Height above the sea, feet
    #[arg(long, value_name = "FT", default_value_t = 0.0, allow_negative_numbers = true)]
    pub altitude: f64,
    /// Relative humidity, percent
    #[arg(long, value_name = "PCT", default_value_t = 50.0)]
    pub humidity: f64,
    /// Wind speed at 10 m above the ground, mph
    #[arg(long, value_name = "MPH", default_value_t = 0.0)]
    pub wind: f64,
    /// Where the wind comes from, degrees clockwise: 0 into the face, 90 from the right
    #[arg(long, value_name = "DEG", default_value_t = 0.0, allow_negative_numbers = true)]
    pub wind_from: f64,
    /// Stimpmeter reading of the green, feet
    #[arg(long, value_name = "FT", default_value_t = 10.0)]
    pub stimp: f64,
}

/// `check`.
#[derive(Debug, Args)]
#[command(after_help = "Example:\n  costcard check demo:parkland demo:low-irons")]
pub struct CheckArgs {
    /// Files to read, or demo:NAME
    #[arg(required = true)]
    pub files: Vec<PathBuf>,
}
