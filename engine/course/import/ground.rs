//! Everything on the ground of one course, on a plane in yards: greens, tees, and areas of every lie.

use geo::orient::Direction;
use geo::{
    Area, BooleanOps, BoundingRect, Buffer, Centroid, Coord, Intersects, LineString, MultiPolygon,
    Orient, Polygon, Rect,
};

use super::flat::Plane;
use super::kind::{self, Kind, is_practice};
use super::map::{Feature, Form, Id, Map, Place};
use super::rings;
use crate::units::Length;

/// Ground beyond the holes that is looked at, degrees of latitude: about 300 yd.
const BEYOND_DEG: f64 = 0.0025;
/// Width of streams and ditches that state none, and of rivers and canals, metres. Assumed.
const STREAM_WIDTH_M: f64 = 2.0;
const RIVER_WIDTH_M: f64 = 8.0;
/// Width across of a tree's crown, or of a row of trees, where none is stated, metres. Assumed.
const CROWN_M: f64 = 6.0;
/// Of two areas of one kind that share this much of their ground one is a double.
const DOUBLE_SHARE: f64 = 0.8;
/// Sand that shares this much of its ground with bunkers is one of them.
const SAND_SHARE: f64 = 0.5;
/// Corners of a single tree's crown.
const CROWN_CORNERS: u32 = 8;

/// A green.
#[derive(Debug, Clone)]
pub(super) struct Green {
    pub(super) id: Id,
    pub(super) outline: Polygon<f64>,
    /// Whether it is one to practise on: by its name, or since it lies on a practice ground.
    pub(super) is_practice: bool,
}

/// A tee.
#[derive(Debug, Clone)]
pub(super) struct Tee {
    pub(super) middle: Coord<f64>,
    pub(super) outline: Option<Polygon<f64>>,
    pub(super) colours: Vec<String>,
    /// The hole it names.
    pub(super) number: Option<i64>,
}

/// An area of one lie.
#[derive(Debug, Clone)]
pub(super) struct Spread {
    pub(super) id: Id,
    pub(super) kind: Kind,
    pub(super) outline: Polygon<f64>,
}

/// The ground of one course.
#[derive(Debug, Default)]
pub(super) struct Ground {
    pub(super) greens: Vec<Green>,
    pub(super) tees: Vec<Tee>,
    pub(super) pins: Vec<Coord<f64>>,
    /// Bunkers, water, fairways, rough, woods and trees; without doubles.
    pub(super) spreads: Vec<Spread>,
    /// Lines beyond which is out of bounds.
    pub(super) boundaries: Vec<LineString<f64>>,
    /// What should be known of it.
    pub(super) notes: Vec<String>,
    /// Streams whose width is assumed.
    assumed_streams: usize,
    /// Areas of which the file lacks points.
    cut: usize,
}

impl Ground {
    /// The ground within reach of some places.
    pub(super) fn around(map: &Map, places: &[Place], plane: &Plane) -> Self {
        let reach = Reach::of(places);
        let mut ground = Self::default();
        let mut ranges: Vec<Polygon<f64>> = Vec::new();
        for feature in map.features.iter().filter(|feature| reach.meets(feature)) {
            if feature.kind == Kind::Range {
                ranges.extend(ground.polygons(feature, plane));
            } else {
                ground.add(feature, plane);
            }
        }
        for green in &mut ground.greens {
            let middle = green.outline.centroid();
            green.is_practice |=
                middle.is_some_and(|middle| ranges.iter().any(|range| range.intersects(&middle)));
        }
        ground.drop_doubles();
        ground.tell();
        ground
    }

    fn add(&mut self, feature: &Feature, plane: &Plane) {
        match (feature.kind, &feature.form) {
            (Kind::Hole | Kind::Course | Kind::Range, _) => {}
            (Kind::Pin, Form::Point(place)) => self.pins.push(plane.point(*place)),
            (Kind::Tee, _) => self.add_tee(feature, plane),
            (Kind::Green, _) => self.add_green(feature, plane),
            (Kind::Tree, Form::Point(place)) => self.add_tree(feature, plane.point(*place)),
            (Kind::WaterLine | Kind::TreeRow, Form::Line(places)) => {
                self.add_band(feature, &plane.line(places));
            }
            (Kind::OutOfBounds, Form::Line(places)) if places.first() != places.last() => {
                self.boundaries.push(plane.line(places));
            }
            (Kind::WaterLine, _) => self.spread(feature, Kind::Water, plane),
            (Kind::TreeRow | Kind::Tree, _) => self.spread(feature, Kind::Wood, plane),
            (kind, _) => self.spread(feature, kind, plane),
        }
    }

