//! What can be typed after `goal`.

use clap::Args;

use super::{AssumeArgs, BayArgs, Rules, SetupArgs, whole};

/// Rounds of `goal`, which plays many times: enough that an index is good to about 0.05.
const GOAL_ROUNDS: u64 = 8000;

/// `goal`.
#[derive(Debug, Args)]
#[command(
    override_usage = "costcard goal <PLAYER> <COURSE>... --to <HANDICAP,...> [OPTIONS]",
    after_help = "Example:\n  costcard goal demo:rowan demo:parkland --to 9"
)]
pub struct GoalArgs {
    /// Player file, demo:NAME, level:HANDICAP[:women], or a sheet of shots with --handicap
    pub player: String,
    /// Course files or demo:NAME, of 18 or 9 holes; the first is home
    #[arg(required = true, value_name = "COURSE")]
    pub courses: Vec<String>,
    /// Handicap indexes the player wants, as 5.4,3,scratch; a plus handicap with a minus sign
    #[arg(long, value_name = "HANDICAP,...", allow_hyphen_values = true)]
    pub to: String,
    /// Rounds to play for each figure; 40 at least, for an index on nine holes needs so many
    #[arg(long, default_value_t = GOAL_ROUNDS, allow_negative_numbers = true, value_parser = whole(40..=100_000_000))]
    pub rounds: u64,
    /// Seed: the same seed gives the same figures
    #[arg(long, default_value_t = 1, allow_negative_numbers = true, value_parser = whole(0..=u64::MAX))]
    pub seed: u64,
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
