//! What was passed over of sheets of shots, for people.

use crate::player::batch::{Batch, PassedKind, Quantity, Unread};

/// Columns told by name.
const MOST_TOLD: usize = 40;

/// Rows and columns that were not read, each kind in a sentence; none where everything was.
#[must_use]
pub fn passed_over(batches: &[&Batch]) -> Vec<String> {
    let mut notes = Vec::new();
    for batch in batches {
        notes.extend(rows(batch, PassedKind::Totals, "averages or totals"));
        notes.extend(rows(batch, PassedKind::Putter, "putts"));
    }
    let mut unread: Vec<&Unread> = Vec::new();
    for one in batches.iter().flat_map(|batch| &batch.unread) {
        if unread.iter().all(|other| other.header != one.header) {
            unread.push(one);
        }
    }
    notes.extend(columns(&unread));
    for batch in batches {
        notes.extend(batch.unit_doubts.iter().map(|doubt| {
            let mut note = format!(
                "{}: carries are {:.2} times what their launches fly in standard air. Range balls or the air may do that; if they are in {}, name the column `{}`",
                batch.files[doubt.file], doubt.share, doubt.unit, doubt.column
            );
            if !doubt.spin_measured {
                note += ". No spin was measured, so that it is worked out from the carries, wrongly if these are. Without that column it comes from the handicap";
            }
            note
        }));
        notes.extend(batch.side_doubts.iter().map(|doubt| {
            format!(
                "{}: {} points the other way than where the balls were measured to end. If the device counts left as positive there, say so in a column map: `flipped = [\"{}\"]`",
                batch.files[doubt.file],
                doubt.column.words(),
                doubt.column.name()
            )
        }));
    }
    notes
}

/// How many rows were passed over as something, and where the first stands.
fn rows(batch: &Batch, kind: PassedKind, what: &str) -> Option<String> {
    let passed = batch.passed.get(&kind)?;
    let (file, row) = (&batch.files[passed.file], passed.row);
    Some(match passed.rows {
        1 => format!("{file}: row {row} was passed over as {what}"),
        // They may be of several files.
        many if batch.files.len() > 1 => {
            format!("{many} rows were passed over as {what}, the first in {file}, row {row}")
        }
        many => format!("{file}: {many} rows were passed over as {what}, the first row {row}"),
    })
}

/// The columns that were not read, and which of them look like figures of a strike.
fn columns(unread: &[&Unread]) -> Option<String> {
    if unread.is_empty() {
        return None;
    }
    let headers = unread.iter().map(|one| one.header.as_str());
    let headers: Vec<&str> = headers.take(MOST_TOLD).collect();
    let mut out = format!("columns passed over: {}", headers.join(", "));
    if unread.len() > MOST_TOLD {
        out += &format!(" and {} more", unread.len() - MOST_TOLD);
    }
    let mut alike: Vec<(Quantity, &str)> = Vec::new();
    for one in unread {
        // A key of the map stands once.
        if let Some(like) = one.like
            && alike.iter().all(|(quantity, _)| *quantity != like)
        {
            alike.push((like, &one.header));
        }
    }
    if !alike.is_empty() {
        let words: Vec<&str> = alike.iter().map(|(_, header)| *header).collect();
        let entries = alike.iter();
        let entries: Vec<String> = entries
            .map(|(quantity, header)| format!("{} = {header:?}", quantity.name()))
            .collect();
        out += &format!(
            ". A figure of the shot by its name: {}. If it is, say so in a column map: `columns = {{ {} }}`",
            words.join(", "),
            entries.join(", ")
        );
    }
    Some(out)
}
