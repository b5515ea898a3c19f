//! The room engine/player seen from outside.

mod fit;
mod levels;
mod players;
mod sampling;
