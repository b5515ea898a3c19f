//! From a line on the map to a hole.

use geo::{Area, Coord, Euclidean, Length as _, LineString, Polygon};

use super::candidate::{Candidate, Refused};
use super::direction::{Direction, Ends};
use super::green::{self, GreenFrom};
use super::ground::{Ground, Tee};
use super::kind::number_in;
use super::par::{self, ParFrom};
use super::tee::{self, FoundTee};
use crate::course::file::HOLES_OF_A_CARD;
use crate::units::Length;

/// A stated distance this far off the line, as a share, in metres and in yards, is told.
const DISTANCE_SHARE: f64 = 0.06;

/// A hole as it was found.
#[derive(Debug, Clone, PartialEq)]
pub struct FoundHole {
    /// Its number.
    pub number: u32,
    /// Its par.
    pub par: u8,
    /// Where the par comes from.
    pub par_from: ParFrom,
    /// Its stroke index, where the map states it.
    pub stroke_index: Option<u8>,
    /// Length of the line of play, yards.
    pub length_yd: f64,
    /// Where its green comes from.
    pub green_from: GreenFrom,
    /// Area of the green, square yards; none where it is made up.
    pub green_sq_yd: Option<f64>,
    /// The colour of the tee it is played from; none where it starts where the line does.
    pub tee_colour: Option<String>,
    /// Its tees, the longest first.
    pub tees: Vec<FoundTee>,
    /// How it was told which end is the tee.
    pub direction: Direction,
    /// Whether the map draws its line; else it was made from tee, fairway and green.
    pub is_drawn: bool,
    /// What is odd about it.
    pub warnings: Vec<String>,
    /// The line of play from the tee.
    pub(super) line: LineString<f64>,
    /// The green.
    pub(super) green: Option<Polygon<f64>>,
}

/// What was asked for.
#[derive(Debug, Clone, Copy)]
pub(super) struct Asked<'a> {
    pub(super) colour: Option<&'a str>,
    pub(super) make_greens: bool,
}

/// The holes of a course, in order; those that cannot be played are refused.
pub(super) fn holes(
    candidates: &[Candidate<'_>],
    lines: &[LineString<f64>],
    ground: &Ground,
    asked: Asked<'_>,
    refused: &mut Vec<Refused>,
) -> Vec<FoundHole> {
    let turned = turned(candidates, lines, ground);
    let starts: Vec<(u32, Coord<f64>)> = turned
        .iter()
        .filter_map(|(hole, _, line)| Some((hole.number, *line.0.first()?)))
        .collect();
    let mut found = Vec::new();
    for (candidate, direction, line) in turned {
        let tees: Vec<&Tee> = ground
            .tees
            .iter()
            .filter(|tee| tee::hole_of(tee, &starts) == Some(candidate.number))
            .collect();
        match hole(candidate, direction, line, &tees, ground, asked) {
            Ok(hole) => found.push(hole),
            Err(why) => refused.push(Refused::new(candidate.feature.label(), why)),
        }
    }
    drop_strange_indexes(&mut found);
    found
}

/// Each line from tee to green, and how that was told.
fn turned<'a, 'b>(
    candidates: &'a [Candidate<'b>],
    lines: &[LineString<f64>],
    ground: &Ground,
) -> Vec<(&'a Candidate<'b>, Direction, LineString<f64>)> {
    let both = || candidates.iter().zip(lines);
    let all: Vec<Ends> = both()
        .map(|(hole, line)| Ends::of(hole.number, line))
        .collect();
    let turn = |(candidate, line): (&'a Candidate<'b>, &LineString<f64>)| {
        let direction = if candidate.is_drawn {
            Direction::of(candidate.number, line, ground, &all)
        } else {
            Direction::made()
        };
        let mut line = line.clone();
        if direction.is_reversed {
            line.0.reverse();
        }
        (candidate, direction, line)
    };
    both().map(turn).collect()
}

