//! The clubs of a bag: how their names are read and written, their order, class and usual loft.

use std::cmp::Ordering;
use std::fmt;
use std::str::FromStr;

use crate::units::Angle;

/// A golf club. Clubs order longest first: `Club::Driver < Club::Iron(7)`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Club {
    /// The driver.
    Driver,
    /// A fairway wood by number, 2 to 11.
    Wood(u8),
    /// A hybrid by number, 1 to 8.
    Hybrid(u8),
    /// An iron by number, 1 to 9.
    Iron(u8),
    /// Pitching wedge.
    PitchingWedge,
    /// Gap wedge.
    GapWedge,
    /// Sand wedge.
    SandWedge,
    /// Lob wedge.
    LobWedge,
}

/// The family a club belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Class {
    /// Driver and fairway woods.
    Wood,
    /// Hybrids.
    Hybrid,
    /// Numbered irons.
    Iron,
    /// Pitching wedge to lob wedge.
    Wedge,
}

/// A name that is no club's.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub struct UnknownClub {
    /// What was written.
    pub given: String,
    /// The club whose name is nearest to it, when one is near.
    pub nearest: Option<Club>,
}

impl UnknownClub {
    /// What to write instead.
    #[must_use]
    pub fn hint(&self) -> String {
        match self.nearest {
            Some(club) => format!("did you mean \"{club}\"?"),
            None => {
                "write it like \"driver\", \"3 wood\", \"5 hybrid\", \"7 iron\" or \"sand wedge\""
                    .to_owned()
            }
        }
    }
}

impl fmt::Display for UnknownClub {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "unknown club \"{}\": {}", self.given, self.hint())
    }
}

impl Club {
    /// Every club there is, longest first.
    #[must_use]
    pub fn all() -> Vec<Club> {
        let mut all = vec![
            Club::Driver,
            Club::PitchingWedge,
            Club::GapWedge,
            Club::SandWedge,
            Club::LobWedge,
        ];
        all.extend((2..=11).map(Club::Wood));
        all.extend((1..=8).map(Club::Hybrid));
        all.extend((1..=9).map(Club::Iron));
        all.sort();
        all
    }

    /// The family of the club.
    #[must_use]
    pub const fn class(self) -> Class {
        match self {
            Club::Driver | Club::Wood(_) => Class::Wood,
            Club::Hybrid(_) => Class::Hybrid,
            Club::Iron(_) => Class::Iron,
            _ => Class::Wedge,
        }
    }

    /// The usual loft of the club (common practice, no published source).
    #[must_use]
    pub fn typical_loft(self) -> Angle {
        const HYBRIDS_DEG: [f64; 8] = [14.5, 17.0, 19.5, 22.0, 25.0, 28.0, 31.0, 34.0];
        const IRONS_DEG: [f64; 9] = [15.0, 17.5, 20.0, 23.0, 26.0, 29.5, 33.0, 37.0, 41.0];
        let numbered = |lofts: &[f64], number: u8| {
            let last = lofts.len() - 1;
            lofts[usize::from(number).saturating_sub(1).min(last)]
        };
        Angle::from_deg(match self {
            Club::Driver => 10.5,
            Club::Wood(number) => 15.0 + 1.5 * (f64::from(number) - 3.0),
            Club::Hybrid(number) => numbered(&HYBRIDS_DEG, number),
            Club::Iron(number) => numbered(&IRONS_DEG, number),
            Club::PitchingWedge => 45.0,
            Club::GapWedge => 50.0,
            Club::SandWedge => 55.0,
            Club::LobWedge => 60.0,
        })
    }

    /// Whether it is played from every lie, bunkers among them: woods are not.
    #[must_use]
    pub const fn is_for_every_lie(self) -> bool {
        !matches!(self, Club::Driver | Club::Wood(_))
    }

