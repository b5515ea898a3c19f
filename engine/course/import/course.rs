//! From a map to a course: what courses it holds, and one of them with all its holes.

use geo::LineString;

use super::candidate::{Candidate, Refused, candidates};
use super::find::{self, Asked, FoundHole};
use super::flat::Plane;
use super::ground::Ground;
use super::group::{Group, groups};
use super::lay::{LaidHole, lay};
use super::map::{Map, Place};
use super::pair::paired;
use crate::files::nearest;

/// The courses of a map, and what cannot be played.
#[derive(Debug)]
pub struct Survey<'a> {
    map: &'a Map,
    groups: Vec<Group<'a>>,
    refused: Vec<Refused>,
}

/// What is asked of an import.
#[derive(Debug, Clone, Copy, Default)]
pub struct Options<'a> {
    /// The colour of the tees to play from; none to start where the lines do.
    pub tees: Option<&'a str>,
    /// Whether holes without a green get one of ordinary size.
    pub make_greens: bool,
}

/// A course as it was imported.
#[derive(Debug, Clone, PartialEq)]
pub struct Imported {
    /// Its name; none where the map has none.
    pub name: String,
    /// The colour of the tees it is played from.
    pub tees: Option<String>,
    /// Its holes, in order.
    pub holes: Vec<ImportedHole>,
    /// What should be known of its ground.
    pub notes: Vec<String>,
    /// What cannot be played, and why.
    pub refused: Vec<Refused>,
}

/// A hole as it was imported.
#[derive(Debug, Clone, PartialEq)]
pub struct ImportedHole {
    /// What was found of it.
    pub found: FoundHole,
    /// How it lies.
    pub laid: LaidHole,
}

/// Why no course can be made.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ImportError {
    /// Nothing can be played.
    #[error("no hole of this map can be played")]
    Nothing(Vec<Refused>),
    /// No course has that name.
    #[error("this map holds no course `{0}`")]
    NoSuchCourse(String, Option<String>),
    /// No hole has tees of that colour; the colours there are, each with the number of holes that have it.
    #[error("no hole has a {0} tee on this map")]
    NoSuchTees(String, Vec<(String, usize)>),
}

impl<'a> Survey<'a> {
    /// Looks for courses on a map.
    #[must_use]
    pub fn of(map: &'a Map) -> Self {
        let mut refused: Vec<Refused> = map
            .shapeless
            .iter()
            .map(|label| {
                Refused::new(
                    label,
                    "it has no shape in the file: fetch the map with full geometry (`out geom`)",
                )
            })
            .collect();
        let mut holes = candidates(map, &mut refused);
        holes.extend(paired(map, &holes, &mut refused));
        let groups = groups(map, holes, &mut refused);
        Self {
            map,
            groups,
            refused,
        }
    }

    /// The courses: name and number of holes, the one with most holes first.
    #[must_use]
    pub fn courses(&self) -> Vec<(String, usize)> {
        let named = self.groups.iter().enumerate();
        named
            .map(|(at, group)| (name(at, group), group.holes.len()))
            .collect()
    }

    /// What cannot be played, so far as the lines of play tell.
    #[must_use]
    pub fn refused(&self) -> &[Refused] {
        &self.refused
    }

    /// The place in [`Self::courses`] of a course told by its name, part of it, or its number there.
    ///
    /// # Errors
    /// When there is no such course, or no course at all.
    pub fn course(&self, asked: &str) -> Result<usize, ImportError> {
        let wanted = asked.trim().to_lowercase();
        let names: Vec<String> = self
            .courses()
            .into_iter()
            .map(|(name, _)| name.to_lowercase())
            .collect();
        let part_of: Vec<usize> = (0..names.len())
            .filter(|at| names[*at].contains(&wanted))
            .collect();
        let by_number = wanted
            .parse::<usize>()
            .ok()
            .and_then(|number| number.checked_sub(1));
        let found = names
            .iter()
            .position(|name| *name == wanted)
            .or(by_number.filter(|at| *at < names.len()))
            .or(if let [only] = part_of[..] {
                Some(only)
            } else {
                None
            });
        found.ok_or_else(|| {
            let meant = nearest(&wanted, names.iter().map(String::as_str));
            let at = meant.and_then(|meant| names.iter().position(|name| name == meant));
            let meant = at
                .and_then(|at| self.courses().into_iter().nth(at))
                .map(|(name, _)| name);
            ImportError::NoSuchCourse(asked.to_owned(), meant)
        })
    }

