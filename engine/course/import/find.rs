//! From a line on the map to a hole: which end is the tee, which green it plays to, its tees and par.

use geo::{
    Centroid, Contains, Coord, Distance, Euclidean, InteriorPoint, Length as _, LineString, Point,
    Polygon,
};
use serde::Serialize;

use super::candidate::{Candidate, Refused};
use super::direction::{Direction, Ends};
use super::ground::{Ground, Tee};
use super::kind::number_in;
use super::par::{self, ParFrom};
use super::tidy;
use crate::units::Length;

/// A line that ends no farther than this from a green plays to it, metres.
const GREEN_REACH_M: f64 = 40.0;
/// The hole in the green is cut no nearer its edge than this, yards: the edge of a grid cell must not take it off.
const LEAST_INSIDE_YD: f64 = 1.5;
/// A tee lies no farther from the start of its hole, yards; one that names its hole may lie farther.
const TEE_REACH_YD: f64 = 150.0;
const NAMED_TEE_REACH_YD: f64 = 250.0;
/// Points of the line no farther than this past a tee are left out when play starts there, yards.
const PAST_TEE_YD: f64 = 10.0;
/// Greens are from about 250 to 850 m² in size; outside these bounds something is odd. Source: measured medians of 263
/// to 610 m² in public extracts, 3500 to 9000 sq ft by superintendents (GCSAA).
const GREEN_SIZES_SQ_M: std::ops::RangeInclusive<f64> = 120.0..=1500.0;
/// A stated distance this far off the line, as a share, in metres and in yards, is told.
const DISTANCE_SHARE: f64 = 0.06;

/// Where a hole's green comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum GreenFrom {
    /// The outline that holds the end of the line.
    Outline,
    /// The nearest outline; the line is drawn on to its middle.
    Nearest,
    /// Made up, since none is drawn.
    Made,
}

impl GreenFrom {
    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Outline => "the outline in which the line ends",
            Self::Nearest => {
                "the outline nearest to the end of the line, which is drawn on to its middle"
            }
            Self::Made => "made up: none is on the map",
        }
    }
}

/// A tee of a hole.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FoundTee {
    /// Its colours, lower case.
    pub colours: Vec<String>,
    /// Length of the hole from it, yards.
    pub length_yd: f64,
}

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
    let all: Vec<Ends> = candidates
        .iter()
        .zip(lines)
        .map(|(hole, line)| Ends::of(hole.number, line))
        .collect();
    let mut turned = Vec::new();
    for (candidate, line) in candidates.iter().zip(lines) {
        let direction = if candidate.is_drawn {
            Direction::of(candidate.number, line, ground, &all)
        } else {
            Direction::made()
        };
        let mut line = line.clone();
        if direction.is_reversed {
            line.0.reverse();
        }
        turned.push((candidate, direction, line));
    }
    let starts: Vec<(u32, Coord<f64>)> = turned
        .iter()
        .filter_map(|(hole, _, line)| Some((hole.number, *line.0.first()?)))
        .collect();
    let mut found = Vec::new();
    for (candidate, direction, line) in turned {
        let tees: Vec<&Tee> = ground
            .tees
            .iter()
            .filter(|tee| hole_of(tee, &starts) == Some(candidate.number))
            .collect();
        match hole(candidate, direction, line, &tees, ground, asked) {
            Ok(hole) => found.push(hole),
            Err(why) => refused.push(Refused::new(candidate.feature.label(), why)),
        }
    }
    drop_shared_indexes(&mut found);
    found
}

