//! Days as sheets write them, as far as they tell which of two came first.

use std::cmp::Ordering;

use jiff::civil::Date;

/// How months begin, in the languages that sheets are met in: small letters, no accents. No two of them begin alike.
const MONTHS: [&[&str]; 12] = [
    &["jan", "gen", "ene"],
    &["feb", "fev"],
    &["mar", "mrz", "maer"],
    &["apr", "avr", "abr"],
    &["may", "mai", "mag", "mei", "maj"],
    &["jun", "juin", "giu"],
    &["jul", "juil", "lug"],
    &["aug", "aou", "ago"],
    &["sep", "set"],
    &["oct", "okt", "ott", "out"],
    &["nov"],
    &["dec", "dez", "dic"],
];

/// Which of two days came first; none where they can be read in two ways that disagree, or are no days.
///
/// Day and month may stand in either order, as long as every reading of the two together says the same: 17/05/2026 and
/// 03/05/2026 have no seventeenth month, while 03/05/2026 and 04/04/2026 could be either way round. A month may be
/// written as a word, a year with its last two digits, and a day as eight digits or as a spreadsheet counts days.
///
/// ```
/// # use costcard::player::batch::order_of_days;
/// # use std::cmp::Ordering;
/// assert_eq!(order_of_days("2026-05-03", "2026-05-17 10:30"), Some(Ordering::Less));
/// assert_eq!(order_of_days("17/05/2026", "03/05/2026"), Some(Ordering::Greater));
/// assert_eq!(order_of_days("2 June 2026", "28 May 2026"), Some(Ordering::Greater));
/// assert_eq!(order_of_days("03/05/2026", "04/04/2026"), None);
/// ```
#[must_use]
pub fn order_of_days(one: &str, other: &str) -> Option<Ordering> {
    let (one, other) = (Day::read(one)?, Day::read(other)?);
    let orders = Way::ALL
        .into_iter()
        .filter_map(|way| Some(one.date(way)?.cmp(&other.date(way)?)));
    let mut orders = orders.collect::<Vec<Ordering>>().into_iter();
    let first = orders.next()?;
    orders.all(|order| order == first).then_some(first)
}

/// The day of a date that may have a time of day after it.
pub(super) fn day_of(date: &str) -> &str {
    let Some(time) = time_at(date) else {
        return date;
    };
    let day = date[..time].trim_end_matches([' ', ',']);
    let day = match day.strip_suffix('T') {
        Some(day) if day.ends_with(|c: char| c.is_ascii_digit()) => day,
        _ => day,
    };
    if day.is_empty() { date } else { day }
}

/// Where a time of day begins, as `9:05`: one or two digits before a colon.
fn time_at(date: &str) -> Option<usize> {
    let colon = date.find(':')?;
    let digits = date[..colon].bytes().rev();
    match digits.take_while(u8::is_ascii_digit).count() {
        digits @ 1..=2 => Some(colon - digits),
        _ => None,
    }
}

/// The order that the numbers of a day stand in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Way {
    YearMonthDay,
    DayMonthYear,
    MonthDayYear,
}

impl Way {
    const ALL: [Self; 3] = [Self::YearMonthDay, Self::DayMonthYear, Self::MonthDayYear];
}

/// A day as it is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Day {
    /// Known whatever the order of its numbers is.
    Known(Date),
    /// Three numbers in the order they stand in.
    Numbers([Number; 3]),
}

/// A number of a day, and how many digits it is written with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Number {
    value: i16,
    digits: usize,
}

impl Day {
    fn read(text: &str) -> Option<Self> {
        let mut month = None;
        let mut numbers = Vec::new();
        let words = day_of(text.trim()).split(|c: char| !c.is_alphanumeric());
        for word in words.filter(|word| !word.is_empty()) {
            if !word.starts_with(|c: char| c.is_ascii_digit()) {
                // Other words are days of the week, of which some begin as months do (`mar. 3 mai`).
                month = month_named(word).or(month);
                continue;
            }
            // As in `3rd`.
            let digits = word.trim_end_matches(|c: char| c.is_alphabetic());
            if digits.len() > 4 && numbers.is_empty() {
                return counted(digits).map(Self::Known);
            }
            numbers.push(Number {
                value: digits.parse().ok()?,
                digits: digits.len(),
            });
        }
        match (month, &numbers[..]) {
            (None, &[one, two, three]) => Some(Self::Numbers([one, two, three])),
            (Some(month), &[one, two]) => {
                let (day, year) = match one.year() {
                    Some(year) if one.digits == 4 => (two, year),
                    _ => (one, two.year()?),
                };
                Date::new(year, month, day.small()?).ok().map(Self::Known)
            }
            _ => None,
        }
    }

