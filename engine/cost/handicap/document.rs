//! A record as other programs read it.

use serde::Serialize;

use super::Tenths;
use super::record::{Adjustment, Entry, Played, Reason, Record};

/// What `handicap --json` prints.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HandicapDocument {
    index: Option<Tenths>,
    /// Every differential, oldest first, with the score behind it.
    records: Vec<RecordDocument>,
    /// Of every score, oldest first, as they were scored.
    differentials: Vec<Tenths>,
    /// Those of the latest 20 that the index is the mean of, oldest first, exceptional scores taken off.
    used: Vec<Tenths>,
    low_index: Option<Tenths>,
    adjustments: Vec<AdjustmentDocument>,
    #[serde(skip_serializing_if = "Option::is_none")]
    course_handicap: Option<i32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    playing_handicap: Option<i32>,
}

#[derive(Debug, Clone, PartialEq, Serialize)]
struct RecordDocument {
    /// The day it was played; of two nine-hole scores, the later.
    date: String,
    holes: &'static str,
    adjusted_gross: i32,
    differential: Tenths,
    /// With what exceptional scores take off.
    adjusted_differential: Tenths,
    used: bool,
}

#[derive(Debug, Clone, PartialEq, Serialize)]
struct AdjustmentDocument {
    reason: &'static str,
    strokes: Tenths,
    /// The day of the exceptional score.
    date: Option<String>,
}

/// Handicaps on a course.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OnCourse {
    /// Course handicap.
    pub course_handicap: i32,
    /// Playing handicap.
    pub playing_handicap: i32,
    /// The allowance behind the playing handicap, percent.
    pub allowance_pct: u8,
}

impl Reason {
    /// The reason in words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::FewScores => "few scores",
            Self::ExceptionalScore => "exceptional score",
            Self::SoftCap => "soft cap",
            Self::HardCap => "hard cap",
            Self::HighestIndex => "highest index",
        }
    }
}

impl HandicapDocument {
    /// Of a record, and of a course where one is named.
    #[must_use]
    pub fn new(record: &Record, on_course: Option<OnCourse>) -> Self {
        let used = record.latest().iter().filter(|entry| entry.used);
        Self {
            index: record.index,
            records: record.entries.iter().map(RecordDocument::from).collect(),
            differentials: record
                .entries
                .iter()
                .map(|entry| entry.differential)
                .collect(),
            used: used.map(|entry| entry.adjusted).collect(),
            low_index: record.low_index,
            adjustments: record
                .adjustments
                .iter()
                .map(AdjustmentDocument::from)
                .collect(),
            course_handicap: on_course.map(|on| on.course_handicap),
            playing_handicap: on_course.map(|on| on.playing_handicap),
        }
    }
}

impl From<&Entry> for RecordDocument {
    fn from(entry: &Entry) -> Self {
        Self {
            date: entry.date.to_string(),
            holes: match entry.played {
                Played::Eighteen => "18",
                Played::Nine => "9",
                Played::TwoNines => "9 + 9",
            },
            adjusted_gross: entry.adjusted_gross,
            differential: entry.differential,
            adjusted_differential: entry.adjusted,
            used: entry.used,
        }
    }
}

impl From<&Adjustment> for AdjustmentDocument {
    fn from(adjustment: &Adjustment) -> Self {
        Self {
            reason: adjustment.reason.name(),
            strokes: adjustment.strokes,
            date: adjustment.date.map(|date| date.to_string()),
        }
    }
}
