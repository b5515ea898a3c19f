//! A real course, as volunteers mapped it, in its three forms.

use std::io::Read;
use std::path::Path;

use costcard::course::import::{GreenFrom, Imported, LaidHole, Map, ParFrom, Turf};
use costcard::course::line::Line;
use costcard::course::plan::{Area, Ground, Plan};
use costcard::course::shape::Shape;
use costcard::course::{Course, Lie, Point};
use costcard::files::Source;
use flate2::read::GzDecoder;
use geo::{Geodesic, GeodesicArea, Length, LineString, Polygon};
use serde_json::Value;

use super::sketch::{map_of, only_course};
use crate::published::checks::Check;
use crate::support;

/// The text of the course in one form.
fn text(form: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join(format!("tests/import/data/heathland.{form}.gz"));
    let mut text = String::new();
    let file = std::fs::File::open(path).expect("the extract");
    GzDecoder::new(file)
        .read_to_string(&mut text)
        .expect("text");
    text
}

fn map(form: &str) -> Map {
    map_of(&text(form))
}

fn course() -> Imported {
    only_course(&map("osm"))
}

#[test]
fn its_three_forms_give_the_same_course() {
    let [xml, geojson, overpass] =
        ["osm", "geojson", "overpass.json"].map(|form| only_course(&map(form)));
    assert_eq!(xml.holes.len(), 18);
    // To a tenth of a yard, and in every word.
    let written = xml.to_toml(&Turf::default());
    assert!(
        written == geojson.to_toml(&Turf::default()),
        "GeoJSON differs"
    );
    assert!(
        written == overpass.to_toml(&Turf::default()),
        "Overpass JSON differs"
    );
}

#[test]
fn its_holes_pars_and_greens_are_found() {
    let course = course();
    // Source: counted on the map: pars of 17 holes add up to 66, hole 4 states none and is 393 yd long.
    let stated: u32 = course
        .holes
        .iter()
        .filter(|hole| hole.found.par_from == ParFrom::Tag)
        .map(|hole| u32::from(hole.found.par))
        .sum();
    assert_eq!((stated, course.par()), (66, 70));
    let fourth = &course.holes[3].found;
    assert_eq!(
        (fourth.number, fourth.par, fourth.par_from),
        (4, 4, ParFrom::Nodes)
    );
    assert!(
        course
            .holes
            .iter()
            .all(|hole| hole.found.green_from == GreenFrom::Outline)
    );
    let mut greens: Vec<String> = course
        .holes
        .iter()
        .map(|hole| format!("{:?}", hole.found.green_sq_yd))
        .collect();
    greens.sort();
    greens.dedup();
    assert_eq!(greens.len(), 18, "each its own");
    assert!(course.refused.is_empty(), "{:?}", course.refused);
    let indexes: std::collections::BTreeSet<_> = course
        .holes
        .iter()
        .filter_map(|hole| hole.found.stroke_index)
        .collect();
    assert_eq!(indexes, (1..=18).collect());
    for hole in &course.holes {
        let mut colours: Vec<&str> = hole
            .found
            .tees
            .iter()
            .flat_map(|tee| &tee.colours)
            .map(String::as_str)
            .collect();
        colours.sort_unstable();
        assert_eq!(
            colours,
            ["red", "white", "yellow"],
            "hole {}",
            hole.found.number
        );
    }
}

/// Features of the GeoJSON with a value of `golf`.
fn features(kind: &str) -> Vec<Value> {
    let document: Value = serde_json::from_str(&text("geojson")).expect("JSON");
    let all = document["features"].as_array().expect("features").clone();
    all.into_iter()
        .filter(|feature| feature["properties"]["golf"] == kind)
        .collect()
}

fn line(points: &Value) -> LineString<f64> {
    let points = points.as_array().expect("points").iter();
    points
        .map(|point| (point[0].as_f64().expect("x"), point[1].as_f64().expect("y")))
        .collect()
}

#[test]
fn lengths_are_those_on_the_ellipsoid() {
    let mut check = Check::new(
        module_path!(),
        "lengths of mapped holes, imported and written",
        "geodesics on WGS 84, C. F. F. Karney 2013",
    );
    let course = course();
    for feature in features("hole") {
        let number: u32 = feature["properties"]["ref"]
            .as_str()
            .expect("a number")
            .parse()
            .expect("a number");
        // Source: geodesics on WGS 84 by C. F. F. Karney, J. Geodesy 87 (2013), as the crate geographiclib-rs has them.
        let true_yd = Geodesic.length(&line(&feature["geometry"]["coordinates"])) / 0.9144;
        let hole = course
            .holes
            .iter()
            .find(|hole| hole.found.number == number)
            .expect("the hole");
        let allowed = (true_yd, 0.002 * true_yd);
        let name = format!("hole {number}");
        check.within(
            &format!("{name}, imported"),
            "yd",
            allowed,
            hole.found.length_yd,
        );
        let written: f64 = hole
            .laid
            .line
            .windows(2)
            .map(|pair| (pair[1].x_yd - pair[0].x_yd).hypot(pair[1].y_yd - pair[0].y_yd))
            .sum();
        check.within(&format!("{name}, written"), "yd", allowed, written);
    }
    assert_eq!(check.rows.len(), 2 * 18);
    check.told();
    check.hold();
}

