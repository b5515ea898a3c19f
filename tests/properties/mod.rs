//! What must hold of each room whatever it is given: mirrored, harder, faster, there and back. Cheap ones; those that
//! solve holes stand in `identities.rs`.

#![allow(clippy::unwrap_used)] // a test may stop

mod ball;
mod cost;
mod course;
mod player;
mod rules;
mod show;
