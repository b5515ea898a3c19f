//! Every file that a study names, read once, for who looks the study over: what is wrong is told without working anything
//! out. A run reads them as their cells come.

use std::collections::HashSet;

use super::file::Named;
use super::inputs::CourseInput;
use super::plan::Plan;
use crate::course::Conditions;
use crate::files::{Fault, Faults};
use crate::player::change::Change;
use crate::rules::script::Print;

impl Plan {
    /// Reads every file that is named, once each: a run tells of a fault in one in every cell that wants it.
    ///
    /// # Errors
    /// All faults of all of them. A file that is not there, and tees that a course does not have, are told where the
    /// study names them.
    pub fn read_inputs(&self, print: &Print) -> Result<(), Faults> {
        let mut faults = Faults::default();
        let mut note = |found: Result<(), Faults>| {
            if let Err(more) = found {
                faults.extend(self.where_named(more, |_| None));
            }
        };
        for player in self.players.iter().filter(|player| !player.is_level()) {
            note(player.read(&self.folder).map(|_| ()));
        }
        let mut courses = HashSet::new();
        for course in &self.courses {
            if courses.insert((&course.name, &course.tees, &course.pins)) {
                note(self.read_course(course));
            }
        }
        let mut scripts = HashSet::new();
        for rules in self.crossings.iter().flat_map(|crossing| &crossing.rules) {
            if scripts.insert(&rules.names) {
                note(rules.load(&self.folder, None, print).map(|_| ()));
            }
        }
        if faults.list().is_empty() {
            faults = self.changes_in_vain();
        }
        match faults.list().is_empty() {
            true => Ok(()),
            false => Err(faults),
        }
    }

    /// Changes that cannot be made of a player they are crossed with, each of each player once.
    fn changes_in_vain(&self) -> Faults {
        let mut known = HashSet::new();
        let mut faults = Vec::new();
        for crossing in &self.crossings {
            for player in crossing.players.iter().map(|number| &self.players[*number]) {
                let Ok(golfer) = player.golfer(&self.folder) else {
                    continue;
                };
                for changes in &crossing.changes {
                    let Err((index, fault)) = Change::apply_all(changes, &golfer) else {
                        continue;
                    };
                    let change = &changes[index];
                    let message = format!("`{change}` of {}: {}", player.name, fault.message);
                    if known.insert(message.clone()) {
                        faults.push(Fault {
                            source: self.study.source.clone(),
                            span: None,
                            message,
                            hint: Some(fault.hint),
                        });
                    }
                }
            }
        }
        Faults::of(faults)
    }

    /// Reads a course. What is wrong in its file only from the tees that are named is a fault of the study.
    fn read_course(&self, course: &CourseInput) -> Result<(), Faults> {
        let day = Conditions::default;
        let Err(faults) = course.read(&self.folder, day()) else {
            return Ok(());
        };
        let own = CourseInput::new(course.name.clone(), None, None);
        if course.tees.is_none() || own.read(&self.folder, day()).is_err() {
            return Err(faults);
        }
        let entries = (self.study.combinations.iter()).flat_map(|one| &one.courses);
        let mut chosen = entries.filter(|entry| entry.tees == course.tees);
        let entry = chosen.find(|entry| self.is_named(&course.name, &entry.course));
        Err(self.where_named(faults, |fault| {
            let is_of_course = self.short(fault) == course.name;
            entry.map(|entry| &entry.course).filter(|_| is_of_course)
        }))
    }

    /// Faults of files as such, and those that `named` gives a place for, put where the study names what is at fault.
    fn where_named<'a>(
        &'a self,
        faults: Faults,
        named: impl Fn(&Fault) -> Option<&'a Named>,
    ) -> Faults {
        let put = |fault: &Fault| {
            let is_of_file = fault.span.is_none();
            let named =
                named(fault).or_else(|| self.named(self.short(fault)).filter(|_| is_of_file));
            named.map_or_else(
                || fault.clone(),
                |named| Fault {
                    source: self.study.source.clone(),
                    span: Some(named.span.clone()),
                    message: format!("{}: {}", self.short(fault), fault.message),
                    hint: fault.hint.clone(),
                },
            )
        };
        Faults::of(faults.list().iter().map(put).collect()).and_more(faults.more())
    }

    /// Where the study names a file first; a sheet of pins, where it names the course.
    fn named(&self, file: &str) -> Option<&Named> {
        let combinations = || self.study.combinations.iter();
        let players = combinations().flat_map(|one| &one.players);
        let entries = || combinations().flat_map(|one| &one.courses);
        let rules = combinations().flat_map(|one| one.rules.iter().flatten());
        let mut all = players
            .chain(entries().map(|entry| &entry.course))
            .chain(rules);
        let of_pins = || entries().find(|entry| entry.pins.as_deref() == Some(file));
        all.find(|named| named.name == file)
            .or_else(|| of_pins().map(|entry| &entry.course))
    }

    /// Whether a name or a pattern of names means a file.
    fn is_named(&self, file: &str, named: &Named) -> bool {
        named.name == file
            || glob::Pattern::new(&named.name).is_ok_and(|pattern| pattern.matches(file))
    }

    /// The file of a fault as the study names it: from its own folder on.
    fn short<'f>(&self, fault: &'f Fault) -> &'f str {
        let prefix = self.folder.join("").display().to_string();
        let name = &*fault.source.name;
        name.strip_prefix(&prefix).unwrap_or(name)
    }
}
