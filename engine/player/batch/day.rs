//! Days as sheets write them, as far as they tell which of two came first.

use std::cmp::Ordering;

use jiff::civil::Date;

/// Which of two days came first; none where they can be read in two ways that disagree, or are no days.
///
/// Day and month may stand in either order, as long as every reading of the two together says the same: 17/05/2026 and
/// 03/05/2026 have no seventeenth month, while 03/05/2026 and 04/04/2026 could be either way round.
///
/// ```
/// # use costcard::player::batch::order_of_days;
/// # use std::cmp::Ordering;
/// assert_eq!(order_of_days("2026-05-03", "2026-05-17 10:30"), Some(Ordering::Less));
/// assert_eq!(order_of_days("17/05/2026", "03/05/2026"), Some(Ordering::Greater));
/// assert_eq!(order_of_days("03/05/2026", "04/04/2026"), None);
/// ```
#[must_use]
pub fn order_of_days(one: &str, other: &str) -> Option<Ordering> {
    let (one, other) = (numbers(one)?, numbers(other)?);
    let ways = [[0, 1, 2], [2, 1, 0], [2, 0, 1]];
    let read = |numbers: [i16; 3], [year, month, day]: [usize; 3]| {
        let small = |number: i16| i8::try_from(number).ok();
        let year = Some(numbers[year]).filter(|year| *year >= 1000)?;
        Date::new(year, small(numbers[month])?, small(numbers[day])?).ok()
    };
    let orders = ways
        .into_iter()
        .filter_map(|way| Some(read(one, way)?.cmp(&read(other, way)?)));
    let mut orders = orders.collect::<Vec<Ordering>>().into_iter();
    let first = orders.next()?;
    orders.all(|order| order == first).then_some(first)
}

/// The three numbers of a day; what follows them, as the hour, is left out.
fn numbers(text: &str) -> Option<[i16; 3]> {
    let day = text.trim().split([' ', 'T', ',']).next()?;
    let numbers: Vec<i16> = day
        .split(['-', '/', '.'])
        .filter_map(|part| part.parse().ok())
        .collect();
    numbers.try_into().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

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
            ("Tuesday", "2026-05-03", None),
            ("3/5/26", "4/5/26", None),
            ("", "", None),
        ] {
            assert_eq!(order_of_days(one, other), order, "{one}, {other}");
        }
    }
}
