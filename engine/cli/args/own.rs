//! What can be typed to learn of the program itself.

use std::path::PathBuf;

use clap::Args;
use clap_complete::Shell;

/// `completions`.
#[derive(Debug, Args)]
#[command(after_help = "Example:\n  costcard completions bash")]
pub struct CompletionsArgs {
    /// The shell that is to complete what is typed
    pub shell: Shell,
}

/// `manual`.
#[derive(Debug, Args)]
#[command(after_help = "Example:\n  costcard manual")]
pub struct ManualArgs {
    /// Folder to write pages for `man` to, one for each command; without it all of it is printed
    #[arg(long, value_name = "FOLDER")]
    pub out: Option<PathBuf>,
    /// Write over pages that are there
    #[arg(long, requires = "out")]
    pub force: bool,
}
