//! One element of Overpass JSON: with node numbers, or with its places told in place (`out geom`).

use std::collections::BTreeMap;

use serde::Deserialize;

use super::assemble::{Assembler, Drawn, Member};
use super::input::Broken;
use super::kind::Kind;
use super::map::Place;
use super::xml::off_earth;

/// An element.
#[derive(Debug, Deserialize)]
pub(super) struct Element {
    #[serde(rename = "type")]
    what: String,
    #[serde(default)]
    id: i64,
    lat: Option<f64>,
    lon: Option<f64>,
    nodes: Option<Vec<i64>>,
    geometry: Option<Vec<Option<Spot>>>,
    members: Option<Vec<ElementMember>>,
    #[serde(default)]
    tags: BTreeMap<String, String>,
}

#[derive(Debug, Deserialize)]
struct Spot {
    lat: f64,
    lon: f64,
}

#[derive(Debug, Deserialize)]
struct ElementMember {
    #[serde(rename = "type")]
    what: String,
    #[serde(rename = "ref", default)]
    number: i64,
    #[serde(default)]
    role: String,
    geometry: Option<Vec<Option<Spot>>>,
}

/// Adds an element to the map.
pub(super) fn add(assembler: &mut Assembler, element: Element, _: i64) -> Result<(), Broken> {
    let get = |key: &str| element.tags.get(key).map(String::as_str);
    let is_multipolygon = matches!(get("type"), Some("multipolygon" | "boundary"));
    let pairs = || {
        element
            .tags
            .iter()
            .map(|(key, value)| (key.as_str(), value.as_str()))
    };
    let meaning = Kind::of(get).map(|kind| (kind, kind.kept(pairs())));
    let number = element.id;
    let added = match element.what.as_str() {
        "node" => match element.lat.zip(element.lon) {
            Some((lat, lon)) => assembler.node(number, place(lat, lon)?, meaning),
            None => Ok(()),
        },
        "way" => match (places(element.geometry)?, element.nodes) {
            (Some(places), _) => assembler.way_of_places(number, places, meaning),
            (None, Some(nodes)) => assembler.way(number, &nodes, meaning),
            (None, None) => {
                note_shapeless(
                    assembler,
                    &element.what,
                    number,
                    meaning.map(|(kind, _)| kind),
                );
                Ok(())
            }
        },
        "relation" if is_multipolygon => match element.members {
            Some(members) => assembler.multipolygon(number, ways(members)?, meaning),
            None => {
                note_shapeless(
                    assembler,
                    &element.what,
                    number,
                    meaning.map(|(kind, _)| kind),
                );
                Ok(())
            }
        },
        _ => Ok(()),
    };
    added.map_err(Broken::too_large)
}

fn note_shapeless(assembler: &mut Assembler, what: &str, number: i64, kind: Option<Kind>) {
    if let Some(kind) = kind.filter(|kind| kind.is_golf()) {
        assembler.shapeless(format!("{kind} ({what} {number})"));
    }
}

fn ways(members: Vec<ElementMember>) -> Result<Vec<Member>, Broken> {
    let ways = members.into_iter().filter(|member| member.what == "way");
    ways.map(|member| {
        let is_inner = member.role == "inner";
        Ok(Member {
            way: member.number,
            is_inner,
            places: places(member.geometry)?,
        })
    })
    .collect()
}

/// Places told in place; points beyond the asked ground are null, and counted.
fn places(geometry: Option<Vec<Option<Spot>>>) -> Result<Option<Drawn>, Broken> {
    let Some(spots) = geometry else {
        return Ok(None);
    };
    let all = spots.len();
    let known = spots.into_iter().flatten();
    let places: Vec<Place> = known
        .map(|spot| place(spot.lat, spot.lon))
        .collect::<Result<_, _>>()?;
    let lost = all - places.len();
    Ok(Some((places, lost)))
}

fn place(lat_deg: f64, lon_deg: f64) -> Result<Place, Broken> {
    Place::new(lat_deg, lon_deg).ok_or_else(|| off_earth(lat_deg, lon_deg))
}
