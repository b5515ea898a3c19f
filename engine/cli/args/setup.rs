//! What can be typed of the course on the day.

use clap::Args;

/// How a course is set up for play.
#[derive(Debug, Clone, Args)]
#[command(next_help_heading = "The course on the day")]
pub struct SetupArgs {
    /// Tees to play from, by name; by default those the course file puts first or marks
    #[arg(long, value_name = "NAME")]
    pub tees: Option<String>,
    /// Pins: front, middle, back, or a pin sheet (CSV); by default where the course file says
    #[arg(long, value_name = "PINS")]
    pub pins: Option<String>,
}