fn hole(
    candidate: &Candidate<'_>,
    direction: Direction,
    mut line: LineString<f64>,
    tees: &[&Tee],
    ground: &Ground,
    asked: Asked<'_>,
) -> Result<FoundHole, String> {
    let number = candidate.number;
    let mut warnings = drawing_warnings(candidate, direction, Euclidean.length(&line));
    let (green, green_from) =
        green::green(number, &mut line, ground, asked.make_greens, &mut warnings)?;
    let nodes = line.0.len();
    let found_tees = tee::told(tees, &line);
    let tee = asked.colour.and_then(|colour| {
        tees.iter()
            .find(|tee| tee.colours.iter().any(|one| one == colour))
    });
    if let Some(tee) = tee {
        line = tee::from_tee(&line, tee.middle);
    } else if let Some(colour) = asked.colour {
        warnings.push(format!(
            "hole {number} has no {colour} tee on the map; it starts where its line does"
        ));
    }
    let length_yd = Euclidean.length(&line);
    let (par, par_from) = par::par(candidate.tags(), asked.colour, nodes, length_yd);
    warnings.extend(par::disagreement(number, par, par_from, length_yd));
    Ok(FoundHole {
        number,
        par,
        par_from,
        stroke_index: stroke_index(candidate, asked.colour),
        length_yd,
        green_from,
        green_sq_yd: green.as_ref().map(Area::unsigned_area),
        tee_colour: tee.and(asked.colour).map(str::to_owned),
        tees: found_tees,
        direction,
        is_drawn: candidate.is_drawn,
        warnings,
        line,
        green,
    })
}

/// What is odd about how a hole is drawn.
fn drawing_warnings(candidate: &Candidate<'_>, direction: Direction, line_yd: f64) -> Vec<String> {
    let number = candidate.number;
    let made = (!candidate.is_drawn).then(|| {
        format!("hole {number} has no line on the map: it is made from its tee, fairway and green")
    });
    let distance = candidate
        .is_drawn
        .then(|| distance_warning(candidate, line_yd))
        .flatten();
    [direction.warning(number), made, distance]
        .into_iter()
        .flatten()
        .collect()
}

/// The stroke index: of the hole, else of the tee played from, else of men.
fn stroke_index(candidate: &Candidate<'_>, colour: Option<&str>) -> Option<u8> {
    let tags = candidate.tags();
    let of = |key: &str| tags.get(&format!("handicap:{key}"));
    let text = tags
        .get("handicap")
        .or_else(|| of(colour?))
        .or_else(|| of("men"))?;
    let index = number_in(text)?;
    u8::try_from(index)
        .ok()
        .filter(|index| (1..=36).contains(index))
}

/// Of holes that share a stroke index only the first keeps it; one that no card of these holes has is left out.
fn drop_strange_indexes(holes: &mut [FoundHole]) {
    let most = holes.len().max(HOLES_OF_A_CARD);
    let mut known: Vec<(u8, u32)> = Vec::new();
    for hole in holes {
        let Some(index) = hole.stroke_index else {
            continue;
        };
        let number = hole.number;
        let first = known.iter().find(|(other, _)| *other == index);
        let warning = match first {
            _ if usize::from(index) > most => format!(
                "the map states stroke index {index} for hole {number}, which a card of {most} holes does not have; it is left out"
            ),
            Some((_, first)) => format!(
                "holes {first} and {number} both have stroke index {index}; it is left out on hole {number}"
            ),
            None => {
                known.push((index, number));
                continue;
            }
        };
        hole.warnings.push(warning);
        hole.stroke_index = None;
    }
}

/// What is odd about a stated distance.
fn distance_warning(candidate: &Candidate<'_>, line_yd: f64) -> Option<String> {
    let stated: f64 = candidate
        .tags()
        .get("dist")?
        .split(' ')
        .next()?
        .parse()
        .ok()?;
    let line_m = Length::from_yd(line_yd).m();
    let off = |length: f64| (stated - length).abs() > DISTANCE_SHARE * length;
    (off(line_m) && off(line_yd)).then(|| {
        format!("the map states a distance of {stated} for hole {}, but its line is {line_yd:.0} yd ({line_m:.0} m) long", candidate.number)
    })
}
