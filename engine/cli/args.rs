//! What can be typed.

mod changes;
mod check;
mod compare;
mod desk;
mod draw;
mod flight;
mod goal;
mod own;
mod report;
mod setup;
mod study;

use std::ops::RangeInclusive;
use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

use costcard::player::batch::RowName;
use costcard::show::reading::Reading;

pub use changes::TryArgs;
pub use check::{CheckArgs, FileKind};
pub use compare::CompareArgs;
pub use desk::DeskArgs;
pub use draw::{Against, DrawArgs, What};
pub use flight::{BallArgs, DeliveryArgs, FlightArgs};
pub use goal::GoalArgs;
pub use own::{CompletionsArgs, ManualArgs};
pub use report::ReportArgs;
pub use setup::SetupArgs;
pub use study::StudyArgs;

/// Rounds when none are asked for: enough that a mean score is good to about 0.03 strokes.
const ROUNDS: u64 = 20_000;

const AFTER_HELP: &str = "\
Example:
  costcard rank demo:rowan demo:parkland --goal 9

Figures are estimates from a model, not promises. Warm up; stop when something hurts and
ask a qualified professional. The course's own rules and safety come first.";

const HANDICAP_HELP: &str = "\
The sheet names its columns in the first line and has one score a line, the oldest first:
  date                           year-month-day
  course_rating, slope_rating    of what was played
  adjusted_gross                 or gross, taken as adjusted, or hole_scores with hole_pars
                                 and stroke_indexes, lists with blanks between
  holes, par, pcc                18 or 9; par; playing conditions adjustment: may be left out

Example:
  costcard handicap demo:rowan-scores --course-rating 71.2 --slope-rating 128 --par 72";

/// Turns measured golf shots into strokes on a course: what to work on first, and what it would save.
#[derive(Debug, Parser)]
#[command(version, after_help = AFTER_HELP)]
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
#[command(next_help_heading = "With every command")]
pub struct Common {
    /// Print one JSON document on stdout and nothing else
    #[arg(long, global = true)]
    pub json: bool,
    /// Units people read, yards or metres; JSON keeps yards
    #[arg(long, global = true, value_enum, default_value_t = Units::Yards, hide_possible_values = true)]
    pub units: Units,
    /// Threads to use, by default all cores; the results are the same
    #[arg(long, global = true, allow_negative_numbers = true, value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub threads: Option<u16>,
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
    /// What handicap goals ask of each part, and which part alone could reach them
    Goal(GoalArgs),
    /// What changes are worth in strokes, each alone and all together; decisions on a hole
    Try(TryArgs),
    /// Play rounds: score, fairways, greens, holds and putts, hole by hole
    Play(PlayArgs),
    /// One strike: its flight, and its run on each surface
    Flight(FlightArgs),
    /// Every club: carry, run, height, what it holds, how it is presented, and what stands out
    Clubs(ClubsArgs),
    /// Measured shots to a player file, misreads named
    Fit(FitArgs),
    /// Before and after: what changed of each club, and whether it is real or noise
    Compare(CompareArgs),
    /// The handicap index of a sheet of scores, by the World Handicap System
    Handicap(HandicapArgs),
    /// Read files of any kind and name every fault with its line; try scripts
    Check(CheckArgs),
    /// Pictures of a course, a hole, or a player's patterns, flights and greens held
    Draw(DrawArgs),
    /// A page for the player to keep and print: what to work on and why, with pictures
    Report(ReportArgs),
    /// A page for the lesson, on this machine alone: change figures and see what it is worth
    Desk(DeskArgs),
    /// A course file from an extract of OpenStreetMap, and what was found, hole by hole
    Import(ImportArgs),
    /// Many players on many courses by many rules, on one machine or on many
    Study(StudyArgs),
    /// What a shell needs to complete commands and flags
    Completions(CompletionsArgs),
    /// The manual of all commands, for `man`
    Manual(ManualArgs),
}

