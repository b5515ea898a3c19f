//! The words after `try`.

use clap::Args;

use super::{PlayedArgs, hole_number};

const TRY_HELP: &str = "\
A change says who, what and how much:
  who    driver, 6 iron, 5-7 iron, irons, wedges, woods, hybrids, all clubs, mid irons,
         short game, sand, putting
  what   ball_speed, launch, start_direction, backspin, sidespin
         club_speed, attack_angle, club_path, face_angle, dynamic_loft
         direction_spread, distance_spread, speed_spread, launch_spread, spread, mishits
  much   +4, -20%, half, double, = 5200, level 5; mph, degrees and rpm go without saying
Also: 'driver off', 'putting level 5', 'add club 7 wood',
'add club 7 wood speed 128mph launch 13 backspin 4200'.

Example:
  costcard try demo:rowan demo:parkland --change 'mid irons dynamic_loft +4'
  costcard try demo:rowan demo:parkland --hole 5";

/// `try`.
#[derive(Debug, Args)]
#[command(
    override_usage = "costcard try <PLAYER> <COURSE> --change <CHANGE> [OPTIONS]\n       costcard try <PLAYER> <COURSE> --hole <N> [OPTIONS]",
    after_help = TRY_HELP
)]
pub struct TryArgs {
    /// Player file, demo:NAME, level:HANDICAP[:women], or a sheet of shots with --handicap
    pub player: String,
    /// Course file or demo:NAME
    pub course: String,
    /// A change, as 'irons dynamic_loft +4'; may be repeated
    #[arg(
        long = "change",
        value_name = "CHANGE",
        required_unless_present = "holes"
    )]
    pub changes: Vec<String>,
    /// A hole to answer for: fairway or longer in the rough, go or lay up; may be repeated
    #[arg(long = "hole", id = "holes", value_name = "N", allow_negative_numbers = true, value_parser = hole_number)]
    pub holes: Vec<u32>,
    /// How a player plays a course.
    #[command(flatten)]
    pub played: PlayedArgs,
}
