//! One cell of a sheet: a number in any locale, with its unit and its direction if they stand there too.

use super::quantity::{Quantity, Unit};
use crate::files::listed;

/// What decimals begin with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Decimal {
    /// `103.5`, thousands parted by commas or not at all.
    Point,
    /// `103,5`, thousands parted by points or not at all.
    Comma,
}

impl Decimal {
    fn of_decimals(self) -> char {
        match self {
            Self::Point => '.',
            Self::Comma => ',',
        }
    }

    fn of_thousands(self) -> char {
        match self {
            Self::Point => ',',
            Self::Comma => '.',
        }
    }

    /// Which of the two a cell shows; neither when it could be both or none.
    pub(super) fn shown_by(cell: &str) -> Option<Self> {
        let number = cell.trim_matches(|c: char| !c.is_ascii_digit());
        if !number
            .chars()
            .all(|c| c.is_ascii_digit() || matches!(c, '.' | ','))
        {
            return None;
        }
        let last = number.rfind(['.', ','])?;
        let mark = number[last..].chars().next()?;
        let this = if mark == '.' {
            Self::Point
        } else {
            Self::Comma
        };
        let both = number.contains('.') && number.contains(',');
        let decimals = number.len() - last - 1;
        if number.matches(mark).count() > 1 {
            // Two of one mark part thousands.
            return Some(if mark == '.' {
                Self::Comma
            } else {
                Self::Point
            });
        }
        (both || decimals != 3 || number.starts_with('0')).then_some(this)
    }

    /// Whether a cell shows a mark that may stand before decimals or between thousands.
    pub(super) fn is_open(cell: &str) -> bool {
        let number = cell.trim_matches(|c: char| !c.is_ascii_digit());
        number.contains([',']) && Self::shown_by(cell).is_none() && number.len() <= 7
    }
}

/// What is wrong with a cell, and what to write instead.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BadCell {
    /// What is wrong.
    pub message: String,
    /// What to write.
    pub hint: String,
}

/// The marks that stand for nothing measured.
const NOTHING: [&str; 9] = ["-", "--", "---", "–", "—", "n/a", "na", "nan", "null"];

/// Reads a cell in the trade's unit of its quantity; nothing for one that is empty or a dash.
pub(super) fn read(
    cell: &str,
    quantity: Quantity,
    unit: Unit,
    decimal: Decimal,
) -> Result<Option<f64>, BadCell> {
    let cell = cell.trim();
    if decimal == Decimal::Point
        && let Ok(number) = cell.parse::<f64>()
        && number.is_finite()
    {
        return Ok(Some(number * unit.factor));
    }
    if cell.is_empty() || NOTHING.contains(&&*cell.to_lowercase()) {
        return Ok(None);
    }
    let (side, number, unit) = parts(cell, quantity, unit)?;
    let plain = plain(number, decimal);
    let value = plain.and_then(|plain| plain.parse::<f64>().ok());
    match value {
        Some(value) => Ok(Some(side * value * unit.factor)),
        None => Err(no_number(cell, quantity, decimal)),
    }
}

fn no_number(cell: &str, quantity: Quantity, decimal: Decimal) -> BadCell {
    BadCell {
        message: format!("{} must be a number, not `{cell}`", quantity.words()),
        hint: format!(
            "write digits, with a `{}` before decimals, or leave the cell empty when nothing was measured",
            decimal.of_decimals()
        ),
    }
}

/// A unit behind a blank that has digits of its own, as `1/min`, and what stands before it.
fn digits_in_unit(cell: &str) -> Option<(&str, &str)> {
    let (before, word) = cell.rsplit_once(char::is_whitespace)?;
    let is_unit = word.contains(|c: char| c.is_ascii_digit()) && Unit::named(word).is_some();
    is_unit.then_some((before, word))
}

/// The side a cell names (+1 for right or none), its digits and its unit.
fn parts(cell: &str, quantity: Quantity, unit: Unit) -> Result<(f64, &str, Unit), BadCell> {
    if let Some((before, word)) = digits_in_unit(cell)
        && let Some(own) = fitting(word, quantity)?
    {
        return parts_but_unit(before, quantity, own);
    }
    parts_but_unit(cell, quantity, unit)
}

