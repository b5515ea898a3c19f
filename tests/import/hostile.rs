//! Maps that are broken, hostile, or no maps at all: a clear message, in bounded time and memory.

use std::io::Write;
use std::time::{Duration, Instant};

use costcard::course::Course;
use costcard::course::import::{Map, Options, Survey, Turf};
use costcard::files::Source;
use insta::assert_snapshot;
use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};

use super::sketch::Sketch;

fn told(text: &str) -> String {
    crate::bad_input::told(Map::of_text(&Source::new("map", text)))
}

/// What is told of each of some texts.
fn told_each(texts: &[&str]) -> String {
    let each: Vec<String> = texts.iter().map(|text| told(text)).collect();
    each.join("\n\n")
}

#[test]
fn what_is_no_map_is_told() {
    assert_snapshot!(told_each(&[
        "",
        "name = \"Links\"\n",
        "<html><body/></html>",
        "{\"name\": \"Links\"}",
        "[1, 2]",
        "\u{1f}\u{8b}packed",
        "\u{0}\u{0}\u{0}\u{d}\nOSMHeader",
    ]));
}

/// However little stands in it, a map that is whole is not told to be cut off.
#[test]
fn an_empty_map_is_whole_in_either_form() {
    assert_eq!(told("<osm/>"), told("<osm></osm>"));
}

#[test]
fn broken_maps_are_pointed_at() {
    assert_snapshot!(told_each(&[
        "<osm>\n <node id=\"1\" lat=\"52\" lon=\"0\"/>\n <way id=\"2\">\n  <nd ref=\"1\"/>\n",
        "<osm>\n <node id=\"1\" lat=\"52\" lon=\"east\"/>\n</osm>",
        "<osm>\n <node id=\"1\" lat=\"NaN\" lon=\"1\"/>\n</osm>",
        "<osm>\n <node lat=\"5\" lon=\"1\"/>\n</osm>",
        "<osm>\n <node id=\"1\" lat=\"5\" lon=\"1\"></way>\n</osm>",
        "{\"elements\": [\n {\"type\": \"node\", \"id\": 1, \"lat\": 52.0,\n",
        "{\"elements\": [\n {\"type\": \"node\", \"id\": 1, \"lat\": \"north\"}\n]}",
        "{\"features\": [\n {\"type\": \"Feature\", \"properties\": {\"golf\": \"hole\"}, \"geometry\": {\"type\": \"Square\"}}\n]}",
    ]));
}

#[test]
fn places_off_the_earth_and_swapped_ones_are_told() {
    assert_snapshot!(told_each(&[
        "<osm>\n <node id=\"1\" lat=\"-110.5\" lon=\"40.2\"/>\n</osm>",
        "<osm>\n <node id=\"1\" lat=\"400\" lon=\"400\"/>\n</osm>",
        "{\"features\": [{\"type\": \"Feature\", \"properties\": {\"golf\": \"pin\"},\n \"geometry\": {\"type\": \"Point\", \"coordinates\": [40.2, -110.5]}}]}",
    ]));
}

#[test]
fn entities_and_deep_nesting_are_refused() {
    let laughs = "<?xml version=\"1.0\"?>\n<!DOCTYPE osm [<!ENTITY a \"ha\"><!ENTITY b \"&a;&a;&a;\">]>\n<osm><node id=\"1\" lat=\"1\" lon=\"1\"><tag k=\"name\" v=\"&b;\"/></node></osm>";
    let unknown =
        "<osm>\n<node id=\"1\" lat=\"1\" lon=\"1\"><tag k=\"name\" v=\"&b;\"/></node></osm>";
    assert_snapshot!(told_each(&[laughs, unknown]));
    let deep = format!("<osm>\n{}", "<a>".repeat(200_000));
    let told_of_deep = told(&deep);
    assert!(
        told_of_deep.contains("deeper in each other than in any map"),
        "{told_of_deep}"
    );
    let properties = "{\"features\": [{\"type\": \"Feature\", \"properties\": {\"a\": ";
    let nested = told(&format!("{properties}{}", "[".repeat(200_000)));
    assert!(nested.contains("recursion limit"), "{nested}");
}

#[test]
fn a_map_cut_off_anywhere_is_told_and_nothing_panics() {
    let sketch = Sketch::default().hole(1, &[(0.0, 0.0), (0.0, 300.0)], "par=4");
    for whole in [
        sketch.xml(1, false),
        sketch.overpass(),
        sketch.geojson(false, false),
    ] {
        let end = whole.trim_end().len();
        for cut in (0..end).step_by(97) {
            let told = told(&whole[..cut]);
            assert_ne!(told, "no fault", "cut at {cut} of {end}");
        }
    }
}

#[test]
fn a_map_with_bytes_changed_never_panics_and_what_is_written_can_be_read() {
    let sketch = Sketch::default()
        .hole(1, &[(0.0, 0.0), (40.0, 180.0), (0.0, 340.0)], "par=4")
        .disc((25.0, 200.0), 9.0, "golf=bunker");
    let mut random = ChaCha8Rng::seed_from_u64(7);
    let mut imported = 0;
    for whole in [
        sketch.xml(1, false),
        sketch.overpass(),
        sketch.geojson(false, false),
    ] {
        for _ in 0..150 {
            let mut bytes = whole.clone().into_bytes();
            for _ in 0..3 {
                let at = random.random_range(0..bytes.len());
                // A digit becomes another, so that most of these maps still are maps.
                let to = if bytes[at].is_ascii_digit() {
                    b'0'..b'9' + 1
                } else if random.random_bool(0.1) {
                    32..127
                } else {
                    bytes[at]..bytes[at] + 1
                };
                bytes[at] = random.random_range(to);
            }
            let text = String::from_utf8(bytes).expect("ASCII");
            let Ok(map) = Map::of_text(&Source::new("map", &text)) else {
                continue;
            };
            let survey = Survey::of(&map);
            for at in 0..survey.courses().len() {
                if let Ok(course) = survey.import(at, Options::default()) {
                    let source = Source::new("course.toml", &course.to_toml(&Turf::default()));
                    Course::read(&source).unwrap_or_else(|faults| panic!("{faults}\n{text}"));
                    imported += 1;
                }
            }
        }
    }
    assert!(imported > 100, "{imported}");
}

/// Writes a map of so many nodes and nothing else to play.
fn write_nodes(file: &mut impl Write, nodes: u32) {
    writeln!(file, "<osm version=\"0.6\">").expect("written");
    for number in 1..=nodes {
        let lon = f64::from(number) * 1e-5;
        writeln!(file, "<node id=\"{number}\" lat=\"52.0\" lon=\"{lon:.7}\" version=\"1\" visible=\"true\" changeset=\"1\"/>").expect("written");
    }
    writeln!(file, "</osm>").expect("written");
}

#[test]
fn a_million_nodes_are_read_in_seconds() {
    let mut file = tempfile::NamedTempFile::new().expect("a file");
    write_nodes(&mut file, 1_000_000);
    let start = Instant::now();
    let map = Map::read(file.path()).unwrap_or_else(|faults| panic!("{faults}"));
    assert!(map.features.is_empty());
    // A second on a quiet machine; the limit is for one that is not.
    assert!(
        start.elapsed() < Duration::from_secs(20),
        "{:?}",
        start.elapsed()
    );
}
