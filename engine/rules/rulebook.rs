//! Which rules are in force on which hole.

use std::fmt;
use std::sync::Arc;

use super::count::Count;
use super::hold::Hold;
use super::lies::LieRule;
use super::stop::Stop;
use super::worth::Worth;
use crate::files::Faults;

/// The rules of one hole; where there is none, the built-in one stands.
#[derive(Clone, Default)]
pub struct HoleRules {
    /// The run on the green.
    pub hold: Option<Arc<dyn Hold>>,
    /// What a lie does to a full shot.
    pub lies: Option<Arc<dyn LieRule>>,
    /// What is tallied.
    pub count: Option<Arc<dyn Count>>,
}

/// The rules of a course: those of every hole, and what orders the parts of the cost card.
///
/// The default is the built-in rules everywhere.
#[derive(Clone, Default)]
pub struct Rulebook {
    /// Rules of holes that have none of their own below.
    everywhere: HoleRules,
    /// By the place of the hole on the course.
    holes: Vec<HoleRules>,
    worth: Option<Arc<dyn Worth>>,
    files: Vec<String>,
    stop: Arc<Stop>,
}

impl Rulebook {
    /// The rules of a course made up of some holes of this one, told by their places: a hole may stand there twice. What
    /// is tallied is left out; a fault is noted in the same place.
    #[must_use]
    pub fn of_places(&self, places: &[usize]) -> Self {
        let mut rules = self.uncounted();
        rules.holes = places
            .iter()
            .map(|place| self.hole(*place).clone())
            .collect();
        rules.holes.iter_mut().for_each(|hole| hole.count = None);
        rules
    }

    /// Puts a rule for the run on every green in force.
    #[must_use]
    pub fn with_hold(mut self, rule: impl Hold + 'static) -> Self {
        let rule: Arc<dyn Hold> = Arc::new(rule);
        self.on_every_hole(|hole| hole.hold = Some(Arc::clone(&rule)));
        self
    }

    /// Puts a rule for lies in force on every hole.
    #[must_use]
    pub fn with_lies(mut self, rule: impl LieRule + 'static) -> Self {
        let rule: Arc<dyn LieRule> = Arc::new(rule);
        self.on_every_hole(|hole| hole.lies = Some(Arc::clone(&rule)));
        self
    }

    fn on_every_hole(&mut self, put: impl Fn(&mut HoleRules)) {
        put(&mut self.everywhere);
        self.holes.iter_mut().for_each(put);
    }

    /// Puts a rule for the order of the parts in force.
    #[must_use]
    pub fn with_worth(mut self, rule: impl Worth + 'static) -> Self {
        self.worth = Some(Arc::new(rule));
        self
    }

    /// A rulebook of rules by hole, in the order of play, and the files they stand in.
    #[must_use]
    pub(super) fn of_holes(
        everywhere: HoleRules,
        holes: Vec<HoleRules>,
        worth: Option<Arc<dyn Worth>>,
        files: Vec<String>,
    ) -> Self {
        Self {
            everywhere,
            holes,
            worth,
            files,
            ..Self::default()
        }
    }

    /// The rules of a hole that has none of its own.
    #[must_use]
    pub fn everywhere(&self) -> &HoleRules {
        &self.everywhere
    }

    /// The rules of a hole by its place on the course, from 0.
    #[must_use]
    pub fn hole(&self, index: usize) -> &HoleRules {
        self.holes.get(index).unwrap_or(&self.everywhere)
    }

    /// What orders the parts, if anything does.
    #[must_use]
    pub fn worth(&self) -> Option<&dyn Worth> {
        self.worth.as_deref()
    }

    /// Whether anything is tallied on any hole.
    #[must_use]
    pub fn counts(&self) -> bool {
        let counts = |hole: &HoleRules| hole.count.is_some();
        self.holes.iter().any(counts) || counts(&self.everywhere)
    }

    /// The same rules but for what is tallied: nothing. A fault is noted in the same place.
    #[must_use]
    pub fn uncounted(&self) -> Self {
        let mut rules = self.clone();
        rules.everywhere.count = None;
        rules.holes.iter_mut().for_each(|hole| hole.count = None);
        rules
    }

    /// The same rules for other work: faults are noted, and work given up, apart from this one's.
    #[must_use]
    pub fn afresh(&self) -> Self {
        Self {
            stop: Arc::default(),
            ..self.clone()
        }
    }

    /// The files of the scripts in force, as the user named them.
    #[must_use]
    pub fn files(&self) -> &[String] {
        &self.files
    }

    /// Where a failed rule is noted.
    #[must_use]
    pub fn stop(&self) -> &Arc<Stop> {
        &self.stop
    }

    /// Ends whatever runs by these rules as soon as it can be ended: its result is asked for no more, and
    /// [`Rulebook::outcome`] is a fault that tells nothing.
    pub fn give_up(&self) {
        self.stop.fail(Faults::default());
    }

    /// Whether every rule that was asked has answered.
    ///
    /// # Errors
    /// The first fault of a rule.
    pub fn outcome(&self) -> Result<(), Faults> {
        self.stop.outcome()
    }
}

impl fmt::Debug for Rulebook {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Rulebook")
            .field("files", &self.files)
            .finish_non_exhaustive()
    }
}
