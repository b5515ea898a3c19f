//! What scripts are told: the names of fields, lies and kinds of clubs, and the inputs of a call in words.

use crate::course::Lie;
use crate::player::club::{Class, Club};
use crate::rules::count::ShotFacts;
use crate::rules::hold::{GreenAt, LandingFacts};
use crate::rules::worth::PartFacts;

/// The things a script is given or builds, each with its fields.
pub const THINGS: [(&str, &[&str]); 7] = [
    ("landing", &LANDING),
    ("green", &GREEN),
    ("club", &CLUB),
    ("part", &PART),
    ("shot", &SHOT),
    ("run", &RUN),
    ("effect", &EFFECT),
];

/// A full shot as it comes down.
pub const LANDING: [&str; 8] = [
    "speed_mph",
    "descent_deg",
    "backspin_rpm",
    "sidespin_rpm",
    "spin_rpm",
    "carry_yd",
    "club",
    "lie",
];
/// The green it pitches on.
pub const GREEN: [&str; 12] = [
    "hole",
    "depth_yd",
    "width_yd",
    "firmness",
    "stimp_ft",
    "slope_along_pct",
    "slope_across_pct",
    "from_front_yd",
    "from_back_yd",
    "from_left_yd",
    "from_right_yd",
    "from_edge_yd",
];
/// A club.
pub const CLUB: [&str; 3] = ["name", "kind", "loft_deg"];
/// A part of the game.
pub const PART: [&str; 5] = ["name", "saved_strokes", "lost_strokes", "shots", "measured"];
/// A shot of a round.
pub const SHOT: [&str; 12] = [
    "hole",
    "par",
    "stroke",
    "part",
    "club",
    "lie",
    "to_pin_yd",
    "left_yd",
    "over_water",
    "pitched",
    "ended",
    "penalty_strokes",
];
/// A run.
pub const RUN: [&str; 2] = ["run_yd", "side_yd"];
/// What a lie does.
pub const EFFECT: [&str; 5] = [
    "speed_factor",
    "spin_factor",
    "launch_deg",
    "spread_factor",
    "mishit_factor",
];

/// The functions a script may call beside those of the language.
pub const FUNCTIONS: [&str; 2] = ["usual_run", "usual_lie_effect"];

/// The word of a lie.
#[must_use]
pub const fn lie_name(lie: Lie) -> &'static str {
    match lie {
        Lie::Tee => "tee",
        Lie::Fairway => "fairway",
        Lie::Rough => "rough",
        Lie::Sand => "sand",
        Lie::Trees => "trees",
        Lie::Green => "green",
        Lie::Water => "water",
        Lie::OutOfBounds => "out of bounds",
    }
}

/// The lie of a word.
#[must_use]
pub(super) fn lie_named(name: &str) -> Option<Lie> {
    Lie::ALL.into_iter().find(|lie| lie_name(*lie) == name)
}

/// Where a shot ends that needs no other.
pub(super) const HOLED: &str = "holed";

/// Kinds of clubs.
pub(super) const KINDS: [&str; 4] = ["wood", "hybrid", "iron", "wedge"];

/// The word of a kind of club.
#[must_use]
pub(super) fn kind_name(club: Club) -> &'static str {
    let [wood, hybrid, iron, wedge] = KINDS;
    match club.class() {
        Class::Wood => wood,
        Class::Hybrid => hybrid,
        Class::Iron => iron,
        Class::Wedge => wedge,
    }
}

/// A landing in words, for a fault.
pub(super) fn landing_told(landing: &LandingFacts, green: &GreenAt) -> String {
    let club = landing.club.map(|club| format!(" of a {club}"));
    let facts = green.facts();
    let hole = match facts.hole {
        0 => String::new(),
        number => format!(" of hole {number}"),
    };
    format!(
        "a landing{} from {}: {:.1} mph, descent {:.1}°, backspin {:.0} rpm, on a green{hole} of firmness {}",
        club.unwrap_or_default(),
        lie_name(landing.lie),
        landing.speed().mph(),
        landing.descent().deg(),
        landing.backspin().rpm(),
        facts.surface.firmness.value(),
    )
}

/// A part in words, for a fault.
pub(super) fn part_told(part: &PartFacts) -> String {
    format!(
        "{}: saved_strokes {:.2}, lost_strokes {:.2}, shots {:.1}",
        part.part, part.saved, part.lost, part.shots
    )
}

/// A shot in words, for a fault.
pub(super) fn shot_told(shot: &ShotFacts) -> String {
    format!(
        "stroke {} on hole {}, from {}, {} yd from the hole",
        shot.stroke,
        shot.hole,
        lie_name(shot.lie),
        shot.to_pin_yd
    )
}
