//! One map in its three forms, and what each form may do.

use costcard::course::import::{Survey, Turf};

use super::sketch::{Sketch, circle, map_of, only_course};

/// Two holes with a bit of everything.
fn course() -> Sketch {
    Sketch::default()
        .hole(
            1,
            &[(0.0, 0.0), (10.0, 200.0), (60.0, 350.0)],
            "par=4|handicap=1",
        )
        .hole(2, &[(90.0, 350.0), (230.0, 340.0)], "par=3")
        .multi(
            &[circle((150.0, 300.0), 25.0)],
            &[circle((150.0, 300.0), 8.0)],
            "golf=bunker",
        )
        .disc((30.0, 120.0), 9.0, "golf=bunker")
        .line(
            &[(-60.0, 60.0), (20.0, 70.0), (100.0, 55.0)],
            "waterway=stream|width=3",
        )
        .node((25.0, 160.0), "natural=tree")
        .area(
            &[(-80.0, 0.0), (-40.0, 0.0), (-40.0, 300.0), (-80.0, 280.0)],
            "natural=wood",
        )
}

#[test]
fn all_forms_of_a_map_give_the_same_file() {
    let sketch = course();
    let file = |text: &str| {
        let text = only_course(&map_of(text)).to_toml(&Turf::default());
        // Numbers of ways differ from form to form.
        let without_ids = text
            .lines()
            .filter(|line| !line.trim_start().starts_with('#'));
        without_ids.collect::<Vec<_>>().join("\n")
    };
    let xml = file(&sketch.xml(1, false));
    assert_eq!(xml, file(&sketch.xml(1, true)), "nodes may follow ways");
    assert_eq!(xml, file(&sketch.xml(-1, false)), "ids may be negative");
    assert_eq!(xml, file(&sketch.overpass()));
    assert_eq!(xml, file(&sketch.geojson(false, false)));
    assert_eq!(
        xml,
        file(&sketch.geojson(true, false)),
        "rings may wind either way"
    );
    assert_eq!(
        xml,
        file(&sketch.geojson(false, true)),
        "tags may stand under `tags`"
    );
    assert!(xml.contains("islands_yd"), "{xml}");
}

/// What was clipped, or taken apart, comes as several features of one id; what lies in two extracts comes twice.
#[test]
fn features_of_one_id_are_one_only_where_they_lie_alike() {
    let ring = |lon: f64, lat: f64| {
        let corner = |(x, y): (f64, f64)| format!("[{},{}]", lon + x, lat + y);
        let corners = [
            (0.0, 0.0),
            (2e-4, 0.0),
            (2e-4, 1e-4),
            (0.0, 1e-4),
            (0.0, 0.0),
        ];
        corners.map(corner).join(",")
    };
    let feature = |ring: &str| {
        format!(
            "{{\"type\":\"Feature\",\"id\":\"way/77\",\"properties\":{{\"golf\":\"bunker\"}},\
             \"geometry\":{{\"type\":\"Polygon\",\"coordinates\":[[{ring}]]}}}}"
        )
    };
    let with = |features: &[String]| {
        let more = format!("\"features\":[{},", features.join(","));
        let text = course()
            .geojson(false, false)
            .replacen("\"features\":[", &more, 1);
        map_of(&text).features.len()
    };
    let [one, other] = [ring(7.0, 50.0), ring(7.001, 50.0)].map(|ring| feature(&ring));
    let once = with(std::slice::from_ref(&one));
    assert_eq!(with(&[one.clone(), one.clone()]), once);
    assert_eq!(with(&[one, other]), once + 1);
}

#[test]
fn null_geometry_is_left_out_and_told() {
    let text = course().geojson(false, false).replacen(
        "\"features\":[",
        "\"features\":[{\"type\":\"Feature\",\"properties\":{\"golf\":\"green\",\"ref\":\"9\"},\"geometry\":null},",
        1,
    );
    let map = map_of(&text);
    assert_eq!(map.shapeless, ["green 9 (feature 1)"]);
    let course = only_course(&map);
    assert_eq!(course.holes.len(), 2);
    assert!(
        course.refused[0].why.contains("no shape"),
        "{:?}",
        course.refused
    );
}

#[test]
fn a_map_of_middle_points_only_has_no_shapes() {
    let text = r#"{"elements": [
        {"type": "way", "id": 5, "center": {"lat": 38.0, "lon": -38.0}, "tags": {"golf": "hole", "ref": "1"}},
        {"type": "way", "id": 6, "center": {"lat": 38.0, "lon": -38.0}, "tags": {"golf": "green"}}
    ]}"#;
    let map = map_of(text);
    assert!(map.features.is_empty());
    let survey = Survey::of(&map);
    assert!(survey.courses().is_empty());
    assert!(
        survey
            .refused()
            .iter()
            .all(|refused| refused.why.contains("out geom")),
        "{:?}",
        survey.refused()
    );
    assert_eq!(survey.refused().len(), 2);
}

#[test]
fn tags_on_the_outer_way_and_on_the_relation_count_once() {
    let xml = |on_way: &str, on_relation: &str| {
        let sketch = Sketch::default().hole(1, &[(0.0, 0.0), (0.0, 300.0)], "par=4");
        let bunker = Sketch::default().multi(
            &[circle((20.0, 150.0), 9.0)],
            &[circle((20.0, 150.0), 3.0)],
            "",
        );
        let inner = bunker.xml(1000, false);
        let body = inner
            .split_once("0.6\">\n")
            .expect("a body")
            .1
            .replace("</osm>\n", "");
        // The outer way comes first.
        let body = body.replacen("</way>", &format!("{on_way}</way>"), 1);
        let body = body.replace("<tag k=\"type\"", &format!("{on_relation}<tag k=\"type\""));
        sketch
            .xml(1, false)
            .replace("</osm>", &format!("{body}</osm>"))
    };
    let tag = "<tag k=\"golf\" v=\"bunker\"/>";
    for (on_way, on_relation) in [("", tag), (tag, ""), (tag, tag)] {
        let course = only_course(&map_of(&xml(on_way, on_relation)));
        let sand: Vec<usize> = course.holes[0]
            .laid
            .areas
            .iter()
            .filter(|area| area.origin.starts_with("bunker"))
            .map(|area| area.rings.len())
            .collect();
        assert_eq!(
            sand,
            [2],
            "{on_way:?} {on_relation:?}: one bunker with one island"
        );
    }
}

#[test]
fn elements_marked_as_deleted_are_left_out() {
    let xml = course().xml(1, false);
    let deleted = xml.replacen("<way id", "<way action=\"delete\" id", 1);
    assert_eq!(Survey::of(&map_of(&xml)).courses()[0].1, 2);
    assert_eq!(Survey::of(&map_of(&deleted)).courses()[0].1, 1);
}
