//! The program `costcard`.

mod cli;

fn main() -> std::process::ExitCode {
    cli::run()
}
