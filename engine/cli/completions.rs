//! `completions`: what a shell needs to complete commands and flags.

use clap::CommandFactory;
use serde::Serialize;

use super::args::{Common, CompletionsArgs, Line};
use super::output;

/// A script for a shell, for other programs.
#[derive(Serialize)]
struct Completions {
    shell: String,
    script: String,
}

pub fn run(args: &CompletionsArgs, common: &Common) -> anyhow::Result<()> {
    let mut command = Line::command();
    let name = command.get_name().to_owned();
    let mut script = Vec::new();
    clap_complete::generate(args.shell, &mut command, name, &mut script);
    let script = String::from_utf8(script)?;
    if common.json {
        let shell = args.shell.to_string();
        return output::print_json(&Completions { shell, script });
    }
    output::print(&script)
}
