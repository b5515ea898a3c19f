//! Headers as practitioners write them: `Ball Speed (mph)`, `launch angle`, `SpinRate_rpm`, `Carry, m`.
//!
//! Capitals, blanks, underscores, brackets and commas do not count. Behind the name may stand a unit of the quantity and
//! nothing else, so that `Side Total` is no side and `Face to Path` no face.

use super::column_map::unit_for;
use super::quantity::{Quantity, Unit};
use crate::files::nearest;

/// Names without blanks. What could be one of two things (`Speed`, `Lie`, `Total`) is not among them.
const NAMES: [(Quantity, &[&str]); 17] = [
    (Quantity::BallSpeed, &["ballspeed", "ballvelocity"]),
    (
        Quantity::Launch,
        &[
            "launch",
            "launchangle",
            "verticallaunch",
            "verticallaunchangle",
            "launchanglevertical",
            "vla",
        ],
    ),
    (
        Quantity::Direction,
        &[
            "direction",
            "launchdirection",
            "startdirection",
            "horizontallaunch",
            "horizontallaunchangle",
            "launchanglehorizontal",
            "hla",
        ],
    ),
    (Quantity::Backspin, &["backspin", "backspinrate"]),
    (Quantity::Sidespin, &["sidespin", "sidespinrate"]),
    (Quantity::Spin, &["spin", "spinrate", "totalspin"]),
    (
        Quantity::SpinAxis,
        &["spinaxis", "spinaxisangle", "spinaxistilt", "spintilt"],
    ),
    (
        Quantity::Carry,
        &["carry", "carrydistance", "carryflat", "flatcarry"],
    ),
    (
        Quantity::Side,
        &["side", "carryside", "sidecarry", "offline", "carryoffline"],
    ),
    (
        Quantity::Apex,
        &[
            "apex",
            "apexheight",
            "height",
            "maxheight",
            "maximumheight",
            "peakheight",
        ],
    ),
    (
        Quantity::Descent,
        &[
            "descent",
            "descentangle",
            "angleofdescent",
            "landingangle",
            "landangle",
        ],
    ),
    (
        Quantity::ClubSpeed,
        &["clubspeed", "clubheadspeed", "headspeed", "swingspeed"],
    ),
    (
        Quantity::Attack,
        &["attack", "attackangle", "angleofattack", "aoa"],
    ),
    (Quantity::Path, &["path", "clubpath"]),
    (
        Quantity::Face,
        &[
            "face",
            "faceangle",
            "clubface",
            "clubfaceangle",
            "facetotarget",
        ],
    ),
    (
        Quantity::DynamicLoft,
        &["dynamicloft", "dynloft", "deliveredloft"],
    ),
    (Quantity::Lie, &["dynamiclie", "dynamiclieangle"]),
];

/// Further names of the column of clubs.
const CLUBS: [&str; 2] = ["clubtype", "clubname"];

/// What the column of who hit the shots is called.
const GOLFERS: [&str; 9] = [
    "player",
    "golfer",
    "student",
    "pupil",
    "spieler",
    "joueur",
    "jugador",
    "giocatore",
    "speler",
];

/// What exports hold beside what is read here, though it is called alike.
const OTHERS: [&str; 11] = [
    "total",
    "facetopath",
    "spinloft",
    "smash",
    "time",
    "impact",
    "type",
    "number",
    "name",
    "date",
    "plane",
];

/// A longer header is no name of anything.
const LONGEST: usize = 60;

/// The quantity that a header names, and the unit if it says one.
pub(super) fn quantity(header: &str) -> Option<(Quantity, Option<Unit>)> {
    let packed = packed(header)?;
    let named = names().filter_map(|(quantity, name)| {
        let rest = packed.strip_prefix(name)?;
        if rest.is_empty() {
            return Some((name, quantity, None));
        }
        // A single y is a coordinate as often as a yard.
        let unit = unit_for(rest, quantity.kind()).filter(|_| rest != "y")?;
        Some((name, quantity, Some(unit)))
    });
    let (_, quantity, unit) = named.max_by_key(|(name, ..)| name.len())?;
    Some((quantity, unit))
}

/// Whether a header names the column of clubs.
pub(super) fn is_club(header: &str) -> bool {
    packed(header).is_some_and(|packed| CLUBS.contains(&&*packed))
}

/// The quantity that a header which is not understood may mean.
pub(super) fn like(header: &str) -> Option<Quantity> {
    let packed = packed(header)?;
    if OTHERS.iter().any(|other| packed.contains(other)) {
        return None;
    }
    let within = names().filter(|(_, name)| name.len() > 3 && packed.contains(name));
    let within = within.max_by_key(|(_, name)| name.len());
    let near = || {
        let meant = nearest(&packed, names().map(|(_, name)| name))?;
        names().find(|(_, name)| *name == meant)
    };
    within.or_else(near).map(|(quantity, _)| quantity)
}

/// The unit at the end of a header, if it is one of a quantity.
pub(super) fn unit_of(header: &str, quantity: Quantity) -> Option<Unit> {
    any_unit_of(header).filter(|unit| unit.kind == quantity.kind())
}

