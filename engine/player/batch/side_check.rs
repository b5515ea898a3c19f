//! Sheets in which start direction, sidespin, or where balls were measured to end, counts left as positive while the rest
//! counts right.
//!
//! Ball by ball the launch says to which side a ball ends. Air and devices blur that; a sign that is wrong turns it round.

use super::figures::Figures;
use super::quantity::Quantity;
use super::reference::median;
use super::screen::checking_air;
use super::{Shot, SideDoubt};
use crate::ball::air::Atmosphere;
use crate::ball::flight::fly;
use crate::player::pattern::strike_of;

/// Fewer balls say nothing of a sheet.
const LEAST: usize = 10;
/// Balls that are flown, taken evenly.
const MOST_FLOWN: usize = 200;
/// Ends this near those of the launches are as they should be, yards.
const NEAR_YD: f64 = 2.0;
/// With the right sign the ends are nearer than this share of what they are off without it.
const MUCH_NEARER: f64 = 0.4;

/// The column whose sign is most likely the other one.
pub(super) fn doubt(file: usize, shots: &[&Shot]) -> Option<SideDoubt> {
    let air = checking_air();
    let told: Vec<&&Shot> = shots.iter().filter(|shot| is_told(&shot.figures)).collect();
    let step = told.len().div_ceil(MOST_FLOWN).max(1);
    let few = || told.iter().step_by(step).map(|shot| &shot.figures);
    if told.len() < LEAST {
        return None;
    }
    let off = |signs: Signs| {
        let each = few().filter_map(|figures| off_yd(figures, signs, &air));
        median(&mut each.collect::<Vec<f64>>())
    };
    let as_told = off([1.0; 3]);
    let others = [
        (Quantity::Sidespin, [1.0, -1.0, 1.0]),
        (Quantity::Side, [1.0, 1.0, -1.0]),
        (Quantity::Direction, [-1.0, 1.0, 1.0]),
    ];
    let others = others.map(|(column, signs)| (column, off(signs)));
    let (column, best) = others
        .into_iter()
        .min_by(|(_, one), (_, other)| one.total_cmp(other))?;
    (as_told > NEAR_YD && best < MUCH_NEARER * as_told).then_some(SideDoubt { file, column })
}

/// By what start direction, sidespin and side are taken.
type Signs = [f64; 3];

fn is_told(figures: &Figures) -> bool {
    let all = Quantity::STRIKE.into_iter().chain([Quantity::Side]);
    all.into_iter()
        .all(|quantity| figures.measured(quantity).is_some())
}

/// How far a ball was measured to end from where its launch flies, with signs taken so.
fn off_yd(figures: &Figures, [direction, spin, side]: Signs, air: &Atmosphere) -> Option<f64> {
    let [a, b, c, d, e] = Quantity::STRIKE.map(|quantity| figures.measured(quantity));
    let flown = fly(&strike_of(&[a?, b?, direction * c?, d?, spin * e?]), air)
        .side
        .yd();
    Some((side * figures.measured(Quantity::Side)? - flown).abs())
}
