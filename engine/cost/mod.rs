//! What each part of the game costs: strokes lost, strokes saved, the cost card, and what a change is worth.

pub mod card;
pub mod figures;
pub mod worth;
