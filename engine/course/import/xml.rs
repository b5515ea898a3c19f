//! OSM XML 0.6, read as a stream.
//!
//! Nothing a hostile file could use is allowed: no document type, hence no entities of its own; no element deeper than
//! maps have; no piece longer than 16 MB.

use std::cell::Cell;
use std::io::BufRead;

use quick_xml::errors::Error;
use quick_xml::events::{BytesStart, Event};
use quick_xml::reader::Reader;

use super::assemble::{Assembler, Member, TooLarge};
use super::input::{At, Broken, FORMS, cannot_read};
use super::kind::Kind;
use super::map::{Place, Tags};

/// The deepest an element of a map lies.
const DEEPEST: usize = 4;
/// The most tags of one element, and the most nodes of one way (2000 by the rules of the database).
const MOST_TAGS: usize = 2000;
const MOST_NODES: usize = 100_000;

/// The element that is being read.
#[derive(Debug, Default)]
struct Open {
    number: i64,
    place: Option<Place>,
    has_centre: bool,
    is_gone: bool,
    tags: Vec<(String, String)>,
    nodes: Vec<i64>,
    members: Vec<Member>,
}

/// Reads a map; `eaten` counts the bytes since the last piece.
pub(super) fn read(
    input: impl BufRead,
    eaten: &Cell<u64>,
    assembler: &mut Assembler,
) -> Result<(), Broken> {
    let mut reader = Reader::from_reader(input);
    let (mut buffer, mut depth, mut ended) = (Vec::new(), 0_usize, false);
    let mut open = Open::default();
    loop {
        buffer.clear();
        eaten.set(0);
        let at = Some(At::Byte(reader.buffer_position()));
        let event = match reader.read_event_into(&mut buffer) {
            Ok(event) => event,
            Err(error) => return Err(no_xml(error, reader.error_position())),
        };
        let is_empty = matches!(event, Event::Empty(_));
        match event {
            Event::Start(tag) | Event::Empty(tag) => {
                begin(&tag, depth, &mut open, assembler).map_err(|broken| placed(broken, at))?;
                if is_empty {
                    end(tag.name().as_ref(), depth, &mut open, assembler)?;
                    ended = depth == 0;
                } else {
                    depth += 1;
                }
                if depth > DEEPEST {
                    let message = "elements stand deeper in each other than in any map";
                    return Err(Broken::new(at, message, FORMS));
                }
            }
            Event::End(tag) => {
                depth = depth.saturating_sub(1);
                end(tag.name().as_ref(), depth, &mut open, assembler)?;
                ended = depth == 0;
            }
            Event::DocType(_) => {
                let hint = "remove the line `<!DOCTYPE …>`; maps have none";
                let message = "this file declares a document type, which no map does";
                return Err(Broken::new(at, message, hint));
            }
            Event::Eof if ended => return Ok(()),
            Event::Eof => {
                let hint = "it was cut off; fetch it again";
                let message = "the map ends before its last element is closed";
                return Err(Broken::new(at, message, hint));
            }
            _ => {}
        }
    }
}

/// A fault of the XML itself.
fn no_xml(error: Error, byte: u64) -> Broken {
    if let Error::Io(error) = error {
        return cannot_read(std::io::Error::other(error.to_string()));
    }
    let hint = "the file was damaged or cut off; fetch it again";
    Broken::new(Some(At::Byte(byte)), format!("broken XML: {error}"), hint)
}

fn placed(mut broken: Broken, at: Option<At>) -> Broken {
    broken.at = broken.at.or(at);
    broken
}

/// Takes what a tag says.
fn begin(
    tag: &BytesStart<'_>,
    depth: usize,
    open: &mut Open,
    assembler: &mut Assembler,
) -> Result<(), Broken> {
    let name = tag.name();
    match (depth, name.as_ref()) {
        (0, "osm") => Ok(()),
        (0, other) => {
            let message =
                format!("this is XML, but no map: it begins with `<{other}>`, not `<osm>`");
            Err(Broken::new(None, message, FORMS))
        }
        (1, "node" | "way" | "relation") => {
            *open = Open::default();
            read_element(tag, open)
        }
        (2, "tag") if open.tags.len() < MOST_TAGS => {
            let (mut key, mut value) = (String::new(), String::new());
            each(tag, |name, text| {
                match name {
                    "k" => text.clone_into(&mut key),
                    "v" => text.clone_into(&mut value),
                    _ => {}
                }
                Ok(())
            })?;
            open.tags.push((key, value));
            Ok(())
        }
        (2, "nd" | "member") if open.nodes.len().max(open.members.len()) >= MOST_NODES => {
            Err(Broken::too_large(TooLarge))
        }
        (2, "nd") => read_nd(tag, open, assembler),
        (2, "member") => read_member(tag, open),
        (2, "center") => {
            open.has_centre = true;
            Ok(())
        }
        _ => Ok(()),
    }
}

fn read_element(tag: &BytesStart<'_>, open: &mut Open) -> Result<(), Broken> {
    let (mut number, mut lat_deg, mut lon_deg) = (None, None, None);
    each(tag, |name, text| {
        match name {
            "id" => number = Some(whole(name, text)?),
            "lat" => lat_deg = Some(degrees(name, text)?),
            "lon" => lon_deg = Some(degrees(name, text)?),
            // An editor marks what is to be deleted, and a history what is.
            "action" => open.is_gone |= text == "delete",
            "visible" => open.is_gone |= text == "false",
            _ => {}
        }
        Ok(())
    })?;
    open.number = number.ok_or_else(|| {
        Broken::new(
            None,
            "this element has no `id`",
            "write its number: `id=\"1\"`",
        )
    })?;
    open.place = lat_deg
        .zip(lon_deg)
        .map(|(lat, lon)| place(lat, lon))
        .transpose()?;
    Ok(())
}

