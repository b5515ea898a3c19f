//! Rows of averages, sums and the like, which exports put among the shots.

/// Words that mark such a row and could be nothing else, in the languages exports usually come in.
const PLAIN: [&str; 31] = [
    "average",
    "averages",
    "avg",
    "median",
    "std",
    "stdev",
    "std dev",
    "std. dev",
    "st. dev",
    "std.dev",
    "stddev",
    "deviation",
    "standard deviation",
    "minimum",
    "maximum",
    "summe",
    "gesamt",
    "mittelwert",
    "durchschnitt",
    "abweichung",
    "standardabweichung",
    "abw",
    "±",
    "ø",
    "somme",
    "moyenne",
    "promedio",
    "gemiddelde",
    "medelvärde",
    "gennemsnit",
    "snitt",
];

/// Words that mark one too, but may also be somebody's name or a place.
const OPEN: [&str; 14] = [
    "total",
    "totals",
    "sum",
    "mean",
    "sd",
    "min",
    "max",
    "consistency",
    "range",
    "mittel",
    "schnitt",
    "média",
    "media",
    "medel",
];

/// The longest cell that is looked at, bytes.
const LONGEST: usize = 40;

/// Whether a cell marks a row of totals and could be nothing else.
pub(super) fn is_plain(cell: &str) -> bool {
    within(cell, |word| PLAIN.contains(&word))
}

/// Whether a cell marks a row of totals, unless it is a name.
pub(super) fn is_mark(cell: &str) -> bool {
    within(cell, is_word)
}

/// Whether what stands in place of a club marks a row of totals: `Average`, or `Average 7 iron`.
pub(super) fn is_mark_of_club(cell: &str) -> bool {
    within(cell, |text| {
        is_word(text) || is_word(text.split([' ', ':']).next().unwrap_or_default())
    })
}

fn is_word(text: &str) -> bool {
    PLAIN.contains(&text) || OPEN.contains(&text)
}

fn within(cell: &str, is: impl Fn(&str) -> bool) -> bool {
    if cell.len() >= LONGEST {
        return false;
    }
    let lower = cell.to_lowercase();
    is(lower.trim_end_matches([':', '.']))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_told_from_a_mark() {
        assert!(is_mark("Max") && !is_plain("Max"));
        assert!(is_mark("Average:") && is_plain("Average:"));
        assert!(is_mark_of_club("Std Dev 7 iron") || is_mark_of_club("std 7 iron"));
        assert!(is_plain("Std. Dev.") && is_plain("Abw.") && is_plain("±"));
        assert!(!is_mark("Maxine") && !is_mark_of_club("7 iron"));
    }
}
