//! The nodes of a hole in the order in which values flow back from it.

use crate::course::{Hole, Lie};

use super::finish::Spot;
use super::part::SHORT_GAME_YD;
use super::place::Xy;
use super::values::{LAYER_LIES, Meshes};

/// One node of one layer.
#[derive(Debug, Clone, Copy)]
pub(super) struct State {
    pub mesh: usize,
    pub layer: usize,
    pub node: usize,
    pub spot: Spot,
}

/// Every needed node: those of the short game and the others, nearest the hole first, so that values
/// flow back from it.
pub(super) fn states(hole: &Hole, meshes: &Meshes) -> (Vec<State>, Vec<State>) {
    let pin = Xy::from(hole.pin);
    let mut states = Vec::new();
    for (mesh, needed) in meshes.needed.iter().enumerate() {
        for (layer, nodes) in needed.iter().enumerate() {
            states.extend(nodes.iter().map(|&node| {
                let at = meshes.meshes[mesh].place(node as usize);
                let lie: Lie = LAYER_LIES[layer];
                State {
                    mesh,
                    layer,
                    node: node as usize,
                    spot: Spot { at, lie },
                }
            }));
        }
    }
    let away = |state: &State| pin.seen_from(state.spot.at).length();
    states.sort_by(|a, b| away(a).total_cmp(&away(b)));
    states
        .into_iter()
        .partition(|state| to_green_yd(hole, state.spot.at) <= SHORT_GAME_YD)
}

/// Distance to the green's edge, yards.
#[must_use]
pub fn to_green_yd(hole: &Hole, at: Xy) -> f32 {
    hole.grid.to_green_yd(f64::from(at.x), f64::from(at.y)) as f32
}
