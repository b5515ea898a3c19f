//! Playing: the shot bank, the choice of club and aim, holes solved for expected strokes, rounds and tallies.
//! This room knows nothing of cost: it plays, and counts.

pub mod bank;
mod candidates;
pub mod choose;
pub mod clubs;
pub mod counting;
pub mod draws;
pub mod finish;
pub mod ground;
pub mod nearness;
mod nodes;
pub mod part;
pub mod place;
pub mod play;
pub mod row;
pub mod ruled;
pub mod side;
pub mod solve;
pub mod spread;
pub mod stage;
mod sweep;
pub mod swing;
pub mod tally;
mod tee;
pub mod touch;
pub mod traffic;
pub mod values;
pub mod visits;
pub mod way;
