//! Courses from maps.

#![allow(clippy::expect_used)] // a test may stop

mod extract;
mod forms;
mod ground;
mod groups;
mod holes;
mod hostile;
mod program;
mod sketch;
mod written;