/// The unit at the end of a header: in brackets, behind a comma, or as its last word.
pub(super) fn any_unit_of(header: &str) -> Option<Unit> {
    let end = header.trim_end().trim_end_matches([')', ']']);
    let from = end.rfind(['(', '[', ',', ' ', '_'])?;
    let text = &end[from + 1..];
    Unit::named(text).filter(|_| !text.eq_ignore_ascii_case("y"))
}

/// Whether a header names a distance that the ball did not only fly.
pub(super) fn is_total(header: &str) -> bool {
    packed(header).is_some_and(|packed| packed.contains("total"))
}

/// Whether a header names the column of who hit the shots.
pub(super) fn is_golfer(header: &str) -> bool {
    packed(header).is_some_and(|packed| {
        let named = packed.strip_suffix("name").unwrap_or(&packed);
        GOLFERS.contains(&named)
    })
}

fn names() -> impl Iterator<Item = (Quantity, &'static str)> {
    NAMES
        .iter()
        .flat_map(|(quantity, names)| names.iter().map(|name| (*quantity, *name)))
}

/// Small letters, digits and what units are written with; none for what is too long or empty.
fn packed(header: &str) -> Option<String> {
    if header.len() > LONGEST {
        return None;
    }
    let kept = header
        .chars()
        .filter(|c| c.is_alphanumeric() || matches!(c, '/' | '°' | '\''));
    let packed: String = kept.flat_map(char::to_lowercase).collect();
    Some(packed).filter(|packed| !packed.is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(header: &str) -> Option<(Quantity, Option<&'static str>)> {
        let (quantity, unit) = quantity(header)?;
        Some((quantity, unit.map(|unit| unit.suffix)))
    }

    #[test]
    fn headers_are_known_in_any_writing_with_or_without_a_unit() {
        for (header, wanted) in [
            ("Ball Speed", (Quantity::BallSpeed, None)),
            ("ball_speed", (Quantity::BallSpeed, None)),
            ("BallSpeed [mph]", (Quantity::BallSpeed, Some("mph"))),
            ("BALL SPEED (km/h)", (Quantity::BallSpeed, Some("kmh"))),
            ("Ball Speed, m/s", (Quantity::BallSpeed, Some("mps"))),
            ("ball speed mph", (Quantity::BallSpeed, Some("mph"))),
            ("Club Head Speed (mph)", (Quantity::ClubSpeed, Some("mph"))),
            ("Launch Angle", (Quantity::Launch, None)),
            ("Launch Angle (°)", (Quantity::Launch, Some("deg"))),
            ("Launch Direction [deg]", (Quantity::Direction, Some("deg"))),
            ("Spin Rate (U/min)", (Quantity::Spin, Some("rpm"))),
            ("Back Spin", (Quantity::Backspin, None)),
            ("side_spin_rpm", (Quantity::Sidespin, Some("rpm"))),
            ("Spin Axis", (Quantity::SpinAxis, None)),
            ("Carry (yds)", (Quantity::Carry, Some("yd"))),
            ("Carry m", (Quantity::Carry, Some("m"))),
            ("Offline, yards", (Quantity::Side, Some("yd"))),
            ("Height [ft]", (Quantity::Apex, Some("ft"))),
            ("Land. Angle", (Quantity::Descent, None)),
            ("Attack Angle", (Quantity::Attack, None)),
            ("Club Path [deg]", (Quantity::Path, Some("deg"))),
            ("Face Angle", (Quantity::Face, None)),
            ("Dynamic Loft", (Quantity::DynamicLoft, None)),
        ] {
            assert_eq!(read(header), Some(wanted), "{header}");
        }
    }

    #[test]
    fn what_could_be_something_else_is_not_taken() {
        for header in [
            "Speed",
            "Total",
            "Side Total",
            "Face to Path",
            "Spin Loft",
            "Smash Factor",
            "Launch Angle X",
            "Lie",
            "Side Y",
            "Carry (mph)",
            "Notes",
            "",
        ] {
            assert_eq!(read(header), None, "{header}");
        }
    }

    #[test]
    fn a_header_that_is_nearly_known_is_said_to_be() {
        assert_eq!(like("Launch Angle X"), Some(Quantity::Launch));
        assert_eq!(like("Lauch Angle"), Some(Quantity::Launch));
        assert_eq!(like("Avg Ball Speed"), Some(Quantity::BallSpeed));
        for header in [
            "Notes",
            "Side Total",
            "Smash Factor",
            "Shot",
            "Player",
            "Nr",
        ] {
            assert_eq!(like(header), None, "{header}");
        }
    }

    #[test]
    fn the_unit_of_any_header_is_read() {
        let unit = |header, quantity| unit_of(header, quantity).map(|unit| unit.suffix);
        assert_eq!(unit("Tempo [km/h]", Quantity::BallSpeed), Some("kmh"));
        assert_eq!(unit("Flugweite, m", Quantity::Carry), Some("m"));
        assert_eq!(unit("Flugweite m", Quantity::Carry), Some("m"));
        assert_eq!(unit("Tempo (m)", Quantity::BallSpeed), None);
        assert_eq!(unit("Tempo", Quantity::BallSpeed), None);
    }
}