/// The hole a tee belongs to: the one it names, when that starts near by, else the one that starts nearest.
fn hole_of(tee: &Tee, starts: &[(u32, Coord<f64>)]) -> Option<u32> {
    let away = |start: Coord<f64>| (start.x - tee.middle.x).hypot(start.y - tee.middle.y);
    let named = starts.iter().find(|(number, start)| {
        tee.number == Some(i64::from(*number)) && away(*start) <= NAMED_TEE_REACH_YD
    });
    let nearest = || {
        starts
            .iter()
            .min_by(|a, b| away(a.1).total_cmp(&away(b.1)))
            .filter(|(_, start)| away(*start) <= TEE_REACH_YD)
    };
    named.or_else(nearest).map(|(number, _)| *number)
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
    let drawn_yd = Euclidean.length(&line);
    let mut warnings = Vec::new();
    warnings.extend(direction.warning(number));
    if !candidate.is_drawn {
        warnings.push(format!(
            "hole {number} has no line on the map: it is made from its tee, fairway and green"
        ));
    }
    let (green, green_from) = green(number, &mut line, ground, asked.make_greens, &mut warnings)?;
    let tee = asked.colour.and_then(|colour| {
        tees.iter()
            .find(|tee| tee.colours.iter().any(|one| one == colour))
    });
    let nodes = line.0.len();
    let mut found_tees: Vec<FoundTee> = tees
        .iter()
        .map(|tee| FoundTee {
            colours: tee.colours.clone(),
            length_yd: Euclidean.length(&from_tee(&line, tee.middle)),
        })
        .collect();
    found_tees.sort_by(|a, b| {
        b.length_yd
            .total_cmp(&a.length_yd)
            .then(a.colours.cmp(&b.colours))
    });
    if let Some(tee) = tee {
        line = from_tee(&line, tee.middle);
    } else if let Some(colour) = asked.colour {
        warnings.push(format!(
            "hole {number} has no {colour} tee on the map; it starts where its line does"
        ));
    }
    let length_yd = Euclidean.length(&line);
    let (par, par_from) = par::par(candidate.tags(), asked.colour, nodes, length_yd);
    warnings.extend(par::disagreement(number, par, par_from, length_yd));
    if candidate.is_drawn {
        warnings.extend(distance_warning(candidate, drawn_yd));
    }
    Ok(FoundHole {
        number,
        par,
        par_from,
        stroke_index: stroke_index(candidate, asked.colour),
        length_yd,
        green_from,
        green_sq_yd: green.as_ref().map(geo::Area::unsigned_area),
        tee_colour: tee.and(asked.colour).map(str::to_owned),
        tees: found_tees,
        direction,
        is_drawn: candidate.is_drawn,
        warnings,
        line,
        green,
    })
}

/// The green a line plays to; the line is drawn on or moved so that it ends well inside.
fn green(
    number: u32,
    line: &mut LineString<f64>,
    ground: &Ground,
    make: bool,
    warnings: &mut Vec<String>,
) -> Result<(Option<Polygon<f64>>, GreenFrom), String> {
    let end = line.0.last().copied().unwrap_or_default();
    let reach_yd = Length::from_m(GREEN_REACH_M).yd();
    let away = |outline: &Polygon<f64>| Euclidean.distance(&Point(end), outline);
    let greens = ground
        .greens
        .iter()
        .filter(|green| !green.is_practice)
        .map(|green| &green.outline);
    let nearest = greens
        .map(|outline| (away(outline), outline))
        .min_by(|a, b| a.0.total_cmp(&b.0));
    let Some((away_yd, outline)) = nearest.filter(|(away_yd, _)| *away_yd <= reach_yd) else {
        if make {
            warnings.push(format!(
                "the green of hole {number} is made up: none is on the map"
            ));
            return Ok((None, GreenFrom::Made));
        }
        return Err(format!(
            "no green lies within {GREEN_REACH_M} m of the end of its line; `--make-greens` makes one of ordinary size"
        ));
    };
    let solid = tidy::solid(outline);
    let from = if away_yd > 0.0 {
        warnings.push(format!("the line of hole {number} ends {away_yd:.0} yd short of its green and is drawn on to the middle of it"));
        GreenFrom::Nearest
    } else {
        GreenFrom::Outline
    };
    let inside = match from {
        GreenFrom::Outline => well_inside(&solid, end),
        _ => middle_of(&solid),
    };
    let inside = inside.ok_or_else(|| "its green is too narrow to hold a hole".to_owned())?;
    if let Some(last) = line.0.last_mut() {
        *last = inside;
    }
    let size_sq_m = sq_m(geo::Area::unsigned_area(&solid));
    if !GREEN_SIZES_SQ_M.contains(&size_sq_m) {
        let how = if size_sq_m < *GREEN_SIZES_SQ_M.start() {
            "small"
        } else {
            "large"
        };
        warnings.push(format!(
            "the green of hole {number} is very {how}: {size_sq_m:.0} m²"
        ));
    }
    Ok((Some(solid), from))
}

