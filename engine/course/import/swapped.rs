//! Latitude and longitude written in the wrong order.
//!
//! Away from the equator a degree of longitude is shorter than one of latitude. With the two swapped, everything is drawn
//! out along one of them; greens, bunkers and tees, which lie in all directions, then do so no longer.

use super::input::Broken;
use super::kind::Kind;
use super::map::{Map, Place};

/// The fewest shapes that can tell.
const FEWEST: usize = 20;
/// Of the spread of ordinary shapes about half runs east and west: 0.48 to 0.52 on three real courses. One farther off
/// than the first is drawn out; one nearer than the second is not.
const DRAWN_OUT: f64 = 0.12;
const EVEN: f64 = 0.07;

/// Refuses a map whose shapes are drawn out, and would not be with latitude and longitude swapped.
pub(super) fn check(map: &Map) -> Result<(), Broken> {
    let as_read = east_share(map, |place| (place.lat_deg, place.lon_deg));
    let swapped = east_share(map, |place| (place.lon_deg, place.lat_deg));
    let (Some(as_read), Some(swapped)) = (as_read, swapped) else {
        return Ok(());
    };
    if (as_read - 0.5).abs() <= DRAWN_OUT || (swapped - 0.5).abs() >= EVEN {
        return Ok(());
    }
    let message = "latitude and longitude seem to be swapped: all greens, bunkers and tees are drawn out in one direction";
    let hint = "GeoJSON gives the longitude first: `[-0.58, 52.61]`";
    Err(Broken::new(None, message, hint))
}

/// The mean share of the spread of greens, bunkers and tees that runs east and west; none where there are too few.
fn east_share(map: &Map, read: impl Fn(Place) -> (f64, f64)) -> Option<f64> {
    let kinds = [Kind::Green, Kind::Bunker, Kind::Tee];
    let shapes = map
        .features
        .iter()
        .filter(|feature| kinds.contains(&feature.kind));
    let shares: Vec<f64> = shapes
        .filter_map(|feature| {
            let points: Vec<(f64, f64)> = feature.form.places().map(&read).collect();
            share(&points)
        })
        .collect();
    let count = shares.len();
    (count >= FEWEST).then(|| shares.iter().sum::<f64>() / count as f64)
}

/// The share of the spread of points, as latitude and longitude, that runs east and west.
fn share(points: &[(f64, f64)]) -> Option<f64> {
    let count = points.len() as f64;
    let lat_deg = points.iter().map(|(lat, _)| lat).sum::<f64>() / count;
    let lon_deg = points.iter().map(|(_, lon)| lon).sum::<f64>() / count;
    let scale = lat_deg.to_radians().cos();
    let north: f64 = points.iter().map(|(lat, _)| (lat - lat_deg).powi(2)).sum();
    let east: f64 = points
        .iter()
        .map(|(_, lon)| ((lon - lon_deg) * scale).powi(2))
        .sum();
    (points.len() > 3 && north + east > 0.0).then(|| east / (north + east))
}
