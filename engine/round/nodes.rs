//! The nodes of a hole in the order in which values flow back from it.

use std::collections::HashMap;

use crate::course::{Hole, Lie};

use super::finish::Spot;
use super::part::SHORT_GAME_YD;
use super::place::Xy;
use super::values::{LAYER_LIES, Meshes};

/// One node of one layer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct State {
    pub mesh: usize,
    pub layer: usize,
    pub node: usize,
    pub spot: Spot,
}

/// Every needed node of a hole, nearest the hole first, so that values flow back from it.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Nodes {
    /// Those of the short game.
    pub near: Vec<State>,
    /// The others.
    pub far: Vec<State>,
    /// By far node: the landmarks around it, by their places among the far nodes; itself for a landmark, and where
    /// there is none around.
    pub leaders: Vec<Vec<u32>>,
    /// The places of the far nodes.
    pub places: Vec<u32>,
}

impl Nodes {
    pub fn of(hole: &Hole, meshes: &Meshes) -> Self {
        let (near, far) = states(hole, meshes);
        let places: HashMap<_, u32> = (0..)
            .zip(&far)
            .map(|(place, state)| ((state.mesh, state.layer, state.node), place))
            .collect();
        let leaders = (0..).zip(&far).map(|(place, state)| {
            let mesh = &meshes.meshes[state.mesh];
            if mesh.is_landmark(state.node) {
                return vec![place];
            }
            let around = mesh
                .around(state.node)
                .filter(|node| mesh.is_landmark(*node));
            let leaders = around.filter_map(|node| places.get(&(state.mesh, state.layer, node)));
            let leaders: Vec<u32> = leaders.copied().collect();
            if leaders.is_empty() {
                vec![place]
            } else {
                leaders
            }
        });
        Self {
            leaders: leaders.collect(),
            places: (0..far.len() as u32).collect(),
            near,
            far,
        }
    }
}

fn states(hole: &Hole, meshes: &Meshes) -> (Vec<State>, Vec<State>) {
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
