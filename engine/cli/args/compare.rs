//! What can be typed after `compare`.

use clap::Args;

use costcard::player::batch::RowName;

use super::{AssumeArgs, SetupArgs, SheetArgs};

/// `compare`.
#[derive(Debug, Args)]
#[command(
    after_help = "Example:\n  costcard compare demo:bay.csv demo:bay-after.csv --map demo:bay-map.toml"
)]
pub struct CompareArgs {
    /// Sheet of measured shots (CSV) from before; or one sheet that holds both sessions
    #[arg(value_name = "BEFORE.csv")]
    pub before_sheet: String,
    /// Sheet of measured shots from after
    #[arg(value_name = "AFTER.csv")]
    pub after_sheet: Option<String>,
    /// Session before, by its name or day; not needed where a sheet holds no other
    #[arg(long, value_name = "SESSION")]
    pub before: Option<String>,
    /// Session after
    #[arg(long, value_name = "SESSION")]
    pub after: Option<String>,
    /// Keep this row, whatever speaks against it: its line in the sheet, or SHEET.csv:LINE
    #[arg(long, value_name = "ROW")]
    pub keep: Vec<RowName>,
    /// Leave this row out
    #[arg(long, value_name = "ROW")]
    pub drop: Vec<RowName>,
    /// How the sheets are read.
    #[command(flatten)]
    pub sheet: SheetArgs,
    /// What the change is worth.
    #[command(flatten)]
    pub worth: WorthArgs,
}

/// On which course, and by whom, a change is played out.
#[derive(Debug, Args)]
#[command(next_help_heading = "What the change is worth in strokes")]
pub struct WorthArgs {
    /// Course file or demo:NAME to play the clubs on
    #[arg(long, value_name = "COURSE")]
    pub course: Option<String>,
    /// Who plays it, with the rest of the bag: player file, demo:NAME or level:HANDICAP[:women]
    #[arg(
        long,
        value_name = "PLAYER",
        requires = "course",
        conflicts_with = "handicap"
    )]
    pub player: Option<String>,
    /// Or a handicap index: what was not hit before is then that of its golfers
    #[arg(
        long,
        value_name = "HANDICAP",
        requires = "course",
        allow_negative_numbers = true
    )]
    pub handicap: Option<String>,
    /// What nobody measured.
    #[command(flatten)]
    pub assume: AssumeArgs,
    /// The course on the day.
    #[command(flatten)]
    pub setup: SetupArgs,
}
