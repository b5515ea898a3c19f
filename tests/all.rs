//! Every test of the project, in one binary.

mod bad_input;
mod ball;
mod course;
mod demo;
mod goal;
mod handicap;
mod identities;
mod player;
mod program;
mod published;
mod support;
