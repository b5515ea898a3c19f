//! The figures of cells: those of `play`, and with a goal those of `rank`.
//!
//! What the cells of a block share is worked out once: the goals' golfers for all players of a course, a player's holes
//! for all his goals and changes. When the block is done it is dropped.

use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};
use std::thread;

use super::StudyError;
use super::inputs::{RulesInput, told};
use super::journal::{Journal, Record};
use super::plan::{Block, Cell, Plan};
use super::row::{Texts, Worked, inputs};
use super::run::{Order, Progress};
use crate::cost::PlayError;
use crate::cost::changes::{Accuracy, Ready};
use crate::cost::field::{Against, Field, field};
use crate::cost::infer::{Assume, Inference};
use crate::course::Course;
use crate::player::{Golfer, Sex, levels};
use crate::rules::Rulebook;

/// Players worked on at once, for so many threads: one alone leaves threads idle at the end of each of its steps.
fn at_once(threads: usize) -> usize {
    2 + threads / 8
}

/// Nobody counts rounds: progress is told by cells.
const SILENT: &(dyn Fn(u64) + Sync) = &|_| ();

/// Works out the cells of a block that are not in the journal.
pub(super) fn block(
    plan: &Plan,
    block: &Block,
    journal: &Journal,
    order: &Order<'_>,
) -> Result<(), StudyError> {
    let pending = |player: usize| {
        let mut cells = plan.of_player(block, player);
        cells.retain(|cell| !journal.has(&plan.key(cell)));
        (!cells.is_empty()).then_some(cells)
    };
    let open: Vec<usize> = block
        .players
        .clone()
        .filter(|player| pending(*player).is_some())
        .collect();
    if open.is_empty() {
        return Ok(());
    }
    let crossing = &plan.crossings[block.crossing];
    let course = &plan.courses[crossing.courses[block.course]];
    let rules = &crossing.rules[block.rules];
    let day = crossing.days[block.day].conditions;
    let read = course.course(&plan.folder, day).and_then(|course| {
        let rules = rulebook(plan, rules, &course, order)?;
        Ok((course, rules))
    });
    let keep = |records: Vec<Record>| {
        journal.add(&records)?;
        (order.progress)(Progress::Done(records.len() as u64));
        Ok::<(), StudyError>(())
    };
    let (course, rules) = match read {
        Ok(read) => read,
        Err(message) => {
            for cells in open.into_iter().filter_map(pending) {
                keep(failed(plan, &cells, &message))?;
            }
            return Ok(());
        }
    };
    let goals = Goals::of(plan, block, &open);
    let golfers: Vec<&Golfer> = goals.list.iter().map(|(_, _, golfer)| golfer).collect();
    let effort = plan.study.effort;
    field((&course, &rules), &golfers, effort, SILENT, |field| {
        let work = Work {
            plan,
            block,
            course: &course,
            rules: &rules,
            field,
            goals: &goals,
        };
        in_turns(&open, |player| {
            let cells = pending(player).unwrap_or_default();
            keep(work.records(player, &cells))
        })
    })
}

fn rulebook(
    plan: &Plan,
    rules: &RulesInput,
    course: &Course,
    order: &Order<'_>,
) -> Result<Rulebook, String> {
    rules.rulebook(&plan.folder, course, &order.print)
}

/// Works through a list, a few at once, until one fails.
fn in_turns(
    list: &[usize],
    work: impl Fn(usize) -> Result<(), StudyError> + Sync,
) -> Result<(), StudyError> {
    let (next, stopped) = (AtomicUsize::new(0), AtomicBool::new(false));
    let failed: Mutex<Option<StudyError>> = Mutex::new(None);
    let turn = || {
        while !stopped.load(Ordering::Relaxed) {
            let Some(&one) = list.get(next.fetch_add(1, Ordering::Relaxed)) else {
                return;
            };
            if let Err(error) = work(one) {
                stopped.store(true, Ordering::Relaxed);
                let mut failed = failed.lock().unwrap_or_else(PoisonError::into_inner);
                failed.get_or_insert(error);
            }
        }
    };
    thread::scope(|scope| {
        for _ in 0..at_once(rayon::current_num_threads()).min(list.len()) {
            scope.spawn(turn);
        }
    });
    let failed = failed.into_inner().unwrap_or_else(PoisonError::into_inner);
    failed.map_or(Ok(()), Err)
}

