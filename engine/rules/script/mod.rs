//! Rules from a user's Rhai script.
//!
//! A script defines functions of fixed names, and each stands in for one built-in rule:
//!
//! | function | gives |
//! |---|---|
//! | `hold(landing, green)` | the run after a full shot pitches on a green |
//! | `lie_effect(lie, club)` | what a lie does to a full shot |
//! | `worth(part)` | what a part of the game is worth working on |
//! | `count(shot)` | a label to tally |
//!
//! Scripts are pure: they see what they are given and nothing else, neither files nor clock nor chance, and keep
//! nothing from one call to the next. They are held to limits (`engine.rs`), and what they give is checked (`answer.rs`).
//! The fields they see stand in [`fields`].

mod answer;
mod code;
mod embedded;
mod engine;
mod fault;
pub mod fields;
mod load;
mod objects;
pub mod trial;
mod words;

use std::fmt;
use std::ops::Range;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use rhai::{AST, CallFnOptions, Dynamic, Engine, FuncArgs, Scope};

use super::count::{Count, Label, ShotFacts};
use super::hold::{GreenAt, Hold, LandingFacts};
use super::lies::{LieEffect, LieRule};
use super::worth::{PartFacts, Worth};
use crate::ball::turf::Run;
use crate::course::Lie;
use crate::files::{Fault, Faults, Source, listed, nearest};
use crate::player::club::Club;

pub use embedded::{script, script_names};
pub use engine::Print;
pub use fields::lie_name;
pub use load::load;

/// The longest script read, bytes. The longest of the examples takes two thousand.
const LONGEST_BYTES: usize = 64 * 1024;

/// A function that stands in for a built-in rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Function {
    /// `hold(landing, green)`.
    Hold,
    /// `lie_effect(lie, club)`.
    LieEffect,
    /// `worth(part)`.
    Worth,
    /// `count(shot)`.
    Count,
}

impl Function {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Hold, Self::LieEffect, Self::Worth, Self::Count];

    /// Its name in a script.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Hold => "hold",
            Self::LieEffect => "lie_effect",
            Self::Worth => "worth",
            Self::Count => "count",
        }
    }

    /// What it is given.
    #[must_use]
    pub const fn parameters(self) -> &'static [&'static str] {
        match self {
            Self::Hold => &["landing", "green"],
            Self::LieEffect => &["lie", "club"],
            Self::Worth => &["part"],
            Self::Count => &["shot"],
        }
    }

    /// As it is written in a script.
    #[must_use]
    pub fn written(self) -> String {
        format!("{}({})", self.name(), self.parameters().join(", "))
    }
}

/// A script, read and found to be sound in form.
#[derive(Clone)]
pub struct Script {
    source: Source,
    engine: Arc<Engine>,
    ast: Arc<AST>,
    defined: Vec<Function>,
}

impl Script {
    /// Reads a script; `print` hears what it prints.
    ///
    /// # Errors
    /// Where it is no Rhai, defines none of the functions or one with other parameters, or what stands outside its
    /// functions fails.
    pub fn read(source: &Source, print: &Print) -> Result<Self, Faults> {
        if source.text.len() > LONGEST_BYTES {
            let message = format!("this script is longer than {} KB", LONGEST_BYTES / 1024);
            return Err(whole(source, message, "a rule takes a few lines"));
        }
        if let Some(place) = code::whole_division(&code::code(&source.text)) {
            return Err(fault::of_whole_division(source, place));
        }
        let engine = engine::engine(print);
        let ast = engine.compile(&*source.text).map_err(|error| {
            // Without one of its parameters a function knows no such name: that is what is wrong.
            wrong_parameters(source).unwrap_or_else(|| fault::of_parsing(source, &error))
        })?;
        let defined = defined(source, &ast)?;
        let mut odd_words = Faults::default();
        for odd in words::odd(&source.text) {
            odd_words.extend(fault::of_odd_word(source, odd));
        }
        if !odd_words.list().is_empty() {
            return Err(odd_words);
        }
        let script = Self {
            source: source.clone(),
            engine: Arc::new(engine),
            ast: Arc::new(ast),
            defined,
        };
        script.run_outside()?;
        Ok(script)
    }

