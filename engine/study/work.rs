//! The figures of cells: those of `play`, and with a goal those of `rank`.
//!
//! What the cells of a block share is worked out once: the goals' golfers for all players of a course, a player's holes
//! for all his goals and changes. When the block is done it is dropped.

use std::ops::Range;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};
use std::thread;

use super::StudyError;
use super::inputs::told;
use super::journal::{Journal, Record};
use super::plan::{Block, Cell, Plan};
use super::row::{Texts, Worked, inputs};
use super::run::{Order, Progress};
use crate::cost::PlayError;
use crate::cost::changes::{Accuracy, Ready};
use crate::cost::field::{Against, Field, field};
use crate::cost::infer::{Assume, Inference};
use crate::course::Course;
use crate::player::change::Change;
use crate::player::{Golfer, Sex, levels};
use crate::rules::Rulebook;

/// Golfers who stand solved at once, players and goals' golfers: each takes 140 to 200 MB on eighteen holes in a wind. A
/// player alone leaves threads idle at the end of each of his steps.
fn golfers_at_once() -> usize {
    3 + rayon::current_num_threads() / 6
}

/// Nobody counts rounds: progress is told by cells.
const SILENT: &(dyn Fn(u64) + Sync) = &|_| ();

/// Works out the cells of a block that are not in the journal, a few goals at a time.
pub(super) fn block(
    plan: &Plan,
    block: &Block,
    journal: &Journal,
    order: &Order<'_>,
) -> Result<(), StudyError> {
    let goals = plan.crossings[block.crossing].goals.len();
    let few = golfers_at_once() - 1;
    for sex in [Sex::Men, Sex::Women] {
        for from in (0..goals).step_by(few) {
            let task = Task {
                plan,
                block,
                sex,
                goals: from..goals.min(from + few),
                journal,
                order,
            };
            task.work_out()?;
        }
    }
    Ok(())
}

/// Some goals of a block, for its men or its women: a goal's golfer is of the player's sex.
struct Task<'a> {
    plan: &'a Plan,
    block: &'a Block,
    sex: Sex,
    goals: Range<usize>,
    journal: &'a Journal,
    order: &'a Order<'a>,
}

impl Task<'_> {
    /// The cells of a player that are not in the journal.
    fn pending(&self, player: usize) -> Vec<Cell> {
        let mut cells = self.plan.of_player(self.block, player);
        cells.retain(|cell| {
            self.goals.contains(&cell.goal) && !self.journal.has(&self.plan.key(cell))
        });
        cells
    }

    /// Keeps the cells of a player, unless what they were worked out from is no longer what their keys say.
    fn keep(&self, player: usize, records: &[Record]) -> Result<(), StudyError> {
        self.plan.refuse_changed(self.block, player)?;
        self.journal.add(records)?;
        (self.order.progress)(Progress::Done(records.len() as u64));
        Ok(())
    }

    fn work_out(&self) -> Result<(), StudyError> {
        let players = self.block.players.clone();
        let crossing = &self.plan.crossings[self.block.crossing];
        let is_open = |player: &usize| {
            let input = &self.plan.players[crossing.players[*player]];
            input.sex(&self.plan.folder) == self.sex && !self.pending(*player).is_empty()
        };
        let open: Vec<usize> = players.filter(is_open).collect();
        if open.is_empty() {
            return Ok(());
        }
        match self.read() {
            Ok((course, rules)) => self.played(&open, &course, &rules),
            Err(message) => open.into_iter().try_for_each(|player| {
                self.keep(player, &failed(self.plan, &self.pending(player), &message))
            }),
        }
    }

    fn read(&self) -> Result<(Course, Rulebook), String> {
        let (plan, block) = (self.plan, self.block);
        let crossing = &plan.crossings[block.crossing];
        let course = &plan.courses[crossing.courses[block.course]];
        let course = course.course(&plan.folder, crossing.days[block.day].conditions)?;
        let rules = &crossing.rules[block.rules];
        let rules = rules.rulebook(&plan.folder, &course, &self.order.print)?;
        Ok((course, rules))
    }

    fn played(&self, open: &[usize], course: &Course, rules: &Rulebook) -> Result<(), StudyError> {
        let (plan, block) = (self.plan, self.block);
        let goals = Goals::of(plan, block, self.goals.clone(), self.sex);
        let golfers = goals.golfers();
        let at_once = golfers_at_once()
            .saturating_sub(golfers.len().max(1))
            .max(1);
        let effort = plan.study.effort;
        field((course, rules), &golfers, effort, SILENT, |field| {
            let work = Work {
                plan,
                block,
                course,
                rules,
                field,
                goals: &goals,
            };
            in_turns(open, at_once, |player| {
                self.keep(player, &work.records(player, &self.pending(player)))
            })
        })
    }
}

