//! The flight of a club's usual strike, seen from the side.

use crate::ball::air::{Air, Atmosphere};
use crate::ball::flight::{fly, path};
use crate::player::Golfer;
use crate::player::club::Club;
use crate::player::pattern::strike_of;
use crate::units::Length;

/// The flight of one club's mean strike, in still air.
#[derive(Debug, Clone, PartialEq)]
pub struct Arc {
    /// Which club.
    pub club: Club,
    /// Places from the ground to the pitch: distance along the target line and height, yards.
    pub places_yd: Vec<(f64, f64)>,
    /// Carry, yards.
    pub carry_yd: f64,
    /// Greatest height, yards.
    pub apex_yd: f64,
    /// Angle of descent, degrees below the horizontal.
    pub descent_deg: f64,
}

/// The flights of some clubs, in the order they are named; a club the golfer does not carry is that of the clubs on
/// either side of it.
#[must_use]
pub fn arcs(golfer: &Golfer, clubs: &[Club]) -> Vec<Arc> {
    let atmosphere = Atmosphere::new(&Air::standard());
    let arc = |&club: &Club| {
        let strike = strike_of(&golfer.pattern_with(club)?.mean);
        let flight = fly(&strike, &atmosphere);
        let yards = |metres: f64| Length::from_m(metres).yd();
        let places = path(&strike, &atmosphere);
        Some(Arc {
            club,
            places_yd: places
                .iter()
                .map(|place| (yards(place.y), yards(place.z)))
                .collect(),
            carry_yd: flight.carry.yd(),
            apex_yd: flight.apex.yd(),
            descent_deg: flight.descent.deg(),
        })
    };
    clubs.iter().filter_map(arc).collect()
}
