//! The scripts of a command, and what they print.

use std::sync::Arc;
use std::sync::atomic::{AtomicU32, Ordering};

use costcard::course::Course;
use costcard::files::Faults;
use costcard::rules::Rulebook;
use costcard::rules::script::{self, Print};

use super::args::Rules;
use super::output;

/// Lines that scripts may print; a rule is called a hundred thousand times.
const MOST_PRINTED: u32 = 100;

/// The rules of a course, its own and those named with the command.
pub fn of(course: &Course, rules: &Rules) -> Result<Rulebook, Faults> {
    script::load(Some(course), &rules.scripts, &to_stderr())
}

/// The rules that a course file names.
pub fn of_course(course: &Course) -> Result<Rulebook, Faults> {
    script::load(Some(course), &[], &to_stderr())
}

/// Only the rules named with the command.
pub fn named(rules: &Rules) -> Result<Rulebook, Faults> {
    script::load(None, &rules.scripts, &to_stderr())
}

/// What scripts print goes to stderr, the first hundred lines of it.
pub fn to_stderr() -> Print {
    let printed = AtomicU32::new(0);
    Arc::new(move |text| {
        match printed.fetch_add(1, Ordering::Relaxed) {
            few if few < MOST_PRINTED => output::printed(text),
            MOST_PRINTED => output::note(&format!(
                "scripts print more than {MOST_PRINTED} lines: the rest is left out"
            )),
            // So that the count cannot come round to where it began.
            _ => printed.store(MOST_PRINTED + 1, Ordering::Relaxed),
        }
    })
}