    fn spread(&mut self, feature: &Feature, kind: Kind, plane: &Plane) {
        let id = feature.id;
        let outlines = self.polygons(feature, plane);
        self.spreads.extend(
            outlines
                .into_iter()
                .map(|outline| Spread { id, kind, outline }),
        );
    }

    fn add_green(&mut self, feature: &Feature, plane: &Plane) {
        let id = feature.id;
        let is_practice = feature.tags.get("name").is_some_and(is_practice);
        for outline in self.polygons(feature, plane) {
            self.greens.push(Green {
                id,
                outline,
                is_practice,
            });
        }
    }

    fn add_tree(&mut self, feature: &Feature, middle: Coord<f64>) {
        let stated = feature.tags.get("diameter_crown").and_then(kind::metres);
        let crown = Length::from_m(stated.unwrap_or(CROWN_M).clamp(1.0, 30.0));
        let outline = disc(middle, crown.yd() / 2.0);
        self.spreads.push(Spread {
            id: feature.id,
            kind: Kind::Tree,
            outline,
        });
    }

    /// A stream or a row of trees, as wide as the map says or as assumed.
    fn add_band(&mut self, feature: &Feature, line: &LineString<f64>) {
        let id = feature.id;
        let is_water = feature.kind == Kind::WaterLine;
        let kind = if is_water { Kind::Water } else { Kind::Tree };
        let band = line.buffer(self.width(feature).yd() / 2.0);
        self.spreads
            .extend(band.into_iter().map(|outline| Spread { id, kind, outline }));
    }

    fn add_tee(&mut self, feature: &Feature, plane: &Plane) {
        let colours = kind::colours(&feature.tags);
        let named = || feature.tags.get("name").and_then(kind::number_in);
        let number = feature
            .tags
            .get("ref")
            .and_then(kind::number_in)
            .or_else(named);
        if let Form::Point(place) = feature.form {
            self.tees.push(Tee {
                middle: plane.point(place),
                outline: None,
                colours,
                number,
            });
            return;
        }
        for outline in self.polygons(feature, plane) {
            if let Some(middle) = outline.centroid() {
                let outline = Some(outline);
                self.tees.push(Tee {
                    middle: middle.0,
                    outline,
                    colours: colours.clone(),
                    number,
                });
            }
        }
    }

    /// The patches of a feature. A line that is not closed is closed with a straight side.
    fn polygons(&mut self, feature: &Feature, plane: &Plane) -> Vec<Polygon<f64>> {
        self.cut += usize::from(feature.lost_points > 0);
        let found: Vec<Polygon<f64>> = match &feature.form {
            Form::Point(_) => Vec::new(),
            Form::Area(patches) => patches.iter().map(|patch| plane.polygon(patch)).collect(),
            Form::Line(places) => {
                let outline = rings::outline(places.clone());
                if outline.is_some() && places.first() != places.last() && feature.lost_points == 0
                {
                    let label = feature.label();
                    self.notes.push(format!(
                        "the outline of {label} is not closed; a straight side closes it"
                    ));
                }
                outline
                    .map(|outline| Polygon::new(plane.line(&outline), Vec::new()))
                    .into_iter()
                    .collect()
            }
        };
        found
            .into_iter()
            .filter(|polygon| polygon.unsigned_area() > 0.0)
            .collect()
    }

    fn width(&mut self, feature: &Feature) -> Length {
        if feature.kind == Kind::TreeRow {
            return Length::from_m(CROWN_M);
        }
        let stated = feature
            .tags
            .get("width")
            .and_then(kind::metres)
            .filter(|width| (0.2..=200.0).contains(width));
        let is_river = matches!(
            feature.tags.get("waterway"),
            Some("river" | "canal" | "tidal_channel")
        );
        self.assumed_streams += usize::from(stated.is_none());
        Length::from_m(stated.unwrap_or(if is_river {
            RIVER_WIDTH_M
        } else {
            STREAM_WIDTH_M
        }))
    }

