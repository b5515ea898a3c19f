//! What is wrong with a user's text, where, and what to write instead.

use std::{
    cell::{Cell, RefCell},
    fmt,
    ops::Range,
};

use super::Source;
use super::toml::Outline;

/// How many faults of one file are kept; more are only counted.
const MOST_KEPT: usize = 20;
/// The longest message or hint that is told whole, characters; of a longer one the middle is left out. The longest that
/// is worth reading lists the keys of a table.
const LONGEST_TOLD: usize = 1200;

/// One thing wrong with a user's text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The text at fault.
    pub source: Source,
    /// Bytes of the text at fault; none when the fault is the file itself.
    pub span: Option<Range<usize>>,
    /// What is wrong, quoting the offending text.
    pub message: String,
    /// What to write instead, when that can be said.
    pub hint: Option<String>,
}

/// `file:line:column: message`, and the hint on a line of its own.
impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:", self.source.name)?;
        if let Some(span) = &self.span {
            let at = self.source.position(span.start);
            write!(f, "{}:{}:", at.line, at.column)?;
        }
        write!(f, " {}", self.message)?;
        match &self.hint {
            Some(hint) => write!(f, "\nhint: {hint}"),
            None => Ok(()),
        }
    }
}

/// Everything found wrong with a user's files, in order of position; at most 20 a file are told apart.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Faults {
    list: Vec<Fault>,
    more: usize,
}

impl Fault {
    /// The fault in words of bearable length, however much of the text they quote.
    fn in_short(self) -> Self {
        Self {
            message: shortened(self.message),
            hint: self.hint.map(shortened),
            ..self
        }
    }
}

/// A text without its middle, if it is too long to be told.
fn shortened(text: String) -> String {
    // Counting characters takes time only where there may be too many.
    let count = if text.len() > LONGEST_TOLD {
        text.chars().count()
    } else {
        0
    };
    if count <= LONGEST_TOLD {
        return text;
    }
    let half = LONGEST_TOLD / 2;
    let start: String = text.chars().take(half).collect();
    let end: String = text.chars().skip(count - half).collect();
    format!("{start} … {end}")
}

impl Faults {
    /// The faults told apart.
    #[must_use]
    pub fn list(&self) -> &[Fault] {
        &self.list
    }

    /// How many faults there are beyond those listed.
    #[must_use]
    pub fn more(&self) -> usize {
        self.more
    }

    /// Faults that were found one by one; more than 20 are only counted.
    #[must_use]
    pub(crate) fn of(mut list: Vec<Fault>) -> Self {
        let more = list.len().saturating_sub(MOST_KEPT);
        list.truncate(MOST_KEPT);
        let list = list.into_iter().map(Fault::in_short).collect();
        Self { list, more }
    }

    /// The same with so many more counted beside those listed.
    #[must_use]
    pub fn and_more(mut self, more: usize) -> Self {
        self.more += more;
        self
    }

    /// Adds the faults of another file.
    pub fn extend(&mut self, other: Self) {
        self.list.extend(other.list);
        self.more += other.more;
    }
}

impl From<Fault> for Faults {
    fn from(fault: Fault) -> Self {
        Self {
            list: vec![fault.in_short()],
            more: 0,
        }
    }
}

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, fault) in self.list.iter().enumerate() {
            if index > 0 {
                writeln!(f)?;
            }
            write!(f, "{fault}")?;
        }
        match self.more {
            0 => Ok(()),
            more => write!(f, "\nand {more} more"),
        }
    }
}

impl std::error::Error for Faults {}

/// Gathers the faults of one file while it is read.
#[derive(Debug)]
pub(crate) struct Collector {
    source: Source,
    faults: RefCell<Vec<Fault>>,
    /// How many faults were let go of, since more than enough stand before them.
    more: Cell<usize>,
    /// What is asked of the file, where that is to be kept.
    outline: Option<RefCell<Outline>>,
}

impl Collector {
    pub(crate) fn new(source: &Source) -> Self {
        Self {
            source: source.clone(),
            faults: RefCell::default(),
            more: Cell::new(0),
            outline: None,
        }
    }

    /// One that also keeps what is asked of the file.
    pub(crate) fn with_outline(source: &Source) -> Self {
        Self {
            outline: Some(RefCell::default()),
            ..Self::new(source)
        }
    }

    /// Lets something be written down of what is asked, where that is kept.
    pub(crate) fn outline<R>(&self, write: impl FnOnce(&mut Outline) -> R) -> Option<R> {
        Some(write(&mut self.outline.as_ref()?.borrow_mut()))
    }

    /// What was asked of the file.
    pub(crate) fn take_outline(&self) -> Outline {
        self.outline(std::mem::take).unwrap_or_default()
    }

    /// The text being read.
    pub(crate) fn source(&self) -> &Source {
        &self.source
    }

    /// Notes a fault.
    pub(crate) fn add(&self, span: Range<usize>, message: String, hint: Option<String>) {
        let fault = Fault {
            source: self.source.clone(),
            span: Some(span),
            message,
            hint,
        };
        let mut faults = self.faults.borrow_mut();
        faults.push(fault.in_short());
        // A file may be at fault in a million places: now and then those that will never be told are let go of.
        if faults.len() >= 4 * MOST_KEPT {
            self.keep_first(&mut faults);
        }
    }

    /// Puts faults in order of position and lets go of those that will not be told.
    fn keep_first(&self, faults: &mut Vec<Fault>) {
        faults.sort_by_key(|fault| fault.span.as_ref().map_or(0, |span| span.start));
        let more = faults.len().saturating_sub(MOST_KEPT);
        self.more.set(self.more.get() + more);
        faults.truncate(MOST_KEPT);
    }

    /// Whether nothing is wrong so far.
    pub(crate) fn is_clean(&self) -> bool {
        self.faults.borrow().is_empty()
    }

    /// All faults in order of position.
    pub(crate) fn faults(self) -> Faults {
        self.keep_first(&mut self.faults.borrow_mut());
        Faults {
            list: self.faults.into_inner(),
            more: self.more.get(),
        }
    }

    /// The value read, or what is wrong. A reader that gives up without a fault would be a mistake of the program;
    /// it is reported as one rather than passed over.
    pub(crate) fn finish<T>(self, value: Option<T>) -> Result<T, Faults> {
        match value {
            Some(value) if self.is_clean() => Ok(value),
            _ => {
                if self.is_clean() {
                    self.add(0..0, "this file could not be understood".to_owned(), None);
                }
                Err(self.faults())
            }
        }
    }
}