/// The same of a cell none of whose units has digits of its own.
fn parts_but_unit(
    cell: &str,
    quantity: Quantity,
    unit: Unit,
) -> Result<(f64, &str, Unit), BadCell> {
    let is_digit = |c: char| c.is_ascii_digit();
    let (Some(first), Some(last)) = (cell.find(is_digit), cell.rfind(is_digit)) else {
        return Err(no_number(cell, quantity, Decimal::Point));
    };
    let sign_from = cell[..first]
        .rfind(|c: char| !matches!(c, '-' | '+' | '−' | '.' | ','))
        .map_or(0, |at| {
            at + cell[at..].chars().next().map_or(1, char::len_utf8)
        });
    let (before, number, after) = (
        &cell[..sign_from],
        &cell[sign_from..=last],
        &cell[last + 1..],
    );
    let mut side = None;
    let mut own_unit = unit;
    // A degree sign stands close to what follows it.
    let after = after.replace('°', "° ");
    for word in before.split_whitespace().chain(after.split_whitespace()) {
        if let Some(found) = side_of(word) {
            if !quantity.is_lateral() || side.is_some() {
                return Err(no_side(cell, quantity));
            }
            side = Some(found);
        } else if let Some(found) = fitting(word, quantity)? {
            own_unit = found;
        } else {
            return Err(no_number(cell, quantity, Decimal::Point));
        }
    }
    if side.is_some() && number.starts_with(['-', '−']) {
        return Err(two_sides(cell, quantity));
    }
    Ok((side.unwrap_or(1.0), number, own_unit))
}

/// The unit a word names, none where it names none; at fault where it is of another quantity.
fn fitting(word: &str, quantity: Quantity) -> Result<Option<Unit>, BadCell> {
    match Unit::named(word) {
        Some(found) if found.kind != quantity.kind() => Err(wrong_unit(word, quantity)),
        found => Ok(found),
    }
}

/// Whether a cell says the unit of its figure itself: `104 mph`.
pub(super) fn says_unit(cell: &str) -> bool {
    let mut words =
        cell.split(|c: char| c.is_whitespace() || c.is_ascii_digit() || matches!(c, '.' | ','));
    digits_in_unit(cell).is_some() || words.any(|word| Unit::named(word).is_some())
}

fn side_of(word: &str) -> Option<f64> {
    match word.to_lowercase().trim_end_matches('.') {
        "l" | "left" => Some(-1.0),
        "r" | "right" => Some(1.0),
        _ => None,
    }
}

fn two_sides(cell: &str, quantity: Quantity) -> BadCell {
    BadCell {
        message: format!(
            "{} tells its side by a sign and by a letter: `{cell}`",
            quantity.words()
        ),
        hint: "write it in one of the two ways: `3.5 L`, or `-3.5`".to_owned(),
    }
}

fn no_side(cell: &str, quantity: Quantity) -> BadCell {
    BadCell {
        message: format!("{} has no left or right: `{cell}`", quantity.words()),
        hint: "see that the column map names the right column".to_owned(),
    }
}

/// The fault of a unit that does not fit.
pub(super) fn wrong_unit(unit: &str, quantity: Quantity) -> BadCell {
    BadCell {
        message: format!("`{unit}` is no unit of {}", quantity.words()),
        hint: format!("its units are {}", listed(&quantity.kind().units(), "and")),
    }
}

/// Digits with a point before the decimals and nothing between thousands; nothing when thousands are parted oddly.
fn plain(number: &str, decimal: Decimal) -> Option<String> {
    let number: String = number
        .chars()
        .filter(|c| !c.is_whitespace() && !matches!(c, '\'' | '’'))
        .map(|c| if c == '−' { '-' } else { c })
        .collect();
    let (whole, decimals) = match number.split_once(decimal.of_decimals()) {
        Some((whole, decimals)) => (whole, Some(decimals)),
        None => (&*number, None),
    };
    let thousands = decimal.of_thousands();
    if decimals.is_some_and(|decimals| decimals.contains([thousands, decimal.of_decimals()])) {
        return None;
    }
    let mut groups = whole.split(thousands);
    let first = groups.next()?.trim_start_matches(['-', '+']);
    if whole.contains(thousands) && (first.is_empty() || first.len() > 3) {
        return None;
    }
    if groups.any(|group| group.len() != 3) {
        return None;
    }
    let whole = whole.replace(thousands, "");
    Some(match decimals {
        Some(decimals) => format!("{whole}.{decimals}"),
        None => whole,
    })
}

