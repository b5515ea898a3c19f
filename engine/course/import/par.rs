//! The par of a hole, and where it comes from.

use serde::Serialize;

use super::kind::number_in;
use super::map::Tags;
use crate::course::par::lengths_yd;
use crate::player::Sex;

/// Where a hole's par comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum ParFrom {
    /// The map states it.
    Tag,
    /// The map states it for one tee.
    #[serde(rename = "tag of a tee")]
    TeeTag,
    /// It stands in the hole's name.
    Name,
    /// A line of so many points, as long as such a hole is.
    Nodes,
    /// The length alone.
    Length,
}

impl ParFrom {
    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Tag => "as the map says",
            Self::TeeTag => "as the map says of one tee",
            Self::Name => "from its name",
            Self::Nodes => "inferred from the points of its line and its length",
            Self::Length => "inferred from its length",
        }
    }

    /// Whether the map says so.
    #[must_use]
    pub const fn is_stated(self) -> bool {
        matches!(self, Self::Tag | Self::TeeTag | Self::Name)
    }
}

/// Where lengths of two pars overlap, the middle parts them, yards.
const PARTED_YD: [f64; 2] = [250.0, 470.0];

/// The par of a hole whose line has `nodes` points; a par stated for the tee of `colour` comes before that of others.
pub(super) fn par(
    tags: &Tags,
    colour: Option<&str>,
    nodes: usize,
    length_yd: f64,
) -> (u8, ParFrom) {
    let whole = |text: &str| text.parse::<u8>().ok().filter(|par| (3..=6).contains(par));
    if let Some(par) = tags.get("par").and_then(whole) {
        return (par, ParFrom::Tag);
    }
    let by_tee = tags.after("par:");
    let own = by_tee.iter().find(|(tee, _)| colour == Some(tee));
    let of_tee = own
        .into_iter()
        .chain(&by_tee)
        .find_map(|(_, par)| whole(par));
    if let Some(par) = of_tee {
        return (par, ParFrom::TeeTag);
    }
    if let Some(par) = tags.get("name").and_then(in_name) {
        return (par, ParFrom::Name);
    }
    let by_nodes = u8::try_from(nodes + 1).unwrap_or(u8::MAX);
    let agrees = lengths_yd(by_nodes, Sex::Men).is_some_and(|lengths| lengths.contains(&length_yd));
    if agrees {
        return (by_nodes, ParFrom::Nodes);
    }
    let by_length = 3 + PARTED_YD.iter().filter(|least| length_yd > **least).count();
    (u8::try_from(by_length).unwrap_or(5), ParFrom::Length)
}

/// The par in a name such as `Blue (Par 3)`.
fn in_name(name: &str) -> Option<u8> {
    let name = name.to_lowercase();
    let (_, after) = name.split_once("par ").or(name.split_once("par"))?;
    let starts = after.trim_start().starts_with(|c: char| c.is_ascii_digit());
    let number = number_in(after).filter(|_| starts)?;
    u8::try_from(number)
        .ok()
        .filter(|par| (3..=6).contains(par))
}

/// What is odd about a par and a length.
pub(super) fn disagreement(number: u32, par: u8, from: ParFrom, length_yd: f64) -> Option<String> {
    let lengths = lengths_yd(par, Sex::Men)?;
    if !from.is_stated() || lengths.contains(&length_yd) {
        return None;
    }
    let how = if length_yd > *lengths.end() {
        "long"
    } else {
        "short"
    };
    Some(format!(
        "hole {number} is {length_yd:.0} yd, {how} for a par {par} ({:.0} to {:.0} yd for men); the par on the map is kept",
        lengths.start(),
        lengths.end()
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tags(pairs: &[(&str, &str)]) -> Tags {
        Tags(
            pairs
                .iter()
                .map(|(key, value)| ((*key).to_owned(), (*value).to_owned()))
                .collect(),
        )
    }

    #[test]
    fn what_the_map_says_comes_before_what_can_be_inferred() {
        let all = [("par", "5"), ("par:red", "4"), ("name", "Red (Par 3)")];
        assert_eq!(par(&tags(&all), None, 2, 150.0), (5, ParFrom::Tag));
        assert_eq!(par(&tags(&all[1..]), None, 2, 150.0), (4, ParFrom::TeeTag));
        assert_eq!(par(&tags(&all[2..]), None, 4, 500.0), (3, ParFrom::Name));
        assert_eq!(
            par(
                &tags(&[("par:red", "5"), ("par:white", "4")]),
                Some("white"),
                2,
                460.0
            ),
            (4, ParFrom::TeeTag)
        );
    }

    #[test]
    fn points_of_the_line_count_where_the_length_agrees() {
        assert_eq!(par(&tags(&[]), None, 3, 391.0), (4, ParFrom::Nodes));
        assert_eq!(par(&tags(&[]), None, 3, 195.0), (3, ParFrom::Length));
        assert_eq!(par(&tags(&[]), None, 7, 471.0), (5, ParFrom::Length));
        assert_eq!(
            par(
                &tags(&[("par", "many"), ("name", "Par excellence")]),
                None,
                7,
                251.0
            ),
            (4, ParFrom::Length)
        );
    }

    #[test]
    fn a_par_the_length_does_not_fit_is_told() {
        assert!(
            disagreement(13, 4, ParFrom::Name, 497.0)
                .is_some_and(|told| told.contains("497 yd, long for a par 4"))
        );
        assert_eq!(disagreement(4, 4, ParFrom::Tag, 391.0), None);
    }
}
