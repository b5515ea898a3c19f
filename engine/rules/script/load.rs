//! From the names of scripts to the rules of a course: those named with a command stand before those of a hole, and
//! these before those of the course.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

use super::engine::Print;
use super::{Function, Script, script, trial};
use crate::course::{Course, RuleFile};
use crate::files::{Fault, Faults, Source};
use crate::rules::{HoleRules, Rulebook};

/// What stands before the name of an example script.
const DEMO: &str = "demo:";

/// The rules of a course: its own scripts and the holes', and over them those `named` with the command. Paths in a
/// course file count from its folder. Without a course, only those named. `print` hears what the scripts print.
///
/// # Errors
/// Every script that cannot be read, is at fault, or fails when it is tried; two that define the same rule side by
/// side; and a hole's script that orders the parts of the game, which no hole can.
pub fn load(course: Option<&Course>, named: &[String], print: &Print) -> Result<Rulebook, Faults> {
    let mut reader = Reader {
        print,
        known: BTreeMap::new(),
        files: Vec::new(),
        faults: Faults::default(),
    };
    let typed: Scripts = named
        .iter()
        .filter_map(|name| reader.read(name, None))
        .collect();
    reader.refuse_doubles(&typed);
    let of_course = reader.of_file(course.map_or(&[], |course| &course.rules));
    let holes = course.map_or(&[][..], |course| &course.holes);
    let of_holes: Vec<Scripts> = holes
        .iter()
        .map(|hole| reader.of_file(&hole.rules))
        .collect();
    reader.refuse_worth(&of_holes);
    if !reader.faults.list().is_empty() {
        return Err(reader.faults);
    }
    let everywhere = hole_rules(&[&typed, &of_course]);
    let holes = of_holes
        .iter()
        .map(|own| hole_rules(&[&typed, own, &of_course]))
        .collect();
    let worth = first(&[&typed, &of_course], Function::Worth);
    Ok(Rulebook::of_holes(
        everywhere,
        holes,
        worth.map(|script| script as _),
        reader.files,
    ))
}

/// Scripts named in one place. One script is one thing wherever it is named: holes of the same rules share their shots.
type Scripts = Vec<Arc<Script>>;

/// The first script of the first list that defines a function.
fn first(lists: &[&Scripts], function: Function) -> Option<Arc<Script>> {
    let scripts = lists.iter().copied().flatten();
    scripts
        .into_iter()
        .find(|script| script.defined().contains(&function))
        .cloned()
}

fn hole_rules(lists: &[&Scripts]) -> HoleRules {
    let first = |function| first(lists, function);
    HoleRules {
        hold: first(Function::Hold).map(|script| script as _),
        lies: first(Function::LieEffect).map(|script| script as _),
        count: first(Function::Count).map(|script| script as _),
    }
}

/// Reads each script once, and gathers what is wrong.
struct Reader<'a> {
    print: &'a Print,
    /// By the name they are read under.
    known: BTreeMap<String, Option<Arc<Script>>>,
    /// Names as the user wrote them, in the order they were met.
    files: Vec<String>,
    faults: Faults,
}

impl Reader<'_> {
    /// The scripts a course file names in one place.
    fn of_file(&mut self, names: &[RuleFile]) -> Scripts {
        let scripts: Scripts = names
            .iter()
            .filter_map(|rule| self.read(&rule.name, Some(rule)))
            .collect();
        self.refuse_doubles(&scripts);
        scripts
    }

    fn read(&mut self, name: &str, named_by: Option<&RuleFile>) -> Option<Arc<Script>> {
        let path = path_of(name, named_by);
        if let Some(known) = self.known.get(&path) {
            return known.clone();
        }
        if !self.files.iter().any(|file| file == name) {
            self.files.push(name.to_owned());
        }
        let script = match self.tried(&path) {
            Ok(script) => Some(Arc::new(script)),
            Err(faults) => {
                self.faults.extend(told_where_named(faults, named_by));
                None
            }
        };
        self.known.insert(path, script.clone());
        script
    }

    /// Reads a script and tries it in silence, so that a slip is told before anything is played.
    fn tried(&self, path: &str) -> Result<Script, Faults> {
        let source = match path.strip_prefix(DEMO) {
            Some(name) => script(name)?,
            None => Source::read(Path::new(path))?,
        };
        let quiet: Print = Arc::new(|_| {});
        trial::sound(&Script::read(&source, &quiet)?)?;
        Script::read(&source, self.print)
    }

    /// Two scripts side by side that define the same rule: neither is before the other.
    fn refuse_doubles(&mut self, scripts: &[Arc<Script>]) {
        for function in Function::ALL {
            let mut those = scripts
                .iter()
                .filter(|script| script.defined().contains(&function));
            let (Some(one), Some(other)) = (those.next(), those.next()) else {
                continue;
            };
            let message = format!(
                "`{}` is defined here and in {}",
                function.name(),
                one.source().name
            );
            let hint = "name one of the two scripts, or put both rules into one function";
            self.note(other, function, message, hint);
        }
    }

    fn refuse_worth(&mut self, of_holes: &[Scripts]) {
        let orders = of_holes
            .iter()
            .flatten()
            .find(|script| script.defined().contains(&Function::Worth));
        if let Some(script) = orders {
            let message = "`worth` orders the whole game, and cannot be a hole's own".to_owned();
            let hint = "name the script for the whole course, or with `--rule`";
            self.note(script, Function::Worth, message, hint);
        }
    }

    fn note(&mut self, script: &Script, function: Function, message: String, hint: &str) {
        let fault = Fault {
            source: script.source().clone(),
            span: super::fault::name_of(script.source(), function.name()),
            message,
            hint: Some(hint.to_owned()),
        };
        self.faults.extend(fault.into());
    }
}

/// What a script is read under: the path of a course file's script counts from its folder.
fn path_of(name: &str, named_by: Option<&RuleFile>) -> String {
    let folder = named_by.and_then(|rule| Path::new(&*rule.source.name).parent());
    match folder {
        Some(folder) if !name.starts_with(DEMO) => folder.join(name).display().to_string(),
        _ => name.to_owned(),
    }
}

/// A script that is not there is a fault of the file that names it.
fn told_where_named(faults: Faults, named_by: Option<&RuleFile>) -> Faults {
    let Some(rule) = named_by else {
        return faults;
    };
    let mut told = Faults::default();
    for fault in faults.list() {
        let mut fault = fault.clone();
        if fault.span.is_none() {
            fault.message = format!("`{}`: {}", rule.name, fault.message);
            fault.source = rule.source.clone();
            fault.span = Some(rule.span.clone());
        }
        told.extend(fault.into());
    }
    told
}