/// A node of a way; some files tell its place there.
fn read_nd(tag: &BytesStart<'_>, open: &mut Open, assembler: &mut Assembler) -> Result<(), Broken> {
    let (mut number, mut lat_deg, mut lon_deg) = (None, None, None);
    each(tag, |name, text| {
        match name {
            "ref" => number = Some(whole(name, text)?),
            "lat" => lat_deg = Some(degrees(name, text)?),
            "lon" => lon_deg = Some(degrees(name, text)?),
            _ => {}
        }
        Ok(())
    })?;
    let number = number.ok_or_else(|| {
        Broken::new(
            None,
            "this `nd` has no `ref`",
            "name the node: `<nd ref=\"1\"/>`",
        )
    })?;
    open.nodes.push(number);
    if let Some((lat, lon)) = lat_deg.zip(lon_deg) {
        assembler
            .node(number, place(lat, lon)?, None)
            .map_err(Broken::too_large)?;
    }
    Ok(())
}

fn read_member(tag: &BytesStart<'_>, open: &mut Open) -> Result<(), Broken> {
    let (mut number, mut is_way, mut is_inner) = (None, false, false);
    each(tag, |name, text| {
        match name {
            "ref" => number = Some(whole(name, text)?),
            "type" => is_way = text == "way",
            "role" => is_inner = text == "inner",
            _ => {}
        }
        Ok(())
    })?;
    if let Some(way) = number.filter(|_| is_way) {
        open.members.push(Member {
            way,
            is_inner,
            places: None,
        });
    }
    Ok(())
}

/// Hands the element that has ended to the map.
fn end(name: &str, depth: usize, open: &mut Open, assembler: &mut Assembler) -> Result<(), Broken> {
    if depth != 1 || open.is_gone {
        return Ok(());
    }
    let Open {
        number,
        place,
        has_centre,
        tags,
        nodes,
        members,
        ..
    } = std::mem::take(open);
    let get = |key: &str| {
        tags.iter()
            .find(|(known, _)| known == key)
            .map(|(_, value)| value.as_str())
    };
    let is_multipolygon = matches!(get("type"), Some("multipolygon" | "boundary"));
    let pairs = || {
        tags.iter()
            .map(|(key, value)| (key.as_str(), value.as_str()))
    };
    let meaning: Option<(Kind, Tags)> = Kind::of(get).map(|kind| (kind, kind.kept(pairs())));
    let added = match (name, place) {
        ("node", Some(place)) => assembler.node(number, place, meaning),
        ("way", _) if nodes.is_empty() && has_centre => {
            if meaning.is_some_and(|(kind, _)| kind.is_golf()) {
                assembler.shapeless(format!("way {number}"));
            }
            Ok(())
        }
        ("way", _) => assembler.way(number, &nodes, meaning),
        ("relation", _) if is_multipolygon => assembler.multipolygon(number, members, meaning),
        _ => Ok(()),
    };
    added.map_err(Broken::too_large)
}

/// Calls a reader for each attribute.
fn each(
    tag: &BytesStart<'_>,
    mut read: impl FnMut(&str, &str) -> Result<(), Broken>,
) -> Result<(), Broken> {
    for attribute in tag.attributes() {
        let attribute = attribute.map_err(|error| {
            let hint = "the file was damaged; fetch it again";
            Broken::new(None, format!("broken XML: {error}"), hint)
        })?;
        let value = attribute.normalized_value(quick_xml::XmlVersion::Explicit1_0);
        let value = value.map_err(|_| {
            let hint =
                "maps use `&amp;`, `&lt;`, `&gt;`, `&quot;`, `&apos;` and numbers such as `&#233;`";
            Broken::new(
                None,
                "broken XML: this tag holds an entity that is not known",
                hint,
            )
        })?;
        read(attribute.key.as_ref(), &value)?;
    }
    Ok(())
}

fn whole(name: &str, text: &str) -> Result<i64, Broken> {
    text.trim().parse().map_err(|_| {
        let message = format!("`{name}` must be a whole number, not `{}`", short(text));
        Broken::new(None, message, "the file was damaged; fetch it again")
    })
}

fn degrees(name: &str, text: &str) -> Result<f64, Broken> {
    let number = text
        .trim()
        .parse::<f64>()
        .ok()
        .filter(|number| number.is_finite());
    number.ok_or_else(|| {
        let message = format!(
            "`{name}` must be a number of degrees, not `{}`",
            short(text)
        );
        Broken::new(None, message, "the file was damaged; fetch it again")
    })
}

fn place(lat_deg: f64, lon_deg: f64) -> Result<Place, Broken> {
    Place::new(lat_deg, lon_deg).ok_or_else(|| off_earth(lat_deg, lon_deg))
}

/// The fault of a place that is not on the earth.
pub(super) fn off_earth(lat_deg: f64, lon_deg: f64) -> Broken {
    let message = format!("latitude {lat_deg}, longitude {lon_deg} is no place on the earth");
    let hint = if Place::new(lon_deg, lat_deg).is_some() {
        "the two seem to be swapped: latitude is from -90 to 90, longitude from -180 to 180"
    } else {
        "latitude is from -90 to 90, longitude from -180 to 180"
    };
    Broken::new(None, message, hint)
}

fn short(text: &str) -> String {
    text.chars().take(40).collect()
}
