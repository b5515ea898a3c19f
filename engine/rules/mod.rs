//! The replaceable rules of the model: what a lie does to a shot, and how far a ball runs on a green.

pub mod lies;
