//! What can be typed after `study`.

use std::path::PathBuf;

use clap::Args;

const HELP: &str = "\
The file lists what is crossed; `costcard check --template study` prints one to write over:
  players = [\"squad/*.toml\", \"level:10\"]
  courses = [\"courses/*.toml\"]
  goals = [5, 0]
  rounds = 2000
A run that was ended goes on where it was when it is started again. Below Slurm's job arrays and
Kubernetes' indexed jobs the part is read from the job.

Example:
  costcard study demo:squad --out squad

More examples:
  costcard study squad.toml --out part-2 --part 2/4
  costcard study --merge part-1 part-2 part-3 part-4 --out squad";

/// `study`.
#[derive(Debug, Args)]
#[command(
    override_usage = "costcard study <STUDY.toml> --out <FOLDER> [--part <I/N>]\n       costcard study --merge <FOLDER>... --out <FOLDER>",
    after_help = HELP
)]
pub struct StudyArgs {
    /// Study file, or demo:squad
    #[arg(
        value_name = "STUDY.toml",
        required_unless_present = "merge",
        conflicts_with = "merge"
    )]
    pub study: Option<PathBuf>,
    /// Folder for the tables; it is made if it is not there
    #[arg(long, value_name = "FOLDER")]
    pub out: PathBuf,
    /// Work out this part of the cells, such as 2/4: the second of four
    #[arg(long, value_name = "I/N", conflicts_with = "merge")]
    pub part: Option<String>,
    /// Put the folders of all parts together
    #[arg(long, value_name = "FOLDER", num_args = 1..)]
    pub merge: Vec<PathBuf>,
}