/// Reads a whole number of a range; what is none is told without a programmer's words.
fn whole(range: std::ops::RangeInclusive<u64>) -> impl Fn(&str) -> Result<u64, String> + Clone {
    move |text| {
        let number = text.parse().ok().filter(|number| range.contains(number));
        number.ok_or_else(|| match (*range.start(), *range.end()) {
            (0, u64::MAX) => "write a whole number from 0 upwards, as 7".to_owned(),
            (least, most) => format!("write a whole number from {least} to {most}"),
        })
    }
}

/// Rounds and seed.
#[derive(Debug, Clone, Copy, Args)]
pub struct Effort {
    /// Rounds to play
    #[arg(long, default_value_t = ROUNDS, allow_negative_numbers = true, value_parser = whole(1..=100_000_000))]
    pub rounds: u64,
    /// Seed: the same seed gives the same figures
    #[arg(long, default_value_t = 1, allow_negative_numbers = true, value_parser = whole(0..=u64::MAX))]
    pub seed: u64,
}

/// Scripts that replace rules of the model.
#[derive(Debug, Clone, Args)]
pub struct Rules {
    /// Script (.rhai) that replaces a rule of the model; may be repeated
    #[arg(long = "rule", value_name = "SCRIPT")]
    pub scripts: Vec<String>,
}

/// What is done about short game, sand and putting that nobody measured.
#[derive(Debug, Clone, Copy, Args)]
pub struct AssumeArgs {
    /// Short game, sand and putting that nobody measured
    #[arg(long, value_enum, default_value_t = Assume::Index)]
    pub assume: Assume,
}

/// By the index, or by the level.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Assume {
    /// So that simulated rounds make the player's own index
    Index,
    /// As golfers of his handicap have them
    Level,
}

/// `rank`.
#[derive(Debug, Args)]
#[command(
    after_help = "Example:\n  costcard rank demo:rowan demo:parkland --goal 9 --asked 'tee shots'"
)]
pub struct RankArgs {
    /// Player file, demo:NAME, level:HANDICAP[:women], or a sheet of shots with --handicap
    pub player: String,
    /// Course file or demo:NAME
    pub course: String,
    /// The handicap index the player wants; a plus handicap with a minus sign
    #[arg(long, value_name = "HANDICAP", allow_negative_numbers = true)]
    pub goal: String,
    /// The part the player came to work on, such as 'tee shots'
    #[arg(long, value_name = "PART")]
    pub asked: Option<String>,
    /// Measure against golfers of the goal who hit the ball no faster than the player does
    #[arg(long)]
    pub keep_speed: bool,
    /// How a player plays a course.
    #[command(flatten)]
    pub played: PlayedArgs,
}

/// How a player plays a course: what the commands that let him play have in common.
#[derive(Debug, Args)]
pub struct PlayedArgs {
    /// The course on the day.
    #[command(flatten)]
    pub setup: SetupArgs,
    /// Rules.
    #[command(flatten)]
    pub rules: Rules,
    /// Rounds and seed.
    #[command(flatten)]
    pub effort: Effort,
    /// What nobody measured.
    #[command(flatten)]
    pub assume: AssumeArgs,
    /// A sheet of shots in place of a player.
    #[command(flatten)]
    pub bay: BayArgs,
}

/// `play`.
#[derive(Debug, Args)]
#[command(after_help = "Example:\n  costcard play level:scratch demo:parkland")]
pub struct PlayArgs {
    /// Player file, demo:NAME, level:HANDICAP[:women], or a sheet of shots with --handicap
    pub player: String,
    /// Course file or demo:NAME
    pub course: String,
    /// How a player plays a course.
    #[command(flatten)]
    pub played: PlayedArgs,
}

/// `clubs`.
#[derive(Debug, Args)]
#[command(after_help = "Example:\n  costcard clubs demo:dale --goal 5")]
pub struct ClubsArgs {
    /// Player file, demo:NAME, level:HANDICAP[:women], or a sheet of shots with --handicap
    pub player: String,
    /// Handicap index whose golfers stand beside; by default the player's own
    #[arg(long, value_name = "HANDICAP", allow_negative_numbers = true)]
    pub goal: Option<String>,
    /// A sheet of shots in place of a player.
    #[command(flatten)]
    pub bay: BayArgs,
    /// Rules.
    #[command(flatten)]
    pub rules: Rules,
}

