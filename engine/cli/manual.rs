//! `manual`: the program's pages for `man`, made of what can be typed.

use std::io;
use std::path::PathBuf;

use anyhow::Context as _;
use clap::{Command, CommandFactory};
use clap_mangen::Man;
use serde::Serialize;

use super::args::{Common, Line, ManualArgs};
use super::{output, written};

/// Where a page was written, for other programs.
#[derive(Serialize)]
struct Written {
    pages: Vec<PathBuf>,
}

/// The whole manual, for other programs.
#[derive(Serialize)]
struct Whole {
    manual: String,
}

/// A page of the manual.
struct Page {
    name: String,
    text: String,
}

pub fn run(args: &ManualArgs, common: &Common) -> anyhow::Result<()> {
    let mut program = Line::command().disable_help_subcommand(true);
    program.build();
    let Some(folder) = &args.out else {
        let manual = whole(&program)?;
        if common.json {
            return output::print_json(&Whole { manual });
        }
        return output::print(&manual);
    };
    std::fs::create_dir_all(folder)
        .with_context(|| format!("the folder `{}` cannot be made", folder.display()))?;
    let pages = pages(&program)?;
    let paths: Vec<PathBuf> = pages.iter().map(|page| folder.join(&page.name)).collect();
    // None where one of them is there already.
    for path in &paths {
        written::check_free(path, args.force)?;
    }
    for (path, page) in paths.iter().zip(&pages) {
        written::write(path, &page.text, args.force)?;
    }
    if common.json {
        return output::print_json(&Written { pages: paths });
    }
    let lines = paths.iter().map(|path| format!("{}\n", path.display()));
    output::print(&lines.collect::<String>())
}

/// A page for the program and one for each command.
fn pages(program: &Command) -> anyhow::Result<Vec<Page>> {
    let commands = program.get_subcommands();
    std::iter::once(program)
        .chain(commands)
        .map(|command| {
            let man = Man::new(command.clone());
            Ok(Page {
                name: man.get_filename(),
                text: text(|out| man.render(out))?,
            })
        })
        .collect()
}

/// One page of all: the program, then a section for each command.
fn whole(program: &Command) -> anyhow::Result<String> {
    let mut all = text(|out| Man::new(program.clone()).render(out))?;
    for command in program.get_subcommands() {
        let man = Man::new(command.clone());
        let section = text(|out| {
            man.render_description_section(out)?;
            man.render_synopsis_section(out)?;
            man.render_options_section(out)?;
            man.render_extra_section(out)
        })?;
        let heading = format!("{} {}", program.get_name(), command.get_name()).to_uppercase();
        all += &format!(".SH \"{heading}\"\n{}", lowered(&section));
    }
    Ok(all)
}

/// Sections of a page as sections within one.
fn lowered(page: &str) -> String {
    let lines = page.lines().map(|line| match line.strip_prefix(".SH ") {
        Some(heading) => format!(".SS {heading}\n"),
        None => format!("{line}\n"),
    });
    lines.collect()
}

fn text(render: impl FnOnce(&mut Vec<u8>) -> io::Result<()>) -> anyhow::Result<String> {
    let mut out = Vec::new();
    render(&mut out)?;
    Ok(String::from_utf8(out)?)
}
