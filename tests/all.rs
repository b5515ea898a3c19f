//! Every test of the project, in one binary.

mod published;
mod bad_input;
mod player;
