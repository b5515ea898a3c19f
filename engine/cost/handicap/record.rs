//! A scoring record: scores in the order they were played, and the index that follows from them.
//!
//! The index is revised after each day's scores (rule 5.4), so that the scores of one day are all adjusted and judged
//! by the index in force before it, in whatever order they stand.

use jiff::civil::Date;
use jiff::{Span, ToSpan};

use super::holes::{Hole, adjusted_gross, most_of_each};
use super::index::{Calculated, HIGHEST, RECORD, calculated, capped, exceptional, is_hard_capped};
use super::{Rated, Ratio, Tenths, allowance, differential};

/// One score.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Score {
    /// The day it was played.
    pub date: Date,
    /// Whether it is one of nine holes; ratings and par are then those of the nine.
    pub is_nine: bool,
    /// What was scored.
    pub strokes: Strokes,
    /// The ratings of what was played.
    pub rated: Rated,
    /// Playing conditions adjustment, −1 to 3 strokes.
    pub pcc: i32,
}

/// What was scored.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Strokes {
    /// Adjusted gross: no hole above net double bogey; or a gross score that is taken for one.
    Adjusted(i32),
    /// Hole by hole, none for a hole picked up.
    Holes(Vec<(Hole, Option<u8>)>),
}

/// What stands behind a differential.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Played {
    /// Eighteen holes.
    Eighteen,
    /// Nine holes, and what was expected over nine more.
    Nine,
    /// Two scores over nine holes each.
    TwoNines,
}

/// A differential of the record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// The day it was played; of two nine-hole scores, the later.
    pub date: Date,
    /// What was played.
    pub played: Played,
    /// Adjusted gross score; of two nine-hole scores, both together.
    pub adjusted_gross: i32,
    /// The differential as it was scored.
    pub differential: Tenths,
    /// The differential after exceptional scores.
    pub adjusted: Tenths,
    /// What this score, being exceptional, takes off the differentials of the record; zero or less.
    pub exceptional: Tenths,
    /// Whether it is used in the index.
    pub used: bool,
}

/// What moved the index beside the mean of the lowest differentials.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Adjustment {
    /// Why.
    pub reason: Reason,
    /// By how much: negative lowers the index, or, of an exceptional score, the differentials.
    pub strokes: Tenths,
    /// The day of the exceptional score.
    pub date: Option<Date>,
}

/// Why an index was moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reason {
    /// Three, four or six scores (rule 5.2a).
    FewScores,
    /// An exceptional score among the latest 20 (rule 5.9).
    ExceptionalScore,
    /// More than 3.0 over the low index (rule 5.8).
    SoftCap,
    /// More than 5.0 over the low index (rule 5.8).
    HardCap,
    /// Above 54.0 (rule 5.3).
    HighestIndex,
}

/// A golfer's record.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Record {
    /// Every differential, oldest first.
    pub entries: Vec<Entry>,
    /// The index; none before there are three differentials.
    pub index: Option<Tenths>,
    /// The lowest index of the 365 days before the latest score, that after it among them; none before there are 20
    /// differentials (rule 5.7).
    pub low_index: Option<Tenths>,
    /// What moved the index.
    pub adjustments: Vec<Adjustment>,
    /// A nine-hole score from before there was an index, without another to make a round with. While there is no index
    /// it waits for one; later nines are made up by what is expected of the other nine, and it stays left out.
    pub waiting_nine: Option<Date>,
    nine: Option<Nine>,
    /// Every index that 20 differentials stand behind, with the day of the scores it follows.
    history: Vec<(Date, Tenths)>,
}

/// A nine-hole score that waits for another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Nine {
    adjusted_gross: i32,
    differential: Ratio,
}

impl Record {
    /// The record of scores, oldest first.
    #[must_use]
    pub fn of(scores: &[Score]) -> Self {
        let mut record = Self::default();
        for day in scores.chunk_by(|a, b| a.date == b.date) {
            record.add_day(day);
        }
        record
    }

    /// The latest differentials, 20 at most.
    #[must_use]
    pub fn latest(&self) -> &[Entry] {
        &self.entries[self.entries.len().saturating_sub(RECORD)..]
    }

    fn add_day(&mut self, day: &[Score]) {
        let (held, before) = (self.index, self.entries.len());
        for score in day {
            self.add(score, held);
        }
        let taken: i32 = self.entries[before..]
            .iter()
            .map(|entry| entry.exceptional.tenths())
            .sum();
        let from = self.entries.len().saturating_sub(RECORD);
        for entry in &mut self.entries[from..] {
            entry.adjusted += Tenths::new(taken);
        }
        if let Some(last) = day.last().filter(|_| self.entries.len() > before) {
            self.revise(last.date);
        }
    }

