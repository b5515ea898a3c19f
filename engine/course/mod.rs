//! The course: its file, the geometry of its holes, and each hole's grid of lies.
//!
//! A course file becomes, hole by hole, a [`plan`] of shapes, and the plan a grid of 1 yd cells. What a file may say is
//! written in [`mod@file`].
//!
//! ```
//! use costcard::course::{Course, Lie};
//! use costcard::files::Source;
//!
//! let text = "name = 'One Hole'\n[[holes]]\npar = 3\nlength_yd = 140\ngreen = { depth_yd = 28, width_yd = 26 }";
//! let course = Course::read(&Source::new("one.toml", text))?;
//! let hole = &course.holes[0];
//! assert_eq!(hole.grid.lie(0.0, 0.0), Lie::Tee);
//! assert_eq!(hole.grid.lie(hole.pin.x_yd, hole.pin.y_yd), Lie::Green);
//! # Ok::<(), costcard::files::Faults>(())
//! ```

pub mod carry;
mod day;
mod distance;
pub mod embedded;
pub mod file;
pub mod grid;
pub mod hole;
pub mod import;
pub mod line;
pub mod par;
pub mod pins;
pub mod plan;
pub mod rating;
pub mod shape;

pub use day::Day;
pub use file::Conditions;
pub use grid::{Lie, LieGrid};
pub use hole::{Course, Green, Hole, HoleTee, Point, RuleFile, TeeSet};
pub use pins::{PinSheet, Pins, Setup};
pub use rating::{Rating, Ratings};