    /// Driver, fairway woods, hybrids, irons 1 to 4.
    #[must_use]
    pub fn is_long(self) -> bool {
        matches!(self.class(), Class::Wood | Class::Hybrid) || matches!(self, Club::Iron(1..=4))
    }

    /// Irons 5 to 7.
    #[must_use]
    pub const fn is_mid(self) -> bool {
        matches!(self, Club::Iron(5..=7))
    }

    /// Irons 8 and 9 and the wedges.
    #[must_use]
    pub fn is_short(self) -> bool {
        !self.is_long() && !self.is_mid()
    }

    /// Where the club stands in the bag: the loft of an iron that goes as far, degrees.
    ///
    /// A longer shaft makes a wood go as far as an iron of 3° less, a hybrid of 1.5° less (common practice).
    #[must_use]
    pub fn iron_loft_deg(self) -> f64 {
        let longer_deg = match self.class() {
            Class::Wood => 3.0,
            Class::Hybrid => 1.5,
            Class::Iron | Class::Wedge => 0.0,
        };
        self.typical_loft().deg() - longer_deg
    }
}

impl Ord for Club {
    fn cmp(&self, other: &Self) -> Ordering {
        self.iron_loft_deg()
            .total_cmp(&other.iron_loft_deg())
            .then(self.class().cmp(&other.class()))
    }
}

impl PartialOrd for Club {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

/// By its name, as in files.
impl serde::Serialize for Club {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl fmt::Display for Club {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Club::Driver => f.pad("driver"),
            Club::Wood(number) => f.pad(&format!("{number} wood")),
            Club::Hybrid(number) => f.pad(&format!("{number} hybrid")),
            Club::Iron(number) => f.pad(&format!("{number} iron")),
            Club::PitchingWedge => f.pad("pitching wedge"),
            Club::GapWedge => f.pad("gap wedge"),
            Club::SandWedge => f.pad("sand wedge"),
            Club::LobWedge => f.pad("lob wedge"),
        }
    }
}

impl FromStr for Club {
    type Err = UnknownClub;

    /// Reads a club's name in any case, spacing and order: `7 iron`, `Iron 7`, `7i`, `Eisen 7`, `PW`, `sand wedge`; a
    /// wedge by its loft too: `56°`.
    ///
    /// ```
    /// use costcard::player::club::Club;
    /// assert_eq!("7-Iron".parse(), Ok(Club::Iron(7)));
    /// assert_eq!("Hybrid 4".parse(), Ok(Club::Hybrid(4)));
    /// assert_eq!("pw".parse(), Ok(Club::PitchingWedge));
    /// assert_eq!("P Wedge".parse(), Ok(Club::PitchingWedge));
    /// ```
    fn from_str(text: &str) -> Result<Self, UnknownClub> {
        let packed = packed(text);
        named(&packed)
            .or_else(|| numbered(&packed))
            .or_else(|| lofted(&packed).map(|(club, _)| club))
            .ok_or_else(|| UnknownClub {
                given: text.to_string(),
                nearest: nearest(&packed),
            })
    }
}

/// Small letters and digits alone.
fn packed(text: &str) -> String {
    let kept = text.chars().filter(|c| c.is_alphanumeric());
    kept.flat_map(char::to_lowercase).collect()
}

/// Whether a name is that of a putter, which is no club of full swings.
pub(super) fn is_putter(text: &str) -> bool {
    matches!(&*packed(text), "putter" | "putt" | "pt")
}

/// The loft, whole degrees, where a name says one: `56°`, `SW 56`.
pub(super) fn loft_named(text: &str) -> Option<u8> {
    lofted(&packed(text)).map(|(_, loft)| loft)
}

