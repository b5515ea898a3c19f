//! The course: its file, the geometry of its holes, and each hole's grid of lies.

pub mod grid;
pub mod hole;

pub use grid::{Lie, LieGrid};
pub use hole::{Course, Green, Hole, Point};