/// What a sheet of shots needs beside it to stand for a player.
#[derive(Debug, Args)]
#[command(next_help_heading = "Where PLAYER is a sheet of shots")]
pub struct BayArgs {
    /// Handicap index of who hit them; a plus handicap with a minus sign
    #[arg(long, value_name = "HANDICAP", allow_negative_numbers = true)]
    pub handicap: Option<String>,
    /// What the rest of the shots' reading needs.
    #[command(flatten)]
    pub sheet: SheetArgs,
}

/// How a sheet is read, and whose shots it holds.
#[derive(Debug, Args)]
pub struct SheetArgs {
    /// What the sheet calls its columns: a map, or a player file that has one
    #[arg(long, value_name = "MAP.toml")]
    pub map: Option<PathBuf>,
    /// Hand of who hit the shots
    #[arg(long, value_enum, default_value_t = Hand::Right)]
    pub hand: Hand,
    /// Whose handicaps stand behind few shots
    #[arg(long, value_enum, default_value_t = Sex::Men)]
    pub sex: Sex,
}

/// Right or left.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Hand {
    /// Right-handed.
    Right,
    /// Left-handed.
    Left,
}

/// Men or women.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Sex {
    /// Men.
    Men,
    /// Women.
    Women,
}

/// `fit`.
#[derive(Debug, Args)]
#[command(
    override_usage = "costcard fit <SHOTS.csv>... --player <NAME> --handicap <HANDICAP>\n           --out <PLAYER.toml> [OPTIONS]",
    after_help = "Example:\n  costcard fit demo:bay.csv --map demo:bay-map.toml --player Sam --handicap 14.2 --out sam.toml"
)]
pub struct FitArgs {
    /// Sheets of measured shots (CSV)
    #[arg(required = true, value_name = "SHOTS.csv")]
    pub sheets: Vec<String>,
    /// Name of who hit them
    #[arg(long, value_name = "NAME", value_parser = clap::builder::NonEmptyStringValueParser::new())]
    pub player: String,
    /// Handicap index of who hit them; a plus handicap with a minus sign
    #[arg(long, value_name = "HANDICAP", allow_negative_numbers = true)]
    pub handicap: String,
    /// The player file to write
    #[arg(long, value_name = "PLAYER.toml")]
    pub out: PathBuf,
    /// Write over a file that is there
    #[arg(long)]
    pub force: bool,
    /// Keep this row, whatever speaks against it: its line in the sheet, or SHEET.csv:LINE
    #[arg(long, value_name = "ROW")]
    pub keep: Vec<RowName>,
    /// Leave this row out
    #[arg(long, value_name = "ROW")]
    pub drop: Vec<RowName>,
    /// How the sheets are read.
    #[command(flatten)]
    pub sheet: SheetArgs,
}

/// `handicap`.
#[derive(Debug, Args)]
#[command(after_help = HANDICAP_HELP)]
pub struct HandicapArgs {
    /// Sheet of scores (CSV) or demo:NAME
    pub scores: String,
    /// Rating of a course to be played, for the course handicap on it
    #[arg(long, value_name = "STROKES", requires_all = ["slope_rating", "par"], value_parser = within(22.0..=90.0, "strokes"))]
    pub course_rating: Option<f64>,
    /// Its slope rating
    #[arg(long, value_name = "SLOPE", requires_all = ["course_rating", "par"], value_parser = clap::value_parser!(u8).range(55..=155))]
    pub slope_rating: Option<u8>,
    /// Its par
    #[arg(long, value_name = "PAR", requires_all = ["course_rating", "slope_rating"], value_parser = clap::value_parser!(u8).range(25..=80))]
    pub par: Option<u8>,
    /// Holes to be played there, 18 or 9; rating and par are then those of the nine
    #[arg(long, value_name = "HOLES", default_value_t = 18, requires = "course_rating", value_parser = nine_or_eighteen)]
    pub holes: u8,
    /// Percent of that course handicap for the playing one
    #[arg(long, value_name = "PCT", default_value_t = 100, requires = "course_rating", allow_negative_numbers = true, value_parser = clap::value_parser!(u8).range(1..=100))]
    pub allowance: u8,
}