/// Works through a list, a few at once, until one fails.
fn in_turns(
    list: &[usize],
    at_once: usize,
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
        for _ in 0..at_once.min(list.len()) {
            scope.spawn(turn);
        }
    });
    let failed = failed.into_inner().unwrap_or_else(PoisonError::into_inner);
    failed.map_or(Ok(()), Err)
}

/// Does work on one thread, where everything is asked in the same order each time; none where the system gives no
/// thread.
fn in_order<R: Send>(work: impl FnOnce() -> R + Send) -> Option<R> {
    let pool = rayon::ThreadPoolBuilder::new().num_threads(1).build();
    Some(pool.ok()?.install(work))
}

/// The goals' golfers, each with the number of his goal.
struct Goals {
    sex: Sex,
    list: Vec<(usize, Golfer)>,
}

impl Goals {
    /// Those of some goals of a block. With `keep_speed` each player has his own.
    fn of(plan: &Plan, block: &Block, goals: Range<usize>, sex: Sex) -> Self {
        let crossing = &plan.crossings[block.crossing];
        // A goal beyond the levels is no goal of a study file.
        let golfer = |number: usize| {
            let goal = crossing.goals[number]?;
            Some((number, levels::level(goal, sex).ok()?))
        };
        let list = match plan.study.keep_speed {
            true => Vec::new(),
            false => goals.filter_map(golfer).collect(),
        };
        Self { sex, list }
    }

    fn golfers(&self) -> Vec<&Golfer> {
        self.list.iter().map(|(_, golfer)| golfer).collect()
    }

    fn place(&self, number: usize, sex: Sex) -> Option<usize> {
        let place = self.list.iter().position(|(goal, _)| *goal == number);
        place.filter(|_| sex == self.sex)
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

    /// A cell with nothing shared: as `play` and `rank` work it out. What a failing rule was asked first hangs on
    /// threads; so it is asked once more on one alone, and the table tells the same fault in every run.
    fn alone(&self, golfer: &Golfer, cell: Cell) -> Texts {
        let mut found = self.by_itself(golfer, cell);
        if matches!(found, Err(PlayError::Rule(_))) {
            found = in_order(|| self.by_itself(golfer, cell)).unwrap_or(found);
        }
        match found {
            Ok(Some(texts)) => texts,
            Ok(None) => Texts::failed("nothing came of this cell"),
            Err(error) => Texts::failed(&self.told(&error)),
        }
    }

    fn by_itself(&self, golfer: &Golfer, cell: Cell) -> Result<Option<Texts>, PlayError> {
        let rules = self.rules.afresh();
        let place = self.goals.place(cell.goal, golfer.sex);
        let list = place.map(|place| self.goals.list[place].clone());
        let goals = Goals {
            sex: self.goals.sex,
            list: list.into_iter().collect(),
        };
        let own = goals.golfers();
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
        found.map(|mut texts| texts.pop())
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
        let golfer = match Change::apply_all(changes, ready.golfer()) {
            Ok(golfer) => golfer,
            Err((index, fault)) => {
                let text = format!("`{}`: {} ({})", changes[index], fault.message, fault.hint);
                return Ok(cells.iter().map(|_| Texts::failed(&text)).collect());
            }
        };
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
