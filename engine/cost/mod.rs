//! What each part of the game costs: strokes lost, strokes saved, and the cost card.

pub mod card;
pub mod figures;
