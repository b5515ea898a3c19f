//! One feature of GeoJSON (RFC 7946): longitude first, rings wound either way, geometry that may be null, tags among the
//! properties or under `tags` there.

use geojson::{Geometry, GeometryValue, JsonObject, JsonValue, Position};

use super::assemble::{Assembler, patches};
use super::input::Broken;
use super::kind::Kind;
use super::map::{Element, Feature, Form, Id, Patch, Place, Tags};
use super::rings;
use super::xml::off_earth;

/// Adds a feature to the map; `number` is its place in the file.
pub(super) fn add(
    assembler: &mut Assembler,
    feature: geojson::Feature,
    number: i64,
) -> Result<(), Broken> {
    let properties = feature.properties.as_ref();
    let tags = tags(properties);
    let get = |key: &str| {
        tags.iter()
            .find(|(known, _)| known == key)
            .map(|(_, value)| value.as_str())
    };
    let pairs = || {
        tags.iter()
            .map(|(key, value)| (key.as_str(), value.as_str()))
    };
    let Some(kind) = Kind::of(get) else {
        return Ok(());
    };
    let id = id(&feature, number);
    let kept = kind.kept(pairs());
    let forms = feature.geometry.map_or(Ok(Vec::new()), forms)?;
    if forms.is_empty() && kind.is_golf() {
        let form = Form::Area(Vec::new());
        assembler.shapeless(self::feature(id, kind, kept, form).label());
        return Ok(());
    }
    for (part, form) in (0..).zip(forms) {
        // Only the first part of what stands in several keeps the name; the others are numbered on.
        let id = if part == 0 {
            id
        } else {
            Id {
                element: Element::Feature,
                number: number * 100_000 + part,
            }
        };
        assembler
            .feature(self::feature(id, kind, kept.clone(), form))
            .map_err(Broken::too_large)?;
    }
    Ok(())
}

fn feature(id: Id, kind: Kind, tags: Tags, form: Form) -> Feature {
    Feature {
        id,
        kind,
        tags,
        form,
        lost_points: 0,
    }
}

/// The tags: under `tags` where the properties have that, else the properties themselves.
fn tags(properties: Option<&JsonObject>) -> Vec<(String, String)> {
    let nested = properties.and_then(|properties| properties.get("tags")?.as_object());
    let pairs = nested.or(properties).into_iter().flatten();
    let text = |value: &JsonValue| match value {
        JsonValue::String(text) => Some(text.clone()),
        JsonValue::Number(number) => Some(number.to_string()),
        _ => None,
    };
    pairs
        .filter_map(|(key, value)| Some((key.clone(), text(value)?)))
        .collect()
}

/// The name of a feature in the map it came from: `way/12`, `way 12`, or parted as `type` and `id`.
fn id(feature: &geojson::Feature, number: i64) -> Id {
    let property = |key: &str| {
        feature
            .properties
            .as_ref()
            .and_then(|all| all.get(key)?.as_str())
    };
    let own = match &feature.id {
        Some(geojson::feature::Id::String(text)) => Some(text.as_str()),
        _ => None,
    };
    let named = own.or(property("@id")).or(property("id"));
    let parted = named.and_then(|text| {
        let (word, number) = text.split_once(['/', ' '])?;
        let element = match word {
            "node" => Element::Node,
            "way" => Element::Way,
            "relation" => Element::Relation,
            _ => return None,
        };
        Some(Id {
            element,
            number: number.parse().ok()?,
        })
    });
    parted.unwrap_or(Id {
        element: Element::Feature,
        number,
    })
}

/// The shapes of a geometry.
fn forms(geometry: Geometry) -> Result<Vec<Form>, Broken> {
    Ok(match geometry.value {
        GeometryValue::Point { coordinates } => vec![Form::Point(place(&coordinates)?)],
        GeometryValue::MultiPoint { coordinates } => {
            let points = coordinates
                .iter()
                .map(|point| Ok(Form::Point(place(point)?)));
            points.collect::<Result<_, Broken>>()?
        }
        GeometryValue::LineString { coordinates } => line(&coordinates)?.into_iter().collect(),
        GeometryValue::MultiLineString { coordinates } => {
            let lines: Vec<Option<Form>> = coordinates
                .iter()
                .map(|points| line(points))
                .collect::<Result<_, _>>()?;
            lines.into_iter().flatten().collect()
        }
        GeometryValue::Polygon { coordinates } => area(polygon(&coordinates)?),
        GeometryValue::MultiPolygon { coordinates } => {
            let parts: Vec<Vec<Patch>> = coordinates
                .iter()
                .map(|rings| polygon(rings))
                .collect::<Result<_, _>>()?;
            area(parts.into_iter().flatten().collect())
        }
        GeometryValue::GeometryCollection { geometries } => {
            let parts: Vec<Vec<Form>> = geometries
                .into_iter()
                .map(forms)
                .collect::<Result<_, _>>()?;
            parts.into_iter().flatten().collect()
        }
    })
}

fn area(patches: Vec<Patch>) -> Vec<Form> {
    if patches.is_empty() {
        Vec::new()
    } else {
        vec![Form::Area(patches)]
    }
}

fn line(points: &[Position]) -> Result<Option<Form>, Broken> {
    let places = places(points)?;
    Ok((!places.is_empty()).then_some(Form::Line(places)))
}

/// A polygon: its first ring is the outline, the others are islands.
fn polygon(all: &[Vec<Position>]) -> Result<Vec<Patch>, Broken> {
    let mut outlines = Vec::new();
    for ring in all {
        outlines.push(rings::outline(places(ring)?));
    }
    let mut outlines = outlines.into_iter();
    let Some(outline) = outlines.next().flatten() else {
        return Ok(Vec::new());
    };
    Ok(patches(vec![outline], outlines.flatten().collect()))
}

fn places(points: &[Position]) -> Result<Vec<Place>, Broken> {
    points.iter().map(place).collect()
}

fn place(position: &Position) -> Result<Place, Broken> {
    match position.as_slice() {
        [lon_deg, lat_deg, ..] => {
            Place::new(*lat_deg, *lon_deg).ok_or_else(|| off_earth(*lat_deg, *lon_deg))
        }
        _ => Err(Broken::new(
            None,
            "a position needs a longitude and a latitude",
            "write `[-0.58, 52.61]`",
        )),
    }
}
