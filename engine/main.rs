//! The program `costcard`.

fn main() {}
