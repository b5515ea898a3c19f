//! Small maps drawn in metres east and north of a place in the ocean, and written in each of the forms.

use std::fmt::Write as _;

use costcard::course::import::{ImportError, Imported, Map, Options, Survey};
use costcard::files::Source;
use serde_json::{Value, json};

const LAT_DEG: f64 = 38.0;
const LON_DEG: f64 = -38.0;

/// A point, metres east and north.
pub type Spot = (f64, f64);

#[derive(Debug, Clone)]
enum Form {
    Node(Spot),
    Line(Vec<Spot>),
    /// Outlines, then islands.
    Multi(Vec<Vec<Spot>>, Vec<Vec<Spot>>),
}

/// A map being drawn.
#[derive(Debug, Clone, Default)]
pub struct Sketch(Vec<(Vec<(String, String)>, Form)>);

impl Sketch {
    /// Adds a point.
    pub fn node(mut self, at: Spot, tags: &str) -> Self {
        self.0.push((parsed(tags), Form::Node(at)));
        self
    }

    /// Adds a line.
    pub fn line(mut self, points: &[Spot], tags: &str) -> Self {
        self.0.push((parsed(tags), Form::Line(points.to_vec())));
        self
    }

    /// Adds a closed outline.
    pub fn area(self, points: &[Spot], tags: &str) -> Self {
        let mut closed = points.to_vec();
        closed.push(points[0]);
        self.line(&closed, tags)
    }

    /// Adds a disc: 24 corners.
    pub fn disc(self, (x, y): Spot, radius: f64, tags: &str) -> Self {
        self.area(&circle((x, y), radius), tags)
    }

    /// Adds an area with islands.
    pub fn multi(mut self, outlines: &[Vec<Spot>], islands: &[Vec<Spot>], tags: &str) -> Self {
        self.0.push((
            parsed(tags),
            Form::Multi(outlines.to_vec(), islands.to_vec()),
        ));
        self
    }

    /// A hole with a round green of 13 m, a fairway and a tee.
    pub fn hole(self, number: i64, line: &[Spot], more: &str) -> Self {
        let (start, end) = (line[0], line[line.len() - 1]);
        let (dx, dy) = (end.0 - start.0, end.1 - start.1);
        let length = dx.hypot(dy);
        let (dx, dy) = (dx / length, dy / length);
        let side = |from: f64, right: f64| {
            (
                start.0 + from * dx + right * dy,
                start.1 + from * dy - right * dx,
            )
        };
        let fairway = [
            side(0.3 * length, -16.0),
            side(0.95 * length, -16.0),
            side(0.95 * length, 16.0),
            side(0.3 * length, 16.0),
        ];
        self.line(line, &format!("golf=hole|ref={number}|{more}"))
            .disc(end, 13.0, "golf=green")
            .area(&fairway, "golf=fairway")
            .disc(start, 4.0, &format!("golf=tee|tee=white|ref={number}"))
    }

    /// As OSM XML, with negative ids where asked, and the nodes last where asked.
    pub fn xml(&self, sign: i64, nodes_last: bool) -> String {
        let (mut nodes, mut ways, mut relations) = (String::new(), String::new(), String::new());
        let mut next = 0;
        for (tags, form) in &self.0 {
            let tags: String = tags
                .iter()
                .map(|(key, value)| format!("<tag k=\"{key}\" v=\"{value}\"/>"))
                .collect();
            let mut way = |points: &[Spot], tags: &str| {
                let mut refs = Vec::new();
                let open = if points.first() == points.last() {
                    &points[..points.len() - 1]
                } else {
                    points
                };
                for point in open {
                    next += sign;
                    let (lat, lon) = place(*point);
                    let _ = writeln!(
                        nodes,
                        "<node id=\"{next}\" lat=\"{lat:.7}\" lon=\"{lon:.7}\"/>"
                    );
                    refs.push(next);
                }
                if open.len() < points.len() {
                    refs.push(refs[0]);
                }
                next += sign;
                let refs: String = refs
                    .iter()
                    .map(|node| format!("<nd ref=\"{node}\"/>"))
                    .collect();
                let _ = writeln!(ways, "<way id=\"{next}\">{refs}{tags}</way>");
                next
            };
            match form {
                Form::Node(point) => {
                    let (lat, lon) = place(*point);
                    next += sign;
                    let _ = writeln!(
                        nodes,
                        "<node id=\"{next}\" lat=\"{lat:.7}\" lon=\"{lon:.7}\">{tags}</node>"
                    );
                }
                Form::Line(points) => {
                    way(points, &tags);
                }
                Form::Multi(outlines, islands) => {
                    let mut members = String::new();
                    for (rings, role) in [(outlines, "outer"), (islands, "inner")] {
                        for ring in rings {
                            let number = way(&closed(ring), "");
                            let _ = write!(
                                members,
                                "<member type=\"way\" ref=\"{number}\" role=\"{role}\"/>"
                            );
                        }
                    }
                    let _ = writeln!(
                        relations,
                        "<relation id=\"{}\">{members}<tag k=\"type\" v=\"multipolygon\"/>{tags}</relation>",
                        next + sign
                    );
                    next += sign;
                }
            }
        }
        let body = if nodes_last {
            [ways, relations, nodes]
        } else {
            [nodes, ways, relations]
        };
        format!(
            "<?xml version=\"1.0\"?>\n<osm version=\"0.6\">\n{}</osm>\n",
            body.concat()
        )
    }

