//! From latitude and longitude to yards on a plane that touches the earth in the middle of the course.
//!
//! Through earth-centred coordinates to east and north of the middle; heights are left out. Source: the ellipsoid of
//! WGS 84, NIMA TR8350.2 (2000).

use geo::{Coord, LineString, Polygon};

use super::map::{Patch, Place};
use crate::units::Length;

/// Half the long axis of the ellipsoid, metres, and the square of its eccentricity.
const SEMI_MAJOR_M: f64 = 6_378_137.0;
const ECCENTRICITY_SQUARED: f64 = 6.694_379_990_14e-3;

/// The plane: x to the east, y to the north, yards.
#[derive(Debug, Clone, Copy)]
pub(super) struct Plane {
    middle: Place,
    middle_m: [f64; 3],
}

impl Plane {
    /// The plane that touches the earth at a place.
    pub(super) fn at(middle: Place) -> Self {
        Self {
            middle,
            middle_m: from_centre_m(middle),
        }
    }

    /// A place on the plane.
    pub(super) fn point(&self, place: Place) -> Coord<f64> {
        let [x, y, z] = from_centre_m(place);
        let [dx, dy, dz] = [
            x - self.middle_m[0],
            y - self.middle_m[1],
            z - self.middle_m[2],
        ];
        let (sin_lat, cos_lat) = self.middle.lat_deg.to_radians().sin_cos();
        let (sin_lon, cos_lon) = self.middle.lon_deg.to_radians().sin_cos();
        let outwards = cos_lon * dx + sin_lon * dy;
        Coord {
            x: Length::from_m(cos_lon * dy - sin_lon * dx).yd(),
            y: Length::from_m(cos_lat * dz - sin_lat * outwards).yd(),
        }
    }

    /// A line on the plane.
    pub(super) fn line(&self, places: &[Place]) -> LineString<f64> {
        LineString(places.iter().map(|place| self.point(*place)).collect())
    }

    /// An area on the plane.
    pub(super) fn polygon(&self, patch: &Patch) -> Polygon<f64> {
        let islands = patch
            .islands
            .iter()
            .map(|island| self.line(island))
            .collect();
        Polygon::new(self.line(&patch.outline), islands)
    }
}

/// A place on the ellipsoid from the middle of the earth, metres.
fn from_centre_m(place: Place) -> [f64; 3] {
    let (sin_lat, cos_lat) = place.lat_deg.to_radians().sin_cos();
    let (sin_lon, cos_lon) = place.lon_deg.to_radians().sin_cos();
    let normal_m = SEMI_MAJOR_M / (1.0 - ECCENTRICITY_SQUARED * sin_lat * sin_lat).sqrt();
    [
        normal_m * cos_lat * cos_lon,
        normal_m * cos_lat * sin_lon,
        normal_m * (1.0 - ECCENTRICITY_SQUARED) * sin_lat,
    ]
}

/// The straight distance between two places, metres: over the length of a hole that along the ground, to a millimetre.
pub(super) fn apart_m(a: Place, b: Place) -> f64 {
    let (a, b) = (from_centre_m(a), from_centre_m(b));
    a.iter()
        .zip(b)
        .map(|(a, b)| (a - b).powi(2))
        .sum::<f64>()
        .sqrt()
}

/// The length of a line, metres.
pub(super) fn length_m(places: &[Place]) -> f64 {
    places
        .windows(2)
        .map(|pair| apart_m(pair[0], pair[1]))
        .sum()
}
