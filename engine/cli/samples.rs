//! `check --template` and `check --schema`: files to write over, and what an editor needs to complete and check them.

use std::process::ExitCode;

use serde::Serialize;

use super::args::{Common, FileKind};
use super::output;

/// A template, for other programs.
#[derive(Debug, Serialize)]
struct TemplateDocument {
    /// What it is a template of.
    kind: &'static str,
    /// The file.
    template: &'static str,
}

impl FileKind {
    const fn name(self) -> &'static str {
        match self {
            Self::Course => "course",
            Self::Player => "player",
            Self::Level => "level",
            Self::Study => "study",
        }
    }

    const fn template(self) -> &'static str {
        match self {
            Self::Course => include_str!("../../profiles/templates/course.toml"),
            Self::Player => include_str!("../../profiles/templates/player.toml"),
            Self::Level => include_str!("../../profiles/templates/level.toml"),
            Self::Study => include_str!("../../profiles/templates/study.toml"),
        }
    }

    const fn schema(self) -> &'static str {
        match self {
            Self::Course => include_str!("../../profiles/schemas/course.schema.json"),
            Self::Player => include_str!("../../profiles/schemas/player.schema.json"),
            Self::Level => include_str!("../../profiles/schemas/level.schema.json"),
            Self::Study => include_str!("../../profiles/schemas/study.schema.json"),
        }
    }
}

/// Prints a template.
pub fn template(kind: FileKind, common: &Common) -> anyhow::Result<ExitCode> {
    if common.json {
        output::print_json(&TemplateDocument {
            kind: kind.name(),
            template: kind.template(),
        })?;
    } else {
        output::print(kind.template())?;
    }
    Ok(ExitCode::SUCCESS)
}

/// Prints a schema, which is JSON in any case.
pub fn schema(kind: FileKind) -> anyhow::Result<ExitCode> {
    output::print(kind.schema())?;
    Ok(ExitCode::SUCCESS)
}
