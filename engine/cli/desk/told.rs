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

/// An error of what was set on the page: the same words, without the text they point at, which nobody typed.
pub fn told_of_page(error: &anyhow::Error) -> String {
    let Some(found) = error.downcast_ref::<Faults>() else {
        return told(error);
    };
    let plain = |fault: &Fault| faults::plain(&fault.message, fault.hint.as_deref());
    let all: String = found.list().iter().map(plain).collect();
    anstream::adapter::strip_str(&all).to_string()
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