    fn date(self, way: Way) -> Option<Date> {
        let [one, two, three] = match self {
            Self::Known(date) => return Some(date),
            Self::Numbers(numbers) => numbers,
        };
        let (year, month, day) = match way {
            Way::YearMonthDay => (one, two, three),
            Way::DayMonthYear => (three, two, one),
            Way::MonthDayYear => (three, one, two),
        };
        Date::new(year.year()?, month.small()?, day.small()?).ok()
    }
}

impl Number {
    /// As a year: four digits, or the last two of one of this century.
    fn year(self) -> Option<i16> {
        match self.digits {
            4 => Some(self.value),
            2 => Some(2000 + self.value),
            _ => None,
        }
    }

    /// As a day or month.
    fn small(self) -> Option<i8> {
        i8::try_from(self.value).ok()
    }
}

/// A day in one number: year, month and day in eight digits, or the days since the end of 1899, as spreadsheets count.
fn counted(digits: &str) -> Option<Date> {
    let number: i64 = digits.parse().ok()?;
    match digits.len() {
        8 => {
            let (year, rest) = (number / 10_000, number % 10_000);
            let [year, month, day] = [year, rest / 100, rest % 100].map(|part| part as i16);
            Date::new(year, month as i8, day as i8).ok()
        }
        5 => {
            let first = Date::constant(1899, 12, 30);
            first.checked_add(jiff::Span::new().days(number)).ok()
        }
        _ => None,
    }
}

fn month_named(word: &str) -> Option<i8> {
    let plain = word.to_lowercase();
    let plain = plain
        .replace('ä', "a")
        .replace(['é', 'è'], "e")
        .replace('û', "u");
    let named = MONTHS
        .iter()
        .position(|names| names.iter().any(|name| plain.starts_with(name)));
    named.map(|place| place as i8 + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_is_told_from_its_time() {
        for (date, day) in [
            ("2026-05-03", "2026-05-03"),
            ("2026-05-03T10:22:31", "2026-05-03"),
            ("2026-05-03T10:22:31Z", "2026-05-03"),
            ("03.05.2026 10:22", "03.05.2026"),
            ("May 3, 2026", "May 3, 2026"),
            ("May 3, 2026 10:10", "May 3, 2026"),
            ("3 May 2026 10:22", "3 May 2026"),
            ("3. Mai 2026 10:22", "3. Mai 2026"),
            ("3 Jun 2026, 9:22 AM", "3 Jun 2026"),
            ("Sun 3 May 2026 10:22", "Sun 3 May 2026"),
            ("3 AUGUST 10:22", "3 AUGUST"),
            ("10:22", "10:22"),
            ("a:b", "a:b"),
            ("", ""),
        ] {
            assert_eq!(day_of(date), day);
        }
    }

    #[test]
    fn days_are_put_in_order_as_far_as_they_can_be_read_in_one_way() {
        for (one, other, order) in [
            ("2026-05-17", "2026-05-03", Some(Ordering::Greater)),
            ("2026-05-17", "2026-05-17T09:00", Some(Ordering::Equal)),
            // The month first, the day first, with points; a reading that gives no day is none.
            ("05/17/2026", "05/20/2026", Some(Ordering::Less)),
            ("28.2.2026", "1.3.2026", Some(Ordering::Less)),
            ("01/06/2026", "03/05/2026", None),
            // In either reading the later one is later.
            ("03/05/2026", "04/06/2026", Some(Ordering::Less)),
            // Months as words, in any place, with days of the week and times.
            ("2 Jun 2026", "28 May 2026", Some(Ordering::Greater)),
            ("May 10, 2026", "May 3, 2026", Some(Ordering::Greater)),
            ("10. Mai 2026 9:05", "3. Mai 2026", Some(Ordering::Greater)),
            ("10-May-26", "3-May-26", Some(Ordering::Greater)),
            (
                "Sun 3rd May 2026",
                "Sat 2nd May 2026",
                Some(Ordering::Greater),
            ),
            ("3 MÄRZ 2026", "3 février 2026", Some(Ordering::Greater)),
            ("2026 Aug 1", "1 août 2026", Some(Ordering::Equal)),
            (
                "mar. 3 février 2026",
                "lun. 2 mars 2026",
                Some(Ordering::Less),
            ),
            // The last two digits of the year, where every reading says the same.
            ("10.05.26", "03.05.26", Some(Ordering::Greater)),
            ("26/05/27", "27/05/26", None),
            // In one number.
            ("20260602", "20260528", Some(Ordering::Greater)),
            ("46175", "46170", Some(Ordering::Greater)),
            ("46175", "2 June 2026", Some(Ordering::Equal)),
            ("Tuesday", "2026-05-03", None),
            ("2026-13-40", "2026-05-03", None),
            ("99999999", "20260528", None),
            ("99999", "46170", Some(Ordering::Greater)),
            ("123456789012345678901234567890", "46170", None),
            ("May", "June", None),
            ("", "", None),
        ] {
            assert_eq!(order_of_days(one, other), order, "{one}, {other}");
        }
    }
}
