//! Every test of the project, in one binary.

mod player;