#[test]
fn greens_on_the_grid_are_as_large_as_on_the_ellipsoid() {
    let mut check = Check::new(
        module_path!(),
        "areas of mapped greens, imported and on the grid",
        "geodesic areas of the same outlines on WGS 84",
    );
    let course = course();
    let read = support::course(&course.to_toml(&Turf::default()));
    for feature in features("green") {
        let name = feature["properties"]["name"]
            .as_str()
            .unwrap_or_default()
            .to_owned();
        let Some(number) = name
            .strip_prefix("Green")
            .and_then(|rest| rest.trim().parse::<u32>().ok())
        else {
            continue;
        };
        let outline = Polygon::new(line(&feature["geometry"]["coordinates"][0]), Vec::new());
        let true_sq_yd = outline.geodesic_area_signed().abs() / 0.9144_f64.powi(2);
        let at = course
            .holes
            .iter()
            .position(|hole| hole.found.number == number)
            .expect("the hole");
        let found = course.holes[at].found.green_sq_yd.expect("a green");
        let allowed = (true_sq_yd, 0.002 * true_sq_yd);
        check.within(&format!("{name}, imported"), "sq yd", allowed, found);
        let cells = read.holes[at]
            .grid
            .lies
            .iter()
            .filter(|lie| **lie == Lie::Green)
            .count() as f64;
        let allowed = (true_sq_yd, 0.02 * true_sq_yd);
        check.within(&format!("{name}, on the grid"), "sq yd", allowed, cells);
    }
    assert_eq!(check.rows.len(), 2 * 18);
    check.told();
    check.hold();
}

#[test]
fn bunkers_on_the_grid_are_as_large_as_their_outlines() {
    let course = course();
    let read = support::course(&course.to_toml(&Turf::default()));
    let (mut outlined, mut painted) = (0.0, 0);
    for (hole, read) in course.holes.iter().zip(&read.holes) {
        let sand = hole.laid.areas.iter().filter(|area| area.lie == Lie::Sand);
        outlined += sand
            .map(|area| shape(&area.rings).area_sq_yd())
            .sum::<f64>();
        painted += read
            .grid
            .lies
            .iter()
            .filter(|lie| **lie == Lie::Sand)
            .count();
    }
    assert!(
        (painted as f64 / outlined - 1.0).abs() < 0.02,
        "{painted} cells, {outlined} sq yd"
    );
}

fn shape(rings: &[Vec<Point>]) -> Shape {
    match rings {
        [outline] => Shape::Outline(outline.clone()),
        rings => Shape::Islands(rings.to_vec()),
    }
}

/// The ground of a tee.
pub fn teeing_area(tee: Point) -> Shape {
    let corners = [(-4.0, -5.0), (4.0, -5.0), (4.0, 5.0), (-4.0, 5.0)];
    let corner = |(x, y)| Point {
        x_yd: tee.x_yd + x,
        y_yd: tee.y_yd + y,
    };
    Shape::Outline(corners.map(corner).to_vec())
}

/// The plan of a hole as it was laid out, without a file between.
pub fn plan(hole: &LaidHole) -> Plan {
    let start = Point {
        x_yd: 0.0,
        y_yd: 0.0,
    };
    Plan {
        line: Line::through(&hole.line).expect("a line"),
        fairway: Vec::new(),
        rough_width_yd: 20.0,
        beyond: Lie::Rough,
        green: Shape::Outline(hole.green.clone().expect("a green")),
        tee: teeing_area(start),
        tees: hole.tees.iter().map(|tee| teeing_area(tee.point)).collect(),
        areas: hole
            .areas
            .iter()
            .map(|area| Area {
                lie: area.lie,
                ground: Ground::Shape(shape(&area.rings)),
            })
            .collect(),
    }
}

#[test]
fn the_written_course_read_back_is_the_same_course() {
    let course = course();
    let source = Source::new("heathland.toml", &course.to_toml(&Turf::default()));
    let read = Course::read(&source).unwrap_or_else(|faults| panic!("{faults}"));
    assert!(
        source
            .text
            .starts_with("# Map data © OpenStreetMap contributors, ODbL.")
    );
    assert_eq!(read.holes.len(), course.holes.len());
    for (hole, read) in course.holes.iter().zip(&read.holes) {
        let found = &hole.found;
        assert_eq!(
            (found.number, found.par, found.stroke_index),
            (read.number, read.par, read.stroke_index)
        );
        assert!(
            (found.length_yd - read.length_yd).abs() < 0.2,
            "hole {}",
            found.number
        );
        let near = |(a, b): (&Point, &Point)| (a.x_yd - b.x_yd).hypot(a.y_yd - b.y_yd) < 1e-9;
        assert_eq!(hole.laid.line.len(), read.line.len());
        assert!(
            hole.laid.line.iter().zip(&read.line).all(near),
            "hole {}",
            found.number
        );
        assert!(
            plan(&hole.laid).paint().as_ref() == Some(&read.grid),
            "the ground of hole {}",
            found.number
        );
    }
}

#[test]
fn its_coordinates_swapped_are_told() {
    let mut document: Value = serde_json::from_str(&text("geojson")).expect("JSON");
    swap(&mut document);
    let told = crate::bad_input::told(Map::of_text(&Source::new(
        "swapped.geojson",
        &document.to_string(),
    )));
    assert!(
        told.starts_with("swapped.geojson: latitude and longitude seem to be swapped"),
        "{told}"
    );
}

/// Swaps the two numbers of every position.
fn swap(value: &mut Value) {
    match value {
        Value::Array(list) if list.len() == 2 && list.iter().all(Value::is_number) => {
            list.reverse()
        }
        Value::Array(list) => list.iter_mut().for_each(swap),
        Value::Object(object) => object.values_mut().for_each(swap),
        _ => {}
    }
}
