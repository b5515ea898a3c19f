//! A study, or a part of it, worked out in a folder.

use std::path::Path;

use serde::Serialize;

use super::StudyError;
use super::folder::Held;
use super::inputs::base;
use super::journal::{Head, Journal, Record};
use super::part::StudyPart;
use super::plan::{Plan, VERSION};
use super::row::inputs;
use super::summary::Summary;
use super::tables::Tables;
use super::work;
use crate::rules::script::Print;

pub use super::tables::Pages;

/// How a study is run.
pub struct Order<'a> {
    /// Which part of it.
    pub part: StudyPart,
    /// Hears what scripts print.
    pub print: Print,
    /// Hears how far it is, from any thread.
    pub progress: &'a (dyn Fn(Progress) + Sync),
    /// Makes pages of what it comes to.
    pub pages: Pages<'a>,
}

/// How far a study is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Progress {
    /// It begins: so many cells, of which so many are there already; lines of the journal that were damaged.
    Begun {
        /// Cells of the part.
        cells: u64,
        /// Cells that are there already.
        kept: u64,
        /// Damaged lines: their cells are worked out again.
        damaged: usize,
    },
    /// So many more cells are done.
    Done(u64),
}

/// A cell without figures.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Failed {
    /// Its number, from 1.
    pub cell: u64,
    /// Its player, as the study names him.
    pub player: String,
    /// Its course.
    pub course: String,
    /// Why.
    pub error: String,
}

/// What came of a run.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    /// What the study comes to.
    pub summary: Summary,
    /// Cells that were there already.
    pub kept: u64,
}

/// Works out the cells of a part in a folder, going on where an earlier run was ended, and writes the tables.
///
/// # Errors
/// When another run is at work in the folder, or it holds another part; when a file cannot be written: what was worked
/// out by then is kept.
pub fn run(plan: &Plan, folder: &Path, order: &Order<'_>) -> Result<Outcome, StudyError> {
    let held = Held::hold(folder)?;
    let head = Head {
        name: plan.study.name.clone().unwrap_or_default(),
        file: base(&plan.study.source.name),
        study: plan.mark(),
        part: [order.part.number(), order.part.of_all()],
        cells: plan.cells(),
        version: VERSION.to_owned(),
    };
    let cells = plan.of_part(order.part);
    let asked = cells.iter().map(|cell| plan.key(cell));
    let (journal, damaged) = Journal::open(&held, &head, asked)?;
    let kept = cells.iter().filter(|cell| journal.has(&plan.key(cell)));
    let kept = kept.count() as u64;
    (order.progress)(Progress::Begun {
        cells: cells.len() as u64,
        kept,
        damaged,
    });
    for block in plan.blocks(order.part) {
        work::block(plan, &block, &journal, order)?;
    }
    let mut tables = Tables::begin(&held, &head)?;
    for cell in &cells {
        let key = plan.key(cell);
        let Some(found) = journal.get(&key)? else {
            return Err(StudyError::folder(
                format!(
                    "a line of the journal in `{}` was damaged",
                    folder.display()
                ),
                "start the same command again: its cell is worked out anew",
            ));
        };
        tables.put(&Record {
            cell: cell.number,
            inputs: inputs(plan, cell, &plan.folder),
            ..found
        })?;
    }
    let summary = tables.finish(order.pages)?;
    Ok(Outcome { summary, kept })
}
