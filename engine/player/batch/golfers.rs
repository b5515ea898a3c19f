//! Sheets of several golfers: mixed, they would be one golfer who is none of them.

use super::plain;

/// The column of who hit the shots, and whose the first was.
#[derive(Debug, Default)]
pub(super) struct Golfers {
    column: Option<usize>,
    first: Option<String>,
}

impl Golfers {
    /// Looked for among the columns that are not read.
    pub fn of(names: &[String], is_free: impl Fn(usize) -> bool) -> Self {
        let mut golfers = (0..names.len()).filter(|index| plain::is_golfer(&names[*index]));
        Self {
            column: golfers.find(|index| is_free(*index)),
            first: None,
        }
    }

    /// The column, where one is kept an eye on.
    pub const fn column(&self) -> Option<usize> {
        self.column
    }

    /// What is wrong with a shot that is another golfer's than the first; nothing is told twice.
    pub fn other(&mut self, name: &str) -> Option<String> {
        if name.is_empty() {
            return None;
        }
        let first = self.first.get_or_insert_with(|| name.to_owned());
        if first.to_lowercase() == name.to_lowercase() {
            return None;
        }
        self.column = None;
        Some(format!(
            "this is a shot of {name}, and those before are of {first}"
        ))
    }
}