/// The goals' golfers, each of the sex of those who have the goal.
struct Goals {
    list: Vec<(usize, Sex, Golfer)>,
}

impl Goals {
    /// Those that the players of a block need. With `keep_speed` each player has his own.
    fn of(plan: &Plan, block: &Block, players: &[usize]) -> Self {
        let crossing = &plan.crossings[block.crossing];
        let sexes = players
            .iter()
            .map(|player| plan.players[crossing.players[*player]].sex(&plan.folder));
        let sexes: Vec<Sex> = sexes.collect();
        let mut list = Vec::new();
        for sex in [Sex::Men, Sex::Women] {
            if plan.study.keep_speed || !sexes.contains(&sex) {
                continue;
            }
            for (number, goal) in crossing.goals.iter().enumerate() {
                // A goal beyond the levels is no goal of a study file.
                let golfer = goal.and_then(|goal| levels::level(goal, sex).ok());
                list.extend(golfer.map(|golfer| (number, sex, golfer)));
            }
        }
        Self { list }
    }

    fn place(&self, number: usize, sex: Sex) -> Option<usize> {
        let is = |(goal, of, _): &(usize, Sex, Golfer)| *goal == number && *of == sex;
        self.list.iter().position(is)
    }
}

/// A block being worked out.
struct Work<'a> {
    plan: &'a Plan,
    block: &'a Block,
    course: &'a Course,
    rules: &'a Rulebook,
    field: &'a Field<'a>,
    goals: &'a Goals,
}

