//! Which holes make one course.
//!
//! A hole that names its course (`golf:course:name`) is of that course; else of the grounds it lies in; else of the holes
//! near by. Where a number stands twice in one of these, there are several courses, told apart by how near each green lies
//! to the next tee.

use super::candidate::{Candidate, Refused};
use super::flat::apart_m;
use super::kind::Kind;
use super::map::{Feature, Form, Map, Place};
use super::rings;

/// Holes this near belong together where no grounds are drawn, metres.
const NEAR_M: f64 = 400.0;
/// A hole outside the grounds, this near one within, still belongs to them, metres.
const BESIDE_M: f64 = 200.0;
/// Two lines of one number whose ends are this near are one hole drawn twice, metres.
const SAME_END_M: f64 = 40.0;

/// The holes of one course.
#[derive(Debug, Default)]
pub(super) struct Group<'a> {
    pub(super) name: Option<String>,
    /// The grounds, where they are drawn.
    pub(super) grounds: Vec<&'a Feature>,
    /// In order of their numbers, each once.
    pub(super) holes: Vec<Candidate<'a>>,
}

/// Sorts holes into courses, the one with most holes first.
pub(super) fn groups<'a>(
    map: &'a Map,
    candidates: Vec<Candidate<'a>>,
    refused: &mut Vec<Refused>,
) -> Vec<Group<'a>> {
    let mut groups: Vec<Group<'a>> = Vec::new();
    let mut homeless = Vec::new();
    for hole in candidates {
        let feature = hole.feature;
        if let Some(name) = feature.tags.get("golf:course:name") {
            put(&mut groups, Some(name), None, hole);
        } else if let Some(grounds) = grounds_of(map, &hole) {
            put(&mut groups, grounds.tags.get("name"), Some(grounds), hole);
        } else {
            homeless.push(hole);
        }
    }
    let strays = beside(&mut groups, homeless);
    groups.extend(clusters(strays));
    let mut courses: Vec<Group<'a>> = groups
        .into_iter()
        .flat_map(|group| split(once(group, refused)))
        .collect();
    courses.sort_by_key(|course| {
        (
            std::cmp::Reverse(course.holes.len()),
            course.holes.first().map(|hole| hole.feature.id),
        )
    });
    courses
}

/// Puts a hole into the group of its name or its grounds.
fn put<'a>(
    groups: &mut Vec<Group<'a>>,
    name: Option<&str>,
    grounds: Option<&'a Feature>,
    hole: Candidate<'a>,
) {
    let same = |group: &Group<'a>| match name {
        Some(name) => group.name.as_deref() == Some(name),
        None => {
            group.name.is_none() && grounds.is_some_and(|grounds| group.grounds.contains(&grounds))
        }
    };
    let at = groups.iter().position(same).unwrap_or(groups.len());
    if at == groups.len() {
        groups.push(Group {
            name: name.map(str::to_owned),
            ..Group::default()
        });
    }
    let group = &mut groups[at];
    if let Some(grounds) = grounds.filter(|grounds| !group.grounds.contains(grounds)) {
        group.grounds.push(grounds);
    }
    group.holes.push(hole);
}

/// The smallest grounds that hold most of a hole.
fn grounds_of<'a>(map: &'a Map, hole: &Candidate<'_>) -> Option<&'a Feature> {
    let grounds = map
        .features
        .iter()
        .filter(|feature| feature.kind == Kind::Course);
    let holds = |feature: &&'a Feature| {
        let outlines = outlines(feature);
        let inside = hole.places.iter().filter(|place| {
            outlines
                .iter()
                .any(|outline| rings::holds(outline, **place))
        });
        2 * inside.count() > hole.places.len()
    };
    grounds
        .filter(holds)
        .min_by(|a, b| spread(a).total_cmp(&spread(b)))
}

/// The outlines of an area.
pub(super) fn outlines(feature: &Feature) -> Vec<Vec<Place>> {
    match &feature.form {
        Form::Point(_) => Vec::new(),
        Form::Line(places) => rings::outline(places.clone()).into_iter().collect(),
        Form::Area(patches) => patches.iter().map(|patch| patch.outline.clone()).collect(),
    }
}

/// How much ground a feature spans, in square degrees: only to tell the smaller of two from the larger.
fn spread(feature: &Feature) -> f64 {
    let (mut low, mut high) = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
    for place in feature.form.places() {
        for (axis, value) in [place.lat_deg, place.lon_deg].into_iter().enumerate() {
            low[axis] = low[axis].min(value);
            high[axis] = high[axis].max(value);
        }
    }
    (high[0] - low[0]) * (high[1] - low[1])
}

/// Puts holes outside all grounds into the group beside them, where their number is free; the rest is given back.
fn beside<'a>(groups: &mut [Group<'a>], homeless: Vec<Candidate<'a>>) -> Vec<Candidate<'a>> {
    let mut strays = Vec::new();
    for hole in homeless {
        let gap = |group: &Group<'a>| {
            let gaps = group.holes.iter().map(|other| other.gap_m(&hole));
            gaps.fold(f64::INFINITY, f64::min)
        };
        let free = |group: &&mut Group<'a>| {
            !group.holes.iter().any(|other| other.number == hole.number) && gap(group) <= BESIDE_M
        };
        let nearest = groups
            .iter_mut()
            .filter(free)
            .min_by(|a, b| gap(a).total_cmp(&gap(b)));
        match nearest {
            Some(group) => group.holes.push(hole),
            None => strays.push(hole),
        }
    }
    strays
}