/// Square yards in square metres.
pub(super) fn sq_m(sq_yd: f64) -> f64 {
    sq_yd * Length::from_yd(1.0).m().powi(2)
}

/// The point itself when it lies well inside an area, else the first one that does on the way to the middle.
fn well_inside(outline: &Polygon<f64>, point: Coord<f64>) -> Option<Coord<f64>> {
    let middle = middle_of(outline)?;
    let way_yd = (middle.x - point.x).hypot(middle.y - point.y);
    let steps = (way_yd / 0.25).ceil().max(1.0) as u32;
    let at = |step: u32| {
        let share = f64::from(step) / f64::from(steps);
        Coord {
            x: point.x + share * (middle.x - point.x),
            y: point.y + share * (middle.y - point.y),
        }
    };
    (0..=steps)
        .map(at)
        .find(|point| is_well_inside(outline, *point))
}

fn is_well_inside(outline: &Polygon<f64>, point: Coord<f64>) -> bool {
    outline.contains(&point)
        && Euclidean.distance(&Point(point), outline.exterior()) >= LEAST_INSIDE_YD
}

/// The middle of an area, or a point inside where the middle is not.
fn middle_of(outline: &Polygon<f64>) -> Option<Coord<f64>> {
    let points = [outline.centroid(), outline.interior_point()];
    points
        .into_iter()
        .flatten()
        .map(|point| point.0)
        .find(|point| is_well_inside(outline, *point))
}

/// A line played from another tee: points behind the tee, or just past it, are left out.
fn from_tee(line: &LineString<f64>, tee: Coord<f64>) -> LineString<f64> {
    let tee_along = along_yd(line, tee);
    let mut along = 0.0;
    let mut points = vec![tee];
    for (index, pair) in line.0.windows(2).enumerate() {
        along += (pair[1].x - pair[0].x).hypot(pair[1].y - pair[0].y);
        if along > tee_along + PAST_TEE_YD || index + 2 == line.0.len() {
            points.push(pair[1]);
        }
    }
    LineString(points)
}

/// How far along a line the place nearest to a point lies, yards.
fn along_yd(line: &LineString<f64>, point: Coord<f64>) -> f64 {
    let (mut start, mut best) = (0.0, (f64::INFINITY, 0.0));
    for pair in line.0.windows(2) {
        let (dx, dy) = (pair[1].x - pair[0].x, pair[1].y - pair[0].y);
        let length = dx.hypot(dy);
        let (px, py) = (point.x - pair[0].x, point.y - pair[0].y);
        let forward = ((px * dx + py * dy) / length.max(f64::MIN_POSITIVE)).clamp(0.0, length);
        let away = (px * px + py * py
            - 2.0 * forward * (px * dx + py * dy) / length.max(f64::MIN_POSITIVE))
            + forward * forward;
        if away < best.0 {
            best = (away, start + forward);
        }
        start += length;
    }
    best.1
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

/// Of holes that share a stroke index only the first keeps it.
fn drop_shared_indexes(holes: &mut [FoundHole]) {
    let mut known: Vec<(u8, u32)> = Vec::new();
    for hole in holes {
        let Some(index) = hole.stroke_index else {
            continue;
        };
        match known.iter().find(|(other, _)| *other == index) {
            Some((_, first)) => {
                let number = hole.number;
                hole.warnings.push(format!("holes {first} and {number} both have stroke index {index}; it is left out on hole {number}"));
                hole.stroke_index = None;
            }
            None => known.push((index, hole.number)),
        }
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
