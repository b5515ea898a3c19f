//! Lines that may be holes, and what is none.

use std::borrow::Cow;

use serde::Serialize;

use super::flat::{apart_m, length_m};
use super::kind::{Kind, is_practice, number_in};
use super::map::{Feature, Form, Map, Place, Tags};

/// The shortest and longest line that may be a hole, metres.
const LENGTHS_M: std::ops::RangeInclusive<f64> = 60.0..=650.0;
/// A line that ends this near its start is no hole, metres.
const LEAST_APART_M: f64 = 30.0;
/// Numbers of holes.
const NUMBERS: std::ops::RangeInclusive<i64> = 1..=36;

/// What was on the map and cannot be played, and why.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Refused {
    /// What it is, with its name in the map.
    pub what: String,
    /// Why it cannot be played.
    pub why: String,
}

impl Refused {
    pub(super) fn new(what: impl Into<String>, why: impl Into<String>) -> Self {
        Self {
            what: what.into(),
            why: why.into(),
        }
    }
}

/// A line that may be a hole.
#[derive(Debug, Clone)]
pub(super) struct Candidate<'a> {
    /// The hole on the map, or the green its line was made for.
    pub(super) feature: &'a Feature,
    pub(super) number: u32,
    pub(super) places: Cow<'a, [Place]>,
    /// Whether the map draws the line; else it was made from tee, fairway and green.
    pub(super) is_drawn: bool,
}

impl Candidate<'_> {
    pub(super) fn tags(&self) -> &Tags {
        &self.feature.tags
    }

    /// Its ends.
    pub(super) fn ends(&self) -> [Place; 2] {
        let first = self.places[0];
        [first, self.places.last().copied().unwrap_or(first)]
    }

    /// The least distance between an end of this hole and one of another, metres.
    pub(super) fn gap_m(&self, other: &Self) -> f64 {
        let gaps = self
            .ends()
            .into_iter()
            .flat_map(|a| other.ends().map(|b| apart_m(a, b)));
        gaps.fold(f64::INFINITY, f64::min)
    }
}

/// The lines that may be holes; those that cannot are refused.
pub(super) fn candidates<'a>(map: &'a Map, refused: &mut Vec<Refused>) -> Vec<Candidate<'a>> {
    let mut found = Vec::new();
    for feature in map
        .features
        .iter()
        .filter(|feature| feature.kind == Kind::Hole)
    {
        match candidate(feature) {
            Ok(candidate) => found.push(candidate),
            Err(why) => refused.push(Refused::new(feature.label(), why)),
        }
    }
    found
}

/// A hole's line as one that may be played, or why it may not.
fn candidate(feature: &Feature) -> Result<Candidate<'_>, String> {
    let Form::Line(places) = &feature.form else {
        return Err("the line of play is not drawn as a line".to_owned());
    };
    if let Some(name) = feature.tags.get("name").filter(|name| is_practice(name)) {
        return Err(format!("\"{name}\" is a place to practise"));
    }
    let number = number(&feature.tags)?;
    if feature.lost_points > 0 {
        let all = places.len() + feature.lost_points;
        return Err(format!(
            "{} of its {all} points are not in the file: it was cut there",
            feature.lost_points
        ));
    }
    let (Some(first), Some(last)) = (places.first(), places.last()) else {
        return Err("its line has no points".to_owned());
    };
    // Without its sign: a line of no length is minus nothing as a sum.
    let length_m = length_m(places).abs();
    if !LENGTHS_M.contains(&length_m) {
        let (least, most) = (LENGTHS_M.start(), LENGTHS_M.end());
        return Err(format!(
            "its line is {length_m:.0} m long; a hole is from {least} to {most} m"
        ));
    }
    let apart_m = apart_m(*first, *last);
    if apart_m < LEAST_APART_M {
        return Err(format!("its line ends {apart_m:.0} m from where it starts"));
    }
    Ok(Candidate {
        feature,
        number,
        places: Cow::Borrowed(places),
        is_drawn: true,
    })
}

/// The number of a hole: its `ref`, or a name that is no more than a number.
fn number(tags: &Tags) -> Result<u32, String> {
    let of_name = || {
        let name = tags.get("name")?.to_lowercase();
        let rest = name.strip_prefix("hole").unwrap_or(&name).trim();
        rest.parse::<i64>().ok()
    };
    let number = match tags.get("ref") {
        Some(text) => {
            number_in(text).ok_or_else(|| format!("its `ref` is no number: \"{text}\""))?
        }
        None => of_name().ok_or_else(|| "it has no number (`ref`)".to_owned())?,
    };
    let (first, last) = (NUMBERS.start(), NUMBERS.end());
    let outside = || format!("holes are numbered from {first} to {last}, not {number}");
    u32::try_from(number)
        .ok()
        .filter(|_| NUMBERS.contains(&number))
        .ok_or_else(outside)
}
