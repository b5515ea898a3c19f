//! The room engine/player seen from outside.

#![allow(clippy::unwrap_used)] // a test may stop

mod columns;
mod compare;
mod compare_loft;
mod coverage;
mod delivery;
mod fit;
mod levels;
mod players;
mod sampling;
mod screening;
mod sheets;
mod written;