/// Clubs without a number, from the name without spaces.
fn named(packed: &str) -> Option<Club> {
    Some(match packed {
        "driver" | "d" | "dr" => Club::Driver,
        "pitchingwedge" | "pwedge" | "pw" => Club::PitchingWedge,
        "gapwedge" | "gwedge" | "gw" | "approachwedge" | "aw" | "utilitywedge" | "uw" => {
            Club::GapWedge
        }
        "sandwedge" | "swedge" | "sw" => Club::SandWedge,
        "lobwedge" | "lwedge" | "lw" => Club::LobWedge,
        _ => return None,
    })
}

/// Clubs with a number before or behind, from the name without spaces.
fn numbered(packed: &str) -> Option<Club> {
    let (number, kind, is_behind) = number_and_rest(packed)?;
    match kind {
        "wood" | "w" | "holz" if number == 1 => Some(Club::Driver),
        "wood" | "w" | "fairwaywood" | "fairway" | "fw" | "holz" if (2..=11).contains(&number) => {
            Some(Club::Wood(number))
        }
        // H3 is a hybrid to some and a Holz, a wood, to others.
        "h" if is_behind => None,
        "hybrid" | "h" | "hy" | "hyb" | "rescue" if (1..=8).contains(&number) => {
            Some(Club::Hybrid(number))
        }
        "iron" | "i" | "eisen" | "e" if (1..=9).contains(&number) => Some(Club::Iron(number)),
        _ => None,
    }
}

/// Lofts that only wedges have, degrees.
const WEDGE_LOFTS: std::ops::RangeInclusive<u8> = 43..=64;

/// A wedge by its loft, and the loft, from the name without spaces: the one it is called, else the one of nearest loft.
fn lofted(packed: &str) -> Option<(Club, u8)> {
    let packed = ["degrees", "degree", "grad", "deg"]
        .into_iter()
        .find_map(|unit| packed.strip_suffix(unit))
        .unwrap_or(packed);
    let (loft, rest, _) = number_and_rest(packed)?;
    if !WEDGE_LOFTS.contains(&loft) {
        return None;
    }
    if !matches!(rest, "" | "wedge" | "w") {
        let club = named(rest).filter(|club| club.class() == Class::Wedge)?;
        return Some((club, loft));
    }
    let wedges = Club::all().into_iter();
    let wedges = wedges.filter(|club| club.class() == Class::Wedge);
    let off = |club: &Club| (club.typical_loft().deg() - f64::from(loft)).abs();
    let club = wedges.min_by(|a, b| off(a).total_cmp(&off(b)))?;
    Some((club, loft))
}

/// The number before or behind a name, the name, and whether the number stood behind.
fn number_and_rest(packed: &str) -> Option<(u8, &str, bool)> {
    let rest = packed.trim_start_matches(|c: char| c.is_ascii_digit());
    let digits = &packed[..packed.len() - rest.len()];
    if !digits.is_empty() {
        return Some((digits.parse().ok()?, rest, false));
    }
    let rest = packed.trim_end_matches(|c: char| c.is_ascii_digit());
    Some((packed[rest.len()..].parse().ok()?, rest, true))
}

/// The club whose full name is most like what was written. Of another number it is another club.
fn nearest(packed: &str) -> Option<Club> {
    let digits = |name: &str| -> String { name.chars().filter(char::is_ascii_digit).collect() };
    let of_number = |club: &Club| digits(&club.to_string()) == digits(packed);
    let likeness = |club: &Club| {
        let name: String = club.to_string().split(' ').collect();
        strsim::damerau_levenshtein(&name, packed)
    };
    let best = Club::all()
        .into_iter()
        .filter(of_number)
        .min_by_key(likeness)?;
    (likeness(&best) <= 2.max(packed.len() / 3)).then_some(best)
}

#[cfg(test)]
#[allow(clippy::unwrap_used)] // a test may stop
mod tests {
    use super::*;

    #[test]
    fn every_club_is_read_back_from_its_own_name() {
        for club in Club::all() {
            assert_eq!(club.to_string().parse(), Ok(club));
        }
    }

