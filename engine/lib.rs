//! Costcard turns measured golf shots into strokes on a course.
//!
//! The rooms follow the data's way, and a room may use only those above it:
//! [`units`] → [`files`] → [`ball`] → [`player`] → [`course`] → [`rules`] → [`round`] → [`cost`] → [`study`] → [`show`].

pub mod units;

pub mod files;

pub mod ball;

pub mod player;

pub mod course;

pub mod rules;

pub mod round;

pub mod cost;

pub mod study;

pub mod show;