    /// Imports a course by its place in [`Self::courses`].
    ///
    /// # Errors
    /// When none of its holes can be played, or none has tees of the colour asked for.
    pub fn import(&self, at: usize, options: Options<'_>) -> Result<Imported, ImportError> {
        let mut refused = self.refused.clone();
        let Some(group) = self.groups.get(at) else {
            return Err(ImportError::Nothing(refused));
        };
        let colour = options.tees.map(str::to_lowercase);
        let asked = Asked {
            colour: colour.as_deref(),
            make_greens: options.make_greens,
        };
        let (ground, lines) = self.ground(&group.holes);
        let mut found = find::holes(&group.holes, &lines, &ground, asked, &mut refused);
        check_tees(&found, asked.colour)?;
        found.sort_by_key(|hole| hole.number);
        let mut holes = Vec::new();
        for mut found in found {
            match lay(&mut found, &ground) {
                Ok(laid) => holes.push(ImportedHole { found, laid }),
                Err(why) => refused.push(Refused::new(format!("hole {}", found.number), why)),
            }
        }
        if holes.is_empty() {
            return Err(ImportError::Nothing(refused));
        }
        Ok(Imported {
            name: name(at, group),
            tees: colour,
            holes,
            notes: ground.notes,
            refused,
        })
    }

    /// The ground around some holes, and their lines on it.
    fn ground(&self, holes: &[Candidate<'_>]) -> (Ground, Vec<LineString<f64>>) {
        let places: Vec<Place> = holes
            .iter()
            .flat_map(|hole| hole.places.iter().copied())
            .collect();
        let plane = Plane::at(middle(&places));
        let ground = Ground::around(self.map, &places, &plane);
        let lines = holes.iter().map(|hole| plane.line(&hole.places));
        (ground, lines.collect())
    }
}

/// The name of a course, or its number where the map has no name for it.
fn name(at: usize, group: &Group<'_>) -> String {
    group
        .name
        .clone()
        .unwrap_or_else(|| format!("Course {}", at + 1))
}

/// The middle of the ground that places span.
fn middle(places: &[Place]) -> Place {
    let span = |of: fn(&Place) -> f64| {
        let values = places.iter().map(of);
        let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
            (low.min(value), high.max(value))
        });
        (low + high) / 2.0
    };
    Place {
        lat_deg: span(|place| place.lat_deg),
        lon_deg: span(|place| place.lon_deg),
    }
}

/// Whether any hole is played from tees of a colour.
fn check_tees(holes: &[FoundHole], colour: Option<&str>) -> Result<(), ImportError> {
    let Some(colour) = colour.filter(|_| holes.iter().all(|hole| hole.tee_colour.is_none())) else {
        return Ok(());
    };
    if holes.is_empty() {
        return Ok(());
    }
    Err(ImportError::NoSuchTees(colour.to_owned(), colours(holes)))
}

/// The colours of tees, each with the number of holes that have it, most first.
#[must_use]
pub fn colours(holes: &[FoundHole]) -> Vec<(String, usize)> {
    let mut counts: Vec<(String, usize)> = Vec::new();
    for hole in holes {
        let mut own: Vec<&String> = hole.tees.iter().flat_map(|tee| &tee.colours).collect();
        own.sort_unstable();
        own.dedup();
        for colour in own {
            match counts.iter_mut().find(|(known, _)| known == colour) {
                Some((_, count)) => *count += 1,
                None => counts.push((colour.clone(), 1)),
            }
        }
    }
    counts.sort_by(|a, b| b.1.cmp(&a.1).then(a.0.cmp(&b.0)));
    counts
}

impl Imported {
    /// Par of all holes together.
    #[must_use]
    pub fn par(&self) -> u32 {
        self.holes
            .iter()
            .map(|hole| u32::from(hole.found.par))
            .sum()
    }

    /// Length of all holes together, yards.
    #[must_use]
    pub fn length_yd(&self) -> f64 {
        self.holes.iter().map(|hole| hole.found.length_yd).sum()
    }
}