#[cfg(test)]
mod tests {
    use super::super::quantity::Kind;
    use super::*;

    fn value(cell: &str, quantity: Quantity, decimal: Decimal) -> Option<f64> {
        read(cell, quantity, quantity.kind().trade(), decimal).unwrap_or_else(|bad| {
            panic!("{cell}: {}", bad.message);
        })
    }

    #[test]
    fn numbers_of_every_locale_are_read() {
        use Decimal::{Comma, Point};
        for (cell, decimal, wanted) in [
            ("6200", Point, 6200.0),
            ("6,200", Point, 6200.0),
            ("6.200", Comma, 6200.0),
            ("6 200,5", Comma, 6200.5),
            ("6'200.5", Point, 6200.5),
            ("6\u{202f}200", Comma, 6200.0),
            ("-3,5", Comma, -3.5),
            ("−3.5", Point, -3.5),
            ("+3.5", Point, 3.5),
            (".5", Point, 0.5),
        ] {
            assert_eq!(
                value(cell, Quantity::Sidespin, decimal),
                Some(wanted),
                "{cell}"
            );
        }
    }

    #[test]
    fn left_and_right_and_units_may_stand_in_the_cell() {
        for (cell, wanted) in [
            ("3.5 L", -3.5),
            ("3.5L", -3.5),
            ("L3.5", -3.5),
            ("R 3.5", 3.5),
            ("3.5° L", -3.5),
            ("3.5°R", 3.5),
            ("3.5 deg left", -3.5),
        ] {
            assert_eq!(
                value(cell, Quantity::Direction, Decimal::Point),
                Some(wanted),
                "{cell}"
            );
        }
        let metres = value("100 m", Quantity::Carry, Decimal::Point);
        assert!((metres.unwrap_or(0.0) - 109.361).abs() < 0.001);
        let spin = value("2450 1/min", Quantity::Backspin, Decimal::Point);
        assert_eq!(spin, Some(2450.0));
        let speed = value("45 ms-1", Quantity::BallSpeed, Decimal::Point);
        assert!((speed.unwrap_or(0.0) - 100.662).abs() < 0.001);
    }

    #[test]
    fn a_dash_is_nothing_and_words_are_at_fault() {
        for cell in ["", "-", "—", "N/A", "NaN"] {
            assert_eq!(value(cell, Quantity::Launch, Decimal::Point), None);
        }
        let told = |cell: &str, quantity: Quantity, decimal| {
            let read = read(cell, quantity, quantity.kind().trade(), decimal);
            read.map_or_else(|bad| bad.message, |value| format!("{value:?}"))
        };
        for cell in ["-3.5 L", "L -3.5", "−3.5 R"] {
            assert_eq!(
                told(cell, Quantity::Direction, Decimal::Point),
                format!("direction tells its side by a sign and by a letter: `{cell}`")
            );
        }
        assert_eq!(
            told("steep", Quantity::Launch, Decimal::Point),
            "launch must be a number, not `steep`"
        );
        assert_eq!(
            told("12 L", Quantity::Launch, Decimal::Point),
            "launch has no left or right: `12 L`"
        );
        assert_eq!(
            told("12 mph", Quantity::Carry, Decimal::Point),
            "`mph` is no unit of carry"
        );
        assert_eq!(
            told("10,35", Quantity::BallSpeed, Decimal::Point),
            "ball speed must be a number, not `10,35`"
        );
        assert_eq!(Kind::Speed.units()[0], "mph");
    }

    #[test]
    fn the_decimal_mark_is_told_where_it_shows() {
        assert_eq!(Decimal::shown_by("103,5"), Some(Decimal::Comma));
        assert_eq!(Decimal::shown_by("103.52"), Some(Decimal::Point));
        assert_eq!(Decimal::shown_by("1.234,5"), Some(Decimal::Comma));
        assert_eq!(Decimal::shown_by("0,123"), Some(Decimal::Comma));
        assert_eq!(Decimal::shown_by("6,200"), None);
        assert_eq!(Decimal::shown_by("03.05.2026"), Some(Decimal::Comma));
        assert_eq!(Decimal::shown_by("7 iron"), None);
        assert!(Decimal::is_open("6,200") && !Decimal::is_open("6200"));
    }
}