    /// Runs what stands outside the functions, once: it may print, and it must come to its end.
    fn run_outside(&self) -> Result<(), Faults> {
        self.engine.run_ast(&self.ast).map_err(|error| {
            fault::of_running(self, None, &error, || {
                self.last_mark(|engine, ast| engine.run_ast(ast).is_ok())
            })
        })
    }

    /// The functions it defines.
    #[must_use]
    pub fn defined(&self) -> &[Function] {
        &self.defined
    }

    /// Its text, under the name the user knows it by.
    #[must_use]
    pub fn source(&self) -> &Source {
        &self.source
    }

    /// Calls a function with what is `given`; what it throws is told with these, in words.
    fn call<A: FuncArgs>(
        &self,
        function: Function,
        given: impl Fn() -> A,
        told: impl Fn() -> String,
    ) -> Result<Dynamic, Faults> {
        let call = |engine: &Engine, ast: &AST| {
            let options = CallFnOptions::new().eval_ast(false).rewind_scope(false);
            let scope = &mut Scope::new();
            engine.call_fn_with_options::<Dynamic>(options, scope, ast, function.name(), given())
        };
        call(&self.engine, &self.ast).map_err(|error| {
            fault::of_running(self, Some((function, &told)), &error, || {
                self.last_mark(|engine, ast| call(engine, ast).is_ok())
            })
        })
    }

    /// Runs a failed call again with a mark in every loop and function; gives the place of the last one passed.
    fn last_mark(&self, run: impl Fn(&Engine, &AST) -> bool) -> Option<Range<usize>> {
        const MARK: &str = "mark_of_the_rule";
        let (text, places) = code::marked(&self.source.text, MARK);
        let last = Arc::new(AtomicUsize::new(usize::MAX));
        let passed = Arc::clone(&last);
        let silent: Print = Arc::new(|_| {});
        let mut engine = engine::engine(&silent);
        engine.register_fn(MARK, move |number: rhai::INT| {
            // Numbers are places in a list that was counted from nothing.
            passed.store(number as usize, Ordering::Relaxed);
        });
        let ast = engine.compile(text).ok()?;
        run(&engine, &ast);
        places.get(last.load(Ordering::Relaxed)).cloned()
    }

    /// A fault of what a function gave, told at the function.
    fn unfit(&self, function: Function, message: String, hint: String) -> Faults {
        Fault {
            source: self.source.clone(),
            span: fault::name_of(&self.source, function.name()),
            message,
            hint: Some(hint),
        }
        .into()
    }
}

impl Hold for Script {
    fn run(&self, landing: &LandingFacts, green: &GreenAt) -> Result<Run, Faults> {
        let given = || (objects::Landing::of(landing), green.clone());
        let told = || fields::landing_told(landing, green);
        let gave = self.call(Function::Hold, given, told)?;
        answer::run(&gave).map_err(|unfit| {
            let message = format!("`hold` gave {unfit}, for {}", told());
            self.unfit(Function::Hold, message, answer::RUN_HINT.to_owned())
        })
    }
}

impl LieRule for Script {
    fn effect(&self, lie: Lie, club: Club) -> Result<LieEffect, Faults> {
        let given = || (lie_name(lie), objects::ClubView(Some(club)));
        let told = || format!("a {club} from {}", lie_name(lie));
        let gave = self.call(Function::LieEffect, given, told)?;
        answer::effect(&gave, lie, club).map_err(|unfit| {
            let message = format!("`lie_effect` gave {unfit}, for {}", told());
            self.unfit(Function::LieEffect, message, answer::effect_hint())
        })
    }
}

