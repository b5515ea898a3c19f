//! Every test of the project, in one binary.

mod bad_input;
mod ball;
mod changes;
mod cost;
mod course;
mod demo;
mod desk;
mod disk;
mod draw;
mod fuzz;
mod goal;
mod handicap;
mod hostile;
mod identities;
mod import;
mod licences;
mod player;
mod program;
mod properties;
mod published;
mod rooms;
mod rules;
mod schemas;
mod study;
mod support;
