//! Pictures: what they show, and that it is true to scale.

mod curves;
mod holes;
mod pictures;
mod shares;
mod svg;
