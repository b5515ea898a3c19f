//! The room engine/ball seen from outside.

#![allow(clippy::unwrap_used)] // a test may stop

mod invert;