/// Holes that lie near each other, over any number of steps.
fn clusters(mut holes: Vec<Candidate<'_>>) -> Vec<Group<'_>> {
    let mut groups = Vec::new();
    while let Some(first) = holes.pop() {
        let mut cluster = vec![first];
        let mut at = 0;
        while at < cluster.len() {
            let here = cluster[at].clone();
            let (near, far) = holes
                .into_iter()
                .partition(|hole| hole.gap_m(&here) <= NEAR_M);
            cluster.extend::<Vec<_>>(near);
            holes = far;
            at += 1;
        }
        groups.push(Group {
            holes: cluster,
            ..Group::default()
        });
    }
    groups
}

/// A group in order of numbers, where of two lines of one hole only the longer is kept.
fn once<'a>(mut group: Group<'a>, refused: &mut Vec<Refused>) -> Group<'a> {
    let length_m = |hole: &Candidate<'_>| super::flat::length_m(&hole.places);
    group.holes.sort_by(|a, b| {
        a.number
            .cmp(&b.number)
            .then(length_m(b).total_cmp(&length_m(a)))
            .then(a.feature.id.cmp(&b.feature.id))
    });
    let mut kept: Vec<Candidate<'a>> = Vec::new();
    for hole in std::mem::take(&mut group.holes) {
        let [start, end] = hole.ends();
        let same = |other: &&Candidate<'a>| {
            let [other_start, other_end] = other.ends();
            let apart = apart_m(end, other_end)
                .min(apart_m(end, other_start))
                .min(apart_m(start, other_start));
            other.number == hole.number && apart < SAME_END_M
        };
        match kept.iter().find(same) {
            Some(other) => {
                let why = format!(
                    "{} is the longer line of the same hole",
                    other.feature.label()
                );
                refused.push(Refused::new(hole.feature.label(), why));
            }
            None => kept.push(hole),
        }
    }
    group.holes = kept;
    group
}

/// Splits a group in which numbers stand more than once into courses in which each stands once.
fn split(group: Group<'_>) -> Vec<Group<'_>> {
    let of = |number: u32| group.holes.iter().filter(move |hole| hole.number == number);
    let numbers = group.holes.iter().map(|hole| hole.number);
    let most = numbers
        .clone()
        .map(|number| of(number).count())
        .max()
        .unwrap_or(0);
    let seed = numbers.clone().find(|number| of(*number).count() == most);
    let Some(seed) = seed.filter(|_| most > 1) else {
        return vec![group];
    };
    let Group {
        name,
        grounds,
        holes,
    } = group;
    let named = chains(holes, seed)
        .into_iter()
        .zip(1..)
        .map(|(holes, place)| {
            let name = name.as_ref().map(|name| format!("{name}, course {place}"));
            Group {
                name,
                grounds: grounds.clone(),
                holes,
            }
        });
    named.collect()
}

/// Holes in chains that begin with those of number `seed` and grow from number to number, upwards and downwards.
fn chains(holes: Vec<Candidate<'_>>, seed: u32) -> Vec<Vec<Candidate<'_>>> {
    let (mut seeds, rest): (Vec<_>, Vec<_>) =
        holes.into_iter().partition(|hole| hole.number == seed);
    seeds.sort_by_key(|hole| hole.feature.id);
    let mut chains: Vec<Vec<Candidate<'_>>> = seeds.into_iter().map(|hole| vec![hole]).collect();
    let (after, mut before): (Vec<_>, Vec<_>) =
        rest.into_iter().partition(|hole| hole.number > seed);
    before.reverse();
    for side in [after, before] {
        for same in side.chunk_by(|a, b| a.number == b.number) {
            lengthen(&mut chains, same);
        }
    }
    for chain in &mut chains {
        chain.sort_by_key(|hole| hole.number);
    }
    chains
}

/// Adds holes of one number to the chains they lie nearest to, one to each.
fn lengthen<'a>(chains: &mut [Vec<Candidate<'a>>], holes: &[Candidate<'a>]) {
    let gap = |chain: &[Candidate<'a>], hole: &Candidate<'a>| {
        let by_number = chain
            .iter()
            .min_by_key(|other| other.number.abs_diff(hole.number));
        by_number.map_or(f64::INFINITY, |other| other.gap_m(hole))
    };
    let mut pairs: Vec<(f64, usize, usize)> = Vec::new();
    for (at, chain) in chains.iter().enumerate() {
        pairs.extend(
            holes
                .iter()
                .enumerate()
                .map(|(which, hole)| (gap(chain, hole), at, which)),
        );
    }
    pairs.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (mut full, mut placed) = (Vec::new(), Vec::new());
    for (_, at, which) in pairs {
        if !full.contains(&at) && !placed.contains(&which) {
            chains[at].push(holes[which].clone());
            full.push(at);
            placed.push(which);
        }
    }
}
