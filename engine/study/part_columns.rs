//! The columns of the parts of the game.

use super::columns::Holds::{Number, Text, YesNo};
use super::columns::{Column, column};

/// What follows in `parts.csv`: one row for each part of the game of each cell with a goal.
pub const PARTS: [Column; 19] = [
    column("part", Text, "", "part of the game"),
    column(
        "saved",
        Number,
        "strokes a round",
        "fall of the expected score with this part alone at the goal's standard",
    ),
    column(
        "lost",
        Number,
        "strokes a round",
        "strokes lost to the goal's golfer; below zero the player gains",
    ),
    column(
        "measured",
        YesNo,
        "",
        "whether the player's own shots stand behind the part; else it is assumed",
    ),
    column("shots", Number, "shots a round", "shots of the part"),
    column(
        "held_pct",
        Number,
        "percent",
        "full shots of the part that pitched on a green and stayed on it",
    ),
    column(
        "goal_held_pct",
        Number,
        "percent",
        "the same of the goal's golfer",
    ),
    column(
        "worth",
        Number,
        "",
        "worth by the rule that orders the parts; empty without one",
    ),
    column(
        "low",
        Number,
        "strokes a round",
        "with detail: lower end of the 90 % interval of saved",
    ),
    column(
        "high",
        Number,
        "strokes a round",
        "with detail: upper end of the 90 % interval of saved",
    ),
    column(
        "likely",
        Number,
        "strokes a round",
        "with detail: what the part saves in the mean of the golfers who could be the player",
    ),
    column(
        "first_chance",
        Number,
        "chance, 0 to 1",
        "with detail: chance that the part saves most of all",
    ),
    column(
        "share",
        Number,
        "strokes a round",
        "with detail: share of the gap",
    ),
    column(
        "saved_by_speed",
        Number,
        "strokes a round",
        "with detail: what the part's ball speed alone at the goal's standard saves",
    ),
    column(
        "saved_by_direction_bias",
        Number,
        "strokes a round",
        "with detail: its mean direction alone",
    ),
    column(
        "saved_by_direction_spread",
        Number,
        "strokes a round",
        "with detail: its spread to the sides alone",
    ),
    column(
        "saved_by_distance_control",
        Number,
        "strokes a round",
        "with detail: its distance control alone",
    ),
    column(
        "saved_by_height_and_spin",
        Number,
        "strokes a round",
        "with detail: its height and spin alone",
    ),
    column(
        "saved_by_mishits",
        Number,
        "strokes a round",
        "with detail: its mishits alone",
    ),
];
