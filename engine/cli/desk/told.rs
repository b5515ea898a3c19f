//! What is wrong, in the words the command line has for it.

use costcard::files::{Fault, Faults, Source};
use costcard::show::page::WIDEST;

use crate::cli::faults;
use crate::cli::usage::Usage;

/// An error as the command line tells it, without colours.
pub fn told(error: &anyhow::Error) -> String {
    let text = if let Some(found) = error.downcast_ref::<Faults>() {
        let list: Vec<&Fault> = found.list().iter().collect();
        faults::shown(&list, found.more(), WIDEST)
    } else if let Some(usage) = error.downcast_ref::<Usage>() {
        faults::plain(&usage.message, Some(&usage.hint))
    } else {
        faults::plain(&format!("{error:#}"), None)
    };
    anstream::adapter::strip_str(&text).to_string()
}

/// A fault of a file as a whole, under the name the page has for it.
pub fn whole(name: &str, message: &str, hint: &str) -> Faults {
    Fault {
        source: Source::new(name, ""),
        span: None,
        message: message.to_owned(),
        hint: Some(hint.to_owned()),
    }
    .into()
}
