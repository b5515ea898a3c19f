//! What can be typed after `desk`.

use clap::Args;

use super::PlayedArgs;

const HELP: &str = "\
The page is for this machine alone: it listens on 127.0.0.1, its address holds a secret that is new
each time, it needs no network, and it reads and writes files of the folder it is started in and no
others. Player and course may be chosen on the page too. Ctrl-C ends it.

Example:
  costcard desk demo:rowan demo:parkland --goal 9";

/// `desk`.
#[derive(Debug, Args)]
#[command(
    override_usage = "costcard desk [PLAYER] [COURSE] [OPTIONS]",
    after_help = HELP
)]
pub struct DeskArgs {
    /// Player file, demo:NAME, level:HANDICAP[:women], or a sheet of shots with --handicap
    pub player: Option<String>,
    /// Course file or demo:NAME
    pub course: Option<String>,
    /// The handicap index the player wants; by default three strokes better than his own, in whole strokes
    #[arg(long, value_name = "HANDICAP", allow_negative_numbers = true)]
    pub goal: Option<String>,
    /// Print the address of the page and do not open it
    #[arg(long)]
    pub no_open: bool,
    /// Port to listen on; by default one that is free
    #[arg(
        long,
        value_name = "PORT",
        default_value_t = 0,
        hide_default_value = true
    )]
    pub port: u16,
    /// How a player plays a course.
    #[command(flatten)]
    pub played: PlayedArgs,
}