const IMPORT_HELP: &str = "\
Maps are read as OSM XML (.osm), Overpass JSON (`out geom` or with all nodes) and GeoJSON. Without
--out the program only tells what it finds. The course file keeps the line that names the
contributors: the map's licence asks for it. What maps lack (firmness, green speed, slope) is
taken from flags or written as defaults to edit.

Example:
  costcard import demo:three-holes --tees yellow --firmness firm --stimp 9.5";

/// `import`.
#[derive(Debug, Args)]
#[command(after_help = IMPORT_HELP)]
pub struct ImportArgs {
    /// Extract of OpenStreetMap (OSM XML, Overpass JSON or GeoJSON) or demo:NAME
    pub map: String,
    /// Course file to write
    #[arg(long, value_name = "COURSE.toml")]
    pub out: Option<String>,
    /// Which course, by name or number, where a map holds several
    #[arg(long, value_name = "NAME|N")]
    pub course: Option<String>,
    /// Colour of the tees to play from; by default the start of each line
    #[arg(long, value_name = "COLOUR")]
    pub tees: Option<String>,
    /// Turf: soft, medium, firm, or a number from 0 to 1; by default medium
    #[arg(long, value_name = "FIRMNESS", value_parser = firmness)]
    pub firmness: Option<String>,
    /// Stimpmeter reading of the greens, feet; by default 10
    #[arg(long, value_name = "FT", value_parser = within(5.0..=16.0, "feet"))]
    pub stimp: Option<f64>,
    /// Give holes without a green on the map one of ordinary size
    #[arg(long)]
    pub make_greens: bool,
    /// Write over a file that is there already
    #[arg(long)]
    pub force: bool,
}

/// Reads a firmness, as a course file writes it.
fn firmness(text: &str) -> Result<String, String> {
    if ["soft", "medium", "firm"].contains(&text) {
        return Ok(format!("\"{text}\""));
    }
    let number = decimal(text).filter(|number| (0.0..=1.0).contains(number));
    number
        .map(|number| (number + 0.0).to_string())
        .ok_or_else(|| "write soft, medium, firm, or a number from 0 to 1".to_owned())
}

fn nine_or_eighteen(text: &str) -> Result<u8, String> {
    match text.trim() {
        "18" => Ok(18),
        "9" => Ok(9),
        _ => Err("write 18 or 9".to_owned()),
    }
}

/// Reads a number, with a point or a comma before its decimals.
fn decimal(text: &str) -> Option<f64> {
    let number = text.replacen(',', ".", 1).parse::<f64>().ok();
    number.filter(|number| number.is_finite())
}

/// Reads the number of a hole.
fn hole_number(text: &str) -> Result<u32, String> {
    let number = text.trim().parse().ok();
    number.ok_or_else(|| "write the number of a hole in digits, as 7".to_owned())
}

/// Reads a number within a range.
fn within(
    range: RangeInclusive<f64>,
    unit: &'static str,
) -> impl Fn(&str) -> Result<f64, String> + Clone + Send + Sync {
    move |text| {
        let number = decimal(text).filter(|number| range.contains(number));
        let (low, high) = (range.start(), range.end());
        number.ok_or_else(|| format!("write a number from {low} to {high} {unit}"))
    }
}

impl From<Effort> for costcard::cost::card::Effort {
    fn from(effort: Effort) -> Self {
        Self {
            rounds: effort.rounds,
            seed: effort.seed,
        }
    }
}

impl From<AssumeArgs> for costcard::cost::infer::Assume {
    fn from(args: AssumeArgs) -> Self {
        match args.assume {
            Assume::Index => Self::Index,
            Assume::Level => Self::Level,
        }
    }
}

impl From<Units> for Reading {
    fn from(units: Units) -> Self {
        match units {
            Units::Yards => Self::Yards,
            Units::Metres => Self::Metres,
        }
    }
}

impl From<Sex> for costcard::player::Sex {
    fn from(sex: Sex) -> Self {
        match sex {
            Sex::Men => Self::Men,
            Sex::Women => Self::Women,
        }
    }
}
