//! Faults of one sheet while it streams by.

use std::collections::HashMap;
use std::ops::Range;

use crate::files::{Fault, Faults, Source};

/// Faults told of one sheet.
const MOST_TOLD: usize = 20;

/// Faults of one sheet.
pub(super) struct Told {
    name: String,
    list: Vec<Fault>,
    more: usize,
    /// Names that are no club's: which fault tells of each, if it is told, and in how many rows it stands.
    names: HashMap<String, (Option<usize>, usize)>,
}

impl Told {
    pub(super) fn new(name: &str) -> Self {
        Self {
            name: name.to_owned(),
            list: Vec::new(),
            more: 0,
            names: HashMap::new(),
        }
    }

    pub(super) fn total(&self) -> usize {
        self.list.len() + self.more
    }

    pub(super) fn add(
        &mut self,
        number: usize,
        text: &str,
        span: Range<usize>,
        message: String,
        hint: &str,
    ) {
        if self.list.len() >= MOST_TOLD {
            self.more += 1;
            return;
        }
        self.list.push(Fault {
            source: Source::excerpt(&self.name, text, number),
            span: Some(span),
            message,
            hint: Some(hint.to_owned()).filter(|hint| !hint.is_empty()),
        });
    }

    /// Tells of the sheet itself.
    pub(super) fn add_whole(&mut self, message: &str, hint: &str) {
        self.list.push(Fault {
            source: Source::new(&self.name, ""),
            span: None,
            message: message.to_owned(),
            hint: Some(hint.to_owned()),
        });
    }

    /// Tells of a name that is no club's, once for all its rows.
    pub(super) fn add_name(
        &mut self,
        name: &str,
        number: usize,
        text: &str,
        span: Range<usize>,
        hint: &str,
    ) {
        if let Some((_, rows)) = self.names.get_mut(name) {
            *rows += 1;
            return;
        }
        let at = Some(self.list.len()).filter(|at| *at < MOST_TOLD);
        self.names.insert(name.to_owned(), (at, 1));
        self.add(number, text, span, format!("unknown club `{name}`"), hint);
    }

    pub(super) fn faults(mut self) -> Faults {
        for (at, rows) in self.names.into_values() {
            let more = match rows {
                1 => continue,
                2 => ", here and in one more row".to_owned(),
                rows => format!(", here and in {} more rows", rows - 1),
            };
            if let Some(fault) = at.and_then(|at| self.list.get_mut(at)) {
                fault.message += &more;
            }
        }
        let mut faults = Faults::default();
        for fault in self.list {
            faults.extend(fault.into());
        }
        faults.and_more(self.more)
    }
}
