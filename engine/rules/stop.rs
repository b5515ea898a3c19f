//! How a failed rule stops what runs on many threads.

use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, Ordering};

use crate::files::Faults;

/// The first fault of a rule, and the sign for every thread to stop asking.
///
/// Sweeps and rounds cannot carry a fault out of every inner loop. They note it here, go on with whatever is quickest,
/// and whoever began the work asks [`Stop::outcome`] before a figure is shown: no figure outlives a fault.
#[derive(Debug, Default)]
pub struct Stop {
    stopped: AtomicBool,
    first: Mutex<Option<Faults>>,
}

impl Stop {
    /// Nothing has failed yet.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            stopped: AtomicBool::new(false),
            first: Mutex::new(None),
        }
    }

    /// Whether a rule has failed.
    #[inline]
    #[must_use]
    pub fn is_stopped(&self) -> bool {
        self.stopped.load(Ordering::Relaxed)
    }

    /// Notes a fault; the first one is kept. Which that is hangs on threads where several are at work.
    pub fn fail(&self, faults: Faults) {
        // A thread that panicked while it held the lock left a whole value behind: nothing is half written here.
        let mut first = self
            .first
            .lock()
            .unwrap_or_else(std::sync::PoisonError::into_inner);
        first.get_or_insert(faults);
        self.stopped.store(true, Ordering::Release);
    }

    /// What failed, if anything did.
    ///
    /// # Errors
    /// The first fault noted.
    pub fn outcome(&self) -> Result<(), Faults> {
        let first = self
            .first
            .lock()
            .unwrap_or_else(std::sync::PoisonError::into_inner);
        match &*first {
            Some(faults) => Err(faults.clone()),
            None => Ok(()),
        }
    }
}
