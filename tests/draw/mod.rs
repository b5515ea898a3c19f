//! Pictures: what they show, and that it is true to scale.

#![allow(clippy::expect_used)] // a test may stop

mod curves;
mod holes;
mod pictures;
mod shares;
mod svg;
