//! A flag or word on the command line that cannot be used.

use std::fmt;

/// What is wrong with what was typed, and what to type instead.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Usage {
    /// What is wrong, quoting what was typed.
    pub message: String,
    /// What to type instead.
    pub hint: String,
}

impl fmt::Display for Usage {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}\nhint: {}", self.message, self.hint)
    }
}

impl std::error::Error for Usage {}
