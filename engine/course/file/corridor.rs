//! The corridor of a hole: fairway, rough and what lies beyond.

use crate::{
    course::{Lie, plan::Stretch},
    files::toml::Table,
};

/// Where a fairway begins when the file gives only its width, yards.
const FAIRWAY_FROM_YD: f64 = 100.0;

/// Most stretches of a fairway.
const MOST_STRETCHES: usize = 40;

/// Widths and what lies beyond.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Corridor {
    pub(super) fairway_width_yd: Option<f64>,
    pub(super) rough_width_yd: Option<f64>,
    pub(super) beyond: Option<Lie>,
}

impl Corridor {
    pub(super) fn read(table: &Table<'_>) -> Self {
        let beyond = [
            ("rough", Lie::Rough),
            ("trees", Lie::Trees),
            ("out of bounds", Lie::OutOfBounds),
        ];
        Self {
            fairway_width_yd: table
                .may("fairway_width_yd", "36")
                .number(5.0..=150.0, "yards"),
            rough_width_yd: table
                .may("rough_width_yd", "24")
                .number(2.0..=150.0, "yards"),
            beyond: table.may("beyond", "\"trees\"").word(&beyond),
        }
    }

    /// These, and what they leave out from others.
    pub(super) fn or(self, other: Self) -> Self {
        Self {
            fairway_width_yd: self.fairway_width_yd.or(other.fairway_width_yd),
            rough_width_yd: self.rough_width_yd.or(other.rough_width_yd),
            beyond: self.beyond.or(other.beyond),
        }
    }
}

/// Reads the fairway: one width, or stretches; none on a par 3 that does not speak of it.
/// `ends` are how long the line is and where the green begins along it, yards.
pub(super) fn read_fairway(
    table: &Table<'_>,
    par: Option<u8>,
    own: Corridor,
    defaults: Corridor,
    ends: Option<(f64, f64)>,
) -> Option<Vec<Stretch>> {
    if table.has("fairway") {
        if table.has("fairway_width_yd") {
            let message = format!(
                "{} has both `fairway` and `fairway_width_yd`",
                table.label()
            );
            table.fault(table.place("fairway_width_yd"), message, "keep one of them");
        }
        let stretches = table
            .may("fairway", "[{ from_yd = 120, width_yd = 34 }]")
            .tables(&["from_yd", "to_yd", "width_yd"]);
        if stretches.len() > MOST_STRETCHES {
            let message = format!(
                "the fairway of {} has {} stretches, more than {MOST_STRETCHES}",
                table.label(),
                stretches.len()
            );
            table.fault(table.place("fairway"), message, "join those that touch");
            return None;
        }
        let read: Vec<_> = stretches
            .iter()
            .map(|stretch| read_stretch(stretch, ends))
            .collect();
        return read.into_iter().collect();
    }
    let width_yd = match own.fairway_width_yd {
        Some(width_yd) => Some(width_yd),
        None if par? == 3 => None,
        None => Some(defaults.fairway_width_yd.unwrap_or(36.0)),
    };
    let stretch = |width_yd: f64| {
        let (_, to_yd) = ends?;
        Some(Stretch {
            from_yd: FAIRWAY_FROM_YD.min(to_yd),
            to_yd,
            half_width_yd: width_yd / 2.0,
        })
    };
    Some(width_yd.and_then(stretch).into_iter().collect())
}

fn read_stretch(table: &Table<'_>, ends: Option<(f64, f64)>) -> Option<Stretch> {
    let from_yd = table.need("from_yd", "120").number(0.0..=800.0, "yards");
    let width_yd = table.need("width_yd", "34").number(5.0..=150.0, "yards");
    let to_yd = if table.has("to_yd") {
        table.may("to_yd", "260").number(0.0..=800.0, "yards")
    } else {
        ends.map(|(_, front_yd)| front_yd)
    };
    if let Some((from_yd, (length_yd, _))) = from_yd.zip(ends)
        && from_yd >= length_yd
    {
        let message = format!(
            "this stretch of fairway begins at {from_yd} yards, past the hole, which is {length_yd:.0} yards long"
        );
        let hint = "count from the tee along the line of play";
        table.fault(table.place("from_yd"), message, hint);
        return None;
    }
    let (from_yd, to_yd) = (from_yd?, to_yd?);
    if from_yd >= to_yd {
        let message =
            format!("this stretch of fairway begins at {from_yd} yards and ends at {to_yd}");
        table.fault(
            table.place("to_yd"),
            message,
            "let it end farther than it begins",
        );
        return None;
    }
    Some(Stretch {
        from_yd,
        to_yd,
        half_width_yd: width_yd? / 2.0,
    })
}
