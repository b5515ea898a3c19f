//! What each part of the game costs: strokes lost, strokes saved, and the cost card; and what scores make of a golfer:
//! the handicap index, and the rating of a course.

pub mod card;
pub mod figures;
pub mod goal;
pub mod handicap;
pub mod infer;
pub mod rated;
pub mod rating;
mod venue;
