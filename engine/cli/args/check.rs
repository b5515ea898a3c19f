//! What can be typed after `check`.

use clap::{Args, ValueEnum};

use super::{SetupArgs, Sex};

/// A kind of file there is a template and a schema of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum FileKind {
    /// A course.
    Course,
    /// A player.
    Player,
    /// A level.
    Level,
    /// A study.
    Study,
}

/// `check`.
#[derive(Debug, Args)]
#[command(after_help = "Example:\n  costcard check demo:rowan demo:parkland")]
pub struct CheckArgs {
    /// Files to read, or demo:NAME
    #[arg(required_unless_present_any = ["template", "schema"], value_name = "FILE")]
    pub files: Vec<String>,
    /// Play nothing: no card, and no rating of courses that state none; checking is quick then
    #[arg(long)]
    pub no_rating: bool,
    /// Whose scratch and bogey golfers a course's card is for
    #[arg(long, value_enum, default_value_t = Sex::Men)]
    pub sex: Sex,
    /// Print a template to write over
    #[arg(long, value_enum, value_name = "KIND", conflicts_with_all = ["files", "schema"])]
    pub template: Option<FileKind>,
    /// Print the JSON Schema of such files, for editors
    #[arg(long, value_enum, value_name = "KIND", conflicts_with = "files")]
    pub schema: Option<FileKind>,
    /// The course on the day.
    #[command(flatten)]
    pub setup: SetupArgs,
}
