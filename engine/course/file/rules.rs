//! The scripts a course or a hole names for its rules.

use crate::course::RuleFile;
use crate::files::toml::Entry;

/// A right value.
pub(super) const EXAMPLE: &str = "[\"baked.rhai\"]";

/// Most scripts named in one place: one for each rule would be four.
const MOST: usize = 8;

/// Reads `rules`: none when it is left out. Whether the scripts are there is another room's affair.
pub(super) fn read(entry: &Entry<'_>) -> Vec<RuleFile> {
    let Some(list) = entry.kind().and_then(|_| entry.list()) else {
        return Vec::new();
    };
    if list.len() > MOST {
        let message = format!("{} scripts are named, more than {MOST}", list.len());
        let hint = "put rules that belong together into one script".to_owned();
        entry.note::<()>(message, hint);
        return Vec::new();
    }
    let rule = |name: &Entry<'_>| {
        Some(RuleFile {
            name: name.text()?,
            source: name.source().clone(),
            span: name.span()?,
        })
    };
    list.iter().filter_map(rule).collect()
}