impl Work<'_> {
    /// The cells of one player.
    fn records(&self, player: usize, cells: &[Cell]) -> Vec<Record> {
        let crossing = &self.plan.crossings[self.block.crossing];
        let input = &self.plan.players[crossing.players[player]];
        match input.golfer(&self.plan.folder) {
            Ok(golfer) => {
                let texts = self.of_golfer(&golfer, cells);
                let pairs = cells.iter().zip(texts);
                pairs
                    .map(|(cell, texts)| record(self.plan, cell, texts))
                    .collect()
            }
            Err(message) => failed(self.plan, cells, &message),
        }
    }

    fn of_golfer(&self, golfer: &Golfer, cells: &[Cell]) -> Vec<Texts> {
        let found = self.together(golfer, cells);
        // A rule that failed for one player, or for a goal's golfer in one player's hands, shall end no other's play:
        // whatever was worked out before it failed is not looked at, and each cell stands alone.
        let sound = found.as_ref().is_ok_and(|_| self.field.outcome().is_ok());
        match found {
            Ok(texts) if sound => texts,
            _ => cells.iter().map(|cell| self.alone(golfer, *cell)).collect(),
        }
    }

    /// A cell with nothing shared: as `play` and `rank` work it out.
    fn alone(&self, golfer: &Golfer, cell: Cell) -> Texts {
        let rules = self.rules.afresh();
        let goals: Vec<&Golfer> = self.goals.list.iter().map(|(_, _, goal)| goal).collect();
        let place = self.goals.place(cell.goal, golfer.sex);
        let own: Vec<&Golfer> = place.map(|place| goals[place]).into_iter().collect();
        let goals = Goals {
            list: own
                .iter()
                .map(|goal| (cell.goal, golfer.sex, (*goal).clone()))
                .collect(),
        };
        let effort = self.plan.study.effort;
        let found = field((self.course, &rules), &own, effort, SILENT, |field| {
            let work = Work {
                rules: &rules,
                field,
                goals: &goals,
                ..*self
            };
            let found = work.together(golfer, &[cell]);
            field.outcome().map_err(PlayError::Rule).and(found)
        });
        match found.map(|mut texts| texts.pop()) {
            Ok(Some(texts)) => texts,
            Ok(None) => Texts::failed("nothing came of this cell"),
            Err(error) => Texts::failed(&self.told(&error)),
        }
    }

    fn told(&self, error: &PlayError) -> String {
        match error {
            PlayError::Rule(faults) => told(faults, &self.plan.folder),
            other => other.to_string(),
        }
    }

    /// The cells of one player, his holes solved once.
    fn together(&self, golfer: &Golfer, cells: &[Cell]) -> Result<Vec<Texts>, PlayError> {
        let rules = self.rules.afresh();
        let assume = self.plan.study.assume;
        self.field.ready(golfer, &rules, assume, SILENT, |ready| {
            let mut texts = Vec::new();
            for same in cells.chunk_by(|a, b| a.change == b.change) {
                texts.extend(self.changed(ready, &rules, same)?);
            }
            Ok(texts)
        })?
    }

    /// Cells of one change of the player, or of none.
    fn changed(
        &self,
        ready: &Ready<'_>,
        rules: &Rulebook,
        cells: &[Cell],
    ) -> Result<Vec<Texts>, PlayError> {
        let crossing = &self.plan.crossings[self.block.crossing];
        let changes = cells
            .first()
            .map_or(&[][..], |cell| &crossing.changes[cell.change]);
        if changes.is_empty() {
            return self.figures(ready, None, ready.inference(), cells);
        }
        let mut golfer = ready.golfer().clone();
        for change in changes {
            golfer = match change.apply(&golfer) {
                Ok(golfer) => golfer,
                Err(fault) => {
                    let text = format!("`{change}`: {} ({})", fault.message, fault.hint);
                    return Ok(cells.iter().map(|_| Texts::failed(&text)).collect());
                }
            };
        }
        let saved = ready.saved(&[&golfer], Accuracy::Full).first().copied();
        // What nobody measured was inferred of the player as he is; a change does not make it another.
        let inference = ready.inference();
        self.field
            .ready(&golfer, rules, Assume::Level, SILENT, |changed| {
                self.figures(changed, saved, inference, cells)
            })?
    }

    /// Cells of one golfer who stands ready, one for each goal.
    fn figures(
        &self,
        ready: &Ready<'_>,
        change_saved: Option<f64>,
        inference: Option<&Inference>,
        cells: &[Cell],
    ) -> Result<Vec<Texts>, PlayError> {
        let study = &self.plan.study;
        let mut figures = ready.played(study.effort, SILENT);
        figures.inference = inference.cloned();
        let text = |cell: &Cell| {
            let card = self.card(ready, cell)?;
            Ok(Texts::of(&Worked {
                golfer: ready.golfer(),
                course: self.course,
                figures: &figures,
                change_saved,
                card: card.as_ref(),
            }))
        };
        cells.iter().map(text).collect()
    }

    fn card(
        &self,
        ready: &Ready<'_>,
        cell: &Cell,
    ) -> Result<Option<crate::cost::card::Card>, PlayError> {
        let Some(goal) = self.plan.crossing(cell).goals[cell.goal] else {
            return Ok(None);
        };
        let sex = ready.golfer().sex;
        let detail = self.plan.study.detail;
        if let Some(place) = self.goals.place(cell.goal, sex) {
            let card = self
                .field
                .card(ready, Against::Goal(place), detail, SILENT)?;
            return Ok(Some(card));
        }
        let level = levels::level(goal, sex)?;
        let goal = match self.plan.study.keep_speed {
            true => level.at_speed_of(ready.golfer()),
            false => level,
        };
        let card = self
            .field
            .card(ready, Against::Alone(&goal), detail, SILENT)?;
        Ok(Some(card))
    }
}

fn record(plan: &Plan, cell: &Cell, texts: Texts) -> Record {
    Record {
        cell: cell.number,
        key: plan.key(cell),
        inputs: inputs(plan, cell, &plan.folder),
        texts,
    }
}

fn failed(plan: &Plan, cells: &[Cell], message: &str) -> Vec<Record> {
    let record = |cell: &Cell| record(plan, cell, Texts::failed(message));
    cells.iter().map(record).collect()
}
