//! Rows that stand twice.

use std::collections::hash_map::DefaultHasher;
use std::collections::{HashMap, VecDeque};
use std::hash::{Hash, Hasher};

use super::figures::Figures;
use super::misread::Misread;
use crate::player::club::Club;

/// Rows in which a repeated row is looked for.
const REMEMBERED: usize = 65_536;
/// Figures a row must have to be known again: of fewer, equal ones are met by chance.
const TELLING: usize = 4;

/// The rows met last, to know repeated ones by.
#[derive(Default)]
pub(super) struct Earlier {
    rows: HashMap<u64, (usize, usize)>,
    order: VecDeque<u64>,
}

impl Earlier {
    /// Whether a shot has the figures of an earlier one, which then is named.
    pub(super) fn repeated(
        &mut self,
        club: Club,
        figures: &Figures,
        file: usize,
        row: usize,
    ) -> Option<Misread> {
        let mut hasher = DefaultHasher::new();
        club.hash(&mut hasher);
        let mut count = 0;
        for value in figures.measured_values() {
            // Adding nothing turns a negative zero into a plain one.
            (value + 0.0).to_bits().hash(&mut hasher);
            count += 1;
        }
        let key = hasher.finish();
        if count < TELLING {
            return None;
        }
        if let Some((of, earlier)) = self.rows.get(&key) {
            return Some(Misread::Repeated {
                row: *earlier,
                elsewhere: *of != file,
            });
        }
        self.rows.insert(key, (file, row));
        self.order.push_back(key);
        if self.order.len() > REMEMBERED
            && let Some(oldest) = self.order.pop_front()
        {
            self.rows.remove(&oldest);
        }
        None
    }
}