    /// Drops what is drawn twice: of two areas of one kind the later one, and sand that is a bunker.
    fn drop_doubles(&mut self) {
        let all = self.spreads.len() + self.greens.len();
        let (sands, others): (Vec<_>, Vec<_>) = std::mem::take(&mut self.spreads)
            .into_iter()
            .partition(|spread| spread.kind == Kind::Sand);
        for spread in others {
            let once = matches!(spread.kind, Kind::Bunker | Kind::Water | Kind::Fairway);
            let same = |other: &Spread| {
                other.kind == spread.kind && doubles(&spread.outline, &other.outline)
            };
            if !(once && self.spreads.iter().any(same)) {
                self.spreads.push(spread);
            }
        }
        for mut sand in sands {
            let bunkers = self
                .spreads
                .iter()
                .filter(|other| other.kind == Kind::Bunker);
            let shared: f64 = bunkers
                .map(|bunker| shared_sq_yd(&sand.outline, &bunker.outline))
                .sum();
            if shared <= SAND_SHARE * sand.outline.unsigned_area() {
                sand.kind = Kind::Bunker;
                self.spreads.push(sand);
            }
        }
        for green in std::mem::take(&mut self.greens) {
            let same = |other: &&mut Green| doubles(&green.outline, &other.outline);
            match self.greens.iter_mut().find(same) {
                Some(other) => other.is_practice |= green.is_practice,
                None => self.greens.push(green),
            }
        }
        let doubled = all - self.spreads.len() - self.greens.len();
        if doubled > 0 {
            self.notes.push(format!(
                "areas drawn twice on the map (as sand over a bunker) count once: {doubled}"
            ));
        }
    }

    /// Says what is assumed or lost.
    fn tell(&mut self) {
        if self.assumed_streams > 0 {
            let count = self.assumed_streams;
            let which = if count == 1 {
                "one stream or river has".to_owned()
            } else {
                format!("{count} streams or rivers have")
            };
            self.notes.push(format!(
                "{which} no width on the map: streams are taken as {STREAM_WIDTH_M} m wide, rivers as {RIVER_WIDTH_M} m"
            ));
        }
        if self.cut > 0 {
            self.notes.push(format!(
                "areas of which the file lacks points, closed with a straight side: {}",
                self.cut
            ));
        }
    }
}

/// Whether two areas are the same ground.
fn doubles(a: &Polygon<f64>, b: &Polygon<f64>) -> bool {
    let (area_a, area_b) = (a.unsigned_area(), b.unsigned_area());
    area_a.min(area_b) > DOUBLE_SHARE * area_a.max(area_b)
        && shared_sq_yd(a, b) > DOUBLE_SHARE * area_a.max(area_b)
}

/// The ground two areas share, square yards.
pub(super) fn shared_sq_yd(a: &Polygon<f64>, b: &Polygon<f64>) -> f64 {
    let near = a
        .bounding_rect()
        .zip(b.bounding_rect())
        .is_some_and(|(a, b)| a.intersects(&b));
    if near {
        a.intersection(b).unsigned_area()
    } else {
        0.0
    }
}

/// The crown of a tree: an outline of equal sides as large as the circle.
fn disc(middle: Coord<f64>, radius_yd: f64) -> Polygon<f64> {
    let turn = std::f64::consts::TAU / f64::from(CROWN_CORNERS);
    let reach_yd = radius_yd * (turn / turn.sin()).sqrt();
    let corner = |step: u32| {
        let (sin, cos) = (turn * (f64::from(step) + 0.5)).sin_cos();
        Coord {
            x: middle.x + reach_yd * sin,
            y: middle.y + reach_yd * cos,
        }
    };
    Polygon::new((0..CROWN_CORNERS).map(corner).collect(), Vec::new())
}

/// The ground within reach of a course, in degrees.
struct Reach(Rect<f64>);

impl Reach {
    fn of(places: &[Place]) -> Self {
        let line: LineString<f64> = places
            .iter()
            .map(|place| (place.lon_deg, place.lat_deg))
            .collect();
        let rect = line
            .bounding_rect()
            .unwrap_or_else(|| Rect::new((0.0, 0.0), (0.0, 0.0)));
        let cos = rect.center().y.to_radians().cos().max(0.01);
        let (dx, dy) = (BEYOND_DEG / cos, BEYOND_DEG);
        Self(Rect::new(
            (rect.min().x - dx, rect.min().y - dy),
            (rect.max().x + dx, rect.max().y + dy),
        ))
    }

    fn meets(&self, feature: &Feature) -> bool {
        let line: LineString<f64> = feature
            .form
            .places()
            .map(|place| (place.lon_deg, place.lat_deg))
            .collect();
        line.bounding_rect()
            .is_some_and(|rect| rect.intersects(&self.0))
    }
}

/// Areas that touch made one.
pub(super) fn merged<'a>(areas: impl IntoIterator<Item = &'a Polygon<f64>>) -> MultiPolygon<f64> {
    // Outlines that wind in different directions would take each other away.
    let areas = areas
        .into_iter()
        .map(|area| area.orient(Direction::Default));
    geo::unary_union(&areas.collect::<Vec<_>>())
}
