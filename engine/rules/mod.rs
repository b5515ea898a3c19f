//! The replaceable rules of the model: how far a ball runs on a green, what a lie does to a shot, what puts one part of
//! the game before another, and what is tallied beside the score.
//!
//! Each rule is a trait that a closure fulfils: [`hold::Hold`], [`lies::LieRule`], [`worth::Worth`], [`count::Count`].
//! A [`Rulebook`] says which of them are in force on which hole; [`script`] makes them from a user's Rhai script.
//! Where a rulebook names none, the built-in rule stands: `ball::turf` for runs, the table of [`lies`] for lies.
//!
//! ```
//! use std::sync::Arc;
//! use costcard::files::Source;
//! use costcard::rules::script::{Function, Print, Script};
//!
//! let text = "fn hold(landing, green) { usual_run(landing, green) * 0.5 }";
//! let silent: Print = Arc::new(|_| {});
//! let script = Script::read(&Source::new("half.rhai", text), &silent)?;
//! assert_eq!(script.defined(), [Function::Hold]);
//! # Ok::<(), costcard::files::Faults>(())
//! ```

pub mod count;
pub mod hold;
pub mod lies;
mod rulebook;
pub mod script;
mod stop;
pub mod worth;

pub use rulebook::{HoleRules, Rulebook};
pub use stop::Stop;

use crate::files::{Fault, Faults, Source};

/// The fault of a rule that is no script: a Rust closure that cannot answer, or answers nonsense.
#[must_use]
pub fn refused(rule: &str, message: String) -> Faults {
    Fault {
        source: Source::new(rule, ""),
        span: None,
        message,
        hint: None,
    }
    .into()
}