    /// As Overpass JSON with its places in place.
    pub fn overpass(&self) -> String {
        let spots = |points: &[Spot]| -> Vec<Value> {
            points
                .iter()
                .map(|point| place(*point))
                .map(|(lat, lon)| json!({"lat": rounded(lat), "lon": rounded(lon)}))
                .collect()
        };
        let mut elements = Vec::new();
        for (number, (tags, form)) in (1..).zip(&self.0) {
            let mut tags = map(tags);
            elements.push(match form {
                Form::Node(point) => {
                    let (lat, lon) = place(*point);
                    json!({"type": "node", "id": number, "lat": rounded(lat), "lon": rounded(lon), "tags": tags})
                }
                Form::Line(points) => json!({"type": "way", "id": number, "geometry": spots(points), "tags": tags}),
                Form::Multi(outlines, islands) => {
                    tags.insert("type".to_owned(), json!("multipolygon"));
                    let member = |role: &'static str| move |ring: &Vec<Spot>| json!({"type": "way", "ref": 0, "role": role, "geometry": spots(&closed(ring))});
                    let members: Vec<Value> = outlines.iter().map(member("outer")).chain(islands.iter().map(member("inner"))).collect();
                    json!({"type": "relation", "id": number, "members": members, "tags": tags})
                }
            });
        }
        json!({"version": 0.6, "elements": elements}).to_string()
    }

    /// As GeoJSON, rings wound with or against the clock, tags flat or under `tags`.
    pub fn geojson(&self, reversed: bool, nested: bool) -> String {
        let spots = |points: &[Spot]| -> Vec<[f64; 2]> {
            let mut spots: Vec<[f64; 2]> = points
                .iter()
                .map(|point| place(*point))
                .map(|(lat, lon)| [rounded(lon), rounded(lat)])
                .collect();
            if reversed && points.first() == points.last() {
                spots.reverse();
            }
            spots
        };
        let mut features = Vec::new();
        for (number, (tags, form)) in (1..).zip(&self.0) {
            let is_area = !tags.iter().any(|(key, value)| {
                key == "waterway" || value == "hole" || value == "out_of_bounds"
            });
            let (element, geometry) = match form {
                Form::Node(point) => (
                    "node",
                    json!({"type": "Point", "coordinates": spots(&[*point])[0]}),
                ),
                Form::Line(points) if points.first() == points.last() && is_area => (
                    "way",
                    json!({"type": "Polygon", "coordinates": [spots(points)]}),
                ),
                Form::Line(points) => (
                    "way",
                    json!({"type": "LineString", "coordinates": spots(points)}),
                ),
                Form::Multi(outlines, islands) => {
                    let mut rings = vec![spots(&closed(&outlines[0]))];
                    rings.extend(islands.iter().map(|ring| spots(&closed(ring))));
                    ("relation", json!({"type": "Polygon", "coordinates": rings}))
                }
            };
            let properties = if nested {
                json!({"tags": map(tags)})
            } else {
                Value::Object(map(tags))
            };
            features.push(json!({"type": "Feature", "id": format!("{element}/{number}"), "properties": properties, "geometry": geometry}));
        }
        json!({"type": "FeatureCollection", "bbox": [-180, -90, 180, 90], "features": features})
            .to_string()
    }

    /// The map.
    pub fn map(&self) -> Map {
        map_of(&self.xml(1, false))
    }

    /// The only course of the map.
    pub fn course(&self) -> Imported {
        only_course(&self.map())
    }
}

/// A map from its text.
pub fn map_of(text: &str) -> Map {
    Map::of_text(&Source::new("map", text)).unwrap_or_else(|faults| panic!("{faults}"))
}

/// The only course of a map.
pub fn only_course(map: &Map) -> Imported {
    let survey = Survey::of(map);
    assert_eq!(survey.courses().len(), 1, "{:?}", survey.courses());
    import(map, 0, Options::default()).unwrap_or_else(|error| panic!("{error:?}"))
}

/// A course of a map.
pub fn import(map: &Map, at: usize, options: Options<'_>) -> Result<Imported, ImportError> {
    Survey::of(map).import(at, options)
}

/// The corners of a disc.
pub fn circle((x, y): Spot, radius: f64) -> Vec<Spot> {
    let turn = std::f64::consts::TAU / 24.0;
    let corner = |step: u32| {
        let (sin, cos) = (turn * f64::from(step)).sin_cos();
        (x + radius * cos, y + radius * sin)
    };
    (0..24).map(corner).collect()
}

fn closed(ring: &[Spot]) -> Vec<Spot> {
    let mut closed = ring.to_vec();
    closed.push(ring[0]);
    closed
}

/// Latitude and longitude, degrees: 111 km to a degree is near enough, since tests measure what was written.
fn place((x, y): Spot) -> (f64, f64) {
    (
        LAT_DEG + y / 110_990.0,
        LON_DEG + x / (111_320.0 * LAT_DEG.to_radians().cos()),
    )
}

fn rounded(degrees: f64) -> f64 {
    (degrees * 1e7).round() / 1e7
}

fn parsed(tags: &str) -> Vec<(String, String)> {
    let pairs = tags.split('|').filter_map(|pair| pair.split_once('='));
    pairs
        .map(|(key, value)| (key.to_owned(), value.to_owned()))
        .collect()
}

fn map(tags: &[(String, String)]) -> serde_json::Map<String, Value> {
    tags.iter()
        .map(|(key, value)| (key.clone(), json!(value)))
        .collect()
}
