//! Holes without a line of play: a green and the tees and fairways of its number, on grounds where each number stands on
//! one green only. Where it does not, the grounds are refused, with counts of what was found.

use std::borrow::Cow;

use super::candidate::{Candidate, Refused};
use super::flat::{apart_m, length_m};
use super::group::outlines;
use super::kind::{Kind, is_practice, number_in};
use super::map::{Feature, Form, Map, Place};
use super::rings;

/// The shortest and longest way from tee to green that is taken for a hole, metres.
const LENGTHS_M: std::ops::RangeInclusive<f64> = 60.0..=650.0;
/// A fairway whose middle lies this far off the straight line bends it, metres.
const BEND_M: f64 = 20.0;

/// Makes lines of play on all grounds that hold none of `drawn`.
pub(super) fn paired<'a>(
    map: &'a Map,
    drawn: &[Candidate<'a>],
    refused: &mut Vec<Refused>,
) -> Vec<Candidate<'a>> {
    let mut made = Vec::new();
    let grounds: Vec<&Feature> = map
        .features
        .iter()
        .filter(|feature| feature.kind == Kind::Course)
        .collect();
    for one in &grounds {
        let outlines = outlines(one);
        let inside = |place: Place| outlines.iter().any(|outline| rings::holds(outline, place));
        if drawn
            .iter()
            .any(|hole| hole.places.iter().any(|place| inside(*place)))
        {
            continue;
        }
        let within = map
            .features
            .iter()
            .filter(|feature| middle(feature).is_some_and(inside))
            .collect();
        match Holdings(within).lines() {
            Ok(lines) => made.extend(lines),
            Err(why) => refused.push(Refused::new(one.label(), why)),
        }
    }
    let golf = map
        .features
        .iter()
        .filter(|feature| feature.kind.is_golf())
        .collect();
    if grounds.is_empty() && drawn.is_empty() && refused.is_empty() {
        match Holdings(golf).lines() {
            Ok(lines) => made.extend(lines),
            Err(why) => refused.push(Refused::new("the map", why)),
        }
    }
    made
}

/// What one course's grounds hold.
struct Holdings<'a>(Vec<&'a Feature>);

impl<'a> Holdings<'a> {
    fn of(&self, kind: Kind) -> impl Iterator<Item = &'a Feature> {
        self.0
            .iter()
            .copied()
            .filter(move |feature| feature.kind == kind)
    }

    /// Lines from tees to greens of the same number, or why none can be made.
    fn lines(&self) -> Result<Vec<Candidate<'a>>, String> {
        let greens: Vec<(u32, &Feature)> = self
            .of(Kind::Green)
            .filter_map(|green| Some((number(green)?, green)))
            .collect();
        let mut twice: Vec<u32> = greens.iter().map(|(number, _)| *number).collect();
        twice.sort_unstable();
        let unique = {
            let mut unique = twice.clone();
            unique.dedup();
            unique.len()
        };
        twice = twice
            .windows(2)
            .filter(|pair| pair[0] == pair[1])
            .map(|pair| pair[0])
            .collect();
        twice.dedup();
        if !twice.is_empty() {
            return Err(format!(
                "no hole has a line of play, and {} of {unique} numbers stand on more than one green, so that tees and \
                 greens cannot be paired; found {}",
                twice.len(),
                self.counts()
            ));
        }
        let lines: Vec<_> = greens
            .into_iter()
            .filter_map(|(number, green)| self.line(number, green))
            .collect();
        if lines.is_empty() {
            return Err(format!(
                "no hole has a line of play, and no tee and green share a number; found {}",
                self.counts()
            ));
        }
        Ok(lines)
    }

    /// The line from the farthest tee of a number to its green, bent where its fairway bends it.
    fn line(&self, number: u32, green: &'a Feature) -> Option<Candidate<'a>> {
        let end = middle(green)?;
        let same = |feature: &&Feature| self::number(feature) == Some(number);
        let tees = self.of(Kind::Tee).filter(same).filter_map(middle);
        let reach = tees.filter(|tee| LENGTHS_M.contains(&apart_m(*tee, end)));
        let start = reach.max_by(|a, b| apart_m(*a, end).total_cmp(&apart_m(*b, end)))?;
        let bend = self
            .of(Kind::Fairway)
            .filter(same)
            .filter_map(middle)
            .find(|bend| {
                let straight = apart_m(start, end);
                let (to, on) = (apart_m(start, *bend), apart_m(*bend, end));
                // Height of the triangle over the straight line, by Heron's formula.
                let half = (straight + to + on) / 2.0;
                let height = 2.0
                    * (half * (half - straight) * (half - to) * (half - on))
                        .max(0.0)
                        .sqrt()
                    / straight;
                height > BEND_M && to < straight && on < straight
            });
        let places: Vec<Place> = [Some(start), bend, Some(end)]
            .into_iter()
            .flatten()
            .collect();
        let is_hole = LENGTHS_M.contains(&length_m(&places));
        is_hole.then_some(Candidate {
            feature: green,
            number,
            places: Cow::Owned(places),
            is_drawn: false,
        })
    }

    /// What there is, in words.
    fn counts(&self) -> String {
        let count = |kind, one: &str, many: &str| match self.of(kind).count() {
            0 => None,
            1 => Some(format!("1 {one}")),
            count => Some(format!("{count} {many}")),
        };
        let found: Vec<String> = [
            count(Kind::Green, "green", "greens"),
            count(Kind::Tee, "tee", "tees"),
            count(Kind::Fairway, "fairway", "fairways"),
            count(Kind::Bunker, "bunker", "bunkers"),
        ]
        .into_iter()
        .flatten()
        .collect();
        if found.is_empty() {
            "nothing of a golf course".to_owned()
        } else {
            found.join(", ")
        }
    }
}

/// The number of a green, tee or fairway, from its `ref`, else from its name; none where it is one for practice.
fn number(feature: &Feature) -> Option<u32> {
    let name = feature.tags.get("name");
    if name.is_some_and(is_practice) {
        return None;
    }
    let number = feature
        .tags
        .get("ref")
        .and_then(number_in)
        .or_else(|| number_in(name?))?;
    u32::try_from(number)
        .ok()
        .filter(|number| (1..=36).contains(number))
}

/// The middle of the points of a feature.
fn middle(feature: &Feature) -> Option<Place> {
    let places: Vec<Place> = match &feature.form {
        Form::Line(places) => rings::outline(places.clone()).unwrap_or_else(|| places.clone()),
        form => form.places().collect(),
    };
    let count = places.len() as f64;
    let mean = |of: fn(&Place) -> f64| places.iter().map(of).sum::<f64>() / count;
    Place::new(mean(|place| place.lat_deg), mean(|place| place.lon_deg))
}