    fn add(&mut self, score: &Score, held: Option<Tenths>) {
        let strokes = score.adjusted_gross(held);
        let (played, strokes, of) = if score.is_nine {
            let nine = differential::of_nine(strokes, score.rated, score.pcc);
            match held {
                Some(index) => {
                    let of = differential::of_nine_and_expected(nine, index);
                    (Played::Nine, strokes, of)
                }
                None => match self.pair(score.date, strokes, nine) {
                    Some((both, of)) => (Played::TwoNines, both, of),
                    None => return,
                },
            }
        } else {
            let of = differential::of_eighteen(strokes, score.rated, score.pcc);
            (Played::Eighteen, strokes, of)
        };
        self.entries.push(Entry {
            date: score.date,
            played,
            adjusted_gross: strokes,
            differential: of,
            adjusted: of,
            exceptional: held.map_or(Tenths::ZERO, |index| exceptional(index, of)),
            used: false,
        });
    }

    /// Strokes and differential of a nine-hole score and the one that waits for it; none where it must wait itself.
    /// Before there is an index nothing can be expected of the other nine: two such scores make one differential
    /// (from memory).
    fn pair(&mut self, date: Date, adjusted_gross: i32, nine: Ratio) -> Option<(i32, Tenths)> {
        let Some(first) = self.nine.take() else {
            self.waiting_nine = Some(date);
            self.nine = Some(Nine {
                adjusted_gross,
                differential: nine,
            });
            return None;
        };
        self.waiting_nine = None;
        let of = (first.differential + nine).to_tenth();
        Some((first.adjusted_gross + adjusted_gross, of))
    }

    /// Works the index out anew after a day's scores.
    fn revise(&mut self, date: Date) {
        let differentials: Vec<Tenths> = self.latest().iter().map(|entry| entry.adjusted).collect();
        let Some(calculated) = calculated(&differentials) else {
            return;
        };
        self.mark(&calculated.used);
        let is_full = differentials.len() == RECORD;
        let low = self.lowest_before(date).filter(|_| is_full);
        let index = low
            .map_or(calculated.index, |low| capped(calculated.index, low))
            .min(HIGHEST);
        self.adjustments = self.adjustments(&calculated, low);
        self.index = Some(index);
        if is_full {
            self.history.push((date, index));
            self.low_index = Some(low.map_or(index, |low| low.min(index)));
        }
    }

    fn mark(&mut self, used: &[usize]) {
        let from = self.entries.len().saturating_sub(RECORD);
        for (place, entry) in self.entries.iter_mut().enumerate() {
            entry.used = place >= from && used.contains(&(place - from));
        }
    }

    /// The lowest index of the 365 days before a day: those worked out in them, and the one in force as they began.
    fn lowest_before(&self, date: Date) -> Option<Tenths> {
        let year: Span = 365.days();
        let begin = date.checked_sub(year).unwrap_or(Date::MIN);
        let first = self.history.partition_point(|(day, _)| *day <= begin);
        self.history[first.saturating_sub(1)..]
            .iter()
            .map(|(_, index)| *index)
            .min()
    }

    fn adjustments(&self, calculated: &Calculated, low: Option<Tenths>) -> Vec<Adjustment> {
        let mut list: Vec<Adjustment> = self
            .latest()
            .iter()
            .filter(|entry| entry.exceptional < Tenths::ZERO)
            .map(|entry| Adjustment {
                reason: Reason::ExceptionalScore,
                strokes: entry.exceptional,
                date: Some(entry.date),
            })
            .collect();
        let mut push = |reason, strokes| {
            if strokes < Tenths::ZERO {
                list.push(Adjustment {
                    reason,
                    strokes,
                    date: None,
                });
            }
        };
        push(Reason::FewScores, calculated.adjustment);
        let mut index = calculated.index;
        if let Some(low) = low {
            let reason = if is_hard_capped(index, low) {
                Reason::HardCap
            } else {
                Reason::SoftCap
            };
            push(reason, capped(index, low) - index);
            index = capped(index, low);
        }
        push(Reason::HighestIndex, index.min(HIGHEST) - index);
        list
    }
}

impl Score {
    /// The adjusted gross score of a golfer with this index.
    fn adjusted_gross(&self, index: Option<Tenths>) -> i32 {
        let holes = match &self.strokes {
            Strokes::Adjusted(strokes) => return *strokes,
            Strokes::Holes(holes) => holes,
        };
        let played: Vec<Hole> = holes.iter().map(|(hole, _)| *hole).collect();
        let par = played.iter().map(|hole| i32::from(hole.par)).sum();
        let handicap = |index| {
            let of = if self.is_nine {
                allowance::of_nine
            } else {
                allowance::of_eighteen
            };
            of(index, self.rated, par).to_whole()
        };
        let most = most_of_each(&played, index.map(handicap));
        adjusted_gross(holes.iter().map(|(_, score)| *score), &most)
    }
}