    #[test]
    fn names_are_read_in_any_case_and_spacing() {
        for (text, club) in [
            ("7-iron", Club::Iron(7)),
            ("7i", Club::Iron(7)),
            (" 7  Iron ", Club::Iron(7)),
            ("3 Wood", Club::Wood(3)),
            ("5H", Club::Hybrid(5)),
            ("PW", Club::PitchingWedge),
            ("Sand Wedge", Club::SandWedge),
            ("Iron 7", Club::Iron(7)),
            ("i7", Club::Iron(7)),
            ("Eisen 7", Club::Iron(7)),
            ("E7", Club::Iron(7)),
            ("Holz 3", Club::Wood(3)),
            ("Holz 1", Club::Driver),
            ("Wood 5", Club::Wood(5)),
            ("Hybrid 4", Club::Hybrid(4)),
            ("4 Rescue", Club::Hybrid(4)),
            ("UW", Club::GapWedge),
        ] {
            assert_eq!(text.parse(), Ok(club), "{text}");
        }
    }

    #[test]
    fn a_wedge_is_read_by_its_loft() {
        for (text, club, loft) in [
            ("46", Club::PitchingWedge, 46),
            ("52°", Club::GapWedge, 52),
            ("56", Club::SandWedge, 56),
            ("SW 56", Club::SandWedge, 56),
            ("56 deg", Club::SandWedge, 56),
            ("60 wedge", Club::LobWedge, 60),
            ("GW54", Club::GapWedge, 54),
        ] {
            assert_eq!(text.parse(), Ok(club), "{text}");
            assert_eq!(loft_named(text), Some(loft), "{text}");
        }
        for text in ["7", "30", "70", "456", "PW"] {
            assert_eq!(loft_named(text), None, "{text}");
        }
    }

    #[test]
    fn a_name_of_two_clubs_or_of_none_is_not_guessed() {
        for text in [
            "H3", "7", "30", "Putter", "mallet", "Iron 12", "456", "wedge",
        ] {
            let unknown = text.parse::<Club>().unwrap_err();
            assert_eq!(unknown.nearest, None, "{text}");
        }
        assert!(is_putter("Putter") && !is_putter("7 iron"));
        assert_eq!(
            "7 irno".parse::<Club>().unwrap_err().nearest,
            Some(Club::Iron(7))
        );
    }

    #[test]
    fn an_unknown_name_gets_the_nearest_club_or_the_way_to_write_one() {
        let message = |text: &str| text.parse::<Club>().unwrap_err().to_string();
        assert_eq!(
            message("7 irn"),
            "unknown club \"7 irn\": did you mean \"7 iron\"?"
        );
        assert_eq!(
            message("sandwege"),
            "unknown club \"sandwege\": did you mean \"sand wedge\"?"
        );
        assert_eq!(
            message("mallet"),
            "unknown club \"mallet\": write it like \"driver\", \"3 wood\", \"5 hybrid\", \"7 iron\" or \"sand wedge\""
        );
    }

    #[test]
    fn clubs_order_longest_first() {
        let mut bag: Vec<Club> = ["sw", "5i", "driver", "4h", "pw", "3w", "7w", "9i"]
            .iter()
            .filter_map(|name| name.parse().ok())
            .collect();
        bag.sort();
        let names: Vec<String> = bag.iter().map(ToString::to_string).collect();
        assert_eq!(
            names.join(", "),
            "driver, 3 wood, 7 wood, 4 hybrid, 5 iron, 9 iron, pitching wedge, sand wedge"
        );
    }

    #[test]
    fn long_mid_and_short_cover_every_club_once() {
        for club in Club::all() {
            let kinds = [club.is_long(), club.is_mid(), club.is_short()];
            assert_eq!(kinds.iter().filter(|&&is| is).count(), 1, "{club}");
        }
        assert!(Club::Iron(4).is_long() && Club::Iron(5).is_mid() && Club::Iron(8).is_short());
    }
}
