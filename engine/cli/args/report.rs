//! What can be typed after `report`.

use std::path::PathBuf;

use clap::Args;

use super::PlayedArgs;

const HELP: &str = "\
One file with everything in it: it needs no network, opens in any browser, and prints on two sides
of A4 for one course. Figures and sentences of the card are those of `rank`.

Example:
  costcard report demo:rowan demo:parkland --goal 9 --out rowan.html

More examples:
  costcard report demo:rowan demo:parkland demo:heathland --goal 9 --out rowan.html --units metres
  costcard report demo:bay-after.csv demo:parkland --goal 9 --handicap 14.2 --map demo:bay-map.toml
    --before demo:bay.csv --name Sam --out lesson.html";

/// `report`.
#[derive(Debug, Args)]
#[command(
    override_usage = "costcard report <PLAYER> <COURSE>... --goal <HANDICAP> --out <X.html> [OPTIONS]",
    after_help = HELP
)]
pub struct ReportArgs {
    /// Player file, demo:NAME, level:HANDICAP[:women], or a sheet of shots with --handicap
    pub player: String,
    /// Course files or demo:NAME; the first is home and shown in full
    #[arg(required = true, value_name = "COURSE")]
    pub courses: Vec<String>,
    /// The handicap index the player wants; a plus handicap with a minus sign
    #[arg(long, value_name = "HANDICAP", allow_negative_numbers = true)]
    pub goal: String,
    /// Page to write
    #[arg(long, value_name = "X.html")]
    pub out: PathBuf,
    /// Write over a file that is there already
    #[arg(long)]
    pub force: bool,
    /// Name on the page; by default the one in the player file, or that of the sheet
    #[arg(long, value_name = "NAME")]
    pub name: Option<String>,
    /// The same player on an earlier day: a player file, or a sheet where PLAYER is a sheet
    #[arg(long, value_name = "EARLIER")]
    pub before: Option<String>,
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
