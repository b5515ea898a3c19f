//! A putt: direction and distance error, and capture at the hole.