impl Worth for Script {
    fn worth(&self, part: &PartFacts) -> Result<f64, Faults> {
        let told = || fields::part_told(part);
        let gave = self.call(Function::Worth, || (*part,), told)?;
        answer::worth(&gave).map_err(|unfit| {
            let message = format!("`worth` gave {unfit}, for {}", told());
            self.unfit(Function::Worth, message, answer::WORTH_HINT.to_owned())
        })
    }
}

impl Count for Script {
    fn label(&self, shot: &ShotFacts) -> Result<Option<Label>, Faults> {
        let told = || fields::shot_told(shot);
        let gave = self.call(Function::Count, || (*shot,), told)?;
        answer::label(&gave).map_err(|unfit| {
            let message = format!("`count` gave {unfit}, for {}", told());
            self.unfit(Function::Count, message, answer::LABEL_HINT.to_owned())
        })
    }
}

impl fmt::Debug for Script {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Script")
            .field("source", &self.source.name)
            .field("defined", &self.defined)
            .finish_non_exhaustive()
    }
}

/// The rules a script defines; it must define one, each with its own parameters.
fn defined(source: &Source, ast: &AST) -> Result<Vec<Function>, Faults> {
    let written: Vec<&str> = ast.iter_functions().map(|function| function.name).collect();
    if let Some(faults) = wrong_parameters(source) {
        return Err(faults);
    }
    let has = |function: &Function| written.contains(&function.name());
    let defined: Vec<Function> = Function::ALL.into_iter().filter(has).collect();
    if let Some(faults) = misspelt(source, &written, &defined) {
        return Err(faults);
    }
    if defined.is_empty() {
        return Err(no_rule(source));
    }
    Ok(defined)
}

/// The rule that is written with other parameters than it is given.
fn wrong_parameters(source: &Source) -> Option<Faults> {
    let code = code::code(&source.text);
    let wrong = |function: &Function| {
        let (name, takes) = (function.name(), function.parameters().len());
        let count = code::parameters(&code, name).filter(|count| *count != takes)?;
        let fault = Fault {
            source: source.clone(),
            span: code::name_of(&code, name),
            message: format!("`{name}` is given {takes}, but takes {count} here"),
            hint: Some(format!("write `fn {} {{ … }}`", function.written())),
        };
        Some(fault.into())
    };
    Function::ALL.iter().find_map(wrong)
}

/// A function that nothing calls, and whose name is nearly that of a rule which the script does not define: it would never
/// be asked, and nothing would tell.
fn misspelt(source: &Source, written: &[&str], defined: &[Function]) -> Option<Faults> {
    let code = code::code(&source.text);
    let missing = Function::ALL.into_iter();
    let missing = missing.filter(|function| !defined.contains(function));
    let missing: Vec<&str> = missing.map(Function::name).collect();
    let is_called = |name: &str| code::words(&code).filter(|(word, _)| *word == name).count() > 1;
    let is_rule = |name: &str| Function::ALL.iter().any(|rule| rule.name() == name);
    let mut uncalled = written.iter().copied().filter(|name| !is_rule(name));
    let (name, meant) = uncalled.find_map(|name| {
        let meant = nearest(&name.to_lowercase(), missing.iter().copied())?;
        (!is_called(name)).then_some((name, meant))
    })?;
    let fault = Fault {
        source: source.clone(),
        span: code::name_of(&code, name),
        message: format!("no rule is called `{name}`"),
        hint: Some(format!("did you mean `{meant}`?")),
    };
    Some(fault.into())
}

fn no_rule(source: &Source) -> Faults {
    let names = Function::ALL.map(Function::name);
    let message = "this script defines no rule".to_owned();
    let hint = format!("a rule is a function called {}", listed(&names, "or"));
    whole(source, message, &hint)
}

/// A fault of a script as a whole.
fn whole(source: &Source, message: String, hint: &str) -> Faults {
    Fault {
        source: source.clone(),
        span: None,
        message,
        hint: Some(hint.to_owned()),
    }
    .into()
}
