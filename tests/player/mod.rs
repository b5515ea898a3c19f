//! The room engine/player seen from outside.

mod fit;
mod sampling;
